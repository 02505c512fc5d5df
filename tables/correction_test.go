package tables_test

import (
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
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
		f, err := at30(c.insulation).AmbientFactor(c.table, number(c.ambient))
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
		_, err := at30(c.insulation).AmbientFactor(c.table, number(c.ambient))
		assert.ErrorIs(t, err, c.want, c)
		_, err = at30(c.insulation).AmbientFactorInterpolated(c.table, number(c.ambient))
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
		row, err := at30("90").AmbientFactor("NFPA 70 310.15(B)(1)", ambient)
		require.NoError(t, err)
		line, err := at30("90").AmbientFactorInterpolated("NFPA 70 310.15(B)(1)", ambient)
		require.NoError(t, err)
		assert.True(t, line.Value.GreaterThanOrEqual(row.Value), "%s: %s below %s", ambient, line.Value, row.Value)
		assert.True(t, line.Value.LessThanOrEqual(before), "%s: %s rises", ambient, line.Value)
		assert.Equal(t, row.Source.Key, line.Source.Key)
		before = line.Value
		// (f − 0.005)² × (90 − 30) ≤ 90 − a
		least := decimal.Max(decimal.Zero, line.Value.Sub(number("0.005")))
		assert.True(t, least.Mul(least).Mul(number("60")).LessThanOrEqual(number("90").Sub(ambient)), "%s: %s", ambient, line.Value)
	}
	exact, err := at30("90").AmbientFactorInterpolated("NFPA 70 310.15(B)(1)", number("40"))
	require.NoError(t, err)
	assert.Equal(t, "0.91", exact.Value.String())
	assert.Empty(t, exact.Note, "a row of the table is no interpolation")
	cool, err := at30("90").AmbientFactorInterpolated("NFPA 70 310.15(B)(1)", number("-40"))
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
		{"NFPA 70 310.15(B)(3)(a)", 1, "1", "the table begins at 4 conductors"}, // two conductors
		{"NFPA 70 310.15(B)(3)(a)", 2, "0.8", ""},                               // four conductors
		{"NFPA 70 310.15(B)(3)(a)", 5, "0.5", ""},                               // ten
		{"NFPA 70 310.15(B)(3)(a)", 1000, "0.35", ""},                           // "41 and above"
	} {
		f, err := tables.GroupingFactor(c.table, pairs(c.circuits))
		require.NoError(t, err)
		assert.True(t, f.Value.Equal(number(c.want)), "%v: %s", c, f.Value)
		assert.Equal(t, c.note, f.Note, c)
	}
	_, err := tables.GroupingFactor("BS 7671 4C1", pairs(21))
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = tables.GroupingFactor("none", pairs(1))
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
			f, err := tables.GroupingFactor(table, pairs(n))
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

// at30 is an ampacity of an insulation that holds in 30 °C.
func at30(insulation string) tables.AmpacityBase {
	return tables.AmpacityBase{InsulationC: number(insulation), AmbientC: number("30")}
}

// pairs is a bundle of circuits of two conductors.
func pairs(circuits int) tables.Bundle {
	return tables.Bundle{Circuits: circuits, Conductors: 2 * circuits}
}

// TestGroupingCountsWhatTheTableCounts: four feeds whose returns go by the chassis
// are four circuits and four conductors. BS 7671 4C1 counts circuits; NFPA 70
// 310.15(B)(3)(a) counts conductors: 4 to 6, 0.80.
func TestGroupingCountsWhatTheTableCounts(t *testing.T) {
	chassis := tables.Bundle{Circuits: 4, Conductors: 4}
	for table, want := range map[string]string{"BS 7671 4C1": "0.65", "NFPA 70 310.15(B)(3)(a)": "0.8"} {
		f, err := tables.GroupingFactor(table, chassis)
		require.NoError(t, err)
		assert.Equal(t, want, f.Value.String(), table)
	}
	for _, table := range tables.GroupingTables() {
		counts, err := tables.GroupingCounts(table)
		require.NoError(t, err)
		assert.Contains(t, []string{"circuits", "conductors"}, counts)
		for _, nonsense := range []tables.Bundle{{}, {Circuits: 2}, {Conductors: 2}, {Circuits: 3, Conductors: 2}, {Circuits: -1, Conductors: 5}, {Circuits: 1 << 40, Conductors: 1 << 41}} {
			_, err := tables.GroupingFactor(table, nonsense)
			assert.NotEmpty(t, working.Inputs(err), "%s: %+v", table, nonsense)
		}
	}
	_, err := tables.GroupingCounts("none")
	assert.NotEmpty(t, working.Inputs(err))
}

// TestFactorsOfAnotherBase: a factor multiplies an ampacity of the ambient that its
// table names, and no other. IEC 60092 prints factors on ampacities in 45 °C: there
// it takes nothing off. BS 7671 4D1A prints 87 A for 16 mm² clipped direct in 30 °C;
// in 45 °C its own factor, 0.79, leaves 69 A, and so does the other carried over.
func TestFactorsOfAnotherBase(t *testing.T) {
	const ship = "IEC 60092 ship cable"
	_, err := at30("70").AmbientFactor(ship, number("45"))
	require.Len(t, working.Inputs(err), 1)
	assert.Equal(t, "table_ambient_c", working.Inputs(err)[0].Field)
	_, err = at30("70").AmbientFactorInterpolated(ship, number("45"))
	require.Len(t, working.Inputs(err), 1)
	carried, err := at30("70").AmbientFactorConverted(ship, number("45"))
	require.NoError(t, err)
	assert.Equal(t, "69", number("87").Mul(carried.Value).Round(0).String())
	assert.Contains(t, carried.Note, "square-root law")

	own := tables.AmpacityBase{InsulationC: number("70"), AmbientC: number("45")}
	row, err := own.AmbientFactor(ship, number("45"))
	require.NoError(t, err)
	assert.Equal(t, "1", row.Value.String())
	same, err := own.AmbientFactorConverted(ship, number("45"))
	require.NoError(t, err)
	assert.Equal(t, row, same, "nothing to carry")
}

// TestEveryAmbientTableKnowsItsBase: on its own base each table gives 1, which is
// what the base means; on any other base it is refused, and carried there it gives
// 1 at the ampacity's own ambient, to the digits that the table is printed in.
func TestEveryAmbientTableKnowsItsBase(t *testing.T) {
	for _, table := range tables.AmbientTables() {
		own := 0
		for _, base := range []string{"30", "40", "45"} {
			b := tables.AmpacityBase{InsulationC: number("90"), AmbientC: number(base)}
			if table == "VDE 0298-4 table 17" {
				b.InsulationC = number("70")
			}
			f, err := b.AmbientFactor(table, number(base))
			carried, errCarried := b.AmbientFactorConverted(table, number(base))
			if err == nil && f.Note == "the next hotter row for 30 °C" {
				own++ // BS 7671 4F2A begins at 35 °C
			} else if err == nil {
				own++
				assert.Equal(t, "1", f.Value.String(), "%s on %s °C", table, base)
			} else {
				assert.NotEmpty(t, working.Inputs(err), "%s on %s °C", table, base)
			}
			require.NoError(t, errCarried)
			assert.True(t, carried.Value.Sub(number("1")).Abs().LessThanOrEqual(number("0.11")), "%s on %s °C: %s", table, base, carried.Value)
		}
		assert.Equal(t, 1, own, "%s has one base", table)
	}
	_, err := tables.AmpacityBase{}.AmbientFactor("BS 7671 16th ambient", number("30"))
	assert.Error(t, err, "a forgotten base")
	_, err = tables.AmpacityBase{InsulationC: number("90")}.AmbientFactor("BS 7671 16th ambient", number("30"))
	assert.NotEmpty(t, working.Inputs(err), "a forgotten ambient of the base")
	_, err = tables.AmpacityBase{InsulationC: number("90"), AmbientC: number("90")}.AmbientFactorConverted("BS 7671 16th ambient", number("30"))
	assert.ErrorIs(t, err, tables.ErrOutside)
}
