package main

import (
	"bytes"
	"testing"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// answers are what the golden files hold.
var answers = map[string][]string{
	"sample.txt":    {"-working"},
	"none.txt":      {"-design_a", "34", "-rating_a", "50", "-breaking_a", "25000", "-breaking_at_v", "80", "-rated_v", "80", "-working"},
	"strip.txt":     {"-family", "ISO 8820-5 SF51", "-size", "25 mm2", "-low_milliohm", "3", "-high_milliohm", "15"},
	"too-large.txt": {"-design_a", "2000"},
	"boat.txt":      {"-rules", "us-boat", "-family", "UL 248-15 T 300 V", "-design_a", "55", "-continuous", "no"},
	"silent.txt":    {"-rules", "us-rv", "-ampacity_a", "36", "-rating_a", "40"},
	"stated.txt":    {"-ampacity_a", "36", "-capacity_ah", "200"},
}

func TestAnswers(t *testing.T) {
	program.Answers(t, answers, "none.txt", "strip.txt", "too-large.txt", "boat.txt", "silent.txt", "stated.txt")
}

func TestNoArguments(t *testing.T) { program.NoArguments(t) }

func TestHelp(t *testing.T) { program.Help(t, entries) }

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-size", "4 mm"}, `fuse: size is "4 mm": want the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper` + "\n"},
		{[]string{"-design_a", "30A", "-continuous", "maybe", "-rules", "lunar"},
			`fuse: design_a is "30A": want a number of plain digits, such as 12.5, without a unit
fuse: rules is "lunar": want one of european, iso-craft, us-boat, us-voluntary-craft, us-rv, au-nz
fuse: continuous is "maybe": want one of yes, no
`},
		{[]string{"-operating_ratio", "0.5"}, "fuse: operating_ratio is 0.5: want above 1 and at most 20\n"},
		{[]string{"-design_a", "0", "-chemistry", "steam"}, `fuse: design_a is 0: want above 0 and at most 10000
fuse: chemistry is "steam": want one of lead-acid flooded, lead-acid AGM, lead-acid gel, lead-acid VRLA, lead-acid, LiFePO4, NMC, Li-ion, NiCd, NiMH
`},
		{[]string{"-full_v", "12", "-low_milliohm", "5"}, `fuse: empty_v is 12.8: want at most full_v, 12
`},
		{[]string{"-batteries", "0"}, "fuse: batteries is 0: want 1 to 48\n"},
		{[]string{"-batteries", "2.5"}, "fuse: batteries is 2.5: want a whole number\n"},
		{[]string{"-breaking_a", "2000"}, "fuse: breaking_at_v is unset: want the d.c. voltage that the breaking capacity is stated for\n"},
		{[]string{"-rules", "au-nz"}, "fuse: ampacity_a is unset: want the ampacity as installed: au-nz lists none\n"},
		{[]string{"-family", "ISO 8820-13 P"}, `fuse: standard ratings of "ISO 8820-13 P": not in the table` + "\n"},
		{[]string{"-fuse", "30"}, "fuse: flag provided but not defined: -fuse\n"},
		{[]string{"30"}, `fuse: "30" is no flag: want flags only, such as -design_a 30` + "\n"},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Equal(t, c.want, errs, "%q", c.args)
	}
}

// sample is the question of the sample values and what is changed in it.
func sample(t *testing.T, args ...string) question {
	t.Helper()
	f := form.New("fuse", entries)
	require.NoError(t, f.Parse(args))
	q := read(f)
	require.NoError(t, f.Faults())
	return q
}

// TestWindowOfGG holds the windows of gG links from 16 A against the form of the
// rule that guides to IEC 60364-4-43 print (common practice): the load is at
// most 0.8 of the rating (ISO 8820-2, from memory), and the rating at most 1.45
// ÷ 1.6 = 0.906 of the ampacity.
func TestWindowOfGG(t *testing.T) {
	ratings, err := tables.Ratings("IEC 60269 gG")
	require.NoError(t, err)
	for load := int64(13); load < 120; load += 7 {
		for ampacity := int64(18); ampacity < 160; ampacity += 5 {
			q := sample(t)
			q.need.DesignA, q.ampacityA = decimal.NewFromInt(load), decimal.NewNullDecimal(decimal.NewFromInt(ampacity))
			a, err := q.answer()
			require.NoError(t, err)
			want := []decimal.Decimal{}
			for _, f := range ratings {
				carries := f.Value.Mul(d("0.8")).GreaterThanOrEqual(q.need.DesignA)
				if carries && f.Value.Mul(d("1.6")).LessThanOrEqual(q.ampacityA.Decimal.Mul(d("1.45"))) {
					want = append(want, f.Value)
				}
			}
			assert.Equal(t, want, a.window.InsideA, "%d A on %d A", load, ampacity)
			workingtest.Guard(t, a.window.Working)
		}
	}
}

// TestSmallestChange asks again with the conductor proposed: a rating exists
// then, and with none between that one and the one asked about.
func TestSmallestChange(t *testing.T) {
	changed := 0
	for load := int64(10); load < 150; load += 3 {
		q := sample(t, "-size", "6 mm2")
		q.need.DesignA = decimal.NewFromInt(load)
		a, err := q.answer()
		require.NoError(t, err)
		if !a.larger.found {
			continue
		}
		changed++
		for q.lay.Size != a.larger.size {
			b, err := q.answer()
			require.NoError(t, err)
			assert.False(t, b.window.BestA.Valid, "%d A on %s", load, q.lay.Size)
			q.lay.Size, _ = q.lay.Size.Next()
		}
		b, err := q.answer()
		require.NoError(t, err)
		assert.True(t, b.window.BestA.Valid, "%d A on %s", load, q.lay.Size)
		assert.Equal(t, b.window.BestA.Decimal, a.larger.ratingA)
	}
	assert.Greater(t, changed, 20)
}

// TestNoRatingAboveTheAmpacity is the hard stop: no set, however silent, makes
// the program say FITS above what the conductor carries.
func TestNoRatingAboveTheAmpacity(t *testing.T) {
	for _, set := range tables.RuleSets() {
		_, out, errs := ask("-rules", set.Key, "-ampacity_a", "36", "-family", "UL 248-15 T 300 V", "-rating_a", "40")
		require.Empty(t, errs)
		assert.NotContains(t, out, "FITS", set.Key)
		assert.Contains(t, out, "DO NOT FIT it", set.Key)
	}
}

// TestUnknownBreakingIsNoPass covers each family: a capacity that is not known
// never passes.
func TestUnknownBreakingIsNoPass(t *testing.T) {
	for _, family := range tables.Families() {
		q := sample(t, "-family", family.Name)
		fault, err := q.bank.Fault(q.path)
		require.NoError(t, err)
		assert.Equal(t, "5360", fault.GreatestA.Decimal.String(), "2 × 13.4 V ÷ 5 mΩ")
		checks, err := q.breaksFault(fault)
		require.NoError(t, err)
		known := false
		for _, b := range family.Breaking {
			known = known || b.CapacityA.Valid && b.AtV.Valid
		}
		if !known {
			assert.Equal(t, working.CannotTell, checks[0].Verdict(), family.Name)
			assert.Contains(t, checks[0].Missing, "do not energise without it")
		}
		a := answer{question: q, fault: fault, breaks: checks}
		if a.worstBreak() != working.Passes {
			var page bytes.Buffer
			a.printFault(&page)
			assert.Contains(t, page.String(), "DO NOT FIT", family.Name)
		}
	}
}
