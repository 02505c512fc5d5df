package rules

import (
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofDrain = []Rule{
	{
		ID: "C13", Title: "The converter does not empty what feeds it",
		Danger:  "the battery that feeds it is flat, and the engine does not start",
		Why:     "a converter takes more than it gives, and while no alternator turns the starter battery pays for it",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 580,
		Advice: "let it work only while the engine runs, or for fewer hours; feed it from what has the charge to spare, never from its own output",
		Judge:  drains,
	},
}

// drains asks of each converter whether it empties what feeds it: the starter
// battery, in states in which no alternator on its side turns, or itself.
func drains(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, c := range m.Job.Chargers {
		if c.Kind != "converter" {
			continue
		}
		f := Finding{Where: c.Name + ", what feeds it", Path: m.ChargerPath(i)}
		var err error
		if f.Check, f.Case, err = drain(m, c); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("C13", "the chargers", "chargers", "none is a converter"), nil
	}
	return all, nil
}

func drain(m *facts.Facts, c job.Charger) (check working.Check, corner string, err error) {
	side := m.Feeding(c)
	d := charge.Drain{Converter: facts.Converter(c, m.EmptyV(side)), Filled: m.Filled(side), FedElsewhere: !side[c.Name]}
	if side[c.Name] {
		d.HoursADay = decimal.NewNullDecimal(decimal.NewFromInt(24))
		check, err = d.Check()
		return check, "it is fed from its own output", err
	}
	if m.HoldsHouse(side) {
		return working.Check{ID: "C13", Silent: "the house bank feeds it, and its input is one of the loads there"}, "", nil
	}
	least, hours := decimal.NullDecimal{}, decimal.Zero
	for i := range m.Job.States {
		s := &m.Job.States[i]
		if !slices.Contains(s.Sources, c.Name) || slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return side[a.Name] && facts.Runs(a, s) }) {
			continue
		}
		hours, corner = hours.Add(s.HoursDay), s.Name
		charged := decimal.Zero
		for _, x := range m.SteadyIn(s) {
			if side[x.Name] {
				charged = charged.Add(x.MaxA)
			}
		}
		if !least.Valid || charged.LessThan(least.Decimal) {
			least = decimal.NewNullDecimal(charged)
		}
	}
	if !hours.IsPositive() {
		return working.Check{ID: "C13", Silent: "an alternator turns wherever it works"}, "", nil
	}
	d.HoursADay, d.FilledA = decimal.NewNullDecimal(hours), least.Decimal
	for _, b := range m.Job.Batteries {
		if side[b.Name] {
			d.SpareAh = d.SpareAh.Add(b.CapacityAh.Mul(b.DepthPercent).Mul(b.AgeingPercent).Shift(-4))
		}
	}
	check, err = d.Check()
	return check, corner, err
}
