package facts

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
)

// DrawnUncharged sums what loads take from a bank while nothing charges it: their
// use in such states, and what they draw while they are off.
func (m *Facts) DrawnUncharged(k Bank) (battery.AuditSum, error) {
	used := func(l job.Load) decimal.Decimal { return decimal.Min(l.HoursADay, m.unchargedHours(l, k)) }
	return m.auditOn(k, used, func(inv job.Inverter) decimal.Decimal {
		hours := decimal.Zero
		for _, l := range m.Job.Loads {
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
func (m *Facts) unchargedHours(l job.Load, k Bank) decimal.Decimal {
	hours := decimal.Max(decimal.Zero, l.HoursADay.Sub(m.listedHours(l.Name)))
	for i := range m.Job.States {
		s := &m.Job.States[i]
		charged := slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return m.reachesBank(a.Name, k) && Runs(a, s) }) ||
			slices.ContainsFunc(m.SteadyIn(s), func(c job.Charger) bool { return m.reachesBank(c.Name, k) && m.gives(c, s) })
		if !charged && slices.Contains(s.Loads, l.Name) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}
