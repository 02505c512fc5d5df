package rules

import (
	"cmp"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working"
)

// Judge asks every rule, and sorts the findings by danger.
func Judge(m *facts.Facts) ([]Finding, error) { return Ask(m, every...) }

// Ask asks some rules, and sorts the findings by danger.
func Ask(m *facts.Facts, asked ...Rule) ([]Finding, error) {
	var all []Finding
	for _, r := range asked {
		found, err := r.Judge(m)
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			f.Check = r.tellable(m, f.Check)
			f.Rule, f.Title, f.Rank = r.ID, r.Title, rankOf(r)
			f.Danger = cmp.Or(f.Danger, r.Danger)
			all = append(all, f)
		}
	}
	sortFindings(all)
	return all, nil
}

// tellable takes back a pass that rests on currents which nobody knows, or on a
// resistance.
func (r Rule) tellable(m *facts.Facts, c working.Check) working.Check {
	if c.Verdict() != working.Passes {
		return c
	}
	if r.RestsOn&Currents != 0 && m.Collapsed() {
		return working.Check{ID: c.ID, Title: c.Title, Silent: collapsedText}
	}
	name := m.Unknown()
	if name == "" || r.RestsOn&Resistance == 0 {
		return c
	}
	return working.Check{ID: c.ID, Title: c.Title, Missing: "measure the resistance of " + name + " first (see B17): no typical range is listed for such a battery"}
}
