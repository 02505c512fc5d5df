package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

var (
	setting = charge.Setting{HeldV: d("14.4"), LeastV: some("14.2"), EqualiseV: some("14.5"), MilliVPerC: some("-18"), ToleranceV: some("0.1")}
	window  = charge.VoltageWindow{
		Chemistry: "LiFePO4", Cells: 4, LeastV: some("13.6"), MostV: some("15.6"), CutOutV: some("16"), ColdestC: d("1"), HottestC: d("30"),
	}
	summer = charge.Sky{LatitudeDeg: d("52"), Day: 172}

	alone   = charge.Converter{OutputV: d("14.4"), OutputA: d("30"), InputV: d("12.2"), Efficiency: d("0.9")}
	running = working.Figure{Value: d("13.8"), Unit: "V", Source: cite.DataSheet.At("", cite.Given)}
	taper   = charge.Taper{MissingAh: d("60"), AcceptPerHour: d("1"), LimitA: d("30")}
	refill  = charge.Refill{Chemistry: "NiCd", MissingAh: d("10"), CurrentA: d("5"), LoadA: d("1")}
	stages  = charge.Characteristic{Letters: "IUIa", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220"), FinishA: some("5"), FinishH: some("2"),
		AbsorptionV: some("2.4"), FloatV: some("2.25"), ReferenceC: some("20"), MilliVPerC: some("-4"), TailA: some("5")}
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func clearSky() charge.Radiation { return must(summer.Radiation()) }

func shortWeek() charge.Balance {
	v := workshopVan()
	v.Days, v.FirstMonth, v.TraceEveryH = 7, 6, 24
	v.CutOutPercent, v.ResumePercent, v.BelowPercent = some("10"), some("20"), some("15")
	return v
}

func questions() []workingtest.Question {
	return []workingtest.Question{
		{Ask: charge.Battery.Acceptance, With: []any{flooded(), d("50")}},
		{Ask: charge.Battery.ColdCharge, With: []any{lithium(), d("1"), some("2")}},
		{Ask: charge.Battery.HotCharge, With: []any{lithium(), d("40")}},
		{Ask: charge.Alternator.OnRoad, With: []any{bus()}},
		{Ask: charge.Alternator.AtIdle, With: []any{bus()}},
		{Ask: charge.Alternator.CheckRoad, With: []any{bus(), d("5")}},
		{Ask: charge.Alternator.CheckIdle, With: []any{bus(), d("5")}},
		{Ask: charge.SpeedCurve.OutputInterpolated, With: []any{charge.SpeedCurve{PulleyRatio: d("2.5"), Points: []charge.SpeedPoint{{PerMin: d("1500"), OutputA: d("30")}, {PerMin: d("6000"), OutputA: d("90")}}}, d("1500")}},
		{Ask: charge.Coupled.Draw, With: []any{charge.Coupled{VehicleV: d("14.2"), BankV: d("13"), Milliohm: d("40")}}},
		{Ask: charge.ArrayDay.Charge, With: []any{charge.ArrayDay{EnergyWh: d("400"), InSeries: 1, Strings: 2, ChargingV: d("14"), LimitA: d("20")}}},
		{Ask: charge.Balance.Run, With: []any{shortWeek()}},
		{Ask: charge.Balance.Autonomy, With: []any{shortWeek(), d("20")}},
		{Ask: charge.Balance.Holding, With: []any{shortWeek(), "drive out", d("20")}},
		{Ask: charge.Ledger.Check, With: []any{must(shortWeek().Run()), d("20")}},
		{Ask: charge.Ledger.CheckWeek, With: []any{must(shortWeek().Run())}},
		{Ask: charge.Weather.CellByNOCT, With: []any{noon(), d("46"), ""}},
		{Ask: charge.Weather.CellByMounting, With: []any{noon(), "insulated back glass/polymer"}},
		{Ask: charge.Weather.ModuleByWind, With: []any{noon(), d("25"), d("6.84")}},
		{Ask: charge.Weather.CellByHeatLoss, With: []any{noon(), d("15"), d("1"), d("0.9"), d("0.18")}},
		{Ask: charge.Converter.Input, With: []any{alone}},
		{Ask: charge.MainsCharger.Input, With: []any{charge.MainsCharger{OutputV: d("14.4"), OutputA: d("30"), MainsV: d("230"), Efficiency: d("0.9"), PowerFactor: d("0.95")}}},
		{Ask: charge.Drain.Check, With: []any{charge.Drain{Converter: alone, HoursADay: d("2"), FilledA: d("5"), SpareAh: d("100"), Filled: true}}},
		{Ask: charge.Drain.CheckLoop, With: []any{charge.Drain{Converter: alone}}},
		{Ask: charge.LeadAcidEfficiency, With: []any{d("85"), d("12"), d("10")}},
		{Ask: charge.LeadAcidSteps, With: []any{d("12"), d("10")}},
		{Ask: charge.LeadAcidCell.Voltage, With: []any{cell("100", "10", "50", "15")}},
		{Ask: charge.Module.Power, With: []any{module(), d("800"), d("45")}},
		{Ask: charge.Module.ColdVoltage, With: []any{module(), d("-10"), 1}},
		{Ask: charge.ColdString.CheckController, With: []any{must(module().ColdVoltage(d("-10"), 1)), d("100")}},
		{Ask: charge.Module.Circuit, With: []any{module(), 2}},
		{Ask: charge.StageVoltage.At, With: []any{charge.StageVoltage{CellV: d("2.4"), Cells: 6, ReferenceC: d("25"), MilliVPerC: d("-3"), LowC: some("-10"), HighC: some("40")}, d("15")}},
		{Ask: charge.Characteristic.Stages, With: []any{stages, d("15")}},
		{Ask: charge.Characteristic.Equalising, With: []any{stages, some("2.6"), d("15")}},
		{Ask: charge.AbsorptionTime, With: []any{"lead-acid flooded", d("220"), d("22")}},
		{Ask: charge.Refill.Times, With: []any{refill}},
		{Ask: charge.Refill.Checks, With: []any{refill, d("9")}},
		{Ask: charge.ChargerFor, With: []any{d("100"), d("5"), d("10")}},
		{Ask: charge.PlateRate, With: []any{15}},
		{Ask: charge.VoltageWindow.Checks, With: []any{window, setting}},
		{Ask: charge.VoltageWindow.CheckClosed, With: []any{window, setting}},
		{Ask: charge.Setting.Highest, With: []any{setting, d("1")}},
		{Ask: charge.Simulation.Run, With: []any{overnight()}},
		{Ask: charge.Sky.Radiation, With: []any{summer}},
		{Ask: charge.Sky.MeanDayRadiation, With: []any{summer}},
		{Ask: charge.Radiation.FromSunshine, With: []any{clearSky(), d("8")}},
		{Ask: charge.Radiation.FromTemperatures, With: []any{clearSky(), d("24"), d("12"), false}},
		{Ask: charge.Radiation.ClearSky, With: []any{clearSky(), d("100")}},
		{Ask: charge.Slope.Monthly, With: []any{charge.Slope{LatitudeDeg: d("40"), Day: 75, TiltDeg: d("30"), GroundMJ: d("15"), Albedo: d("0.2")}}},
		{Ask: charge.CentreTap.Imbalance, With: []any{charge.CentreTap{TapA: d("3"), TapH: d("6"), EqualiserA: d("1")}}},
		{Ask: charge.CentreTap.Check, With: []any{charge.CentreTap{TapA: d("3"), TapH: d("6"), EqualiserA: d("1")}}},
		{Ask: charge.Taper.After, With: []any{taper, d("1.5")}},
		{Ask: charge.Taper.Until, With: []any{taper, d("6")}},
		{Ask: charge.Together.Checks, With: []any{together()}},
		{Ask: charge.Together.CheckClosed, With: []any{together()}},
		{Ask: charge.Trigger.Drive, With: []any{trigger(), []charge.Leg{{Name: "road", TimeS: d("600"), Running: true, VehicleV: d("14.2")}}}},
		{Ask: charge.Trigger.Wakes, With: []any{trigger(), running}},
		{Ask: charge.Trigger.StaysAwake, With: []any{trigger(), running}},
		{Ask: charge.Trigger.Sleeps, With: []any{trigger(), working.Figure{Value: d("12.5"), Unit: "V"}}},
		{Ask: charge.Tracking, With: []any{d("200"), d("13.5"), d("0.95")}},
		{Ask: charge.Module.Series, With: []any{module(), d("80"), d("13.5")}},
		{Ask: charge.SystemLosses, With: []any{[]decimal.Decimal{d("2"), d("3")}}},
		{Ask: charge.Yield.Day, With: []any{charge.Yield{Module: module(), SunKWhPerM2: d("4"), DayCellC: d("40"), LossesPercent: d("14"), Efficiency: d("0.95"), BatteryV: some("13.5")}}},
	}
}

func together() charge.Together {
	return charge.Together{
		Supplies: []charge.Supply{{Name: "sun", CurrentA: d("20")}, {Name: "mains", CurrentA: d("30")}},
		LimitsA:  []charge.NamedLimit{{Name: "left", CurrentA: d("60")}, {Name: "right", CurrentA: d("60")}}, BusbarA: some("100"),
	}
}

func TestLaws(t *testing.T) { workingtest.Laws(t, questions()) }
