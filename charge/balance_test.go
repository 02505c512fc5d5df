package charge_test

import (
	"math/rand/v2"
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNoLoadsAreStated: loads that were forgotten would let any bank hold; that there
// are none is a question too, of what the sources give.
func TestNoLoadsAreStated(t *testing.T) {
	b := workshopVan()
	b.NoLoads = true
	_, err := b.Run()
	assert.ErrorContains(t, err, "loads is ", "loads, and none")
	b.Loads, b.NoLoads = nil, false
	_, err = b.Run()
	assert.ErrorContains(t, err, "loads is 0, and no_loads is false: want what is drawn, or no_loads where nothing is")
	b.NoLoads = true
	l, err := b.Run()
	require.NoError(t, err)
	assert.True(t, l.LoadWh.IsZero() && l.InWh.IsPositive())
	c, err := l.Check(some("20"))
	require.NoError(t, err)
	assert.Equal(t, working.Passes, c.Verdict())
	l.LoadWh = d("1")
	_, err = l.Check(some("20"))
	assert.Error(t, err, "not what the balance said")
}

// Loads that a cut-out sheds are not served, though the bank stays above its
// floor.
func TestLedgerFailsWhereLoadsAreShed(t *testing.T) {
	for _, c := range []struct {
		ledger charge.Ledger
		unit   string
		want   working.Verdict
	}{
		{charge.Ledger{LeastPercent: d("21"), ShedH: d("656")}, "h", working.Fails},
		{charge.Ledger{LeastPercent: d("19"), ShedH: d("656")}, "%", working.Fails},
		{charge.Ledger{LeastPercent: d("21")}, "%", working.Passes},
	} {
		c.ledger.LoadWh = c.ledger.Working.Given("E_ld", d("9"))
		c.ledger.Working.Given("s_min", c.ledger.LeastPercent)
		c.ledger.Working.Given("t_shed", c.ledger.ShedH)
		got, err := c.ledger.Check(some("20"))
		require.NoError(t, err)
		assert.Equal(t, c.want, got.Verdict())
		assert.Equal(t, c.unit, got.Unit)
	}
}

// TestEmptyBankEnds: a bank that stands empty under sources which hold less than
// its EMF gets nothing from them (current flows from the higher voltage to the
// lower), and the loads go without. It once went round for ever.
func TestEmptyBankEnds(t *testing.T) {
	for _, volts := range []string{"5", "11", "12", "12.6", "12.7", "14.4"} {
		b := workshopVan()
		b.VoltageV, b.StartPercent, b.Days = d(volts), d("0"), 7
		b.Loads = append(b.Loads, charge.DutyPeriod{Name: "heater", CurrentA: d("60"), ToH: d("24")})
		l, err := b.Run()
		require.NoError(t, err, volts)
		if d(volts).LessThan(b.Battery.EMF[0].EMFV) {
			assert.True(t, l.InWh.IsZero(), "%s V give %s Wh", volts, l.InWh)
			assert.Equal(t, "168", l.ShedH.String(), volts)
			assert.True(t, l.LoadWh.IsZero(), volts)
		}
	}
}

// TestEveryBalanceEnds: whatever the battery, the sources and the loads, a day
// ends with its books kept and the state of charge between empty and full.
func TestEveryBalanceEnds(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	between := func(low, high float64) decimal.Decimal {
		return decimal.NewFromFloat(low + (high-low)*r.Float64()).Round(3)
	}
	for range 500 {
		b := workshopVan()
		b.Days = 1
		b.Battery.Chemistry = []tables.Chemistry{"lead-acid AGM", "lead-acid flooded", "LiFePO4"}[r.IntN(3)]
		b.Battery.ChargeA = decimal.NewNullDecimal(between(0, 60))
		b.Battery.InternalMilliohm = between(0.01, 100)
		b.VoltageV, b.StartPercent = between(11, 15), between(0, 100).Round(-1)
		for i := range b.Sources {
			b.Sources[i].CurrentA = between(0, 80).Round(int32(r.IntN(3)) - 1)
		}
		for i := range b.Loads {
			b.Loads[i].CurrentA = between(0, 80).Round(int32(r.IntN(3)) - 1).Add(d("0.01"))
		}
		if r.IntN(2) == 0 {
			b.CutOutPercent, b.ResumePercent = some("10"), some("10")
		}
		l, err := b.Run()
		require.NoError(t, err, "%+v", b)
		assert.False(t, l.LeastPercent.IsNegative() || l.EndPercent.GreaterThan(d("100")), "%+v", b)
		assert.False(t, l.LostWh.LessThan(d("-0.1")), "%+v", b) // to 0.1 Wh
	}
}

// TestWeekThatPutsBackWhatItTook: 24 h at 2 A are 48 Ah, which 40 A put back in
// 1.2 h. Three minutes less of driving are 2 Ah a day: 1 % of 200 Ah a day, 7 % a
// week; a thousandth of an ampere more is 0.084 % a week.
func TestWeekThatPutsBackWhatItTook(t *testing.T) {
	for _, c := range []struct {
		load, hours string
		lost        string
		want        working.Verdict
	}{
		{"2", "1.2", "0", working.Passes},
		{"2", "1.15", "7", working.Fails},
		{"2.001", "1.2", "0.084", working.Fails},
		{"2", "1.25", "-7", working.Passes},
	} {
		b := evenBank("1")
		b.Days, b.StartPercent = 14, d("60")
		b.Loads[0].CurrentA, b.Sources[0].ToH = d(c.load), d("8").Add(d(c.hours))
		l, err := b.Run()
		require.NoError(t, err)
		floor, err := l.Check(some("20"))
		require.NoError(t, err)
		assert.Equal(t, working.Passes, floor.Verdict(), "two weeks do not show it")
		week, err := l.CheckWeek()
		require.NoError(t, err)
		workingtest.Guard(t, week.Working)
		assert.Equal(t, c.want, week.Verdict(), "%s A, %s h", c.load, c.hours)
		assert.InDelta(t, d(c.lost).InexactFloat64(), l.WeekBeforePercent.Decimal.Sub(l.EndPercent).InexactFloat64(), 0.0011)
	}
	b := evenBank("1")
	b.Days = 6
	l, err := b.Run()
	require.NoError(t, err)
	_, err = l.CheckWeek()
	assert.ErrorContains(t, err, "7 days")
}
