package inspect

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// standsParked compares the days that the vehicle must stand with those that the
// spare charge of each bank lasts.
func standsParked(m *model) ([]Finding, error) {
	var all []Finding
	for _, k := range m.banks {
		f := Finding{Where: k.name, Path: "needs.parked_days"}
		if !k.house {
			f.Danger = "the engine does not start"
		}
		var err error
		if f.Check, err = m.standsOn(k); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	return all, nil
}

func (m *model) standsOn(k bank) (working.Check, error) {
	if !m.job.Needs.ParkedDays.Valid {
		return working.Check{ID: "B19", Silent: "no time of standing is asked for"}, nil
	}
	rests, runs, err := m.stands(k)
	if err != nil {
		return working.Check{}, err
	}
	spare, err := m.restingBank(k).Usable()
	if noCapacity(err) {
		return working.Check{ID: "B19", Missing: capacityText}, nil
	}
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(rests.Working, runs.Working, spare.Working)
	drain, vehicle := rests.ParkedA, vehicleParked(k)
	if vehicle.Valid || runs.EnergyWh.IsPositive() {
		w.Given("I_pk", drain)
	}
	if vehicle.Valid {
		drain = w.Calc("I_pk", "I_pk + I_vp", drain.Add(w.Given("I_vp", vehicle.Decimal)), sums)
	}
	if runs.EnergyWh.IsPositive() {
		e, u := w.Given("E_d", runs.EnergyWh), w.Given("U_n", m.job.SystemV)
		drain = drain.Add(e.DivRound(u.Mul(dayH), 12).RoundCeil(4))
		w.Calc("I_pk", "I_pk + ceil(E_d ÷ (U_n × 24) × 10000) ÷ 10000", drain, sums)
		w.Note("with the loads that run while it stands")
	}
	nominal := k.batteries[0].NominalV
	ah := spare.EnergyWh.Decimal.DivRound(nominal, 2)
	w.Given("U_bn", nominal)
	w.Calc("Q_sp", "E_u ÷ U_bn", ah, sums)
	days, err := battery.Parked{
		Chemistry: k.batteries[0].Chemistry, CapacityAh: capacityOf(k.batteries), SpareAh: ah, DrainA: decimal.NewNullDecimal(drain), From: w,
	}.Days()
	if err != nil {
		return working.Check{}, err
	}
	done := working.Start(days.Working)
	done.Given("N_d", m.job.Needs.ParkedDays.Decimal)
	return done.Check("B19", "", "N_d", "N_pk"), nil
}

// vehicleParked is what the vehicle itself draws on a bank while it stands; unset where
// nobody measured it.
func vehicleParked(k bank) (all decimal.NullDecimal) {
	for _, b := range k.batteries {
		if b.VehicleParkedA.Valid {
			all = decimal.NewNullDecimal(all.Decimal.Add(b.VehicleParkedA.Decimal))
		}
	}
	return all
}

// capacityOf adds up the rated capacity of batteries.
func capacityOf(batteries []job.Battery) decimal.Decimal {
	sum := decimal.Zero
	for _, b := range batteries {
		sum = sum.Add(b.CapacityAh)
	}
	return sum
}

// restingBank is a bank as it stands. The house bank serves in the cold afterwards.
// Of another what counts is the charge down to the depth of its design, which is
// kept for the engine: cold takes none of that away while it stands, so that it
// counts as warm as every table of capacity has it whole.
func (m *model) restingBank(k bank) battery.Bank {
	b := m.bankOf(k.batteries)
	if !k.house {
		b.BatteryC = decimal.NewNullDecimal(decimal.NewFromInt(27))
	}
	return b
}

// stands sums a day of standing, apart: what rests, with its standby and what the
// inverters idle that no switch cuts off; and what runs, with its standby between. What is marked to run parked
// runs all day. What is used on another bank than that of the house for longer than
// the states last that list it runs on too: nothing tells when else.
func (m *model) stands(k bank) (rests, runs battery.AuditSum, err error) {
	var resting, running []battery.AuditLoad
	for _, l := range m.drawingOn(k) {
		hours := m.parkedHours(l)
		if !k.house {
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
	if rests, err = m.audits(k, resting, func(job.Inverter) decimal.Decimal { return decimal.Zero }); err != nil || len(running) == 0 {
		return rests, runs, err
	}
	runs, err = m.audits(k, running, m.idlesParked)
	return rests, runs, err
}

// parkedHours is how long a day a load runs while the vehicle stands.
func (m *model) parkedHours(l job.Load) decimal.Decimal {
	if slices.ContainsFunc(m.job.States, func(s job.State) bool { return s.Parked && slices.Contains(s.Loads, l.Name) }) {
		return dayH
	}
	return decimal.Zero
}

// idlesParked is how long a day an inverter idles for such loads. One that no switch
// cuts off idles anyway, and counts among what rests.
func (m *model) idlesParked(inv job.Inverter) decimal.Decimal {
	hours := decimal.Zero
	for _, l := range m.job.Loads {
		if l.Inverter == inv.Name && inv.Isolated {
			hours = decimal.Max(hours, m.parkedHours(l))
		}
	}
	return hours
}
