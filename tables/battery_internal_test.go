package tables

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type correctionRow struct{ atF, add decimal.Decimal }

// The hydrometer table of TM 5-4210-230-14&P and its own rule, 0.004 for each
// 10 °F about 80 °F, agree in every row.
func TestDensityTableFollowsItsRule(t *testing.T) {
	rows := load("density-correction", func(r *record) correctionRow {
		r.source()
		return correctionRow{r.number("electrolyte_f"), r.number("correction_sg")}
	})()
	require.Len(t, rows, 17)
	slope := DensitySlope().Value
	for _, r := range rows {
		want := slope.Mul(r.atF.Sub(decimal.NewFromInt(80))).Shift(-1)
		assert.True(t, r.add.Equal(want), "%s °F: %s, the rule gives %s", r.atF, r.add, want)
	}
}

// Rested voltage and density of the five-point table: a cell's voltage is its
// density plus 0.845 (from memory), to 10 mV, but for the flat battery, which
// the table has 17 mV higher.
func TestRestedVoltageFollowsDensity(t *testing.T) {
	density := map[string]decimal.Decimal{}
	for _, r := range leadCharge() {
		if r.table == "full 1.265" && r.quantity == gravity {
			density[r.soc.Value.String()] = r.low
		}
	}
	require.Len(t, density, 5)
	for _, r := range leadCharge() {
		if r.table != "full 1.265" || r.quantity != cellVolts {
			continue
		}
		off := r.low.Div(decimal.NewFromInt(6)).Sub(density[r.soc.Value.String()]).Sub(decimal.RequireFromString("0.845")).Abs()
		most := decimal.RequireFromString("0.010")
		if r.soc.Value.IsZero() {
			most = decimal.RequireFromString("0.017")
		}
		assert.True(t, off.LessThanOrEqual(most), "%s %%: %s V", r.soc.Value, off)
	}
}
