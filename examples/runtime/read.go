package main

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/battery"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var entries = []form.Entry{
	{Name: "chemistry", Sample: "lead-acid AGM", Means: "a kind of lead-acid", Words: leadAcid},
	{Name: "slow_ah", Sample: "220", Means: "its rating, the whole bank, Ah"},
	{Name: "slow_h", Sample: "20", Means: "in so many hours"},
	{Name: "fast_ah", Sample: "132", Means: "its other rating, Ah"},
	{Name: "fast_h", Sample: "1", Means: "in so many hours"},
	{Name: "depth_percent", Sample: "50", Means: "of that charge is used, %"},
	{Name: "lithium_ah", Sample: "220", Means: "LiFePO4 beside it, Ah"},
	{Name: "lithium_depth_percent", Sample: "80", Means: "of that charge is used, %"},
	{Name: "ageing_percent", Sample: "80", Means: "left when either is replaced, %"},
	{Name: "system_v", Sample: "12", Means: "nominal voltage, V"},
	{Name: "battery_c", Sample: "25,0,-10", Means: "of the battery, up to three, °C"},
	{Name: "current_a", Sample: "25", Means: "load to look at, A"},
	{Name: "power_w", Means: "the same in W, in place of current_a"},
}

// read turns the flags into a question.
func read(f *form.Form) question {
	q := question{chemistry: tables.Chemistry(f.Text("chemistry"))}
	f.Refuse(working.OneOf("chemistry", string(q.chemistry), leadAcid()...))
	q.ratings.Slow = battery.HourRating{CapacityAh: f.Number("slow_ah", form.Above(0, 5000)), RateH: f.Number("slow_h", form.Above(0, 1000))}
	q.ratings.Fast = battery.HourRating{CapacityAh: f.Number("fast_ah", form.Above(0, 5000)), RateH: f.Number("fast_h", form.Above(0, 1000))}
	q.depth = f.Number("depth_percent", form.Above(0, 100))
	q.lithiumAh = f.Number("lithium_ah", form.Above(0, 5000))
	q.lithiumDepth = f.Number("lithium_depth_percent", form.Above(0, 100))
	q.ageing = f.Number("ageing_percent", form.Between(20, 100))
	q.systemV = f.Number("system_v", form.Above(0, 60))
	q.temperatures = temperatures(f)
	q.loadA = load(f, q.systemV)
	return q
}

// temperatures reads a list of up to three, the widest that the page takes.
func temperatures(f *form.Form) []decimal.Decimal {
	const name = "battery_c"
	words := strings.Split(f.Text(name), ",")
	if len(words) > 3 {
		f.Refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%q", f.Text(name)), Want: "up to three temperatures with commas, such as 25,0,-10"})
		return nil
	}
	var all []decimal.Decimal
	for _, word := range words {
		v, err := form.ReadNumber(name, strings.TrimSpace(word), form.Between(-40, 80))
		if err == nil && slices.ContainsFunc(all, v.Equal) {
			err = &working.InputError{Field: name, Got: v.String() + " twice", Want: "each temperature once"}
		}
		f.Refuse(err)
		all = append(all, v)
	}
	return all
}

// load reads the load in amperes or, in their place, in watts: then rounded up
// to 0.01 A.
func load(f *form.Form, systemV decimal.Decimal) decimal.Decimal {
	if f.Text("power_w") == "" {
		return f.Number("current_a", form.Above(0, 10_000))
	}
	if f.Given("current_a") {
		f.Refuse(&working.InputError{Field: "power_w", Got: f.Text("power_w") + " beside current_a " + f.Text("current_a"), Want: "one of both"})
	}
	f.Unset("current_a")
	amps, rest := f.Number("power_w", form.Above(0, 100_000)).QuoRem(systemV, 2)
	if rest.IsPositive() {
		amps = amps.Add(decimal.New(1, -2))
	}
	return amps
}
