package inspect

import (
	"slices"

	"example.org/extralow/charge"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// consumer is what draws on a bank: a load, or a converter by its input.
type consumer struct {
	job.Load
	path      string // "loads[2]"
	converter string // its name; "" of a load
}

// runsIn reports whether it may run in a state.
func (c consumer) runsIn(s job.State) bool {
	if c.converter != "" {
		return slices.Contains(s.Sources, c.converter)
	}
	return slices.Contains(s.Loads, c.Name)
}

// onHouse lists what draws on the house bank: its loads in the order of the job,
// then the converters that it feeds, at full output in every state that lists
// them.
func (m *model) onHouse() []consumer {
	var all []consumer
	for i, l := range m.job.Loads {
		if m.ofHouse(l.Node()) && !l.Cranking {
			all = append(all, consumer{Load: l, path: indexed("loads", i)})
		}
	}
	for i, c := range m.job.Chargers {
		if c.Kind != "converter" || !m.holdsHouse(m.feeding(c)) {
			continue
		}
		hours := decimal.Zero
		for _, s := range m.job.States {
			if slices.Contains(s.Sources, c.Name) {
				hours = hours.Add(s.HoursDay)
			}
		}
		all = append(all, consumer{job.Load{
			Name: "input of " + c.Name, At: c.FedAt, PowerW: decimal.NewNullDecimal(inputW(c)), Behaves: "power",
			HoursADay: decimal.Min(hours, dayH), Percent: decimal.NewFromInt(100),
		}, m.chargerPath(i), c.Name})
	}
	return all
}

// feeding is every node on a converter's input side. A switch that joins the house
// bank to another is open in ordinary use: the converter is there in its place.
func (m *model) feeding(c job.Charger) map[string]bool {
	_, met, _ := m.reach(c.FedAt, nil,
		func(r *run, _ string) bool { return !slices.Contains(m.links(), r.place()) },
		func(string) bool { return false })
	all := map[string]bool{c.FedAt: true}
	for i, at := range met {
		if at.down != "" {
			all[m.nodes[i]] = true
		}
	}
	return all
}

func (m *model) holdsHouse(nodes map[string]bool) bool {
	return slices.ContainsFunc(m.house(), func(b job.Battery) bool { return nodes[b.Name] })
}

// drains asks of each converter whether it empties what feeds it: the starter
// battery, in states in which no alternator on its side turns, or itself.
func drains(m *model) ([]Finding, error) {
	var all []Finding
	for i, c := range m.job.Chargers {
		if c.Kind != "converter" {
			continue
		}
		f := Finding{Where: c.Name + ", what feeds it", Path: m.chargerPath(i)}
		var err error
		if f.Check, f.Corner, err = m.drain(c); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("C13", "the chargers", "chargers", "none is a converter"), nil
	}
	return all, nil
}

func (m *model) drain(c job.Charger) (check working.Check, corner string, err error) {
	side := m.feeding(c)
	d := charge.Drain{Converter: converter(c, m.emptyV(side)), Filled: m.filled(side), FedElsewhere: !side[c.Name]}
	if side[c.Name] {
		d.HoursADay = decimal.NewNullDecimal(decimal.NewFromInt(24))
		check, err = d.Check()
		return check, "it is fed from its own output", err
	}
	if m.holdsHouse(side) {
		return working.Check{ID: "C13", Silent: "the house bank feeds it, and its input is one of the loads there"}, "", nil
	}
	least, hours := decimal.NullDecimal{}, decimal.Zero
	for i := range m.job.States {
		s := &m.job.States[i]
		if !slices.Contains(s.Sources, c.Name) || slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return side[a.Name] && runs(a, s) }) {
			continue
		}
		hours, corner = hours.Add(s.HoursDay), s.Name
		charged := decimal.Zero
		for _, x := range m.steadyIn(s) {
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
	for _, b := range m.job.Batteries {
		if side[b.Name] {
			d.SpareAh = d.SpareAh.Add(b.CapacityAh.Mul(b.DepthPercent).Mul(b.AgeingPercent).Shift(-4))
		}
	}
	check, err = d.Check()
	return check, corner, err
}

// filled reports whether anything fills a side in any state.
func (m *model) filled(side map[string]bool) bool {
	return slices.ContainsFunc(m.job.States, func(s job.State) bool {
		return slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return side[a.Name] && runs(a, &s) }) ||
			slices.ContainsFunc(m.chargersIn(&s), func(x job.Charger) bool { return side[x.Name] })
	})
}

// emptyV is the lowest rested voltage of the batteries of a side; the nominal one
// where it has none.
func (m *model) emptyV(side map[string]bool) decimal.Decimal {
	least := decimal.NullDecimal{}
	for _, b := range m.job.Batteries {
		if side[b.Name] && (!least.Valid || b.EmptyV.LessThan(least.Decimal)) {
			least = decimal.NewNullDecimal(b.EmptyV)
		}
	}
	if !least.Valid {
		return m.job.SystemV
	}
	return least.Decimal
}
