package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/rules"
	"github.com/stretchr/testify/assert"
)

// What stops a load that safety hangs on is a danger, whether the finding is about the
// load or about a run on its way; beside it the same stays what it was.
func TestWhatStopsASafetyLoadIsADanger(t *testing.T) {
	for _, safety := range []bool{false, true} {
		j := read(t, "survey-launch-with-faults.yaml")
		loadOf(&j, "mast lamp").Safety = safety
		all := judge(t, j)
		want := map[bool][]any{false: {rules.WillNotServe, rules.Energise}, true: {rules.Dangerous, rules.Drive}}[safety]
		for _, at := range [][2]string{{"W04", "mast lamp"}, {"P01", "mast, at panel"}, {"P01", "house feeder, at house battery"}} {
			f := found(t, all, at[0], at[1])
			assert.Equal(t, want, []any{f.Grade, f.Forbids}, "%s, %v", at, safety)
		}
		assert.Equal(t, rules.WillNotServe, found(t, all, "W04", "echo sounder").Grade, "beside it")
		assert.Equal(t, rules.WillNotServe, found(t, all, "P01", "console, at panel").Grade, "beside it")
		burns := found(t, all, "P07", "mast, at panel")
		assert.Equal(t, []any{rules.Dangerous, rules.Energise}, []any{burns.Grade, burns.Forbids})
	}
}

// The same through an inverter, by the inverter's own findings.
func TestWhatStopsTheInverterOfASafetyLoadIsADanger(t *testing.T) {
	for _, safety := range []bool{false, true} {
		j := read(t, "survey-launch-with-faults.yaml")
		loadOf(&j, "instruments and kettle").Safety = safety
		f := found(t, judge(t, j), "B05", "inverter")
		assert.Equal(t, safety, f.Grade == rules.Dangerous)
	}
}
