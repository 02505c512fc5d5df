package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func guarded(t *testing.T, checks []working.Check, err error) []string {
	t.Helper()
	require.NoError(t, err)
	for _, c := range checks {
		if c.Working != nil {
			workingtest.Guard(t, c.Working)
		}
	}
	return verdicts(checks)
}

func one(c working.Check, err error) ([]working.Check, error) { return []working.Check{c}, err }

// TestBreakingCapacity: ISO 8820-3 asks for 1 kA at 32 or 58 V, ISO 10924-4 for
// 2 kA at 14, 28 or 58 V.
func TestBreakingCapacity(t *testing.T) {
	blade := protect.BreakingDuty{GreatestFaultA: some("1000"), HighestV: d("29"), Family: "ISO 8820-3 C"}
	over := blade
	over.GreatestFaultA = some("1000.1")
	high := blade
	high.HighestV = d("40")
	marked := high
	marked.RatedV = some("32")
	marked58 := high
	marked58.RatedV = some("58")
	unknown := protect.BreakingDuty{GreatestFaultA: some("10"), HighestV: d("14.4"), Family: "SAE J554"}
	breaker := protect.BreakingDuty{GreatestFaultA: some("1500"), HighestV: d("14.6"), Family: "ISO 10924-4 CB15"}
	own := protect.BreakingDuty{GreatestFaultA: some("3000"), HighestV: d("29"), BreaksA: some("5000"), BreaksAtV: some("29"), RatedV: some("29")}
	low := own
	low.BreaksAtV = some("28.9")
	beyond := low
	beyond.GreatestFaultA = some("5001")
	backed := over // tested to 5 kA at 32 V behind another
	backed.BackedUpA, backed.BackedUpAtV = some("5000"), some("32")
	backedTooLow := backed
	backedTooLow.HighestV = d("32.1")
	backedBeyond := backed
	backedBeyond.GreatestFaultA = some("5001")
	backedForLess := blade
	backedForLess.BackedUpA, backedForLess.BackedUpAtV = some("500"), some("32")
	over70 := protect.BreakingDuty{GreatestFaultA: some("10"), HighestV: d("70"), Family: "ISO 8820-3 C"}
	for _, c := range []struct {
		name string
		at   protect.BreakingDuty
		want []string
	}{
		{"on the limit", blade, []string{"P04 passes", "P05 passes"}},
		{"over it", over, []string{"P04 fails", "P05 passes"}},
		{"version not marked", high, []string{"P04 passes", "P05 cannot tell"}},
		{"marked 32 V", marked, []string{"P04 cannot tell", "P05 fails"}},
		{"marked 58 V", marked58, []string{"P04 passes", "P05 passes"}},
		{"capacity not known", unknown, []string{"P04 cannot tell", "P05 passes"}},
		{"breaker made for 14, 28 and 58 V", breaker, []string{"P04 passes", "P05 cannot tell"}},
		{"data sheet", own, []string{"P04 passes", "P05 passes"}},
		{"data sheet at a lower voltage", low, []string{"P04 cannot tell", "P05 passes"}},
		{"that fails even there", beyond, []string{"P04 fails", "P05 passes"}},
		{"tested behind another", backed, []string{"P04 passes", "P05 passes"}},
		{"sound by itself, tested for less", backedForLess, []string{"P04 passes", "P05 passes"}},
		{"tested so at a lower voltage", backedTooLow, []string{"P04 fails", "P05 cannot tell"}},
		{"over what was tested", backedBeyond, []string{"P04 fails", "P05 passes"}},
		{"above every version", over70, []string{"P04 cannot tell", "P05 fails"}},
	} {
		checks, err := c.at.Checks()
		assert.Equal(t, c.want, guarded(t, checks, err), c.name)
	}
	_, err := protect.BreakingDuty{GreatestFaultA: some("-1"), BreaksA: some("5"), BackedUpA: some("6")}.Checks()
	assert.Len(t, working.Inputs(err), 4)
	_, err = protect.BreakingDuty{HighestV: d("12"), Family: "none"}.Checks()
	assert.Len(t, working.Inputs(err), 2, "a family that no table has hides no other fault")
}

// TestUnknownCapacityIsNeverAPass on any bank, at any fault.
func TestUnknownCapacityIsNeverAPass(t *testing.T) {
	for _, family := range tables.Families() {
		known := false
		for _, b := range family.Breaking {
			known = known || b.CapacityA.Valid && b.AtV.Valid
		}
		checks, err := protect.BreakingDuty{GreatestFaultA: some("10"), HighestV: d("12"), Family: family.Name}.Checks()
		require.NoError(t, err)
		assert.Equal(t, known, checks[0].Verdict() == working.Passes, family.Name)
		if !known {
			assert.Contains(t, checks[0].Missing, "ask the maker for the capacity at your voltage")
		}
	}
}

// TestUnknownFaultIsNoFaultOfNought: a fault current that nobody worked out is asked
// for, and one of 0 A on a lithium bank is not believed: such banks drive thousands of
// amperes. Where no lithium feeds the device nought is a solver's answer: nothing
// reaches it.
func TestUnknownFaultIsNoFaultOfNought(t *testing.T) {
	duty := protect.BreakingDuty{HighestV: d("14.4"), Family: "ISO 8820-3 C", BackedUpA: some("5000"), BackedUpAtV: some("32")}
	_, err := duty.Checks()
	require.Len(t, working.Inputs(err), 1)
	assert.Equal(t, "greatest_fault_a", working.Inputs(err)[0].Field)
	duty.GreatestFaultA = some("0")
	checks, err := duty.Checks()
	assert.Equal(t, []string{"P04 cannot tell", "P05 passes"}, guarded(t, checks, err))
	duty.NoLithium = true
	checks, err = duty.Checks()
	assert.Equal(t, []string{"P04 passes", "P05 passes"}, guarded(t, checks, err))
}

// TestForgottenDemandsAreAskedFor: nought is a real length and a real current, and
// none stated is neither.
func TestForgottenDemandsAreAskedFor(t *testing.T) {
	_, err := protect.Place{Sheathed: true}.Check(rulesOf("us-boat").Place)
	require.Len(t, working.Inputs(err), 1)
	assert.Equal(t, "source_to_device_mm", working.Inputs(err)[0].Field)
	bolted, err := protect.Place{AlongMM: some("0")}.Check(rulesOf("us-boat").Place)
	assert.Equal(t, []string{"P06 passes"}, guarded(t, []working.Check{bolted}, err), "bolted to the post")
	_, err = protect.Isolator{RatingA: d("100")}.Checks()
	require.Len(t, working.Inputs(err), 1)
	assert.Equal(t, "current_a", working.Inputs(err)[0].Field)
	_, err = protect.ConnectedUnit{Code: "C"}.Checks()
	assert.Len(t, working.Inputs(err), 2)
	_, err = protect.SmallWire{RatingA: d("20")}.Check(rulesOf("us-rv").Device)
	require.Len(t, working.Inputs(err), 1)
	assert.Equal(t, "size", working.Inputs(err)[0].Field)
}

// TestEveryFaultAtOnce: a word that no table has hides no number that is wrong.
func TestEveryFaultAtOnce(t *testing.T) {
	_, err := protect.Need{DesignA: d("-1"), AmpacityA: d("0")}.Window(tables.DeviceRule{}, "none")
	assert.Len(t, working.Inputs(err), 3)
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.Switch{Load: "none", RatingA: d("-1")}.Check()
	assert.Len(t, working.Inputs(err), 4)
	_, err = protect.ConnectedUnit{Code: "Z", GreatestSupplyV: d("-1"), LeastSupplyV: some("9")}.Checks()
	assert.Len(t, working.Inputs(err), 2)
	_, err = protect.SupplyTest{Kind: "none", SurvivesV: some("-1")}.Check()
	assert.Len(t, working.Inputs(err), 3)
	_, err = protect.LoadDump{NominalV: d("13"), SurvivesV: some("-1")}.Check()
	assert.Len(t, working.Inputs(err), 2)
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.Precharge{LimitA: d("0.0001")}.Resistor()
	assert.Len(t, working.Inputs(err), 3)
}

// TestRulesAreCitedWhereTheyStand: the clause on devices that a set does not have is
// not cited for it. 33 CFR 183.455(a) is published and holds for its own set; of the
// others their clause on the device's place is what a deduction is made from.
func TestRulesAreCitedWhereTheyStand(t *testing.T) {
	for _, set := range tables.RuleSets() {
		c, err := protect.ConductorEnd{AmpacityA: d("50"), Fitted: true}.Check(set.Place)
		require.NoError(t, err)
		due := c.Working[0]
		assert.Equal(t, set.Key == "us-boat", due.Source.Key == cite.CFR33.Key, set.Key)
		assert.Contains(t, due.Note, "deduced", set.Key)
		if set.Key == "us-boat" {
			assert.Equal(t, "183.455(a)", due.Source.Where)
			assert.Equal(t, cite.Published, due.Source.Confidence)
		}
		n := need(d("9"), d("24"))
		w, err := n.Window(set.Device, "NFPA 70 240.6(A)")
		require.NoError(t, err)
		for _, c := range w.Checks(d("15"))[:3] {
			for _, s := range c.Working {
				assert.False(t, set.Key != "european" && s.Source.Key == cite.IEC6036443.Key, "%s %s cites %s", set.Key, c.ID, s.Source)
			}
		}
		p := protect.Parallel{Cables: 2, AmpacityA: d("9"), RatingA: d("9"), Identical: true}
		checks, err := p.Checks(set.Device)
		require.NoError(t, err)
		for _, s := range checks[0].Working {
			assert.False(t, set.Key != "european" && s.Source.Key == cite.IEC6036443.Key, "%s P24 cites %s", set.Key, s.Source)
		}
	}
	c, err := protect.ConductorEnd{AmpacityA: d("50")}.Check(tables.PlaceRule{})
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict(), "a source conductor without a device fails without a rule set too")
	assert.Equal(t, cite.CommonPractice, c.Working[0].Source.Confidence)
}

func TestCrankingTableEdges(t *testing.T) {
	for cca, want := range map[string]string{"650": "1500", "650.5": "3000", "651": "3000", "1100": "3000", "1101": "5000", "9000": "5000"} {
		c, err := protect.ByCranking(d("12"), d(cca))
		require.NoError(t, err)
		assert.Equal(t, want, c.MainA.String(), cca)
		assert.True(t, c.BranchA.Mul(d("2")).Equal(c.MainA))
	}
	_, err := protect.ByCranking(d("48"), d("600"))
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.ByCranking(d("0"), d("0"))
	assert.Len(t, working.Inputs(err), 2)
}

// TestPlaceEdges: 33 CFR 183.455 allows as much as 7 in; AS/NZS 3001.2 wants
// less than 1 m; IEC 60364-4-43, 433.2.2 and 434.2.1, allow 3 m, from memory.
func TestPlaceEdges(t *testing.T) {
	for _, c := range []struct {
		set                 string
		along               string
		sheathed, atBattery bool
		want                string
	}{
		{"us-boat", "177.8", false, false, "P06 passes"},
		{"us-boat", "177.9", false, false, "P06 fails"},
		{"us-boat", "1828.8", false, true, "P06 fails"},
		{"us-boat", "1016", true, false, "P06 passes"},
		{"us-boat", "1016.1", true, false, "P06 fails"},
		{"us-boat", "1828.8", true, true, "P06 passes"},
		{"us-boat", "1828.9", true, true, "P06 fails"},
		{"au-nz", "200", false, true, "P06 passes"},
		{"au-nz", "201", false, true, "P06 fails"},
		{"au-nz", "999.9", true, true, "P06 passes"},
		{"au-nz", "1000", true, true, "P06 fails"},
		{"iso-craft", "201", true, true, "P06 fails"},
		{"european", "200", false, true, "P06 passes"},
		{"european", "201", false, true, "P06 fails"},
		{"european", "3000", true, true, "P06 passes"},
		{"european", "3001", true, true, "P06 fails"},
	} {
		set := rulesOf(c.set)
		place := protect.Place{AlongMM: some(c.along), Sheathed: c.sheathed, AtBattery: c.atBattery, SetName: set.Name}
		checks, err := one(place.Check(set.Place))
		assert.Equal(t, []string{c.want}, guarded(t, checks, err), "%s %s mm", c.set, c.along)
	}
	_, err := protect.Place{AlongMM: some("-1")}.Check(tables.PlaceRule{})
	assert.Len(t, working.Inputs(err), 1)
}

func TestEnds(t *testing.T) {
	for _, c := range []struct {
		end  protect.ConductorEnd
		want string
	}{
		{protect.ConductorEnd{AmpacityA: d("50"), Fitted: true}, "P07 passes"},
		{protect.ConductorEnd{AmpacityA: d("50")}, "P07 fails"},
		{protect.ConductorEnd{AmpacityA: d("50"), Cranking: true}, "P07 not applicable"},
		{protect.ConductorEnd{AmpacityA: d("50"), Cranking: true, Fitted: true}, "P07 passes"},
		{protect.ConductorEnd{AmpacityA: d("50"), LimitA: some("50")}, "P07 passes"},
		{protect.ConductorEnd{AmpacityA: d("50"), LimitA: some("50.1")}, "P07 fails"},
		{protect.ConductorEnd{AmpacityA: d("50"), LimitA: some("50.1"), Fitted: true}, "P07 passes"},
	} {
		checks, err := one(c.end.Check(rulesOf("us-boat").Place))
		assert.Equal(t, []string{c.want}, guarded(t, checks, err), "%+v", c.end)
	}
	_, err := protect.ConductorEnd{LimitA: some("-1")}.Check(tables.PlaceRule{})
	assert.Len(t, working.Inputs(err), 2)
}

func TestSwitches(t *testing.T) {
	lamp := func(v, i, rating string) protect.Switch {
		return protect.Switch{SystemV: d(v), CurrentA: d(i), Load: "lamp", RatingA: d(rating)}
	}
	for _, c := range []struct {
		is   protect.Switch
		want string
	}{
		{lamp("12", "4", "20"), "P14 passes"}, {lamp("12", "4", "19.9"), "P14 fails"},
		{lamp("24", "4", "32"), "P14 passes"}, {lamp("24", "4", "31.9"), "P14 fails"},
		{lamp("13", "4", "31.9"), "P14 fails"},
	} {
		checks, err := one(c.is.Check())
		assert.Equal(t, []string{c.want}, guarded(t, checks, err), "%+v", c.is)
	}
	_, err := lamp("48", "4", "50").Check()
	assert.ErrorIs(t, err, tables.ErrOutside)
	_, err = protect.Switch{SystemV: d("12"), CurrentA: d("1"), Load: "heater"}.Check()
	assert.Len(t, working.Inputs(err), 1)

	checks, err := protect.Isolator{CurrentA: some("200"), RatingA: d("200"), StartA: some("500"), ShortTimeA: some("499")}.Checks()
	assert.Equal(t, []string{"P15 passes", "P16 fails"}, guarded(t, checks, err))
	for start, want := range map[decimal.NullDecimal]string{some("0"): "P16 not applicable", {}: "P16 cannot tell"} {
		checks, err = protect.Isolator{CurrentA: some("200.1"), RatingA: d("200"), StartA: start}.Checks()
		assert.Equal(t, []string{"P15 fails", want}, guarded(t, checks, err))
	}
	for start, want := range map[decimal.NullDecimal]string{some("0"): "P14 not applicable", {}: "P14 cannot tell", some("9"): "P14 passes", some("9.1"): "P14 fails"} {
		checks, err = one(protect.Switch{RatingA: d("6"), StartA: start}.Start())
		assert.Equal(t, []string{want}, guarded(t, checks, err))
	}
}

// TestPrecharge: i = U/R, W = C U²/2 and 1 − e⁻³ = 0.950 of the voltage after
// 3 RC, by any textbook. 13.3 V, 20 mF and 10 Ω are 1.33 A, 1.77 J and 0.6 s.
func TestPrecharge(t *testing.T) {
	r, err := protect.Precharge{HighestV: d("13.3"), CapacitanceUF: d("20000"), LimitA: d("1.33")}.Resistor()
	require.NoError(t, err)
	workingtest.Guard(t, r.Working)
	assert.Equal(t, []string{"10", "1.33", "17.69", "1.7689", "0.6"},
		[]string{r.Ohm.String(), r.PeakA.String(), r.PeakW.String(), r.EnergyJ.String(), r.TimeS.String()})
	for _, limit := range []string{"0.3", "0.7", "7", "13.4", "900"} {
		r, err := protect.Precharge{HighestV: d("29.2"), CapacitanceUF: d("4700"), LimitA: d(limit)}.Resistor()
		require.NoError(t, err)
		workingtest.Guard(t, r.Working)
		assert.True(t, r.PeakA.LessThanOrEqual(d(limit)), limit)
	}
}

func TestSupply(t *testing.T) {
	for _, c := range []struct {
		unit protect.ConnectedUnit
		want []string
	}{
		{protect.ConnectedUnit{LeastSupplyV: some("9"), GreatestSupplyV: d("16"), Code: "C"}, []string{"P17 passes", "P18 passes"}},
		{protect.ConnectedUnit{LeastSupplyV: some("8.9"), GreatestSupplyV: d("16.1"), Code: "C"}, []string{"P17 fails", "P18 fails"}},
		{protect.ConnectedUnit{LeastSupplyV: some("22"), GreatestSupplyV: d("29"), Code: "F"}, []string{"P17 passes", "P18 passes"}},
		{protect.ConnectedUnit{LeastSupplyV: some("11"), GreatestSupplyV: d("15")}, []string{"P17 cannot tell", "P18 cannot tell"}},
		{protect.ConnectedUnit{LeastSupplyV: some("8"), GreatestSupplyV: d("15"), Code: "C", LeastV: some("8")}, []string{"P17 passes", "P18 passes"}},
	} {
		checks, err := c.unit.Checks()
		assert.Equal(t, c.want, guarded(t, checks, err), "%+v", c.unit)
	}
	_, err := protect.ConnectedUnit{Code: "Z"}.Checks()
	assert.Len(t, working.Inputs(err), 3)
	_, err = protect.ConnectedUnit{LeastSupplyV: some("2"), GreatestSupplyV: d("1")}.Checks()
	assert.Len(t, working.Inputs(err), 1)
	for _, c := range []struct {
		dump protect.LoadDump
		want string
	}{
		{protect.LoadDump{NominalV: d("24"), SurvivesV: some("202")}, "P19 passes"},
		{protect.LoadDump{NominalV: d("24"), SurvivesV: some("201")}, "P19 fails"},
		{protect.LoadDump{NominalV: d("12"), Suppressed: true, SurvivesV: some("35")}, "P19 passes"},
		{protect.LoadDump{NominalV: d("12"), Suppressed: true}, "P19 cannot tell"},
	} {
		checks, err := one(c.dump.Check())
		assert.Equal(t, []string{c.want}, guarded(t, checks, err), "%+v", c.dump)
	}
	for _, c := range []struct{ volts, kind, survives, want string }{
		{"12", "reversed voltage", "14", "P28 passes"}, {"12", "reversed voltage", "13.9", "P28 fails"}, {"24", "reversed voltage", "28", "P28 passes"},
		{"12", "jump start", "24", "P28 passes"}, {"12", "jump start", "23", "P28 fails"},
		{"24", "long overvoltage", "36", "P28 passes"}, {"12", "long overvoltage", "17", "P28 fails"},
	} {
		checks, err := one(protect.SupplyTest{NominalV: d(c.volts), Kind: c.kind, SurvivesV: some(c.survives)}.Check())
		assert.Equal(t, []string{c.want}, guarded(t, checks, err), "%+v", c)
	}
	checks, err := one(protect.SupplyTest{NominalV: d("12"), Kind: "jump start"}.Check())
	assert.Equal(t, []string{"P28 cannot tell"}, guarded(t, checks, err))
	_, err = protect.SupplyTest{NominalV: d("24"), Kind: "jump start"}.Check()
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.SupplyTest{Kind: "hail"}.Check()
	assert.Len(t, working.Inputs(err), 2)
	_, err = protect.LoadDump{NominalV: d("36")}.Check()
	assert.ErrorIs(t, err, tables.ErrNotListed)
}

// TestStrings: two strings of 10.5 A push 13.1 A back, three push 26.3 A; a
// plate limit of 20 A bears the first. 1.5625 × 10.5 = 16.41 A.
func TestStrings(t *testing.T) {
	s := func(n int, fitted, plate decimal.NullDecimal) protect.SolarArray {
		return protect.SolarArray{Count: n, ShortA: d("10.5"), FittedA: fitted, ModuleFuseA: plate}
	}
	none := decimal.NullDecimal{}
	for _, c := range []struct {
		is   protect.SolarArray
		want []string
	}{
		{s(1, none, none), []string{"P20 not applicable", "P21 not applicable", "P22 not applicable"}},
		{s(2, none, some("20")), []string{"P20 passes", "P21 not applicable", "P22 not applicable"}},
		{s(3, none, some("20")), []string{"P20 fails", "P21 not applicable", "P22 not applicable"}},
		{s(3, none, none), []string{"P20 cannot tell", "P21 not applicable", "P22 not applicable"}},
		{s(3, some("20"), some("20")), []string{"P20 not applicable", "P21 passes", "P22 passes"}},
		{s(3, some("16"), some("15")), []string{"P20 not applicable", "P21 fails", "P22 fails"}},
		{s(3, some("20"), none), []string{"P20 not applicable", "P21 passes", "P22 cannot tell"}},
	} {
		checks, err := c.is.Checks()
		assert.Equal(t, c.want, guarded(t, checks, err), "%+v", c.is)
	}
	_, err := protect.SolarArray{}.Checks()
	assert.Len(t, working.Inputs(err), 2)
	_, err = s(2, none, none).LeastRating(3)
	assert.Len(t, working.Inputs(err), 1)
}

// TestProtectiveArea: IEC 60364-5-54 table 54.2 at and round its steps.
func TestProtectiveArea(t *testing.T) {
	for line, want := range map[string]string{"2.5": "2.5", "16": "16", "16.1": "16", "25": "16", "35": "16", "50": "25", "120": "60"} {
		a, err := protect.ProtectiveArea(d(line))
		require.NoError(t, err)
		workingtest.Guard(t, a.Working)
		assert.Equal(t, want, a.AreaMM2.String(), line)
	}
	_, err := protect.ProtectiveArea(d("0"))
	assert.Len(t, working.Inputs(err), 1)
}

func TestSmallAndParallel(t *testing.T) {
	for _, c := range []struct{ size, rating, code, want string }{
		{"AWG 14", "15", "nec-small", "P23 passes"}, {"AWG 14", "15.1", "nec-small", "P23 fails"},
		{"AWG 18", "8", "nec-rv", "P23 fails"}, {"AWG 6", "200", "nec-rv", "P23 not applicable"},
		{"2.5 mm2", "40", "nec-rv", "P23 not applicable"}, {"SAE 14", "40", "nec-rv", "P23 not applicable"},
	} {
		checks, err := one(protect.SmallWire{Size: sizeOf(c.size), RatingA: d(c.rating)}.Check(small(c.code)))
		assert.Equal(t, []string{c.want}, guarded(t, checks, err), "%+v", c)
	}
	c, err := protect.SmallWire{Size: sizeOf("AWG 14"), RatingA: d("40")}.Check(rulesOf("european").Device)
	require.NoError(t, err)
	assert.Equal(t, working.NotApplicable, c.Verdict())
	_, err = protect.SmallWire{}.Check(tables.DeviceRule{})
	assert.Len(t, working.Inputs(err), 2)

	p := protect.Parallel{Cables: 2, AmpacityA: d("150"), RatingA: d("300"), Identical: true}
	parallel := func(set string) []string {
		checks, err := p.Checks(rulesOf(set).Device)
		return guarded(t, checks, err)
	}
	assert.Equal(t, []string{"P24 passes"}, parallel("european"))
	p.RatingA = d("300.1")
	assert.Equal(t, []string{"P24 fails"}, parallel("european"))
	assert.Equal(t, []string{"P24 passes", "P24 fails"}, parallel("us-boat"), "150 % by name, and no more than the cables carry overall")
	p.RatingA, p.Identical = d("151"), false
	assert.Equal(t, []string{"P24 fails"}, parallel("european"), "cables that differ do not share evenly")
	assert.Equal(t, []string{"P24 not applicable", "P24 fails"}, parallel("au-nz"))
	p.RatingA = d("150")
	assert.Equal(t, []string{"P24 not applicable", "P24 passes"}, parallel("au-nz"))
	_, err = protect.Parallel{Cables: 1}.Checks(tables.DeviceRule{})
	assert.Len(t, working.Inputs(err), 3)
}

func TestDeratingEnds(t *testing.T) {
	for _, c := range []struct{ family, rating, ambient, want string }{
		{"ISO 8820-3 E", "40", "-30", "40"}, {"ISO 8820-3 E", "40", "66", "30"},
		{"IEC 60269 gG", "100", "40", "100"}, {"IEC 60269 gG", "100", "41", "99.5"}, {"IEC 60269 gG", "630", "50", "539.91"},
	} {
		a, err := protect.Device{Family: c.family, RatingA: d(c.rating)}.Carries(d(c.ambient))
		require.NoError(t, err)
		workingtest.Guard(t, a.Working)
		assert.Equal(t, c.want, a.CurrentA.String(), "%+v", c)
	}
	for _, c := range []struct{ family, rating, ambient string }{
		{"ISO 8820-3 E", "40", "126"}, {"IEC 60269 gG", "630", "51"}, {"EEE-INST-002 cartridge", "10", "126"},
	} {
		_, err := protect.Device{Family: c.family, RatingA: d(c.rating)}.Carries(d(c.ambient))
		assert.ErrorIs(t, err, tables.ErrOutside, "%+v", c)
	}
	_, err := protect.Device{Family: "ISO 8820-3 C", RatingA: d("10")}.Carries(d("60"))
	assert.ErrorIs(t, err, tables.ErrNotListed)
	_, err = protect.Device{}.Carries(d("200"))
	assert.Len(t, working.Inputs(err), 2)
}
