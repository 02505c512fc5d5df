package tables

import (
	"errors"
	"fmt"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

type torqueRow struct {
	terminal string
	threadMM decimal.Decimal
	column   string
	figure   working.Figure
}

var torqueRows = load("terminal-torque", func(r *record) torqueRow {
	f := r.figure("torque_nm", "Nm", r.text("terminal"), "M"+r.text("thread_mm"))
	f.Note = r.text("note")
	return torqueRow{r.text("terminal"), r.number("thread_mm"), r.text("column"), f}
})

var terminals = indexed("terminal", torqueRows, func(r torqueRow) string { return r.terminal })

var _ = also("torque_column", torqueRows, func(r torqueRow) string { return r.column })

// Torque returns the tightening torque of a terminal: its kind ("screw
// terminal", "strip fuse-link nut"; [TorqueTerminals]), its metric thread in mm and, for
// a screw terminal, the column of IEC 60947-1 (I without head, II by screwdriver,
// III by other tools; these are test torques). What is marked on the part goes
// first. A thread without a figure is [ErrNotListed]: ask the maker. Thread above 0
// to 100 mm.
func Torque(terminal string, threadMM decimal.Decimal, column string) (working.Figure, error) {
	rows, err := terminals().of(terminal)
	if err := errors.Join(err, working.Above("thread_mm", threadMM, 0, 100)); err != nil {
		return working.Figure{}, err
	}
	if rows, err = named(rows, "torque_column", column, func(r torqueRow) string { return r.column }); err != nil {
		return working.Figure{}, err
	}
	for _, row := range rows {
		if row.threadMM.Equal(threadMM) {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("torque of %q M%s %s: %w", terminal, threadMM, column, ErrNotListed)
}

// TorqueTerminals returns the kinds of terminal that the torque table has.
func TorqueTerminals() []string { return terminals().all() }
