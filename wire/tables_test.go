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

// TestVoltageDropTable holds BS 7671 table 4E1B (two cables, conductors at 90
// °C) to the hot resistance of IEC 60228 class 2, out and back. The table's
// compilers took 230 °C for copper's temperature of zero resistance (BS 7671
// appendix 4, 6.1), and they rounded up in places.
func TestVoltageDropTable(t *testing.T) {
	for _, row := range published(t, "voltage-drop-4e1b") {
		size, err := tables.ParseSize(row["size"])
		require.NoError(t, err)
		r, err := wire.Conductor{Size: size, Class: tables.Stranded}.Resistance(d("90"))
		require.NoError(t, err)
		loop := r.MilliohmPerM.Mul(d("2")) // mV for each A and m
		within := row["mv_per_a_per_m"]
		assert.Truef(t, loop.Sub(d(within)).Abs().LessThanOrEqual(lastPlace(within).Mul(d("2"))), "%s: %s, the table has %s", size, loop, within)
	}
}

// TestGaugeTable holds the formula of ASTM B258 to the columns of the Bureau of
// Standards: areas in circular mils, diameters in mils, resistance at 20 °C.
func TestGaugeTable(t *testing.T) {
	seen := 0
	for _, row := range published(t, "awg") {
		size, err := tables.ParseSize(row["size"])
		require.NoError(t, err)
		g, err := wire.AWG(size)
		require.NoError(t, err)
		var got decimal.Decimal
		switch row["quantity"] + " " + row["unit"] {
		case "area cmil":
			got = g.AreaCmil
		case "diameter mil":
			got = g.DiameterMM.Div(d("0.0254"))
		case "area mm2":
			got = g.AreaMM2
		case "diameter mm":
			got = g.DiameterMM
		case "resistance_20c ohm per kft":
			r, err := wire.Solid{Metal: "copper", AreaMM2: g.AreaMM2, AtC: d("20")}.Resistance()
			require.NoError(t, err)
			got = r.MilliohmPerM.Mul(d("0.3048"))
		}
		seen++
		off := got.Sub(d(row["value"])).Abs()
		t.Log(size, row["quantity"], row["unit"], row["value"], got, off.Div(lastPlace(row["value"])))
	}
	assert.Greater(t, seen, 150)
}

// TestTemperatureFactors holds the law with a coefficient of 0.004 to the
// factors of IEC 60228: resistance at 20 °C ÷ resistance at the temperature.
func TestTemperatureFactors(t *testing.T) {
	for _, row := range published(t, "temperature-factors-60228") {
		r, err := wire.Warm{Metal: "copper", MilliohmPerM: d("100000"), AtC: d("20"), ToC: d(row["conductor_c"]), PerK: some("0.004")}.Resistance()
		require.NoError(t, err)
		factor := d("100000").Div(r.MilliohmPerM)
		assert.Truef(t, factor.Sub(d(row["factor"])).Abs().LessThanOrEqual(lastPlace(row["factor"])), "%s °C: %s, the table has %s", row["conductor_c"], factor, row["factor"])
	}
}
