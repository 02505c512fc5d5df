package installation_test

import (
	"testing"

	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire/installation"
	"github.com/stretchr/testify/require"
)

// FuzzInstallation draws installations and asks everything: each is solved, and every
// working holds.
func FuzzInstallation(f *testing.F) {
	f.Add(uint64(1), uint8(1))
	f.Add(uint64(77), uint8(3))
	f.Fuzz(func(t *testing.T, seed uint64, panels uint8) {
		in := newDice(seed).installation(int(panels % 4))
		s, err := in.Solve()
		require.NoError(t, err)
		for _, c := range in.Circuits {
			r, err := s.Circuit(c.Name)
			require.NoError(t, err)
			workingtest.Guard(t, r.Working)
			e := installation.End{Circuit: c.Name, Node: c.To}
			through, err := s.ThroughEnd(e)
			require.NoError(t, err)
			workingtest.Guard(t, through.Working)
			least, err := s.LeastFault(e, c.To)
			require.NoError(t, err)
			if least.FaultA.Valid {
				workingtest.Guard(t, least.Working)
				require.True(t, least.FaultA.Decimal.LessThanOrEqual(through.FaultA), "%s: least %s, greatest %s", c.Name, least.FaultA.Decimal, through.FaultA)
			}
			_, err = s.Closing(c.Name)
			require.NoError(t, err)
		}
	})
}
