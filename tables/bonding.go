package tables

import (
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Bond is what one document asks of a bonding or protective conductor.
type Bond struct {
	Applies string         `json:"applies"` // to what
	Item    string         `json:"item"`    // what is asked for
	Figure  working.Figure `json:"figure"`  // in mm², AWG, mA, mΩ, m or as a share of the line conductor
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

var bonds = indexed("bond", where(bondRows, func(r bondRow) bool { return r.value.Valid }), func(r bondRow) string { return r.id })

// BondOf returns a rule about bonding by its id ([Names] "bond"):
// "iec60364-721-bond", "nfpa70-552-chassis". Bonding of a mains supply is work for
// a licensed person; the figures are for reading and checking.
func BondOf(id string) (Bond, error) {
	row, err := bonds().first(id)
	return row.bond, err
}
