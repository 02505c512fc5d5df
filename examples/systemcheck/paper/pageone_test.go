package paper_test

import (
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func failing(id, where string, g rules.Grade, a rules.Act) rules.Finding {
	return rules.Finding{
		Check: working.Check{ID: id, Title: "Title of " + id, Demand: d("2"), Limit: d("1"), Unit: "A"},
		Where: where, Grade: g, Forbids: a, Danger: "danger of " + id, Remedy: "cure of " + id,
	}
}

func passing() rules.Finding {
	return rules.Finding{Check: working.Check{ID: "P01", Demand: d("1"), Limit: d("2"), Unit: "A"}, Where: "fridge"}
}

func untold(id, missing string, g rules.Grade) rules.Finding {
	return rules.Finding{Check: working.Check{ID: id, Title: "Title of " + id, Missing: missing}, Where: "at " + id, Grade: g}
}

// TestHeadline: a danger that is known names the line; without one it says what is to
// be asked, and does not hide behind that what fails.
func TestHeadline(t *testing.T) {
	burns, starves, nuisance := failing("P02", "fridge", rules.Dangerous, rules.Energise), failing("W02", "fridge", rules.WillNotServe, rules.Energise), failing("B04", "fridge", rules.Minor, rules.Energise)
	boils, tips := failing("C11", "bank", rules.Dangerous, rules.Charge), failing("B14", "axle", rules.Dangerous, rules.Drive)
	askGrave, askSmall := untold("P04", "ask", rules.Dangerous), untold("W04", "ask too", rules.WillNotServe)
	for _, c := range []struct {
		craft, want string
		found       []rules.Finding
	}{
		{"vehicle", "EVERY CHECK MADE PASSES", []rules.Finding{passing()}},
		{"vehicle", "DO NOT ENERGISE", []rules.Finding{burns, starves, askGrave}},
		{"vehicle", "DO NOT ENERGISE", []rules.Finding{burns, boils}},
		{"vehicle", "DO NOT CHARGE", []rules.Finding{boils, starves}},
		{"vehicle", "DO NOT CHARGE, DO NOT DRIVE", []rules.Finding{boils, tips}},
		{"boat", "DO NOT ENERGISE, DO NOT PUT TO SEA", []rules.Finding{burns, tips}},
		{"vehicle", "NOT CLEARED, measure or ask 1 thing; WILL NOT SERVE", []rules.Finding{askGrave, starves}},
		{"vehicle", "NOT CLEARED, measure or ask 2 things", []rules.Finding{askGrave, askSmall}},
		{"vehicle", "NOT CLEARED, measure or ask 1 thing", []rules.Finding{askSmall}},
		{"vehicle", "NOT CLEARED, measure or ask 1 thing; WILL NOT SERVE", []rules.Finding{starves, askSmall, nuisance}},
		{"vehicle", "WILL NOT SERVE", []rules.Finding{starves, nuisance}},
		{"vehicle", "NOT AS IT OUGHT TO BE", []rules.Finding{nuisance}},
	} {
		r := paper.Report{Job: job.Job{Craft: c.craft}, Findings: c.found}
		assert.Equal(t, c.want, r.Headline())
		assert.Equal(t, c.want == "EVERY CHECK MADE PASSES", r.Passes(), "%s", c.want)
	}
}

func printed(t *testing.T, found ...rules.Finding) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, paper.Text(&out, "job.yaml", paper.Report{Findings: found}, ""))
	return out.String()
}

// TestOneMatter: failures of one rule that one change cures are told once, with each
// place and its figures; another change, or another grade, is another matter.
func TestOneMatter(t *testing.T) {
	here, there := failing("W09", "feed, its lugs", rules.Dangerous, rules.Energise), failing("W09", "lead, its lugs", rules.Dangerous, rules.Energise)
	other := failing("W09", "panel, its lugs", rules.Dangerous, rules.Energise)
	other.Remedy = "another cure"
	out := printed(t, here, there, other)
	assert.Contains(t, out, " 1. feed, its lugs; lead, its lugs: danger of W09\n")
	assert.Contains(t, out, "    lead, its lugs: 2.0 A, 1.0 A\n")
	assert.Contains(t, out, " 2. panel, its lugs: danger of W09\n")
	assert.Equal(t, 1, strings.Count(out, "Change: cure of W09"))
	assert.NotContains(t, out, " 3. ")
}

// TestSixthInALine: five matters are told in full at once; what comes after them
// stands there in a line, and in full behind the tables.
func TestSixthInALine(t *testing.T) {
	var found []rules.Finding
	for _, id := range []string{"P01", "P02", "P03", "P04", "P05", "P06", "P07"} {
		found = append(found, failing(id, "of "+id, rules.Dangerous, rules.Energise))
	}
	first, rest, ok := strings.Cut(printed(t, found...), "\nThe other failures in full\n")
	require.True(t, ok)
	assert.Contains(t, first, "Change: cure of P05")
	assert.NotContains(t, first, "cure of P06")
	assert.Contains(t, first, " 6. of P06: danger of P06 (P06)\n 7. of P07")
	assert.Contains(t, rest, "Change: cure of P06")
	assert.Contains(t, rest, "Change: cure of P07")
	assert.NotContains(t, rest, "cure of P05")
	assert.NotContains(t, printed(t, found[:5]...), "in full")
}

// TestAskedOnce: one thing to measure is asked once, whatever rules wait for it.
func TestAskedOnce(t *testing.T) {
	out := printed(t, untold("P04", "measure its milliohm", rules.Dangerous), untold("B05", "measure its milliohm", rules.WillNotServe), untold("C03", "ask", rules.WillNotServe))
	assert.Contains(t, out, "NOT CLEARED, measure or ask 2 things: 3 cannot be told;")
	assert.Equal(t, 1, strings.Count(out, "measure its milliohm"))
	assert.Contains(t, out, "P04 Title of P04: at P04\n    B05 Title of B05: at B05\n")
}

// TestRemembered: a verdict counts once however often it looks a place up, and a
// question rests on nothing.
func TestRemembered(t *testing.T) {
	source := cite.Source{Key: "a code", Where: "table 1", Confidence: cite.FromMemory}
	with := func(f rules.Finding) rules.Finding {
		f.Working = working.Working{{Source: source}, {Source: source}, {Source: cite.Source{Key: "a book", Confidence: cite.Published}}}
		return f
	}
	all, resting, of := paper.Report{Findings: []rules.Finding{
		with(passing()), passing(), with(failing("P02", "fridge", rules.Dangerous, rules.Energise)), with(untold("P04", "ask", rules.Dangerous)),
	}}.Remembered()
	assert.Equal(t, []paper.Remembered{{Source: source, Rules: []string{"P01", "P02"}, Verdicts: 2}}, all)
	assert.Equal(t, []int{2, 3}, []int{resting, of})
}
