package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestThingsHaveLeads puts things where no circuit ends: whatever joins them to
// that place is no part of the job, and nobody chose a device for it.
func TestThingsHaveLeads(t *testing.T) {
	for _, c := range []struct {
		why, where string
		change     func(j *job.Job)
	}{
		{"on the bus", "water pump", func(j *job.Job) { j.Loads[2].At = "main bus" }},
		{"on a battery", "water pump", func(j *job.Job) { j.Loads[2].At = "battery B" }},
		{"on the alternator", "water pump", func(j *job.Job) { j.Loads[2].At = "alternator" }},
		{"on a charger's output, where one circuit begins", "water pump", func(j *job.Job) { j.Loads[2].At = "mains charger" }},
		{"on a controller's output", "water pump", func(j *job.Job) { j.Loads[2].At = "roof array" }},
		{"on an inverter's posts, behind a fuse of 150 A", "water pump", func(j *job.Job) { j.Loads[2].At = "inverter" }},
		{"on a converter's input, behind a fuse of 60 A", "water pump", func(j *job.Job) { j.Loads[2].At = "converter input" }},
		{"a converter on a battery's posts", "input of engine converter", func(j *job.Job) { j.Chargers[0].FedAt = "starter battery" }},
		{"an inverter as the panel of others", "inverter", func(j *job.Job) { circuit(j, "fridge").From = "inverter" }},
	} {
		j := read(t, "clinic.yaml")
		c.change(&j)
		f := finding(t, judge(t, j), "P30", c.where)
		assert.Equal(t, working.CannotTell, f.Verdict(), c.why)
		assert.Contains(t, f.Missing, "state its lead as a circuit", c.why)
	}
}

// TestEndOfCircuitIsLead: what shares the end of a circuit has that as its lead.
func TestEndOfCircuitIsLead(t *testing.T) {
	j := read(t, "clinic.yaml")
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P30", "the loads"))
	j.Loads[2].At = "light rail"
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P30", "the loads"))
}

// TestStatedLead: the fitter may say what the lead is. A loop through a lamp's
// terminals is no lead on a battery's posts.
func TestStatedLead(t *testing.T) {
	at := func(node, lead string) working.Verdict {
		j := read(t, "clinic.yaml")
		j.Loads[2].At, j.Loads[2].Lead = node, lead
		return verdict(judge(t, j), "P30", "water pump")
	}
	assert.Equal(t, working.NotApplicable, at("main bus", job.OwnDevice))
	assert.Equal(t, working.NotApplicable, at("battery A", job.OwnDevice))
	assert.Equal(t, working.NotApplicable, at("main bus", job.LoopedThrough))
	assert.Equal(t, working.CannotTell, at("battery A", job.LoopedThrough))
}
