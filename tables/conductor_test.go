package tables_test

import (
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestResistance compares with IEC 60228 tables 2 and 3 and NFPA 70 chapter 9
// table 8 (0.491 and 0.0608 Ω per 1000 ft at 75 °C).
func TestResistance(t *testing.T) {
	for _, c := range []struct {
		size   string
		class  tables.Class
		want   string
		at     string
		listed bool
	}{
		{"16 mm2", tables.Flexible, "1.21", "20", true},
		{"16 mm2", tables.Stranded, "1.15", "20", true},
		{"240 mm2", tables.Flexible, "0.0801", "20", true},
		{"AWG 6", tables.Flexible, "1.6109", "75", true},
		{"AWG 4/0", tables.Flexible, "0.1995", "75", true},
		{"SAE 6", tables.Flexible, "1.91", "20", false}, // 10 mm²
		{"AWG 5", tables.Stranded, "1.21", "20", false}, // 16 mm² of class 5: the code has no AWG 5
	} {
		r, err := tables.Resistance(mustSize(c.size), c.class)
		require.NoError(t, err)
		assert.Equal(t, c.want, r.Figure.Value.String(), c)
		assert.Equal(t, "mΩ/m", r.Figure.Unit)
		assert.Equal(t, c.at, r.AtC.String(), c)
		if !c.listed {
			assert.Contains(t, r.Figure.Note, "is not listed", c)
		}
	}
	for _, size := range []string{"AWG 30", "SAE 22"} {
		_, err := tables.Resistance(mustSize(size), tables.Flexible)
		assert.ErrorIs(t, err, tables.ErrNotListed, size)
	}
	_, err := tables.Resistance(mustSize("16 mm2"), tables.Class(1))
	assert.ErrorContains(t, err, "class is 1: want 2 (stranded) or 5 (flexible)")
}

// TestResistanceNeverRisesWithCopper: in each system more copper conducts no
// worse, so that no size up makes a drop worse. AWG sizes that the code does not
// list stand at 20 °C and are left out.
func TestResistanceNeverRisesWithCopper(t *testing.T) {
	for _, system := range []tables.System{tables.Metric, tables.AWG, tables.SAE} {
		for _, class := range []tables.Class{tables.Stranded, tables.Flexible} {
			var before tables.ColdResistance
			for _, s := range tables.Sizes(system) {
				r, err := tables.Resistance(s, class)
				if err != nil || system == tables.AWG && !r.AtC.Equal(number("75")) {
					continue
				}
				if before.Figure.Stated() {
					assert.True(t, r.Figure.Value.LessThanOrEqual(before.Figure.Value), "%s, class %d", s, class)
				}
				before = r
			}
		}
	}
}

func TestMaterial(t *testing.T) {
	f, err := tables.Material("copper", "resistivity_20c")
	require.NoError(t, err)
	assert.Equal(t, "0.017241", f.Value.String()) // 1/58, IEC 60028
	both := must(tables.Constants("aluminium", "zero_resistance_constant"))
	require.Len(t, both, 2)
	first, err := tables.Material("aluminium", "zero_resistance_constant")
	require.NoError(t, err)
	assert.Equal(t, both[0], first)
	assert.Equal(t, cite.Published, both[1].Source.Confidence)
	assert.Error(t, second(tables.Constants("copper", "taste")))
	_, err = tables.Material("", "")
	assert.ErrorIs(t, err, tables.ErrNotListed)
}
