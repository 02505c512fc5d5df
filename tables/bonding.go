package tables

import (
	"fmt"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Bond is what one document asks of a bonding or protective conductor.
type Bond struct {
	Applies string         // to what
	Item    string         // what is asked for
	Figure  working.Figure // in mm², AWG, mA, mΩ, m or as a share of the line conductor
}

type bondRow struct {
	id    string
	value decimal.NullDecimal
	bond  Bond
}

var bondRows = load("bonding", func(r *record) bondRow {
	value := r.optional("value")
	return bondRow{r.text("id"), value, Bond{r.text("applies_to"), r.text("item"), working.Figure{
		Value: value.Decimal, Unit: strings.NewReplacer("mm2", "mm²", "mohm", "mΩ").Replace(r.text("unit")),
		Source: r.source(r.text("item")), Note: r.text("note"),
	}}}
})

// BondOf returns a rule about bonding by its id: "iec60364-721-bond",
// "nfpa70-552-chassis". Bonding of a mains supply is work for a licensed
// person; the figures are for reading and checking.
func BondOf(id string) (Bond, error) {
	var ids []string
	for _, row := range bondRows() {
		if !row.value.Valid {
			continue
		}
		if row.id == id {
			return row.bond, nil
		}
		ids = append(ids, row.id)
	}
	return Bond{}, &working.InputError{Field: "bond", Got: fmt.Sprintf("%q", id), Want: "one of " + strings.Join(ids, ", ")}
}
