package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

var (
	setting = charge.Setting{HeldV: d("14.4"), LeastV: some("14.2"), EqualiseV: some("14.5"), MilliVPerC: some("-18"), ToleranceV: some("0.1")}
	window  = charge.VoltageWindow{
		Chemistry: "LiFePO4", Cells: 4, LeastV: some("13.6"), GreatestV: some("15.6"), CutOutV: some("16"), ColdestC: some("1"), HottestC: some("30"),
	}
	summer = charge.Sky{LatitudeDeg: d("52"), Day: 172}

	alone    = charge.Converter{OutputV: d("14.4"), OutputA: d("30"), InputV: d("12.2"), Efficiency: d("0.9")}
	running  = working.Figure{Value: d("13.8"), Unit: "V", Source: cite.DataSheet.At("", cite.Given)}
	taper    = charge.Taper{MissingAh: d("60"), AcceptPerHour: d("1"), LimitA: d("30")}
	generous = charge.Alternator{RatedA: d("180"), IdleA: some("90"), HotFactor: some("0.8"), VehicleA: some("30")}
	refill   = charge.Refill{Chemistry: "NiCd", MissingAh: d("10"), CurrentA: d("5"), LoadA: some("1")}
	stages   = charge.Characteristic{Letters: "IUIa", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220"), FinishA: some("5"), FinishH: some("2"),
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
		{Ask: charge.BatteryOnCharge.Acceptance, With: []any{flooded(), d("50")}, Unset: workingtest.Keys{"battery_c": "0 °C is a temperature, and a cold one", "soc_percent": "0 % is an empty battery"}},
		{Ask: charge.BatteryOnCharge.ColdCharge, With: []any{lithium(), some("1"), some("2")}, Unset: workingtest.Keys{"least_charge_c": "the tables serve", "greatest_charge_c": "the tables serve", "guard_c": "without a guard the coldest itself is judged"}},
		{Ask: charge.BatteryOnCharge.HotCharge, With: []any{lithium(), some("40")}, Unset: workingtest.Keys{"least_charge_c": "the tables serve", "greatest_charge_c": "the tables serve"}},
		{Ask: charge.Alternator.OnRoad, With: []any{bus()}},
		{Ask: charge.Alternator.AtIdle, With: []any{bus()}},
		{Ask: charge.Alternator.CheckRoad, With: []any{generous, some("5")}, Unset: workingtest.Keys{"idle_output_a": "the check on the road does not ask it", "hot_factor": "both common factors are run"}},
		{Ask: charge.Alternator.CheckIdle, With: []any{generous, some("5")}, Unset: workingtest.Keys{"hot_factor": "both common factors are run"}},
		{Ask: charge.SpeedCurve.OutputInterpolated, With: []any{charge.SpeedCurve{PulleyRatio: d("2.5"), Points: []charge.SpeedPoint{{PerMin: d("1500"), OutputA: d("30")}, {PerMin: d("6000"), OutputA: d("90")}}}, d("1500")}, Unset: workingtest.Keys{"points.output_a": "below its cut-in speed an alternator gives nothing"}},
		{Ask: charge.Coupled.Current, With: []any{charge.Coupled{VehicleV: d("14.2"), BankV: d("13"), Milliohm: d("40")}}},
		{Ask: charge.ArrayDay.Charge, With: []any{charge.ArrayDay{EnergyWh: d("400"), InSeries: 1, Strings: 2, ChargingV: d("14"), LimitA: d("20")}}, Unset: workingtest.Keys{"solar_wh": "a day without sun", "limit_a": "a controller that gives nothing: the strict side"}},
		{Ask: charge.Balance.Run, With: []any{shortWeek()}, Unset: workingtest.Keys{"battery.battery_c": "0 °C is a temperature, and a cold one", "battery.emf.soc_percent": "the first point is at 0 %", "battery.efficiency.from_percent": "the first step is from 0 %", "sources": "a bank that nothing charges: the strict side", "sources.duty_a": "a source that gives nothing: the strict side", "sources.from_h": "midnight", "sources.weekdays": "none named: every day", "sources.months": "none named: the whole in each", "loads.from_h": "midnight", "loads.weekdays": "none named: every day", "loads.months": "none named: the whole in each", "start_percent": "0 % is an empty battery", "trace_every_h": "no trace"}},
		{Ask: charge.Balance.Autonomy, With: []any{shortWeek(), some("20")}, Unset: workingtest.Keys{"battery.battery_c": "0 °C is a temperature, and a cold one", "battery.emf.soc_percent": "the first point is at 0 %", "battery.efficiency.from_percent": "the first step is from 0 %", "loads.from_h": "midnight", "loads.weekdays": "none named: every day", "loads.months": "none named: the whole in each", "start_percent": "0 % is an empty battery"}},
		{Ask: charge.Balance.LeastDriving, With: []any{shortWeek(), "drive out", some("20")}, Unset: workingtest.Keys{"battery.battery_c": "0 °C is a temperature, and a cold one", "battery.emf.soc_percent": "the first point is at 0 %", "battery.efficiency.from_percent": "the first step is from 0 %", "sources.duty_a": "a source that gives nothing: the strict side", "sources.from_h": "midnight", "sources.weekdays": "none named: every day", "sources.months": "none named: the whole in each", "loads.from_h": "midnight", "loads.weekdays": "none named: every day", "loads.months": "none named: the whole in each", "start_percent": "0 % is an empty battery"}, Any: workingtest.Keys{"sources.duty": "the name that Holding is asked for"}},
		{Ask: charge.Ledger.Check, With: []any{must(shortWeek().Run()), some("20")}, Unset: workingtest.Keys{"shed_h": "an answer of Balance.Run: 0 is what it says here"}},
		{Ask: charge.Ledger.CheckWeek, With: []any{must(shortWeek().Run())}},
		{Ask: charge.Weather.CellByNOCT, With: []any{noon(), d("46"), "0 to 0.5 in gap"}, Unset: workingtest.Keys{"irradiance_w_per_m2": "night", "ambient_c": "0 °C is a temperature", "wind_m_per_s": "still air: the hottest"}},
		{Ask: charge.Weather.CellByMounting, With: []any{noon(), "insulated back glass/polymer"}, Unset: workingtest.Keys{"irradiance_w_per_m2": "night", "ambient_c": "0 °C is a temperature", "wind_m_per_s": "still air: the hottest"}},
		{Ask: charge.Weather.ModuleByWind, With: []any{noon(), d("25"), d("6.84")}, Unset: workingtest.Keys{"irradiance_w_per_m2": "night", "ambient_c": "0 °C is a temperature", "wind_m_per_s": "still air: the hottest", "u1": "wind that does not help: the hottest"}},
		{Ask: charge.Weather.CellByHeatLoss, With: []any{noon(), d("15"), d("1"), d("0.9"), d("0.18")}, Unset: workingtest.Keys{"irradiance_w_per_m2": "night", "ambient_c": "0 °C is a temperature", "wind_m_per_s": "still air: the hottest", "u1": "wind that does not help: the hottest", "efficiency": "all light turns into heat: the hottest"}},
		{Ask: charge.Converter.Input, With: []any{alone}},
		{Ask: charge.MainsCharger.Input, With: []any{charge.MainsCharger{OutputV: d("14.4"), OutputA: d("30"), MainsV: d("230"), Efficiency: d("0.9"), PowerFactor: d("0.95")}}},
		{Ask: charge.Drain.Check, With: []any{charge.Drain{Converter: alone, HoursADay: some("2"), FilledA: d("5"), SpareAh: d("100"), Filled: true, FedElsewhere: true}}, Unset: workingtest.Keys{"filled_a": "no charger beside it: the strict side"}},
		{Ask: charge.LeadAcidEfficiency, With: []any{d("85"), d("12"), d("10")}, Unset: workingtest.Keys{"soc_percent": "0 % is an empty battery", "current_a": "no current"}},
		{Ask: charge.LeadAcidSteps, With: []any{d("12"), d("10")}, Unset: workingtest.Keys{"current_a": "no current"}},
		{Ask: charge.LeadAcidCell.Voltage, With: []any{cell("100", "10", "50", "15")}, Unset: workingtest.Keys{"current_a": "no current", "soc_percent": "0 % is an empty battery", "battery_c": "0 °C is a temperature, and a cold one"}},
		{Ask: charge.Module.Power, With: []any{module(), d("800"), d("45")}, Unset: workingtest.Keys{"irradiance_wper_m2": "night", "cell_c": "0 °C is a temperature"}},
		{Ask: charge.Module.ColdVoltage, With: []any{module(), some("-10"), 1}},
		{Ask: charge.ColdString.CheckController, With: []any{must(module().ColdVoltage(some("-10"), 1)), d("100")}},
		{Ask: charge.Module.Circuit, With: []any{module(), 2}},
		{Ask: charge.StageVoltage.At, With: []any{charge.StageVoltage{CellV: d("2.4"), Cells: 6, ReferenceC: d("25"), MilliVPerC: d("-3"), LowC: some("-10"), HighC: some("40")}, d("15")}, Unset: workingtest.Keys{"voltage_reference_c": "0 °C is a temperature", "compensation_mv_per_c": "none, as of lithium", "battery_c": "0 °C is a temperature, and a cold one"}},
		{Ask: charge.Characteristic.Stages, With: []any{stages, d("15")}, Unset: workingtest.Keys{"battery_c": "0 °C is a temperature, and a cold one"}},
		{Ask: charge.Characteristic.Equalising, With: []any{stages, some("2.6"), d("15")}, Unset: workingtest.Keys{"battery_c": "0 °C is a temperature, and a cold one"}},
		{Ask: charge.AbsorptionTime, With: []any{tables.Chemistry("lead-acid flooded"), d("220"), d("22")}},
		{Ask: charge.Refill.Times, With: []any{refill}},
		{Ask: charge.Refill.Checks, With: []any{refill, d("9")}},
		{Ask: charge.ChargerFor, With: []any{d("100"), d("5"), d("10")}, Unset: workingtest.Keys{"standing_a": "nothing else runs"}},
		{Ask: charge.PlateRate, With: []any{15}},
		{Ask: charge.VoltageWindow.Checks, With: []any{window, setting}, Unset: workingtest.Keys{"charge_least_v": "the tables serve", "charge_cut_out_v": "CheckClosed asks it", "held_least_v": "it does not vary", "held_equalise_v": "it never equalises by itself", "held_mv_per_c": "it suits the battery", "held_tolerance_v": "none is stated, and none added"}},
		{Ask: charge.VoltageWindow.CheckClosed, With: []any{window, setting}, Unset: workingtest.Keys{"charge_least_v": "the tables serve", "charge_greatest_v": "the tables serve", "held_least_v": "it does not vary", "held_equalise_v": "it never equalises by itself", "held_mv_per_c": "it suits the battery", "held_tolerance_v": "none is stated, and none added"}},
		{Ask: charge.Setting.Highest, With: []any{setting, d("1")}, Unset: workingtest.Keys{"coldest_c": "0 °C is a temperature"}},
		{Ask: charge.Simulation.Run, With: []any{overnight()}, Unset: workingtest.Keys{"battery.battery_c": "0 °C is a temperature, and a cold one", "battery.emf.soc_percent": "the first point is at 0 %", "battery.efficiency.from_percent": "the first step is from 0 %", "source.limit_a": "a source that gives nothing", "source.cable_milliohm": "no cable worth counting", "stages.stage": "a label", "load_a": "nothing runs meanwhile", "start_percent": "0 % is an empty battery", "mark_percent": "no time is asked", "trace_every_s": "no trace"}, Any: workingtest.Keys{"stages.stage": "a label"}},
		{Ask: charge.Sky.Radiation, With: []any{summer}, Unset: workingtest.Keys{"latitude_deg": "the equator"}},
		{Ask: charge.Sky.MeanDayRadiation, With: []any{summer}, Unset: workingtest.Keys{"latitude_deg": "the equator"}},
		{Ask: charge.Radiation.FromSunshine, With: []any{clearSky(), d("8")}, Unset: workingtest.Keys{"hours": "no sunshine"}},
		{Ask: charge.Radiation.FromTemperatures, With: []any{clearSky(), d("24"), d("12"), false}, Unset: workingtest.Keys{"lowest_c": "0 °C is a temperature"}},
		{Ask: charge.Radiation.ClearSky, With: []any{clearSky(), d("100")}, Unset: workingtest.Keys{"height_m": "the sea"}},
		{Ask: charge.Slope.Monthly, With: []any{charge.Slope{LatitudeDeg: d("40"), Day: 75, TiltDeg: d("30"), GroundMJ: d("15"), Albedo: d("0.2")}}, Unset: workingtest.Keys{"latitude_deg": "the equator", "tilt_deg": "level", "albedo": "ground that gives nothing back"}},
		{Ask: charge.CentreTap.Imbalance, With: []any{charge.CentreTap{TapA: d("3"), TapH: d("6"), EqualiserA: d("1")}}, Unset: workingtest.Keys{"equaliser_a": "none: the strict side"}},
		{Ask: charge.CentreTap.Check, With: []any{charge.CentreTap{TapA: d("3"), TapH: d("6"), EqualiserA: d("1")}}},
		{Ask: charge.Taper.After, With: []any{taper, d("1.5")}, Unset: workingtest.Keys{"time_h": "the start"}},
		{Ask: charge.Taper.Until, With: []any{taper, d("6")}},
		{Ask: charge.CombinedSources.Checks, With: []any{together()}, Unset: workingtest.Keys{"supplies.name": "a label", "batteries.name": "a label", "busbar_a": "the busbar is not asked"}, Any: workingtest.Keys{"supplies.name": "a label", "batteries.name": "a label"}},
		{Ask: charge.CombinedSources.CheckClosed, With: []any{together()}, Unset: workingtest.Keys{"supplies.name": "a label", "batteries.name": "a label", "busbar_a": "the busbar is not asked"}, Any: workingtest.Keys{"supplies.name": "a label", "batteries.name": "a label"}},
		{Ask: charge.Trigger.Drive, With: []any{trigger(), []charge.DrivePhase{{Name: "road", TimeS: d("600"), Running: true, VehicleV: d("14.2")}}}, Unset: workingtest.Keys{"legs.phase": "a label", "legs.vehicle_v": "a system that is switched off"}, Any: workingtest.Keys{"legs.phase": "a label"}},
		{Ask: charge.Trigger.Wakes, With: []any{trigger(), running}},
		{Ask: charge.Trigger.StaysAwake, With: []any{trigger(), running}},
		{Ask: charge.Trigger.Sleeps, With: []any{trigger(), working.Figure{Value: d("12.5"), Unit: "V"}}},
		{Ask: charge.Tracking, With: []any{d("200"), d("13.5"), d("0.95")}, Unset: workingtest.Keys{"power_w": "no sun"}},
		{Ask: charge.Module.Series, With: []any{module(), d("80"), d("13.5")}, Unset: workingtest.Keys{"power_w": "no sun"}},
		{Ask: charge.CombinedLosses, With: []any{[]decimal.Decimal{d("2"), d("3")}}, Unset: workingtest.Keys{"percent": "a loss of nought"}, Any: workingtest.Keys{"percent": "the list names its place"}},
		{Ask: charge.SolarYield.Day, With: []any{charge.SolarYield{Module: module(), SunKWhPerM2: d("4"), DayCellC: d("40"), LossesPercent: some("14"), Efficiency: d("0.95"), BatteryV: some("13.5")}}, Unset: workingtest.Keys{"sun_kwh_per_m2": "no sun", "day_cell_c": "0 °C is a temperature"}},
	}
}

func together() charge.CombinedSources {
	return charge.CombinedSources{
		Supplies: []charge.Supply{{Name: "sun", CurrentA: d("20")}, {Name: "mains", CurrentA: d("30")}},
		LimitsA:  []charge.NamedLimit{{Name: "left", CurrentA: d("60")}, {Name: "right", CurrentA: d("60")}}, BusbarA: some("100"),
	}
}

func TestLaws(t *testing.T) { workingtest.Laws(t, questions()) }

func TestIndex(t *testing.T) { workingtest.Index(t) }
