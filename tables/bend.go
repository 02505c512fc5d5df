package tables

import (
	"errors"
	"fmt"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type bendRow struct {
	cable      string
	over, upTo decimal.NullDecimal // outer diameter in mm
	figure     working.Figure
}

var bendRows = load("bend-radius", func(r *record) bendRow {
	cable := r.text("cable")
	return bendRow{cable, r.optional("diameter_over_mm"), r.optional("diameter_to_mm"), r.figure("multiple_of_diameter", "", cable)}
})

var bendsByCable = indexed("cable", bendRows, func(r bendRow) string { return r.cable })

// BendMultiple returns the least bend radius of a kind of cable in multiples of
// its outer diameter. [BendCables] lists the kinds; a diameter beyond those of
// its kind is [ErrOutside]. Diameter above 0 to 1000 mm.
func BendMultiple(cable string, diameterMM decimal.Decimal) (working.Figure, error) {
	rows, err := bendsByCable().of(cable)
	if err := errors.Join(err, working.Above("diameter_mm", diameterMM, 0, 1000)); err != nil {
		return working.Figure{}, err
	}
	for _, row := range rows {
		over := !row.over.Valid || diameterMM.GreaterThan(row.over.Decimal)
		upTo := !row.upTo.Valid || diameterMM.LessThanOrEqual(row.upTo.Decimal)
		if over && upTo {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("bend radius of %q, %s mm: %w", cable, diameterMM, ErrOutside)
}

// BendCables lists the kinds of cable that [BendMultiple] knows.
func BendCables() []string { return bendsByCable().all() }
