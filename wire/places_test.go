package wire_test

import (
	"testing"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSolvedPlaces: 12 V through 4 + 6 mΩ into 0.69 Ω are by Ohm's law 12 ÷ 0.7 =
// 17.142857142857 A, which the answer gives to the nine places that it keeps, and to
// the last of them.
func TestSolvedPlaces(t *testing.T) {
	s, err := single(wire.NodeLoad{Ohm: some("0.69")}).Solve()
	require.NoError(t, err)
	assert.Equal(t, "17.142857143", s.Loads[0].CurrentA.String())
	assert.Equal(t, "17.142857143", s.Sources[0].CurrentA.String())
	l, err := s.LoadLadder("load")
	require.NoError(t, err)
	solved := 0
	for _, step := range l.Working {
		if step.Kind == working.Solved {
			solved++
			assert.True(t, step.Within.LessThanOrEqual(d("0.000001")), "%s is held to a microampere, not %s A", step.Symbol, step.Within)
		}
	}
	assert.NotZero(t, solved)
}
