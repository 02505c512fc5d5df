package working_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

var law = cite.OhmsLaw.At("", cite.Published)

// figure is a looked-up value from memory.
func figure(v string) working.Figure {
	return working.Figure{Value: d(v), Unit: "V", Source: cite.BS7671.At("annex A721", cite.FromMemory)}
}

// A drop against its limit, as a function of the library lays it out.
func Example() {
	var w working.Working
	i := w.Given("I", d("18"))
	r := w.Given("R", d("42.9"))
	w.Calc("ΔU", "I × R ÷ 1000", i.Mul(r).Shift(-3), law)
	w.LookUp("ΔU_max", figure("0.8"))
	fmt.Print(w)

	c := w.Check("W02", "Voltage drop", "ΔU", "ΔU_max")
	u, _ := c.Utilisation()
	fmt.Println(c.Title, c.Verdict(), "with", c.Margin(), c.Unit, "to spare; as sure as:", w.Confidence())
	fmt.Println("a ratio of volts says nothing:", u)
	// Output:
	// I = 18 A                              current (given)
	// R = 42.9 mΩ                           resistance of the loop, out and back
	//                                       (given)
	// ΔU = I × R ÷ 1000                     voltage drop [Ohm's law]
	//    = 18 × 42.9 ÷ 1000
	//    = 0.7722 V
	// ΔU_max = 0.8 V                        greatest voltage drop allowed [BS
	//                                       7671:2008, annex A721; from memory]
	// Voltage drop passes with 0.0278 V to spare; as sure as: from memory
	// a ratio of volts says nothing: 0
}

func ExampleWorking_Choose() {
	var w working.Working
	w.Given("I_b", d("36"))
	w.Given("I_z", d("46"))
	w.Choose("I_n", "I_b ≤ I_n ≤ I_z", d("40"), law)
	fmt.Print(w)
	// Output:
	// I_b = 36 A                            design current (given)
	// I_z = 46 A                            ampacity as installed (given)
	// I_n = 40 A                            rating of the device [Ohm's law]
	//     so that I_b ≤ I_n ≤ I_z
	//     that is 36 ≤ 40 ≤ 46
}

func ExampleWorking_Solve() {
	var w working.Working
	w.Given("P", d("200"))
	w.Given("U_L", d("12.5"))
	w.Solve("I", "P ÷ U_L", d("16"), d("0.001"), law)
	fmt.Print(w)
	// Output:
	// P = 200 W                             power (given)
	// U_L = 12.5 V                          voltage at the load (given)
	// I = 16 A                              current [Ohm's law]
	//   where I = P ÷ U_L
	//   that is 200 ÷ 12.5
}

func ExampleWorking_Step() {
	var w working.Working
	w.Step("I_so", d("41.7"), cite.Kirchhoff.At("", cite.Published))
	fmt.Print(w)
	// Output:
	// I_so = 41.7 A                         current of the source [Kirchhoff's
	//                                       laws]
}

func ExampleWorking_Part() {
	var w working.Working
	w.Part("The feeder")
	w.Given("I", d("30"))
	w.Part("The branch")
	w.Given("I", d("12"))
	w.Note("the pump alone")
	fmt.Print(w)
	// Output:
	// The feeder:
	// I = 30 A                              current (given)
	// The branch:
	// I = 12 A                              current (given); the pump alone
}

func ExampleStart() {
	var feeder working.Working
	feeder.Given("I", d("30"))
	w := working.Start(feeder)
	w.Given("I", d("30")) // stands already: no second line
	w.Given("R", d("2.5"))
	fmt.Print(w)
	// Output:
	// I = 30 A                              current (given)
	// R = 2.5 mΩ                            resistance of the loop, out and back
	//                                       (given)
}

func ExampleWorking_Numbers() {
	var w working.Working
	w.Given("I", d("18"))
	w.Given("R", d("42.9"))
	w.Calc("ΔU", "I × R ÷ 1000", d("0.7722"), law)
	fmt.Println(w.Numbers(2))
	// Output:
	// 18 × 42.9 ÷ 1000
}

func ExampleWorking_WriteText() {
	var w working.Working
	w.Given("L", d("6.5"))
	if err := w.WriteText(io.Discard); err != nil {
		fmt.Println(err)
	}
	v, ok := w.Value("L")
	fmt.Println(v, ok)
	// Output:
	// 6.5 true
}

func ExampleStrictest() {
	checks := []working.Check{
		{ID: "W02", Demand: d("0.25"), Limit: d("0.3"), Unit: "V"},
		{ID: "W02", Demand: d("0.25"), Limit: d("0.2"), Unit: "V"},
		{ID: "W02", Silent: "the set names no limit at 24 V"},
	}
	i, ok := working.Strictest(checks...)
	fmt.Println(i, ok, checks[i].Verdict())
	// Output:
	// 1 true fails
}

func ExampleCheck_Utilisation() {
	c := working.Check{ID: "P02", Demand: d("40.01"), Limit: d("40"), Unit: "A"}
	u, ok := c.Utilisation()
	fmt.Println(c.Verdict(), u, ok, c.Margin())
	// Output:
	// fails 1.01 true -0.01
}

func ExampleIn() {
	err := errors.Join(
		working.Above("length_m", d("0"), 0, 200),
		working.Between("ambient_c", d("150"), -40, 120),
		working.OneOf("method", "Z", "A", "B", "C", "F"),
	)
	for _, fault := range working.Inputs(working.In("circuits[2]", err)) {
		fmt.Println(fault)
	}
	// Output:
	// circuits[2].length_m is 0: want above 0 and at most 200
	// circuits[2].ambient_c is 150: want -40 to 120
	// circuits[2].method is "Z": want one of A, B, C, F
}

func ExampleShow() {
	for _, v := range []string{"0.333333333", "16200600", "0.50"} {
		text, rounded := working.Show(d(v))
		fmt.Println(text, rounded)
	}
	// Output:
	// 0.33333 true
	// 16200600 false
	// 0.5 false
}

func ExampleWrap() {
	for _, line := range working.Wrap("  a longer sentence in a narrow column", 16) {
		fmt.Println(line)
	}
	// Output:
	// a longer
	// sentence in a
	// narrow column
}

func ExampleFind() {
	n, ok := working.Find("I_z")
	fmt.Println(n.Key, n.Unit, n.Meaning, ok)
	n, _ = working.Find("I.2")
	fmt.Println(n.Meaning)
	// Output:
	// ampacity_a A ampacity as installed true
	// current (2)
}

func ExampleVocabulary() {
	n := working.Vocabulary()[0]
	fmt.Println(n.Symbol, n.Key, n.Unit)
	// Output:
	// L length_m m
}

func ExampleFigure_Stated() {
	fmt.Println(working.Figure{}.Stated(), figure("0.8").Stated())
	// Output:
	// false true
}

func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		check working.Check
		want  working.Verdict
	}{
		{working.Check{}, working.NotMade},
		{working.Check{ID: "X"}, working.Passes}, // nought is within nought
		{working.Check{ID: "X", Below: true}, working.Fails},
		{working.Check{ID: "X", Demand: d("1"), Limit: d("2")}, working.Passes},
		{working.Check{ID: "X", Demand: d("2"), Limit: d("2.0")}, working.Passes},
		{working.Check{ID: "X", Demand: d("2"), Limit: d("2.0"), Below: true}, working.Fails},
		{working.Check{ID: "X", Demand: d("2.0001"), Limit: d("2")}, working.Fails},
		{working.Check{ID: "X", Demand: d("1"), Limit: d("2"), Missing: "measure it"}, working.CannotTell},
		{working.Check{ID: "X", Demand: d("3"), Limit: d("2"), Silent: "no rule"}, working.NotApplicable},
		{working.Check{Demand: d("3"), Limit: d("2")}, working.NotMade},
	} {
		assert.Equal(t, c.want, c.check.Verdict(), "%+v", c.check)
	}
	assert.Equal(t, working.NotMade, working.Working{}.Check("X", "", "I", "I_z").Verdict(), "symbols that do not stand")
}

// TestNoFailureShowsAsOne walks limits and demands around each other.
func TestNoFailureShowsAsOne(t *testing.T) {
	for _, limit := range []string{"0.2", "3", "37.5", "999.99"} {
		for _, off := range []string{"-0.001", "0", "0.001"} {
			c := working.Check{ID: "X", Demand: d(limit).Add(d(off)), Limit: d(limit), Unit: "A"}
			u, ok := c.Utilisation()
			require.True(t, ok)
			assert.Equal(t, c.Verdict() == working.Passes, u.LessThanOrEqual(d("1")), "%s of %s", c.Demand, c.Limit)
		}
	}
	_, ok := working.Check{ID: "X", Demand: d("1"), Limit: d("0"), Unit: "A"}.Utilisation()
	assert.False(t, ok)
}

func TestStrictestRanks(t *testing.T) {
	pass := working.Check{ID: "X", Demand: d("1"), Limit: d("2")}
	tight := working.Check{ID: "X", Demand: d("1.9"), Limit: d("2")}
	unknown := working.Check{ID: "X", Missing: "measure"}
	fails := working.Check{ID: "X", Demand: d("3"), Limit: d("2")}
	silent := working.Check{ID: "X", Silent: "no rule"}
	for want, checks := range map[int][]working.Check{
		1: {pass, tight, silent}, 2: {pass, tight, unknown}, 3: {pass, tight, unknown, fails},
	} {
		i, ok := working.Strictest(checks...)
		assert.True(t, ok)
		assert.Equal(t, want, i)
	}
	_, ok := working.Strictest(silent, working.Check{})
	assert.False(t, ok)
}

func TestConfidenceIsTheWeakest(t *testing.T) {
	var w working.Working
	assert.Equal(t, cite.Unstated, w.Confidence())
	w.Given("I", d("1"))
	assert.Equal(t, cite.Unstated, w.Confidence(), "given values do not count")
	w.Calc("R", "2", d("2"), law)
	assert.Equal(t, cite.Published, w.Confidence())
	w.LookUp("ΔU_max", figure("0.8"))
	assert.Equal(t, cite.FromMemory, w.Confidence())
}

func TestAbsurdNumbersAreRefusedQuickly(t *testing.T) {
	for _, v := range []decimal.Decimal{decimal.New(1, 1e8), decimal.New(1, -1e8), d("-1"), d("1" + strings.Repeat("0", 300))} {
		err := working.Above("current_a", v, 0, 100)
		require.Error(t, err)
		assert.LessOrEqual(t, len(err.Error()), 160)
	}
	assert.NoError(t, working.Between("x", d("0"), 0, 0))
	assert.Error(t, working.OneOf("x", strings.Repeat("ä", 500), "a"))
}

func TestInKeepsEveryFault(t *testing.T) {
	inner := errors.Join(working.Above("a", d("0"), 0, 1), errors.New("no such table"))
	err := working.In("outer", inner)
	assert.Len(t, working.Inputs(err), 1)
	assert.ErrorContains(t, err, "outer.a is 0")
	assert.ErrorContains(t, err, "outer: no such table")
	assert.NoError(t, working.In("outer", nil))
	assert.Empty(t, working.Inputs(nil))
	assert.Len(t, working.Inputs(fmt.Errorf("at: %w", inner)), 1)
}

func TestJSONKeepsWholeValues(t *testing.T) {
	var w working.Working
	w.Calc("R", "1 ÷ 3", d("0.333333333333"), law)
	text, err := json.Marshal(w)
	require.NoError(t, err)
	assert.JSONEq(t, `[{"kind":"calculated","symbol":"R","name":"resistance of the loop, out and back","formula":"1 ÷ 3",
		"value":"0.333333333333","unit":"mΩ","source":{"document":"Ohm's law","confidence":"published"}}]`, string(text))
}

// TestPagesFit prints long formulas and notes.
func TestPagesFit(t *testing.T) {
	var w working.Working
	var sum []string
	total := decimal.Zero
	for i := range 12 {
		symbol := fmt.Sprintf("I.%d", i+1)
		total = total.Add(w.Given(symbol, d("12.345678").Mul(decimal.NewFromInt(int64(i-3)))))
		sum = append(sum, symbol)
	}
	w.Calc("I", strings.Join(sum, " + "), total, law)
	w.Note("a remark that goes on for rather longer than the column beside the equation has room for")
	for line := range strings.Lines(w.String()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 76, line)
	}
	assert.Contains(t, w.String(), "(-37.037)", "a negative number in a formula stands in brackets")
}

func TestVocabularyIsWhole(t *testing.T) {
	symbols, keys := map[string]string{}, map[string]string{}
	for _, n := range working.Vocabulary() {
		if n.Symbol != "" {
			assert.NotContains(t, symbols, n.Symbol, "symbol twice")
		}
		assert.NotContains(t, keys, n.Key, "key twice: %s and %s", n.Symbol, keys[n.Key])
		symbols[n.Symbol], keys[n.Key] = n.Key, n.Symbol
		assert.NotEmpty(t, n.Meaning, n.Symbol)
		assert.Regexp(t, `^[a-z][a-z0-9_]*$`, n.Key)
	}
	for _, none := range []string{"no such symbol", ""} {
		_, ok := working.Find(none)
		assert.False(t, ok, none)
	}
}

func TestPages(t *testing.T) { workingtest.Pages(t) }

func FuzzIn(f *testing.F) {
	f.Add("circuits[2]", "length_m", "0")
	f.Fuzz(func(t *testing.T, path, field, value string) {
		v, err := decimal.NewFromString(value)
		if err != nil {
			return
		}
		for _, e := range working.Inputs(working.In(path, working.Above(field, v, 0, 10))) {
			if !strings.HasPrefix(e.Field, path) || e.Error() == "" {
				t.Errorf("%q lost its path", e.Field)
			}
		}
	})
}

func BenchmarkDropWorking(b *testing.B) {
	i, r := d("18"), d("42.9")
	for b.Loop() {
		var w working.Working
		w.Given("I", i)
		w.Given("R", r)
		w.Calc("ΔU", "I × R ÷ 1000", i.Mul(r).Shift(-3), law)
	}
}

// TestRangesCompareExactly holds the two ranges to the comparison of decimals,
// beside and on the limits, with few and with many places.
func TestRangesCompareExactly(t *testing.T) {
	for _, low := range []int64{-40, -1, 0, 1, 250} {
		for _, high := range []int64{low, low + 1, 10_000} {
			l, h := decimal.NewFromInt(low), decimal.NewFromInt(high)
			for _, limit := range []decimal.Decimal{l, h} {
				for _, step := range []string{"0", "0.5", "1", "1.5", "0.000000001", "0.000000000000000001", "0.00000000000000000000001", "1e3", "1e20"} {
					for _, v := range []decimal.Decimal{limit.Add(d(step)), limit.Sub(d(step)), limit.Add(d(step)).Mul(d("1.000"))} {
						inside := v.GreaterThanOrEqual(l) && v.LessThanOrEqual(h)
						assert.Equal(t, inside, working.Between("x", v, low, high) == nil, "%s between %d and %d", v, low, high)
						assert.Equal(t, inside && !v.Equal(l), working.Above("x", v, low, high) == nil, "%s above %d to %d", v, low, high)
					}
				}
			}
		}
	}
}

func ExampleWorking_CalcUp() {
	var w working.Working
	load := w.Given("I_b", d("18"))
	share := w.LookUp("k_L", working.Figure{Value: d("0.7"), Source: cite.Practice.At("lasting loads", cite.CommonPractice)})
	w.CalcUp("I_lo", "I_b ÷ k_L", load, share, 3, cite.Arithmetic.At("", cite.Published))
	fmt.Println(w[2].Formula, "=", w[2].Value)
	// Output:
	// ceil(I_b ÷ k_L × 1000) ÷ 1000 = 25.715
}

func ExampleWorking_CalcDown() {
	var w working.Working
	ampacity := w.Given("I_z", d("40"))
	k := w.Given("k_2", d("1.6"))
	w.CalcDown("I_hi", "(I_z + 1) ÷ k_2", ampacity.Add(d("1")), k, 1, cite.Arithmetic.At("", cite.Published))
	fmt.Println(w[2].Formula, "=", w[2].Value)
	// Output:
	// floor(((I_z + 1) ÷ k_2) × 10) ÷ 10 = 25.6
}

func ExampleParseNumber() {
	v, _ := working.ParseNumber("length_m", "6.50")
	fmt.Println(v)
	for _, text := range []string{"6,5", "010", "6.5 m"} {
		_, err := working.ParseNumber("length_m", text)
		fmt.Println(err)
	}
	// Output:
	// 6.5
	// length_m is "6,5": want a number of plain digits, such as 12.5, without a unit; use a point, not a comma
	// length_m is "010": want a number of plain digits, such as 12.5, without a unit; without a leading nought
	// length_m is "6.5 m": want a number of plain digits, such as 12.5, without a unit
}

func ExampleNumberSlip() {
	fmt.Println(working.NumberSlip("1e3"))
	// Output:
	// all digits written out, without an exponent
}

func ExampleNearest() {
	fmt.Println(working.Nearest("lenght_m", "length_m", "current_a"))
	// Output:
	// length_m true
}

// A name that holds a comma stays one name in the list.
func TestOneOfSeparatesNames(t *testing.T) {
	assert.ErrorContains(t, working.OneOf("material", "wood", "aluminium", "aluminium, coated"), "one of aluminium; aluminium, coated")
	assert.ErrorContains(t, working.OneOf("material", "wood", "copper", "aluminium"), "one of copper, aluminium")
}

func ExampleOneOf() {
	fmt.Println(working.OneOf("material", "coper", "copper", "aluminium"))
	// Output:
	// material is "coper": want one of copper, aluminium; nearest: copper
}

func ExampleCheck_String() {
	fmt.Println(working.Check{ID: "W02", Title: "Voltage drop", Demand: d("0.7722"), Limit: d("0.8"), Unit: "V"})
	fmt.Println(working.Check{ID: "P04", Title: "the device can break the fault current", Missing: "ask the maker for its capacity"})
	fmt.Println(working.Check{ID: "W03", Title: "Smallest size", Silent: "the set states none"})
	fmt.Println(working.Check{})
	// Output:
	// W02 Voltage drop passes: 0.7722 V against 0.8 V
	// P04 the device can break the fault current cannot tell: ask the maker for its capacity
	// W03 Smallest size not applicable: the set states none
	// not made
}

func ExampleCheck_MarshalJSON() {
	text, err := json.Marshal(working.Check{ID: "W02", Title: "Voltage drop", Demand: d("0.9"), Limit: d("0.8"), Unit: "V"})
	fmt.Println(string(text), err)
	// Output:
	// {"id":"W02","title":"Voltage drop","demand":"0.9","limit":"0.8","unit":"V","verdict":"fails"} <nil>
}

// TestRoundingIsTowardsTheSide tries every sign.
func TestRoundingIsTowardsTheSide(t *testing.T) {
	for _, c := range []struct {
		a, b     string
		places   int32
		up, down string
	}{
		{"10", "3", 2, "3.34", "3.33"}, {"-10", "3", 2, "-3.33", "-3.34"}, {"10", "-3", 2, "-3.33", "-3.34"},
		{"-10", "-3", 0, "4", "3"}, {"9", "3", 3, "3", "3"}, {"-9", "3", 1, "-3", "-3"}, {"0", "7", 2, "0", "0"},
		{"0.00001", "1", 2, "0.01", "0"}, {"-0.00001", "1", 2, "0", "-0.01"},
	} {
		var w working.Working
		a, b := w.Given("I.1", d(c.a)), w.Given("I.2", d(c.b))
		up := w.CalcUp("I", "I.1 ÷ I.2", a, b, c.places, law)
		assert.True(t, up.Equal(d(c.up)), "%s ÷ %s up is %s", c.a, c.b, up)
		down := w.CalcDown("I", "I.1 ÷ I.2", a, b, c.places, law)
		assert.True(t, down.Equal(d(c.down)), "%s ÷ %s down is %s", c.a, c.b, down)
		workingtest.Guard(t, slices.Clip(w))
	}
}

// TestWordsComeBack reads what JSON writes.
func TestWordsComeBack(t *testing.T) {
	for k := working.Given; k <= working.Part; k++ {
		var back working.Kind
		require.NoError(t, back.UnmarshalText([]byte(k.String())))
		assert.Equal(t, k, back)
	}
	for v := working.NotMade; v <= working.Fails; v++ {
		var back working.Verdict
		require.NoError(t, back.UnmarshalText([]byte(v.String())))
		assert.Equal(t, v, back)
	}
	var v working.Verdict
	assert.ErrorContains(t, v.UnmarshalText([]byte("pases")), "nearest: passes")
}

func TestCheckComesBack(t *testing.T) {
	var w working.Working
	w.Given("ΔU", d("0.7"))
	w.LookUp("ΔU_max", figure("0.80"))
	w.Solve("I", "ΔU ÷ 1", d("0.7"), d("0.001"), law)
	for _, c := range []working.Check{
		w.Check("W02", "Voltage drop", "ΔU", "ΔU_max"),
		{ID: "X", Missing: "measure it"}, {ID: "X", Silent: "no rule", Below: true}, {},
	} {
		text, err := json.Marshal(c)
		require.NoError(t, err)
		var back working.Check
		require.NoError(t, json.Unmarshal(text, &back), string(text))
		assert.Empty(t, cmp.Diff(c, back, cmpopts.EquateEmpty()), string(text))
	}
}

// TestAFalseVerdictIsRefused: what was written as a pass cannot be read back with
// numbers that fail.
func TestAFalseVerdictIsRefused(t *testing.T) {
	var c working.Check
	err := json.Unmarshal([]byte(`{"id":"W02","demand":"2","limit":"1","verdict":"passes"}`), &c)
	assert.EqualError(t, err, "verdict is passes: want fails, which follows from demand and limit")
	assert.NoError(t, json.Unmarshal([]byte(`{"id":"W02","demand":"2","limit":"1"}`), &c))
	assert.Equal(t, working.Fails, c.Verdict())
}

func TestNoWorkingIsAnEmptyList(t *testing.T) {
	text, err := json.Marshal(struct{ W working.Working }{})
	require.NoError(t, err)
	assert.JSONEq(t, `{"W":[]}`, string(text))
}

func TestInputErrorHasKeys(t *testing.T) {
	text, err := json.Marshal(&working.InputError{Field: "length_m", Got: "0", Want: "more"})
	require.NoError(t, err)
	assert.JSONEq(t, `{"field":"length_m","got":"0","want":"more"}`, string(text))
}

// TestNearestCountsSlips: how far a word may be from a name before it is another
// word. The slips are counted by hand; kitten and sitting are the textbook's three.
func TestNearestCountsSlips(t *testing.T) {
	long := strings.Repeat("conductor_", 4) // 40 letters
	for _, c := range []struct{ word, choice, want, why string }{
		{"b", "a", "", "any letter is one slip from any other"},
		{"aw", "AWG", "AWG", "one left out"},
		{"ab", "AWG", "", "two slips of two letters"},
		{"coper", "copper", "copper", "one slip of five"},
		{"coer", "copper", "", "two slips of four"},
		{"cooer", "copper", "", "two slips of five"},
		{"coppre", "copper", "copper", "two slips of six"},
		{"kitten", "sitting", "", "three slips of six"},
		{"saturday", "sunday", "", "three slips of eight"},
		{"tarmenols", "terminals", "terminals", "three slips of nine"},
		{"tarmenolz", "terminals", "", "four slips of nine"},
		{"copper", "copper", "", "itself"},
		{long[:39] + "x", long, long, "one slip of forty"},
		{long + "x", long, "", "too long for a slip"},
	} {
		got, ok := working.Nearest(c.word, c.choice)
		assert.Equal(t, c.want, got, "%s: %s", c.word, c.why)
		assert.Equal(t, c.want != "", ok, c.word)
	}
	got, _ := working.Nearest("clas 6", "class 5", "class 6", "class 7")
	assert.Equal(t, "class 6", got, "the nearest, wherever it stands")
	got, _ = working.Nearest("class 4", "class 5", "class 6")
	assert.Equal(t, "class 5", got, "the first of those that are as near")
}

// TestNumbersAtTheLimit: the last number that is read and the first that is not,
// of each limit of [working.ParseNumber].
func TestNumbersAtTheLimit(t *testing.T) {
	for text, slip := range map[string]string{
		"123456789012":          "",
		"1234567890123":         "at most twelve digits before the point",
		"-123456789012":         "",
		"-1234567890123":        "at most twelve digits before the point",
		"1.234567890123456789":  "", // 20 characters
		"1.2345678901234567890": "at most 20 characters",
	} {
		_, err := working.ParseNumber("length_m", text)
		if slip == "" {
			assert.NoError(t, err, text)
			continue
		}
		assert.ErrorContains(t, err, "; "+slip, text)
	}
}

// TestAbsurdBegins beyond a hundred places, thirty noughts and two hundred digits:
// up to there the error shows the number.
func TestAbsurdBegins(t *testing.T) {
	const absurd = "a number of absurd size"
	digits := func(n int) decimal.Decimal { return d(strings.Repeat("7", n)) }
	for _, c := range []struct {
		v     decimal.Decimal
		shown string
	}{
		{decimal.New(1, 30), "1" + strings.Repeat("0", 30)}, {decimal.New(1, 31), absurd},
		{digits(200), strings.Repeat("7", 60) + "..."}, {digits(201), absurd},
		{digits(60), strings.Repeat("7", 60)}, {digits(61), strings.Repeat("7", 60) + "..."},
		{decimal.New(-1, -101), absurd},
	} {
		assert.Equal(t, c.shown, working.Inputs(working.Between("x", c.v, 0, 1))[0].Got)
	}
	assert.NoError(t, working.Above("x", decimal.New(1, -100), 0, 1), "small, and above nought")
	assert.Error(t, working.Above("x", decimal.New(1, -101), 0, 1))
}

// TestWordsOfNone: a kind and a verdict that no program of ours makes have a word
// all the same, and a verdict of that sort is no pass.
func TestWordsOfNone(t *testing.T) {
	for _, v := range []uint8{7, 8, 255} {
		assert.NotEmpty(t, working.Kind(v).String())
		assert.Equal(t, "fails", working.Verdict(v).String())
	}
}

// TestStrictestOfEquals is the first: what is printed does not hang on the order
// in which equal checks were put.
func TestStrictestOfEquals(t *testing.T) {
	of := func(demand, limit string) working.Check {
		return working.Check{ID: "X", Demand: d(demand), Limit: d(limit)}
	}
	for _, checks := range [][]working.Check{
		{of("1", "2"), of("3", "4")}, // margin 1 each
		{of("2", "1"), of("5", "4")}, // short by 1 each
	} {
		i, ok := working.Strictest(checks...)
		assert.True(t, ok)
		assert.Zero(t, i)
	}
}

// TestUtilisationRoundsUp to two places: 2 of 3 is 0.667, shown as 0.67; what is
// whole stays, and so does what is below nought.
func TestUtilisationRoundsUp(t *testing.T) {
	for want, c := range map[string]working.Check{
		"0.67": {ID: "X", Demand: d("2"), Limit: d("3"), Unit: "A"},
		"0.34": {ID: "X", Demand: d("1"), Limit: d("3"), Unit: "A"},
		"0.5":  {ID: "X", Demand: d("1"), Limit: d("2"), Unit: "A"},
		"-0.5": {ID: "X", Demand: d("-1"), Limit: d("2"), Unit: "A"},
	} {
		got, ok := c.Utilisation()
		assert.True(t, ok)
		assert.Equal(t, want, got.String())
	}
	for _, c := range []working.Check{
		{ID: "X", Demand: d("1"), Limit: d("2"), Unit: "V"}, {ID: "X", Demand: d("1"), Limit: d("2"), Unit: "°C"},
		{ID: "X", Demand: d("1"), Limit: d("2"), Missing: "measure"}, {ID: "X", Demand: d("1"), Limit: d("-2"), Unit: "A"},
	} {
		_, ok := c.Utilisation()
		assert.False(t, ok, "%+v", c)
	}
}

// TestWrapFills a line to its last column and no further.
func TestWrapFills(t *testing.T) {
	assert.Equal(t, []string{"abcd ef", "ghi"}, working.Wrap("abcd ef ghi", 7))
	assert.Equal(t, []string{"abcd", "ef ghi"}, working.Wrap("abcd ef ghi", 6))
	assert.Equal(t, []string{"  ab", "c"}, working.Wrap("  ab c", 5))
	assert.Equal(t, []string{"  ab c"}, working.Wrap("  ab c", 6))
	assert.Empty(t, working.Wrap("   ", 5))
}
