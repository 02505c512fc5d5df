package tables_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cellsOf returns the rows of a data file as text, by the names of its columns.
func cellsOf(t *testing.T, name string) (rows []map[string]string) {
	table, err := tables.TableOf(name)
	require.NoError(t, err)
	for _, cells := range table.Cells() {
		row := map[string]string{}
		for i, column := range table.Columns {
			row[column] = cells[i]
		}
		rows = append(rows, row)
	}
	require.NotEmpty(t, rows, name)
	return rows
}

// TestEveryAmpacityIsFound: each figure of each table of ampacities, from the
// first row of the first column to the last of the last, is what its column
// answers for its size.
func TestEveryAmpacityIsFound(t *testing.T) {
	for _, table := range tables.Catalogue() {
		if !strings.HasPrefix(table.Name, "ampacity-") {
			continue
		}
		for _, row := range cellsOf(t, table.Name) {
			column := tables.AmpacityColumn{Table: row["table"], Method: row["method"], AmpacityBase: tables.AmpacityBase{InsulationC: number(row["insulation_c"])}}
			size, err := tables.ParseSize(row["size"])
			if err != nil { // larger than any conductor of IEC 60228 that the library has
				assert.ErrorContains(t, err, "240 mm2", row)
				continue
			}
			f, err := column.At(size)
			require.NoError(t, err, row)
			assert.True(t, f.Value.Equal(number(row["ampacity_a"])), "%v: %s", row, f.Value)
			listed, _, err := column.NoLarger(size)
			require.NoError(t, err, row)
			assert.Equal(t, size, listed)
		}
	}
}

// TestEveryAmbientFactorIsFound, in the column of its insulation and on its base.
func TestEveryAmbientFactorIsFound(t *testing.T) {
	for _, row := range cellsOf(t, "ambient-factors") {
		base := tables.AmpacityBase{InsulationC: number(row["insulation_c"]), AmbientC: number(row["reference_c"])}
		for _, look := range []func() (string, error){
			func() (string, error) {
				f, err := base.AmbientFactor(row["table"], number(row["ambient_c"]))
				return f.Value.String(), err
			},
			func() (string, error) {
				f, err := base.AmbientFactorInterpolated(row["table"], number(row["ambient_c"]))
				return f.Value.String(), err
			},
			func() (string, error) {
				f, err := base.AmbientFactorConverted(row["table"], number(row["ambient_c"]))
				return f.Value.String(), err
			},
		} {
			got, err := look()
			require.NoError(t, err, row)
			assert.Equal(t, number(row["factor"]).String(), got, row)
		}
	}
}

// TestEveryMonthIsFound: a place and surface of one set of data stand once among
// the places, with each month of the file in its own place.
func TestEveryMonthIsFound(t *testing.T) {
	all := tables.Insolations()
	for _, row := range cellsOf(t, "insolation") {
		same := func(i tables.Insolation) bool {
			return i.Place == row["place"] && i.Tilt == row["tilt"] && i.Data == row["data"]
		}
		at := slices.IndexFunc(all, same)
		require.GreaterOrEqual(t, at, 0, row)
		require.False(t, slices.ContainsFunc(all[at+1:], same), "%v twice", row)
		if month, err := strconv.Atoi(row["month"]); err == nil {
			assert.True(t, all[at].Months[month-1].Value.Equal(number(row["kwh_per_m2_day"])), row)
		}
	}
}

// TestEveryFamilyStandsOnce, with as many breaking capacities as it has rows.
func TestEveryFamilyStandsOnce(t *testing.T) {
	rows := map[string]int{}
	for _, row := range cellsOf(t, "device-families") {
		rows[row["family"]]++
	}
	found := map[string]int{}
	for _, f := range tables.Families() {
		assert.NotContains(t, found, f.Name)
		found[f.Name] = len(f.Breaking)
	}
	assert.Equal(t, rows, found)
}

// TestNamesHaveFigures: what is listed under a name has a figure, in the unit of
// its question. The walls are those of VDE 0660-500 and of the trade's forms, in
// W/(m² K); a figure in the units of another page is none of them.
func TestNamesHaveFigures(t *testing.T) {
	units := map[string]string{"air_density": "kg/m³", "air_specific_heat": "J/(kg K)"}
	for _, name := range must(tables.Names("air_constant")) {
		assert.Equal(t, units[name], must(tables.AirConstant(name)).Unit, name)
	}
	walls := must(tables.Names("material"))
	assert.Equal(t, []string{"painted sheet steel", "stainless steel", "aluminium", "aluminium, coated", "aluminium, double wall", "plastic"}, walls)
	for _, name := range walls {
		assert.Equal(t, "W/(m² K)", must(tables.HeatTransfer(name)).Unit, name)
	}
	for _, name := range must(tables.Names("installation_rule")) {
		assert.True(t, must(tables.InstallationRule(name)).Stated(), name)
	}
	for _, name := range must(tables.Names("sizing_figure")) {
		assert.True(t, must(tables.SizingFigure(name)).Stated(), name)
	}
	for _, name := range must(tables.Names("selectivity_rule")) {
		assert.True(t, must(tables.SelectivityRatio(name)).Value.IsPositive(), name)
	}
	for _, name := range must(tables.Names("bond")) {
		assert.True(t, must(tables.BondOf(name)).Figure.Value.IsPositive(), name)
	}
	for _, name := range must(tables.Names("solar_rule")) {
		assert.True(t, must(tables.SolarCurrentFactor(name)).Stated(), name)
	}
}

// TestNoDepthIsForgotten: a depth of discharge of nought is a forgotten one, and 100 %
// is the deepest.
func TestNoDepthIsForgotten(t *testing.T) {
	_, err := tables.CycleLives("LiFePO4", number("0"))
	assert.ErrorContains(t, err, "depth_percent")
	_, err = tables.CycleLives("LiFePO4", number("100.1"))
	assert.ErrorContains(t, err, "depth_percent")
}
