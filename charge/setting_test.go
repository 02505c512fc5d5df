package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func checksOf(t *testing.T, v charge.VoltageWindow, s charge.Setting) []working.Check {
	t.Helper()
	checks, err := v.Checks(s)
	require.NoError(t, err)
	for _, c := range checks {
		workingtest.Guard(t, c.Working)
	}
	return checks
}

// TestVoltageWindows holds the windows of a 12 V battery against what the
// sources print for one (charge-voltages.csv): flooded 15.0 V, where equalising
// begins, and a float of 13.5 V, AGM 14.7 and 13.8 V, gel 14.4 and 13.8 V, lithium 14.6 and 13.6 V. Two
// blocks in series have twice that.
func TestVoltageWindows(t *testing.T) {
	for _, c := range []struct {
		chemistry   tables.Chemistry
		cells       int
		most, float string
	}{
		{"lead-acid flooded", 6, "15", "13.5"}, {"lead-acid AGM", 6, "14.7", "13.8"},
		{"lead-acid gel", 6, "14.4", "13.8"}, {"LiFePO4", 4, "14.6", "13.6"},
	} {
		for blocks := range 2 {
			n := decimal.NewFromInt(int64(blocks + 1))
			checks := checksOf(t, charge.VoltageWindow{ColdestC: some("0"), HottestC: some("0"), Chemistry: c.chemistry, Cells: c.cells * (blocks + 1)}, charge.Setting{HeldV: d("14")})
			// the tables keep three places a cell
			assert.InDelta(t, d(c.most).Mul(n).InexactFloat64(), checks[0].Limit.InexactFloat64(), 0.021*float64(blocks+1), c.chemistry)
			assert.Equal(t, d(c.float).Mul(n).String(), checks[1].Demand.String(), c.chemistry)
		}
	}
}

// TestVoltageVerdicts: the highest voltage may be reached, the float voltage must
// be passed; what the data sheet states comes before the tables.
func TestVoltageVerdicts(t *testing.T) {
	for _, c := range []struct {
		held, least, most string
		high, low         working.Verdict
	}{
		{"14.6", "", "", working.Passes, working.Passes},
		{"14.601", "", "", working.Fails, working.Passes},
		{"13.6", "", "", working.Passes, working.Fails},
		{"13.601", "", "", working.Passes, working.Passes},
		{"14.601", "", "14.8", working.Passes, working.Passes},
		{"14.2", "14.2", "14.2", working.Passes, working.Passes},
		{"14.3", "14.4", "14.2", working.Fails, working.Fails},
	} {
		v := charge.VoltageWindow{ColdestC: some("0"), HottestC: some("0"), Chemistry: "LiFePO4", Cells: 4}
		if c.least != "" {
			v.LeastV = some(c.least)
		}
		if c.most != "" {
			v.GreatestV = some(c.most)
		}
		checks := checksOf(t, v, charge.Setting{HeldV: d(c.held)})
		assert.Equal(t, []working.Verdict{c.high, c.low}, []working.Verdict{checks[0].Verdict(), checks[1].Verdict()}, c.held)
	}
}

// TestAlternatorsLowestVoltage: a vehicle that varies its voltage is judged at
// both ends.
func TestAlternatorsLowestVoltage(t *testing.T) {
	checks := checksOf(t, charge.VoltageWindow{ColdestC: some("0"), HottestC: some("0"), Chemistry: "lead-acid AGM", Cells: 6}, charge.Setting{HeldV: d("14.4"), LeastV: some("12.5")})
	assert.Equal(t, working.Passes, checks[0].Verdict())
	assert.Equal(t, working.Fails, checks[1].Verdict())
}

// TestTemperatureOfTheSetting: 30 mV/°C over the 25 °C down to 0 °C are 0.75 V
// more, over the 20 °C up to 45 °C 0.6 V less; on lead-acid, which asks for it,
// 25 °C decides.
func TestTemperatureOfTheSetting(t *testing.T) {
	v := charge.VoltageWindow{ColdestC: some("0"), Chemistry: "LiFePO4", Cells: 4, HottestC: some("45"), CutOutV: some("15")}
	s := charge.Setting{HeldV: d("14.2"), MilliVPerC: some("-30")}
	checks := checksOf(t, v, s)
	assert.Equal(t, "14.95", checks[0].Demand.String())
	assert.Equal(t, "13.6", checks[1].Limit.String())
	closed, err := v.CheckClosed(s)
	require.NoError(t, err)
	workingtest.Guard(t, closed.Working)
	assert.Equal(t, "14.95", closed.Demand.String())
	assert.Equal(t, working.Passes, closed.Verdict())

	s.ToleranceV = some("0.05") // it opens at 15 V, not above
	closed, err = v.CheckClosed(s)
	require.NoError(t, err)
	workingtest.Guard(t, closed.Working)
	assert.Equal(t, working.Fails, closed.Verdict())

	v.Chemistry, v.Cells = "lead-acid gel", 6
	checks = checksOf(t, v, s)
	assert.Equal(t, "14.25", checks[0].Demand.String(), "with the tolerance")
	assert.Equal(t, "14.2", checks[1].Limit.String())
}

// TestToleranceOfTheSetting: a charger of 14.6 V that may stray by 0.3 V reaches
// 14.9 V on a battery that bears 14.6 V, and equalises at 16 V where 15.7 V are
// set; its lowest voltage stays 14.6 V.
func TestToleranceOfTheSetting(t *testing.T) {
	v := charge.VoltageWindow{ColdestC: some("0"), HottestC: some("0"), Chemistry: "LiFePO4", Cells: 4, GreatestV: some("14.6"), LeastV: some("14.6")}
	s := charge.Setting{HeldV: d("14.6"), EqualiseV: some("15.7")}
	assert.Equal(t, working.Passes, checksOf(t, v, s)[0].Verdict())
	s.ToleranceV = some("0.3")
	checks := checksOf(t, v, s)
	assert.Equal(t, "14.9", checks[0].Demand.String())
	assert.Equal(t, working.Fails, checks[0].Verdict())
	assert.Equal(t, "14.6", checks[1].Limit.String())
	assert.Equal(t, working.Passes, checks[1].Verdict())
	assert.Equal(t, "16", checks[2].Demand.String())
}

// TestEqualising: flooded batteries alone have a voltage for it, 15.0 to 16.2 V
// on six cells.
func TestEqualising(t *testing.T) {
	for _, c := range []struct {
		chemistry tables.Chemistry
		cells     int
		want      working.Verdict
	}{
		{"lead-acid flooded", 6, working.Passes}, {"lead-acid AGM", 6, working.Fails},
		{"lead-acid gel", 6, working.Fails}, {"LiFePO4", 4, working.Fails},
	} {
		checks := checksOf(t, charge.VoltageWindow{ColdestC: some("0"), HottestC: some("0"), Chemistry: c.chemistry, Cells: c.cells}, charge.Setting{HeldV: d("14.4"), EqualiseV: some("16.2")})
		require.Len(t, checks, 3)
		assert.Equal(t, c.want, checks[2].Verdict(), c.chemistry)
	}
}

// TestUnknownWindow: where the tables have no voltage the data sheet must say it;
// an unknown opening voltage is no doubt about the charger.
func TestUnknownWindow(t *testing.T) {
	v := charge.VoltageWindow{ColdestC: some("0"), HottestC: some("0"), Chemistry: "NMC", Cells: 4}
	_, err := v.Checks(charge.Setting{HeldV: d("16.4")})
	assert.ErrorContains(t, err, "charge_greatest_v")
	v.GreatestV = some("16.8")
	_, err = v.Checks(charge.Setting{HeldV: d("16.4")})
	assert.ErrorContains(t, err, "charge_least_v")
	v.LeastV = some("16")
	checksOf(t, v, charge.Setting{HeldV: d("16.4"), MilliVPerC: some("-12")})
	closed, err := v.CheckClosed(charge.Setting{HeldV: d("16.4")})
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, closed.Verdict())
	_, err = v.Checks(charge.Setting{MilliVPerC: some("1")})
	assert.ErrorContains(t, err, "held_v")
	assert.ErrorContains(t, err, "held_mv_per_c")
}

// TestOpeningByCurrent: a unit that opens at 60 A is open at 60 A.
func TestOpeningByCurrent(t *testing.T) {
	checks, err := charge.CombinedSources{
		Supplies: []charge.Supply{{Name: "charger", CurrentA: d("60")}}, LimitsA: []charge.NamedLimit{{Name: "battery", CurrentA: d("60")}},
	}.CheckClosed()
	require.NoError(t, err)
	require.Len(t, checks, 1)
	workingtest.Guard(t, checks[0].Working)
	assert.Equal(t, working.Fails, checks[0].Verdict())
	_, err = charge.CombinedSources{}.CheckClosed()
	assert.ErrorContains(t, err, "supplies")
}
