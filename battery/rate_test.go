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

// leadAcid is a battery with two ratings.
func leadAcid(ah, h, fastAh, fastH string) battery.BankBattery {
	return battery.BankBattery{
		Name: "b", Chemistry: "lead-acid flooded", NominalV: d("12"), CapacityAh: d(ah), RateH: n(h), FastAh: n(fastAh), FastH: n(fastH),
		FullV: d("12.7"), EmptyV: d("12"), DepthPercent: n("50"), AgeingPercent: n("80"),
	}
}

func inParallel(all ...battery.BankBattery) battery.Bank {
	return battery.Bank{Batteries: all, Series: 1, BatteryC: n("27")}
}

func at(t *testing.T, b battery.Bank, amps, hours string) decimal.Decimal {
	t.Helper()
	c, err := b.CapacityAt(d(amps), d(hours))
	require.NoError(t, err)
	require.Empty(t, c.Missing)
	workingtest.Guard(t, c.Working)
	return c.CapacityAh.Decimal
}

// TestMiddleRating holds the law to a battery of three ratings: 100 Ah in 20 h,
// 93 Ah in 10 h, 60 Ah in 1 h (NREL ssc, test of the kinetic model). From the
// outer two it promises no more than the middle one, nor a tenth less.
func TestMiddleRating(t *testing.T) {
	ah := at(t, inParallel(leadAcid("100", "20", "60", "1")), "9.3", "1")
	assert.True(t, ah.LessThanOrEqual(d("93")) && ah.GreaterThan(d("84")), ah)
	// where the middle one is the fast one, it gives itself back
	assert.Equal(t, "93", at(t, inParallel(leadAcid("100", "20", "93", "10")), "9.3", "1").String())
}

// TestRatedCapacityStands: slower than rated, or wanted for as long as rated, a
// battery gives what is printed on it; lithium does so at any rate.
func TestRatedCapacityStands(t *testing.T) {
	one := leadAcid("100", "20", "60", "1")
	for _, c := range [][2]string{{"5", "1"}, {"60", "20"}, {"0.01", "0"}} {
		assert.Equal(t, "100", at(t, inParallel(one), c[0], c[1]).String(), "%s A for %s h", c[0], c[1])
	}
	single := one
	single.FastAh, single.FastH = decimal.NullDecimal{}, decimal.NullDecimal{}
	assert.Equal(t, "100", at(t, inParallel(single), "5", "1").String())
	single.Chemistry = "LiFePO4"
	assert.Equal(t, "100", at(t, inParallel(single), "60", "1").String())
	single.Chemistry = "lead-acid gel"
	c, err := inParallel(single).CapacityAt(d("60"), d("1"))
	require.NoError(t, err)
	assert.Contains(t, c.Missing, "100 Ah in 20 h", "one rating tells nothing of a faster use")
	one.Chemistry = "LiFePO4"
	assert.True(t, at(t, inParallel(one), "60", "1").LessThan(d("61")), "lithium that states a second rating has it counted")
	single.RateH = decimal.NullDecimal{}
	c, err = inParallel(single).CapacityAt(d("60"), d("1"))
	require.NoError(t, err)
	assert.Contains(t, c.Missing, "in how many hours")
	assert.False(t, c.CapacityAh.Valid)
	single.Chemistry = "LiFePO4"
	assert.Equal(t, "100", at(t, inParallel(single), "60", "1").String())
}

// TestSharesOfTheMeanCurrent: n like batteries at n times the current give n
// times as much, in strings too; batteries of one make but two sizes share by
// their size, so that each gives the same part of its capacity.
func TestSharesOfTheMeanCurrent(t *testing.T) {
	one := leadAcid("100", "20", "60", "1")
	alone := at(t, inParallel(one), "20", "2")
	assert.Equal(t, alone.Mul(d("3")).String(), at(t, inParallel(one, one, one), "60", "2").String())
	strings := inParallel(one, one, one, one)
	strings.Series = 2
	assert.Equal(t, alone.Mul(d("2")).String(), at(t, strings, "40", "2").String())
	double := leadAcid("200", "20", "120", "1")
	assert.Equal(t, alone.Mul(d("3")).String(), at(t, inParallel(one, double), "60", "2").String())
}

func TestFasterNeverGivesMore(t *testing.T) {
	b := inParallel(leadAcid("100", "20", "60", "1"), leadAcid("240", "100", "170", "5"))
	last := d("340")
	for amps := 1; amps <= 48; amps += 3 {
		ah := at(t, b, num(amps).String(), "1")
		assert.True(t, ah.LessThanOrEqual(last), "%d A", amps)
		last = ah
	}
}

// TestSaysWhichRatingToAsk: of 40 A half flows in each; the fast rating ends at
// 93 ÷ 10 = 9.3 A.
func TestSaysWhichRatingToAsk(t *testing.T) {
	c, err := inParallel(leadAcid("100", "20", "93", "10"), leadAcid("100", "20", "60", "1")).CapacityAt(d("40"), d("2"))
	require.NoError(t, err)
	assert.Equal(t, "ask the maker of b for its capacity at 20 A or more (in at most 5 h): none that is stated, 100 Ah in 20 h or 93 Ah in 10 h, tells what it gives at that current", c.Missing)
	a := battery.BankAutonomy{Bank: inParallel(leadAcid("100", "20", "93", "10")), EnergyWh: d("2880"), Days: d("0.5")}
	check, err := a.Check()
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, check.Verdict())
	assert.Contains(t, check.Missing, "at 10 A or more")
	r, err := a.Reserve()
	require.NoError(t, err)
	assert.Equal(t, check.Missing, r.Missing)
}

// TestAutonomyAtTheRate: 1440 Wh a day of 12 V are 5 A; 100 Ah in 100 h and 60 Ah
// in 5 h make k_P = ln 20 ÷ ln 12 = 1.2056, and at 5 A the battery lasts 100 ×
// (1 ÷ 5)^1.2056 = 14.37 h and gives 71.83 Ah. Half of that, at 80 %, is 28.732 Ah.
func TestAutonomyAtTheRate(t *testing.T) {
	a := battery.BankAutonomy{Bank: inParallel(leadAcid("100", "100", "60", "5")), EnergyWh: d("1440"), Days: d("0.25")}
	u, err := a.Usable()
	require.NoError(t, err)
	assert.Equal(t, "28.732", u.ChargeAh.Decimal.String())
	c, err := a.Check()
	require.NoError(t, err)
	workingtest.Guard(t, c.Working)
	assert.Equal(t, "-15.216", c.Margin().String()) // 28.732 × 12 less a quarter of 1440
	gives, ok := c.Working.Value("C_I")
	assert.True(t, ok && gives.Equal(d("71.83")), gives)
	a.Days = d("5") // longer than the 100 h of the rating
	u, err = a.Usable()
	require.NoError(t, err)
	assert.Equal(t, "40", u.ChargeAh.Decimal.String())
}

func TestRatingsOfOneBattery(t *testing.T) {
	for _, x := range []battery.BankBattery{
		leadAcid("100", "20", "60", "20"),  // no fewer hours
		leadAcid("100", "20", "101", "10"), // more capacity
		leadAcid("100", "20", "40", "10"),  // at a smaller current
	} {
		_, err := inParallel(x).CapacityAt(d("1"), d("1"))
		assert.ErrorContains(t, err, "fast_ah")
	}
	half := leadAcid("100", "20", "60", "1")
	half.FastH = decimal.NullDecimal{}
	_, err := inParallel(half).Usable()
	assert.ErrorContains(t, err, "fast_h unset")
	strings := inParallel(leadAcid("100", "20", "60", "1"), leadAcid("100", "20", "61", "1"))
	strings.Series = 2
	_, err = strings.Usable()
	assert.ErrorContains(t, err, "those of its string")
	_, err = inParallel(half).CapacityAt(d("0"), d("-1"))
	assert.Len(t, working.Inputs(err), 3)
}

func FuzzCapacityAt(f *testing.F) {
	f.Add("100", "20", "60", "1", "25", "1")
	f.Add("220", "100", "180", "20", "4", "24")
	f.Fuzz(func(t *testing.T, ah, h, fastAh, fastH, amps, hours string) {
		v, ok := all(ah, h, fastAh, fastH, amps, hours)
		if !ok {
			return
		}
		x := leadAcid("1", "1", "1", "1")
		x.CapacityAh, x.RateH = v[0], decimal.NewNullDecimal(v[1])
		x.FastAh, x.FastH = decimal.NewNullDecimal(v[2]), decimal.NewNullDecimal(v[3])
		c, err := inParallel(x, leadAcid("100", "20", "60", "1")).CapacityAt(v[4], v[5])
		guard(t, c.Working, err)
		if err == nil && c.CapacityAh.Decimal.GreaterThan(v[0].Add(d("100"))) {
			t.Errorf("%s Ah of %s and 100", c.CapacityAh.Decimal, v[0])
		}
	})
}

// TestPartOfADay: a day and its worst half, 1000 + 800 Wh, are more than one and a
// half days of the mean; 1800 Wh over 36 h at 12 V are 4.17 A.
func TestPartOfADay(t *testing.T) {
	a := battery.BankAutonomy{Bank: inParallel(leadAcid("400", "100", "300", "5")), EnergyWh: d("1000"), Days: d("1.5"), PartWh: n("800"), PartWhere: "the working day"}
	c, err := a.Check()
	require.NoError(t, err)
	workingtest.Guard(t, c.Working)
	assert.Equal(t, "1800", c.Demand.String())
	mean, _ := c.Working.Value("I_mn")
	assert.Equal(t, "4.17", mean.String())
	z, err := a.Wanted()
	require.NoError(t, err)
	assert.Equal(t, "1800", z.EnergyWh.String())
	a.PartWh = n("1001")
	_, err = a.Check()
	assert.ErrorContains(t, err, "part_wh")
	a.PartWh, a.Days = n("0"), d("2")
	_, err = a.Check()
	assert.ErrorContains(t, err, "days are whole")
}
