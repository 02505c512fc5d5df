package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
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
func (m *Facts) onHouse() []consumer {
	var all []consumer
	for i, l := range m.Job.Loads {
		if m.OfHouse(l.Node()) && !l.Cranking {
			all = append(all, consumer{Load: l, path: Indexed("loads", i)})
		}
	}
	for i, c := range m.Job.Chargers {
		if c.Kind != "converter" || !m.HoldsHouse(m.Feeding(c)) {
			continue
		}
		hours := decimal.Zero
		for _, s := range m.Job.States {
			if slices.Contains(s.Sources, c.Name) {
				hours = hours.Add(s.HoursDay)
			}
		}
		all = append(all, consumer{job.Load{
			Name: "input of " + c.Name, At: c.FedAt, PowerW: decimal.NewNullDecimal(inputW(c)), Behaves: "power",
			HoursADay: decimal.Min(hours, DayH), Percent: decimal.NewFromInt(100),
		}, m.ChargerPath(i), c.Name})
	}
	return all
}

// Feeding is every node on a converter's input side. A switch that joins the house
// bank to another is open in ordinary use: the converter is there in its place.
func (m *Facts) Feeding(c job.Charger) map[string]bool {
	_, met, _ := m.reach(c.FedAt, nil,
		func(r *Run, _ string) bool { return !slices.Contains(m.links(), r.place()) },
		func(string) bool { return false })
	all := map[string]bool{c.FedAt: true}
	for i, at := range met {
		if at.down != "" {
			all[m.nodes[i]] = true
		}
	}
	return all
}

func (m *Facts) HoldsHouse(nodes map[string]bool) bool {
	return slices.ContainsFunc(m.House(), func(b job.Battery) bool { return nodes[b.Name] })
}

// Filled reports whether anything fills a side in any state.
func (m *Facts) Filled(side map[string]bool) bool {
	return slices.ContainsFunc(m.Job.States, func(s job.State) bool {
		return slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return side[a.Name] && Runs(a, &s) }) ||
			slices.ContainsFunc(m.chargersIn(&s), func(x job.Charger) bool { return side[x.Name] })
	})
}

// EmptyV is the lowest rested voltage of the batteries of a side; the nominal one
// where it has none.
func (m *Facts) EmptyV(side map[string]bool) decimal.Decimal {
	least := decimal.NullDecimal{}
	for _, b := range m.Job.Batteries {
		if side[b.Name] && (!least.Valid || b.EmptyV.LessThan(least.Decimal)) {
			least = decimal.NewNullDecimal(b.EmptyV)
		}
	}
	if !least.Valid {
		return m.Job.SystemV
	}
	return least.Decimal
}
