package facts

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// winch makes a winch of 30 A of the clinic's pump: so many seconds at a time, so much of
// the time, on its 4 mm².
func winch(runS, percent, hours string) func(*job.Job) {
	return func(j *job.Job) {
		i := slices.IndexFunc(j.Loads, func(l job.Load) bool { return l.Name == "water pump" })
		l := &j.Loads[i]
		l.Behaves, l.PowerW, l.CurrentA = "current", decimal.NullDecimal{}, volt("30")
		l.LongestRunS, l.Percent, l.HoursADay = volt(runS), volt(percent).Decimal, volt(hours).Decimal
		l.SurgeW, l.SurgeS = decimal.NullDecimal{}, decimal.NullDecimal{}
	}
}

// TestShortDuty: 30 A for a quarter of the time heat as 30 A × √¼ = 15 A do (Joule), a
// little more at the end of each run; for an hour on end they heat as 30 A. Ten seconds a
// day do not heat a cable at all.
func TestShortDuty(t *testing.T) {
	for _, c := range []struct {
		runS, percent, hours string
		from, to             float64
	}{
		{"5", "25", "2", 15, 18},
		{"60", "25", "2", 15, 30},
		{"10", "100", "0.0028", 1, 10},
		{"3600", "100", "2", 0, 0},
	} {
		m := clinic(t, winch(c.runS, c.percent, c.hours))
		as := m.loads["water pump"].EquivalentA
		assert.Equal(t, c.to > 0, as.Valid, c)
		if c.to > 0 {
			assert.GreaterOrEqual(t, as.Decimal.InexactFloat64(), c.from, c)
			assert.Less(t, as.Decimal.InexactFloat64(), c.to, c)
		}
	}
}

// TestPeakOfShortDuty: what heats is the mean, what flows is the peak.
func TestPeakOfShortDuty(t *testing.T) {
	m := clinic(t, winch("5", "25", "2"))
	r := m.run("pump")
	assert.Equal(t, "30", r.Peak.A.Round(3).String())
	assert.Equal(t, "30", r.Switched().A.Round(3).String(), "the contact makes and breaks it")
	assert.True(t, r.Lasting().A.LessThan(decimal.NewFromInt(18)), r.Lasting().A)
	assert.Equal(t, "5", m.ShortOn(r).String())
	assert.True(t, m.ShortOn(m.run("fridge")).IsZero())
	c, left, ok := m.WorstFor("water pump", "pump")
	require.True(t, ok)
	assert.Equal(t, installation.Brief, c.Kind, c.Name)
	assert.True(t, left.IsPositive())
}
