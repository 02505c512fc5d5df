package wire_test

import (
	"math"
	"testing"

	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Copper in physics texts (from memory): 401 W/(m K), 8960 kg/m³, 385 J/(kg K).
const (
	conductivity = 401.0
	volumeHeat   = 8960 * 385.0
)

// TestJointRise compares with the equations of the heat-transfer texts in their own
// quantities: a long rod of conductivity k, section A and loss h·p along its length
// takes √(h·p·k·A) for each kelvin at its end; a half-space of k and ρc, heated with
// q on its face is 2 q √(t ÷ (π k ρc)) warmer after a time. The conductivity here is that of 0 °C, which is a little low.
func TestJointRise(t *testing.T) {
	j := wire.HotJoint{Milliohm: d("0.4"), CurrentA: d("60"), Ampacity: anAmpacity, AreaMM2: d("16")}
	lasting := must(j.Rise())
	assert.Equal(t, "24", lasting.MilliV.String())
	assert.Equal(t, "1.44", lasting.LossW.String())
	ic := anAmpacity.CableA.InexactFloat64()
	loss := ic * ic * 1.0776e-3 * (234.5 + 90) / 254.5 / 50 // W a metre and kelvin: 16 mm² of copper (IEC 60028)
	assert.InEpsilon(t, 1.44/math.Sqrt(loss*conductivity*16e-6), lasting.RiseK.InexactFloat64(), 0.1)
	workingtest.Guard(t, lasting.Working)

	j.TimeS = some("30")
	short := must(j.Rise())
	assert.InEpsilon(t, 2*1.44/16e-6*math.Sqrt(30/(math.Pi*conductivity*volumeHeat)), short.RiseK.InexactFloat64(), 0.1)
	workingtest.Guard(t, short.Working)
}

// TestJointCheck: 10 mΩ at 50 A are 25 W, which no lug bears.
func TestJointCheck(t *testing.T) {
	j := wire.HotJoint{Milliohm: d("10"), CurrentA: d("50"), Ampacity: anAmpacity, AreaMM2: d("16")}
	c, err := j.Check()
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict())
	assert.Equal(t, "from memory", c.Working.Confidence().String())
	j.Milliohm = d("0.1")
	c, err = j.Check()
	require.NoError(t, err)
	assert.Equal(t, working.Passes, c.Verdict())
}

// TestJointRefuses: a joint of no resistance, current or time is one that was
// forgotten, and each greatest value is the last that is answered.
func TestJointRefuses(t *testing.T) {
	ask := func(milliohm, amps, area, seconds string) error {
		return second(wire.HotJoint{Milliohm: d(milliohm), CurrentA: d(amps), Ampacity: anAmpacity, AreaMM2: d(area), TimeS: some(seconds)}.Rise())
	}
	assert.NoError(t, ask("1", "1", "10000", "600"))
	assert.NoError(t, ask("1000", "0.1", "16", "600"))
	for field, errs := range map[string][]error{
		"joint_milliohm": {ask("0", "1", "16", "1"), ask("1000.1", "0.1", "16", "1")},
		"current_a":      {ask("1", "0", "16", "1"), ask("1", "-1", "16", "1")},
		"area_mm2":       {ask("1", "1", "0", "1"), ask("1", "1", "10000.1", "1")},
		"time_s":         {ask("1", "1", "16", "0"), ask("1", "1", "16", "600.1")},
	} {
		for _, err := range errs {
			assert.ErrorContains(t, err, field)
		}
	}
}
