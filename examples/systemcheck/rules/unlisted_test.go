package rules_test

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// unused takes a source out of every state.
func unused(j *job.Job, source string) {
	for i := range j.States {
		j.States[i].Sources = slices.DeleteFunc(slices.Clone(j.States[i].Sources), func(s string) bool { return s == source })
	}
}

// TestUnlistedSourceHasALine: a charger of 30 A that no state lists gives 30 A on
// the day that somebody plugs it in, which a fuse of 20 A does not carry.
func TestUnlistedSourceHasALine(t *testing.T) {
	j := read(t, "clinic.yaml")
	unused(&j, "mains charger")
	circuit(&j, "mains charger output").FarDevice.RatingA = d("20")
	r := judge(t, j)
	f := finding(t, r, "P01", "mains charger output, at main bus")
	assert.Equal(t, []string{"fails", "30"}, []string{f.Verdict().String(), f.Demand.String()})
	assert.Equal(t, "mains charger at its limit", finding(t, r, "W01", "mains charger output").Case)
	assert.Contains(t, r.Assumed, "mains charger: no state uses it; its line is judged at its full output all the same.")
}

// TestUnlistedConverterHasAnInput: 14.2 V × 25 A ÷ 0.9 ÷ 11 V are 35.86 A, by
// hand, at its input.
func TestUnlistedConverterHasAnInput(t *testing.T) {
	j := read(t, "clinic.yaml")
	unused(&j, "engine converter")
	f := finding(t, judge(t, j), "W01", "converter feed")
	assert.Equal(t, "35.859", f.Demand.StringFixed(3))
	assert.Equal(t, "the input of engine converter at its limit", f.Case)
}

// TestAlternatorLeadIsForColdOutput: 180 A are marked, cold; hot it gives 144 A.
// A branch from its posts that feeds a lamp carries the lamp's current.
func TestAlternatorLeadIsForColdOutput(t *testing.T) {
	j := read(t, "clinic.yaml")
	f := finding(t, judge(t, j), "W01", "alternator lead")
	assert.Equal(t, []string{"180", "alternator at its limit"}, []string{f.Demand.String(), f.Case})
	circuit(&j, "lights").From = "alternator"
	assert.Equal(t, working.Passes, verdict(judge(t, j), "W01", "lights"))
	assert.Equal(t, "4", finding(t, judge(t, j), "W01", "lights").Demand.String())
}
