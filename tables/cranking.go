package tables

import (
	"errors"
	"fmt"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type crankingTestRow struct {
	rating, quantity string
	figure           working.Figure
}

var crankingTestRows = load("cranking-definitions", func(r *record) crankingTestRow {
	return crankingTestRow{r.text("rating"), r.text("quantity"), r.figure("value", batteryUnit(r.text("unit")), r.text("rating"))}
})

// CrankingTest is how a cranking rating is tested: the rated current, at a
// temperature, for a time, down to a voltage of a 12 V battery.
type CrankingTest struct {
	AtC   working.Figure `json:"temperature"`
	TimeS working.Figure `json:"time"`
	EndV  working.Figure `json:"end_voltage"`
}

// CrankingTestOf returns the test behind a rating: "SAE CCA", "EN1", "EN2",
// "DIN", "IEC", "CA or MCA" or "HCA". The figures of two ratings are not to be
// compared: their tests differ.
func CrankingTestOf(rating string) (CrankingTest, error) {
	rows, err := crankingTests().of(rating)
	if err != nil {
		return CrankingTest{}, err
	}
	var t CrankingTest
	for _, r := range rows {
		switch r.quantity {
		case "temperature":
			t.AtC = r.figure
		case "time":
			t.TimeS = r.figure
		case "end_voltage_12v":
			t.EndV = r.figure
		}
	}
	return t, nil
}

// crankingTests holds the tests by their rating; a test of the data demands that
// each of them is whole.
var crankingTests = indexed("cranking_test", crankingTestRows, func(r crankingTestRow) string { return r.rating })

type selfDischargeRow struct {
	chemistry, condition, unit string
	temperatureC               decimal.NullDecimal
	least, most                working.Figure
}

var selfDischarges = load("self-discharge", func(r *record) selfDischargeRow {
	row := selfDischargeRow{chemistry: r.text("chemistry"), condition: r.text("condition"), unit: r.text("unit"), temperatureC: r.optional("temperature_c")}
	label := strings.TrimSuffix(row.chemistry+", "+row.condition, ", ")
	row.most = r.figure("value_max", "%", label)
	row.least = row.most
	if r.optional("value_min").Valid {
		row.least = r.figure("value_min", "%", label)
	}
	return row
})

// SelfDischarge returns the least and the greatest share of its charge that a
// battery of a chemistry loses in a month near 20 °C, over the tables that give
// it by the month: its own rows, else those of a more general name. A warm
// battery loses more: about twice as much for every 10 K (from memory).
func SelfDischarge(chemistry Chemistry) (least, most working.Figure, err error) {
	rows, err := chemistryRows(selfDischarges(), chemistry, func(r selfDischargeRow, name string) bool {
		return r.chemistry == name && r.unit == "percent per month"
	})
	if err != nil {
		return least, most, fmt.Errorf("self-discharge of %s: %w", chemistry, err)
	}
	least, most = rows[0].least, rows[0].most
	for _, r := range rows[1:] {
		if r.least.Value.LessThan(least.Value) {
			least = r.least
		}
		if r.most.Value.GreaterThan(most.Value) {
			most = r.most
		}
	}
	return least, most, nil
}

type cycleRow struct {
	table, chemistry, condition string
	depth, capacity             decimal.Decimal
	cycles                      working.Figure
}

var cycleRows = load("cycle-life", func(r *record) cycleRow {
	label := strings.TrimSuffix(r.text("chemistry")+", "+r.text("condition"), ", ") + ", " + r.text("dod_percent") + " % depth"
	f := r.figure("cycles_min", "", label)
	f.Note = "to " + r.text("capacity_percent") + " % of the capacity"
	return cycleRow{r.text("table"), r.text("chemistry"), r.text("condition"), r.number("dod_percent"), r.number("capacity_percent"), f}
})

// CycleLives returns the cycles that each table promises a chemistry at a depth
// of discharge: its own row or that of the next greater depth, the least where
// it prints a range. Tables end at different capacities (see the note) and
// must not be mixed. No row that deep is [ErrOutside]; a chemistry in no table
// is [ErrNotListed]. Inputs of a model's tests are left out.
func CycleLives(chemistry Chemistry, depthPercent decimal.Decimal) ([]working.Figure, error) {
	if err := errors.Join(chemistry.Check("chemistry"), working.Above("depth_percent", depthPercent, 0, 100)); err != nil {
		return nil, err
	}
	rows, err := chemistryRows(cycleRows(), chemistry, func(r cycleRow, name string) bool {
		return r.chemistry == name && r.cycles.Source.Key != "NREL ssc"
	})
	if err != nil {
		return nil, fmt.Errorf("cycle life of %s: %w", chemistry, err)
	}
	best := map[string]cycleRow{}
	var order []string
	for _, r := range rows {
		key := r.table + r.condition
		if r.depth.LessThan(depthPercent) {
			continue
		}
		if b, ok := best[key]; !ok {
			order = append(order, key)
			best[key] = r
		} else if r.depth.LessThan(b.depth) {
			best[key] = r
		}
	}
	var all []working.Figure
	for _, key := range order {
		all = append(all, best[key].cycles)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("cycle life of %s at %s %%: %w", chemistry, depthPercent, ErrOutside)
	}
	return all, nil
}
