package tables

import (
	"fmt"

	"example.org/extralow/tables/working"
)

type protectorRow struct {
	size   Size
	device string
	figure working.Figure
}

var protectorRows = load("aircraft-wire-protector", func(r *record) protectorRow {
	f := r.figure("rating_a", "A", r.text("size"), r.text("device"))
	f.Note = r.text("note")
	return protectorRow{Size{r.text("size")}, r.text("device"), f}
})

// AircraftProtector returns the device ("breaker" or "fuse") that FAA AC
// 43.13-1B table 11-3 sets beside a copper wire in aircraft bundles. It is not
// always below the ampacity of the wire in table 11-9 and serves to compare;
// [Ratings] and a rule set choose a device.
func AircraftProtector(s Size, device string) (working.Figure, error) {
	for _, row := range protectorRows() {
		if row.size == s && row.device == device {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("aircraft %s for %s: %w", device, s, ErrNotListed)
}
