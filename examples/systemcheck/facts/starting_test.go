package facts

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The watts of a start are stated at 12 V: what draws a constant current takes
// (450 W − 70 W) ÷ 12 V = 31.67 A more; a resistance as much more again as the highest
// voltage is above 12 V (Ohm's law), 14.4 V here: 38 A; and what draws constant power the
// more the lower the voltage is, so more than at 12 V where a nearly empty bank starts it.
func TestWhatAStartDraws(t *testing.T) {
	more := func(behaves, surgeS string) decimal.Decimal {
		var pump job.Load
		m := clinic(t, func(j *job.Job) {
			for i := range j.Chargers {
				j.Chargers[i].OutputV = decimal.RequireFromString("14.4")
			}
			j.Solar[0].OutputV = decimal.RequireFromString("14.4")
			i := slices.IndexFunc(j.Loads, func(l job.Load) bool { return l.Name == "water pump" })
			j.Loads[i].PowerW, j.Loads[i].SurgeW, j.Loads[i].SurgeS, j.Loads[i].Behaves = volt("70"), volt("450"), volt(surgeS), behaves
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
	assert.InDelta(t, 31.67, more("current", "0.3").InexactFloat64(), 0.01)
	assert.InDelta(t, 38, more("resistance", "0.3").InexactFloat64(), 0.01)
	assert.Greater(t, more("power", "0.3").InexactFloat64(), 33.0)
	assert.InDelta(t, 31.67, more("current", "120").InexactFloat64(), 0.01, "one that lasts heats too, and is added once")
}

// A start that lasts is no less behind an inverter, whose surge no case runs.
func TestStartThatLastsBehindAnInverter(t *testing.T) {
	starting := func(surgeS string) decimal.Decimal {
		var tool job.Load
		m := clinic(t, func(j *job.Job) {
			i := slices.IndexFunc(j.Loads, func(l job.Load) bool { return l.Inverter != "" && l.SurgeW.Valid })
			j.Loads[i].SurgeS, j.Loads[i].LongestRunS = volt(surgeS), decimal.NullDecimal{}
			tool = j.Loads[i]
		})
		i := slices.IndexFunc(m.Runs, func(r *Run) bool { return r.Name == "inverter feed" })
		w, ok := m.Starting(m.Runs[i], tool)
		require.True(t, ok)
		a, _ := w.Value("I_sg")
		return a
	}
	assert.Equal(t, starting("0.5").String(), starting("120").String())
}

// What chargers give a bank counts in the state in which they give most, though an
// alternator gives more in another.
func TestMostByChargers(t *testing.T) {
	m := clinic(t, func(j *job.Job) {
		i := slices.IndexFunc(j.Chargers, func(c job.Charger) bool { return c.Kind == "mains" })
		c := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.From == j.Chargers[i].Name })
		j.Circuits[c].To = "starter battery"
	})
	k := m.BankWith("starter battery")
	assert.Equal(t, "30", m.ByChargers(k).String(), "30 A of the mains charger")
}

// A controller that only switches holds the modules at the battery's voltage: two in
// series have half of it each, and each gives half of what it gives by itself.
func TestModulesInSeriesOnASwitchingController(t *testing.T) {
	day := func(series int64) float64 {
		m := clinic(t, func(j *job.Job) {
			j.Solar[0].Tracking, j.Solar[0].InSeries, j.Solar[0].Strings = false, decimal.NewFromInt(series), decimal.NewFromInt(1)
		})
		d, err := m.ModuleDay(m.Job.Solar[0], 0, 6)
		require.NoError(t, err)
		return d.EnergyWh.InexactFloat64()
	}
	assert.InDelta(t, day(1)/2, day(2), 0.1)
}

// A bank rests no higher than its lowest battery, wherever that stands in the file.
func TestLowestRestedVoltage(t *testing.T) {
	for _, volts := range [][2]string{{"12.9", "12.5"}, {"12.5", "12.9"}} {
		m := clinic(t, func(j *job.Job) {
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
