package main

import (
	"testing"

	"example.org/extralow/charge"
	"example.org/extralow/examples/form"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	d    = decimal.RequireFromString
	some = func(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }
)

// planOf reads flags.
func planOf(t testing.TB, args ...string) plan {
	t.Helper()
	f := form.New("week", entries)
	require.NoError(t, f.Parse(args))
	p := read(f)
	require.NoError(t, f.Faults())
	return p
}

// outcomeOf follows one run.
func outcomeOf(t testing.TB, p plan, month int) outcome {
	t.Helper()
	o, err := p.outcome(month)
	require.NoError(t, err)
	return o
}

// byHand is the sample without its modules, written down a second time.
func byHand() charge.Balance {
	six := []int{1, 2, 3, 4, 5, 6}
	return charge.Balance{
		Battery: charge.BatteryOnCharge{
			Chemistry: "LiFePO4", CapacityAh: d("200"), BatteryC: d("10"), ChargeA: some("100"), InternalMilliohm: d("10"),
			EMF: []charge.EMFPoint{ // four times the cell's
				{SoCPercent: d("0"), EMFV: d("8.0408")}, {SoCPercent: d("0.33"), EMFV: d("9.6708")}, {SoCPercent: d("1.17"), EMFV: d("10.962")},
				{SoCPercent: d("2.67"), EMFV: d("11.7196")}, {SoCPercent: d("5.34"), EMFV: d("12.3488")}, {SoCPercent: d("8.85"), EMFV: d("12.7768")},
				{SoCPercent: d("29.72"), EMFV: d("13.1088")}, {SoCPercent: d("98.33"), EMFV: d("13.4044")}, {SoCPercent: d("99.5"), EMFV: d("13.672")},
				{SoCPercent: d("100"), EMFV: d("14.3924")},
			},
			Efficiency: []charge.EfficiencyStep{{Efficiency: d("0.99")}},
		},
		VoltageV: d("14.2"), StartPercent: d("80"), CutOutPercent: some("10"), ResumePercent: some("20"),
		Sources: []charge.DutyPeriod{
			{CurrentA: d("30"), FromH: d("7"), ToH: d("7.5"), Weekdays: six},
			{CurrentA: d("30"), FromH: d("12"), ToH: d("12.5"), Weekdays: six},
			{CurrentA: d("30"), FromH: d("16"), ToH: d("16.5"), Weekdays: six},
			{CurrentA: d("15"), FromH: d("10"), ToH: d("16"), Weekdays: []int{7}},
		},
		Loads: []charge.DutyPeriod{
			{CurrentA: d("1.2"), FromH: d("0"), ToH: d("24")},
			{CurrentA: d("8"), FromH: d("9"), ToH: d("11.5"), Weekdays: six},
			{CurrentA: d("8"), FromH: d("13"), ToH: d("15.5"), Weekdays: six},
			{CurrentA: d("2"), FromH: d("17"), ToH: d("22")},
			{CurrentA: d("1.5"), FromH: d("0"), ToH: d("7")},
			{CurrentA: d("1.5"), FromH: d("20"), ToH: d("24")},
		},
		Days: 7, FirstMonth: 12, TraceEveryH: 1,
	}
}

// TestLedgerIsTheBalances: the program adds nothing to package charge, which is
// called here by itself.
func TestLedgerIsTheBalances(t *testing.T) {
	want, err := byHand().Run()
	require.NoError(t, err)
	got := outcomeOf(t, planOf(t, "-module_w", "0"), 12)
	assert.Empty(t, cmp.Diff(want.Trace, got.Trace))
	for name, pair := range map[string][2]decimal.Decimal{
		"lowest": {want.LeastPercent, got.LeastPercent}, "at": {want.LeastAtH, got.LeastAtH}, "end": {want.EndPercent, got.EndPercent},
		"shed": {want.ShedH, got.ShedH}, "in": {want.InWh, got.InWh}, "load": {want.LoadWh, got.LoadWh},
	} {
		assert.True(t, pair[0].Equal(pair[1]), "%s: %s, %s", name, pair[0], pair[1])
	}
	below := 0
	for _, line := range want.Trace {
		if line.SoCPercent.LessThan(d("20")) {
			below++
		}
	}
	assert.Equal(t, below, got.belowH)
	assert.NotZero(t, below)
}

// TestMoreDrivingNeverLowersTheLowestPoint, nor the end: without a cut-out, which
// sheds loads and so may lift a bank that gets less.
func TestMoreDrivingNeverLowersTheLowestPoint(t *testing.T) {
	for _, args := range [][]string{nil, {"-capacity_ah", "60"}, {"-drives", "8,9.5,18"}, {"-drives", "6", "-drive_days", "2,5-7"}} {
		p := planOf(t, append(args, "-cut_out_percent", "", "-resume_percent", "", "-driving_h", "0")...)
		for _, month := range []int{1, 6, 12} {
			var last charge.Ledger
			for p.drivingMin = 0; p.drivingMin <= min(p.mostDriving(), 400); p.drivingMin += 13 {
				l, err := p.balance(month).Run()
				require.NoError(t, err)
				assert.False(t, l.LeastPercent.LessThan(last.LeastPercent), "%q, month %d, %d min", args, month, p.drivingMin)
				assert.False(t, l.EndPercent.LessThan(last.EndPercent), "%q, month %d, %d min", args, month, p.drivingMin)
				last = l
			}
			assert.True(t, last.EndPercent.IsPositive())
		}
	}
}

// TestHold: with the minutes found two weeks never go below the limit and the
// second ends no lower than the first, with one fewer they do, by package charge
// called by itself.
func TestHold(t *testing.T) {
	o := outcomeOf(t, planOf(t, "-module_w", "0"), 12)
	require.Greater(t, o.holdMin, 3)
	b := byHand()
	b.CutOutPercent, b.ResumePercent = decimal.NullDecimal{}, decimal.NullDecimal{}
	holds := func(driving int) bool {
		for i, start := range []int{7, 12, 16} {
			share := []int{(driving + 2) / 3, (driving + 1) / 3, driving / 3}[i]
			b.Sources[i].ToH = hours(60*start + share)
		}
		b.Days = 7
		first, err := b.Run()
		require.NoError(t, err)
		b.Days = 14
		both, err := b.Run()
		require.NoError(t, err)
		return both.LeastPercent.GreaterThanOrEqual(d("20")) && both.EndPercent.GreaterThanOrEqual(first.EndPercent)
	}
	assert.True(t, holds(o.holdMin))
	assert.False(t, holds(o.holdMin-1))
}

// TestHoldOfAYear: the run with the minutes found passes C08 without a cut-out,
// that with one fewer fails it.
func TestHoldOfAYear(t *testing.T) {
	if testing.Short() {
		t.Skip("it steps many years by the minute")
	}
	p := planOf(t, "-days", "365", "-month", "3", "-cut_out_percent", "", "-resume_percent", "")
	p.drivingMin = outcomeOf(t, p, 3).holdMin
	assert.Equal(t, working.Passes, outcomeOf(t, p, 3).check.Verdict())
	p.drivingMin--
	assert.Equal(t, working.Fails, outcomeOf(t, p, 3).check.Verdict())
}

func TestHoldAtTheEnds(t *testing.T) {
	sunny := planOf(t, "-module_w", "3000")
	assert.Equal(t, 0, outcomeOf(t, sunny, 6).holdMin)
	poor := planOf(t, "-converter_a", "1")
	o := outcomeOf(t, poor, 12)
	assert.Negative(t, o.holdMin)
	assert.Equal(t, "over 12 h 00 min", answer{plan: poor}.holding(o))
}

// constant is a bank that stands at 13 V whatever its charge, with a load of 10 A
// around the clock: all of it can be done by hand.
func constant(t *testing.T) plan {
	t.Helper()
	p := planOf(t, "-loads", "pump 10 0-24", "-mains", "", "-module_w", "0", "-driving_h", "0")
	p.battery.EMF = []charge.EMFPoint{{SoCPercent: d("0"), EMFV: d("13")}, {SoCPercent: d("100"), EMFV: d("13")}}
	p.battery.InternalMilliohm = d("0.0001")
	return p
}

// TestUnmetByHand: 200 Ah from 80 to 10 % last 14 h at 10 A. Of 168 h the load
// goes without for 154 h, 130 W each.
func TestUnmetByHand(t *testing.T) {
	o := outcomeOf(t, constant(t), 12)
	assert.Equal(t, "154", o.ShedH.String())
	assert.Equal(t, "10", o.LeastPercent.String())
	assert.Equal(t, "20020", o.UnmetWh.Round(0).String())
	assert.Equal(t, 155, o.belowH, "after 12 h it stands at 20 %, after 13 h and then on below")
}

// TestAutonomyByHand: 200 Ah from full to 20 % last 16 h at 10 A.
func TestAutonomyByHand(t *testing.T) {
	p := constant(t)
	h, err := p.autonomy()
	require.NoError(t, err)
	assert.Equal(t, 16, h)
	assert.Equal(t, "0.6 days (16 h, from a Monday)", answer{plan: p, autonomyH: h}.reserve())
	p.loads = nil
	h, err = p.autonomy()
	require.NoError(t, err)
	assert.Equal(t, "more than 60 days", answer{plan: p, autonomyH: h}.reserve())
}

// TestDrivesShareTheDay: every minute counts once, and a longer day has those of
// a shorter one.
func TestDrivesShareTheDay(t *testing.T) {
	p := planOf(t)
	last := map[string]decimal.Decimal{}
	for p.drivingMin = 0; p.drivingMin <= p.mostDriving(); p.drivingMin++ {
		sum := 0
		for _, s := range p.driving() {
			from := s.FromH.String()
			assert.False(t, s.ToH.LessThan(last[from]))
			last[from] = s.ToH
			sum += int(s.ToH.Sub(s.FromH).Mul(d("60")).Round(0).IntPart())
		}
		assert.Equal(t, p.drivingMin, sum)
	}
	assert.Empty(t, cmp.Diff(map[string]decimal.Decimal{"7": d("11"), "12": d("16"), "16": d("20")}, last), "all of the room but that after the shortest gap")
}

func TestDates(t *testing.T) {
	for _, c := range []struct {
		first, day int
		want       string
	}{{1, 0, "1 Jan"}, {1, 58, "28 Feb"}, {1, 59, "1 Mar"}, {3, 305, "31 Dec"}, {3, 306, "1 Jan"}, {3, 364, "28 Feb"}, {3, 365, "1 Mar"}, {12, 31, "1 Jan"}} {
		assert.Equal(t, c.want, date(c.first, c.day).Format("2 Jan"), c)
	}
	assert.Equal(t, "Mon", weekdayName(0))
	assert.Equal(t, "Sun", weekdayName(6))
	assert.Equal(t, "Mon", weekdayName(7))
}

// TestMonthsOfAYear: the months of a long run have all its hours below the limit
// and none that is lower than its lowest point.
func TestMonthsOfAYear(t *testing.T) {
	p := planOf(t, "-days", "365", "-month", "3")
	a, err := p.answer()
	require.NoError(t, err)
	months := a.byMonth()
	require.Len(t, months, 12)
	assert.Equal(t, "March", months[0].name)
	assert.Equal(t, "February", months[11].name)
	below, lowest := 0, d("100")
	for _, m := range months {
		below += m.belowH
		lowest = decimal.Min(lowest, m.lowest)
	}
	assert.Equal(t, a.runs[0].belowH, below)
	assert.False(t, lowest.LessThan(a.runs[0].LeastPercent))
}

func TestMonthsSideBySide(t *testing.T) {
	for _, c := range []struct {
		month int
		want  []int
	}{{0, []int{12, 6}}, {3, []int{12, 3, 6}}, {12, []int{12, 6}}, {6, []int{12, 6}}} {
		assert.Equal(t, c.want, answer{plan: plan{month: c.month, days: 7}, worst: 12, best: 6}.months(), c)
	}
	assert.Equal(t, []int{4}, answer{plan: plan{days: 1}, worst: 4, best: 4}.months())
	assert.Equal(t, []int{1}, answer{plan: plan{days: 365}, worst: 12, best: 6}.months())
}

// TestPlaceIsTheTables: the sun is that of the table, and the worst and best
// months those of least and most of it.
func TestPlaceIsTheTables(t *testing.T) {
	p := planOf(t, "-place", "Santiago")
	place, err := tables.InsolationOf("Santiago", "horizontal")
	require.NoError(t, err)
	worst, best := p.sun.extremes()
	for m, f := range place.Months {
		assert.Equal(t, f.Value.String(), p.sun.months[m].groundKWh.String())
		assert.False(t, f.Value.LessThan(place.Months[worst-1].Value))
		assert.False(t, f.Value.GreaterThan(place.Months[best-1].Value))
	}
}

// TestDaylight holds the sun's hours to FAO-56 table 2.7, near the solstices
// where the days between a month's mean day and its middle matter least.
func TestDaylight(t *testing.T) {
	for latitude, months := range map[string][]int{"54": {6}, "30": {1, 6, 7, 12}, "-34": {1, 6, 7, 12}} {
		p := planOf(t, "-latitude", latitude, "-sunshine_percent", "50")
		for _, month := range months {
			want, err := tables.MonthDaylight(d(latitude), month)
			require.NoError(t, err)
			assert.InDelta(t, want.Value.InexactFloat64(), float64(p.sun.months[month-1].upMin)/60, 0.1, "%s°, month %d", latitude, month)
		}
	}
}

// TestSunshine: 100 % of sunshine is three quarters of the radiation above the
// atmosphere, none of it a quarter (FAO-56 eq. 35).
func TestSunshine(t *testing.T) {
	clear, dull := planOf(t, "-latitude", "52", "-sunshine_percent", "100"), planOf(t, "-latitude", "52", "-sunshine_percent", "0")
	for m := range clear.sun.months {
		assert.InDelta(t, clear.sun.months[m].groundKWh.InexactFloat64(), 3*dull.sun.months[m].groundKWh.InexactFloat64(), 0.006)
	}
}

// TestPolarNight: a month without sun gives nothing, and one without night all
// day long.
func TestPolarNight(t *testing.T) {
	p := planOf(t, "-latitude", "78", "-sunshine_percent", "30")
	assert.Zero(t, p.sun.months[11].upMin)
	assert.True(t, p.sun.months[11].offeredWh.IsZero())
	assert.Equal(t, 24*60, p.sun.months[5].upMin)
	_, err := p.answer()
	require.NoError(t, err)
}

// TestSunGivesWhatItOffers: a bank of 14.2 V takes in a month's day what the
// modules offer, half sine and all.
func TestSunGivesWhatItOffers(t *testing.T) {
	p := planOf(t, "-loads", "", "-mains", "", "-driving_h", "0", "-days", "1", "-stage_v", "14.2", "-start_percent", "20", "-capacity_ah", "5000")
	p.battery.EMF = []charge.EMFPoint{{SoCPercent: d("0"), EMFV: d("14.1999")}, {SoCPercent: d("100"), EMFV: d("14.1999")}}
	p.battery.InternalMilliohm = d("0.0001")
	for month := 1; month <= 12; month++ {
		o := outcomeOf(t, p, month)
		assert.InEpsilon(t, p.sun.months[month-1].offeredWh.InexactFloat64(), o.InWh.InexactFloat64(), 0.002, month)
	}
}
