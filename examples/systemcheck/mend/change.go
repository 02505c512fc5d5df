package mend

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// Change is one alteration of a job, of one circuit: its conductor, whose devices are
// then fitted anew where they must be, or one of its devices.
type Change struct {
	Text    string              // in words
	Circuit string              // by its name
	Size    tables.Size         // of the conductor; zero: as it was
	Grouped decimal.NullDecimal // with how many it lies; unset: as it was
	Device  *job.Device         // that is fitted at an end; nil: as it was
	Far     bool                // which is the to end
}

// relays reports whether another conductor lies there, or the same another way.
func (c Change) relays() bool { return c.Size != tables.Size{} || c.Grouped.Valid }

// Applied is a job with the change. It shares nothing with the other that a change can
// alter.
func (c Change) Applied(j job.Job) job.Job {
	j.Circuits = slices.Clone(j.Circuits)
	for i := range j.Circuits {
		own := &j.Circuits[i]
		own.Device, own.FarDevice = cloned(own.Device), cloned(own.FarDevice)
	}
	own := &j.Circuits[c.index(j)]
	if c.Size != (tables.Size{}) {
		own.Size = c.Size
	}
	if c.Grouped.Valid {
		own.Grouped = c.Grouped.Decimal
	}
	switch {
	case c.Device == nil:
	case c.Far:
		own.FarDevice = cloned(c.Device)
	default:
		own.Device = cloned(c.Device)
	}
	return j
}

func (c Change) index(j job.Job) int {
	return slices.IndexFunc(j.Circuits, func(x job.Circuit) bool { return x.Name == c.Circuit })
}

// place is that of the device in the job file.
func (c Change) place(j job.Job) string {
	path := facts.Indexed("circuits", c.index(j))
	if c.Far {
		return path + ".far_device"
	}
	return path + ".device"
}

// touches reports whether the change can alter what a rule finds.
func (c Change) touches(r rules.Rule) bool { return c.relays() || r.Changes&rules.Devices != 0 }

func cloned(d *job.Device) *job.Device {
	if d == nil {
		return nil
	}
	c := *d
	return &c
}
