package battery_test

import (
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMustRunOutlasts: by hand, a fridge that works from 10.4 V and loses 0.25 V
// on its way starves at 10.65 V at the bank. What lets go there goes too late.
func TestMustRunOutlasts(t *testing.T) {
	fridge := battery.MustRun{Name: "fridge", LowestV: n("10.4"), DropV: n("0.25")}
	for cutOut, want := range map[string]working.Verdict{
		"11": working.Passes, "10.66": working.Passes, "10.65": working.Fails, "10.5": working.Fails, "9": working.Fails,
	} {
		for _, bank := range []battery.Bank{pair(), inParallel(leadAcid("100", "20", "60", "1"))} {
			c, err := bank.CheckOutlasts(fridge, []battery.ShedLoad{{Name: "lamps", AtV: n("12")}, {Name: "fan"}, {Name: "inverter", AtV: n(cutOut)}})
			require.NoError(t, err)
			assert.Equal(t, want, c.Verdict(), cutOut)
			workingtest.Guard(t, c.Working)
		}
	}
}

// TestWhatIsLostOnTheWay: an inverter that measures 0.2 V below the bank lets go
// 0.2 V earlier, at 10.7 V for a cut-out of 10.5 V; what is lost before both
// changes nothing.
func TestWhatIsLostOnTheWay(t *testing.T) {
	margin := func(fridgeV, inverterV string) string {
		c, err := pair().CheckOutlasts(battery.MustRun{Name: "fridge", LowestV: n("10.4"), DropV: n(fridgeV)},
			[]battery.ShedLoad{{Name: "inverter", AtV: n("10.5"), DropV: d(inverterV)}})
		require.NoError(t, err)
		return c.Margin().String()
	}
	assert.Equal(t, "-0.15", margin("0.25", "0"))
	assert.Equal(t, "0.05", margin("0.25", "0.2"))
	assert.Equal(t, "0.05", margin("0.75", "0.7"))
}

// TestNothingToShed: where no voltage switches anything, or nothing else is
// there, there is no order to judge; a lowest voltage that nobody knows is asked
// for only where it would decide something.
func TestNothingToShed(t *testing.T) {
	pump := battery.MustRun{Name: "bilge pump", DropV: n("0")}
	c, err := pair().CheckOutlasts(pump, nil)
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
	c, err = pair().CheckOutlasts(pump, []battery.ShedLoad{{Name: "radio"}, {Name: "floods"}})
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
	assert.Contains(t, c.Silent, "radio, floods")
	c, err = pair().CheckOutlasts(pump, []battery.ShedLoad{{Name: "radio", AtV: n("11")}})
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
	assert.Contains(t, c.Missing, "bilge pump")
}

// TestFlatCurveIsSaid: a LiFePO4 cell rests at 3.277 V with 30 % left and at 3.341
// V with 90 % (Sunil 2025), 64 mV that no cut-out tells apart; lead-acid gets no
// such note.
func TestFlatCurveIsSaid(t *testing.T) {
	note := func(b battery.Bank) string {
		c, err := b.CheckCutOut(n("11"))
		require.NoError(t, err)
		return c.Working[len(c.Working)-1].Note
	}
	assert.Contains(t, note(pair()), "count the ampere-hours")
	lead := leadAcid("100", "20", "60", "1")
	lead.CutOutV = n("10.5")
	assert.Empty(t, note(inParallel(lead)))
}

func TestOutlastsRefuses(t *testing.T) {
	_, err := pair().CheckOutlasts(battery.MustRun{LowestV: n("0"), DropV: n("-1")}, []battery.ShedLoad{{AtV: n("101")}, {AtV: decimal.NullDecimal{}}})
	assert.Len(t, working.Inputs(err), 3)
}

// Of two strings of two the third battery is the first of the second string: what is
// unknown of it is asked for by that number, and its volts add up under it.
func TestBatteriesAreCountedThroughTheStrings(t *testing.T) {
	own := func(name string, cutOutV decimal.NullDecimal) battery.BankBattery {
		x := pair().Batteries[0]
		x.Name, x.CutOutV = name, cutOutV
		return x
	}
	bank := battery.Bank{Series: 2, BatteryC: n("25"), Batteries: []battery.BankBattery{
		own("A", n("10")), own("B", n("10")), own("C", n("10.4")), own("D", decimal.NullDecimal{}),
	}}
	c, err := bank.CheckCutOut(n("21"))
	require.NoError(t, err)
	assert.Contains(t, c.Missing, "battery 4 (D)")
	bank.Batteries[3].CutOutV = n("10.4")
	c, err = bank.CheckCutOut(n("21"))
	require.NoError(t, err)
	assert.Equal(t, []string{"20.8", "passes"}, []string{c.Demand.String(), c.Verdict().String()}, "the string of 10.4 V each opens first")
	for _, symbol := range []string{"U_bb.3", "U_bb.4"} {
		v, ok := c.Working.Value(symbol)
		assert.True(t, ok, symbol)
		assert.Equal(t, "10.4", v.String(), symbol)
	}
}
