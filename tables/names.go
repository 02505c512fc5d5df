package tables

import (
	"maps"
	"slices"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// index holds the rows of a table by a name that stands in them, and the names
// in the order of the file. Whatever takes a name in words asks an index: so the
// names that are listed, those that are accepted and those that a refusal shows
// are the same.
type index[T any] struct {
	kind  string
	names []string
	rows  map[string][]T
}

// kinds holds, for every kind of name, the function that lists its names.
var kinds = map[string]func() []string{}

// Kinds returns the kinds of name that the look-ups take: "chemistry", "material",
// "family". An error that refuses a name has its kind as its field.
func Kinds() []string { return slices.Sorted(maps.Keys(kinds)) }

// Names returns every name of a kind (see [Kinds]), in the order of its table.
// Where a name goes with another (a mounting with a model of cell temperature,
// an insulation with a conductor), those of all the others are in the list.
func Names(kind string) ([]string, error) {
	list, ok := kinds[kind]
	if !ok {
		return nil, unlisted("kind", kind, Kinds())
	}
	return list(), nil
}

// indexed returns a function that builds the index when first called, and enters
// the kind into [Kinds]. Rows without a name are left out.
func indexed[T any](kind string, rows func() []T, name func(T) string) func() *index[T] {
	build := sync.OnceValue(func() *index[T] {
		x := &index[T]{kind: kind, rows: map[string][]T{}}
		for _, row := range rows() {
			n := name(row)
			if n == "" {
				continue
			}
			if _, ok := x.rows[n]; !ok {
				x.names = append(x.names, n)
			}
			x.rows[n] = append(x.rows[n], row)
		}
		return x
	})
	enter(kind, func() []string { return build().names })
	return build
}

// enter adds to the names of a kind those of one more table.
func enter(kind string, list func() []string) {
	before, ok := kinds[kind]
	if !ok {
		before = func() []string { return nil }
	}
	kinds[kind] = func() []string { return unique(slices.Concat(before(), list())) }
}

// also enters into [Kinds] a name that goes with another in the same table.
func also[T any](kind string, rows func() []T, name func(T) string) struct{} {
	enter(kind, func() (names []string) {
		for _, row := range rows() {
			if n := name(row); n != "" {
				names = append(names, n)
			}
		}
		return names
	})
	return struct{}{}
}

// where returns a function with the rows that fit.
func where[T any](rows func() []T, fits func(T) bool) func() []T {
	return func() []T {
		return slices.DeleteFunc(slices.Clone(rows()), func(row T) bool { return !fits(row) })
	}
}

// all returns the names.
func (x *index[T]) all() []string { return slices.Clone(x.names) }

// of returns the rows of a name, or the refusal that lists the names.
func (x *index[T]) of(name string) ([]T, error) {
	if rows, ok := x.rows[name]; ok {
		return rows, nil
	}
	return nil, unlisted(x.kind, name, x.names)
}

// first returns the first row of a name.
func (x *index[T]) first(name string) (row T, err error) {
	rows, err := x.of(name)
	if err != nil {
		return row, err
	}
	return rows[0], nil
}

// named returns the rows in which a second name stands, or the refusal that lists
// those which go with the first.
func named[T any](rows []T, kind, got string, name func(T) string) ([]T, error) {
	var fit []T
	var names []string
	for _, row := range rows {
		if n := name(row); n == got {
			fit = append(fit, row)
		} else {
			names = append(names, n)
		}
	}
	if len(fit) == 0 {
		return nil, unlisted(kind, got, unique(names))
	}
	return fit, nil
}

// notNamed is the one error for a name that no table has: an input error that
// lists those it has, and [ErrNotListed] as well.
type notNamed struct{ *working.InputError }

// Unwrap gives the input error to [working.Inputs].
func (e notNamed) Unwrap() error { return e.InputError }

// Is lets errors.Is find [ErrNotListed].
func (e notNamed) Is(target error) bool { return target == ErrNotListed }

// unlisted refuses a name that is not one of those listed.
func unlisted(kind, got string, names []string) error {
	err := working.OneOf(kind, got, names...)
	if bad, ok := err.(*working.InputError); ok {
		return notNamed{bad}
	}
	return err
}

// Ranges of what the look-ups take: wider than any table, so that what lies
// outside of one is told from what nobody means.

func inKelvins(field string, celsius decimal.Decimal) error {
	return working.Between(field, celsius, -273, 2000)
}

func inAmperes(field string, current decimal.Decimal) error {
	return working.Between(field, current, 0, 1_000_000)
}

func inVolts(field string, volts decimal.Decimal) error {
	return working.Between(field, volts, 0, 2000)
}

// unique returns the words once each, in order.
func unique(words []string) []string {
	seen := map[string]bool{}
	var all []string
	for _, w := range words {
		if !seen[w] {
			seen[w] = true
			all = append(all, w)
		}
	}
	return all
}
