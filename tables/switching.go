package tables

import (
	"fmt"
	"strings"

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

// SwitchFactor returns the rating of a switch for each ampere of a kind of
// load: lamp, inductive, resistive or motor. A 24 V system takes the rows for
// 28 V; another voltage the row of the next higher one, and above the last it
// is [ErrOutside].
func SwitchFactor(systemV decimal.Decimal, load string) (working.Figure, error) {
	var best switchRow
	var loads []string
	for _, row := range switchRows() {
		loads = append(loads, row.load)
		if row.load == load && row.systemV.GreaterThanOrEqual(systemV) && (best.load == "" || row.systemV.LessThan(best.systemV)) {
			best = row
		}
	}
	if best.load == "" {
		return working.Figure{}, switchError(systemV, load, loads)
	}
	return noteRow(best.figure, best.systemV.Equal(systemV), "the row above %s V", systemV), nil
}

func switchError(systemV decimal.Decimal, load string, loads []string) error {
	for _, known := range loads {
		if known == load {
			return fmt.Errorf("switch factor at %s V: %w; it ends at 28 V", systemV, ErrOutside)
		}
	}
	return &working.InputError{Field: "load", Got: fmt.Sprintf("%q", load), Want: "one of " + strings.Join(unique(loads), ", ")}
}

func unique(words []string) []string {
	seen := map[string]bool{}
	var all []string
	for _, w := range words {
		if !seen[w] {
			seen[w] = true
			all = append(all, w)
		}
	}
	return all
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

// CategoryFactors returns how many times its rated operational current a
// contactor of a utilisation category makes, and breaks: "DC-1" (resistive
// loads, the least of all), "DC-3" (shunt motors), "DC-5" (series motors).
// Source: IEC 60947-4-1 table 7, from memory.
func CategoryFactors(category string) (makes, breaks working.Figure, err error) {
	var names []string
	for _, row := range categoryRows() {
		if row.category == category {
			return row.makes, row.breaks, nil
		}
		names = append(names, row.category)
	}
	return makes, breaks, working.OneOf("category", category, names...)
}
