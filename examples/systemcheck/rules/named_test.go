package rules_test

import (
	"strings"
	"testing"

	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// What a named insulation would tell is asked for before the maker is; where no name
// would, or the job gives it, the maker is asked as before.
func TestInsulationIsAskedForWhereItsNameTells(t *testing.T) {
	for _, c := range []struct {
		insulation string
		verdict    working.Verdict
		asked      bool
	}{
		{"EPR or XLPE 90 C", working.Passes, false},
		{"", working.CannotTell, true},
		{"PVC 90 C", working.CannotTell, false},
	} {
		j := read(t, "library-truck.yaml")
		run := circuit(&j, "inverter feed")
		run.Insulation = c.insulation
		f := found(t, judge(t, j), "P09", "inverter feed, at main bus")
		assert.Equal(t, c.verdict, f.Verdict(), c.insulation)
		const asks = "ask what its insulation is made of, and state insulation: as EPR or XLPE 90 C it passes; or the last gate"
		assert.Equal(t, c.asked, strings.HasPrefix(f.Missing, asks), f.Missing)
	}
}

// What is asked for can be stated: no insulation of 105 C has a name, and none is asked.
func TestNoInsulationIsAskedForThatNobodyCanName(t *testing.T) {
	j := read(t, "library-truck.yaml")
	run := circuit(&j, "inverter feed")
	run.Insulation, run.InsulationC = "", d("105")
	f := found(t, judge(t, j), "P09", "inverter feed, at main bus")
	assert.Equal(t, working.CannotTell, f.Verdict())
	assert.NotContains(t, f.Missing, "insulation")
}
