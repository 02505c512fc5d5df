package battery_test

import (
	"errors"
	"fmt"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func num(i int) decimal.Decimal { return decimal.NewFromInt(int64(i)) }

func TestMoreLoadNeverRunsLonger(t *testing.T) {
	last := d("1000000")
	for watts := 10; watts <= 2000; watts += 37 {
		r, err := pair().Runtime(num(watts))
		require.NoError(t, err)
		assert.True(t, r.TimeH.LessThanOrEqual(last), "%d W last %s h, less lasted %s h", watts, r.TimeH, last)
		last = r.TimeH
	}
	p := battery.Peukert{Slow: wells().Slow, Fast: wells().Fast}
	last = d("1000000")
	for tenths := 1; tenths <= 600; tenths += 7 {
		got, err := p.At(num(tenths).Shift(-1))
		require.NoError(t, err)
		assert.True(t, got.TimeH.LessThanOrEqual(last))
		assert.True(t, got.CapacityAh.LessThanOrEqual(d("100")), "never more than the rating")
		last = got.TimeH
	}
}

func TestColderNeverGivesMore(t *testing.T) {
	for _, chemistry := range []tables.Chemistry{"lead-acid flooded", "lead-acid AGM", "LiFePO4", "NMC"} {
		bank := pair()
		for i := range bank.Batteries {
			bank.Batteries[i].Chemistry = chemistry
		}
		last := d("0")
		for c := -40; c <= 60; c++ {
			bank.BatteryC = decimal.NewNullDecimal(num(c))
			usable, err := bank.Usable()
			if errors.Is(err, tables.ErrOutside) {
				require.True(t, last.IsZero(), "%s at %d °C: outside between two rows", chemistry, c)
				continue
			}
			require.NoError(t, err)
			assert.True(t, usable.EnergyWh.Decimal.GreaterThanOrEqual(last), "%s at %d °C", chemistry, c)
			assert.True(t, usable.EnergyWh.Decimal.LessThanOrEqual(d("2457.6")), "%s at %d °C gives more than rated", chemistry, c)
			last = usable.EnergyWh.Decimal
		}
		require.False(t, last.IsZero(), chemistry)
	}
}

// bankOf is n like batteries in parallel on leads of one resistance.
func bankOf(count int, lead string) battery.Bank {
	b := battery.Bank{Series: 1}
	for range count {
		one := pair().Batteries[0]
		one.LeadMilliohm = n(lead)
		b.Batteries = append(b.Batteries, one)
	}
	return b
}

func TestMoreInParallelNeverSagsMore(t *testing.T) {
	last, fault := d("0"), d("0")
	for count := 1; count <= 12; count++ {
		s, err := bankOf(count, "0.7").Source()
		require.NoError(t, err)
		feed := battery.Feed{
			Inverter: battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(d("90")), IdleW: n("10")},
			SteadyW:  d("1500"), SurgeW: d("3000"), SourceV: s.EmptyV.Decimal, PathMilliohm: s.HighMilliohm.Decimal.Add(d("1")),
		}
		at, err := feed.Terminals()
		require.NoError(t, err)
		assert.True(t, at.Surge.VoltageV.Decimal.GreaterThan(last), "%d in parallel: %s V", count, at.Surge.VoltageV.Decimal)
		last = at.Surge.VoltageV.Decimal
		f, err := bankOf(count, "0.7").Fault(atPosts)
		require.NoError(t, err)
		assert.True(t, f.GreatestA.Decimal.GreaterThan(fault))
		assert.True(t, f.LeastA.Decimal.LessThanOrEqual(f.GreatestA.Decimal))
		fault = f.GreatestA.Decimal
	}
}

// Six 6 V blocks of 2.4 kA each, two in series by three in parallel, feed three
// times the current of one: series adds no fault current (common practice).
func TestSeriesAddsNoFaultCurrent(t *testing.T) {
	block := battery.BankBattery{
		Chemistry: "lead-acid flooded", NominalV: d("6"), CapacityAh: d("220"), FullV: d("6.36"), EmptyV: d("6"),
		LowMilliohm: n("2.65"), HighMilliohm: n("4"), LeadMilliohm: n("0"),
	}
	b := battery.Bank{Series: 2}
	for range 6 {
		b.Batteries = append(b.Batteries, block)
	}
	f, err := b.Fault(atPosts)
	require.NoError(t, err)
	assert.True(t, f.GreatestA.Decimal.Equal(d("7200")), f.GreatestA.Decimal.String())
	for _, s := range f.Strings {
		assert.True(t, s.OwnA.Equal(d("2400")), "each string feeds what one block feeds")
		assert.True(t, s.OthersA.Equal(d("4800")), "the others feed twice that")
		assert.True(t, s.DeviceA.Equal(d("4800")))
	}
	rating, err := b.Rating()
	require.NoError(t, err)
	assert.True(t, rating.NominalV.Equal(d("12")))
	assert.True(t, rating.CapacityAh.Equal(d("660")))
}

func TestLikeBatteriesShareEvenly(t *testing.T) {
	for n := 1; n <= 9; n++ {
		l, err := bankOf(n, "0.3").Discharge()
		require.NoError(t, err)
		assert.True(t, l.LimitA.Decimal.Equal(l.SumA.Decimal), "%d like batteries give the sum of their limits, not %s", n, l.LimitA.Decimal)
		assert.True(t, l.MixedA.Decimal.LessThanOrEqual(l.LimitA.Decimal))
		workingtest.Guard(t, l.Working)
	}
}

// Two 3 mΩ batteries on leads of 0.5 and 1.5 mΩ carry 112.5 A and 87.5 A of
// 200 A: the first reaches 112.5 A there.
func TestSharesFollowResistance(t *testing.T) {
	b := pair()
	for i := range b.Batteries {
		b.Batteries[i].GreatestDischargeA = decimal.NewNullDecimal(d("112.5"))
	}
	l, err := b.Discharge()
	require.NoError(t, err)
	assert.True(t, l.LimitA.Decimal.Equal(d("200")), l.LimitA.Decimal.String())
}

func TestInverterCollapses(t *testing.T) {
	feed := battery.Feed{
		Inverter: battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(d("100")), IdleW: n("0")},
		SteadyW:  d("360"), SurgeW: d("360.01"), SourceV: d("12"), PathMilliohm: d("100"), CutOutV: n("5"),
	}
	at, err := feed.Terminals() // 12 V behind 0.1 Ω deliver 360 W at the most, at 6 V
	require.NoError(t, err)
	assert.True(t, at.Steady.VoltageV.Decimal.Equal(d("6")), at.Steady.VoltageV.Decimal.String())
	assert.True(t, at.Steady.CurrentA.Decimal.Equal(d("60")))
	assert.True(t, at.Surge.Collapses)
	workingtest.Guard(t, at.Working)
	c, err := feed.Check()
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict(), "a collapse is a failure")
	feed.SteadyW, feed.SurgeW, feed.CutOutV = d("300"), d("300"), decimal.NullDecimal{}
	c, err = feed.Check()
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
	feed.CutOutV = n("8.4495") // at 300 W the voltage settles at 6 + √6 V = 8.4494897, rounded down
	c, err = feed.Check()
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict())
	feed.CutOutV = n("8.4494")
	c, err = feed.Check()
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict(), "at the cut-out is not above it")
	feed.CutOutV = n("8.4493")
	c, err = feed.Check()
	require.NoError(t, err)
	assert.Equal(t, working.Passes, c.Verdict())
}

func TestUnknownIsAskedFor(t *testing.T) {
	odd := battery.BankBattery{Name: "odd", Chemistry: "LiFePO4", NominalV: d("12.8"), CapacityAh: d("280"), FullV: d("13.6"), EmptyV: d("12.8"), LeadMilliohm: n("0")}
	b := battery.Bank{Batteries: []battery.BankBattery{odd, odd}, Series: 1}
	f, err := b.Fault(atPosts)
	require.NoError(t, err)
	assert.Contains(t, f.Missing, "internal resistance of battery 1 (odd)")
	assert.False(t, f.GreatestA.Valid, "not known is no figure of nought")
	assert.False(t, f.LeastA.Valid)
	c, err := b.CheckDischarge(d("100"))
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
	assert.Contains(t, c.Missing, "greatest steady discharge current")
	c, err = b.CheckCutOut(n("11"))
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict(), "a lithium battery without a known cut-out")

	listed := odd
	listed.CapacityAh = d("100")
	f, err = battery.Bank{Batteries: []battery.BankBattery{listed}, Series: 1}.Fault(atPosts)
	require.NoError(t, err)
	assert.True(t, f.GreatestA.Decimal.Equal(d("2720")), "13.6 V over the 5 mΩ of the table: %s", f.GreatestA.Decimal)
	assert.Equal(t, "from memory", f.Working.Confidence().String())

	lead := listed
	lead.Chemistry, lead.NominalV = "lead-acid AGM", d("12")
	c, err = battery.Bank{Batteries: []battery.BankBattery{lead}, Series: 1}.CheckCutOut(n("11"))
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
	c, err = battery.Bank{Batteries: []battery.BankBattery{lead}, Series: 1}.CheckDischargeMissing(d("10"))
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict(), "one string only")
}

// A bank that must not be judged: every fault is named at once.
func TestBankNamesEveryFault(t *testing.T) {
	b := pair()
	b.Batteries[1].Chemistry, b.Batteries[1].NominalV = "NMC", d("24")
	_, err := b.Rating()
	assert.Len(t, working.Inputs(err), 2)
	b = pair()
	b.Batteries[0].LowMilliohm, b.Batteries[1].EmptyV = n("8.1"), d("15")
	_, err = b.Fault(battery.FaultPath{HighMilliohm: n("-1"), LimitedA: n("0")})
	var fields []string
	for _, e := range working.Inputs(err) {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{"batteries[0].low_milliohm", "batteries[1].empty_v", "path_high_milliohm"}, fields)
	_, err = battery.Bank{Series: 2, Batteries: pair().Batteries[:1]}.Rating()
	assert.ErrorContains(t, err, "whole strings")
	_, err = battery.Bank{}.Rating()
	assert.Error(t, err)
	left, err := pair().Without(1)
	require.NoError(t, err)
	_, err = left.Without(0)
	assert.ErrorContains(t, err, "nothing is left")
	_, err = pair().Without(2)
	assert.ErrorContains(t, err, "index")
}

func TestAuditNamesEveryFault(t *testing.T) {
	_, err := battery.Audit{
		SystemV: d("12"), LowestV: d("0"),
		Loads: []battery.AuditLoad{
			{Name: "a", HoursADay: n("25"), DutyPercent: d("100")},
			{Name: "a", PowerW: n("5"), CurrentA: n("1"), HoursADay: n("1"), DutyPercent: d("100"), Inverter: "none"},
			{Name: "c", CurrentA: n("1"), HoursADay: n("1"), DutyPercent: d("101")},
		},
		Together: []battery.StateOfUse{{Name: "x", Loads: []string{"nobody"}}},
	}.Sum()
	var fields []string
	for _, e := range working.Inputs(err) {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{
		"lowest_v", "loads[0].power_w", "loads[0].hours_a_day", "loads[1].power_w", "loads[1].inverter", "loads[1].name",
		"loads[2].at_v", "loads[2].duty_percent", "together[0].loads",
	}, fields)
}

// An inverter by its curve takes the worse of the points beside its load and
// refuses a load that the curve does not reach.
func TestCurve(t *testing.T) {
	i := battery.Inverter{RatingW: n("1000"), IdleW: n("0"), Curve: []battery.EfficiencyPoint{
		{LoadPercent: d("10"), EfficiencyPercent: d("80")}, {LoadPercent: d("50"), EfficiencyPercent: d("94")}, {LoadPercent: d("100"), EfficiencyPercent: d("90")},
	}}
	for watts, in := range map[string]string{"100": "125", "300": "375", "500": "531.92", "800": "888.89", "1000": "1111.12"} {
		draw, err := i.Draw(d(watts), d("12"))
		require.NoError(t, err)
		assert.True(t, draw.InputW.Equal(d(in)), "%s W take %s W", watts, draw.InputW)
		workingtest.Guard(t, draw.Working)
	}
	atPoint, err := i.Draw(d("500"), d("12"))
	require.NoError(t, err)
	beside, err := i.Draw(d("300"), d("12"))
	require.NoError(t, err)
	assert.Empty(t, atPoint.Working[1].Note, "a load at a point takes it, and chooses nothing")
	assert.Equal(t, "η", beside.Working[1].Symbol)
	assert.Equal(t, "the worse of the two points beside the load", beside.Working[1].Note)
	for _, watts := range []string{"99", "1001"} {
		_, err := i.Draw(d(watts), d("12"))
		assert.ErrorContains(t, err, "reaches "+watts)
	}
	i.EfficiencyPercent = n("90")
	_, err = i.Draw(d("100"), d("12"))
	assert.Error(t, err, "an efficiency beside a curve")
}

// The flat part of lithium iron phosphate says nothing; its steep ends do.
func TestFlatCurveCannotTell(t *testing.T) {
	for volts, tells := range map[string]bool{"12.0": true, "12.9": true, "13.2": false, "13.25": false, "14.3": true} {
		s, err := battery.Rested{Chemistry: "LiFePO4", VoltageV: d(volts), Cells: 4, MeterV: n("0.01")}.StateOfCharge()
		require.NoError(t, err)
		assert.Equal(t, tells, s.Missing == "", "%s V: %s to %s %%", volts, s.LeastPercent, s.GreatestPercent)
		workingtest.Guard(t, s.Working)
	}
	_, err := battery.Rested{Chemistry: "NiMH", VoltageV: d("12"), Cells: 10, MeterV: n("0")}.StateOfCharge()
	assert.ErrorIs(t, err, tables.ErrNotListed, "nickel has only curves under load")
}

// A higher rested voltage never means less charge.
func TestMoreVoltageNeverLessCharge(t *testing.T) {
	for _, c := range []struct {
		chemistry tables.Chemistry
		cells     int
	}{{"lead-acid flooded", 6}, {"lead-acid AGM", 6}, {"LiFePO4", 4}, {"NMC", 4}} {
		low, high := d("0"), d("0")
		for millivolts := 1500; millivolts < 4300; millivolts += 3 {
			s, err := battery.Rested{Chemistry: c.chemistry, VoltageV: num(millivolts * c.cells).Shift(-3), Cells: c.cells, MeterV: n("0.02")}.StateOfCharge()
			require.NoError(t, err)
			require.True(t, s.LeastPercent.GreaterThanOrEqual(low) && s.GreatestPercent.GreaterThanOrEqual(high), "%s at %d mV", c.chemistry, millivolts)
			require.True(t, s.LeastPercent.LessThanOrEqual(s.GreatestPercent), "%s at %d mV", c.chemistry, millivolts)
			low, high = s.LeastPercent, s.GreatestPercent
		}
	}
}

// Rest brings charge back, and the whole never changes by itself.
func TestRestBringsChargeBack(t *testing.T) {
	m, err := wells().Fit()
	require.NoError(t, err)
	state, err := m.At(d("80"))
	require.NoError(t, err)
	state, err = m.Step(battery.KineticStep{State: state, CurrentA: d("200"), TimeH: d("2")})
	require.NoError(t, err)
	assert.True(t, state.DeliveredA.LessThan(d("200")))
	assert.True(t, state.AvailableAh.LessThanOrEqual(d("0.001")), "the well at hand is empty: %s", state.AvailableAh)
	whole := state.AvailableAh.Add(state.BoundAh)
	for range 5 {
		next, err := m.Step(battery.KineticStep{State: state, CurrentA: d("0"), TimeH: d("0.5")})
		require.NoError(t, err)
		assert.True(t, next.AvailableAh.GreaterThan(state.AvailableAh))
		assert.True(t, next.AvailableAh.Add(next.BoundAh).Sub(whole).Abs().LessThan(d("0.001")))
		state = next
	}
}

// Each of the three ratings comes back out of the model, to 0.5 % of it.
func TestWellsGiveTheirRatings(t *testing.T) {
	r := wells()
	m, err := r.Fit()
	require.NoError(t, err)
	for _, one := range []battery.HourRating{r.Slow, r.Middle, r.Fast} {
		full, err := m.At(d("100"))
		require.NoError(t, err)
		end, err := m.Step(battery.KineticStep{State: full, CurrentA: d("10000"), TimeH: one.RateH})
		require.NoError(t, err)
		given := end.DeliveredA.Mul(one.RateH)
		assert.True(t, given.Sub(one.CapacityAh).Abs().LessThan(d("0.05")), "%s Ah in %s h", given, one.RateH)
	}
}

func TestAxlesSumUp(t *testing.T) {
	for x := -10; x <= 60; x += 7 {
		v := battery.Vehicle{
			WheelbaseM: d("3.2"), FrontKg: d("1000"), RearKg: d("900"), FrontLimitKg: d("2000"), RearLimitKg: d("2000"), GrossLimitKg: d("3500"),
			Items: []battery.AddedMass{{Name: "x", MassKg: d("64"), BehindM: decimal.NewNullDecimal(num(x).Shift(-1))}, {Name: "out", MassKg: d("-12"), BehindM: n("1")}},
		}
		a, err := v.Axles()
		require.NoError(t, err)
		workingtest.Guard(t, a.Working)
		assert.True(t, a.FrontKg.Add(a.RearKg).Sub(a.GrossKg).Abs().LessThanOrEqual(d("0.02")), "front and rear make the whole")
	}
}

// TestFrontKeeps: by hand, 100 kg 0.5 m behind the axle of a wheelbase of 3 m take
// 100 × 0.5 ÷ 3 = 16.667 kg off the coupling. Of 70 kg it keeps 53.33 kg, not
// 53.34 (rounded away from a pass), and moved forward it never keeps less.
func TestFrontKeeps(t *testing.T) {
	trailer := func(behind, least string) working.Check {
		a, err := battery.Vehicle{
			WheelbaseM: d("3"), FrontKg: d("70"), RearKg: d("800"), FrontLimitKg: d("100"), RearLimitKg: d("1300"), GrossLimitKg: d("1300"),
			Items: []battery.AddedMass{{Name: "x", MassKg: d("100"), BehindM: n(behind)}}, LeastFrontKg: n(least),
		}.Axles()
		require.NoError(t, err)
		workingtest.Guard(t, a.Checks[3].Working)
		return a.Checks[3]
	}
	assert.Equal(t, working.Passes, trailer("3.5", "53.33").Verdict())
	assert.Equal(t, working.Fails, trailer("3.5", "53.34").Verdict())
	assert.Equal(t, working.Passes, trailer("3", "70").Verdict(), "over the axle it takes nothing off the front")
	last := trailer("12", "0").Limit // 300 kg off: the coupling is lifted
	assert.True(t, last.Equal(d("-230")), last)
	for _, behind := range []string{"7.1", "4.3", "3.01", "2.2", "0", "-1"} {
		c := trailer(behind, "0")
		assert.True(t, c.Limit.GreaterThan(last), behind)
		last = c.Limit
	}
}

// Without a stated least the law of moments still has one: 215 kg at 4.0 m behind
// the coupling and 0.1 m behind an axle at 3.9 m take 215 × 0.1 ÷ 3.9 = 5.513 kg
// off the coupling. From 5.52 kg it keeps something, from 5.5 kg it is lifted.
func TestFrontNotLifted(t *testing.T) {
	coupling := func(weighed string) working.Check {
		a, err := battery.Vehicle{
			WheelbaseM: d("3.9"), FrontKg: d(weighed), RearKg: d("800"), FrontLimitKg: d("100"), RearLimitKg: d("1300"), GrossLimitKg: d("1300"),
			Items: []battery.AddedMass{{Name: "counter", MassKg: d("215"), BehindM: n("4.0")}},
		}.Axles()
		require.NoError(t, err)
		workingtest.Guard(t, a.Checks[3].Working)
		assert.Contains(t, a.Checks[3].Working.String(), "lifts")
		return a.Checks[3]
	}
	assert.Equal(t, working.CannotTell, coupling("5.52").Verdict(), "what it must keep is to be asked")
	assert.Equal(t, working.Fails, coupling("5.5").Verdict())
}

func TestFrontLeastWithinTheMost(t *testing.T) {
	v := battery.Vehicle{
		WheelbaseM: d("3"), FrontKg: d("70"), RearKg: d("800"), FrontLimitKg: d("100"), RearLimitKg: d("1300"), GrossLimitKg: d("1300"),
		Items: []battery.AddedMass{{Name: "x", MassKg: d("1"), BehindM: n("1")}},
	}
	a, err := v.Axles()
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, a.Checks[3].Verdict())
	assert.Contains(t, a.Checks[3].Missing, "sways")
	v.LeastFrontKg = n("101")
	_, err = v.Axles()
	assert.ErrorContains(t, err, "least_front_kg is 101: want at most front_limit_kg, 100")
	v.LeastFrontKg = n("-1")
	_, err = v.Axles()
	assert.ErrorContains(t, err, "least_front_kg")
}

// Every margin of the fit is exactly what the case grows by, times how many
// stand in that direction.
func TestFitGrowsByTheCase(t *testing.T) {
	f := battery.Fit{
		Case:  battery.Case{LengthMM: d("300"), WidthMM: d("170"), HeightMM: d("200")},
		Space: battery.Space{LengthMM: d("1000"), WidthMM: d("400"), HeightMM: d("300")},
		Along: 3, Across: 2, GapMM: n("0"), WallMM: n("0"), AboveMM: n("0"), CableMM: n("0"),
	}
	f.Case.ToleranceMM, f.Space.ToleranceMM = n("0"), n("0")
	drawn, err := f.Fit()
	require.NoError(t, err)
	f.Case.LengthMM, f.Case.WidthMM, f.Case.HeightMM = d("335"), d("205"), d("235")
	grown, err := f.Fit()
	require.NoError(t, err)
	assert.True(t, drawn.LengthMM.Sub(grown.LengthMM).Equal(d("105")))
	assert.True(t, drawn.WidthMM.Sub(grown.WidthMM).Equal(d("70")))
	assert.True(t, drawn.HeightMM.Sub(grown.HeightMM).Equal(d("35")))
	for i, want := range []working.Verdict{working.Fails, working.Fails, working.Passes} {
		assert.Equal(t, want, grown.Checks[i].Verdict(), fmt.Sprint(grown.Checks[i].ID))
	}
}

// A constant load is one section however it is cut into periods, and a load that
// rises asks for more than its mean.
func TestSectionsOfADutyCycle(t *testing.T) {
	factors := []battery.CapacityFactor{
		{TimeH: d("1"), AhPerA: d("1.6")}, {TimeH: d("2"), AhPerA: d("2.7")}, {TimeH: d("3"), AhPerA: d("3.9")}, {TimeH: d("4"), AhPerA: d("5")},
	}
	whole, err := battery.DutyCycle{Periods: []battery.Period{{CurrentA: n("20"), TimeH: d("4")}}, Factors: factors}.Uncorrected()
	require.NoError(t, err)
	assert.True(t, whole.CapacityAh.Equal(d("100")))
	hour := battery.Period{CurrentA: n("20"), TimeH: d("1")}
	cut, err := battery.DutyCycle{Periods: []battery.Period{hour, hour, hour, hour}, Factors: factors}.Uncorrected()
	require.NoError(t, err)
	assert.True(t, cut.CapacityAh.Equal(whole.CapacityAh), cut.CapacityAh.String())
	assert.Equal(t, 4, cut.Section)
	workingtest.Guard(t, cut.Working)
	falls, err := battery.DutyCycle{Periods: []battery.Period{{CurrentA: n("60"), TimeH: d("1")}, {CurrentA: n("1"), TimeH: d("0.5")}}, Factors: factors}.Uncorrected()
	require.NoError(t, err)
	assert.Equal(t, 2, falls.Section, "no factor below an hour: the fall earns no credit")
	assert.True(t, falls.CapacityAh.Equal(d("162")))
	workingtest.Guard(t, falls.Working)
	_, err = battery.DutyCycle{Periods: []battery.Period{{CurrentA: n("1"), TimeH: d("4.1")}}, Factors: factors}.Uncorrected()
	assert.ErrorIs(t, err, tables.ErrOutside)
}

// What the strings carry is the load, and more load never gives more volts.
func TestStringsCarryTheLoad(t *testing.T) {
	b := pair()
	b.Batteries[1].EmptyV = d("12.7") // emptier than its twin
	last := d("100")
	for amps := 0; amps < 2500; amps += 111 {
		u, err := b.UnderLoad(num(amps))
		require.NoError(t, err)
		workingtest.Guard(t, u.Working)
		assert.True(t, u.StringA[0].Add(u.StringA[1]).Sub(num(amps)).Abs().LessThanOrEqual(d("0.05")), "%d A: %s", amps, u.StringA)
		assert.True(t, u.VoltageV.Decimal.LessThan(last))
		last = u.VoltageV.Decimal
	}
	none, err := b.UnderLoad(d("0"))
	require.NoError(t, err)
	assert.True(t, none.StringA[1].IsNegative(), "the fuller one charges the emptier one")
	_, err = b.UnderLoad(d("3000"))
	assert.Error(t, err)
}
