package tables

import (
	"strings"

	"example.org/extralow/tables/working"
)

type faultSourceRow struct {
	id     string
	figure working.Figure
}

var faultSourceRows = load("fault-sources", func(r *record) faultSourceRow {
	unit := strings.NewReplacer("of rated armature current", "", "of cold output", "", "of the cold one", "", "per unit", "", "mohm", "mΩ").Replace(r.text("unit"))
	f := r.figure("value", unit, r.text("source_of_fault"), r.text("quantity"))
	f.Note = r.text("note")
	return faultSourceRow{r.text("id"), f}
})

// FaultSource returns what a source gives a fault where its data sheet does not
// say, by its id:
//
//	"dc-motor", "dc-motor-safe"    a running d.c. motor, times its rated armature current
//	"dc-motor-resistance-low", "dc-motor-resistance-high"    its transient resistance, per unit
//	"alternator-unlimited"         an alternator that does not limit itself, times its cold output
//	"battery-warm"                 least share of the resistance that a cranking rating implies
//	"regulated"                    a source that holds its voltage up to its limit, mΩ
//
// Sources: IEEE 946 annex D for the motor, second hand; the rest from memory or
// common practice.
func FaultSource(id string) (working.Figure, error) {
	var ids []string
	for _, row := range faultSourceRows() {
		if row.id == id {
			return row.figure, nil
		}
		ids = append(ids, row.id)
	}
	return working.Figure{}, working.OneOf("fault_source", id, ids...)
}
