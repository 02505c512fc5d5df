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

// TestDrainedFreezes holds to TM 10-6140-200-14, table 1-1, which freezes at -95
// °F full, -62 °F at 75 %, -31 °F at 50 % and 1 °F at 25 %: never a colder answer.
func TestDrainedFreezes(t *testing.T) {
	for soc, book := range map[string]string{"100": "-95", "75": "-62", "50": "-31", "25": "1"} {
		c, err := battery.CheckFreezing(d(soc), n("0"))
		require.NoError(t, err)
		workingtest.Guard(t, c.Working)
		at, ok := c.Working.Value("T_fF")
		require.True(t, ok)
		assert.True(t, at.GreaterThanOrEqual(d(book)), "%s %%: %s °F", soc, at)
	}
}

// TestThirtyPercentDeepStandsTheFrost: acid of 1.218, 70 % charged by the five-point
// table, freezes at -33 °C (the Army's tables have -16 °F at 1.200 and -31 °F at 1.220).
// Two steps down said -15 °C, and one that is half charged is safe at no less.
func TestThirtyPercentDeepStandsTheFrost(t *testing.T) {
	for coldest, want := range map[string]working.Verdict{"-18": working.Passes, "-26": working.Passes, "-34": working.Fails} {
		c, err := battery.CheckFreezing(d("70"), n(coldest))
		require.NoError(t, err)
		assert.Equal(t, want, c.Verdict(), coldest)
	}
}

// TestEmptierFreezesSooner: no state of charge freezes sooner than an emptier one.
func TestEmptierFreezesSooner(t *testing.T) {
	last := d("32")
	for soc := range int64(101) {
		c, err := battery.CheckFreezing(decimal.NewFromInt(soc), n("0"))
		require.NoError(t, err)
		at, _ := c.Working.Value("T_fF")
		assert.True(t, at.LessThanOrEqual(last), "%d %%", soc)
		last = at
	}
}

func TestFreezingRefuses(t *testing.T) {
	_, err := battery.CheckFreezing(d("-1"), n("90"))
	assert.Len(t, working.Inputs(err), 2)
}
