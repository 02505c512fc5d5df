package tables

import (
	"errors"
	"fmt"
	"slices"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Gate is one gate of a time-current characteristic: at its current the device
// opens not before LeastS and has opened by GreatestS. A time that is not valid is
// not fixed: the device may open at once, or need not open.
type Gate struct {
	Current   working.Figure      `json:"current"` // A
	LeastS    decimal.NullDecimal `json:"opens_from_s"`
	GreatestS decimal.NullDecimal `json:"opens_by_s"`
}

// gateRow is a gate at a multiple of the rating.
type gateRow struct {
	family        string
	fromA, toA    decimal.Decimal
	fromIncluded  bool
	multiple      working.Figure
	leastS, mostS decimal.NullDecimal
}

func (g gateRow) holdsFor(ratingA decimal.Decimal) bool {
	from := g.fromA.Cmp(ratingA)
	return (from < 0 || from == 0 && g.fromIncluded) && ratingA.LessThanOrEqual(g.toA)
}

var gateRows = load("device-gates", func(r *record) gateRow {
	multiple := r.figure("multiple", "", "multiple "+r.text("multiple"))
	multiple.Note = r.text("note")
	return gateRow{
		r.text("family"), r.number("rating_from_a"), r.number("rating_to_a"), r.text("from_included") == "yes",
		multiple, r.optional("opening_min_s"), r.optional("opening_max_s"),
	}
})

// gatesByFamily holds each family's gates, the lowest multiple first.
var gatesByFamily = sync.OnceValue(func() map[string][]gateRow {
	m := map[string][]gateRow{}
	for _, g := range gateRows() {
		m[g.family] = append(m[g.family], g)
	}
	for _, all := range m {
		slices.SortStableFunc(all, func(a, b gateRow) int { return a.multiple.Value.Cmp(b.multiple.Value) })
	}
	return m
})

// currentGateRow is a gate at a current and a time: the link carries the
// least current for the time, and the greatest opens it within the time.
type currentGateRow struct {
	family  string
	ratingA decimal.Decimal
	timeS   decimal.Decimal
	leastA  decimal.NullDecimal
	mostA   decimal.NullDecimal
	at      working.Figure // source only
}

var currentGates = load("gg-gates", func(r *record) currentGateRow {
	rating, time := r.number("rating_a"), r.number("time_s")
	return currentGateRow{
		r.text("family"), rating, time, r.optional("current_min_a"), r.optional("current_max_a"),
		working.Figure{Unit: "A", Source: r.source(rating.String()+" A", time.String()+" s")},
	}
})

var currentGatesByFamily = sync.OnceValue(func() map[string][]currentGateRow {
	m := map[string][]currentGateRow{}
	for _, g := range currentGates() {
		m[g.family] = append(m[g.family], g)
	}
	return m
})

func (g currentGateRow) gates() []Gate {
	var all []Gate
	at, time := g.at, decimal.NewNullDecimal(g.timeS)
	if g.leastA.Valid {
		at.Value = g.leastA.Decimal
		all = append(all, Gate{Current: at, LeastS: time})
	}
	if g.mostA.Valid {
		at.Value = g.mostA.Decimal
		all = append(all, Gate{Current: at, GreatestS: time})
	}
	return all
}

// ShortCircuitRelease is the short-circuit release of a breaker, in multiples of its rating
// or its setting: it does not act at once below NoTrip and does from Trip on,
// within TimeS.
type ShortCircuitRelease struct {
	Supply     string          `json:"supply"`      // a.c., d.c. or both: an a.c. release does not hold on d.c.
	MultipleOf string          `json:"multiple_of"` // rating or setting
	NoTrip     working.Figure  `json:"no_trip"`
	Trip       working.Figure  `json:"trip"`
	TimeS      decimal.Decimal `json:"release_s"`
}

type releaseRow struct {
	family  string
	release ShortCircuitRelease
}

var releases = load("breaker-instantaneous", func(r *record) releaseRow {
	return releaseRow{r.text("family"), ShortCircuitRelease{
		r.text("supply"), r.text("multiple_of"),
		r.figure("no_trip_multiple", "", r.text("supply")), r.figure("trip_multiple", "", r.text("supply")),
		r.number("time_s"),
	}}
})

// ReleaseOf returns the short-circuit release that a standard fixes for a
// family of breakers, or [ErrNotListed].
func ReleaseOf(family string) (ShortCircuitRelease, error) {
	if err := knownFamily(family); err != nil {
		return ShortCircuitRelease{}, err
	}
	for _, row := range releases() {
		if row.family == family {
			return row.release, nil
		}
	}
	return ShortCircuitRelease{}, fmt.Errorf("short-circuit release of %q: %w", family, ErrNotListed)
}

// gates returns those of the release on d.c. for a rating: none where the
// release is for a.c. only, which trips later on d.c., or depends on a setting.
func (r ShortCircuitRelease) gates(ratingA decimal.Decimal) []Gate {
	if r.Supply == "a.c." || r.MultipleOf != "rating" {
		return nil
	}
	holds, trips, time := r.NoTrip, r.Trip, decimal.NewNullDecimal(r.TimeS)
	holds.Value, holds.Unit = holds.Value.Mul(ratingA), "A"
	trips.Value, trips.Unit = trips.Value.Mul(ratingA), "A"
	return []Gate{{Current: holds, LeastS: time}, {Current: trips, GreatestS: time}}
}

// Gates returns the gates that a device's standard fixes for d.c., the lowest
// current first. A family or rating without gates is [ErrNotListed].
func Gates(family string, ratingA decimal.Decimal) ([]Gate, error) {
	if err := errors.Join(knownFamily(family), working.Above("rating_a", ratingA, 0, 1_000_000)); err != nil {
		return nil, err
	}
	rows := gatesByFamily()[family]
	all := make([]Gate, 0, len(rows))
	for i := range rows {
		if g := &rows[i]; g.holdsFor(ratingA) {
			current := g.multiple
			current.Value, current.Unit = current.Value.Mul(ratingA), "A"
			all = append(all, Gate{current, g.leastS, g.mostS})
		}
	}
	for _, g := range currentGatesByFamily()[family] {
		if g.ratingA.Equal(ratingA) {
			all = append(all, g.gates()...)
		}
	}
	if release, err := ReleaseOf(family); err == nil {
		all = append(all, release.gates(ratingA)...)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("gates of %q at %s A: %w", family, ratingA, ErrNotListed)
	}
	slices.SortStableFunc(all, func(a, b Gate) int { return a.Current.Value.Cmp(b.Current.Value) })
	return all, nil
}

// ConventionalCurrents holds the conventional currents of a device as multiples of its
// rating: it carries Holds for TimeS, and opens within TimeS at Opens.
type ConventionalCurrents struct {
	Holds working.Figure  `json:"holds,omitzero"` // zero where the standard fixes none
	Opens working.Figure  `json:"opens,omitzero"`
	TimeS decimal.Decimal `json:"conventional_s"`
}

// ConventionalOf returns the conventional currents of a device: the lowest
// multiple that its standard says opens it, and the highest below that it says
// it carries. A family or rating without any is [ErrNotListed].
func ConventionalOf(family string, ratingA decimal.Decimal) (ConventionalCurrents, error) {
	if err := errors.Join(knownFamily(family), working.Above("rating_a", ratingA, 0, 1_000_000)); err != nil {
		return ConventionalCurrents{}, err
	}
	var c ConventionalCurrents
	rows := gatesByFamily()[family]
	for i := range rows {
		if g := &rows[i]; g.holdsFor(ratingA) {
			if g.mostS.Valid {
				c.Opens, c.TimeS = g.multiple, g.mostS.Decimal
				return c, nil
			}
			c.Holds = g.multiple
		}
	}
	return ConventionalCurrents{}, fmt.Errorf("conventional currents of %q at %s A: %w", family, ratingA, ErrNotListed)
}
