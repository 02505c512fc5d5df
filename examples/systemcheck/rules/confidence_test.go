package rules

import (
	"os"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// remembered is a figure that somebody recalled.
func remembered(v, unit string) working.Figure {
	return working.Figure{Value: decimal.RequireFromString(v), Unit: unit, Source: cite.Source{Key: "a code", Confidence: cite.FromMemory}}
}

// published makes every source of a working a read one.
func published(w working.Working) working.Working {
	w = append(working.Working{}, w...)
	for i := range w {
		if w[i].Source.Key != "" {
			w[i].Source.Confidence = cite.Published
		}
	}
	return w
}

// TestMemoryShowsInTheFinding feeds each check one figure from memory, all
// others read, and wants to see it in the finding.
func TestMemoryShowsInTheFinding(t *testing.T) {
	clean := func(t *testing.T) *facts.Facts {
		f, err := os.Open("../jobs/clinic.yaml")
		require.NoError(t, err)
		defer f.Close()
		file, err := job.Read("clinic.yaml", f)
		require.NoError(t, err)
		m, err := facts.New(file.Job())
		require.NoError(t, err)
		for _, r := range m.Runs {
			r.Ampacity.Working, r.Warmth = published(r.Ampacity.Working), published(r.Warmth)
		}
		read := cite.Source{Key: "a code", Confidence: cite.Published}
		m.Set.Drop.Other.Source, m.Set.Drop.Critical.Source, m.Set.Drop.Charge.Source = read, read, read
		m.Set.Device.OfAmpacity.Source, m.Set.Device.OperatingCurrent.Source = read, read
		m.Set.Device.LoadOfRating = remembered("0.8", "")
		m.Set.Device.LoadOfRating.Source = read
		return m
	}
	ampacity := func(m *facts.Facts) {
		for _, r := range m.Runs {
			r.Ampacity.Working[0].Source.Confidence = cite.FromMemory
		}
	}
	for _, c := range []struct {
		rule string
		ask  func(*facts.Facts) ([]Finding, error)
		feed func(*facts.Facts)
	}{
		{"W01", carries, ampacity},
		{"P01", carriesLoad, ampacity},
		{"P01", carriesLoad, func(m *facts.Facts) {
			m.Set.Device.LoadOfRating = remembered("0.8", "") // asked of loads that last
			for i := range m.Job.Loads {
				m.Job.Loads[i].LongestRunS = decimal.NullDecimal{}
			}
		}},
		{"P02", protects, ampacity},
		{"P02", protects, func(m *facts.Facts) { m.Set.Device.OfAmpacity = remembered("1", "") }},
		{"P03", opensInTime, ampacity},
		{"P03", opensInTime, func(m *facts.Facts) { m.Set.Device.OperatingCurrent = remembered("1.45", "") }},
		{"P06", closeEnough, func(m *facts.Facts) { m.Set.Place.Bare = remembered("200", "mm") }},
		{"P07", deviceDue, ampacity},
		{"W02", dropInside, func(m *facts.Facts) {
			m.Set.Drop.Critical = remembered("3", "%")
			m.Set.Drop.Other, m.Set.Drop.Charge = m.Set.Drop.Critical, m.Set.Drop.Critical
		}},
		{"W02", dropInside, func(m *facts.Facts) {
			for _, r := range m.Runs {
				r.Warmth[0].Source = cite.Source{Key: "a code", Confidence: cite.FromMemory}
			}
		}},
		{"W03", bigEnough, func(m *facts.Facts) {
			m.Set.Size.Single.Size = m.Runs[0].Size
			m.Set.Size.Single.Source = cite.Source{Key: "a code", Confidence: cite.FromMemory}
		}},
	} {
		t.Run(c.rule, func(t *testing.T) {
			m := clean(t)
			c.feed(m)
			found, err := c.ask(m)
			require.NoError(t, err)
			judged := 0
			for _, f := range found {
				if v := f.Verdict(); v == working.Passes || v == working.Fails {
					judged++
					assert.Equal(t, cite.FromMemory, f.Working.Confidence(), "%s %s", f.ID, f.Where)
				}
			}
			assert.Positive(t, judged)
		})
	}
}
