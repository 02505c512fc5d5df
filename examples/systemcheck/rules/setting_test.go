package rules_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// about counts the findings of a rule whose place begins so.
func about(r paper.Report, rule, where string) (n int) {
	for _, f := range r.Findings {
		if f.ID == rule && strings.HasPrefix(f.Where, where) {
			n++
		}
	}
	return n
}

// The alternator on its starter battery is judged by the highest that it holds, for
// the vehicle lowers it on purpose: up to 2.5 V a cell for flooded lead-acid, where
// equalising begins (from memory). Joined to the house bank it is judged at both ends of what
// the vehicle makes of it.
func TestAlternatorAgainstTheBank(t *testing.T) {
	j := read(t, "clinic.yaml")
	const own = "alternator on starter battery, highest charging voltage"
	for volts, want := range map[string]working.Verdict{"14.2": working.Passes, "14.8": working.Passes, "15": working.Passes, "15.1": working.Fails} {
		j.Alternators[0].RunsAtV = d(volts)
		assert.Equal(t, want, found(t, judge(t, j), "C11", own).Verdict(), volts)
	}
	j = straight(t)
	j.Alternators[0].RunsAtV = d("15.1")
	r := judge(t, j)
	assert.Equal(t, working.Fails, found(t, r, "C11", "alternator, highest charging voltage").Verdict())
	low := found(t, r, "C11", "alternator, lowest charging voltage")
	assert.Equal(t, working.Fails, low.Verdict())
	assert.Equal(t, "12.5", value(t, low, "U_h1"))
}

// A charger set for lead-acid on lithium, and set for lithium on lead-acid.
func TestChargerOfAnotherChemistry(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Chargers[1].MilliVPerC = null("-30") // down to 0 °C, where the unit blocks: 14.2 + 0.75 V
	f := found(t, judge(t, j), "C11", "mains charger, highest charging voltage")
	assert.Equal(t, "14.95", value(t, f, "U_h2"))
	assert.Equal(t, "14.6", value(t, f, "U_b2"))
	j = read(t, "library-truck.yaml")
	j.Chargers[1].OutputV = d("29.6") // sealed: 14.7 V at most on six cells, two blocks
	f = found(t, judge(t, j), "C11", "mains charger, highest charging voltage")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Equal(t, "29.4", value(t, f, "U_b2"))
}

// The data sheet's window comes before the tables', of several batteries the
// narrowest.
func TestBatterysOwnWindow(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Chargers[1].OutputV = d("14.7")
	for i := range 2 {
		j.Batteries[i].ChargeLeastV, j.Batteries[i].ChargeMostV = null("14.0"), null("14.7")
	}
	r := judge(t, j)
	assert.Equal(t, working.Passes, found(t, r, "C11", "mains charger, highest charging voltage").Verdict())
	j.Batteries[1].ChargeLeastV = null("14.3")
	assert.Equal(t, working.Fails, found(t, judge(t, j), "C11", "roof array, lowest charging voltage").Verdict())
}

// What is not known of the management unit is not asked for; the voltage for
// equalising reaches the loads too.
func TestUnitUnderCharge(t *testing.T) {
	r := judge(t, read(t, "river-workboat.yaml"))
	assert.Equal(t, working.NotApplicable, found(t, r, "C12", "house battery").Verdict())
	j := read(t, "clinic.yaml")
	assert.Contains(t, found(t, judge(t, j), "C12", "battery A").Silent, "is not stated")
	j.Batteries[0].ChargeCutOutV = null("14.6")
	j.Batteries[1].ChargeCutOutV = null("15.6")
	j.Chargers[1].EqualiseV = null("15.5")
	r = judge(t, j)
	f := found(t, r, "C12", "battery A")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Equal(t, "charged by mains charger", f.Case)
	assert.Equal(t, working.Passes, found(t, r, "C12", "battery B").Verdict())
	j.Inverters[0].WorksToV = null("15.4")
	assert.Equal(t, working.Fails, found(t, judge(t, j), "P18", "inverter").Verdict())
}

// Without a charger there is nothing to judge.
func TestNothingCharges(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Chargers, j.Solar, j.Bay.Holds = nil, nil, nil
	for i := range j.States {
		j.States[i].Sources = nil
	}
	j.Circuits = slices.DeleteFunc(j.Circuits, func(c job.Circuit) bool {
		return slices.Contains([]string{"engine converter", "mains charger", "roof array"}, c.From)
	})
	r := judge(t, j)
	assert.Equal(t, working.NotApplicable, found(t, r, "C11", "the house bank").Verdict())
	assert.Equal(t, working.NotApplicable, found(t, r, "C12", "battery A").Verdict())
}

// A solar controller cannot equalise at less than it charges at.
func TestControllersEqualisingVoltage(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "jobs", "clinic.yaml"))
	require.NoError(t, err)
	edited := strings.Replace(string(text), "    losses_percent: 18\n", "    losses_percent: 18\n    equalise_v: 14\n", 1)
	require.NotEqual(t, string(text), edited)
	_, err = job.Read("clinic.yaml", strings.NewReader(edited))
	assert.ErrorContains(t, err, `solar[0].equalise_v is "14": want at least output_v, which is 14.2`)
}
