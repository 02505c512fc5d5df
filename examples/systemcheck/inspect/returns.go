package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// returned asks of each circuit whose current a hull or chassis brings back whether
// the code allows that, and where it does what such a return wants as a conductor.
func returned(m *model) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
		if r.Return != "chassis" {
			continue
		}
		f := m.returnAllowed(r)
		all = append(all, f)
		if f.Verdict() == working.Fails {
			continue
		}
		all = append(all, r.returnMeasured()...)
		strap, err := m.strapped(r)
		if err != nil {
			return nil, working.In(r.path, err)
		}
		all = append(all, strap...)
	}
	if len(all) == 0 {
		return notHere("W08", "the circuits", "circuits", "each has a cable back"), nil
	}
	return all, nil
}

// returnAllowed judges a return by how many cables the code asks for it.
func (m *model) returnAllowed(r *run) Finding {
	rule, set := m.returnRule()
	f := Finding{Where: r.Name, Path: r.path, RuleSet: set, Source: rule.Source}
	if !rule.Stated() {
		f.Check = working.Check{ID: "W08", Silent: set + " asks no cable for it"}
		return f
	}
	var w working.Working
	w.LookUp("n_rd", rule)
	w.Given("n_rf", decimal.Zero)
	f.Check = w.Check("W08", "", "n_rd", "n_rf")
	return f
}

// returnMeasured asks for what no chassis is without: a resistance, and bolts and lugs
// that have one.
func (r *run) returnMeasured() []Finding {
	for _, x := range []struct {
		milliohm decimal.Decimal
		missing  string
	}{
		{r.ChassisMilliohm.Decimal, "measure the volts along the chassis at a known current and state chassis_milliohm: no frame has 0 mΩ"},
		{r.ContactsMilliohm, "measure the volts across the contacts of the loop, those to the chassis too, at a known current and state contacts_milliohm: none have 0 mΩ"},
	} {
		if !x.milliohm.IsPositive() {
			return []Finding{{Where: r.Name + ", its return", Path: r.path, Check: working.Check{ID: "W08", Missing: x.missing}}}
		}
	}
	return nil
}

// strapped judges the thinnest cable of a chassis return, where the job states it, as
// what it is: a conductor that carries the same current behind the same device. It
// lies as the run does, one for each of its cables.
func (m *model) strapped(r *run) ([]Finding, error) {
	if r.ReturnSize == (tables.Size{}) {
		return nil, nil
	}
	c := r.Circuit
	c.Size = r.ReturnSize
	strap, err := newRun(c, m.set, r.path)
	if err != nil {
		return nil, err
	}
	f := Finding{Where: r.Name + ", the cable of its return", Path: r.path, RuleSet: m.set.Name, Corner: r.worst}
	if strap.noAmps != nil {
		f.Check = working.Check{ID: "W08", Missing: noAmpacityText}
		return []Finding{f}, nil
	}
	w := working.Start(strap.ampacity.Working)
	w.Given("I_b", r.designA)
	demand := "I_b"
	if rating := r.guardA(); rating.GreaterThan(r.designA) {
		w.Given("I_n", rating)
		demand = "I_n"
	}
	f.Check = w.Check("W08", "", demand, "I_z")
	return []Finding{f}, nil
}

// guardA is the larger rating of the devices of a run: the return carries whatever
// they let pass; 0 where it has none.
func (r *run) guardA() decimal.Decimal {
	most := decimal.Zero
	for _, d := range []*job.Device{r.Device, r.FarDevice} {
		if d != nil {
			most = decimal.Max(most, d.RatingA)
		}
	}
	return most
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
