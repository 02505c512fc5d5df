package tables

import (
	"errors"
	"fmt"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type coldCapacityRow struct {
	table, chemistry, quantity string
	atC                        decimal.Decimal
	figure                     working.Figure
}

// whole reports whether the row grants no more than the rated capacity.
func (r coldCapacityRow) whole() bool {
	if r.quantity == "size_multiplier" {
		return r.figure.Value.GreaterThanOrEqual(decimal.NewFromInt(1))
	}
	return r.quantity == "capacity" && r.figure.Value.LessThanOrEqual(decimal.NewFromInt(100))
}

var coldCapacities = load("capacity-temperature", func(r *record) coldCapacityRow {
	atC := r.number("temperature_c")
	f := r.figure("value", batteryUnit(r.text("unit")), r.text("chemistry"), atC.String()+" °C")
	f.Note = r.text("note")
	return coldCapacityRow{r.text("table"), r.text("chemistry"), r.text("quantity"), atC, f}
})

// ColdCapacity returns what is left of a battery's capacity at a temperature:
// in % of the rating, or (unit "") as the multiplier that a bank grows by. It
// takes the next colder row of the first table that has one, and never more
// than the rating. Colder than every table is [ErrOutside]; a chemistry in no
// table is [ErrNotListed].
func ColdCapacity(chemistry Chemistry, atC decimal.Decimal) (working.Figure, error) {
	if err := errors.Join(chemistry.Check("chemistry"), inKelvins("battery_c", atC)); err != nil {
		return working.Figure{}, err
	}
	known, err := chemistryRows(coldCapacities(), chemistry, func(r coldCapacityRow, name string) bool { return r.chemistry == name && r.whole() })
	if err != nil {
		return working.Figure{}, fmt.Errorf("capacity of %s at a temperature: %w", chemistry, err)
	}
	var best coldCapacityRow
	for _, r := range known {
		if r.atC.GreaterThan(atC) || best.table != "" && (r.table != best.table || r.atC.LessThan(best.atC)) {
			continue
		}
		best = r
	}
	if best.table == "" {
		return working.Figure{}, fmt.Errorf("capacity of %s at %s °C: %w on the cold side", chemistry, atC, ErrOutside)
	}
	if best.atC.Equal(atC) {
		return best.figure, nil
	}
	f := best.figure
	f.Note = fmt.Sprintf("the next colder row for %s °C", atC)
	return f, nil
}

type sizeFactorRow struct {
	atF, atC decimal.Decimal
	figure   working.Figure
}

var sizeFactors = load("capacity-temperature-ieee485", func(r *record) sizeFactorRow {
	return sizeFactorRow{r.number("electrolyte_f"), r.number("electrolyte_c"), r.figure("factor", "", r.text("electrolyte_f")+" °F")}
})

// CellSizeFactor returns the factor of IEEE 485 table 1 by which vented
// lead-acid cells grow for an electrolyte temperature, in °F as the table is
// printed: its own row, or the next colder one. The table runs from 25 to 125
// °F; colder is [ErrOutside]. Factors below 1 above 77 °F are returned as
// printed; many leave that credit out.
func CellSizeFactor(electrolyteF decimal.Decimal) (working.Figure, error) {
	if err := working.Between("electrolyte_f", electrolyteF, -100, 212); err != nil {
		return working.Figure{}, err
	}
	var best sizeFactorRow
	for _, r := range sizeFactors() {
		if r.atF.LessThanOrEqual(electrolyteF) && (!best.figure.Stated() || r.atF.GreaterThan(best.atF)) {
			best = r
		}
	}
	if !best.figure.Stated() {
		return working.Figure{}, fmt.Errorf("cell size factor at %s °F: %w; the table begins at %s °F", electrolyteF, ErrOutside, sizeFactors()[0].atF)
	}
	return noteRow(best.figure, best.atF.Equal(electrolyteF), "the next colder row for %s °F", electrolyteF), nil
}

// SizingFigure returns the first figure listed for a step of sizing:
// "ageing_factor" of UFC 3-520-01, "design_margin" of the industrial UPS worksheet,
// "depth_of_discharge_limit" of the PV worksheet. Common practice of any battery:
// "charge_cut_out_over_nominal", above which a cut-out guards no cell,
// "cut_out_over_nominal", below which it guards none, and "apart_when_joined", in
// V, of batteries of one bank; "cranking_per_ah", the least with which a battery
// cranks an engine; "least_starter_ah", the capacity below which none does as a rule;
// "longest_start", in s; "rests_apart", in points of charge.
func SizingFigure(parameter string) (working.Figure, error) {
	r, err := sizingFigures().first(parameter)
	return r.span.Typical, err
}

var sizingFigures = indexed("sizing_figure", where(batteryLimits, func(r limitRow) bool { return r.span.Typical.Stated() }),
	func(r limitRow) string { return r.parameter })

type exponentRow struct {
	chemistry   string
	least, most working.Figure
}

var exponents = load("peukert", func(r *record) exponentRow {
	return exponentRow{r.text("chemistry"), r.figure("exponent_min", "", r.text("chemistry")), r.figure("exponent_max", "", r.text("chemistry"))}
})

// PeukertExponents returns the least and the greatest exponent usual for a
// chemistry: from memory, and of little use beside two ratings of the battery
// itself. Only lead-acid is listed.
func PeukertExponents(chemistry Chemistry) (least, most working.Figure, err error) {
	rows, err := chemistryRows(exponents(), chemistry, func(r exponentRow, name string) bool { return r.chemistry == name })
	if err != nil {
		return least, most, fmt.Errorf("exponent of %s: %w", chemistry, err)
	}
	return rows[0].least, rows[0].most, nil
}
