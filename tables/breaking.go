package tables

import (
	"errors"
	"fmt"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type crankingRow struct {
	fromV, toV     decimal.Decimal
	fromCCA, toCCA decimal.NullDecimal // an unset end is open
	device         string
	figure         working.Figure
}

var crankingRows = load("breaking-capacity-by-cranking", func(r *record) crankingRow {
	return crankingRow{
		r.number("system_from_v"), r.number("system_to_v"), r.optional("cca_from"), r.optional("cca_to"), r.text("device"),
		r.figure("breaking_a", "A", r.text("device")),
	}
})

// BreakingByCranking returns the least breaking capacity that the voluntary US
// small-craft code asks for by the cold-cranking amperes of all batteries
// together, of the main device (the first from the battery) or of a branch
// device. It is a table of last resort: it never stands in for a computed fault
// current, and says nothing about a bank without a cranking figure.
func BreakingByCranking(systemV, crankingA decimal.Decimal, main bool) (working.Figure, error) {
	if err := errors.Join(inVolts("system_v", systemV), working.Above("cranking_a", crankingA, 0, 100_000)); err != nil {
		return working.Figure{}, err
	}
	device := "branch"
	if main {
		device = "main"
	}
	whole := crankingA.Ceil() // 650.5 A is above the row that ends at 650
	for _, row := range crankingRows() {
		within := row.fromV.LessThanOrEqual(systemV) && row.toV.GreaterThanOrEqual(systemV) &&
			(!row.toCCA.Valid || row.toCCA.Decimal.GreaterThanOrEqual(whole))
		if within && row.device == device && row.fromCCA.Decimal.LessThanOrEqual(whole) {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("breaking capacity at %s V by cranking current: %w; it has 12 to 24 V and 32 V", systemV, ErrNotListed)
}
