package facts

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A converter that never wakes at the voltage that the engine runs at, or whose input
// is below its least, gives nothing: no supply of the house bank, and no hour in which
// another bank counts as charged.
func TestConverterThatGivesNothing(t *testing.T) {
	for name, spoil := range map[string]func(*job.Charger){
		"never wakes": func(c *job.Charger) { c.WakesBy, c.WakeV, c.SleepV = "voltage", volt("13.9"), volt("13.5") },
		"starves":     func(c *job.Charger) { c.LeastInputV = volt("14.5") },
	} {
		var hours []decimal.Decimal
		for _, spoilt := range []bool{false, true} {
			m := clinic(t, func(j *job.Job) {
				i := slices.IndexFunc(j.Chargers, func(c job.Charger) bool { return c.Name == "engine converter" })
				j.Alternators[0].LeastV = volt("13.5")
				if spoilt {
					spoil(&j.Chargers[i])
				}
			})
			driving := &m.Job.States[0]
			supplies, err := m.WorksIn(driving)
			require.NoError(t, err)
			counted := slices.ContainsFunc(supplies, func(x Supply) bool { return x.Name == "engine converter" })
			assert.Equal(t, !spoilt, counted, name)
			load := job.Load{Name: driving.Loads[0], HoursADay: decimal.NewFromInt(24)}
			hours = append(hours, m.unchargedHours(load, m.Banks[0]))
		}
		more := hours[1].Sub(hours[0])
		assert.True(t, more.GreaterThanOrEqual(decimal.NewFromInt(3)), "%s: %s h more, of 3 h on the road", name, more)
	}
}

func volt(s string) decimal.NullDecimal { return decimal.NewNullDecimal(decimal.RequireFromString(s)) }
