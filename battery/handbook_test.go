package battery_test

import (
	"strings"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

type (
	row     = workingtest.Row
	answers = workingtest.Answers
)

// celsius turns the Fahrenheit of the Army's books; exact to 0.0001.
func celsius(f decimal.Decimal) decimal.Decimal {
	return f.Sub(d("32")).Mul(d("5")).DivRound(d("9"), 4)
}

// cell is a lead-acid cell of the books on series and parallel.
func cell(v, ah decimal.Decimal) battery.BankBattery {
	return battery.BankBattery{Chemistry: "lead-acid flooded", NominalV: v, CapacityAh: ah, FullV: v, EmptyV: v}
}

func rating(r row, cells, series int, v, ah string) (battery.Rating, error) {
	b := battery.Bank{Series: series}
	for range cells {
		b.Batteries = append(b.Batteries, cell(r.D(v), r.D(ah)))
	}
	return b.Rating()
}

// optional is an input that not every row has.
func optional(r row, name string) decimal.NullDecimal {
	if !r.Has(name) {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(r.D(name))
}

// orOf is an input, or what the book means where it has none.
func orOf(r row, name, without string) decimal.Decimal {
	if !r.Has(name) {
		return d(without)
	}
	return r.D(name)
}

var asks = workingtest.Asks{
	"Electrolyte.Density": func(r row) (answers, error) {
		got, err := battery.Electrolyte{Reading: r.D("reading"), AtC: decimal.NewNullDecimal(celsius(r.D("temp")))}.Density()
		return workingtest.Answer("corrected_sg", got.Density, got.Working), err
	},
	"Bank.Rating": func(r row) (answers, error) {
		got, err := rating(r, int(r.D("cells").IntPart()), int(r.D("series").IntPart()), "cell_voltage", "cell_capacity")
		return workingtest.Answer("voltage", got.NominalV, got.Working).And("capacity", got.CapacityAh), err
	},
	"Bank.Rating energy": func(r row) (answers, error) {
		got, err := rating(r, 1, 1, "voltage", "capacity")
		return workingtest.Answer("energy", got.EnergyWh, got.Working), err
	},
	"Peukert.Exponent": func(r row) (answers, error) {
		got, err := battery.Peukert{
			Slow: battery.HourRating{CapacityAh: r.D("c1"), RateH: r.D("h1")},
			Fast: battery.HourRating{CapacityAh: r.D("c2"), RateH: r.D("h2")},
		}.Exponent()
		return workingtest.Answer("k", got.Exponent, got.Working), err
	},
	"Circuit.Loaded": func(r row) (answers, error) {
		got, err := battery.Circuit{EmfV: r.D("emf"), PathMilliohm: r.D("resistance").Shift(3), LoadOhm: r.D("load")}.Loaded()
		return workingtest.Answer("current", got.CurrentA, got.Working).And("terminal", got.TerminalV).And("load_power", got.LoadW), err
	},
	"PowerFromVA": func(r row) (answers, error) {
		got, err := battery.PowerFromVA(r.D("apparent_power").Shift(3), r.D("power_factor"))
		return workingtest.Answer("ac_power", got.PowerW.Shift(-3), got.Working), err
	},
	"Inverter.Draw": func(r row) (answers, error) {
		inverter := battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(r.D("inverter_efficiency").Shift(2)), IdleW: n("0")}
		got, err := inverter.Draw(r.D("ac_power").Shift(3), d("48"))
		return workingtest.Answer("battery_power", got.InputW.Shift(-3), got.Working), err
	},
	"Backup.Size": func(r row) (answers, error) {
		got, err := battery.Backup{
			PowerW:            r.D("apparent_power").Mul(r.D("power_factor")).Shift(3),
			EfficiencyPercent: r.D("inverter_efficiency").Shift(2), TimeH: r.D("backup_time"),
			EndCellV: r.D("end_voltage"), Cells: int(r.D("cells").IntPart()),
			TemperatureFactor: r.D("temperature_factor"), AgeingFactor: optional(r, "ageing"), DesignMargin: optional(r, "design"),
		}.Size()
		return workingtest.Answer("end_dc_voltage", got.EndV, got.Working).And("capacity", got.CapacityAh), err
	},
	"Audit.Sum and StandAlone.Size": func(r row) (answers, error) {
		sum, err := battery.Audit{
			SystemV: r.D("voltage"), LowestV: r.D("voltage"),
			Loads: []battery.AuditLoad{{Name: "cabin", PowerW: optional(r, "ac_energy"), HoursADay: n("1"), DutyPercent: d("100"), Inverter: "inverter"}},
			Inverters: []battery.AuditInverter{{Inverter: battery.Inverter{
				Name: "inverter", EfficiencyPercent: decimal.NewNullDecimal(r.D("inverter_efficiency").Shift(2)), IdleW: n("0"),
			}, OnHours: n("0")}},
		}.Sum()
		if err != nil {
			return answers{}, err
		}
		got, err := battery.StandAlone{
			EnergyWh: sum.EnergyWh, SystemV: r.D("voltage"), Days: r.D("autonomy"), Chemistry: "lead-acid flooded",
			DepthPercent: optional(r, "dod"), ColdPercent: optional(r, "temperature_rate"), AgeingPercent: n("100"),
			LoadA: n("0"), ChargeA: n("0"), From: sum.Working, // the book asks for the energy alone, of a new bank
		}.Size()
		return workingtest.Answer("dc_energy", sum.EnergyWh, got.Working).And("daily", sum.ChargeAh).And("capacity", got.NeedAh), err
	},
	"Audit.Sum": func(r row) (answers, error) {
		sum, err := battery.Audit{
			SystemV: d("12"), LowestV: d("12"),
			Loads: []battery.AuditLoad{{Name: "appliance", PowerW: optional(r, "power"), HoursADay: decimal.NewNullDecimal(r.D("time")), DutyPercent: d("100")}},
		}.Sum()
		return workingtest.Answer("energy", sum.EnergyWh.Mul(r.D("days")).Shift(-3), sum.Working), err
	},
	"Gassing.Ventilation": func(r row) (answers, error) {
		g := battery.Gassing{Chemistry: tables.Chemistry(r.Text("chemistry")), Cells: int(r.D("cells").IntPart()), CapacityAh: r.D("capacity")}
		if r.Has("charger") {
			g.Charger = r.Text("charger")
		} else {
			g.Charge = r.Text("charge")
		}
		v, err := g.Ventilation()
		if err != nil {
			return answers{}, err
		}
		round, err := battery.RoundOpening(v.OpeningCM2.Decimal)
		return workingtest.Answer("flow", v.FlowM3H.Decimal, v.Working).And("area", v.OpeningCM2.Decimal).And("diameter", round.DiameterCM), err
	},
	"Dilution.Constant": func(r row) (answers, error) {
		got, err := battery.Dilution{LimitPercent: r.D("lower_limit"), HydrogenM3PerAh: r.D("hydrogen"), SafetyFactor: r.D("safety")}.Constant()
		return workingtest.Answer("v", got.Dilution, got.Working).And("product", got.M3PerAh), err
	},
	"HydrogenRoom.Air": func(r row) (answers, error) {
		foot := d("0.028316846592") // cubic
		got, err := battery.HydrogenRoom{
			FloatAPer100Ah: r.D("float_current"), TemperatureFactor: r.D("temperature_factor"), CapacityAh: r.D("capacity"),
			Cells: int(r.D("cells").IntPart()), LimitPercent: r.D("limit"), RoomM3: r.D("room").Mul(foot),
		}.Air()
		return workingtest.Answer("hydrogen_rate", got.HydrogenM3H.DivRound(foot, 4), got.Working).
			And("flow", got.FlowM3H.DivRound(foot.Mul(d("60")), 4)), err
	},
	"HydrogenPerAh": func(r row) (answers, error) {
		got, err := battery.HydrogenPerAh(r.D("temp"))
		return workingtest.Answer("rate", got.M3PerAh.DivRound(d("3600"), 12), got.Working), err
	},
	"Box.Cooling": func(r row) (answers, error) {
		got, err := battery.Box{HeightM: r.D("height"), WidthM: r.D("width"), DepthM: r.D("depth"), Position: "free on all sides"}.Cooling()
		return workingtest.Answer("area", got.AreaM2, got.Working), err
	},
	"Box.WallLoss": func(r row) (answers, error) {
		// 1.4 × W × (H + D) + 1.8 × D × H with W = D = 1 m: the height that gives the area
		height := r.D("area").Sub(d("1.4")).Div(d("3.2"))
		got, err := battery.Box{HeightM: height, WidthM: d("1"), DepthM: d("1"), Position: "single, on a wall", WallW: optional(r, "k")}.
			WallLoss(r.D("loss"), r.D("dt"))
		return workingtest.Answer("wall_loss", got.WallW, got.Working).And("cooling", got.RestW), err
	},
	"PartLoadCurve.Output": func(r row) (answers, error) {
		got, err := battery.PartLoadCurve{RatedInputW: r.D("dc_rating"), EfficiencyPercent: r.D("nominal_efficiency")}.Output(r.D("dc_power"))
		return workingtest.Answer("ac_power", got.OutputW, got.Working), err
	},
	"KineticRatings.Fit": func(r row) (answers, error) {
		m, err := battery.KineticRatings{
			Slow:   battery.HourRating{CapacityAh: r.D("q20"), RateH: d("20")},
			Middle: battery.HourRating{CapacityAh: r.D("q10"), RateH: d("10")},
			Fast:   battery.HourRating{CapacityAh: r.D("q1"), RateH: d("1")},
		}.Fit()
		if err != nil {
			return answers{}, err
		}
		state, err := m.At(r.D("soc"))
		return workingtest.Answer("qmax", m.WholeAh, state.Working).And("available_charge", state.AvailableAh), err
	},
	"Kinetic.Step": func(r row) (answers, error) {
		m, err := wells().Fit()
		if err != nil {
			return answers{}, err
		}
		state, err := m.At(d("50"))
		for amps := range strings.SplitSeq(r.Text("currents"), "/") {
			if err == nil {
				state, err = m.Step(battery.KineticStep{State: state, CurrentA: d(amps), TimeH: d("1")})
			}
		}
		return workingtest.Answer("charge", state.AvailableAh.Add(state.BoundAh), state.Working).And("delivered_current", state.DeliveredA), err
	},
	"AmpereHourCount.After": func(r row) (answers, error) {
		got, err := battery.AmpereHourCount{
			CapacityAh: r.D("capacity"), ChargeAh: r.D("charge"), ColdPercent: orOf(r, "capacity_at_temperature", "100"),
			FloorPercent: decimal.NewNullDecimal(orOf(r, "soc_min", "0")), CurrentA: r.D("current"), TimeH: d("1"),
		}.After()
		return workingtest.Answer("charge_after", got.ChargeAh, got.Working).And("soc", got.SoCPercent).And("delivered_current", got.DeliveredA), err
	},
	"CellCurve.Voltage": func(r row) (answers, error) {
		got, err := battery.CellCurve{
			FullV: r.D("v_full"), BendV: r.D("v_exp"), NominalV: r.D("v_nom"),
			FullAh: r.D("q_full"), BendAh: r.D("q_exp"), NominalAh: r.D("q_nom"),
			RatePerHour: r.D("c_rate"), MilliohmEach: r.D("resistance").Shift(3),
		}.Voltage(r.D("left"), r.D("current"))
		return workingtest.Answer("cell_voltage", got.VoltageV, got.Working), err
	},
	"Motor.LockedRotor": func(r row) (answers, error) {
		got, err := battery.Motor{CodeLetter: r.Text("code"), PowerHP: r.D("power"), VoltageV: r.D("voltage")}.LockedRotor()
		return workingtest.Answer("locked_rotor_current", got.MiddleA.Decimal, got.Working), err
	},
	"Corrections.Size": func(r row) (answers, error) {
		got, err := battery.Corrections{
			UncorrectedAh: r.D("uncorrected"), ElectrolyteF: r.D("temperature"),
			AgeingFactor: optional(r, "ageing"), DesignMargin: optional(r, "margin"),
		}.Size()
		return workingtest.Answer("size", got.CapacityAh, got.Working), err
	},
}

func TestHandbook(t *testing.T) { workingtest.Handbook(t, asks, 31) }

// TestPages checks the arithmetic printed in the Examples.
func TestPages(t *testing.T) { workingtest.Pages(t) }
