package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// AmpacityBase holds the two temperatures that an ampacity is stated for, by a
// table or by a cable's data sheet. Only with both at hand can a factor for
// another ambient be chosen, so that the factors are asked of it: see
// [AmpacityBase.AmbientFactor].
type AmpacityBase struct {
	InsulationC decimal.Decimal `json:"insulation_c"`    // highest conductor temperature
	AmbientC    decimal.Decimal `json:"table_ambient_c"` // at which the ampacity holds
}

// AmpacityColumn is one column of an ampacity table: what each size may carry in
// one insulation and one way of lying. It says which column that is, and its figures
// stay in the table: one read back from JSON answers as the one that was written,
// and one that no table has answers [ErrNotListed].
type AmpacityColumn struct {
	Table  string `json:"table"`
	Method string `json:"method"` // empty where the table does not tell them apart
	AmpacityBase
}

type ampacityRow struct {
	size   Size
	figure working.Figure
}

// Column returns the column of the rule's tables for a conductor: of the tables
// for its system of sizes where the rule has one, else of the other system's. The insulation takes the column of the same or the next lower
// temperature; a method must be one of the table's, unless the table has none. A
// set without any table is [ErrNotListed] as well.
func (r AmpacityRule) Column(s Size, method string, insulationC decimal.Decimal) (AmpacityColumn, error) {
	if err := errors.Join(s.check(), inKelvins("insulation_c", insulationC)); err != nil {
		return AmpacityColumn{}, err
	}
	names := r.Metric
	if s.System() != Metric && len(r.Gauge) > 0 || len(r.Metric) == 0 {
		names = r.Gauge
	}
	best := -1
	all := columns()
	for i := range all {
		c := &all[i]
		fits := (c.Method == method || c.Method == "") && slices.Contains(names, c.Table) && c.InsulationC.LessThanOrEqual(insulationC)
		if fits && (best < 0 || c.InsulationC.GreaterThan(all[best].InsulationC)) {
			best = i
		}
	}
	if best < 0 {
		return AmpacityColumn{}, noColumn(names, method, insulationC)
	}
	return all[best], nil
}

// noColumn says what the tables of a rule have.
func noColumn(names []string, method string, insulationC decimal.Decimal) error {
	if len(names) == 0 {
		return fmt.Errorf("ampacity: %w; the rule set names no table of ampacities", ErrNotListed)
	}
	var have, methods []string
	for _, c := range columns() {
		if slices.Contains(names, c.Table) {
			have = append(have, strings.TrimSpace(c.InsulationC.String()+" °C "+c.Method))
			methods = append(methods, c.Method)
		}
	}
	if err := unlisted("method", method, unique(methods)); err != nil && !slices.Contains(methods, "") {
		return err
	}
	return fmt.Errorf("ampacity for method %q and %s °C insulation in %s: %w; it has %s",
		method, insulationC, strings.Join(names, " and "), ErrNotListed, strings.Join(have, ", "))
}

// At returns the ampacity of a size that the table lists, or [ErrNotListed]
// with the range that it covers.
func (c AmpacityColumn) At(s Size) (working.Figure, error) {
	rows := c.rows()
	for i := range rows {
		if rows[i].size == s {
			return rows[i].figure, nil
		}
	}
	return working.Figure{}, c.notListed(s)
}

// NoLarger returns the ampacity of the largest listed size that has no more
// copper than s, and that size: s itself where the table lists it.
func (c AmpacityColumn) NoLarger(s Size) (Size, working.Figure, error) {
	if f, err := c.At(s); err == nil {
		return s, f, nil
	}
	area, err := s.Area()
	if err != nil {
		return Size{}, working.Figure{}, err
	}
	for _, row := range slices.Backward(c.rows()) {
		if sizes()[row.size].Value.LessThanOrEqual(area.Value) {
			return row.size, row.figure, nil
		}
	}
	return Size{}, working.Figure{}, c.notListed(s)
}

// Sizes returns the sizes that the column lists, least copper first.
func (c AmpacityColumn) Sizes() []Size {
	rows := c.rows()
	all := make([]Size, len(rows))
	for i, row := range rows {
		all[i] = row.size
	}
	return all
}

func (c AmpacityColumn) notListed(s Size) error {
	if err := s.check(); err != nil {
		return err
	}
	rows := c.rows()
	if len(rows) == 0 {
		return fmt.Errorf("ampacity of %s in a column of no table: %w", s, ErrNotListed)
	}
	return fmt.Errorf("ampacity of %s in %s: %w; it has %s to %s", s, c.Table, ErrNotListed,
		rows[0].size, rows[len(rows)-1].size)
}

// rows returns the figures of the column, least copper first.
func (c AmpacityColumn) rows() []ampacityRow {
	all := listedColumns()
	for i := range all {
		if all[i].is(c.Table, c.Method, c.InsulationC) {
			return all[i].rows
		}
	}
	return nil
}

type ampacityCell struct {
	table, method string
	insulationC   decimal.Decimal
	row           ampacityRow
}

var ampacityCells = load("ampacity-*", func(r *record) ampacityCell {
	size, insulation := r.text("size"), r.number("insulation_c")
	label := []string{insulation.String() + " °C", size}
	if m := r.text("method"); m != "" {
		label = append([]string{"method " + m}, label...)
	}
	return ampacityCell{
		r.text("table"), r.text("method"), insulation,
		ampacityRow{Size{size}, r.figure("ampacity_a", "A", label...)},
	}
})

// tableAmbients holds the ambient that each table of ampacities is stated for.
var tableAmbients = load("table-ambients", func(r *record) namedFigure {
	return namedFigure{quantity: r.text("table"), figure: r.figure("ambient_c", "°C", r.text("table"))}
})

// tableAmbient returns that of one table; a test holds that every table has one.
func tableAmbient(table string) decimal.Decimal {
	rows := tableAmbients()
	i := slices.IndexFunc(rows, func(r namedFigure) bool { return r.quantity == table })
	if i < 0 {
		panic("no ambient for " + table)
	}
	return rows[i].figure.Value
}

var _ = also("method", func() []AmpacityColumn { return columns() }, func(c AmpacityColumn) string { return c.Method })

// listedColumn is a column with its figures.
type listedColumn struct {
	AmpacityColumn
	rows []ampacityRow
}

func (c *listedColumn) is(table, method string, insulationC decimal.Decimal) bool {
	return c.Table == table && c.Method == method && c.InsulationC.Equal(insulationC)
}

// columns returns every column of the ampacity tables.
var columns = sync.OnceValue(func() []AmpacityColumn {
	var all []AmpacityColumn
	for _, c := range listedColumns() {
		all = append(all, c.AmpacityColumn)
	}
	return all
})

// listedColumns gathers the cells of every ampacity table whose size can be named:
// a larger one, of which no table has the resistance, is for reading only.
var listedColumns = sync.OnceValue(func() []listedColumn {
	var all []listedColumn
	for _, cell := range ampacityCells() {
		if cell.row.size.check() != nil {
			continue
		}
		i := slices.IndexFunc(all, func(c listedColumn) bool { return c.is(cell.table, cell.method, cell.insulationC) })
		if i < 0 {
			i = len(all)
			all = append(all, listedColumn{AmpacityColumn: AmpacityColumn{
				cell.table, cell.method, AmpacityBase{cell.insulationC, tableAmbient(cell.table)},
			}})
		}
		all[i].rows = append(all[i].rows, cell.row)
	}
	for _, c := range all {
		slices.SortStableFunc(c.rows, func(a, b ampacityRow) int {
			return sizes()[a.size].Value.Cmp(sizes()[b.size].Value)
		})
	}
	return all
})
