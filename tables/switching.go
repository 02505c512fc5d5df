package tables

import (
	"errors"
	"fmt"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type switchRow struct {
	systemV decimal.Decimal
	load    string
	figure  working.Figure
}

var switchRows = load("switch-derating", func(r *record) switchRow {
	return switchRow{r.number("system_v"), r.text("load"), r.figure("factor", "", r.text("system_v")+" V", r.text("load"))}
})

var switchLoads = indexed("load", switchRows, func(r switchRow) string { return r.load })

// SwitchFactor returns the rating of a switch for each ampere of a kind of
// load: lamp, inductive, resistive or motor. A 24 V system takes the rows for
// 28 V; another voltage the row of the next higher one, and above the last it
// is [ErrOutside]. Voltage above 0 to 2000 V.
func SwitchFactor(systemV decimal.Decimal, load string) (working.Figure, error) {
	rows, err := switchLoads().of(load)
	if err := errors.Join(working.Above("system_v", systemV, 0, 2000), err); err != nil {
		return working.Figure{}, err
	}
	var best switchRow
	for _, row := range rows {
		if row.systemV.GreaterThanOrEqual(systemV) && (best.load == "" || row.systemV.LessThan(best.systemV)) {
			best = row
		}
	}
	if best.load == "" {
		return working.Figure{}, fmt.Errorf("switch factor at %s V: %w; it ends at 28 V", systemV, ErrOutside)
	}
	return noteRow(best.figure, best.systemV.Equal(systemV), "the row above %s V", systemV), nil
}

type categoryRow struct {
	category string
	makes    working.Figure
	breaks   working.Figure
}

var categoryRows = load("utilisation-categories", func(r *record) categoryRow {
	category := r.text("category")
	return categoryRow{category, r.figure("makes_multiple", "", "category "+category), r.figure("breaks_multiple", "", "category "+category)}
})

var categories = indexed("category", categoryRows, func(r categoryRow) string { return r.category })

// CategoryFactors returns how many times its rated operational current a
// contactor of a utilisation category makes, and breaks: "DC-1" (resistive
// loads, the least of all), "DC-3" (shunt motors), "DC-5" (series motors).
// Source: IEC 60947-4-1 table 7, from memory.
func CategoryFactors(category string) (makes, breaks working.Figure, err error) {
	row, err := categories().first(category)
	return row.makes, row.breaks, err
}
