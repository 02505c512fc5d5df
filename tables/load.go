package tables

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

//go:embed data/*.csv
var files embed.FS

var (
	// ErrNotListed means that a table has no row of that name.
	ErrNotListed = errors.New("not in the table")
	// ErrOutside means that a condition lies beyond the table on its unsafe side.
	ErrOutside = errors.New("outside the table")
)

// record is one row of a data file, read by column name. Faults are gathered,
// so that a broken file reports all of them.
type record struct {
	file    string
	line    int
	columns map[string]int
	cells   []string
	faults  *[]error
}

func (r *record) fault(format string, args ...any) {
	*r.faults = append(*r.faults, fmt.Errorf("%s:%d: %s", r.file, r.line, fmt.Sprintf(format, args...)))
}

// text returns a cell, empty where the table has none.
func (r *record) text(column string) string {
	i, ok := r.columns[column]
	if !ok {
		r.fault("no column %s", column)
		return ""
	}
	return r.cells[i]
}

func (r *record) number(column string) decimal.Decimal {
	v, err := decimal.NewFromString(r.text(column))
	if err != nil {
		r.fault("%s is %q: want a number", column, r.text(column))
	}
	return v
}

// optional returns a number that a row may leave out.
func (r *record) optional(column string) decimal.NullDecimal {
	if r.text(column) == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(r.number(column))
}

// source returns the row's citation, with the row named behind the table.
func (r *record) source(row ...string) cite.Source {
	confidence, err := cite.ParseConfidence(r.text("confidence"))
	document, known := cite.Find(r.text("source"))
	if err != nil || !known || confidence == cite.Unstated {
		r.fault("source %q, confidence %q: want a document of tables/cite and a word of its scale", r.text("source"), r.text("confidence"))
	}
	where := append([]string{r.text("where")}, row...)
	return document.At(strings.Join(where, ", "), confidence)
}

// figure returns the value of a column with its citation; row says which row
// it is, in words. The note of the row stays in the table.
func (r *record) figure(column, unit string, row ...string) working.Figure {
	return working.Figure{Value: r.number(column), Unit: unit, Source: r.source(row...)}
}

// load returns a function that reads the data files of a name (a pattern may
// match several) when first called. Embedded data that does not parse is a
// mistake of the library and panics; a test loads every file.
func load[T any](pattern string, row func(*record) T) func() []T {
	return sync.OnceValue(func() []T {
		rows, err := read(files, "data/"+pattern+".csv", row)
		if err != nil {
			panic(err)
		}
		return rows
	})
}

func read[T any](fsys fs.FS, pattern string, row func(*record) T) ([]T, error) {
	names, err := fs.Glob(fsys, pattern)
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("no data file %s", pattern)
	}
	var rows []T
	var faults []error
	for _, name := range names {
		lines, err := readLines(fsys, name)
		if err != nil {
			return nil, err
		}
		columns := map[string]int{}
		for i, column := range lines[0] {
			columns[column] = i
		}
		rows = slices.Grow(rows, len(lines))
		for i, line := range lines[1:] {
			rows = append(rows, row(&record{path.Base(name), i + 2, columns, line, &faults}))
		}
	}
	return rows, errors.Join(faults...)
}

// readLines returns the cells of a data file, header first.
func readLines(fsys fs.FS, name string) ([][]string, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(lines) == 0 {
		return nil, fmt.Errorf("%s is empty", name)
	}
	return lines, nil
}
