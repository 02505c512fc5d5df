package rules_test

import (
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// TestCranksOver works the workboat's starter by hand: 12.3 V less 250 A × 8 mΩ of
// the aged, cold battery, less 250 A × (2 × 2.4384 m × 0.28 mΩ/m of AWG 2/0 warm, + 0.5 mΩ
// of contacts), are some 9.8 V; SAE J537 lets the battery sink to 7.2 V. Twice the
// current leaves less.
func TestCranksOver(t *testing.T) {
	j := starter(t, "AWG 2/0", nil)
	f := finding(t, judge(t, j), "B22", "engine starter, on cranking battery")
	assert.Equal(t, working.Passes, f.Verdict())
	assert.InDelta(t, 9.8, f.Limit.InexactFloat64(), 0.1)
	assert.Equal(t, "7.2", f.Demand.String())
	workingtest.Guard(t, f.Working)

	j.Loads[len(j.Loads)-1].CurrentA = null("530")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "B22", "engine starter, on cranking battery").Verdict())
	j.Loads[len(j.Loads)-1].LeastV = null("6")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "B22", "engine starter, on cranking battery").Verdict(), "its own least")
}

// TestCranksOnEachBattery: a selector puts the starter on one battery or the other,
// and each has to do; joined for good, the two do it together.
func TestCranksOnEachBattery(t *testing.T) {
	selector := &job.Switch{Kind: "isolator", RatingA: d("300"), ShortTimeA: null("1000")}
	j := starter(t, "AWG 2/0", selector)
	second := j.Batteries[1]
	second.Name, second.HighMilliohm = "second battery", null("25")
	lead := j.Circuits[len(j.Circuits)-1]
	lead.Name, lead.From = "second starter cable", second.Name
	j.Batteries, j.Circuits = append(j.Batteries, second), append(j.Circuits, lead)
	r := judge(t, j)
	assert.Equal(t, working.Passes, finding(t, r, "B22", "engine starter, on cranking battery").Verdict())
	assert.Equal(t, working.Fails, finding(t, r, "B22", "engine starter, on second battery").Verdict(), "12.3 V − 250 A × 25 mΩ")

	for i := range 2 {
		j.Circuits[len(j.Circuits)-1-i].Switch = nil
	}
	r = judge(t, j)
	assert.Equal(t, working.Passes, finding(t, r, "B22", "engine starter, on cranking battery").Verdict())
	assert.Zero(t, about(r, "B22", "engine starter, on second battery"))
}

// TestCouldCrank: where no load says what cranks the engine, a battery of 95 Ah that
// gives (12.3 − 7.2) V ÷ 8 mΩ = 637 A at its posts could; at 50 mΩ it gives 102 A,
// with which no such engine starts.
func TestCouldCrank(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	f := finding(t, judge(t, j), "B22", "cranking battery")
	assert.Equal(t, working.Passes, f.Verdict())
	assert.Equal(t, "637.5", f.Limit.String())
	workingtest.Guard(t, f.Working)
	j.Batteries[1].HighMilliohm = null("50")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "B22", "cranking battery").Verdict())
}

// TestCrankedEverywhere: of two cables alike side by side in the file each is judged,
// whichever stands first, and so is each on the way to a second battery.
func TestCrankedEverywhere(t *testing.T) {
	for _, first := range []string{"AWG 12", "AWG 2/0"} {
		j := starter(t, first, nil)
		second := j.Circuits[len(j.Circuits)-1]
		second.Name, second.Size = "second starter cable", size(t, map[string]string{"AWG 12": "AWG 2/0", "AWG 2/0": "AWG 12"}[first])
		j.Circuits = append(j.Circuits, second)
		r := judge(t, j)
		assert.Equal(t, first == "AWG 12", finding(t, r, "W01", "starter cable, while the engine is cranked").Verdict() == working.Fails)
		assert.Equal(t, first != "AWG 12", finding(t, r, "W01", "second starter cable, while the engine is cranked").Verdict() == working.Fails)
	}
}

// TestHoldsUp works the truck by hand: 28.2 V less 88 A × (1.5 m × 0.47 mΩ/m + 0.4 mΩ
// of chassis + 0.5 mΩ) are 28.05 V, well above 25.4 V; with 30 mΩ more in its joints
// they are 25.4 V and not above.
func TestHoldsUp(t *testing.T) {
	j := read(t, "library-truck.yaml")
	f := finding(t, judge(t, j), "C14", "alternator")
	assert.Equal(t, working.Passes, f.Verdict())
	assert.InDelta(t, 28.06, f.Limit.InexactFloat64(), 0.02)
	workingtest.Guard(t, f.Working)
	circuit(&j, "alternator lead").ContactsMilliohm = d("31")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "C14", "alternator").Verdict())

	j = read(t, "library-truck.yaml")
	j.Alternators[0].RunsAtV = d("25.5")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "C14", "alternator").Verdict())
	clinic := read(t, "clinic.yaml") // varied by the vehicle: it charges at 14.2 V, not at 12.5 V
	assert.Equal(t, "14.2", value(t, finding(t, judge(t, clinic), "C14", "alternator"), "U_v"))
}

// TestJointsCool: 10 mΩ in the contacts of a run of 50 A are 25 W, wherever it lies;
// a chassis return has bolts of its own.
func TestJointsCool(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	where := "alternator lead, its contacts"
	f := finding(t, judge(t, j), "W09", where)
	assert.Equal(t, working.Passes, f.Verdict())
	assert.Equal(t, "0.25", value(t, f, "R_jt"))
	workingtest.Guard(t, f.Working)
	circuit(&j, "alternator lead").ContactsMilliohm = d("10")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "W09", where).Verdict())

	truck := read(t, "library-truck.yaml")
	assert.Equal(t, working.Passes, finding(t, judge(t, truck), "W09", "alternator lead, its chassis return").Verdict())
	circuit(&truck, "alternator lead").ChassisMilliohm = null("10")
	r := judge(t, truck)
	assert.Equal(t, working.Fails, finding(t, r, "W09", "alternator lead, its chassis return").Verdict())
	assert.Equal(t, working.Passes, finding(t, r, "W09", where).Verdict())
	assert.Zero(t, about(r, "W09", "panel feed, its chassis return"))
}

// TestJointsWhileCranking: 250 A through 0.5 mΩ are 8 W in each of four lugs, for 30 s;
// through 20 mΩ 312 W.
func TestJointsWhileCranking(t *testing.T) {
	j := starter(t, "AWG 2/0", nil)
	where := "starter cable, while the engine is cranked, its contacts"
	f := finding(t, judge(t, j), "W09", where)
	assert.Equal(t, working.Passes, f.Verdict())
	assert.Equal(t, "7.8125", value(t, f, "P_jt"))
	circuit(&j, "starter cable").ContactsMilliohm = d("20")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "W09", where).Verdict())
	circuit(&j, "starter cable").ContactsMilliohm = decimal.Zero
	assert.Equal(t, working.CannotTell, finding(t, judge(t, j), "W09", where).Verdict(), "no contacts have 0 mΩ")
}

// TestNothingStarts: an inverter whose loads state no start is judged at its rated
// surge, never as holding with nothing started: 6000 W at 88 % are more than the bank
// gives, while 2000 W, 2273 W taken, leave enough.
func TestNothingStarts(t *testing.T) {
	j := read(t, "clinic.yaml")
	l := &j.Loads[len(j.Loads)-1]
	l.SurgeW, l.SurgeS = decimal.NullDecimal{}, decimal.NullDecimal{}
	f := finding(t, judge(t, j), "B05", "inverter")
	assert.Contains(t, f.Case, "rated surge")
	j.Inverters[0].SurgeW = d("6000")
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "B05", "inverter").Verdict())
}

// TestStartOfMinutes: what takes 1500 W for ten minutes is a load of 1500 W to an
// inverter of 1000 W, whatever its surge rating; for half a second it is a start. On a
// cable it heats as a load does: 70 W run and 220 W for ten minutes.
func TestStartOfMinutes(t *testing.T) {
	j := read(t, "clinic.yaml")
	l := &j.Loads[len(j.Loads)-1]
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "B18", "inverter, steady").Verdict())
	l.SurgeS, l.LongestRunS = null("600"), decimal.NullDecimal{}
	assert.Equal(t, working.Fails, finding(t, judge(t, j), "B18", "inverter, steady").Verdict())

	j = read(t, "clinic.yaml")
	pump := &j.Loads[2]
	pump.SurgeW, pump.SurgeS = null("220"), null("0.5")
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "P01", "pump, at panel").Verdict())
	pump.SurgeS, pump.LongestRunS = null("600"), null("600")
	assert.NotEqual(t, working.Passes, finding(t, judge(t, j), "P01", "pump, at panel").Verdict(), "some 20 A on a fuse of 10 A")
}

// TestStartFollowsTheLoad: what draws a constant current draws that of its nominal
// voltage while it starts, however low the voltage is; what draws constant power more.
func TestStartFollowsTheLoad(t *testing.T) {
	surge := func(behaves string) string {
		j := read(t, "river-workboat.yaml")
		for i := range j.Loads {
			if j.Loads[i].Name == "bilge pump" {
				j.Loads[i].Behaves = behaves
			}
		}
		return value(t, finding(t, judge(t, j), "P08", "bilge pump, at panel, when bilge pump starts"), "I_sg")
	}
	assert.Equal(t, "11.67", surge("current"), "140 W at 12 V")
	assert.True(t, d(surge("power")).GreaterThan(d("11.67")), "the same watts at less")
	assert.True(t, d(surge("resistance")).GreaterThan(d("11.67")), "at 14.4 V")
}

// TestSleepingConverterRefillsNothing: a converter that never wakes, or whose input is
// below its least, puts nothing back, by itself or in the month; it still counts where
// the chargers add up.
func TestSleepingConverterRefillsNothing(t *testing.T) {
	for what, spoil := range map[string]func(c *job.Charger){
		"never wakes":     func(c *job.Charger) { c.WakesBy, c.WakeV, c.SleepV = "voltage", null("13"), null("12.8") }, // the clinic's engine holds 12.5 V
		"below its least": func(c *job.Charger) { c.LeastInputV = null("12.6") },
	} {
		j := read(t, "clinic.yaml")
		together := finding(t, judge(t, j), "C01", "the house bank").Demand
		spoil(&j.Chargers[0])
		r := judge(t, j)
		assert.Equal(t, []string{"at the practice"}, states(r.Bank.Refills), what)
		assert.False(t, r.Charging.Sources[0].TimeH.Valid, what)
		assert.True(t, finding(t, r, "C01", "the house bank").Demand.Equal(together), what)
	}
}
