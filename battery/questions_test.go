package battery_test

import (
	"maps"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables/working/workingtest"
)

const (
	label   = "a label"
	asked   = "another question of the bank asks for it"
	tabled  = "unset: the strictest of the tables"
	resting = "0 is a rest"
)

// besides lists inputs of a bank that bear on other questions than the one asked.
func besides(path string, keys ...string) workingtest.Keys {
	all := workingtest.Keys{}
	for _, key := range keys {
		all[path+key] = asked
	}
	return all
}

// and adds reasons to reasons.
func and(some, more workingtest.Keys) workingtest.Keys {
	maps.Copy(some, more)
	return some
}

// yard is an inverter at the end of a supply that carries it.
func yard() battery.Feed {
	return battery.Feed{
		Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: n("12")},
		SteadyW:  d("1500"), SurgeW: d("2500"), SourceV: d("12.8"), PathMilliohm: d("3"), CutOutV: n("10.5"),
	}
}

// byCurve is an inverter that states its efficiency by points.
func byCurve() battery.Inverter {
	return battery.Inverter{Name: "inverter", RatingW: n("1000"), IdleW: n("9"), Curve: []battery.EfficiencyPoint{
		{LoadPercent: d("10"), EfficiencyPercent: d("80")}, {LoadPercent: d("100"), EfficiencyPercent: d("90")},
	}}
}

// stall is the loads of a day at a market.
func stall() battery.Audit {
	return battery.Audit{
		SystemV: d("12.8"), LowestV: d("11.5"),
		Loads: []battery.AuditLoad{
			{Name: "mixer", PowerW: n("420"), HoursADay: n("2"), DutyPercent: d("60"), StandbyW: n("1"), SurgeW: n("900"), Inverter: "inverter", Isolated: true},
			{Name: "lights", CurrentA: n("2.5"), AtV: n("12"), HoursADay: n("6"), DutyPercent: d("100")},
		},
		Inverters: []battery.AuditInverter{{Inverter: battery.Inverter{Name: "inverter", EfficiencyPercent: n("90"), IdleW: n("9")}, OnHours: n("8")}},
		Together:  []battery.StateOfUse{{Name: "baking", Loads: []string{"mixer", "lights"}}},
	}
}

func sumOf(a battery.Audit) battery.AuditSum {
	sum, err := a.Sum()
	if err != nil {
		panic(err)
	}
	return sum
}

func lasting(days string) battery.BankAutonomy {
	return battery.BankAutonomy{Bank: pair(), EnergyWh: d("950"), Days: d(days), PartWhere: "the working day"}
}

func box() battery.Box {
	return battery.Box{HeightM: d("0.3"), WidthM: d("0.8"), DepthM: d("0.4"), Position: "single, on a wall", Material: "plastic"}
}

func held() battery.HoldDown {
	return battery.HoldDown{MassKg: d("27"), Times: d("10"), Fixings: 4, HeightMM: n("110"), SpacingMM: d("200"), StrengthN: n("5000")}
}

func gassing() battery.Gassing {
	return battery.Gassing{Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("200"), Charge: "boost", GasA: n("1")}
}

func room() battery.GasRoom {
	return battery.GasRoom{Batteries: []battery.Gassing{gassing(), {Chemistry: "lead-acid AGM", Cells: 12, CapacityAh: d("100"), Charge: "float"}}, DesignFactor: d("1.25")}
}

func trailer() battery.Vehicle {
	return battery.Vehicle{
		WheelbaseM: d("3"), FrontKg: d("80"), RearKg: d("800"), FrontLimitKg: d("100"), LeastFrontKg: n("50"), RearLimitKg: d("1300"), GrossLimitKg: d("1300"),
		Items: []battery.AddedMass{{Name: "stove", MassKg: d("30"), BehindM: n("2.5")}},
	}
}

func fitting() battery.Fit {
	return battery.Fit{
		Case:  battery.Case{LengthMM: d("330"), WidthMM: d("172"), HeightMM: d("215"), ToleranceMM: n("2")},
		Space: battery.Space{LengthMM: d("820"), WidthMM: d("210"), HeightMM: d("275"), ToleranceMM: n("3")},
		Along: 2, Across: 1, GapMM: n("8"), WallMM: n("10"), AboveMM: n("50"), CableMM: n("12"), BendTimes: d("4"), LugMM: n("30"),
	}
}

func cellCurve() battery.CellCurve {
	return battery.CellCurve{
		FullV: d("4.1"), BendV: d("4.05"), NominalV: d("3.4"), FullAh: d("2.25"), BendAh: d("0.04"), NominalAh: d("2"), RatePerHour: d("0.2"), MilliohmEach: d("200"),
	}
}

func kinetic() battery.Kinetic {
	m, err := wells().Fit()
	if err != nil {
		panic(err)
	}
	return m
}

func halfFull() battery.KineticState {
	s, err := kinetic().At(d("50"))
	if err != nil {
		panic(err)
	}
	return s
}

func standAlone() battery.StandAlone {
	return battery.StandAlone{
		EnergyWh: d("1200"), SystemV: d("24"), Days: d("3"), Chemistry: "lead-acid gel", DepthPercent: n("50"), BatteryC: n("-5"), AgeingPercent: n("80"),
		LoadA: n("100"), LoadRateH: d("4"), ChargeA: n("45"), ChargeRateH: d("10"), BlockV: n("12"), BlockAh: n("110"),
	}
}

var electrolyte = battery.Electrolyte{Reading: d("1.245"), AtC: n("5")}

var twoRatings = battery.Peukert{Slow: wells().Slow, Fast: wells().Fast}

var questions = []workingtest.Question{
	{Ask: battery.Audit.Sum, With: []any{stall()},
		Unset: workingtest.Keys{
			"loads.inverter": "fed directly", "inverters.inverter.curve": "in place of one efficiency", "together": "none stated: all loads at once",
			"together.name": label, "together.loads": "a state in which nothing runs",
		},
		Any: workingtest.Keys{"loads.name": "told by the state of use that misses it", "inverters.inverter.name": "told by the load that misses it", "together.name": label}},
	{Ask: battery.PowerFromVA, With: []any{d("900"), d("0.62")}},
	{Ask: battery.AuditSum.Shares, With: []any{sumOf(stall())},
		Unset: workingtest.Keys{"loads.name": label, "idle.name": label},
		Any:   workingtest.Keys{"loads.name": label, "idle.name": label}},

	{Ask: battery.Bank.Rating, With: []any{pair()}},
	{Ask: battery.Bank.Usable, With: []any{pair()}},
	{Ask: battery.Bank.CapacityAt, With: []any{rated(), d("5"), d("40")},
		Unset: workingtest.Keys{"batteries.name": label, "hours": "0 is the strict side: every rate counts"},
		Any:   workingtest.Keys{"batteries.name": label}},
	{Ask: battery.Bank.Runtime, With: []any{pair(), d("150")}},
	{Ask: battery.Bank.Without, With: []any{pair(), 1},
		Unset: workingtest.Keys{"batteries.name": label, "index": "the first string"},
		Any:   workingtest.Keys{"batteries.name": label}},
	{Ask: battery.Bank.Discharge, With: []any{pair()}},
	{Ask: battery.Bank.Charge, With: []any{pair()}},
	{Ask: battery.Bank.Fault, With: []any{pair(), battery.FaultPath{LowMilliohm: d("0.6"), HighMilliohm: n("0.9"), LimitedA: n("50")}},
		Unset: workingtest.Keys{"path_low_milliohm": "0 is the strict side: a fault on the posts"}},
	{Ask: battery.Bank.Source, With: []any{pair()}},
	{Ask: battery.Bank.UnderLoad, With: []any{pair(), d("200")},
		Unset: workingtest.Keys{"current_a": "strings feed each other without a load"}},
	{Ask: battery.Bank.CheckDischarge, With: []any{pair(), d("150")},
		Unset: besides("", "batteries.rate_h", "batteries.fast_ah", "batteries.fast_h", "batteries.depth_percent", "batteries.ageing_percent", "batteries.high_milliohm", "batteries.greatest_charge_a", "batteries.cut_out_v", "battery_c")},
	{Ask: battery.DischargeShare.Check, With: []any{battery.DischargeShare{Battery: "A", CurrentA: n("60"), LimitA: n("100"), Lost: true}}, Unset: workingtest.Keys{"lost": "all are there"}},
	{Ask: battery.Bank.CheckDischargeMissing, With: []any{pair(), d("120")},
		Unset: besides("", "batteries.rate_h", "batteries.fast_ah", "batteries.fast_h", "batteries.depth_percent", "batteries.ageing_percent", "batteries.low_milliohm", "batteries.high_milliohm", "batteries.lead_milliohm", "batteries.greatest_charge_a", "batteries.cut_out_v", "battery_c")},
	{Ask: battery.Bank.CheckCharge, With: []any{pair(), d("60")},
		Unset: besides("", "batteries.rate_h", "batteries.fast_ah", "batteries.fast_h", "batteries.depth_percent", "batteries.ageing_percent", "batteries.high_milliohm", "batteries.greatest_discharge_a", "batteries.cut_out_v", "battery_c")},
	{Ask: battery.Bank.CheckCutOut, With: []any{pair(), n("10.5")},
		Unset: besides("", "batteries.rate_h", "batteries.fast_ah", "batteries.fast_h", "batteries.depth_percent", "batteries.ageing_percent", "batteries.low_milliohm", "batteries.high_milliohm", "batteries.lead_milliohm", "batteries.greatest_discharge_a", "batteries.greatest_charge_a", "battery_c")},
	{Ask: battery.Bank.CheckOutlasts, With: []any{pair(), battery.MustRun{Name: "fridge", LowestV: n("10.4"), DropV: n("0.25")}, []battery.ShedLoad{{Name: "inverter", AtV: n("11"), DropV: d("0.1")}}},
		Unset: and(besides("", "batteries.rate_h", "batteries.fast_ah", "batteries.fast_h", "batteries.depth_percent", "batteries.ageing_percent", "batteries.low_milliohm", "batteries.high_milliohm", "batteries.lead_milliohm", "batteries.greatest_discharge_a", "batteries.greatest_charge_a", "batteries.cut_out_v", "battery_c"),
			workingtest.Keys{"name": label, "rest.name": label, "rest.path_drop_v": "0 is the strict side"}),
		Any: workingtest.Keys{"name": label, "rest.name": label}},

	{Ask: battery.BankAutonomy.Usable, With: []any{lasting("2")}},
	{Ask: battery.BankAutonomy.Wanted, With: []any{lasting("2")}},
	{Ask: battery.BankAutonomy.Reserve, With: []any{lasting("2")}},
	{Ask: battery.BankAutonomy.Check, With: []any{lasting("2")},
		Unset: and(besides("bank.", "batteries.low_milliohm", "batteries.high_milliohm", "batteries.lead_milliohm", "batteries.greatest_discharge_a", "batteries.greatest_charge_a", "batteries.cut_out_v"),
			workingtest.Keys{
				"bank.batteries.rate_h": "lithium gives the same at any rate", "bank.batteries.fast_ah": "a second rating", "bank.batteries.fast_h": "a second rating",
				"bank.batteries.depth_percent": tabled, "part_wh": "unset: a part of a day takes its share of the mean day",
			})},

	{Ask: battery.Peukert.Exponent, With: []any{twoRatings}},
	{Ask: battery.Peukert.At, With: []any{twoRatings, d("25")}},
	{Ask: battery.KineticRatings.Fit, With: []any{wells()}},
	{Ask: battery.Kinetic.At, With: []any{kinetic(), d("50")},
		Unset: workingtest.Keys{"soc_percent": "an empty battery"}},
	{Ask: battery.Kinetic.Step, With: []any{kinetic(), battery.KineticStep{State: halfFull(), CurrentA: d("10"), TimeH: d("1")}},
		Unset: workingtest.Keys{"state.available_ah": "an empty well", "state.bound_ah": "an empty well", "current_a": resting}},
	{Ask: battery.ChargeCycle.Efficiency, With: []any{battery.ChargeCycle{ChargedAh: d("120"), DischargedAh: d("104"), ChargedWh: n("1680"), DischargedWh: n("1280")}}},
	{Ask: battery.AmpereHourCount.After, With: []any{battery.AmpereHourCount{CapacityAh: d("200"), ChargeAh: d("120"), ColdPercent: d("85"), FloorPercent: n("20"), CurrentA: d("60"), TimeH: d("2")}},
		Unset: workingtest.Keys{"stored_ah": "an empty battery", "current_a": resting}},
	{Ask: battery.CellCurve.Voltage, With: []any{cellCurve(), d("1.125"), d("0.5")},
		Unset: workingtest.Keys{"current_a": resting}},
	{Ask: battery.Parked.Days, With: []any{battery.Parked{Chemistry: "lead-acid AGM", CapacityAh: d("80"), SpareAh: d("25"), DrainA: n("0.045"), MonthPercent: n("3")}},
		Unset: workingtest.Keys{"spare_ah": "0 is the strict side: it stands no day"}},
	{Ask: battery.Cycling.Life, With: []any{battery.Cycling{Chemistry: "LiFePO4", DepthPercent: d("80"), CyclesAYear: d("200")}}},

	{Ask: battery.TwoLoads.Resistance, With: []any{battery.TwoLoads{FirstA: d("40"), FirstV: d("12.5"), SecondA: d("200"), SecondV: d("11.9")}},
		Unset: workingtest.Keys{"first_a": "the open circuit is a load of nought"}},
	{Ask: battery.Circuit.Loaded, With: []any{battery.Circuit{EmfV: d("12.6"), PathMilliohm: d("10"), LoadOhm: d("0.5")}}},
	{Ask: battery.CrankingRating.Resistance, With: []any{battery.CrankingRating{Rating: "SAE CCA", RatedA: d("600"), RestedV: d("12.6")}}},
	{Ask: battery.Rested.StateOfCharge, With: []any{battery.Rested{Chemistry: "lead-acid AGM", VoltageV: d("12.5"), Cells: 6, MeterV: n("0.01"), Table: ""}},
		Unset: workingtest.Keys{"table": "all tables: the widest range"}},
	{Ask: battery.Electrolyte.Density, With: []any{electrolyte}},
	{Ask: battery.Electrolyte.StateOfCharge, With: []any{electrolyte},
		Unset: workingtest.Keys{"table": "all tables: the widest range"}},
	{Ask: battery.Electrolyte.Freezing, With: []any{electrolyte}},
	{Ask: battery.Electrolyte.CheckFreezing, With: []any{electrolyte, n("-10")}},
	{Ask: battery.CheckFreezing, With: []any{d("75"), n("-10")}},

	{Ask: battery.StandAlone.Size, With: []any{standAlone()}},
	{Ask: battery.Backup.Size, With: []any{battery.Backup{PowerW: d("600"), EfficiencyPercent: d("88"), TimeH: d("2"), EndCellV: d("1.75"), Cells: 12, TemperatureFactor: d("1.1"), AgeingFactor: n("1.25"), DesignMargin: n("1.1")}}},
	{Ask: battery.Corrections.Size, With: []any{battery.Corrections{UncorrectedAh: d("100"), ElectrolyteF: d("60"), AgeingFactor: n("1.25"), DesignMargin: n("1.1")}}},
	{Ask: battery.DutyCycle.Uncorrected, With: []any{battery.DutyCycle{
		Periods: []battery.Period{{CurrentA: n("120"), TimeH: d("0.1")}, {CurrentA: n("25"), TimeH: d("2.9")}},
		Factors: []battery.CapacityFactor{{TimeH: d("0.1"), AhPerA: d("0.7")}, {TimeH: d("3"), AhPerA: d("3.9")}},
	}}},

	{Ask: battery.Inverter.Draw, With: []any{byCurve(), d("600"), d("11")},
		Unset: workingtest.Keys{"curve.load_percent": "a curve may begin without load"}},
	{Ask: battery.SurgeVoltage.Check, With: []any{battery.SurgeVoltage{TerminalV: d("11.2"), CutOutV: n("10.5")}}},
	{Ask: battery.Feed.Terminals, With: []any{yard()},
		Unset: workingtest.Keys{"inverter.curve": "in place of one efficiency"}},
	{Ask: battery.Feed.Check, With: []any{yard()},
		Unset: workingtest.Keys{"inverter.curve": "in place of one efficiency", "inverter.rating_w": "asked for with a curve"}},
	{Ask: battery.PartLoadCurve.Output, With: []any{battery.PartLoadCurve{RatedInputW: d("1000"), EfficiencyPercent: d("95")}, d("400")}},
	{Ask: battery.Motor.LockedRotor, With: []any{battery.Motor{CodeLetter: "J", PowerHP: d("0.5"), VoltageV: d("230")}}},

	{Ask: battery.Gassing.Ventilation, With: []any{gassing()},
		Unset: workingtest.Keys{"charger": "in place of charge"}},
	{Ask: battery.Gassing.CheckOpening, With: []any{gassing(), d("1000")},
		Unset: workingtest.Keys{"charger": "in place of charge", "gas_a": "the figure of the table stands"}},
	{Ask: battery.GasRoom.Ventilation, With: []any{room()},
		Unset: workingtest.Keys{"batteries.charger": "in place of charge"}},
	{Ask: battery.GasRoom.CheckOpening, With: []any{room(), d("1000")},
		Unset: workingtest.Keys{"batteries.charger": "in place of charge", "batteries.gas_a": "the figure of the table stands"}},
	{Ask: battery.RoundOpening, With: []any{d("60")}},
	{Ask: battery.HydrogenRoom.Air, With: []any{battery.HydrogenRoom{FloatAPer100Ah: d("0.24"), TemperatureFactor: d("2"), CapacityAh: d("400"), Cells: 12, LimitPercent: d("1"), RoomM3: d("6")}}},
	{Ask: battery.HydrogenPerAh, With: []any{d("25")},
		Unset: workingtest.Keys{"at_c": "0 °C is a temperature"}},
	{Ask: battery.Dilution.Constant, With: []any{battery.Dilution{LimitPercent: d("4"), HydrogenM3PerAh: d("0.00042"), SafetyFactor: d("5")}}},
	{Ask: battery.Box.Cooling, With: []any{box()}},
	{Ask: battery.Box.Temperature, With: []any{box(), n("25"), n("30")}},
	{Ask: battery.Box.CheckTemperature, With: []any{box(), n("10"), n("30"), n("60")},
		Unset: workingtest.Keys{"wall_w_per_m2k": "in place of material"}},
	{Ask: battery.Box.WallLoss, With: []any{box(), d("60"), d("10")}},
	{Ask: battery.Airflow.Flow, With: []any{battery.Airflow{LossW: d("300"), RiseC: d("15")}}},

	{Ask: battery.Fit.Fit, With: []any{fitting()}},
	{Ask: battery.HoldDown.Forces, With: []any{held()}},
	{Ask: battery.HoldDown.Check, With: []any{held()}},
	{Ask: battery.BoatPull, With: []any{d("27")}},
	{Ask: battery.CraftPull, With: []any{d("27")}},
	{Ask: battery.Vehicle.Axles, With: []any{trailer()},
		Unset: workingtest.Keys{"items.name": label},
		Any:   workingtest.Keys{"items.name": label}},
}

func TestLaws(t *testing.T) { workingtest.Laws(t, questions) }

// TestIndex holds the package comment to its index of questions.
func TestIndex(t *testing.T) { workingtest.Index(t) }
