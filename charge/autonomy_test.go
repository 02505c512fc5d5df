package charge_test

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// evenBank keeps a share of its charge, stands at 13.2 V throughout and takes
// whatever it is given: what it does can be reckoned by hand.
func evenBank(kept string) charge.Balance {
	b := lithium()
	b.EMF = []charge.EMFPoint{{SoCPercent: d("0"), EMFV: d("13.2")}, {SoCPercent: d("100"), EMFV: d("13.2")}}
	b.Efficiency = []charge.EfficiencyStep{{FromPercent: d("0"), Efficiency: d(kept)}}
	return charge.Balance{
		Battery: b, VoltageV: d("14.4"), StartPercent: d("80"), Days: 7, FirstMonth: 3,
		Loads:   []charge.DutyPeriod{{Name: "fridge", CurrentA: d("2"), FromH: d("0"), ToH: d("24")}},
		Sources: []charge.DutyPeriod{{Name: "drive", CurrentA: d("40"), FromH: d("8"), ToH: d("9")}},
	}
}

// TestAutonomyByHand: 80 to 20 % of 200 Ah are 120 Ah, at 2 A 60 h; down to 12.25
// % 135.5 Ah, 67.75 h.
func TestAutonomyByHand(t *testing.T) {
	for _, c := range []struct {
		floor, hours, days string
		longer             bool
	}{
		{"20", "60", "2.5", false}, {"12.25", "67.75", "2.82", false}, {"80", "0", "0", false}, {"90", "0", "0", false}, {"0", "80", "3.33", false},
	} {
		a, err := evenBank("1").Autonomy(some(c.floor))
		require.NoError(t, err)
		workingtest.Guard(t, a.Working)
		assert.Equal(t, c.hours, a.TimeH.String(), c.floor)
		assert.Equal(t, c.days, a.Days.String(), c.floor)
		assert.Equal(t, c.longer, a.Longer)
	}
	b := evenBank("1")
	b.Loads[0].CurrentA = d("0.5") // 120 Ah last ten days, a week is looked at
	a, err := b.Autonomy(some("20"))
	require.NoError(t, err)
	assert.True(t, a.Longer)
	assert.Equal(t, "168", a.TimeH.String())
	_, err = b.Autonomy(some("101"))
	assert.ErrorContains(t, err, "floor_percent")
}

// TestHoldingByHand: 24 h at 2 A are 48 Ah, 1.2 h at 40 A. Where the bank keeps 90
// % of what goes in, (40 − 2) × t × 0.9 = 2 × (24 − t) gives t = 48 ÷ 36.2 =
// 1.326 h, 80 whole minutes.
func TestHoldingByHand(t *testing.T) {
	for _, c := range []struct{ kept, hours string }{{"1", "1.2"}, {"0.9", "1.333333333"}} {
		h, err := evenBank(c.kept).LeastDriving("drive", some("20"))
		require.NoError(t, err)
		workingtest.Guard(t, h.Working)
		assert.True(t, h.Exists)
		assert.Equal(t, c.hours, h.TimeH.String())
		assert.Equal(t, "16", h.GreatestH.String()) // from eight o'clock to midnight
		assert.False(t, h.Ledger.EndPercent.LessThan(d("80")))
	}
	two := evenBank("1") // half of it each: two hours between them, twelve at night
	two.Sources = append(two.Sources, charge.DutyPeriod{Name: "drive", CurrentA: d("40"), FromH: d("10"), ToH: d("11")})
	h, err := two.LeastDriving("drive", some("20"))
	require.NoError(t, err)
	assert.Equal(t, "1.2", h.TimeH.String())
	assert.Equal(t, "4", h.GreatestH.String())
}

// TestNoDrivingHolds: 16 h at 2.5 A are 40 of the 48 Ah; and a floor that the
// first hours pass cannot be held whatever is driven later. With next to no load
// nothing need be driven: 24 mAh a day are a hundredth of a per cent.
func TestNoDrivingHolds(t *testing.T) {
	b := evenBank("1")
	b.Sources[0].CurrentA = d("2.5")
	h, err := b.LeastDriving("drive", some("20"))
	require.NoError(t, err)
	workingtest.Guard(t, h.Working)
	assert.False(t, h.Exists)
	assert.True(t, h.TimeH.IsZero())
	h, err = evenBank("1").LeastDriving("drive", some("79"))
	require.NoError(t, err)
	assert.False(t, h.Exists)
	b.Loads[0].CurrentA, b.StartPercent = d("0.000001"), d("80")
	h, err = b.LeastDriving("drive", some("20"))
	require.NoError(t, err)
	assert.True(t, h.Exists)
	assert.True(t, h.TimeH.IsZero())
	_, err = b.LeastDriving("train", some("20"))
	assert.ErrorContains(t, err, "drive")
}

// TestUnmetByHand: 200 Ah at 80 % last 32 h at 5 A. In two days 16 h go without:
// 80 Ah at 13.2 V are 1056 Wh. Below 30 % it stands from 20 h on.
func TestUnmetByHand(t *testing.T) {
	b := evenBank("1")
	b.Loads[0].CurrentA = d("5")
	b.Days, b.Sources, b.BelowPercent = 2, nil, decimal.NewNullDecimal(d("30"))
	l, err := b.Run()
	require.NoError(t, err)
	workingtest.Guard(t, l.Working)
	assert.Equal(t, "16", l.ShedH.String())
	assert.InDelta(t, 1056, l.UnmetWh.InexactFloat64(), 0.2)
	assert.Equal(t, "28", l.BelowH.String())
	assert.InDelta(t, 160*13.2, l.LoadWh.InexactFloat64(), 32*25*0.008+0.2) // less what the resistance of 8 mΩ keeps
}

// TestUnmetIsWhatWasAsked: served and unmet charge together are what the loads
// ask, whatever the sources; compared as energy at the one voltage of the bank.
func TestUnmetIsWhatWasAsked(t *testing.T) {
	draw := random(11)
	for range 20 {
		b := evenBank("1")
		b.Battery.InternalMilliohm = d("0.01")
		b.Loads[0].CurrentA, b.Sources[0].CurrentA = draw(5, 30), draw(0, 30)
		b.CutOutPercent, b.ResumePercent = decimal.NewNullDecimal(d("20")), decimal.NewNullDecimal(d("30"))
		l, err := b.Run()
		require.NoError(t, err)
		asked := b.Loads[0].CurrentA.Mul(d("168")).Mul(d("13.2"))
		assert.InDelta(t, asked.InexactFloat64(), l.LoadWh.Add(l.UnmetWh).InexactFloat64(), asked.InexactFloat64()*1e-4)
	}
}
