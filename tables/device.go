package tables

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Family is a family of overcurrent devices by its standard's type name:
// "ISO 8820-3 C", "UL 248-15 T 300 V", "IEC 60269 gG".
type Family struct {
	Name string
	Kind string // fuse or circuit-breaker
	Form string
	// Breaking lists what the standard asks for, a pair a rated voltage.
	Breaking []Breaking
}

// Breaking is the least breaking capacity that a standard asks for, and the
// d.c. voltages up to which the device is rated and that capacity holds. A zero
// Capacity means that we do not know it.
type Breaking struct {
	RatedV    decimal.NullDecimal
	CapacityA decimal.NullDecimal
	AtV       decimal.NullDecimal
	Source    cite.Source
	Note      string
}

type familyRow struct {
	name, kind, form string
	breaking         Breaking
}

var familyRows = load("device-families", func(r *record) familyRow {
	return familyRow{
		r.text("family"), r.text("kind"), r.text("form"),
		Breaking{r.optional("rated_v"), r.optional("breaking_a"), r.optional("breaking_at_v"), r.source(r.text("family")), r.text("note")},
	}
})

// Families returns every family that the tables know, in their order.
func Families() []Family {
	var all []Family
	for _, row := range familyRows() {
		i := slices.IndexFunc(all, func(f Family) bool { return f.Name == row.name })
		if i < 0 {
			i = len(all)
			all = append(all, Family{Name: row.name, Kind: row.kind, Form: row.form})
		}
		all[i].Breaking = append(all[i].Breaking, row.breaking)
	}
	return all
}

// FamilyOf returns the family of that name.
func FamilyOf(name string) (Family, error) {
	var names []string
	for _, f := range Families() {
		if f.Name == name {
			return f, nil
		}
		names = append(names, f.Name)
	}
	return Family{}, &working.InputError{Field: "family", Got: fmt.Sprintf("%q", name), Want: "one of " + strings.Join(names, ", ")}
}

type ratingRow struct {
	family string
	figure working.Figure
}

var ratingRows = load("device-ratings", func(r *record) ratingRow {
	rating := r.text("rating_a")
	return ratingRow{r.text("family"), r.figure("rating_a", "A", r.text("family"), rating+" A")}
})

// Ratings returns the standard ratings of a family, rising. A family without a
// list is [ErrNotListed].
func Ratings(family string) ([]working.Figure, error) {
	var all []working.Figure
	for _, row := range ratingRows() {
		if row.family == family {
			all = append(all, row.figure)
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("standard ratings of %q: %w", family, ErrNotListed)
	}
	slices.SortFunc(all, func(a, b working.Figure) int { return a.Value.Cmp(b.Value) })
	return all, nil
}
