package rules_test

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEachSourceAlone works the clinic by hand: 148.88 Ah of the 320 Ah that are
// left are 46.53 %, so from 53.47 to 98 % there are 142.5 Ah; with 99 % kept 25 A
// put them in in 5.76 h and 30 A in 4.80 h, held down by nothing else.
func TestEachSourceAlone(t *testing.T) {
	c := judge(t, read(t, "clinic.yaml")).Charging
	require.Len(t, c.Sources, 2, "the sun is no source that waits for nothing")
	for i, want := range []string{"6.02", "5.01"} {
		assert.Equal(t, want, c.Sources[i].TimeH.Decimal.Round(2).String(), c.Sources[i].Source)
		workingtest.Guard(t, c.Sources[i].Working)
	}
	assert.False(t, c.Whole)
}

func states(all []facts.Refill) []string {
	var names []string
	for _, r := range all {
		names = append(names, r.State)
	}
	return names
}

// TestAlternatorRefills: an alternator that cables join to the bank is a source,
// also in a state in which no charger runs. With all its output gone to the
// vehicle it never refills.
func TestAlternatorRefills(t *testing.T) {
	j := straight(t)
	j.Alternators[0].Variable, j.Alternators[0].LeastV = false, decimal.NullDecimal{}
	r := judge(t, j)
	assert.Equal(t, []string{"driving", "idling at the roadside", "at the practice"}, states(r.Bank.Refills))
	assert.Equal(t, "alternator", r.Charging.Sources[len(r.Charging.Sources)-1].Source)
	assert.True(t, r.Charging.Sources[len(r.Charging.Sources)-1].TimeH.Valid)
	j.Alternators[0].VehicleA = d("165") // more than 80 % of 200 A
	r = judge(t, j)
	assert.False(t, r.Bank.Refills[0].TimeH.Valid)
	assert.False(t, r.Charging.Sources[len(r.Charging.Sources)-1].TimeH.Valid)
}

// TestSunByHand: 0.54 and 4.84 kWh/m² a day fall on Leeds in December and June
// (NASA POWER). Two modules of 120 W at 45 °C and −0.4 %/°C, 18 % lost, 95 % kept
// by the controller, at 14.2 V: 12.1 Ah for each kWh/m².
func TestSunByHand(t *testing.T) {
	sun := judge(t, read(t, "clinic.yaml")).Charging.Sun
	require.Len(t, sun, 2)
	for i, c := range []struct{ month, hours string }{{"December", "0.54"}, {"June", "4.84"}} {
		assert.Equal(t, c.month, sun[i].Month)
		// 240 × 0.92 × 0.82 × 0.95 ÷ 14.2 = 12.11
		assert.Equal(t, d(c.hours).Mul(d("12.113")).Round(1).String(), sun[i].ChargeAh.Round(1).String(), c.month)
		workingtest.Guard(t, sun[i].Working)
	}
}

// TestRulesOfThumb: 103.8 Ah from 40 A with nothing else on take 1.15 times 2.6 h
// by one published rule and 1.4 times by another.
func TestRulesOfThumb(t *testing.T) {
	c := judge(t, read(t, "library-truck.yaml")).Charging
	assert.Equal(t, "at the depot on the mains", c.State)
	require.Len(t, c.Rules, 3)
	assert.True(t, slices.IsSortedFunc(c.Rules, func(a, b facts.RuleOfThumb) int { return a.TimeH.Cmp(b.TimeH) }))
	for i, factor := range map[int]string{0: "1.15", 1: "1.25", 2: "1.4"} {
		assert.Equal(t, d("2.596").Mul(d(factor)).Round(1).String(), c.Rules[i].TimeH.Round(1).String(), c.Rules[i].Rule)
		workingtest.Guard(t, c.Rules[i].Working)
	}
}

// TestMoreThanTheBankHolds: 148.9 Ah a day do not go into the 96 Ah that are left
// of two batteries of 60 Ah, so the rules of thumb are asked for those: 1.02 × 96
// ÷ (25 − 4.443) A: less the 22 W of the fridge at its duty, the fan's 36 W for 8 of
// the 9.5 hours that list it, and the 24 Wh of half an hour of lights that no state has,
// over the day. The cold holds every charger down alike, and the first state is as
// quick as any.
func TestMoreThanTheBankHolds(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Batteries[0].CapacityAh, j.Batteries[1].CapacityAh, j.BankC = d("60"), d("60"), null("0")
	c := judge(t, j).Charging
	assert.True(t, c.Whole)
	assert.Equal(t, "driving", c.State)
	assert.Equal(t, "4.763", c.Rules[0].TimeH.Round(3).String())
}

// TestShortUseTakesLittleFromACharge: a pump of 70 W that runs for half an hour a day
// holds no charge down as if it ran all the while, in whatever state it is listed; one
// that does run all the while does.
func TestShortUseTakesLittleFromACharge(t *testing.T) {
	demand := func(hours string, listed bool) decimal.Decimal {
		j := read(t, "clinic.yaml")
		if listed {
			j.States[3].Loads = append(slices.Clone(j.States[3].Loads), "water pump")
		}
		pump := loadOf(&j, "water pump")
		pump.HoursADay, pump.Percent = d(hours), d("100")
		return found(t, judge(t, j), "C06", "the house bank").Demand
	}
	short := demand("0.5", true)
	assert.True(t, short.LessThan(demand("0.5", false).Mul(d("1.03"))), short)
	assert.True(t, demand("16", true).GreaterThan(demand("0.5", true).Mul(d("1.3"))))
}

// TestMonths: the months are those of rule C08, the worst first.
func TestMonths(t *testing.T) {
	r := judge(t, read(t, "clinic.yaml"))
	require.Len(t, r.Months, 2)
	for i, month := range []string{"December", "June"} {
		f := found(t, r, "C08", "the house bank, "+month)
		assert.Equal(t, month, r.Months[i].Month)
		assert.Equal(t, value(t, f, "s_min"), r.Months[i].LowestPercent.String())
		assert.Equal(t, value(t, f, "s_e"), r.Months[i].EndPercent.String())
	}
	one := judge(t, read(t, "no-fuse-fits.yaml")).Months
	require.Len(t, one, 1, "without sun one month is as another")
	assert.Empty(t, one[0].Month)
}
