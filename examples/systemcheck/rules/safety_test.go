package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/rules"
	"github.com/stretchr/testify/assert"
)

// What stops a load that safety hangs on is a danger, whether the finding is about the
// load or about the run that leads to it; beside it the same stays what it was.
func TestWhatStopsASafetyLoadIsADanger(t *testing.T) {
	for _, safety := range []bool{false, true} {
		j := read(t, "survey-launch-with-faults.yaml")
		loadOf(&j, "mast lamp").Safety = safety
		all := judge(t, j)
		want := map[bool][]any{false: {rules.WillNotServe, rules.Energise}, true: {rules.Dangerous, rules.Drive}}[safety]
		for id, where := range map[string]string{"W04": "mast lamp", "P01": "mast, at panel"} {
			f := found(t, all, id, where)
			assert.Equal(t, want, []any{f.Grade, f.Forbids}, "%s, %v", id, safety)
		}
		beside := found(t, all, "W04", "echo sounder")
		assert.Equal(t, rules.WillNotServe, beside.Grade)
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
