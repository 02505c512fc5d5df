package tables

import (
	"fmt"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type selectivityRow struct {
	id, devices string
	ratio       decimal.NullDecimal
	figure      working.Figure
}

var selectivityRows = load("selectivity-rules", func(r *record) selectivityRow {
	ratio := r.optional("ratio")
	return selectivityRow{r.text("id"), r.text("devices"), ratio, working.Figure{
		Value: ratio.Decimal, Source: r.source(r.text("devices")), Note: r.text("note"),
	}}
})

// SelectivityRatio returns the least ratio of the upper rating to the lower of
// a rule by its id: gG16, gG20, ul-t, ul-j, ul-j-t, ul-j-delay,
// cb-cb-magnetic, cb-cb-overload. The caller names the rule, because sources
// differ and each holds for its own pair of devices.
func SelectivityRatio(id string) (working.Figure, error) {
	var ids []string
	for _, row := range selectivityRows() {
		if !row.ratio.Valid {
			continue
		}
		if row.id == id {
			return row.figure, nil
		}
		ids = append(ids, row.id)
	}
	return working.Figure{}, &working.InputError{Field: "rule", Got: fmt.Sprintf("%q", id), Want: "one of " + strings.Join(ids, ", ")}
}
