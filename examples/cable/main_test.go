package main

import (
	"testing"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables"
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
	"sample.txt":  {"-working"},
	"in-hand.txt": {"-size", "16 mm2", "-surge_a", "80", "-working"},
	"too-hot.txt": {"-size", "10 mm2", "-working"},
	"none.txt":    {"-current_a", "500", "-length_m", "30"},
	"gauge.txt":   {"-system", "AWG", "-rules", "us-voluntary-craft", "-circuit", "critical"},
	"24-volt.txt": {"-system_v", "24", "-run_supply_v", "24.6", "-circuit", "charge", "-working"},
}

func TestAnswers(t *testing.T) { program.Answers(t, answers, "in-hand.txt", "too-hot.txt", "none.txt") }

func TestNoArguments(t *testing.T) { program.NoArguments(t) }

func TestHelp(t *testing.T) { program.Help(t, entries) }

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-size", "4 mm"}, `cable: size is "4 mm": want the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper` + "\n"},
		{[]string{"-size", "6"}, `cable: size is "6": want an area such as 16 mm2, or a gauge with its system, AWG 6 or SAE 6 (not the same wire)` + "\n"},
		{[]string{"-current_a", "x", "-grouped", "1.5", "-circuit", "big", "-rules", "lunar"},
			`cable: grouped is 1.5: want a whole number
cable: current_a is "x": want a number of plain digits, such as 12.5, without a unit
cable: circuit is "big": want one of charge, critical, other
cable: rules is "lunar": want one of european, iso-craft, us-boat, us-voluntary-craft, us-rv, au-nz
`},
		{[]string{"-run_supply_v", "24"}, "cable: run_supply_v is 24: want 9 to 15.6 at 12 V\n"},
		{[]string{"-length_m", "4m"}, `cable: length_m is "4m": want a number of plain digits, such as 12.5, without a unit` + "\n"},
		{[]string{"-length_m", "1e9"}, `cable: length_m is "1e9": want a number of plain digits, such as 12.5, without a unit; all digits written out, without an exponent` + "\n"},
		{[]string{"-length_m", ""}, `cable: length_m is "": want a number of plain digits, such as 12.5, without a unit` + "\n"},
		{[]string{"-insulation_c", "20", "-joints_milliohm", "-1"}, `cable: insulation_c is 20: want 60 to 250
cable: joints_milliohm is -1: want 0 to 1000
`},
		{[]string{"-surge_a", "40"}, "cable: surge_a is 40: want not below current_a\n"},
		{[]string{"-system", "feet"}, `cable: system is "feet": want one of mm2, AWG, SAE` + "\n"},
		{[]string{"-run_supply_v", "0"}, "cable: run_supply_v is 0: want 9 to 15.6 at 12 V\n"},
		{[]string{"-rules", "us-rv"}, `cable: rules is "us-rv": want a set that lists ampacities: one of european, iso-craft, us-boat, us-voluntary-craft` + "\n"},
		{[]string{"-ambient_c", "95"}, "cable: ambient 95 °C for 90 °C insulation in BS 7671 16th ambient: outside the table; it ends at 85 °C\n"},
		{[]string{"-voltage", "12"}, "cable: flag provided but not defined: -voltage\n"},
		{[]string{"45"}, `cable: "45" is no flag: want flags only, such as -current_a 45` + "\n"},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Equal(t, c.want, errs, "%q", c.args)
	}
}

// TestSmallest works out by itself the size that was found and the one below
// it: the first must pass and the second must not. The lines of both hold.
func TestSmallest(t *testing.T) {
	for _, key := range []string{"european", "iso-craft", "us-boat", "us-voluntary-craft"} {
		for _, system := range []tables.System{tables.Metric, tables.AWG, tables.SAE} {
			for _, current := range []string{"3", "17.5", "45", "110"} {
				q := sample(t, key, system, d(current))
				a, err := q.answer()
				require.NoError(t, err)
				require.True(t, a.choice.Found)
				workingtest.Guard(t, a.lines())
				assert.True(t, a.judged.passes(a.question.Least), "%s %s %s A", key, a.choice.Size, current)
				if q.Lay.Size, err = below(a.choice.Size); err != nil {
					continue
				}
				smaller, err := q.answer()
				if err != nil {
					assert.ErrorIs(t, err, tables.ErrNotListed)
					continue
				}
				workingtest.Guard(t, smaller.lines())
				assert.False(t, smaller.judged.passes(smaller.question.Least), "%s %s %s A", key, q.Lay.Size, current)
			}
		}
	}
}

// sample is the question of the sample values, for another set and current.
func sample(t *testing.T, key string, system tables.System, current decimal.Decimal) question {
	t.Helper()
	f := form.New("cable", entries)
	require.NoError(t, f.Parse([]string{"-rules", key, "-system", string(system)}))
	q := read(f)
	require.NoError(t, f.Faults())
	q.CurrentA = current
	return q
}

func below(s tables.Size) (tables.Size, error) {
	smaller, ok := s.Previous()
	if !ok {
		return tables.Size{}, tables.ErrNotListed
	}
	return smaller, nil
}

// TestSetsStandAlone wants every set in the table once, and nothing borrowed by
// the sets that list no ampacities.
func TestSetsStandAlone(t *testing.T) {
	a, err := sample(t, "european", tables.Metric, d("45")).answer()
	require.NoError(t, err)
	require.Len(t, a.sets, len(tables.RuleSets()))
	for _, o := range a.sets {
		silent := o.key == "us-rv" || o.key == "au-nz"
		assert.Equal(t, silent, o.smallest == "-", o.key)
		assert.NoError(t, o.trouble, o.key)
	}
	// in 40 °C air the 70 °C table at the terminals rules for one set, the drop
	// for the others
	assert.Equal(t, "Strictest: european, iso-craft, us-voluntary-craft, with 16 mm2.", a.strictest())
}
