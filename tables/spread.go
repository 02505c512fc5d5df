package tables

import "example.org/extralow/tables/working"

type spreadRow struct {
	chemistry, quantity string
	figure              working.Figure
}

var spreadRows = load("rested-spread", func(r *record) spreadRow {
	return spreadRow{r.text("chemistry"), r.text("quantity"), r.figure("value", batteryUnit(r.text("unit")), r.text("chemistry"))}
})

// RestedSpread returns how far one rested cell of a chemistry may differ from
// another, or from itself after a charge, in V. A chemistry without a row has
// that of any.
func RestedSpread(chemistry Chemistry) working.Figure {
	var figure working.Figure
	for _, r := range spreadRows() {
		if r.quantity == "spread" && (r.chemistry == string(chemistry) || r.chemistry == "any") {
			figure = r.figure
			if r.chemistry == string(chemistry) {
				break
			}
		}
	}
	return figure
}

// WidestCharge returns the range of charge, in percentage points, above which a
// rested voltage gives no answer.
func WidestCharge() working.Figure {
	for _, r := range spreadRows() {
		if r.quantity == "no_answer_above" {
			return r.figure
		}
	}
	panic("rested-spread has no range")
}
