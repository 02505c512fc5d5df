package charge_test

import (
	"fmt"
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

// random draws round numbers, the same in every run.
func random(seed uint64) func(low, high float64) decimal.Decimal {
	r := rand.New(rand.NewPCG(seed, 1))
	return func(low, high float64) decimal.Decimal {
		return decimal.NewFromFloat(low + (high-low)*r.Float64()).Round(2)
	}
}

// TestMoreCurrentIsNeverSlower: a stronger source reaches a state no later.
func TestMoreCurrentIsNeverSlower(t *testing.T) {
	draw := random(7)
	for range 60 {
		s := overnight()
		s.StopPercent = decimal.NewNullDecimal(draw(45, 97))
		s.WithinH = d("60")
		s.LoadA = draw(0, 2)
		s.Source.CurrentA = draw(4, 30)
		s.Source.CableMilliohm = draw(0, 20)
		s.Source.RemoteSensing = s.LoadA.LessThan(d("1"))
		weak, err := s.Run()
		require.NoError(t, err)
		s.Source.CurrentA = s.Source.CurrentA.Add(draw(0.1, 20))
		strong, err := s.Run()
		require.NoError(t, err)
		if weak.Reached {
			assert.True(t, strong.Reached)
			assert.True(t, strong.TimeH.LessThanOrEqual(weak.TimeH), "%s h with more current, %s h with less", strong.TimeH, weak.TimeH)
		}
		workingtest.Guard(t, strong.Working)
	}
}

// TestStepDoesNotMatter: the answer does not hang on the longest step.
func TestStepDoesNotMatter(t *testing.T) {
	for _, power := range []decimal.NullDecimal{{}, some("280")} {
		var first charge.Charge
		for i, step := range []int{1, 7, 60, 3600} {
			s := overnight()
			s.Source.PowerW, s.StepS, s.StopPercent = power, step, some("88")
			c, err := s.Run()
			require.NoError(t, err)
			require.True(t, c.Reached)
			if i == 0 {
				first = c
				continue
			}
			assert.InDelta(t, first.TimeH.InexactFloat64(), c.TimeH.InexactFloat64(), 1.1e-4, "step %d s", step)
			assert.InDelta(t, first.InWh.InexactFloat64(), c.InWh.InexactFloat64(), 2e-2, "step %d s", step)
		}
	}
}

// TestColderNeverTakesMore: a colder battery below 25 °C accepts no more, and no
// lithium battery anything below its window.
func TestColderNeverTakesMore(t *testing.T) {
	for _, chemistry := range tables.Chemistries() {
		last := decimal.Zero
		for c := -40; c <= 25; c++ {
			b := charge.BatteryOnCharge{
				Chemistry: chemistry, CapacityAh: d("100"), BatteryC: decimal.NewFromInt(int64(c)), ChargeA: some("80"),
			}
			a, err := b.Acceptance(d("30"))
			require.NoError(t, err)
			workingtest.Guard(t, a.Working)
			assert.True(t, a.CurrentA.GreaterThanOrEqual(last), "%s at %d °C: %s A, more when colder: %s A", chemistry, c, a.CurrentA, last)
			last = a.CurrentA
			if c < 0 && !chemistry.Is(tables.LeadAcid) {
				assert.True(t, a.CurrentA.IsZero(), "%s at %d °C", chemistry, c)
			}
		}
		assert.True(t, last.IsPositive(), chemistry)
	}
}

// TestFullerNeverTakesMore: acceptance falls as the battery fills.
func TestFullerNeverTakesMore(t *testing.T) {
	last := d("1e9")
	for s := int64(0); s <= 100; s++ {
		a, err := flooded().Acceptance(decimal.NewFromInt(s))
		require.NoError(t, err)
		assert.True(t, a.CurrentA.LessThanOrEqual(last))
		last = a.CurrentA
	}
	assert.True(t, last.IsZero(), "a full lead-acid battery takes nothing without gassing")
}

// TestColdChargeIsHard: without a guard a lithium battery that freezes fails; a
// guard at the window passes, one a hundredth below does not.
func TestColdChargeIsHard(t *testing.T) {
	for _, c := range []struct {
		coldest string
		guard   decimal.NullDecimal
		want    working.Verdict
	}{
		{"0", decimal.NullDecimal{}, working.Passes},
		{"-0.01", decimal.NullDecimal{}, working.Fails},
		{"-20", some("0"), working.Passes},
		{"-20", some("-0.01"), working.Fails},
		{"5", some("-20"), working.Passes},
	} {
		check, err := lithium().ColdCharge(some(c.coldest), c.guard)
		require.NoError(t, err)
		assert.Equal(t, c.want, check.Verdict(), "%s, %v", c.coldest, c.guard)
		assert.Equal(t, "C02", check.ID)
	}
	// A cold battery is not charged by any simulation either.
	s := overnight()
	s.Battery = lithium()
	s.Battery.BatteryC = d("-1")
	s.LoadA = d("0")
	c, err := s.Run()
	require.NoError(t, err)
	assert.False(t, c.Reached)
	assert.True(t, c.EndPercent.Equal(s.StartPercent))
}

// TestNeverChatters: between two switchings lies at least the delay, whatever
// the voltages do.
func TestNeverChatters(t *testing.T) {
	draw := random(3)
	for range 200 {
		sleep := draw(11, 13)
		trigger := charge.Trigger{
			SleepV: sleep, WakeV: sleep.Add(draw(0, 1)), WakeS: draw(1, 60), SleepS: draw(1, 60),
			InputA: draw(0, 60), InputMilliohm: decimal.NewNullDecimal(draw(0, 30)),
		}
		var legs []charge.DrivePhase
		total := decimal.Zero
		for i := range 20 {
			leg := charge.DrivePhase{Name: fmt.Sprint(i), TimeS: draw(1, 600), Running: i%2 == 0, VehicleV: draw(11.5, 15)}
			total = total.Add(leg.TimeS)
			legs = append(legs, leg)
		}
		r, err := trigger.Drive(legs)
		require.NoError(t, err)
		workingtest.Guard(t, r.Working)
		least := decimal.Min(trigger.WakeS, trigger.SleepS).Mul(decimal.NewFromInt(int64(r.Switched)))
		assert.True(t, least.LessThanOrEqual(total), "%d switchings in %s s", r.Switched, total)
		awake := decimal.Zero
		for _, l := range r.Legs {
			awake = awake.Add(l.AwakeS)
		}
		assert.True(t, awake.Equal(r.AwakeS), "the legs add up")
		assert.True(t, r.AwakeS.Sub(r.DrainS).Add(r.MissedS).Equal(r.RunningS), "every second of running is awake or missed")
	}
}

// TestChatterNeedsDrop: a drop in the input lead wider than the hysteresis makes
// the converter come and go at the pace of its delays; less drop does not.
func TestChatterNeedsDrop(t *testing.T) {
	long := []charge.DrivePhase{{Name: "motorway", TimeS: d("7500"), Running: true, VehicleV: d("13.4")}}
	r, err := trigger().Drive(long)
	require.NoError(t, err)
	assert.Equal(t, 1, r.Switched)
	thin := trigger()
	thin.InputMilliohm = some("30")
	r, err = thin.Drive(long)
	require.NoError(t, err)
	assert.Equal(t, 200, r.Switched, "7500 s at 15 s asleep and 60 s awake")
}

// TestVoltageFailsOnVariableAlternators: the same trigger that misses nothing but
// its delay on a fixed alternator misses the road on a variable one, whose
// lowest voltage the check refuses.
func TestVoltageFailsOnVariableAlternators(t *testing.T) {
	fixed, err := trigger().Drive(round("14.3", "14.1", "12.7"))
	require.NoError(t, err)
	variable, err := trigger().Drive(round("14.3", "12.5", "12.7"))
	require.NoError(t, err)
	assert.True(t, fixed.MissedS.Equal(d("30")), "two delays")
	assert.True(t, variable.MissedS.GreaterThan(d("2000")), "most of 2400 s")
	// Nor does a low threshold help: it then never sleeps.
	low := trigger()
	low.WakeV, low.SleepV = d("12.4"), d("12.0")
	drained, err := low.Drive(round("14.3", "12.5", "12.7"))
	require.NoError(t, err)
	assert.True(t, drained.DrainS.Equal(d("36600")), "all of the stops")
	assert.True(t, drained.DrainedAh.GreaterThan(d("300")))
	check, err := low.Sleeps(working.Figure{Value: d("12.7")})
	require.NoError(t, err)
	assert.Equal(t, working.Fails, check.Verdict())
}

// TestIdleFailsWhereTheRoadPasses is what a check of the plate alone gets wrong.
func TestIdleFailsWhereTheRoadPasses(t *testing.T) {
	road, err := bus().CheckRoad(some("36"))
	require.NoError(t, err)
	idle, err := bus().CheckIdle(some("36"))
	require.NoError(t, err)
	assert.Equal(t, working.Passes, road.Verdict())
	assert.Equal(t, working.Fails, idle.Verdict())
	lost, ok := idle.Working.Value("I_def")
	assert.True(t, ok)
	assert.True(t, lost.Equal(d("39")), "Ah an hour out of the starter battery")
	factor, _ := idle.Working.Value("f_h")
	assert.True(t, factor.Equal(d("0.6")), "the worse of the two factors")
	assert.Equal(t, "from memory", idle.Working.Confidence().String())
}

// TestLimitsAreSharp: on a limit passes, a hundredth over fails.
func TestLimitsAreSharp(t *testing.T) {
	a := bus()
	a.HotFactor = some("0.8")
	for draw, want := range map[string]working.Verdict{"67": working.Passes, "67.01": working.Fails, "66.99": working.Passes} {
		c, err := a.CheckRoad(some(draw))
		require.NoError(t, err)
		assert.Equal(t, want, c.Verdict(), draw)
	}
	bank := charge.CombinedSources{LimitsA: []charge.NamedLimit{{Name: "one", CurrentA: d("50")}}}
	for amps, want := range map[string]working.Verdict{"50": working.Passes, "50.01": working.Fails} {
		bank.Supplies = []charge.Supply{{Name: "charger", CurrentA: d(amps)}}
		checks, err := bank.Checks()
		require.NoError(t, err)
		require.Len(t, checks, 1, "one battery has no second case")
		assert.Equal(t, want, checks[0].Verdict(), amps)
	}
	asleep := trigger()
	for volts, want := range map[string]working.Verdict{"13.3": working.Passes, "13.29": working.Fails} {
		c, err := asleep.Wakes(working.Figure{Value: d(volts)})
		require.NoError(t, err)
		assert.Equal(t, want, c.Verdict(), volts)
	}
	for volts, want := range map[string]working.Verdict{"12.79": working.Passes, "12.8": working.Fails} {
		c, err := asleep.Sleeps(working.Figure{Value: d(volts)})
		require.NoError(t, err)
		assert.Equal(t, want, c.Verdict(), volts)
	}
}

// TestTaperFollowsSimulation: with a source of constant current and the
// ampere-hour law alone, the simulation is the textbook's exponential: held so high
// that no law of the voltage has a part in it.
func TestTaperFollowsSimulation(t *testing.T) {
	b := charge.BatteryOnCharge{
		Chemistry: "lead-acid AGM", CapacityAh: d("100"), BatteryC: d("20"), ChargeA: some("30"), Cells: 6, Strings: 1, InternalMilliohm: d("1"),
		EMF:        []charge.EMFPoint{{SoCPercent: d("0"), EMFV: d("11.5")}, {SoCPercent: d("100"), EMFV: d("12.9")}},
		Efficiency: []charge.EfficiencyStep{{FromPercent: d("0"), Efficiency: d("1")}},
	}
	for _, left := range []string{"50", "30", "20", "6", "1"} {
		until, err := charge.Taper{MissingAh: d("60"), AcceptPerHour: d("1"), LimitA: d("30")}.Until(d(left))
		require.NoError(t, err)
		c, err := charge.Simulation{
			Battery: b, Source: charge.ChargingSource{CurrentA: d("30"), Efficiency: d("1")},
			Stages:       []charge.Stage{{Name: "boost", Letter: "U", VoltageV: some("20")}},
			StartPercent: d("40"), StopPercent: decimal.NewNullDecimal(d("100").Sub(d(left))), WithinH: d("20"), StepS: 60,
		}.Run()
		require.NoError(t, err)
		require.True(t, c.Reached)
		assert.InDelta(t, until.TimeH.InexactFloat64(), c.TimeH.InexactFloat64(), 1e-4, "until %s Ah are missing", left)
	}
}

// TestLoadsTakeFirst: a source weaker than the loads empties the battery, and the
// simulation says so.
func TestLoadsTakeFirst(t *testing.T) {
	s := overnight()
	s.LoadA, s.WithinH = d("60"), d("48")
	c, err := s.Run()
	require.NoError(t, err)
	assert.True(t, c.Flat)
	assert.False(t, c.Reached)
	// 40 % of 220 Ah at a net 35 A.
	assert.InDelta(t, 88.0/35, c.TimeH.InexactFloat64(), 1e-4)
}

// TestTraceIsRegular: a trace has its lines at the times asked for and no time
// twice but where a stage changes.
func TestTraceIsRegular(t *testing.T) {
	s := overnight()
	s.TraceEveryS = 1800
	c, err := s.Run()
	require.NoError(t, err)
	at := map[string]bool{}
	for i, line := range c.Trace {
		at[line.TimeH.String()] = true
		if i > 0 {
			assert.True(t, line.TimeH.GreaterThanOrEqual(c.Trace[i-1].TimeH))
			assert.True(t, line.SoCPercent.GreaterThanOrEqual(c.Trace[i-1].SoCPercent))
		}
	}
	for half := range 25 {
		assert.True(t, at[decimal.NewFromInt(int64(half)).Div(d("2")).String()], "half-hour %d", half)
	}
}

// TestBalanceCutOut: with a cut-out the bank stays above it, and the loads are
// shed instead.
func TestBalanceCutOut(t *testing.T) {
	v := workshopVan()
	v.Loads = append(v.Loads, charge.DutyPeriod{Name: "heater", CurrentA: d("6"), FromH: d("18"), ToH: d("24")})
	open, err := v.Run()
	require.NoError(t, err)
	v.CutOutPercent, v.ResumePercent = some("20"), some("30")
	shed, err := v.Run()
	require.NoError(t, err)
	assert.True(t, open.LeastPercent.LessThan(d("20")))
	assert.True(t, shed.LeastPercent.GreaterThan(d("19.9")))
	assert.True(t, shed.ShedH.IsPositive())
	assert.True(t, shed.LoadWh.LessThan(open.LoadWh))
	workingtest.Guard(t, shed.Working)
}

// TestChecksShowWeakSources: a check on remembered or unpublished figures says so.
func TestChecksShowWeakSources(t *testing.T) {
	checks, err := charge.Refill{Chemistry: "LiFePO4", MissingAh: d("80"), CurrentA: d("40"), LoadA: some("0")}.Checks(d("3"))
	require.NoError(t, err)
	assert.Equal(t, "from memory", checks[0].Working.Confidence().String())
}

// TestRefusesAllAtOnce: every fault of a question is named, with its path.
func TestRefusesAllAtOnce(t *testing.T) {
	s := overnight()
	s.Battery.CapacityAh, s.Battery.Chemistry = d("0"), "alkaline"
	s.Battery.EMF[1].EMFV = d("11")
	s.Source.Efficiency = d("1.2")
	s.Stages[1] = charge.Stage{Name: "absorption", Letter: "X"}
	s.StepS = 0
	_, err := s.Run()
	for _, want := range []string{
		`battery.chemistry is "alkaline": want one of`, "battery.capacity_ah is 0", "battery.emf[1] is 50 %, 11 V",
		"source.source_efficiency is 1.2", `stages[1].letter is "X"`, "stages[1].tail_a is unset", "step_s is 0",
	} {
		assert.ErrorContains(t, err, want)
	}
	_, err = charge.Characteristic{Letters: "WoWa", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("100")}.Stages(d("20"))
	assert.ErrorContains(t, err, "a W part follows the mains")
	_, err = charge.Characteristic{Letters: "IUx", Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("100")}.Stages(d("20"))
	assert.ErrorContains(t, err, `characteristic is "IUx": want one of`)
	_, err = charge.Refill{Chemistry: "lead-acid", MissingAh: d("10"), CurrentA: d("5"), LoadA: some("5")}.Times()
	assert.ErrorContains(t, err, "more than the loads that run, 5 A")
	_, err = charge.BatteryOnCharge{Chemistry: "NMC", CapacityAh: d("100"), BatteryC: d("20")}.Acceptance(d("50"))
	assert.ErrorContains(t, err, "charge_limit_a is unset")
	b := workshopVan()
	b.Sources[0].ToH = d("5")
	b.CutOutPercent = some("20")
	_, err = b.Run()
	assert.ErrorContains(t, err, "sources[0].to_h is 5: want later than from_h")
	assert.ErrorContains(t, err, "resume_percent is one of the two")
}

// TestEveryCharacteristicRuns: each set of letters that gives stages gives ones
// that a simulation takes.
func TestEveryCharacteristicRuns(t *testing.T) {
	for _, letters := range []string{"I", "Ia", "U", "IU", "IUIa", "IUoU"} {
		p, err := charge.Characteristic{
			Letters: letters, Chemistry: "lead-acid flooded", Cells: 6, CapacityAh: d("220"),
			FinishA: some("4"), FinishH: some("2"),
		}.Stages(d("15"))
		require.NoError(t, err, letters)
		if len(p.Working) > 0 {
			workingtest.Guard(t, p.Working)
		}
		s := overnight()
		s.Stages, s.WithinH = p.Stages, d("48")
		c, err := s.Run()
		require.NoError(t, err, letters)
		assert.True(t, c.EndPercent.GreaterThan(s.StartPercent), letters)
		workingtest.Guard(t, c.Working)
	}
}

// TestEveryCheckHolds: each check's working passes the guard and both sides of it
// have a name and a unit.
func TestEveryCheckHolds(t *testing.T) {
	var all []working.Check
	add := func(c working.Check, err error) {
		t.Helper()
		require.NoError(t, err)
		all = append(all, c)
	}
	add(lithium().ColdCharge(some("-5"), some("1")))
	add(bus().CheckIdle(some("36")))
	add(bus().CheckRoad(some("36")))
	add(trigger().Wakes(working.Figure{Value: d("13.8")}))
	add(trigger().StaysAwake(working.Figure{Value: d("13.8")}))
	add(trigger().Sleeps(working.Figure{Value: d("12.7")}))
	add(charge.CentreTap{TapA: d("3"), TapH: d("9"), EqualiserA: d("1")}.Check())
	cold, err := module().ColdVoltage(some("-10"), 1)
	require.NoError(t, err)
	add(cold.CheckController(d("50")))
	ledger, err := workshopVan().Run()
	require.NoError(t, err)
	add(ledger.Check(some("20")))
	together, err := charge.CombinedSources{
		Supplies: []charge.Supply{{Name: "a", CurrentA: d("30")}, {Name: "b", CurrentA: d("20")}},
		LimitsA:  []charge.NamedLimit{{Name: "1", CurrentA: d("30")}, {Name: "2", CurrentA: d("40")}}, BusbarA: some("100"),
	}.Checks()
	require.NoError(t, err)
	require.Len(t, together, 4)
	refill, err := charge.Refill{Chemistry: "NiCd", MissingAh: d("10"), CurrentA: d("5"), LoadA: some("1")}.Checks(d("4"))
	require.NoError(t, err)
	for _, c := range append(append(all, together...), refill...) {
		workingtest.Guard(t, c.Working)
		assert.Contains(t, []working.Verdict{working.Passes, working.Fails}, c.Verdict(), c.Title)
		assert.NotEmpty(t, c.Asks, c.Title)
		assert.NotEmpty(t, c.Allows, c.Title)
		assert.NotEmpty(t, c.Unit, c.Title)
	}
}

// TestChargePlaces: no figure of a charge promises more places than its doc comment,
// 0.0001 h and 0.001 Wh.
func TestChargePlaces(t *testing.T) {
	c, err := overnight().Run()
	require.NoError(t, err)
	hours := []decimal.Decimal{c.TimeH}
	for _, m := range c.Marks {
		hours = append(hours, m.TimeH.Decimal)
	}
	for _, h := range hours {
		assert.GreaterOrEqual(t, h.Exponent(), int32(-4), h)
	}
	for _, wh := range []decimal.Decimal{c.InWh, c.StoredWh, c.LoadWh, c.LostWh, c.EndPercent} {
		assert.GreaterOrEqual(t, wh.Exponent(), int32(-3), wh)
	}
}
