package protect_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// windowFamilies are those with standard ratings.
var windowFamilies = []string{
	"ISO 8820-3 C", "ISO 8820-3 E", "ISO 8820-5 SF51", "IEC 60269 gG", "IEC 60898-1 C", "NFPA 70 240.6(A)", "ISO 8820-6",
}

func verdicts(checks []working.Check) []string {
	var all []string
	for _, c := range checks {
		all = append(all, c.ID+" "+c.Verdict().String())
	}
	return all
}

// TestRatingBetweenLoadAndAmpacityIsNotEnough: IEC 60364-4-43 clause 433.1 has
// two conditions, and a gG link from 16 A (I2 = 1.6 In, IEC 60269-1 table 2) can
// meet the first and break the second. Limits by hand: 0.90625 × 27.5 = 24.92 A,
// 0.90625 × 27.6 = 25.01 A.
func TestRatingBetweenLoadAndAmpacityIsNotEnough(t *testing.T) {
	for ampacity, want := range map[string][]string{
		"27.5": {"P01 passes", "P02 passes", "P03 fails"},
		"27.6": {"P01 passes", "P02 passes", "P03 passes"},
		"24.9": {"P01 passes", "P02 fails", "P03 fails"},
	} {
		n := protect.Need{DesignA: d("22"), AmpacityA: d(ampacity), Brief: true}
		w, err := n.Window(rulesOf("european").Device, "IEC 60269 gG")
		require.NoError(t, err)
		assert.Empty(t, cmp.Diff(want, verdicts(w.Checks(d("25")))), ampacity)
		assert.Equal(t, want[2] == "P03 passes", w.BestA.Valid, ampacity)
	}
}

// TestWantedAmpacityIsTheLeastThatDoes: with the ampacity that the answer wants
// the rating fits, and with a thousandth less it does not.
func TestWantedAmpacityIsTheLeastThatDoes(t *testing.T) {
	for _, family := range windowFamilies {
		for _, load := range []string{"3", "12.3", "22", "61", "199"} {
			n := protect.Need{DesignA: d(load), AmpacityA: d(load), Brief: true}
			w, err := n.Window(rulesOf("european").Device, family)
			require.NoError(t, err)
			if !w.WantsAmpacityA.Valid {
				continue
			}
			n.AmpacityA = w.WantsAmpacityA.Decimal
			wider, err := n.Window(rulesOf("european").Device, family)
			require.NoError(t, err)
			require.True(t, wider.BestA.Valid, "%s %s A", family, load)
			assert.True(t, wider.BestA.Decimal.Equal(w.CarriesA.Decimal))
			n.AmpacityA = n.AmpacityA.Sub(d("0.001"))
			narrower, err := n.Window(rulesOf("european").Device, family)
			require.NoError(t, err)
			assert.False(t, narrower.BestA.Valid, "%s %s A", family, load)
		}
	}
}

// TestWindowAgreesWithItsChecks: a standard rating is inside exactly where no
// check of it fails; the best is the smallest inside, and lies between the two
// sides shown.
func TestWindowAgreesWithItsChecks(t *testing.T) {
	for _, set := range tables.RuleSets() {
		for _, family := range windowFamilies {
			ratings, err := tables.Ratings(family)
			require.NoError(t, err)
			for load := int64(1); load < 400; load += 37 {
				for ampacity := load; ampacity < 3*load; ampacity += load/2 + 1 {
					n := protect.Need{
						DesignA: decimal.NewFromInt(load), AmpacityA: decimal.NewFromInt(ampacity),
						Brief: load%2 != 0, SetName: set.Name,
					}
					w, err := n.Window(set.Device, family)
					require.NoError(t, err)
					workingtest.Guard(t, w.Working)
					agree(t, w, ratings)
				}
			}
		}
	}
}

func agree(t *testing.T, w protect.Window, ratings []working.Figure) {
	t.Helper()
	inside, allowed := []decimal.Decimal{}, []decimal.Decimal{}
	for _, r := range ratings {
		checks := w.Checks(r.Value)
		if !fails(t, checks) {
			inside = append(inside, r.Value)
		}
		if !fails(t, checks[:3]) {
			allowed = append(allowed, r.Value)
		}
	}
	require.Empty(t, cmp.Diff(inside, w.InsideA))
	require.Empty(t, cmp.Diff(allowed, w.AllowedA))
	if w.BestA.Valid {
		assert.True(t, w.BestA.Decimal.Equal(inside[0]))
		assert.True(t, w.LeastA.LessThanOrEqual(inside[0]))
		assert.True(t, w.GreatestA.GreaterThanOrEqual(inside[len(inside)-1]))
	}
	if w.GreatestAllowedA.Valid && len(allowed) > 0 {
		assert.True(t, w.GreatestAllowedA.Decimal.GreaterThanOrEqual(allowed[len(allowed)-1]))
	}
}

func fails(t *testing.T, checks []working.Check) (any bool) {
	t.Helper()
	for _, c := range checks {
		any = any || c.Verdict() == working.Fails
		assert.False(t, c.Verdict() == working.Passes && c.Margin().IsNegative())
	}
	return any
}

// TestNothingInsideIsAboveTheAmpacity: whatever the rule set allows or leaves out, a
// rating above what the conductor carries is none to fit (IEC 60364-4-43 clause
// 433.1: I_n ≤ I_z). On a cable of 26 A a set without an upper side allows 40 A, and
// 33 CFR 183.455(c)(1) 150 % of it: 39 A.
func TestNothingInsideIsAboveTheAmpacity(t *testing.T) {
	for _, set := range tables.RuleSets() {
		for _, family := range windowFamilies {
			w, err := need(d("6"), d("26")).Window(set.Device, family)
			require.NoError(t, err)
			for _, a := range w.InsideA {
				assert.True(t, a.LessThanOrEqual(d("26")), "%s %s: %s A", set.Key, family, a)
			}
			assert.True(t, w.GreatestA.LessThanOrEqual(d("26")), "%s %s", set.Key, family)
			checks := w.Checks(d("40"))
			i, ok := working.Strictest(checks...)
			require.True(t, ok)
			assert.Equal(t, working.Fails, checks[i].Verdict(), "%s %s", set.Key, family)
		}
	}
	silent, err := need(d("6"), d("26")).Window(rulesOf("us-rv").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.Equal(t, "40", silent.AllowedA[len(silent.AllowedA)-1].String())
	assert.Equal(t, "25", silent.InsideA[len(silent.InsideA)-1].String())
	assert.False(t, silent.GreatestAllowedA.Valid)
	assert.Contains(t, silent.Reason, "names no upper side")
	boat, err := need(d("6"), d("26")).Window(rulesOf("us-boat").Device, "NFPA 70 240.6(A)")
	require.NoError(t, err)
	assert.Equal(t, "39", boat.GreatestAllowedA.Decimal.String())
	assert.Equal(t, "35", boat.AllowedA[len(boat.AllowedA)-1].String())
	assert.Equal(t, []string{"P01 passes", "P02 passes", "P03 not applicable", "P02 fails"}, verdicts(boat.Checks(d("35"))))
	assert.Contains(t, boat.Reason, "the rule set alone would allow 35 A, more than the conductor carries")
}

// TestLoadLastsUnlessItIsSaidToBeBrief: a field that nobody filled in takes the
// strict side. 0.8 of 15 A is 12 A.
func TestLoadLastsUnlessItIsSaidToBeBrief(t *testing.T) {
	n := protect.Need{DesignA: d("14"), AmpacityA: d("40")}
	w, err := n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.Equal(t, "P01 fails", verdicts(w.Checks(d("15")))[0])
	n.Brief = true
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.Equal(t, "P01 passes", verdicts(w.Checks(d("15")))[0])
	_, said := w.Working.Value("C_d")
	assert.True(t, said, "an ambient that is not stated is taken as rated, and a line says so")
}

// TestWindowWithoutItsJudgeTellsNothing: a window that comes back from JSON has lost
// what it was asked with.
func TestWindowWithoutItsJudgeTellsNothing(t *testing.T) {
	w, err := need(d("9"), d("24")).Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	text, err := json.Marshal(w)
	require.NoError(t, err)
	var back protect.Window
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Empty(t, cmp.Diff(w, back, cmpopts.IgnoreUnexported(protect.Window{})))
	for _, c := range append(back.Checks(d("15")), protect.Window{}.Checks(d("15"))...) {
		assert.Equal(t, working.CannotTell, c.Verdict(), c.ID)
	}
}

// TestAbsurdRulesAreRefused: a rule set of one's own with figures that divide by
// nought or allow anything.
func TestAbsurdRulesAreRefused(t *testing.T) {
	figure := func(v decimal.Decimal) working.Figure {
		return working.Figure{Value: v, Source: cite.Practice.At("", cite.CommonPractice)}
	}
	huge := decimal.New(1, 999_999_999)
	for _, bad := range []decimal.Decimal{d("0"), d("-1"), d("1e9"), huge, decimal.New(1, -999_999_999)} {
		_, err := need(d("9"), d("24")).Window(tables.DeviceRule{
			OfAmpacity: figure(bad), OperatingCurrent: figure(bad), LoadOfRating: figure(bad),
		}, "ISO 8820-3 C")
		assert.Len(t, working.Inputs(err), 3)
		_, err = protect.Parallel{Cables: 2, AmpacityA: d("9"), RatingA: d("9")}.Checks(tables.DeviceRule{OfAmpacity: figure(bad)})
		assert.Len(t, working.Inputs(err), 1)
	}
	_, err := protect.Place{AlongMM: some("9")}.Check(tables.PlaceRule{Bare: figure(huge)})
	assert.Len(t, working.Inputs(err), 1)
	_, err = protect.SmallWire{Size: sizeOf("AWG 14"), RatingA: d("9")}.Check(tables.DeviceRule{
		BySize: []tables.SizeRating{{Size: sizeOf("AWG 14"), Rating: figure(huge)}},
	})
	assert.Len(t, working.Inputs(err), 1)
}

// TestWindowAtItsEdges stands on, just under and just over each side. A lasting
// load of 12 A is 0.8 of 15 A.
func TestWindowAtItsEdges(t *testing.T) {
	window := func(load, ampacity string) protect.Window {
		w, err := need(d(load), d(ampacity)).Window(rulesOf("european").Device, "ISO 8820-3 C")
		require.NoError(t, err)
		return w
	}
	assert.Equal(t, "15", window("12", "15").BestA.Decimal.String())
	assert.Equal(t, "20", window("12.001", "20").BestA.Decimal.String())
	assert.False(t, window("12.001", "19.999").BestA.Valid)
	assert.False(t, window("12", "14.999").BestA.Valid)
	none := window("12", "14.999")
	assert.Equal(t, "15", none.CarriesA.Decimal.String())
	assert.Equal(t, "15", none.WantsAmpacityA.Decimal.String())
	assert.Equal(t, "none exists: 15 A carries the load, but wants a conductor of 15 A and this one has 14.999 A; "+
		"10 A protects the conductor, but carries a load of 8 A at most", none.Reason)
	beyond := window("33", "100")
	assert.Equal(t, "none exists: the family ends at 40 A and the load wants 41.25 A; "+
		"40 A protects the conductor, but carries a load of 32 A at most", beyond.Reason)
}

// TestSilentSetsSaySo: a set without a rule neither passes nor fails.
func TestSilentSetsSaySo(t *testing.T) {
	set := rulesOf("us-rv")
	n := protect.Need{DesignA: d("12"), AmpacityA: d("5"), SetName: set.Name}
	w, err := n.Window(set.Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.False(t, w.GreatestAllowedA.Valid)
	checks := w.Checks(d("15"))
	assert.Equal(t, []string{"P01 passes", "P02 not applicable", "P03 not applicable", "P02 fails"}, verdicts(checks))
	assert.Contains(t, checks[1].Silent, set.Name)
}

// TestWarmDevice: 0.75 of a 40 A link in 85 °C; a family without a table asks.
func TestWarmDevice(t *testing.T) {
	n := protect.Need{DesignA: d("30"), AmpacityA: d("60"), AmbientC: some("85"), Brief: true}
	w, err := n.Window(rulesOf("european").Device, "ISO 8820-3 E")
	require.NoError(t, err)
	assert.Equal(t, "P01 passes", verdicts(w.Checks(d("40")))[0])
	n.DesignA = d("30.1")
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-3 E")
	require.NoError(t, err)
	assert.Equal(t, "P01 fails", verdicts(w.Checks(d("40")))[0])

	n = protect.Need{DesignA: d("16"), AmpacityA: d("60"), AmbientC: some("50")}
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	unknown := w.Checks(d("25"))[0]
	assert.Equal(t, working.CannotTell, unknown.Verdict())
	assert.Equal(t, "ask the maker what a 25 A ISO 8820-3 C carries in 50 °C: its load of 16 A needs that to be 20 A or more", unknown.Missing)
	assert.NotEmpty(t, w.Missing)
	assert.Equal(t, "P01 fails", verdicts(w.Checks(d("15")))[0], "no figure of the maker's can save it")
	n.DesignA = d("16.001") // ÷ 0.8 = 20.00125 A, of which what is asked for is no less
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.Contains(t, w.Checks(d("25"))[0].Missing, "its load of 16.01 A needs that to be 20.01 A or more")
	n.DesignA = d("16")

	n.AmbientFactor = some("0.9")
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.Empty(t, w.Missing)
	assert.Equal(t, "25", w.BestA.Decimal.String()) // 16 ÷ 0.8 ÷ 0.9 = 22.2
	n.AmbientFactor, n.AmbientC = decimal.NullDecimal{}, some("25")
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-3 C")
	require.NoError(t, err)
	assert.Equal(t, "20", w.BestA.Decimal.String())
}

// TestUnknownOpeningCurrentIsAsked: no gates are known of single-bolt links.
func TestUnknownOpeningCurrentIsAsked(t *testing.T) {
	n := protect.Need{DesignA: d("90"), AmpacityA: d("110"), Brief: true}
	w, err := n.Window(rulesOf("european").Device, "ISO 8820-6")
	require.NoError(t, err)
	assert.Equal(t, "P03 cannot tell", verdicts(w.Checks(d("100")))[2])
	assert.Contains(t, w.Missing, "ask the maker")
	n.OperatingRatio = some("1.35")
	w, err = n.Window(rulesOf("european").Device, "ISO 8820-6")
	require.NoError(t, err)
	assert.Equal(t, "P03 passes", verdicts(w.Checks(d("100")))[2])
}

// TestRememberedFiguresShow: a pass on a remembered figure says so.
func TestRememberedFiguresShow(t *testing.T) {
	var from working.Working
	from.LookUp("I_z", working.Figure{Value: d("24"), Source: cite.Practice.At("", cite.FromMemory)})
	n := protect.Need{DesignA: d("9"), AmpacityA: d("24"), Brief: true, From: from}
	w, err := n.Window(rulesOf("us-boat").Device, "NFPA 70 240.6(A)")
	require.NoError(t, err)
	for _, c := range w.Checks(d("15"))[:2] {
		assert.Equal(t, cite.FromMemory, c.Working.Confidence(), c.ID)
	}
}

// TestSmallLoadNeedsNoQuestion: by EEE-INST-002 a cartridge fuse carries 50 % of its
// rating at 25 °C and half a per cent less for each kelvin more: at 40 °C 42.5 %. That
// is a derating for what lasts, on which practice's 80 % does not come once more. So
// 15 A carry 6.375 A in any family.
func TestSmallLoadNeedsNoQuestion(t *testing.T) {
	for load, missing := range map[string]bool{"6.375": false, "6.376": true} {
		n := need(d(load), d("20"))
		n.AmbientC = some("40")
		w, err := n.Window(rulesOf("european").Device, "ISO 8820-3 C")
		require.NoError(t, err)
		c := w.Checks(d("15"))[0]
		workingtest.Guard(t, c.Working)
		assert.Equal(t, missing, c.Verdict() == working.CannotTell, load)
	}
}

// TestRatingsOfTheMaker: the standard of these breakers lists no ratings, so that
// the window is of those that the article is made in: 7 A want 8.75 A (7 ÷ 0.8).
func TestRatingsOfTheMaker(t *testing.T) {
	n := need(d("7"), d("20"))
	_, err := n.Window(rulesOf("european").Device, "ISO 10924-4 CB15")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	n.RatingsA = []decimal.Decimal{d("25"), d("15"), d("8"), d("9")}
	w, err := n.Window(tables.DeviceRule{OfAmpacity: rulesOf("european").Device.OfAmpacity}, "ISO 10924-4 CB15")
	require.NoError(t, err)
	assert.Equal(t, []decimal.Decimal{d("9"), d("15")}, w.InsideA)
}

func TestWindowRefusesBadInput(t *testing.T) {
	_, err := protect.Need{DesignA: d("0"), AmpacityA: d("-1"), AmbientC: some("300")}.Window(tables.DeviceRule{}, "ISO 8820-3 C")
	assert.Len(t, working.Inputs(err), 3)
	_, err = need(d("1"), d("2")).Window(tables.DeviceRule{}, "no such family")
	assert.ErrorIs(t, err, tables.ErrNotListed)
	bad := need(d("1"), d("2"))
	bad.RatingsA = []decimal.Decimal{d("5"), d("0"), d("-1")}
	_, err = bad.Window(tables.DeviceRule{}, "ISO 8820-3 C")
	assert.Len(t, working.Inputs(err), 2)
	w, err := need(d("1"), d("2")).Window(tables.DeviceRule{}, "ISO 8820-3 C")
	require.NoError(t, err)
	for _, rating := range []decimal.Decimal{d("0"), d("-3"), decimal.New(1, 1_000_000)} {
		assert.Equal(t, []string{"P01 cannot tell", "P02 cannot tell", "P03 cannot tell"}, verdicts(w.Checks(rating)))
	}
	assert.Equal(t, "P01 cannot tell", verdicts(protect.Window{}.Checks(d("10")))[0])
}

// TestFittedRating: a device is judged up to 10 000 A; beyond, and of no rating at
// all, it cannot be told. The gates of gG end at 1250 A (IEC 60269-1), so there P03
// cannot be told of the greatest either.
func TestFittedRating(t *testing.T) {
	w, err := need(d("22"), d("27.6")).Window(rulesOf("european").Device, "IEC 60269 gG")
	require.NoError(t, err)
	for rating, want := range map[string][]string{
		"10000":   {"P01 passes", "P02 fails", "P03 cannot tell"},
		"10000.1": {"P01 cannot tell", "P02 cannot tell", "P03 cannot tell"},
		"0":       {"P01 cannot tell", "P02 cannot tell", "P03 cannot tell"},
		"-25":     {"P01 cannot tell", "P02 cannot tell", "P03 cannot tell"},
	} {
		checks := w.Checks(d(rating))
		assert.Equal(t, want, verdicts(checks), rating)
		assert.Equal(t, want[0] == "P01 cannot tell", strings.Contains(checks[0].Missing, "rating_a"), rating)
	}
}
