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
	var loads []battery.AuditLoad
	for _, l := range m.drawingOn(k) {
		loads = append(loads, m.audited(l, used(l)))
	}
	if parked := VehicleParked(k); parked.Valid {
		vehicle := job.Load{Name: "the vehicle itself while nothing charges", CurrentA: parked, Percent: decimal.NewFromInt(100)}
		loads = append(loads, m.audited(vehicle, m.stands(k)))
	}
	return m.sumOf(k, loads, func(inv job.Inverter) decimal.Decimal {
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
		if !m.chargedIn(s, k) && slices.Contains(s.Loads, l.Name) {
			hours = hours.Add(s.HoursDay)
		}
	}
	return hours
}

// chargedIn reports whether an alternator, or a charger that is known to give anything,
// works on a bank in a state.
func (m *Facts) chargedIn(s *job.State, k Bank) bool {
	return slices.ContainsFunc(m.Job.Alternators, func(a job.Alternator) bool { return m.reachesBank(a.Name, k) && Runs(a, s) }) ||
		slices.ContainsFunc(m.SteadyIn(s), func(c job.Charger) bool { return m.reachesBank(c.Name, k) && m.gives(c, s) })
}

// stands is how many hours of a day nothing works on a bank.
func (m *Facts) stands(k Bank) decimal.Decimal {
	hours := DayH
	for i := range m.Job.States {
		if s := &m.Job.States[i]; m.chargedIn(s, k) {
			hours = hours.Sub(s.HoursDay)
		}
	}
	return decimal.Max(decimal.Zero, hours)
}
