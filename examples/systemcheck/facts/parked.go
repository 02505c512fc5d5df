package facts

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
)

// VehicleParked is what the vehicle itself draws on a bank while it stands; unset where
// nobody measured it.
func VehicleParked(k Bank) (all decimal.NullDecimal) {
	for _, b := range k.Batteries {
		if b.VehicleParkedA.Valid {
			all = decimal.NewNullDecimal(all.Decimal.Add(b.VehicleParkedA.Decimal))
		}
	}
	return all
}

// CapacityOf adds up the rated capacity of batteries.
func CapacityOf(batteries []job.Battery) decimal.Decimal {
	sum := decimal.Zero
	for _, b := range batteries {
		sum = sum.Add(b.CapacityAh)
	}
	return sum
}

// RestingBank is a bank as it stands. The house bank serves in the cold afterwards.
// Of another what counts is the charge down to the depth of its design, which is
// kept for the engine: cold takes none of that away while it stands, so that it
// counts as warm as every table of capacity has it whole.
func (m *Facts) RestingBank(k Bank) battery.Bank {
	b := m.BankOf(k.Batteries)
	if !k.House {
		b.BatteryC = decimal.NewNullDecimal(decimal.NewFromInt(27))
	}
	return b
}

// Stands sums a day of standing, apart: what rests, with its standby and what the
// inverters idle that no switch cuts off; and what runs, with its standby between. What is marked to run parked
// runs all day. What is used on another bank than that of the house for longer than
// the states last that list it runs on too: nothing tells when else.
func (m *Facts) Stands(k Bank) (rests, runs battery.AuditSum, err error) {
	var resting, running []battery.AuditLoad
	for _, l := range m.drawingOn(k) {
		hours := m.parkedHours(l)
		if !k.House {
			hours = decimal.Max(hours, l.HoursADay.Sub(m.listedHours(l.Name)))
		}
		x := m.audited(l, hours)
		if !hours.IsPositive() {
			resting = append(resting, x)
			continue
		}
		if x.Isolated {
			x.StandbyW = decimal.NullDecimal{}
		}
		running = append(running, x)
	}
	if rests, err = m.sumOf(k, resting, func(job.Inverter) decimal.Decimal { return decimal.Zero }); err != nil || len(running) == 0 {
		return rests, runs, err
	}
	runs, err = m.sumOf(k, running, m.idlesParked)
	return rests, runs, err
}

// parkedHours is how long a day a load runs while the vehicle stands.
func (m *Facts) parkedHours(l job.Load) decimal.Decimal {
	if slices.ContainsFunc(m.Job.States, func(s job.State) bool { return s.Parked && slices.Contains(s.Loads, l.Name) }) {
		return DayH
	}
	return decimal.Zero
}

// idlesParked is how long a day an inverter idles for such loads. One that no switch
// cuts off idles anyway, and counts among what rests.
func (m *Facts) idlesParked(inv job.Inverter) decimal.Decimal {
	hours := decimal.Zero
	for _, l := range m.Job.Loads {
		if l.Inverter == inv.Name && inv.Isolated {
			hours = decimal.Max(hours, m.parkedHours(l))
		}
	}
	return hours
}
