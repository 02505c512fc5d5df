package wire_test

import (
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHotterThanTheTable: AWG 14 in the 60 °C column of 33 CFR 183.425 table 5
// carries 20 A in 30 °C. By hand 20 × √(2 ÷ 30) = 5.163 A in 58 °C air, and in an
// engine space of 55 °C, where note 1 is for 50 °C, 20 × √(5 ÷ 30) = 8.164 A.
func TestHotterThanTheTable(t *testing.T) {
	rules, err := tables.RuleSetOf("us-boat")
	require.NoError(t, err)
	size, err := tables.ParseSize("AWG 14")
	require.NoError(t, err)
	for _, c := range []struct {
		ambient, want string
		engine        bool
	}{{"25", "20", false}, {"30", "20", false}, {"58", "5.16", false}, {"50", "11.6", true}, {"55", "8.16", true}} {
		lies := wire.Conductor{Size: size, InsulationC: d("60"), AmbientC: some(c.ambient), Grouped: 1, OutsideEngineSpace: !c.engine}
		a, err := lies.Ampacity(rules.Ampacity)
		require.NoError(t, err)
		assert.Equal(t, c.want, a.AmpacityA.String(), c.ambient)
		lies.AmbientC = some("60")
		assert.ErrorIs(t, second(lies.Ampacity(rules.Ampacity)), tables.ErrOutside)
	}
}

// TestTinned: IEC 60228 table 3, 10 mm²: 1.91 mΩ/m plain, 1.95 tinned.
func TestTinned(t *testing.T) {
	size, err := tables.ParseSize("10 mm2")
	require.NoError(t, err)
	c := wire.Conductor{Size: size, Class: tables.Flexible}
	assert.Equal(t, "1.95", must(c.Resistance(d("20"))).MilliohmPerM.String(), "tinned where nothing is said")
	c.PlainCopper = true
	assert.Equal(t, "1.91", must(c.Resistance(d("20"))).MilliohmPerM.String())
}
