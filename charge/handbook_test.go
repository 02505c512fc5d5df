package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

type (
	row     = workingtest.Row
	answers = workingtest.Answers
)

func some(v string) decimal.NullDecimal { return decimal.NewNullDecimal(d(v)) }

// optional is an input that a row may leave out.
func optional(r row, name string) decimal.NullDecimal {
	if !r.Has(name) {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(r.D(name))
}

func number(r row, name string) int { return int(r.D(name).IntPart()) }

// asks ties each question of testdata/handbook.csv to the function that answers
// it.
var asks = workingtest.Asks{
	"Sky.Radiation": func(r row) (answers, error) {
		s, err := charge.Sky{LatitudeDeg: r.D("latitude"), Day: number(r, "day")}.Radiation()
		return aboveAir(s), err
	},
	"Sky.MeanDayRadiation": func(r row) (answers, error) {
		s, err := charge.Sky{LatitudeDeg: r.D("latitude"), Day: number(r, "day")}.MeanDayRadiation()
		return aboveAir(s), err
	},
	"Radiation.FromSunshine": func(r row) (answers, error) {
		s, err := charge.Sky{LatitudeDeg: r.D("latitude"), Day: number(r, "day")}.Radiation()
		if err != nil {
			return answers{}, err
		}
		g, err := s.FromSunshine(r.D("sunshine"))
		return workingtest.Answer("ground", g.MJPerM2, g.Working).And("radiation", s.MJPerM2).And("daylight", s.DaylightH), err
	},
	"Radiation.FromTemperatures": func(r row) (answers, error) {
		g, err := charge.Radiation{MJPerM2: r.D("radiation")}.FromTemperatures(r.D("high"), r.D("low"), r.Text("coast") == "yes")
		return workingtest.Answer("ground", g.MJPerM2, g.Working), err
	},
	"Radiation.ClearSky": func(r row) (answers, error) {
		above := charge.Radiation{}
		if r.Has("radiation") {
			above.MJPerM2 = r.D("radiation")
		} else {
			s, err := charge.Sky{LatitudeDeg: r.D("latitude"), Day: number(r, "day")}.Radiation()
			if err != nil {
				return answers{}, err
			}
			above = s
		}
		g, err := above.ClearSky(r.D("height"))
		return workingtest.Answer("clear", g.MJPerM2, g.Working), err
	},
	"Slope.Monthly": func(r row) (answers, error) {
		s, err := charge.Slope{
			LatitudeDeg: r.D("latitude"), Day: number(r, "day"), TiltDeg: r.D("tilt"),
			GroundMJ: r.D("ground"), Albedo: r.D("albedo"),
		}.Monthly()
		return workingtest.Answer("slope", s.MJPerM2, s.Working).And("diffuse", s.DiffuseShare), err
	},
	"Weather.CellByNOCT": func(r row) (answers, error) {
		c, err := weather(r).CellByNOCT(r.D("nominal"), "open rack")
		return workingtest.Answer("cell", c.CellC, c.Working), err
	},
	"Weather.CellByMounting": func(r row) (answers, error) {
		c, err := weather(r).CellByMounting(r.Text("mounting"))
		return workingtest.Answer("cell", c.CellC, c.Working), err
	},
	"Weather.ModuleByWind": func(r row) (answers, error) {
		c, err := weather(r).ModuleByWind(r.D("u0"), r.D("u1"))
		return workingtest.Answer("module", c.CellC, c.Working), err
	},
	"Weather.CellByHeatLoss": func(r row) (answers, error) {
		c, err := weather(r).CellByHeatLoss(r.D("u0"), r.D("u1"), r.D("absorptance"), r.D("efficiency"))
		return workingtest.Answer("cell", c.CellC, c.Working), err
	},
	"Module.Power": func(r row) (answers, error) {
		p, err := charge.Module{PowerW: r.D("module"), PowerPercentPerC: r.D("power_percent")}.Power(r.D("irradiance"), r.D("cell"))
		return workingtest.Answer("power", p.PowerW, p.Working), err
	},
	"SystemLosses": func(r row) (answers, error) {
		var percent []decimal.Decimal
		for _, l := range tables.SystemLosses() {
			if l.Name == "age" {
				l.Percent.Value = r.D("age")
			}
			percent = append(percent, l.Percent.Value)
		}
		l, err := charge.CombinedLosses(percent...)
		return workingtest.Answer("losses", l.Percent, l.Working), err
	},
	"Module.Circuit": func(r row) (answers, error) {
		c, err := charge.Module{ShortA: r.D("short")}.Circuit(number(r, "strings"))
		return workingtest.Answer("circuit", c.CircuitA, c.Working).And("device", c.DeviceA), err
	},
	"Module.ColdVoltage": func(r row) (answers, error) {
		c, err := charge.Module{OpenV: r.D("open"), OpenPercentPerC: optional(r, "percent")}.ColdVoltage(optional(r, "lowest"), number(r, "in_series"))
		return workingtest.Answer("cold", c.VoltageV, c.Working), err
	},
	"Simulation.Run": func(r row) (answers, error) {
		capacity := d("1000")
		c, err := charge.Simulation{
			Battery: charge.BatteryOnCharge{
				Chemistry: "lead-acid flooded", CapacityAh: capacity, BatteryC: d("20"), ChargeA: some("100"), Cells: 6, Strings: 5,
				InternalMilliohm: d("1"), EMF: []charge.EMFPoint{{SoCPercent: d("0"), EMFV: d("11.6")}, {SoCPercent: d("100"), EMFV: d("12.7")}},
				Efficiency: []charge.EfficiencyStep{{FromPercent: d("0"), Efficiency: d("1")}},
			},
			Source:       charge.ChargingSource{CurrentA: r.D("current"), Efficiency: d("1")},
			Stages:       []charge.Stage{{Name: "constant current", Letter: "I", AfterH: decimal.NewNullDecimal(r.D("time"))}},
			StartPercent: d("10"), WithinH: d("24"), StepS: 60,
		}.Run()
		returned := c.EndPercent.Sub(d("10")).Mul(capacity).Shift(-2)
		return workingtest.Answer("charge", returned, c.Working), err
	},
	"PlateRate": func(r row) (answers, error) {
		c, err := charge.PlateRate(number(r, "plates"))
		return workingtest.Answer("current", c.CurrentA, c.Working), err
	},
	"Taper.Until": func(r row) (answers, error) {
		t, err := charge.Taper{MissingAh: r.D("missing"), AcceptPerHour: d("1"), LimitA: r.D("limit")}.Until(r.D("left"))
		return workingtest.Answer("time", t.TimeH, t.Working), err
	},
	"Taper.After": func(r row) (answers, error) {
		t, err := charge.Taper{MissingAh: r.D("missing"), AcceptPerHour: d("1"), LimitA: r.D("limit")}.After(r.D("time"))
		return workingtest.Answer("missing", t.MissingAh, t.Working).And("current", t.CurrentA), err
	},
	"StageVoltage.At": func(r row) (answers, error) {
		v, err := charge.StageVoltage{
			CellV: r.D("cell"), Cells: number(r, "cells"), ReferenceC: r.D("reference"), MilliVPerC: r.D("slope"),
		}.At(r.D("temperature"))
		return workingtest.Answer("voltage", v.VoltageV, v.Working), err
	},
	"SpeedCurve.OutputInterpolated": func(r row) (answers, error) {
		o, err := charge.SpeedCurve{
			PulleyRatio: r.D("pulley"),
			Points:      []charge.SpeedPoint{{PerMin: d("1500"), OutputA: d("50")}, {PerMin: d("6000"), OutputA: d("120")}},
		}.OutputInterpolated(r.D("engine"))
		return workingtest.Answer("alternator", o.AlternatorPerMin, o.Working), err
	},
	"Converter.Input": func(r row) (answers, error) {
		i, err := charge.Converter{
			OutputV: r.D("output_v"), OutputA: r.D("output_a"), InputV: r.D("input_v"), Efficiency: r.D("efficiency"),
		}.Input()
		return workingtest.Answer("input_a", i.InputA, i.Working).And("input_w", i.InputW).And("loss", i.LossW), err
	},
	"AbsorptionTime": func(r row) (answers, error) {
		a, err := charge.AbsorptionTime("lead-acid flooded", r.D("capacity"), r.D("current"))
		return workingtest.Answer("time", a.TimeH, a.Working), err
	},
	"ChargerFor": func(r row) (answers, error) {
		c, err := charge.ChargerFor(r.D("removed"), r.D("standing"), r.D("hours"))
		return workingtest.Answer("charger", c.CurrentA, c.Working), err
	},
	"Alternator.OnRoad": func(r row) (answers, error) {
		s, err := plate(r).OnRoad()
		if err != nil {
			return answers{}, err
		}
		return workingtest.Answer("spare", s[0].SpareA, s[0].Working), nil
	},
	"Alternator.AtIdle": func(r row) (answers, error) {
		s, err := plate(r).AtIdle()
		if err != nil {
			return answers{}, err
		}
		return workingtest.Answer("spare", s[0].SpareA, s[0].Working), nil
	},
	"LeadAcidEfficiency": func(r row) (answers, error) {
		k, err := charge.LeadAcidEfficiency(r.D("soc").Shift(2), r.D("current"), d("1"))
		return workingtest.Answer("efficiency", k.Efficiency, k.Working), err
	},
	"Refill.Times": func(r row) (answers, error) {
		times, err := charge.Refill{
			Chemistry: "lead-acid", MissingAh: r.D("missing"), CurrentA: r.D("current"), LoadA: optional(r, "load"),
		}.Times()
		if err != nil {
			return answers{}, err
		}
		return workingtest.Answer("time", times[0].TimeH, times[0].Working), nil
	},
}

func aboveAir(s charge.Radiation) answers {
	return workingtest.Answer("radiation", s.MJPerM2, s.Working).And("inverse_distance", s.InverseDistance).
		And("declination", s.DeclinationRad).And("sunset", s.SunsetRad).And("daylight", s.DaylightH)
}

func weather(r row) charge.Weather {
	return charge.Weather{IrradianceWPerM2: r.D("irradiance"), AmbientC: r.D("ambient"), WindMPerS: optional(r, "wind").Decimal}
}

func plate(r row) charge.Alternator {
	return charge.Alternator{RatedA: r.D("rated"), IdleA: optional(r, "idle"), HotFactor: optional(r, "hot"), VehicleA: optional(r, "vehicle")}
}

func TestHandbook(t *testing.T) { workingtest.Handbook(t, asks, 44) }

// TestPages checks the arithmetic printed in the Examples.
func TestPages(t *testing.T) { workingtest.Pages(t) }
