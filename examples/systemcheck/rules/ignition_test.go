package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// amongPetrol is the workboat with one node in a space where something gathers.
func amongPetrol(t *testing.T, name, gathers string, nodes ...string) job.Job {
	j := read(t, name)
	j.Spaces = []job.Space{{Name: "engine space", Gathers: gathers, Nodes: nodes}}
	return j
}

// TestNothingSparksAmongPetrol: 33 CFR 183.410(a) (from memory) wants no electrical
// component of a petrol boat able to ignite vapour round it; of other craft it is
// common practice. Each kind of thing is asked: what is not marked cannot be told, and
// what is marked unprotected fails.
func TestNothingSparksAmongPetrol(t *testing.T) {
	for _, c := range []struct {
		in, node, where string
		mark            func(j *job.Job) *job.Sparks
	}{
		{"river-workboat.yaml", "alternator", "alternator", func(j *job.Job) *job.Sparks { return &j.Alternators[0].Sparks }},
		{"river-workboat.yaml", "engine converter", "engine converter", func(j *job.Job) *job.Sparks { return &j.Chargers[0].Sparks }},
		{"river-workboat.yaml", "dock charger", "dock charger", func(j *job.Job) *job.Sparks { return &j.Chargers[1].Sparks }},
		{"river-workboat.yaml", "bilge pump", "bilge pump", func(j *job.Job) *job.Sparks { return &j.Loads[1].Sparks }},
		{"river-workboat.yaml", "panel", "mast, at panel", func(j *job.Job) *job.Sparks { return &circuit(j, "mast").Device.Sparks }},
		{"river-workboat.yaml", "house battery", "house feeder, at house battery", func(j *job.Job) *job.Sparks { return &circuit(j, "house feeder").Device.Sparks }},
		{"clinic.yaml", "inverter", "inverter", func(j *job.Job) *job.Sparks { return &j.Inverters[0].Sparks }},
		{"clinic.yaml", "inverter", "inverter feed, its isolator", func(j *job.Job) *job.Sparks { return &circuit(j, "inverter feed").Switch.Sparks }},
		{"clinic.yaml", "panel", "roof fan, its relay", func(j *job.Job) *job.Sparks { return &circuit(j, "roof fan").Switch.Sparks }},
		{"clinic.yaml", "roof array", "roof array", func(j *job.Job) *job.Sparks { return &j.Solar[0].Sparks }},
		{"clinic.yaml", "battery A", "battery A, its management unit", func(j *job.Job) *job.Sparks { return &j.Batteries[0].Sparks }},
		{"clinic.yaml", "main bus", "converter output, at main bus", func(j *job.Job) *job.Sparks { return &circuit(j, "converter output").FarDevice.Sparks }},
	} {
		j := amongPetrol(t, c.in, "petrol vapour", c.node)
		at := c.where + ", in engine space"
		c.mark(&j).Ignition = ""
		assert.Equal(t, working.CannotTell, verdict(judge(t, j), "P34", at), c.where)
		c.mark(&j).Ignition = "unprotected"
		f := finding(t, judge(t, j), "P34", at)
		assert.Equal(t, []any{working.Fails, "", cite.CommonPractice}, []any{f.Verdict(), f.RuleSet, f.Source.Confidence}, c.where)
		c.mark(&j).Ignition = "protected"
		assert.Equal(t, working.Passes, verdict(judge(t, j), "P34", at), c.where)
	}
}

// TestGasIsAskedAsPetrolIs, and a space in which neither gathers is not asked.
func TestGasIsAskedAsPetrolIs(t *testing.T) {
	j := amongPetrol(t, "clinic.yaml", "liquefied gas", "inverter")
	assert.Equal(t, working.CannotTell, verdict(judge(t, j), "P34", "inverter, in engine space"))
	j.Spaces[0].Gathers = "neither"
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P34", "the spaces"))
}

// TestStarterAmongPetrol: a starter's motor and its relay spark too.
func TestStarterAmongPetrol(t *testing.T) {
	j := withStarter(t, ", switch: {kind: relay, rating_a: 400, short_time_a: 900, load: motor}")
	j.Spaces = []job.Space{{Name: "engine space", Gathers: "petrol vapour", Nodes: []string{"starter posts"}}}
	r := judge(t, j)
	for _, where := range []string{"starter motor", "starter cable, its relay"} {
		assert.Equal(t, working.CannotTell, verdict(r, "P34", where+", in engine space"), "%s: %q", where, bad(r))
	}
}

// TestPetrolBoatStatesItsSpaces: the set is one of petrol boats by its own words, so
// that petrol stands somewhere; of another craft, or by another set, nothing is asked
// of a job that says nothing.
func TestPetrolBoatStatesItsSpaces(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	for _, set := range tables.RuleSets() {
		j.RuleSet, j.Spaces = set.Key, nil
		want := working.NotApplicable
		if set.Key == "us-boat" {
			want = working.CannotTell
		}
		assert.Equal(t, want, verdict(judge(t, j), "P34", "the spaces"), set.Key)
	}
	van := read(t, "clinic.yaml")
	van.RuleSet = "us-boat"
	assert.Equal(t, working.NotApplicable, verdict(judge(t, van), "P34", "the spaces"), "a yardstick")
}
