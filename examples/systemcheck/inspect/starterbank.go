package inspect

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// keepsItsStart asks of each bank besides that of the house whether what loads take
// from it in a day, while nothing charges it, leaves the charge that its design
// keeps for the engine.
func (m *model) keepsItsStart() ([]Finding, error) {
	var all []Finding
	seen := map[int]bool{}
	for i, b := range m.job.Batteries {
		part := m.parts[b.Name]
		if m.ofHouse(b.Name) || seen[part] {
			continue
		}
		seen[part] = true
		f := Finding{
			Where: b.Name + ", by what it feeds uncharged", Path: indexed("batteries", i), Check: working.Check{ID: "B03"},
			Danger: "the engine does not start", Corner: "in one day",
		}
		drawn, err := m.drawnUncharged(b)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		if !drawn.EnergyWh.IsPositive() {
			continue
		}
		side := slices.DeleteFunc(slices.Clone(m.job.Batteries), func(x job.Battery) bool { return m.parts[x.Name] != part })
		c, err := battery.BankAutonomy{Bank: m.bankOf(side), EnergyWh: drawn.EnergyWh, Days: decimal.NewFromInt(1), From: drawn.Working}.Check()
		switch {
		case noCapacity(err):
			f.Missing = capacityText
		case len(working.Inputs(err)) > 0:
			f.Missing = "its batteries are not alike: state them apart, each with its loads"
		case err != nil:
			return nil, working.In(f.Path, err)
		default:
			f.Check = c
		}
		all = append(all, f)
	}
	return all, nil
}

// drawnUncharged sums what loads take from a battery's side in the states in which
// nothing charges it.
func (m *model) drawnUncharged(b job.Battery) (battery.AuditSum, error) {
	a := battery.Audit{SystemV: m.job.SystemV, LowestV: b.EmptyV}
	for _, l := range m.job.Loads {
		if l.At == "" || l.Cranking || !m.joined(l.At, b.Name) {
			continue
		}
		x := battery.AuditLoad{
			Name: l.Name, PowerW: l.PowerW, CurrentA: l.CurrentA, DutyPercent: l.Percent,
			HoursADay: decimal.NewNullDecimal(decimal.Min(l.HoursADay, m.unchargedHours(l, b))),
		}
		if l.CurrentA.Valid {
			x.AtV = decimal.NewNullDecimal(m.job.SystemV)
		}
		if x.HoursADay.Decimal.IsPositive() {
			a.Loads = append(a.Loads, x)
		}
	}
	if len(a.Loads) == 0 {
		return battery.AuditSum{}, nil
	}
	return a.Sum()
}

// unchargedHours is how long the states last that list a load and in which neither
// an alternator nor a charger works on the side of a battery; the sun counts as none.
func (m *model) unchargedHours(l job.Load, b job.Battery) decimal.Decimal {
	hours := decimal.Zero
	for i := range m.job.States {
		s := &m.job.States[i]
		charged := slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return m.joined(a.Name, b.Name) && runs(a, s) }) ||
			slices.ContainsFunc(m.steadyIn(s), func(c job.Charger) bool { return m.joined(c.Name, b.Name) })
		if !charged && slices.Contains(s.Loads, l.Name) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}
