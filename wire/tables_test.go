package wire_test

import (
	"encoding/csv"
	"os"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// published reads a data file of package tables as columns by name: here its
// figures are the book that checks our formulas.
func published(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../tables/data/" + name + ".csv")
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// lastPlace is half a unit of a figure's last printed digit.
func lastPlace(printed string) decimal.Decimal { return decimal.New(5, d(printed).Exponent()-1) }

// fourDigits is half a unit of the fourth digit of a figure, or a unit of its
// last one if that is more.
func fourDigits(printed string) decimal.Decimal {
	v := d(printed)
	return decimal.Max(decimal.New(5, int32(v.NumDigits()-4)+v.Exponent()-1), decimal.New(1, v.Exponent()))
}

// agrees asserts a figure to within a tolerance.
func agrees(t *testing.T, printed string, got, within decimal.Decimal, row ...any) {
	t.Helper()
	assert.Truef(t, got.Sub(d(printed)).Abs().LessThanOrEqual(within), "%v: we have %s, the table %s", row, got, printed)
}

// TestVoltageDropTable holds BS 7671 table 4E1B (two cables, conductors at 90
// °C) to the hot resistance of IEC 60228 class 2, out and back. A third digit
// is always 0 or 5 in that table, so there it is good to half of five.
func TestVoltageDropTable(t *testing.T) {
	for _, row := range published(t, "voltage-drop-4e1b") {
		size, err := tables.ParseSize(row["size"])
		require.NoError(t, err)
		r, err := wire.Conductor{Size: size, Class: tables.Stranded, PlainCopper: true}.Resistance(d("90"))
		require.NoError(t, err)
		printed := row["mv_per_a_per_m"]
		within := lastPlace(printed)
		if d(printed).NumDigits() == 3 {
			within = within.Mul(d("5"))
		}
		agrees(t, printed, r.MilliohmPerM.Mul(d("2")), within, size)
	}
}

// TestGaugeTable holds the formula of ASTM B258 to the columns after the Bureau
// of Standards. The Bureau prints four digits; a fifth of the reproduction is
// not its own, and it cuts some figures (AWG 12: 6529 for 6529.9). The resistances follow from mass and not from area, which may
// move the last digit by one. The two figures of Handbook 100 differ from
// Circular 31 and are left out.
func TestGaugeTable(t *testing.T) {
	seen := 0
	for _, row := range published(t, "awg") {
		size, err := tables.ParseSize(row["size"])
		require.NoError(t, err)
		g, err := wire.AWG(size)
		require.NoError(t, err)
		seen++
		v := row["value"]
		switch row["quantity"] + " " + row["unit"] {
		case "area cmil":
			agrees(t, v, g.AreaCmil, fourDigits(v), size, "cmil")
		case "diameter mil":
			agrees(t, v, g.DiameterMM.Div(d("0.0254")), fourDigits(v), size, "mil")
		case "area mm2":
			agrees(t, v, g.AreaMM2, lastPlace(v), size, "mm2")
		case "diameter mm":
			agrees(t, v, g.DiameterMM, lastPlace(v), size, "mm")
		default:
			r, err := wire.SolidConductor{Metal: "copper", AreaMM2: g.AreaMM2, ConductorC: some("20")}.Resistance()
			require.NoError(t, err)
			if row["source"] != "NBS Handbook 100" {
				agrees(t, v, r.MilliohmPerM.Mul(d("0.3048")), lastPlace(v).Mul(d("2")), size, "resistance")
			}
		}
	}
	assert.Equal(t, 177, seen)
}

// TestResistanceAgainstArea: what IEC 60228 allows is never less than what
// copper of that area has, at any size of either class, by less than 2 %.
// (Nominal areas are names; the resistance is what the standard holds to.)
func TestResistanceAgainstArea(t *testing.T) {
	for _, size := range tables.Sizes(tables.Metric) {
		area, err := size.Area()
		require.NoError(t, err)
		solid, err := wire.SolidConductor{Metal: "copper", AreaMM2: area.Value, ConductorC: some("20")}.Resistance()
		require.NoError(t, err)
		for _, class := range []tables.Class{tables.Stranded, tables.Flexible} {
			r, err := wire.Conductor{Size: size, Class: class, PlainCopper: true}.Resistance(d("20"))
			require.NoError(t, err)
			assert.Truef(t, r.MilliohmPerM.GreaterThan(solid.MilliohmPerM.Mul(d("0.98"))), "%s class %d", size, class)
		}
	}
}

// TestTemperatureFactors holds the law with a coefficient of 0.004 to the
// factors of IEC 60228: resistance at 20 °C ÷ resistance at the temperature.
func TestTemperatureFactors(t *testing.T) {
	for _, row := range published(t, "temperature-factors-60228") {
		r, err := wire.KnownResistance{Metal: "copper", MilliohmPerM: d("100000"), KnownC: some("20"), ConductorC: some(row["conductor_c"]), PerK: some("0.004")}.Resistance()
		require.NoError(t, err)
		agrees(t, row["factor"], d("100000").Div(r.MilliohmPerM), lastPlace(row["factor"]), row["conductor_c"])
	}
}
