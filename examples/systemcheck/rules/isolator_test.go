package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestBankHasAnIsolator takes the isolators of each sound job: then nothing parts
// its bank from what draws on it. A toggle of one load is none.
func TestBankHasAnIsolator(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml"} {
		j := read(t, name)
		assert.Equal(t, working.Passes, verdict(judge(t, j), "P35", "the house bank"), name)
		for i, c := range j.Circuits {
			if c.Switch != nil && c.Switch.Kind == "isolator" {
				j.Circuits[i].Switch = nil
			}
		}
		f := finding(t, judge(t, j), "P35", "the house bank")
		assert.Equal(t, []any{working.Fails, cite.CommonPractice}, []any{f.Verdict(), f.Working.Confidence()}, name)
	}
}

// TestIsolatorOfEachSet: ISO 10133 clause 6 asks a switch near the battery of small
// craft (from memory); what another set does not say is common practice, and no
// set's rule.
func TestIsolatorOfEachSet(t *testing.T) {
	for _, set := range tables.RuleSets() {
		j := read(t, "river-workboat.yaml")
		j.RuleSet = set.Key
		for i := range j.Circuits {
			j.Circuits[i].Switch = nil
		}
		f := finding(t, judge(t, j), "P35", "the house bank")
		assert.Equal(t, working.Fails, f.Verdict(), set.Key)
		if set.Key == "iso-craft" {
			assert.Equal(t, []any{set.Name, cite.FromMemory}, []any{f.RuleSet, f.Working.Confidence()})
			continue
		}
		assert.Equal(t, []any{"", cite.CommonPractice}, []any{f.RuleSet, f.Working.Confidence()}, set.Key)
	}
}

// TestPumpBesideTheIsolator: on a boat a bilge pump that must run may bypass the
// isolator (ISO 10133, from memory); lamps may not, and on a vehicle nothing may.
func TestPumpBesideTheIsolator(t *testing.T) {
	beside := func(change func(j *job.Job)) []string {
		j := read(t, "river-workboat.yaml")
		circuit(&j, "bilge pump").From = "house battery"
		change(&j)
		var all []string
		for _, f := range judge(t, j).Findings {
			if f.ID == "P35" && f.Verdict() == working.Fails {
				all = append(all, f.Danger)
			}
		}
		return all
	}
	assert.Empty(t, beside(func(*job.Job) {}))
	assert.Len(t, beside(func(j *job.Job) { j.Loads[1].MustRun = false }), 1)
	assert.Len(t, beside(func(j *job.Job) { circuit(j, "mast").From = "house battery" }), 1)
	assert.Len(t, beside(func(j *job.Job) { j.Craft = "vehicle" }), 1)
}
