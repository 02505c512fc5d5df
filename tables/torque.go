package tables

import (
	"fmt"
	"strings"

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

// Torque returns the tightening torque of a terminal: its kind ("screw
// terminal", "strip fuse-link nut"), its metric thread in mm and, for a screw
// terminal, the column of IEC 60947-1 (I without head, II by screwdriver, III
// by other tools; these are test torques). What is marked on the part goes
// first. A thread without a figure is [ErrNotListed]: ask the maker.
func Torque(terminal string, threadMM decimal.Decimal, column string) (working.Figure, error) {
	for _, row := range torqueRows() {
		if row.terminal == terminal && row.threadMM.Equal(threadMM) && row.column == column {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("torque of %q M%s %s: %w; it has %s", terminal, threadMM, column, ErrNotListed,
		strings.Join(Terminals(), "; "))
}

// Terminals returns the kinds of terminal that the torque table has.
func Terminals() []string {
	var kinds []string
	for _, row := range torqueRows() {
		kinds = append(kinds, row.terminal)
	}
	return unique(kinds)
}
