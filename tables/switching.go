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
