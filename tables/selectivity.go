package tables

import (
	"errors"
	"fmt"

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

var selectivityRules = indexed("selectivity_rule", where(selectivityRows, func(r selectivityRow) bool { return r.ratio.Valid }),
	func(r selectivityRow) string { return r.id })

// SelectivityRatio returns the least ratio of the upper rating to the lower of
// a rule by its id ([Names] "selectivity_rule"): gG16, ul-t, cb-cb-magnetic ... The
// caller names the rule, because sources differ and each holds for its own pair of
// devices.
func SelectivityRatio(id string) (working.Figure, error) {
	row, err := selectivityRules().first(id)
	return row.figure, err
}

// PreArcingEnergy is the pre-arcing energy (I²t) of a fuse-link at 0.01 s, between the
// least and the most that its standard allows.
type PreArcingEnergy struct {
	Least    working.Figure `json:"least"` // A²s
	Greatest working.Figure `json:"greatest"`
}

type energyRow struct {
	family  string
	ratingA decimal.Decimal
	PreArcingEnergy
}

var energyRows = load("gg-i2t", func(r *record) energyRow {
	rating := r.text("rating_a") + " A"
	least, most := r.figure("i2t_min_a2s", "A²s", rating), r.figure("i2t_max_a2s", "A²s", rating)
	least.Note, most.Note = r.text("note"), r.text("note")
	return energyRow{r.text("family"), r.number("rating_a"), PreArcingEnergy{least, most}}
})

// PreArcing returns the pre-arcing energy of a standard fuse-link. A family or
// rating without one is [ErrNotListed].
func PreArcing(family string, ratingA decimal.Decimal) (PreArcingEnergy, error) {
	if err := errors.Join(knownFamily(family), working.Above("rating_a", ratingA, 0, 1_000_000)); err != nil {
		return PreArcingEnergy{}, err
	}
	for _, row := range energyRows() {
		if row.family == family && row.ratingA.Equal(ratingA) {
			return row.PreArcingEnergy, nil
		}
	}
	return PreArcingEnergy{}, fmt.Errorf("pre-arcing energy of %q at %s A: %w", family, ratingA, ErrNotListed)
}
