package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type deratingRow struct {
	family     string
	fromA, toA decimal.NullDecimal // unset: every rating
	ambientC   decimal.Decimal
	quantity   string // factor, or slope for each kelvin above the ambient
	figure     working.Figure
}

func (d deratingRow) holdsFor(ratingA decimal.Decimal) bool {
	return !d.fromA.Valid || d.fromA.Decimal.LessThanOrEqual(ratingA) && d.toA.Decimal.GreaterThanOrEqual(ratingA)
}

var deratingRows = load("device-derating", func(r *record) deratingRow {
	f := r.figure("value", "", r.text("ambient_c")+" °C")
	f.Note = r.text("note")
	return deratingRow{
		r.text("family"), r.optional("rating_from_a"), r.optional("rating_to_a"), r.number("ambient_c"), r.text("quantity"), f,
	}
})

// deratingByFamily holds each family's rows, those of single ratings before
// those of every rating and the coolest first.
var deratingByFamily = sync.OnceValue(func() map[string][]deratingRow {
	m := map[string][]deratingRow{}
	for _, d := range deratingRows() {
		m[d.family] = append(m[d.family], d)
	}
	for _, all := range m {
		slices.SortStableFunc(all, func(a, b deratingRow) int { return a.ambientC.Cmp(b.ambientC) })
	}
	return m
})

// DeviceDerating returns the factor on a device's rating in an ambient. Rows
// for its own rating go before rows for the whole family. The ambient takes the
// next hotter row or, above the last, the slope that the table states. Without
// rows the answer is [ErrNotListed], beyond them [ErrOutside].
func DeviceDerating(family string, ratingA, ambientC decimal.Decimal) (working.Figure, error) {
	if err := errors.Join(knownFamily(family), inAmperes("rating_a", ratingA), inKelvins("ambient_c", ambientC)); err != nil {
		return working.Figure{}, err
	}
	var rows []deratingRow
	for _, d := range deratingByFamily()[family] {
		if !d.holdsFor(ratingA) {
			continue
		}
		if len(rows) > 0 && d.fromA.Valid != rows[0].fromA.Valid {
			if !d.fromA.Valid {
				continue
			}
			rows = nil
		}
		rows = append(rows, d)
	}
	if len(rows) == 0 {
		return working.Figure{}, fmt.Errorf("derating of %q at %s A: %w", family, ratingA, ErrNotListed)
	}
	return deratingAt(rows, ambientC)
}

func deratingAt(rows []deratingRow, ambientC decimal.Decimal) (working.Figure, error) {
	last := rows[len(rows)-1].ambientC
	for _, d := range rows {
		if d.quantity != "factor" || d.ambientC.LessThan(ambientC) {
			continue
		}
		f := d.figure
		if !d.ambientC.Equal(ambientC) {
			f.Note = strings.TrimSuffix(fmt.Sprintf("the next hotter row for %s °C; %s", ambientC, f.Note), "; ")
		}
		return f, nil
	}
	for _, slope := range rows {
		if slope.quantity == "slope" {
			return sloped(rows, slope, ambientC)
		}
	}
	return working.Figure{}, fmt.Errorf("ambient %s °C: %w; the derating ends at %s °C", ambientC, ErrOutside, last)
}

// sloped carries the factor on by its slope, down to nought.
func sloped(rows []deratingRow, slope deratingRow, ambientC decimal.Decimal) (working.Figure, error) {
	for _, d := range rows {
		if d.quantity != "factor" || !d.ambientC.Equal(slope.ambientC) {
			continue
		}
		f := d.figure
		f.Value = f.Value.Add(slope.figure.Value.Mul(ambientC.Sub(d.ambientC)))
		f.Note = fmt.Sprintf("%s at %s °C, %s for each K above", d.figure.Value, d.ambientC, slope.figure.Value)
		if f.Value.IsPositive() {
			return f, nil
		}
	}
	return working.Figure{}, fmt.Errorf("ambient %s °C: %w; the device carries nothing there", ambientC, ErrOutside)
}
