package tables

import (
	"slices"
	"sync"

	"example.org/extralow/tables/working"
)

// index holds the rows of a table by a name that stands in them, and the names
// in the order of the file. Whatever takes a name in words asks an index: so the
// names that are listed, those that are accepted and those that a refusal shows
// are the same.
type index[T any] struct {
	field string
	names []string
	rows  map[string][]T
}

// indexed returns a function that builds the index when first called. Rows
// without a name are left out.
func indexed[T any](field string, rows func() []T, name func(T) string) func() *index[T] {
	return sync.OnceValue(func() *index[T] {
		x := &index[T]{field: field, rows: map[string][]T{}}
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
}

// all returns the names.
func (x *index[T]) all() []string { return slices.Clone(x.names) }

// of returns the rows of a name, or the refusal that lists the names.
func (x *index[T]) of(name string) ([]T, error) {
	if rows, ok := x.rows[name]; ok {
		return rows, nil
	}
	return nil, unlisted(x.field, name, x.names)
}

// first returns the first row of a name.
func (x *index[T]) first(name string) (row T, err error) {
	rows, err := x.of(name)
	if err != nil {
		return row, err
	}
	return rows[0], nil
}

// notNamed is the one error for a name that no table has: an input error that
// lists those it has, and [ErrNotListed] as well.
type notNamed struct{ *working.InputError }

func (e notNamed) Unwrap() error        { return e.InputError }
func (e notNamed) Is(target error) bool { return target == ErrNotListed }

// unlisted refuses a name that is not one of those listed.
func unlisted(field, got string, names []string) error {
	err := working.OneOf(field, got, names...)
	if bad, ok := err.(*working.InputError); ok {
		return notNamed{bad}
	}
	return err
}
