package mend

import (
	"fmt"
	"strings"
	"testing"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// TestRemedies makes each change that a report proposes on the job, judges the
// whole anew, and compares with the golden file whether it cures, what else it
// spoils and how much copper it adds.
func TestRemedies(t *testing.T) {
	if testing.Short() {
		t.Skip("it judges hundreds of jobs")
	}
	names := []string{"trailer-with-faults", "survey-launch-with-faults", "no-fuse-fits"}
	pages := make([]string, len(names))
	t.Run("samples", func(t *testing.T) {
		for i, name := range names {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				pages[i] = name + "\n" + tryRemedies(t, sample(t, name+".yaml"))
			})
		}
	})
	programtest.Golden(t, "remedies.txt", strings.Join(pages, ""))
}

// tryRemedies has a line for each failure.
func tryRemedies(t *testing.T, j job.Job) string {
	m, err := facts.New(j)
	require.NoError(t, err)
	before, err := rules.Judge(m)
	require.NoError(t, err)
	var b strings.Builder
	for i, text := range Remedies(m, before) {
		f := before[i]
		if f.Verdict() != working.Fails {
			continue
		}
		outcome := "advice"
		if c, ok := proposed(m, f, text); ok {
			outcome = tryRemedy(t, j, c, f, before)
		}
		fmt.Fprintf(&b, "  %s %s\n    %s: %s\n", f.ID, f.Where, outcome, text)
	}
	return b.String()
}

// proposed is the change that a remedy puts into words; it is not ok for advice.
func proposed(m *facts.Facts, f rules.Finding, text string) (most Change, ok bool) {
	for _, c := range candidates(m, f, ruleOf(f)) {
		if strings.Contains(text, c.Text) && len(c.Text) > len(most.Text) {
			most, ok = c, true
		}
	}
	return most, ok
}

// tryRemedy says what becomes of the job with a change.
func tryRemedy(t *testing.T, j job.Job, c Change, f rules.Finding, before []rules.Finding) string {
	said, cures := curesWhole(j, c, f, before)
	added := copperKg(t, c.Applied(j)).Sub(copperKg(t, j))
	outcome := fmt.Sprintf("adds %s kg", added.Round(3))
	if !cures {
		return "does not cure, " + outcome
	}
	if rest := strings.TrimPrefix(said, c.Text); rest != "" {
		outcome += rest
	}
	return "cures, " + outcome
}

// copperKg is the copper of all cables of a job, out and back.
func copperKg(t *testing.T, j job.Job) decimal.Decimal {
	sum := decimal.Zero
	for _, c := range j.Circuits {
		length := c.LengthM
		if c.Return == "cable" {
			length = length.Add(c.LengthM)
		}
		if c.Cables != nil {
			length = length.Mul(c.Cables.Count)
		}
		m, err := wire.CopperMass(c.Size, length)
		require.NoError(t, err)
		sum = sum.Add(m.MassKg)
	}
	return sum
}
