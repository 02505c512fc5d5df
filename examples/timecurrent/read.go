package main

import (
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "family", Sample: "ISO 8820-3 E", Means: "of the device, by its standard", Words: form.Names("family")},
	{Name: "rating_a", Sample: "40", Means: "of the device, A"},
	{Name: "size", Sample: "10 mm2", Means: "of the cable, such as 6 mm2 or AWG 8"},
	{Name: "insulation", Sample: "PVC 70 C", Means: "of the cable", Words: form.Names("insulation")},
	{Name: "method", Sample: "B", Means: "A, B, C or F of IEC 60364-5-52"},
	{Name: "ambient_c", Sample: "35", Means: "air round the cable, °C"},
	{Name: "grouped", Sample: "1", Means: "circuits together, itself too"},
	{Name: "load_a", Sample: "31", Means: "steady current, A"},
	{Name: "surge_a", Sample: "110", Means: "current while the load starts, A"},
	{Name: "surge_s", Sample: "0.3", Means: "how long that lasts, s"},
	{Name: "fault_least_a", Sample: "320", Means: "at the far end, all hot, source weak, A"},
	{Name: "fault_most_a", Sample: "900", Means: "at the device, source full, A"},
}

// read turns the flags into a circuit.
func read(f *form.Form) circuit {
	c := circuit{insulation: f.Text("insulation")}
	c.device.Family = f.Text("family")
	c.device.RatingA = f.Number("rating_a", amperes)
	c.lay = wire.Conductor{
		Class: tables.Flexible, PlainCopper: true, OutsideEngineSpace: true, Method: f.Text("method"), Grouped: f.Whole("grouped", form.Between(1, 60)),
		AmbientC: decimal.NewNullDecimal(f.Number("ambient_c", form.Between(-40, 120))),
	}
	c.loadA = f.Number("load_a", amperes)
	c.surge.CurrentA = f.Number("surge_a", amperes)
	c.surge.DurationS = f.Number("surge_s", seconds)
	c.leastA = f.Number("fault_least_a", amperes)
	c.mostA = f.Number("fault_most_a", amperes)
	if f.Faults() == nil && c.mostA.LessThan(c.leastA) {
		f.Refuse(&working.InputError{Field: "fault_most_a", Got: f.Text("fault_most_a"), Want: "no less than fault_least_a, " + f.Text("fault_least_a")})
	}
	_, err := tables.FamilyOf(c.device.Family)
	f.Refuse(err)
	c.lay.Size, err = tables.ParseSize(f.Text("size"))
	f.Refuse(err)
	return c
}

// What the paper and the packages take.
var amperes, seconds = from("0.1", "10000"), from("0.001", "3600")

func from(low, high string) form.Check {
	least, most := decimal.RequireFromString(low), decimal.RequireFromString(high)
	return func(field string, v decimal.Decimal) error {
		if v.GreaterThanOrEqual(least) && v.LessThanOrEqual(most) {
			return nil
		}
		return &working.InputError{Field: field, Got: v.String(), Want: low + " to " + high}
	}
}
