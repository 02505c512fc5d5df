package rules

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofOrder = []Rule{
	{
		ID: "B20", Title: "What must run outlasts the rest",
		Danger:  "what must run starves first, while the rest empties the bank",
		Why:     "as the voltage falls the rest has to be switched off before it is too low for what must run",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 480,
		RestsOn: Currents,
		Changes: Cables,
		Advice:  "switch the rest off at a higher voltage, or thicken the path to what must run",
		Judge:   mustRunLast,
	},
}

// mustRunLast asks of each load that must run, in every state in which it does,
// whether the rest at its bank is switched off before it starves.
func mustRunLast(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, l := range m.Job.Loads {
		if !l.MustRun {
			continue
		}
		f := Finding{Where: l.Name, Path: facts.Indexed("loads", i)}
		states := m.StatesOf(l)
		if len(states) == 0 {
			f.Check = working.Check{ID: "B20", Silent: starved}
		}
		for _, c := range states {
			check, err := outlasts(m, l, c)
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			if f.ID == "" || check.Margin().LessThan(f.Margin()) {
				f.Check, f.Case = check, c.Name
			}
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		all = []Finding{{Where: "the loads", Path: "loads", Check: working.Check{ID: "B20", Silent: "none is marked must_run"}}}
	}
	return all, nil
}

// outlasts judges a load that must run against the rest in a case. Behind an
// inverter it lasts as long as that.
func outlasts(m *facts.Facts, l job.Load, c facts.Solved) (working.Check, error) {
	last := battery.MustRun{Name: l.Name, LowestV: l.LeastV}
	if inv, ok := m.Inverter(l.Inverter); ok {
		last.LowestV = decimal.NewNullDecimal(inv.CutOutV)
	}
	if last.LowestV.Valid && l.ShedsV.Valid && l.ShedsV.Decimal.GreaterThan(last.LowestV.Decimal) {
		last.LowestV = l.ShedsV
	}
	feeder := slices.IndexFunc(m.Job.Batteries, func(b job.Battery) bool { return m.Joined(b.Name, l.Node()) })
	if feeder < 0 {
		return working.Check{ID: "B20", Silent: "no battery feeds it"}, nil
	}
	laid, err := m.LostOnTheWay(c, l.Node())
	if err != nil {
		return working.Check{}, err
	}
	last.DropV, last.From = decimal.NewNullDecimal(laid.DropV), laid.Working
	rest, err := m.Others(l, c)
	if err != nil {
		return working.Check{}, err
	}
	return m.BankOf(m.Job.Batteries[feeder:feeder+1]).CheckOutlasts(last, rest)
}
