package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofReturns = []Rule{
	{
		ID: "W08", Title: "The return is a conductor where the code wants one",
		Danger:  "current finds its way through hull, fittings and bearings: they corrode, and a joint in it may burn",
		Why:     "what brings the current back is a conductor too; some codes allow no hull or frame as one",
		Sources: []string{"ISO 10133:2012"},
		Grade:   Dangerous, Rank: 230,
		Advice: "lay a cable back beside the one out",
		Worse: []Growth{
			{"circuits.return_size", "thinner"},
		},
		Judge: returned,
	},
}

// returned asks of each circuit whose current a hull or chassis brings back whether
// the code allows that, and where it does what such a return wants as a conductor.
func returned(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, r := range m.Runs {
		if r.Return != "chassis" {
			continue
		}
		f := returnAllowed(m, r)
		all = append(all, f)
		if f.Verdict() == working.Fails {
			continue
		}
		all = append(all, returnMeasured(r)...)
		strap, err := strapped(m, r)
		if err != nil {
			return nil, working.In(r.Path, err)
		}
		all = append(all, strap...)
	}
	if len(all) == 0 {
		return notHere("W08", "the circuits", "circuits", "each has a cable back"), nil
	}
	return all, nil
}

// returnAllowed judges a return by how many cables the code asks for it.
func returnAllowed(m *facts.Facts, r *facts.Run) Finding {
	rule, set := m.ReturnRule()
	f := Finding{Where: r.Name, Circuit: r.Name, Path: r.Path, RuleSet: set, Source: rule.Source}
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
func returnMeasured(r *facts.Run) []Finding {
	for _, x := range []struct {
		milliohm decimal.Decimal
		missing  string
	}{
		{r.ChassisMilliohm.Decimal, "measure the volts along the chassis at a known current and state chassis_milliohm: no frame has 0 mΩ"},
		{r.ContactsMilliohm, "measure the volts across the contacts of the loop, those to the chassis too, at a known current and state contacts_milliohm: none have 0 mΩ"},
	} {
		if !x.milliohm.IsPositive() {
			return []Finding{{Where: r.Name + ", its return", Circuit: r.Name, Path: r.Path, Check: working.Check{ID: "W08", Missing: x.missing}}}
		}
	}
	return nil
}

// strapped judges the thinnest cable of a chassis return, where the job states it, as
// what it is: a conductor that carries the same current behind the same device. It
// lies as the run does, one for each of its cables.
func strapped(m *facts.Facts, r *facts.Run) ([]Finding, error) {
	if r.ReturnSize == (tables.Size{}) {
		return nil, nil
	}
	c := r.Circuit
	c.Size = r.ReturnSize
	strap, err := facts.NewRun(c, m.Set, r.Path)
	if err != nil {
		return nil, err
	}
	f := Finding{Where: r.Name + ", the cable of its return", Circuit: r.Name, Path: r.Path, RuleSet: m.Set.Name, Case: r.Lasting().In}
	if strap.NoAmps != nil {
		f.Check = working.Check{ID: "W08", Missing: noAmpacityText}
		return []Finding{f}, nil
	}
	w := working.Start(strap.Ampacity.Working)
	w.Given("I_b", r.Lasting().A)
	demand := "I_b"
	if rating := r.GuardA(); rating.GreaterThan(r.Lasting().A) {
		w.Given("I_n", rating)
		demand = "I_n"
	}
	f.Check = w.Check("W08", "", demand, "I_z")
	return []Finding{f}, nil
}
