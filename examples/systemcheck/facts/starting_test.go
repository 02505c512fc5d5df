package facts

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// edited is the facts of the clinic with a change.
func edited(t *testing.T, edit func(*job.Job)) *Facts {
	t.Helper()
	text, err := os.Open(filepath.Join("..", "jobs", "clinic.yaml"))
	require.NoError(t, err)
	defer text.Close()
	file, err := job.Read("clinic.yaml", text)
	require.NoError(t, err)
	edit(&file.Job)
	m, err := New(file.Job)
	require.NoError(t, err)
	return m
}

// The watts of a start are stated at 12 V: what draws a constant current takes
// (450 W − 70 W) ÷ 12 V = 31.67 A more; a resistance as much more again as the highest
// voltage is above 12 V (Ohm's law), 14.4 V here: 38 A; and what draws constant power the
// more the lower the voltage is, so more than at 12 V where a nearly empty bank starts it.
func TestWhatAStartDraws(t *testing.T) {
	more := func(behaves string) decimal.Decimal {
		var pump job.Load
		m := edited(t, func(j *job.Job) {
			for i := range j.Chargers {
				j.Chargers[i].OutputV = decimal.RequireFromString("14.4")
			}
			j.Solar[0].OutputV = decimal.RequireFromString("14.4")
			i := slices.IndexFunc(j.Loads, func(l job.Load) bool { return l.Name == "water pump" })
			j.Loads[i].PowerW, j.Loads[i].SurgeW, j.Loads[i].SurgeS, j.Loads[i].Behaves = volt("70"), volt("450"), volt("0.3"), behaves
			j.Batteries[0].EmptyV, j.Batteries[1].EmptyV = decimal.RequireFromString("11.6"), decimal.RequireFromString("11.6")
			pump = j.Loads[i]
		})
		i := slices.IndexFunc(m.Runs, func(r *Run) bool { return r.OtherEnd(pump.At) != "" })
		w, ok := m.Starting(m.Runs[i], pump)
		require.True(t, ok)
		running, _ := w.Value("I_b")
		starting, _ := w.Value("I_sg")
		return starting.Sub(running)
	}
	assert.InDelta(t, 31.67, more("current").InexactFloat64(), 0.01)
	assert.InDelta(t, 38, more("resistance").InexactFloat64(), 0.01)
	assert.Greater(t, more("power").InexactFloat64(), 33.0)
}

// A bank rests no higher than its lowest battery, wherever that stands in the file.
func TestLowestRestedVoltage(t *testing.T) {
	for _, volts := range [][2]string{{"12.9", "12.5"}, {"12.5", "12.9"}} {
		m := edited(t, func(j *job.Job) {
			for i, v := range volts {
				j.Batteries[i].EmptyV = decimal.RequireFromString(v)
			}
		})
		assert.Equal(t, "12.5", m.lowestBankV().String())
	}
}

// What stands behind an end is the same only with the same guards, none of which is the
// device that was changed.
func TestSameBacking(t *testing.T) {
	guarded := func(paths ...string) (b Backing) {
		for _, p := range paths {
			b.Guards = append(b.Guards, End{Path: p})
		}
		return b
	}
	one := guarded("circuits[0].device")
	assert.True(t, one.Same(guarded("circuits[0].device"), "circuits[1].device"))
	assert.False(t, one.Same(guarded("circuits[0].device"), "circuits[0].device"), "it is what was changed")
	assert.False(t, one.Same(guarded("circuits[1].device"), "circuits[2].device"), "another guards it")
	assert.False(t, one.Same(guarded(), "circuits[2].device"), "nothing guards it")
	limited := one
	limited.LimitA = decimal.NewFromInt(30)
	assert.False(t, one.Same(limited, ""))
	for _, other := range []Backing{{Unlimited: true}, {Fed: true}, {Battery: true}, {OwnA: decimal.NewFromInt(5)}} {
		assert.False(t, Backing{}.Same(other, ""))
	}
}
