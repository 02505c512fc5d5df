package main

import (
	"example.org/extralow/battery"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "case", Sample: "both", Means: "case to ask: drawn, delivered or both"},
	{Name: "case_length_mm", Sample: "280", Means: "case as drawn, mm"},
	{Name: "longer_mm", Sample: "35", Means: "the delivered one is longer by, mm"},
	{Name: "case_width_mm", Sample: "170", Means: "mm"},
	{Name: "case_height_mm", Sample: "210", Means: "mm, terminals included"},
	{Name: "terminal_mm", Sample: "18", Means: "of them, the terminals, mm"},
	{Name: "case_tolerance_mm", Sample: "2", Means: "it may arrive bigger by, mm"},
	{Name: "case_kg", Sample: "11.8", Means: "one battery, kg"},
	{Name: "along", Sample: "2", Means: "cases in the length"},
	{Name: "across", Sample: "2", Means: "cases in the width"},
	{Name: "space_length_mm", Sample: "793", Means: "space as measured, mm"},
	{Name: "space_width_mm", Sample: "396", Means: "mm"},
	{Name: "space_height_mm", Sample: "275", Means: "mm"},
	{Name: "space_tolerance_mm", Sample: "5", Means: "it may turn out smaller by, mm"},
	{Name: "gap_mm", Sample: "10", Means: "between cases, mm"},
	{Name: "wall_mm", Sample: "15", Means: "to every wall: straps, hands, mm"},
	{Name: "above_mm", Sample: "50", Means: "over the terminals, mm"},
	{Name: "cable_diameter_mm", Sample: "14", Means: "outer, mm; 0: none that way"},
	{Name: "bend_multiple", Sample: "4", Means: "least bend radius, in diameters"},
	{Name: "lug_mm", Sample: "40", Means: "straight before the bend, mm"},
	{Name: "straps", Sample: "2", Means: "across each row, two fixings each"},
	{Name: "fixing_n", Means: "what one fixing bears, N"},
	{Name: "g_times", Sample: "10", Means: "acceleration, in g"},
	{Name: "chemistry", Sample: "LiFePO4", Means: "of the batteries", Words: form.Names("chemistry")},
	{Name: "cells", Sample: "4", Means: "in series"},
	{Name: "capacity_ah", Sample: "400", Means: "of the whole bank, Ah"},
	{Name: "charge", Sample: "boost", Means: "highest stage: float or boost"},
	{Name: "fitted_cm2", Sample: "60", Means: "free area of the smaller opening, cm²"},
	{Name: "loss_w", Sample: "25", Means: "heat made in the bay, W"},
	{Name: "outside_c", Sample: "35", Means: "air round the bay, °C"},
	{Name: "ambient_c", Sample: "50", Means: "its cables were judged at, °C"},
	{Name: "position", Sample: "single, on a wall", Means: "of the bay", Words: form.Names("position")},
	{Name: "material", Sample: "plastic", Means: "of its walls", Words: form.Names("material")},
	{Name: "wheelbase_m", Sample: "3.6", Means: "m"},
	{Name: "front_kg", Sample: "1510", Means: "front axle as weighed, kg"},
	{Name: "rear_kg", Sample: "1620", Means: "rear axle as weighed, kg"},
	{Name: "front_limit_kg", Sample: "1850", Means: "of the plate, kg"},
	{Name: "rear_limit_kg", Sample: "2120", Means: "of the plate, kg"},
	{Name: "gross_limit_kg", Sample: "3500", Means: "of the plate, kg"},
	{Name: "behind_m", Sample: "2.9", Means: "batteries behind the front axle, m"},
}

// read turns the flags into a question. What the package judges is left to it.
func read(f *form.Form) question {
	q := question{
		fit: readFit(f), longerMM: f.Number("longer_mm", form.Between(-500, 500)), eachKg: f.Number("case_kg", form.Above(0, 500)), terminalMM: f.Number("terminal_mm"),
		straps: f.Whole("straps", form.Between(1, 4)), times: f.Number("g_times"), strengthN: f.Optional("fixing_n"),
		gas: battery.Gassing{
			Chemistry: tables.Chemistry(f.Text("chemistry")), Cells: f.Whole("cells"), CapacityAh: f.Number("capacity_ah"), Charge: f.Text("charge"),
		},
		openingCM2: f.Number("fitted_cm2"),
		lossW:      f.Number("loss_w"), outsideC: f.Number("outside_c"), ambientC: f.Number("ambient_c"),
		position: f.Text("position"), material: f.Text("material"),
		vehicle: readVehicle(f), behindM: f.Number("behind_m"),
	}
	q.cases = map[string][]string{"both": {"drawn", "delivered"}, "drawn": {"drawn"}, "delivered": {"delivered"}}[f.Text("case")]
	f.Refuse(working.OneOf("case", f.Text("case"), "drawn", "delivered", "both"))
	if q.terminalMM.IsNegative() || q.terminalMM.GreaterThanOrEqual(q.fit.Case.HeightMM) {
		f.Refuse(&working.InputError{Field: "terminal_mm", Got: q.terminalMM.String(), Want: "0 or more, and less than case_height_mm"})
	}
	return q
}

func readFit(f *form.Form) battery.Fit {
	return battery.Fit{
		Case: battery.Case{
			LengthMM: f.Number("case_length_mm"), WidthMM: f.Number("case_width_mm"), HeightMM: f.Number("case_height_mm"),
			ToleranceMM: decimal.NewNullDecimal(f.Number("case_tolerance_mm")),
		},
		Space: battery.Space{
			LengthMM: f.Number("space_length_mm"), WidthMM: f.Number("space_width_mm"), HeightMM: f.Number("space_height_mm"),
			ToleranceMM: decimal.NewNullDecimal(f.Number("space_tolerance_mm")),
		},
		Along: f.Whole("along"), Across: f.Whole("across"),
		GapMM: decimal.NewNullDecimal(f.Number("gap_mm")), WallMM: decimal.NewNullDecimal(f.Number("wall_mm")), AboveMM: decimal.NewNullDecimal(f.Number("above_mm")),
		CableMM: decimal.NewNullDecimal(f.Number("cable_diameter_mm")), BendTimes: f.Number("bend_multiple"), LugMM: decimal.NewNullDecimal(f.Number("lug_mm")),
	}
}

func readVehicle(f *form.Form) battery.Vehicle {
	return battery.Vehicle{
		WheelbaseM: f.Number("wheelbase_m"), FrontKg: f.Number("front_kg"), RearKg: f.Number("rear_kg"),
		FrontLimitKg: f.Number("front_limit_kg"), RearLimitKg: f.Number("rear_limit_kg"), GrossLimitKg: f.Number("gross_limit_kg"),
	}
}
