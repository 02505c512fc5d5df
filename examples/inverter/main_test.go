package main

import (
	"testing"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/programtest"
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
	"sample.txt":   {"-working"},
	"collapse.txt": {"-surge_w", "15000", "-joints_milliohm", "2", "-size", "AWG 4/0", "-working"},
	"small.txt":    {"-power_w", "300", "-surge_w", "600", "-emf_v", "26", "-cut_out_v", "21", "-parallel_cables", "1", "-working"},
}

func TestAnswers(t *testing.T) { program.Answers(t, answers, "collapse.txt") }

func TestNoArguments(t *testing.T) { program.NoArguments(t) }

func TestHelp(t *testing.T) { program.Help(t, entries) }

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-size", "4 mm"}, `inverter: size is "4 mm": want the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper` + "\n"},
		{[]string{"-parallel_cables", "0"}, "inverter: parallel_cables is 0: want 1 to 20\n"},
		{[]string{"-emf_v", "26"}, "inverter: emf_v is 26: want above cut_out_v, 10.5, and less than twice that\n"},
		{[]string{"-power_w", "6kW", "-parallel_cables", "1.5", "-efficiency_percent", ""},
			`inverter: parallel_cables is 1.5: want a whole number
inverter: efficiency_percent is "": want a number of plain digits, such as 12.5, without a unit
inverter: power_w is "6kW": want a number of plain digits, such as 12.5, without a unit
`},
		{[]string{"-efficiency_percent", "101", "-surge_w", "-1", "-conductor_c", "500", "-bank_high_milliohm", "-1"},
			`inverter: efficiency_percent is 101: want 1 to 100
inverter: surge_w is -1: want above 0 and at most 100000
inverter: conductor_c is 500: want -60 to 250
inverter: bank_high_milliohm is -1: want 0 to 1000
`},
		{[]string{"-power_w", "0", "-surge_w", "0"}, "inverter: power_w is 0: want above 0 and at most 100000\ninverter: surge_w is 0: want above 0 and at most 100000\n"},
		{[]string{"-power_w", "3000", "-surge_w", "2000"}, "inverter: surge_w is 2000: want at least power_w\n"},
		{[]string{"-emf_v", "0.000000000001"}, "inverter: emf_v is 0.000000000001: want 1 to 100\ninverter: emf_v is 0.000000000001: want above cut_out_v, 10.5, and less than twice that\n"},
		{[]string{"-emf_v", "10.5"}, "inverter: emf_v is 10.5: want above cut_out_v, 10.5, and less than twice that\n"},
		{[]string{"-length_m", "-2", "-box_width_m", "0"}, `inverter: length_m is -2: want above 0 and at most 1000
inverter: box_width_m is 0: want 0.01 to 10
`},
		{[]string{"-watts", "6000"}, "inverter: flag provided but not defined: -watts\n"},
		{[]string{"6000"}, `inverter: "6000" is no flag: want flags only, such as -power_w 6000` + "\n"},
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
	f := form.New("inverter", entries)
	require.NoError(t, f.Parse(args))
	q := read(f)
	require.NoError(t, f.Faults())
	return q
}

// TestLimits holds the searched limits against the closed forms of any textbook
// on circuits: a source of E behind R brings P at the voltage U where
// R = U × (E − U) ÷ P, and at most P = E² ÷ 4R.
func TestLimits(t *testing.T) {
	for _, args := range [][]string{
		nil,
		{"-power_w", "1200", "-surge_w", "2600", "-emf_v", "12.4"},
		{"-power_w", "5000", "-surge_w", "5000", "-emf_v", "25.7", "-cut_out_v", "21.2", "-efficiency_percent", "93.5"},
		{"-power_w", "80", "-surge_w", "99000", "-idle_w", "0"},
	} {
		q := sample(t, args...)
		a, err := q.answer()
		require.NoError(t, err)
		workingtest.Guard(t, a.settled.Working)
		workingtest.Guard(t, a.warmth.Working)
		workingtest.Guard(t, a.airWorking())
		e, cut := q.feed.SourceV, q.feed.CutOutV.Decimal
		for _, c := range []struct{ outputW, runs, stands decimal.Decimal }{
			{q.feed.SteadyW, a.limits.steadyRuns, a.limits.steadyStands},
			{q.feed.SurgeW, a.limits.surgeRuns, a.limits.surgeStands},
		} {
			inputW := c.outputW.Shift(2).DivRound(q.feed.Inverter.EfficiencyPercent.Decimal, 6).Add(q.feed.Inverter.IdleW.Decimal)
			within(t, cut.Mul(e.Sub(cut)).Shift(3).DivRound(inputW, 6), c.runs)
			within(t, e.Mul(e).Shift(3).DivRound(inputW.Mul(d("4")), 6), c.stands)
		}
	}
}

// within wants a limit no more than one step of the search below the closed
// form: input rounded up to 0.01 W and volts rounded down to 0.0001 V.
func within(t *testing.T, closed, found decimal.Decimal) {
	t.Helper()
	step := decimal.Max(d("0.01"), closed.Mul(d("0.0005")))
	assert.True(t, found.LessThanOrEqual(closed) && found.GreaterThanOrEqual(closed.Sub(step).Truncate(2)), "%s against %s", found, closed)
}

// TestTable wants each worse path to bring less volts and, where it still
// stands, more amperes.
func TestTable(t *testing.T) {
	a, err := sample(t, "-size", "AWG 4/0").answer()
	require.NoError(t, err)
	assert.Equal(t, a.settled.Steady, a.worse[0].Steady)
	for i, p := range a.worse[1:] {
		before := a.worse[i].Steady
		assert.True(t, p.Steady.Collapses || p.Steady.VoltageV.Decimal.LessThan(before.VoltageV.Decimal), "%s", p.times)
		assert.True(t, p.Steady.Collapses || p.Steady.CurrentA.Decimal.GreaterThan(before.CurrentA.Decimal), "%s", p.times)
		assert.Equal(t, p.Surge.Collapses, p.milliohm.GreaterThan(a.limits.surgeStands), "%s", p.times)
	}
}
