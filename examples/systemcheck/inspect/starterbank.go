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
	for _, k := range m.banks[1:] {
		f := Finding{
			Where: k.name + ", by what it feeds uncharged", Path: m.batteryPath(k.batteries[0].Name), Check: working.Check{ID: "B03"},
			Danger: "the engine does not start", Corner: "in one day",
		}
		drawn, err := m.drawnUncharged(k)
		if err != nil {
			return nil, working.In(f.Path, err)
		}
		if !drawn.EnergyWh.IsPositive() {
			continue
		}
		c, err := battery.BankAutonomy{Bank: m.bankOf(k.batteries), EnergyWh: drawn.EnergyWh, Days: decimal.NewFromInt(1), From: drawn.Working}.Check()
		switch {
		case noCapacity(err):
			f.Missing = capacityText
		case err != nil:
			return nil, working.In(f.Path, err)
		default:
			f.Check = c
		}
		all = append(all, f)
	}
	return all, nil
}

// drawnUncharged sums what loads take from a bank while nothing charges it: their
// use in such states, and what they draw while they are off.
func (m *model) drawnUncharged(k bank) (battery.AuditSum, error) {
	used := func(l job.Load) decimal.Decimal { return decimal.Min(l.HoursADay, m.unchargedHours(l, k)) }
	return m.auditOn(k, used, func(inv job.Inverter) decimal.Decimal {
		hours := decimal.Zero
		for _, l := range m.job.Loads {
			if l.Inverter == inv.Name {
				hours = decimal.Max(hours, used(l))
			}
		}
		return hours
	})
}

// unchargedHours is how long the states last that list a load and in which neither
// an alternator nor a charger that is known to give anything works on a bank, and the
// rest of its use that no state lists; the sun counts as none.
func (m *model) unchargedHours(l job.Load, k bank) decimal.Decimal {
	hours := decimal.Max(decimal.Zero, l.HoursADay.Sub(m.listedHours(l.Name)))
	for i := range m.job.States {
		s := &m.job.States[i]
		charged := slices.ContainsFunc(m.job.Alternators, func(a job.Alternator) bool { return m.reachesBank(a.Name, k) && runs(a, s) }) ||
			slices.ContainsFunc(m.steadyIn(s), func(c job.Charger) bool { return m.reachesBank(c.Name, k) && m.gives(c, s) })
		if !charged && slices.Contains(s.Loads, l.Name) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}
