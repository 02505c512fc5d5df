package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/assert"
)

// starter is the workboat with an engine's starter on a cable of its own.
func starter(t *testing.T, sizeOf string, sw *job.Switch) job.Job {
	j := read(t, "river-workboat.yaml")
	cable := *circuit(&j, "converter feed")
	cable.Name, cable.From, cable.To, cable.Size, cable.Device, cable.Cranking, cable.Switch, cable.ContactsMilliohm = "starter cable", "cranking battery", "starter", size(t, sizeOf), nil, true, sw, d("0.5")
	j.Circuits = append(j.Circuits, cable)
	j.Loads = append(j.Loads, job.Load{Name: "engine starter", At: "starter", CurrentA: null("250"), Behaves: "current", Percent: d("100"), Cranking: true})
	return j
}

// TestCrankedCableBearsIt: no fuse need guard a starter's cable, so that the copper
// has to bear 250 A for 30 s. AWG 12 (3.31 mm²) has melted by then: by k²S² ÷ I²
// with k = 143 it is past 250 °C after 3.6 s. AWG 2/0 hardly warms.
func TestCrankedCableBearsIt(t *testing.T) {
	const where = "starter cable, while the engine is cranked"
	assert.Equal(t, working.Fails, finding(t, judge(t, starter(t, "AWG 12", nil)), "W01", where).Verdict())
	sound := judge(t, starter(t, "AWG 2/0", nil))
	assert.Equal(t, working.Passes, finding(t, sound, "W01", where).Verdict())
	assert.Equal(t, []string{"P35 what cranks the engine by engine starter: fails"}, bad(sound), "no device guards that lead of a boat")
	isolator := &job.Switch{Kind: "isolator", RatingA: d("150"), ShortTimeA: null("400"), Reached: "by hand"}
	assert.Empty(t, bad(judge(t, starter(t, "AWG 2/0", isolator))))
}

// TestRelayCarriesTheStarter: to close on 300 A is a matter of milliseconds; a relay
// has to carry the 250 A for as long as the engine is cranked.
func TestRelayCarriesTheStarter(t *testing.T) {
	relay := &job.Switch{Kind: "relay", RatingA: d("70"), Load: "motor", MakesA: null("300")}
	assert.Equal(t, working.CannotTell, finding(t, judge(t, starter(t, "AWG 2/0", relay)), "P16", "starter cable, its relay").Verdict())
	relay.ShortTimeA = null("300")
	assert.Equal(t, working.Passes, finding(t, judge(t, starter(t, "AWG 2/0", relay)), "P16", "starter cable, its relay").Verdict())
}

// TestMustRunIsNotShed: a pump that must run and that a device takes off at 12.5 V
// is off while half of the charge is left.
func TestMustRunIsNotShed(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	j.Loads[1].ShedsV = null("12.5")
	f := finding(t, judge(t, j), "W04", "bilge pump")
	assert.Equal(t, []string{"fails", "12.5"}, []string{f.Verdict().String(), f.Demand.String()})
	j.Loads[1].ShedsV = null("10.5")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "W04", "bilge pump").Verdict())
}

// TestStarterBatteryKeepsItsStart: 12 A for the four hours at anchor are 48 Ah, and
// 576 Wh, of a battery of 95 Ah of which 30 % may be used: 0.3 × 0.8 × 95 are 22.8.
func TestStarterBatteryKeepsItsStart(t *testing.T) {
	const where = "cranking battery, by what it feeds uncharged"
	j := read(t, "river-workboat.yaml")
	for _, f := range judge(t, j).Findings {
		assert.NotEqual(t, where, f.Where, "the gauges run with the engine alone")
	}
	gauges := &j.Loads[3]
	gauges.CurrentA, gauges.HoursADay = null("12"), d("7")
	j.States[1].Loads = append(j.States[1].Loads, gauges.Name)
	f := finding(t, judge(t, j), "B03", where)
	assert.Equal(t, []string{"fails", "576", "the engine does not start"}, []string{f.Verdict().String(), f.Demand.String(), f.Danger})

	clinic := read(t, "clinic.yaml") // an array on the battery need not shine at anchor
	output := *circuit(&clinic, "roof array output")
	output.To = "cranking battery"
	j.Solar, j.Circuits = clinic.Solar, append(j.Circuits, output)
	j.States[1].Sources = append(j.States[1].Sources, "roof array")
	assert.Equal(t, "576", finding(t, judge(t, j), "B03", where).Demand.String())
}
