package tables

import (
	"errors"
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

var protectorDevices = indexed("aircraft_device", protectorRows, func(r protectorRow) string { return r.device })

// AircraftProtector returns the device ("breaker" or "fuse") that FAA AC
// 43.13-1B table 11-3 sets beside a copper wire in aircraft bundles. It is not
// always below the ampacity of the wire in table 11-9 and serves to compare;
// [Ratings] and a rule set choose a device.
func AircraftProtector(s Size, device string) (working.Figure, error) {
	rows, err := protectorDevices().of(device)
	if err := errors.Join(s.check(), err); err != nil {
		return working.Figure{}, err
	}
	for _, row := range rows {
		if row.size == s {
			return row.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("aircraft %s for %s: %w", device, s, ErrNotListed)
}
