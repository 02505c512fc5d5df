package tables_test

import (
	"testing"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAmbientFactorTakesTheNextWorseRow compares with the printed rows of NFPA 70
// 310.15(B)(1) and BS 7671.
func TestAmbientFactorTakesTheNextWorseRow(t *testing.T) {
	for _, c := range []struct{ table, insulation, ambient, want, note string }{
		{"NFPA 70 310.15(B)(1)", "90", "40", "0.91", ""},
		{"NFPA 70 310.15(B)(1)", "90", "40.01", "0.87", "the next hotter row for 40.01 °C"},
		{"NFPA 70 310.15(B)(1)", "90", "-20", "1.15", "the next hotter row for -20 °C"}, // the coolest row, on the safe side
		{"NFPA 70 310.15(B)(1)", "89", "40", "0.88", ""},                                // the column of 75 °C
		{"NFPA 70 310.15(B)(1)", "105", "40", "0.91", ""},
		{"BS 7671 16th ambient", "70", "60", "0.5", ""},
		{"IEC 60364-5-52 B.52.14", "70", "35", "0.94", ""},
	} {
		f, err := tables.AmbientFactor(c.table, number(c.insulation), number(c.ambient))
		require.NoError(t, err)
		assert.True(t, f.Value.Equal(number(c.want)), "%v: %s", c, f.Value)
		assert.Equal(t, c.note, f.Note, c)
	}
	for _, c := range []struct {
		table, insulation, ambient string
		want                       error
	}{
		{"NFPA 70 310.15(B)(1)", "60", "56", tables.ErrOutside}, // the unsafe side
		{"NFPA 70 310.15(B)(1)", "59", "30", tables.ErrNotListed},
		{"no such table", "70", "30", tables.ErrNotListed},
	} {
		_, err := tables.AmbientFactor(c.table, number(c.insulation), number(c.ambient))
		assert.ErrorIs(t, err, c.want, c)
		_, err = tables.AmbientFactorInterpolated(c.table, number(c.insulation), number(c.ambient))
		assert.ErrorIs(t, err, c.want, c)
	}
}

// TestInterpolatedAmbient: between the rows, never below the next worse row, never
// above the one before, and on the safe side of the square-root rule but for the
// half digit that the rows are rounded by.
func TestInterpolatedAmbient(t *testing.T) {
	before := number("9")
	for tenths := int64(-100); tenths <= 850; tenths += 3 {
		ambient := decimal.New(tenths, -1)
		row, err := tables.AmbientFactor("NFPA 70 310.15(B)(1)", number("90"), ambient)
		require.NoError(t, err)
		line, err := tables.AmbientFactorInterpolated("NFPA 70 310.15(B)(1)", number("90"), ambient)
		require.NoError(t, err)
		assert.True(t, line.Value.GreaterThanOrEqual(row.Value), "%s: %s below %s", ambient, line.Value, row.Value)
		assert.True(t, line.Value.LessThanOrEqual(before), "%s: %s rises", ambient, line.Value)
		assert.Equal(t, row.Source.Key, line.Source.Key)
		before = line.Value
		// (f − 0.005)² × (90 − 30) ≤ 90 − a
		least := decimal.Max(decimal.Zero, line.Value.Sub(number("0.005")))
		assert.True(t, least.Mul(least).Mul(number("60")).LessThanOrEqual(number("90").Sub(ambient)), "%s: %s", ambient, line.Value)
	}
	exact, err := tables.AmbientFactorInterpolated("NFPA 70 310.15(B)(1)", number("90"), number("40"))
	require.NoError(t, err)
	assert.Equal(t, "0.91", exact.Value.String())
	assert.Empty(t, exact.Note, "a row of the table is no interpolation")
	cool, err := tables.AmbientFactorInterpolated("NFPA 70 310.15(B)(1)", number("90"), number("-40"))
	require.NoError(t, err)
	assert.Equal(t, "1.15", cool.Value.String())
}

// TestGroupingFactor compares with BS 7671 4C1 and NFPA 70 310.15(B)(3)(a).
func TestGroupingFactor(t *testing.T) {
	for _, c := range []struct {
		table    string
		circuits int
		want     string
		note     string
	}{
		{"BS 7671 4C1", 1, "1", ""},
		{"BS 7671 4C1", 9, "0.5", ""},
		{"BS 7671 4C1", 10, "0.45", "the next row above 10"},
		{"BS 7671 4C1", 20, "0.38", ""},
		{"BS 7671 4C1", 0, "1", "the table begins at 1 circuits"},
		{"NFPA 70 310.15(B)(3)(a)", 1, "1", "the table begins at 4 conductors"}, // two conductors
		{"NFPA 70 310.15(B)(3)(a)", 2, "0.8", ""},                               // four conductors
		{"NFPA 70 310.15(B)(3)(a)", 5, "0.5", ""},                               // ten
		{"NFPA 70 310.15(B)(3)(a)", 1000, "0.35", ""},                           // "41 and above"
	} {
		f, err := tables.GroupingFactor(c.table, c.circuits)
		require.NoError(t, err)
		assert.True(t, f.Value.Equal(number(c.want)), "%v: %s", c, f.Value)
		assert.Equal(t, c.note, f.Note, c)
	}
	_, err := tables.GroupingFactor("BS 7671 4C1", 21)
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = tables.GroupingFactor("none", 1)
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

// TestGroupingNeverRises: one circuit more never carries more.
func TestGroupingNeverRises(t *testing.T) {
	for _, set := range tables.RuleSets() {
		table := set.Ampacity.Grouping
		if table == "" {
			continue
		}
		before := number("1")
		for n := 1; n <= 60; n++ {
			f, err := tables.GroupingFactor(table, n)
			if err != nil {
				assert.ErrorIs(t, err, tables.ErrOutside)
				break
			}
			assert.True(t, f.Value.LessThanOrEqual(before), "%s: %d circuits", table, n)
			before = f.Value
		}
	}
}

// TestEngineSpaceFactor compares with 33 CFR 183.425, note 1.
func TestEngineSpaceFactor(t *testing.T) {
	for insulation, want := range map[string]string{"60": "0.58", "74": "0.58", "75": "0.75", "105": "0.85", "199": "0.89", "200": "1", "250": "1"} {
		f, err := tables.EngineSpaceFactor("33 CFR 183.425 note 1", number(insulation))
		require.NoError(t, err)
		assert.True(t, f.Value.Equal(number(want)), "%s: %s", insulation, f.Value)
	}
	for _, table := range []string{"33 CFR 183.425 note 1", "none"} {
		_, err := tables.EngineSpaceFactor(table, number("59"))
		assert.ErrorIs(t, err, tables.ErrNotListed)
	}
}
