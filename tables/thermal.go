package tables

import (
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type insulatedRow struct {
	lengthM decimal.Decimal
	factor  working.Figure
}

var insulatedRows = load("thermal-insulation", func(r *record) insulatedRow {
	return insulatedRow{r.number("length_m"), r.figure("factor", "", r.text("length_m")+" m")}
})

// ThermalInsulation returns the factor on the ampacity of a cable clipped direct
// (method C) where thermal insulation surrounds it over a length: that of the
// row of this length or the next longer one, and half from 0.5 m on, as
// BS 7671 523.9 has it. Length above 0 to 1000 m.
// Sources: BS 7671:2018 table 52.2 and 523.9, from memory.
func ThermalInsulation(lengthM decimal.Decimal) (working.Figure, error) {
	if err := working.Above("insulated_m", lengthM, 0, 1000); err != nil {
		return working.Figure{}, err
	}
	rows := insulatedRows()
	for _, row := range rows {
		if row.lengthM.GreaterThanOrEqual(lengthM) {
			return noteRow(row.factor, row.lengthM.Equal(lengthM), "the row above %s m", lengthM), nil
		}
	}
	return noteRow(rows[len(rows)-1].factor, false, "the last row, for %s m and more", rows[len(rows)-1].lengthM), nil
}
