package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Family is a family of overcurrent devices by its standard's type name:
// "ISO 8820-3 C", "UL 248-15 T 300 V", "IEC 60269 gG".
type Family struct {
	Name string `json:"name"`
	Kind string `json:"kind"` // fuse or breaker
	Form string `json:"form"`
	// Breaking lists what the standard asks for, a pair a rated voltage.
	Breaking []FamilyBreaking `json:"breaking,omitempty"`
}

// FamilyBreaking is the least breaking capacity that a standard asks for, and the
// d.c. voltages up to which the device is rated and that capacity holds. A zero
// Capacity means that we do not know it.
type FamilyBreaking struct {
	RatedV    decimal.NullDecimal `json:"rated_v"`
	CapacityA decimal.NullDecimal `json:"breaking_a"`
	AtV       decimal.NullDecimal `json:"breaking_at_v"`
	Optional  bool                `json:"marking_optional"` // the standard leaves a d.c. marking open: an unmarked device may have no d.c. rating
	Source    cite.Source         `json:"source"`
	Note      string              `json:"note,omitempty"`
}

type familyRow struct {
	name, kind, form string
	breaking         FamilyBreaking
}

var familyRows = load("device-families", func(r *record) familyRow {
	return familyRow{
		r.text("family"), r.text("kind"), r.text("form"),
		FamilyBreaking{r.optional("rated_v"), r.optional("breaking_a"), r.optional("breaking_at_v"), r.text("marking") == "optional", r.source(r.text("family")), r.text("note")},
	}
})

// Families returns every family that the tables know, in their order.
func Families() []Family {
	all := slices.Clone(families())
	for i := range all {
		all[i].Breaking = slices.Clone(all[i].Breaking)
	}
	return all
}

var families = sync.OnceValue(func() []Family {
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
})

var familiesByName = indexed("family", families, func(f Family) string { return f.Name })

// FamilyOf returns the family of that name.
func FamilyOf(name string) (Family, error) {
	f, err := familiesByName().first(name)
	f.Breaking = slices.Clone(f.Breaking) // the caller's own
	return f, err
}

// knownFamily refuses a name that is no family's: of one that is, a table may
// still have nothing.
func knownFamily(name string) error {
	if tabledFamilies()[name] {
		return nil
	}
	_, err := familiesByName().first(name)
	return err
}

// tabledFamilies are the families, and what else a table of devices has rows for.
var tabledFamilies = sync.OnceValue(func() map[string]bool {
	all := map[string]bool{}
	for _, f := range families() {
		all[f.Name] = true
	}
	for name := range ratingsByFamily() {
		all[name] = true
	}
	for name := range deratingByFamily() {
		all[name] = true
	}
	return all
})

type ratingRow struct {
	family string
	figure working.Figure
}

var ratingRows = load("device-ratings", func(r *record) ratingRow {
	rating := r.text("rating_a")
	return ratingRow{r.text("family"), r.figure("rating_a", "A", r.text("family"), rating+" A")}
})

// ratingsByFamily holds each family's ratings, rising.
var ratingsByFamily = sync.OnceValue(func() map[string][]working.Figure {
	m := map[string][]working.Figure{}
	for _, row := range ratingRows() {
		m[row.family] = append(m[row.family], row.figure)
	}
	fuses := slices.Concat(m["NFPA 70 240.6(A)"], m["NFPA 70 240.6(A) fuses only"])
	for _, r := range rangeRows() {
		if strings.HasPrefix(r.family, "UL 248") {
			m[r.family] = r.within(slices.Concat(fuses, m[r.family+" tubes"]))
		}
	}
	for _, all := range m {
		slices.SortFunc(all, func(a, b working.Figure) int { return a.Value.Cmp(b.Value) })
	}
	return m
})

type rangeRow struct {
	family string
	from   decimal.NullDecimal
	to     decimal.Decimal
}

var rangeRows = load("device-ranges", func(r *record) rangeRow {
	return rangeRow{r.text("family"), r.optional("rating_min_a"), r.number("rating_max_a")}
})

// within returns the ratings of a list that the family spans.
func (r rangeRow) within(list []working.Figure) []working.Figure {
	var all []working.Figure
	for _, f := range list {
		if f.Value.GreaterThanOrEqual(r.from.Decimal) && f.Value.LessThanOrEqual(r.to) {
			all = append(all, f)
		}
	}
	return all
}

// Ratings returns the standard ratings of a family, rising; fuses of UL 248
// come in those of NFPA 70 240.6(A) that their class spans, small tubes in a few
// more of the trade. A family without a list is [ErrNotListed].
func Ratings(family string) ([]working.Figure, error) {
	if err := knownFamily(family); err != nil {
		return nil, err
	}
	all, ok := ratingsByFamily()[family]
	if !ok {
		return nil, fmt.Errorf("standard ratings of %q: %w", family, ErrNotListed)
	}
	return slices.Clone(all), nil
}

type colourRow struct {
	family  string
	ratingA decimal.Decimal
	colour  string
	source  cite.Source
}

var colourRows = load("device-colours", func(r *record) colourRow {
	return colourRow{r.text("family"), r.number("rating_a"), r.text("colour"), r.source(r.text("family"), r.text("rating_a")+" A")}
})

// Colour returns the colour that a standard fixes for a rating, and where it
// says so. A rating without one is [ErrNotListed].
func Colour(family string, ratingA decimal.Decimal) (string, cite.Source, error) {
	if err := errors.Join(knownFamily(family), working.Above("rating_a", ratingA, 0, 1_000_000)); err != nil {
		return "", cite.Source{}, err
	}
	for _, row := range colourRows() {
		if row.family == family && row.ratingA.Equal(ratingA) {
			return row.colour, row.source, nil
		}
	}
	return "", cite.Source{}, fmt.Errorf("colour of %q at %s A: %w", family, ratingA, ErrNotListed)
}

type strictRow struct {
	operator string
	figure   working.Figure
}

var strictRows = load("device-rules", func(r *record) strictRow {
	return strictRow{r.text("operator"), r.figure("value", "")}
})

// StrictlyBelow reports whether the code that a figure is from wants less than
// the figure, and not as much.
func StrictlyBelow(f working.Figure) bool {
	return slices.ContainsFunc(strictRows(), func(row strictRow) bool {
		return row.operator == "<" && row.figure.Source == f.Source && row.figure.Value.Equal(f.Value)
	})
}

var deviceRuleIDs = indexed("device_rule", deviceRules, func(r rule) string { return r.id })

// DeviceRuleOf returns a figure of the table of device rules by its id, such as
// "nec-continuous" ([Names] "device_rule"); the rule sets hold those that are
// general.
func DeviceRuleOf(id string) (working.Figure, error) {
	r, err := deviceRuleIDs().first(id)
	return r.figure, err
}

// Loading returns the share of its rating that a device may carry without end,
// where a rule set says nothing of it: 0.8, a figure for vehicle fuse-links.
func Loading() working.Figure { return deviceRule("fuse-80") }

// BriefRun returns the longest run of a load that does not last, where a rule set
// says nothing of it: 600 s (common practice). What runs longer, or for who knows how
// long, may take no more of a rating than [Loading].
func BriefRun() working.Figure { return deviceRule("fuse-80-run") }
