package tables_test

import (
	"testing"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestInterpolatedFreezingPoint compares the line with the rows of FAA AC 43.13-1B
// between those of the first table: it lies within 4 °F, on the cold side.
func TestInterpolatedFreezingPoint(t *testing.T) {
	for density, faa := range map[string]string{"1.100": "19", "1.125": "13", "1.150": "5", "1.175": "-4", "1.200": "-16", "1.225": "-35", "1.250": "-62"} {
		f, err := tables.FreezingPointInterpolated(number(density))
		require.NoError(t, err)
		tooCold := number(faa).Sub(f.Value)
		assert.True(t, !tooCold.IsNegative() && tooCold.LessThanOrEqual(number("4")) || density == "1.175" && tooCold.Equal(number("1.5")), "%s: %s", density, f.Value)
		assert.Equal(t, "°F", f.Unit)
	}
	for thousandths := int64(1000); thousandths <= 1280; thousandths++ {
		density := decimal.New(thousandths, -3)
		line, err := tables.FreezingPointInterpolated(density)
		require.NoError(t, err)
		row, err := tables.FreezingPoint(density)
		require.NoError(t, err)
		assert.True(t, line.Value.LessThanOrEqual(row.Value), "%s: the row of the lower density freezes sooner", density)
	}
	for _, density := range []string{"0.999", "1.281", "0"} {
		_, err := tables.FreezingPointInterpolated(number(density))
		assert.ErrorIs(t, err, tables.ErrOutside, density)
	}
}

// TestInterpolatedDensity holds to the five-point table that is widely reprinted, at its
// rows and half way between; it never falls below the row of the next lower state.
func TestInterpolatedDensity(t *testing.T) {
	for soc, want := range map[string]string{"100": "1.265", "75": "1.225", "87.5": "1.245", "70": "1.218", "60": "1.204", "12.5": "1.1375", "0": "1.12"} {
		f, err := tables.LeastDensityInterpolated(number(soc))
		require.NoError(t, err)
		assert.Equal(t, want, f.Value.String(), soc)
	}
	for soc := range int64(101) {
		line, err := tables.LeastDensityInterpolated(decimal.NewFromInt(soc))
		require.NoError(t, err)
		row, err := tables.LeastDensity(decimal.NewFromInt(soc))
		require.NoError(t, err)
		assert.True(t, line.Value.GreaterThanOrEqual(row.Value), "%d %%", soc)
	}
	_, err := tables.LeastDensityInterpolated(number("101"))
	assert.Error(t, err)
}

// TestInterpolatedCharge: the line lies inside what the rows on either side allow,
// meets the printed rows and rises with the voltage.
func TestInterpolatedCharge(t *testing.T) {
	for _, c := range []struct{ table, chemistry, from, to string }{
		{"full 1.265", "lead-acid flooded", "1.983", "2.108"},
		{"VRLA typical", "lead-acid VRLA", "1.967", "2.133"},
		{"Sunil 2025", "LiFePO4", "2.02", "3.58"},
	} {
		before := number("-1")
		for v := number(c.from); v.LessThanOrEqual(number(c.to)); v = v.Add(number("0.001")) {
			f, err := tables.ChargeByVoltageInterpolated(c.table, tables.Chemistry(c.chemistry), v)
			require.NoError(t, err)
			assert.True(t, f.Value.GreaterThanOrEqual(before), "%s: %s", c.table, v)
			assert.Equal(t, "%", f.Unit)
			before = f.Value
		}
	}
	bands, err := tables.ChargeByVoltage("lead-acid flooded", number("2.06"), number("2.06"))
	require.NoError(t, err)
	line, err := tables.ChargeByVoltageInterpolated("full 1.265", "lead-acid flooded", number("2.06"))
	require.NoError(t, err)
	for _, b := range bands {
		if b.Table == "full 1.265" {
			assert.True(t, line.Value.GreaterThan(b.Least.Value) && line.Value.LessThan(b.Greatest.Value))
		}
	}
	row, err := tables.ChargeByVoltageInterpolated("full 1.265", "lead-acid flooded", number("2.04")) // 12.24 V
	require.NoError(t, err)
	assert.Equal(t, "50", row.Value.String())
	assert.Empty(t, row.Note)

	for _, v := range []string{"1.98", "2.2", "0"} {
		_, err := tables.ChargeByVoltageInterpolated("full 1.265", "lead-acid flooded", number(v))
		assert.ErrorIs(t, err, tables.ErrOutside, v)
	}
	for _, c := range [][2]string{{"full 1.265", "LiFePO4"}, {"TM 5-1185", "lead-acid flooded"}, {"", ""}} {
		_, err := tables.ChargeByVoltageInterpolated(c[0], tables.Chemistry(c[1]), number("2"))
		assert.ErrorIs(t, err, tables.ErrNotListed, c)
		assert.Regexp(t, "(there are|want one of) ", err)
	}
}
