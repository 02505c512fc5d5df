package inspect_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestEnergiesLeaveGates: energies tell of a short circuit alone. A fuse that
// holds 30 A for a second under one of 5 A that has opened by 0.1 s at six times
// its rating (ISO 8820-3 C) opens last at 30 A, whatever the two let through.
func TestEnergiesLeaveGates(t *testing.T) {
	const pair = "receipt printer, at front box, under front box, at panel"
	j := read(t, "trailer-with-faults.yaml")
	circuit(&j, "receipt printer").Device.TotalA2S, circuit(&j, "front box").Device.PreArcingA2S = null("400"), null("500")
	assert.Equal(t, working.Fails, verdict(judge(t, j), "P13", pair))

	// With the curve of its standard the gates do not settle it, and 400 A²s under
	// 500 do.
	lower := circuit(&j, "receipt printer").Device
	*lower = job.Device{
		Family: "ISO 8820-3 C", RatingA: d("3"), AmbientPercent: lower.AmbientPercent, RatedV: lower.RatedV,
		BreaksA: lower.BreaksA, BreaksAtV: lower.BreaksAtV, TotalA2S: null("400"),
	}
	assert.Equal(t, working.Passes, verdict(judge(t, j), "P25", pair))
}
