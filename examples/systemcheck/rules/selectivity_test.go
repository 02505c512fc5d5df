package rules_test

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

// TestUnderParallelBatteries: 200 A under two fuses of 175 A, one a battery, is
// selective while both batteries are there, and not when a management unit has
// opened: then 175 A opens first and the bank is dark. Of three, two are left, and
// together carry 350 A.
func TestUnderParallelBatteries(t *testing.T) {
	const pair = "inverter feed, at main bus, under battery A lead, at battery A"
	j := read(t, "clinic.yaml")
	circuit(&j, "inverter feed").Device.RatingA = d("200")
	f := finding(t, judge(t, j), "P12", pair)
	assert.Equal(t, []string{"fails", "without battery B"}, []string{f.Verdict().String(), f.Case})

	third := j.Batteries[1]
	third.Name = "battery C"
	j.Batteries = append(j.Batteries, third)
	device := *circuit(&j, "battery B lead").Device
	add(&j, "battery B lead", "battery C lead", "battery C", "main bus").Device = &device
	r := judge(t, j)
	assert.NotEqual(t, working.Fails, verdict(r, "P12", pair))
	circuit(&j, "inverter feed").Device.RatingA = d("350.1")
	circuit(&j, "inverter feed").Size = size(t, "185 mm2")
	f = finding(t, judge(t, j), "P12", pair)
	assert.Equal(t, []string{"fails", "350"}, []string{f.Verdict().String(), f.Limit.String()})
}
