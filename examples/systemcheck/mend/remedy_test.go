package mend

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func sample(t *testing.T, name string) job.Job {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "jobs", name))
	require.NoError(t, err)
	defer f.Close()
	file, err := job.Read(name, f)
	require.NoError(t, err)
	return file.Job()
}

// TestRemediesAreTriedOnTheWholeJob compares what a change is found to cure with
// what the whole job says that is built with it from nothing and judged by every
// rule: what a remedy keeps and what it leaves unasked must make no difference.
func TestRemediesAreTriedOnTheWholeJob(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml", "trailer-with-faults.yaml", "survey-launch-with-faults.yaml", "no-fuse-fits.yaml"} {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			most, spoilt := 1000, 5
			if testing.Short() { // for the race detector, which takes ten times as long
				most, spoilt = 1, 0
			}
			compareChanges(t, sample(t, name), most)
			for range spoilt {
				j := sample(t, name)
				var edits []string
				for range 1 + r.IntN(3) {
					edits = append(edits, spoil(&j, r))
				}
				if !compareChanges(t, j, 2) {
					t.Log(edits)
				}
			}
		})
	}
}

// compareChanges tries each of the first changes for every failure both ways.
func compareChanges(t *testing.T, j job.Job, most int) bool {
	m, err := facts.New(j)
	if err != nil {
		return true
	}
	before, err := rules.Judge(m)
	if err != nil {
		return true
	}
	same := true
	for _, f := range before {
		if f.Verdict() != working.Fails {
			continue
		}
		all := candidates(m, f, ruleOf(f))
		for _, c := range all[:min(most, len(all))] {
			got, gotOK := cures(m, c, f, before)
			want, wantOK := curesWhole(j, c, f, before)
			same = assert.Equal(t, fmt.Sprint(wantOK, want), fmt.Sprint(gotOK, got), "%s %s: %s", f.ID, f.Where, c.Text) && same
		}
	}
	return same
}

// curesWhole builds the job anew with a change and judges it by every rule.
func curesWhole(j job.Job, c Change, f rules.Finding, before []rules.Finding) (string, bool) {
	j = c.Applied(j)
	m, err := facts.New(j)
	if err != nil {
		return "", false
	}
	text := c.Text
	if c.relays() {
		refitted, err := refit(m, c.Circuit)
		if err != nil {
			return "", false
		}
		text += refitted
		if m, err = facts.New(j); err != nil { // with the devices that were fitted anew
			return "", false
		}
	}
	after, err := rules.Judge(m)
	if err != nil || slices.ContainsFunc(after, func(now rules.Finding) bool { return worse(now, f, before) }) {
		return "", false
	}
	return text, true
}

// spoil edits one run of a job at random, and says how.
func spoil(j *job.Job, r *rand.Rand) string {
	c := &j.Circuits[r.IntN(len(j.Circuits))]
	times := func(v decimal.Decimal) decimal.Decimal {
		return v.Mul(decimal.New([]int64{3, 6, 15, 30}[r.IntN(4)], -1)).Round(1)
	}
	switch r.IntN(8) {
	case 0:
		c.LengthM = times(c.LengthM)
		return fmt.Sprintf("%s is %s m long", c.Name, c.LengthM)
	case 1:
		c.Device = nil
		return fmt.Sprintf("%s has no device", c.Name)
	case 2:
		c.FarDevice = nil
		return fmt.Sprintf("%s has no device at its far end", c.Name)
	case 3:
		if next, ok := c.Size.Next(); ok {
			c.Size = next
		}
		return fmt.Sprintf("%s is in %s", c.Name, c.Size)
	case 4:
		c.Grouped = decimal.NewFromInt(int64(1 + r.IntN(9)))
		return fmt.Sprintf("%s lies in a group of %s", c.Name, c.Grouped)
	case 5, 6:
		if c.Device != nil { // what hangs behind depends on it alone, and bears less
			c.Device.RatingA = c.Device.RatingA.Mul(decimal.New(3, -1)).Round(1)
		}
		tail := *c
		tail.Name, tail.From, tail.To = c.Name+" tail", c.To, c.Name+" end"
		tail.Device, tail.FarDevice, tail.Switch, tail.Grouped = nil, nil, nil, decimal.NewFromInt(6)
		j.Circuits = append(j.Circuits, tail)
		return fmt.Sprintf("%s has a tail", c.Name)
	default:
		if c.Device != nil {
			c.Device.RatingA = times(c.Device.RatingA)
		}
		return fmt.Sprintf("%s has another device or none", c.Name)
	}
}

func ruleOf(f rules.Finding) rules.Rule {
	r, _ := rules.Find(f.Rule)
	return r
}
