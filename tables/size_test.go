package tables_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseSize(t *testing.T) {
	for typed, want := range map[string]string{
		"16 mm2": "16 mm2", "16mm2": "16 mm2", "16 mm²": "16 mm2", "  16   mm2 ": "16 mm2", "3 mm2": "3 mm2", "2.50 mm2": "2.5 mm2",
		"0.75 mm2": "0.75 mm2", "AWG 6": "AWG 6", "AWG6": "AWG 6", "6 AWG": "AWG 6", "6AWG": "AWG 6", "AWG 0": "AWG 1/0", "AWG 00": "AWG 2/0",
		"AWG 0000": "AWG 4/0", "4/0 AWG": "AWG 4/0", "AWG 2/0": "AWG 2/0", "SAE 6": "SAE 6", "6 SAE": "SAE 6", "SAE 00": "SAE 2/0",
	} {
		s, err := tables.ParseSize(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, s.String(), typed)
		again, err := tables.ParseSize(s.String())
		require.NoError(t, err)
		assert.Equal(t, s, again)
	}
}

// TestParseSizeRefuses: what could be read in two ways, or is no standard size,
// is an error that says what to type.
func TestParseSizeRefuses(t *testing.T) {
	for typed, wants := range map[string]string{
		"4 mm": "cable named by a bare mm is named by its outer diameter", "4mm": "outer diameter", "16 sqmm": "the copper area",
		"6": "AWG 6 or SAE 6 (not the same wire)", "#6": "(not the same wire)", "6 ga": "(not the same wire)", "gauge 6": "(not the same wire)",
		"": "an area such as", "mm2": "an area such as", "AWG": "an area such as", "-16 mm2": "an area such as", "+16 mm2": "an area such as",
		".5 mm2": "an area such as", "010 mm2": "an area such as", "1e3 mm2": "an area such as", "16,0 mm2": "an area such as", "AWG 6.5": "an area such as", "awg 6": "an area such as",
		"5/0 AWG": "an area such as", "AWG -6": "an area such as", "16 MM2": "an area such as", "1.2.3 mm2": "an area such as", "AWG 6 SAE": "an area such as",
		"16 mm2 AWG 6": "an area such as", "17 mm2": "one of 0.5 mm2", "AWG 41": "one of AWG ", "AWG 00000": "one of AWG ", "SAE 7": "one of SAE 22",
		"0 mm2": "one of", "250 kcmil": "an area such as",
	} {
		s, err := tables.ParseSize(typed)
		bad := working.Inputs(err)
		require.Len(t, bad, 1, typed)
		assert.True(t, s.IsZero(), typed)
		assert.Equal(t, "size", bad[0].Field)
		assert.Contains(t, bad[0].Want, wants, typed)
	}
}

// TestHugeSizes: what was typed is shown, but never whole pages of it.
func TestHugeSizes(t *testing.T) {
	for _, typed := range []string{strings.Repeat("9", 100_000) + " mm2", "AWG " + strings.Repeat("0", 100_000), strings.Repeat("x", 100_000), strings.Repeat("4", 100_000) + " mm"} {
		_, err := tables.ParseSize(typed)
		require.Error(t, err)
		assert.Less(t, len(err.Error()), 1_000, typed[:10])
	}
}

// TestSizesRise: each system runs from least copper to most, and its neighbours
// lead from end to end and back.
func TestSizesRise(t *testing.T) {
	for _, system := range []tables.System{tables.Metric, tables.AWG, tables.SAE} {
		all := tables.Sizes(system)
		require.Greater(t, len(all), 10)
		for i, s := range all {
			assert.Equal(t, system, s.System())
			area, err := s.Area()
			require.NoError(t, err)
			assert.Equal(t, "mm²", area.Unit)
			assert.True(t, area.Stated())
			next, up := s.Next()
			previous, down := s.Previous()
			assert.Equal(t, i+1 < len(all), up, s)
			assert.Equal(t, i > 0, down, s)
			if up {
				assert.Equal(t, all[i+1], next)
				larger, err := next.Area()
				require.NoError(t, err)
				assert.True(t, larger.Value.GreaterThan(area.Value), "%s after %s", next, s)
			}
			if down {
				assert.Equal(t, all[i-1], previous)
			}
			if !up {
				assert.True(t, next.IsZero())
			}
		}
		all[0] = tables.Size{}
		assert.False(t, tables.Sizes(system)[0].IsZero(), "the reader's own slice")
	}
	assert.Empty(t, tables.Sizes("other"))
}

func TestNoSize(t *testing.T) {
	var none tables.Size
	_, err := none.Area()
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, ok := none.Next()
	assert.False(t, ok)
	_, ok = none.Previous()
	assert.False(t, ok)
	_, err = tables.Resistance(none, tables.Flexible)
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

func TestSizeReadsBackFromJSON(t *testing.T) {
	for _, system := range []tables.System{tables.Metric, tables.AWG, tables.SAE} {
		for _, s := range tables.Sizes(system) {
			text, err := json.Marshal(s)
			require.NoError(t, err)
			var again tables.Size
			require.NoError(t, json.Unmarshal(text, &again))
			assert.Equal(t, s, again)
		}
	}
	var s tables.Size
	assert.ErrorContains(t, json.Unmarshal([]byte(`"4 mm"`), &s), "outer diameter")
}

// FuzzParseSize: any text is a listed size that reads back as itself, or one
// error of bounded length.
func FuzzParseSize(f *testing.F) {
	for _, seed := range []string{"16 mm2", "4 mm", "6", "AWG 0000", "SAE 6", "2.5mm²", "9999999999999999999999 mm2", "6 AWG", "\xff mm2", "0x10 mm2"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		s, err := tables.ParseSize(typed)
		if err != nil {
			require.True(t, s.IsZero())
			require.Len(t, working.Inputs(err), 1)
			require.Less(t, len(err.Error()), 1_000)
			return
		}
		_, err = s.Area()
		require.NoError(t, err)
		again, err := tables.ParseSize(s.String())
		require.NoError(t, err)
		require.Equal(t, s, again)
	})
}
