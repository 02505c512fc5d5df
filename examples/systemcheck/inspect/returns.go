package inspect

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// returned asks of each circuit whose current a hull or chassis brings back whether
// the code allows that.
func returned(m *model) ([]Finding, error) {
	rule, set := m.returnRule()
	var all []Finding
	for _, r := range m.runs {
		if r.Return != "chassis" {
			continue
		}
		f := Finding{Where: r.Name, Path: r.path, RuleSet: set, Source: rule.Source}
		if !rule.Stated() {
			f.Check = working.Check{ID: "W08", Silent: set + " asks no cable for it"}
		} else {
			var w working.Working
			w.LookUp("n_rd", rule)
			w.Given("n_rf", decimal.Zero)
			f.Check = w.Check("W08", "", "n_rd", "n_rf")
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("W08", "the circuits", "circuits", "each has a cable back"), nil
	}
	return all, nil
}

// returnRule is what the set asks to bring the current back, and where it asks
// nothing what another one of the same craft does if that is a boat: water makes a
// hull that carries current corrode, whoever judges it.
func (m *model) returnRule() (working.Figure, string) {
	if m.set.Return.Stated() || m.job.Craft != "boat" {
		return m.set.Return, m.set.Name
	}
	of := tables.RuleSets()
	i := slices.IndexFunc(of, func(s tables.RuleSet) bool { return s.Return.Stated() && !s.Yardstick(m.job.Craft) })
	return of[i].Return, of[i].Name
}
