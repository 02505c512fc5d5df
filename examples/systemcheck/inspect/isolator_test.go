package inspect_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// TestBankHasAnIsolator takes the isolators of each sound job: then nothing parts
// its bank from what draws on it. A toggle of one load is none.
func TestBankHasAnIsolator(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml"} {
		j := read(t, name)
		for _, f := range judge(t, j).Findings {
			assert.False(t, f.ID == "P15" && f.Where == "the house bank", "%s: %s", name, f.Missing)
		}
		for i, c := range j.Circuits {
			if c.Switch != nil && c.Switch.Kind == "isolator" {
				j.Circuits[i].Switch = nil
			}
		}
		assert.Equal(t, working.CannotTell, verdict(judge(t, j), "P15", "the house bank"), name)
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
			if f.ID == "P15" && f.Where == "the house bank" {
				all = append(all, f.Missing)
			}
		}
		return all
	}
	assert.Empty(t, beside(func(*job.Job) {}))
	assert.Len(t, beside(func(j *job.Job) { j.Loads[1].MustRun = false }), 1)
	assert.Len(t, beside(func(j *job.Job) { circuit(j, "mast").From = "house battery" }), 1)
	assert.Len(t, beside(func(j *job.Job) { j.Craft = "vehicle" }), 1)
}
