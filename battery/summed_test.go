package battery_test

import (
	"fmt"
	"testing"

	"example.org/extralow/battery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOddFixings: by hand 10 kg at 10 g is 980.665 N; as high as the rows are
// apart, the lone fixing of three bears that as lift, each of a pair half.
func TestOddFixings(t *testing.T) {
	h := battery.HoldDown{MassKg: d("10"), Times: d("10"), HeightMM: n("100"), SpacingMM: d("100")}
	for fixings, want := range map[int]string{2: "980.67", 3: "980.67", 4: "490.34", 5: "490.34"} {
		h.Fixings = fixings
		f, err := h.Forces()
		require.NoError(t, err)
		assert.Equal(t, want, f.LiftN.String(), fixings)
	}
}

// TestSummedEfficiency: ten loads of 100 W on a curve of 90 % at 100 W and 80 %
// at 1000 W. By hand 1000 ÷ 0.8 + 5 = 1255 W, 104.59 A at 12 V.
func TestSummedEfficiency(t *testing.T) {
	inverter := battery.Inverter{Name: "i", RatingW: n("1000"), IdleW: n("5"), Curve: []battery.EfficiencyPoint{
		{LoadPercent: d("10"), EfficiencyPercent: d("90")}, {LoadPercent: d("100"), EfficiencyPercent: d("80")}}}
	a := battery.Audit{SystemV: d("12"), LowestV: d("12"), Inverters: []battery.AuditInverter{{Inverter: inverter, OnHours: n("0")}}}
	for i := range 10 {
		a.Loads = append(a.Loads, battery.AuditLoad{Name: fmt.Sprint(i), PowerW: n("100"), HoursADay: n("0"), DutyPercent: d("100"), Inverter: "i"})
	}
	sum, err := a.Sum()
	require.NoError(t, err)
	draw, err := inverter.Draw(d("1000"), d("12"))
	require.NoError(t, err)
	assert.Equal(t, "104.59", sum.Together[0].SteadyA.String())
	assert.Equal(t, draw.CurrentA.String(), sum.Together[0].SteadyA.String())
}

// TestCurveThatEndsTooSoon: loads of 100 W on a curve that begins there, together
// 1100 W where it ends at 1000 W: the end that is not reached is named.
func TestCurveThatEndsTooSoon(t *testing.T) {
	inverter := battery.Inverter{Name: "i", RatingW: n("1000"), IdleW: n("5"), Curve: []battery.EfficiencyPoint{
		{LoadPercent: d("10"), EfficiencyPercent: d("90")}, {LoadPercent: d("100"), EfficiencyPercent: d("80")}}}
	a := battery.Audit{SystemV: d("12"), LowestV: d("12"), Inverters: []battery.AuditInverter{{Inverter: inverter, OnHours: n("0")}}}
	for i := range 11 {
		a.Loads = append(a.Loads, battery.AuditLoad{Name: fmt.Sprint(i), PowerW: n("100"), HoursADay: n("1"), DutyPercent: d("100"), Inverter: "i"})
	}
	_, err := a.Sum()
	assert.ErrorContains(t, err, "one that reaches 1100 W")
	assert.NotContains(t, err.Error(), "reaches 100 W")
}
