package tables

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
)

type ciematRow struct {
	quantity, constant, version string
	figure                      working.Figure
}

var ciematRows = load("ciemat-model", func(r *record) ciematRow {
	row := ciematRow{quantity: r.text("quantity"), constant: r.text("constant"), version: r.text("version")}
	row.figure = r.figure("value", "", row.constant)
	return row
})

// LeadAcidConstant returns a constant of the lead-acid model of CIEMAT (Copetti,
// Lorenzo and Chenlo) by its quantity, "charge voltage per cell" and the like, and
// by its name in the formula of the table ciemat-model. Of constants that stand
// there in two versions the one that was read is returned. A name that the table
// does not have is an error that lists those it has.
func LeadAcidConstant(quantity, constant string) (working.Figure, error) {
	for _, r := range ciematRows() {
		if r.quantity == quantity && r.constant == constant && r.version != "as remembered" {
			return r.figure, nil
		}
	}
	return working.Figure{}, &working.InputError{
		Field: "quantity", Got: fmt.Sprintf("%q, constant %q", quantity, constant), Want: "one of " + strings.Join(ciematNames(), ", "),
	}
}

func ciematNames() []string {
	var all []string
	for _, r := range ciematRows() {
		all = append(all, r.quantity+" "+r.constant)
	}
	slices.Sort(all)
	return slices.Compact(all)
}
