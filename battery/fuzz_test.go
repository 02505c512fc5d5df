package battery_test

import (
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

// typed reads what a fuzzer types: at most twelve characters, as no reading or
// rating has more.
func typed(text string) (decimal.Decimal, bool) {
	if len(text) > 12 {
		return decimal.Decimal{}, false
	}
	v, err := decimal.NewFromString(text)
	return v, err == nil
}

func all(texts ...string) ([]decimal.Decimal, bool) {
	var values []decimal.Decimal
	for _, text := range texts {
		v, ok := typed(text)
		if !ok {
			return nil, false
		}
		values = append(values, v)
	}
	return values, true
}

// guard holds a working to the drift guard where there was an answer.
func guard(t *testing.T, w working.Working, err error) {
	if err == nil && w != nil {
		workingtest.Guard(t, w)
	}
}

func FuzzFeed(f *testing.F) {
	f.Add("2000", "4000", "12.6", "4.94", "90", "12")
	f.Add("360", "360.01", "12", "100", "100", "0")
	f.Add("1e30", "-1", "0", "1e-40", "0.0001", "x")
	f.Add("1", "1", "0.0000000001", "1e-9", "90", "0")
	f.Fuzz(func(t *testing.T, steady, surge, emf, path, eta, idle string) {
		v, ok := all(steady, surge, emf, path, eta, idle)
		if !ok {
			return
		}
		got, err := battery.Feed{
			Inverter: battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(v[4]), IdleW: decimal.NewNullDecimal(v[5])},
			SteadyW:  v[0], SurgeW: v[1], SourceV: v[2], PathMilliohm: v[3],
		}.Terminals()
		guard(t, got.Working, err)
		if err == nil && !got.Steady.Collapses && got.Steady.VoltageV.Decimal.GreaterThan(v[2]) {
			t.Errorf("%s V out of %s V", got.Steady.VoltageV.Decimal, v[2])
		}
	})
}

func FuzzBank(f *testing.F) {
	f.Add("12.8", "100", "3", "8", "13.6", "12.9", "0.5", "150")
	f.Add("6", "220", "2.65", "4", "6.36", "6", "0", "0.01")
	f.Fuzz(func(t *testing.T, volts, ah, low, high, full, empty, lead, limit string) {
		v, ok := all(volts, ah, low, high, full, empty, lead, limit)
		if !ok {
			return
		}
		one := battery.BankBattery{
			Chemistry: "LiFePO4", NominalV: v[0], CapacityAh: v[1],
			LowMilliohm: decimal.NewNullDecimal(v[2]), HighMilliohm: decimal.NewNullDecimal(v[3]),
			FullV: v[4], EmptyV: v[5], LeadMilliohm: decimal.NewNullDecimal(v[6]), GreatestDischargeA: decimal.NewNullDecimal(v[7]),
			AgeingPercent: n("80"),
		}
		other := one
		other.LeadMilliohm = decimal.NewNullDecimal(v[6].Add(d("0.37")))
		b := battery.Bank{Batteries: []battery.BankBattery{one, one, other, other}, Series: 2, BatteryC: n("0")}
		fault, err := b.Fault(battery.FaultPath{LowMilliohm: d("0.3"), HighMilliohm: n("0.4"), LimitedA: n("30")})
		guard(t, fault.Working, err)
		limits, err := b.Discharge()
		guard(t, limits.Working, err)
		if err == nil && limits.MixedA.Decimal.GreaterThan(limits.LimitA.Decimal) {
			t.Errorf("mixed %s above %s", limits.MixedA.Decimal, limits.LimitA.Decimal)
		}
		source, err := b.Source()
		guard(t, source.Working, err)
		usable, err := b.Usable()
		guard(t, usable.Working, err)
	})
}

func FuzzAudit(f *testing.F) {
	f.Add("420", "2", "60", "0.5", "1300", "88", "9", "11.5")
	f.Fuzz(func(t *testing.T, power, hours, duty, standby, surge, eta, idle, lowest string) {
		v, ok := all(power, hours, duty, standby, surge, eta, idle, lowest)
		if !ok {
			return
		}
		sum, err := battery.Audit{
			SystemV: d("12"), LowestV: v[7],
			Loads: []battery.AuditLoad{
				{Name: "a", PowerW: decimal.NewNullDecimal(v[0]), HoursADay: decimal.NewNullDecimal(v[1]), DutyPercent: v[2],
					StandbyW: decimal.NewNullDecimal(v[3]), SurgeW: decimal.NewNullDecimal(v[4]), Inverter: "i"},
				{Name: "b", CurrentA: decimal.NewNullDecimal(v[0]), AtV: n("12"), HoursADay: decimal.NewNullDecimal(v[1]), DutyPercent: v[2]},
			},
			Inverters: []battery.AuditInverter{{Inverter: battery.Inverter{Name: "i", EfficiencyPercent: decimal.NewNullDecimal(v[5]), IdleW: decimal.NewNullDecimal(v[6])}, OnHours: n("24")}},
		}.Sum()
		guard(t, sum.Working, err)
	})
}

func FuzzPeukert(f *testing.F) {
	f.Add("100", "20", "60", "1", "25")
	f.Add("0.00000001", "1000", "0.00000001", "999", "1")
	f.Add("100", "20", "60.0000001", "12", "5.000000001")
	f.Fuzz(func(t *testing.T, c1, h1, c2, h2, amps string) {
		v, ok := all(c1, h1, c2, h2, amps)
		if !ok {
			return
		}
		got, err := battery.Peukert{Slow: battery.HourRating{CapacityAh: v[0], RateH: v[1]}, Fast: battery.HourRating{CapacityAh: v[2], RateH: v[3]}}.At(v[4])
		guard(t, got.Working, err)
	})
}

func FuzzKinetic(f *testing.F) {
	f.Add("100", "20", "93", "10", "60", "1", "35", "0.5")
	f.Add("100", "20", "50.5", "10", "2.7425", "0.5", "35", "0.5") // a share of 0.000003, which rounds to nought
	f.Add("0.000001", "20", "0.0000009", "10", "0.0000006", "1", "0", "0.001")
	f.Fuzz(func(t *testing.T, c1, h1, c2, h2, c3, h3, amps, hours string) {
		v, ok := all(c1, h1, c2, h2, c3, h3, amps, hours)
		if !ok {
			return
		}
		m, err := battery.KineticRatings{
			Slow: battery.HourRating{CapacityAh: v[0], RateH: v[1]}, Middle: battery.HourRating{CapacityAh: v[2], RateH: v[3]},
			Fast: battery.HourRating{CapacityAh: v[4], RateH: v[5]},
		}.Fit()
		guard(t, m.Working, err)
		if err != nil {
			return
		}
		full, err := m.At(d("100"))
		guard(t, full.Working, err)
		next, err := m.Step(battery.KineticStep{State: full, CurrentA: v[6], TimeH: v[7]})
		guard(t, next.Working, err)
	})
}

func FuzzElectrolyte(f *testing.F) {
	f.Add("1.245", "-5", "12.3")
	f.Fuzz(func(t *testing.T, density, at, volts string) {
		v, ok := all(density, at, volts)
		if !ok {
			return
		}
		e := battery.Electrolyte{Reading: v[0], AtC: decimal.NewNullDecimal(v[1])}
		s, err := e.StateOfCharge()
		guard(t, s.Working, err)
		c, err := e.Freezing()
		guard(t, c.Working, err)
		r, err := battery.Rested{Chemistry: "lead-acid gel", VoltageV: v[2], Cells: 6, MeterV: n("0.01")}.StateOfCharge()
		guard(t, r.Working, err)
	})
}

func FuzzSizes(f *testing.F) {
	f.Add("1200", "24", "3", "100", "4", "45", "10", "-5")
	f.Fuzz(func(t *testing.T, energy, volts, days, load, loadH, charge, chargeH, at string) {
		v, ok := all(energy, volts, days, load, loadH, charge, chargeH, at)
		if !ok {
			return
		}
		z, err := battery.StandAlone{
			EnergyWh: v[0], SystemV: v[1], Days: v[2], Chemistry: "LiFePO4", BatteryC: decimal.NewNullDecimal(v[7]),
			LoadA: decimal.NewNullDecimal(v[3]), LoadRateH: v[4], ChargeA: decimal.NewNullDecimal(v[5]), ChargeRateH: v[6], BlockV: n("12.8"), BlockAh: n("100"),
		}.Size()
		guard(t, z.Working, err)
		b, err := battery.Backup{PowerW: v[0], EfficiencyPercent: v[1], TimeH: v[2], EndCellV: v[3], Cells: 6}.Size()
		guard(t, b.Working, err)
	})
}

func FuzzBay(f *testing.F) {
	f.Add("110", "0.45", "0.9", "0.4", "95", "27", "10", "200")
	f.Fuzz(func(t *testing.T, ah, high, wide, deep, loss, mass, times, spacing string) {
		v, ok := all(ah, high, wide, deep, loss, mass, times, spacing)
		if !ok {
			return
		}
		air, err := battery.Gassing{Chemistry: "lead-acid AGM", Cells: 12, CapacityAh: v[0], Charge: "boost", GasA: decimal.NewNullDecimal(v[1])}.Ventilation()
		guard(t, air.Working, err)
		if err == nil {
			hole, err := battery.RoundOpening(air.OpeningCM2.Decimal)
			guard(t, hole.Working, err)
		}
		inside, err := battery.Box{HeightM: v[1], WidthM: v[2], DepthM: v[3], Position: "free on all sides", Material: "plastic"}.Temperature(decimal.NewNullDecimal(v[4]), n("30"))
		guard(t, inside.Working, err)
		forces, err := battery.HoldDown{MassKg: v[5], Times: v[6], Fixings: 4, HeightMM: decimal.NewNullDecimal(v[0]), SpacingMM: v[7]}.Forces()
		guard(t, forces.Working, err)
		flow, err := battery.Airflow{LossW: v[4], RiseC: v[7]}.Flow()
		guard(t, flow.Working, err)
	})
}
