package rules

import (
	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofParked = []Rule{
	{
		ID: "B19", Title: "The bank outlasts the time it stands",
		Danger:  "the bank is flat, and a flat battery is lost",
		Why:     "standby and self-discharge go on with everything off",
		Sources: []string{"PV sizing worksheet"},
		Grade:   WillNotServe, Rank: 650,
		Advice: "switch the standby loads off, or charge it in between",
		Worse: []Growth{
			{"batteries.capacity_ah", "÷1.6"}, {"batteries.vehicle_parked_a", "×3"}, {"inverters.isolated", "gone"},
			{"needs.parked_days", "×3"},
		},
		Judge: standsParked,
	},
}

// standsParked compares the days that the vehicle must stand with those that the
// spare charge of each bank lasts.
func standsParked(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, k := range m.Banks {
		f := Finding{Where: k.Name, Path: "needs.parked_days"}
		if !k.House {
			f.Danger = "the engine does not start"
		}
		var err error
		if f.Check, err = standsOn(m, k); err != nil {
			return nil, working.In(f.Path, err)
		}
		all = append(all, f)
	}
	return all, nil
}

func standsOn(m *facts.Facts, k facts.Bank) (working.Check, error) {
	if !m.Job.Needs.ParkedDays.Valid {
		return working.Check{ID: "B19", Silent: "no time of standing is asked for"}, nil
	}
	rests, runs, err := m.Stands(k)
	if err != nil {
		return working.Check{}, err
	}
	spare, err := m.RestingBank(k).Usable()
	if facts.NoCapacity(err) {
		return working.Check{ID: "B19", Missing: facts.CapacityText}, nil
	}
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(rests.Working, runs.Working, spare.Working)
	drain, vehicle := rests.ParkedA, facts.VehicleParked(k)
	if vehicle.Valid || runs.EnergyWh.IsPositive() {
		w.Given("I_pk", drain)
	}
	if vehicle.Valid {
		drain = w.Calc("I_pk", "I_pk + I_vp", drain.Add(w.Given("I_vp", vehicle.Decimal)), facts.Sums)
	}
	if runs.EnergyWh.IsPositive() {
		e, u := w.Given("E_d", runs.EnergyWh), w.Given("U_n", m.Job.SystemV)
		drain = drain.Add(e.DivRound(u.Mul(facts.DayH), 12).RoundCeil(4))
		w.Calc("I_pk", "I_pk + ceil(E_d ÷ (U_n × 24) × 10000) ÷ 10000", drain, facts.Sums)
		w.Note("with the loads that run while it stands")
	}
	nominal := k.Batteries[0].NominalV
	ah := spare.EnergyWh.Decimal.DivRound(nominal, 2)
	w.Given("U_bn", nominal)
	w.Calc("Q_sp", "E_u ÷ U_bn", ah, facts.Sums)
	days, err := battery.Parked{
		Chemistry: k.Batteries[0].Chemistry, CapacityAh: facts.CapacityOf(k.Batteries), SpareAh: ah, DrainA: decimal.NewNullDecimal(drain), From: w,
	}.Days()
	if err != nil {
		return working.Check{}, err
	}
	done := working.Start(days.Working)
	done.Given("N_d", m.Job.Needs.ParkedDays.Decimal)
	return done.Check("B19", "", "N_d", "N_pk"), nil
}
