package rules_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// verdict is that of one rule about one thing of a job; NotMade where the report
// has no such finding.
func verdict(r paper.Report, id, where string) working.Verdict {
	i := slices.IndexFunc(r.Findings, func(f rules.Finding) bool { return f.ID == id && f.Where == where })
	if i < 0 {
		return working.NotMade
	}
	return r.Findings[i].Verdict()
}

// TestUnsafeInstallationsDoNotPass changes a sample that passes in one way at a
// time, each of which a check that only looks at the circuit itself would pass.
func TestUnsafeInstallationsDoNotPass(t *testing.T) {
	for _, c := range []struct {
		name, id, where string
		want            working.Verdict
		spoil           func(t *testing.T, j *job.Job)
	}{
		{"a house lead called cranking", "P07", "battery A lead, at battery A", working.Fails, func(t *testing.T, j *job.Job) {
			circuit(j, "battery A lead").Device, circuit(j, "battery A lead").Cranking = nil, true
		}},
		{"a converter feed called cranking", "P07", "converter feed, at starter battery", working.Fails, func(t *testing.T, j *job.Job) {
			circuit(j, "converter feed").Device, circuit(j, "converter feed").Cranking = nil, true
		}},
		{"an alternator lead called cranking", "P07", "alternator lead, at starter battery", working.Fails, func(t *testing.T, j *job.Job) {
			circuit(j, "alternator lead").FarDevice, circuit(j, "alternator lead").Cranking = nil, true
		}},
		{"an alternator that does not limit itself", "P07", "alternator lead, at alternator", working.Fails, func(t *testing.T, j *job.Job) {
			j.Alternators[0].SelfLimiting = false
		}},
		{"a tail behind a ring of 10 and 60 A", "P07", "tail, at ring", working.Fails, func(t *testing.T, j *job.Job) {
			add(j, "panel feed", "ring one", "main bus", "ring").Device = &job.Device{Family: "ISO 8820-3 C", RatingA: d("10")}
			add(j, "panel feed", "ring two", "main bus", "ring").Device = &job.Device{Family: "ISO 8820-5 SF30", RatingA: d("60")}
			add(j, "roof fan", "tail", "ring", "tail end")
		}},
		// The hub's one device serves both ways to the tail: 10 A, not 20.
		{"a tail behind one device and two ways", "P07", "tail, at ring", working.Passes, func(t *testing.T, j *job.Job) {
			add(j, "panel feed", "hub feed", "main bus", "hub").Device = &job.Device{Family: "ISO 8820-3 C", RatingA: d("10")}
			add(j, "panel feed", "way one", "hub", "ring")
			add(j, "panel feed", "way two", "hub", "ring")
			add(j, "roof fan", "tail", "ring", "tail end").Grouped = d("5")
		}},
		{"an air of the device that no table reaches", "P01", "fridge, at panel", working.CannotTell, func(t *testing.T, j *job.Job) {
			circuit(j, "fridge").Device.AmbientPercent = decimal.NullDecimal{}
		}},
		{"a load without a lowest voltage", "W04", "water pump", working.CannotTell, func(t *testing.T, j *job.Job) {
			j.Loads[2].LeastV = decimal.NullDecimal{}
		}},
		{"a load that nobody knows to survive a load dump", "P19", "examination lights", working.CannotTell, func(t *testing.T, j *job.Job) {
			j.Loads[1].At = "converter input"
		}},
		{"hot insulation without a name", "P09", "fridge, at panel", working.CannotTell, func(t *testing.T, j *job.Job) {
			circuit(j, "fridge").Insulation, circuit(j, "fridge").InsulationC = "", d("200")
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := read(t, "clinic.yaml")
			c.spoil(t, &j)
			r := judge(t, j)
			assert.Equal(t, c.want, verdict(r, c.id, c.where))
		})
	}
}

// withStarter is the clinic's file with an engine's starter on a cable of its own,
// read as a user's file is.
func withStarter(t *testing.T, cable string) job.Job {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "jobs", "clinic.yaml"))
	require.NoError(t, err)
	const motor = "loads:\n  - {name: starter motor, at: starter posts, cranking: true, power_w: 2000, behaves: power, hours_a_day: 0.01, duty_percent: 100, critical: false}\n"
	const like = "length_m: 1.2, size: 70 mm2, strands: 5, insulation_c: 90, method: C, ambient_c: 60, grouped: 1, return: cable, contacts_milliohm: 0.5, purpose: supply"
	edited := strings.Replace(string(text), "loads:\n", motor, 1)
	edited = strings.Replace(edited, "circuits:\n", "circuits:\n  - {name: starter cable, from: starter battery, to: starter posts, cranking: true, "+like+cable+"}\n", 1)
	file, err := job.Read("clinic.yaml", strings.NewReader(edited))
	require.NoError(t, err)
	return file.Job()
}

// TestStarterCable wants the supply of a cranking motor, and it alone, without a
// device (33 CFR 183.455(a) and 183.460(a)). Nothing else of the job changes: the
// drop of a cranking cable is not judged, and no state lists a starter.
func TestStarterCable(t *testing.T) {
	const cable = "starter cable, at starter battery"
	j := withStarter(t, "")
	r := judge(t, j)
	assert.Empty(t, bad(r))
	assert.Equal(t, working.NotApplicable, verdict(r, "P07", cable))
	assert.Equal(t, working.NotMade, verdict(r, "W02", "starter motor"))

	circuit(&j, "starter cable").Cranking = false
	for i := range j.Loads {
		j.Loads[i].Cranking = false
	}
	j.States[0].Loads = append(slices.Clone(j.States[0].Loads), "starter motor")
	f := finding(t, judge(t, j), "P07", cable)
	assert.Equal(t, working.Fails, f.Verdict())
	assert.NotContains(t, f.Remedy, "15 A", "2 kW at 12 V are 167 A: no such fuse bears them for 30 s")

	j = withStarter(t, "")
	add(&j, "fridge", "glow plugs", "starter posts", "glow plugs")
	assert.Equal(t, working.Fails, verdict(judge(t, j), "P07", "glow plugs, at starter posts"), "what branches off")

	j = withStarter(t, "")
	j.Loads[1].At, j.Loads[1].LeastV, j.Loads[1].WorksFromV = "starter posts", null("8"), null("8") // the fridge
	assert.Equal(t, working.Fails, verdict(judge(t, j), "P07", cable), "it serves more than cranking")
}

// TestStarterThrough wants what cranks through an isolator or a device known to
// bear it: 2 kW at 12 V are 166.67 A.
func TestStarterThrough(t *testing.T) {
	r := judge(t, withStarter(t, ", switch: {kind: isolator, rating_a: 100, short_time_a: 160}"))
	f := finding(t, r, "P16", "starter cable, its isolator")
	assert.Equal(t, []string{"166.67", "fails"}, []string{f.Demand.String(), f.Verdict().String()})

	// 166.67 A through 80 A are twice the rating: it opens from 1 s on.
	r = judge(t, withStarter(t, ", device: {family: ISO 8820-5 SF51, rating_a: 80, breaks_a: 5000, breaks_at_v: 58, along_mm: 100}"))
	assert.Equal(t, working.Fails, verdict(r, "P08", "starter cable, at starter battery, when starter motor starts"))
}

// add adds a run like another, between two nodes and without a device.
func add(j *job.Job, like, name, from, to string) *job.Circuit {
	c := *circuit(j, like)
	c.Name, c.From, c.To, c.Device, c.FarDevice, c.Switch = name, from, to, nil, nil, nil
	j.Circuits = append(j.Circuits, c)
	return &j.Circuits[len(j.Circuits)-1]
}

// TestPassesByNameFailsOverall wants a device that 33 CFR 183.455(c)(1) lets
// exceed the ampacity by half to pass by that rule alone.
func TestPassesByNameFailsOverall(t *testing.T) {
	const where = "bilge pump, at panel"
	j := read(t, "river-workboat.yaml")
	j.RuleSet = "us-boat"
	circuit(&j, "bilge pump").Size = size(t, "AWG 16")
	i := slices.IndexFunc(judge(t, j).Circuits, func(c facts.Circuit) bool { return c.Name == "bilge pump" })
	ampacity := judge(t, j).Circuits[i].AmpacityA
	circuit(&j, "bilge pump").Device.RatingA = ampacity.Mul(d("1.4"))
	r := judge(t, j)
	assert.Equal(t, working.Passes, verdict(r, "P02", where))
	assert.Equal(t, working.Fails, verdict(r, "P02", where+", overall"))
	circuit(&j, "bilge pump").Device.RatingA = ampacity
	assert.Equal(t, working.Passes, verdict(judge(t, j), "P02", where+", overall"))
}

// TestSetsWithoutAmpacity wants no verdict on a cable from a set that has no
// table of ampacities.
func TestSetsWithoutAmpacity(t *testing.T) {
	for _, key := range []string{"us-rv", "au-nz"} {
		j := read(t, "clinic.yaml")
		j.RuleSet = key
		circuit(&j, "fridge").Device.RatingA = d("40")
		r := judge(t, j)
		assert.Equal(t, working.CannotTell, verdict(r, "W01", "fridge"), key)
		assert.Equal(t, working.CannotTell, verdict(r, "P02", "fridge, at panel"), key)
		assert.Equal(t, working.CannotTell, verdict(r, "P07", "mains charger output, at mains charger"), key)
		circuit(&j, "battery A lead").Device = nil
		assert.Equal(t, working.Fails, verdict(judge(t, j), "P07", "battery A lead, at battery A"), key)
	}
}

// TestDeviceBehind judges a run without a device by the one behind it. A gG
// link from 16 A opens at 1.6 times its rating (IEC 60269-1 table 2), so that it
// protects a run of 1.6 ÷ 1.45 = 1.103 times its rating, and none smaller (IEC
// 60364-4-43, 433.1), though its rating is within the ampacity.
func TestDeviceBehind(t *testing.T) {
	behind := func(times string) (p07, p03, p09 working.Verdict) {
		j := read(t, "clinic.yaml")
		add(&j, "panel feed", "branch", "hub", "branch end")
		add(&j, "panel feed", "hub feed", "main bus", "hub").Device = &job.Device{Family: "IEC 60269 gG", RatingA: d("32")}
		i := slices.IndexFunc(judge(t, j).Circuits, func(c facts.Circuit) bool { return c.Name == "branch" })
		circuit(&j, "hub feed").Device.RatingA = judge(t, j).Circuits[i].AmpacityA.Div(d(times))
		r := judge(t, j)
		const where = "branch, at hub"
		return verdict(r, "P07", where), verdict(r, "P03", where), verdict(r, "P09", where)
	}
	p07, p03, _ := behind("1.09")
	assert.Equal(t, []working.Verdict{working.Passes, working.Fails}, []working.Verdict{p07, p03})
	p07, p03, _ = behind("1.11")
	assert.Equal(t, []working.Verdict{working.Passes, working.Passes}, []working.Verdict{p07, p03})
}

// TestFaultInBranchBehind wants the device behind a long thin branch judged at
// the fault at the branch's end: at that it must have opened before the branch
// is hurt.
func TestFaultInBranchBehind(t *testing.T) {
	j := read(t, "clinic.yaml")
	add(&j, "panel feed", "branch", "fridge socket", "branch end").LengthM = d("1")
	assert.Equal(t, working.Passes, verdict(judge(t, j), "P09", "branch, at fridge socket"))
	slow := circuit(&j, "fridge").Device
	slow.Family, slow.OpensA, slow.OpensByS = "UL 248-15 T 300 V", null("20000"), null("60")
	assert.NotEqual(t, working.Passes, verdict(judge(t, j), "P09", "branch, at fridge socket"))
}

// TestDropWithoutBattery wants the path to a battery that is there: with B alone
// left, what its lead loses counts.
func TestDropWithoutBattery(t *testing.T) {
	j := read(t, "clinic.yaml")
	circuit(&j, "battery B lead").LengthM = d("20")
	assert.Equal(t, working.Fails, verdict(judge(t, j), "W02", "inverter"))
}

// TestDeviceAtAlternator wants ISO 13297's own limit, 1800 mm (clause 12.3), for
// a device at an alternator that does not limit itself.
func TestDeviceAtAlternator(t *testing.T) {
	at := func(alongMM string) working.Verdict {
		j := read(t, "clinic.yaml")
		j.RuleSet, j.Alternators[0].SelfLimiting = "iso-craft", false
		lead := circuit(&j, "alternator lead")
		device := *lead.FarDevice
		lead.Device, device.AlongMM, lead.LengthM = &device, d(alongMM), d("2.5")
		return verdict(judge(t, j), "P06", "alternator lead, at alternator")
	}
	assert.Equal(t, working.Passes, at("1800"))
	assert.Equal(t, working.Fails, at("1801"))
}

// TestInsulationContradicts wants a cable of one temperature only.
func TestInsulationContradicts(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "jobs", "clinic.yaml"))
	require.NoError(t, err)
	for _, rated := range []string{"70", "105"} {
		spoiled := strings.Replace(string(text), "insulation_c: 90", "insulation_c: "+rated, 1)
		_, err = job.Read("clinic.yaml", strings.NewReader(spoiled))
		assert.ErrorContains(t, err, "insulation_c")
		assert.ErrorContains(t, err, "EPR or XLPE 90 C")
	}
}

// TestMissingDeviceHasRemedy: the most dangerous finding of all names the device
// to fit.
func TestMissingDeviceHasRemedy(t *testing.T) {
	f := finding(t, judge(t, read(t, "trailer-with-faults.yaml")), "P07", "battery 1 lead, at battery 1")
	assert.Contains(t, f.Remedy, "fit a device of 150 A at battery 1")
}

// TestBoundlessFault: an alternator of 180 A that does not limit itself is taken to
// drive ten times that into a fault, so that 4000 A cannot be told to do beside the
// 3400 A of the battery, and 10 kA do; on the house side, which only a converter joins,
// nothing changes.
func TestBoundlessFault(t *testing.T) {
	j := read(t, "clinic.yaml")
	j.Alternators[0].SelfLimiting = false
	assert.Equal(t, working.Passes, finding(t, judge(t, j), "P04", "fridge, at panel").Verdict())
	for breaks, want := range map[string]working.Verdict{"10000": working.Passes, "4000": working.CannotTell, "3000": working.Fails} {
		own := read(t, "clinic.yaml")
		own.Alternators[0].SelfLimiting = false
		circuit(&own, "converter feed").Device.BreaksA = null(breaks)
		f := finding(t, judge(t, own), "P04", "converter feed, at starter battery")
		assert.Equal(t, want, f.Verdict(), breaks)
		assert.Equal(t, want == working.CannotTell, strings.Contains(f.Missing, "short_a"), breaks)
	}

	// its data sheet answers: the device breaks 5000 A, the battery gives 3400 A of them
	for short, want := range map[string]working.Verdict{"400": working.Passes, "2000": working.Fails} {
		j.Alternators[0].ShortA = null(short)
		assert.Equal(t, want, finding(t, judge(t, j), "P04", "converter feed, at starter battery").Verdict(), short)
	}
}

// TestBackUpNeedsItsDevice wants a test behind another device to count only where
// all that feeds the fault passes that other device.
func TestBackUpNeedsItsDevice(t *testing.T) {
	weak := func(behind string) job.Job {
		j := read(t, "clinic.yaml")
		f := circuit(&j, "fridge").Device
		f.BreaksA, f.BreaksAtV = null("300"), null("32")
		f.BackedUpA, f.BackedUpAtV, f.BackedUpBy = null("5000"), null("32"), behind
		return j
	}
	const found = "P04 fridge, at panel: fails"
	assert.NotContains(t, bad(judge(t, weak("panel feed"))), found)
	assert.Contains(t, bad(judge(t, weak("inverter feed"))), found, "no fault of the panel passes there")
	assert.Contains(t, bad(judge(t, weak("battery A lead"))), found, "battery B feeds past it")
}

// TestLengthBeforeDevice wants the conductor before a device within 3 m where a sheath
// guards it (IEC 60364-4-43, 433.2.2 and 434.2.1) and else as short as ISO 10133 has it,
// 200 mm; also before one that stands behind another which is too large for that
// conductor: 40 A on 4 mm². Behind one that is not, it is guarded already.
func TestLengthBeforeDevice(t *testing.T) {
	at := func(name, alongMM string, sheathed bool) working.Verdict {
		j := read(t, "clinic.yaml")
		c := circuit(&j, name)
		c.Device.AlongMM, c.LengthM, c.Sheathed = d(alongMM), d("21"), sheathed
		return verdict(judge(t, j), "P06", name+", at "+c.From)
	}
	for _, name := range []string{"battery A lead", "fridge"} {
		assert.Equal(t, working.Passes, at(name, "200", false), name)
		assert.Equal(t, working.Fails, at(name, "201", false), name)
		assert.Equal(t, working.Passes, at(name, "3000", true), name)
		assert.Equal(t, working.Fails, at(name, "3001", true), name)
	}

	j := read(t, "clinic.yaml")
	circuit(&j, "panel feed").Device.RatingA, circuit(&j, "fridge").Device.AlongMM = d("10"), d("3001")
	assert.Equal(t, working.NotMade, verdict(judge(t, j), "P06", "fridge, at panel"))
}

// TestEveryBatteryBearsAStart wants the devices of both batteries asked: either may
// be the only one left. What class T holds above its rating was not found.
func TestEveryBatteryBearsAStart(t *testing.T) {
	const start = ", when centrifuge and steriliser starts"
	j := read(t, "clinic.yaml")
	circuit(&j, "battery B lead").Device.RatingA = d("125")
	r := judge(t, j)
	assert.Equal(t, working.NotApplicable, verdict(r, "P08", "battery A lead, at battery A"+start))
	assert.Equal(t, working.CannotTell, verdict(r, "P08", "battery B lead, at battery B"+start))
	circuit(&j, "battery B lead").Device.RatingA = d("175")
	assert.Equal(t, working.NotApplicable, verdict(judge(t, j), "P08", "battery B lead, at battery B"+start))
}

// TestLeadBehindAnotherBattery: 175 A of the other battery's fuse and 80 A of chargers
// are more than the 247 A that a battery's lead bears, but nothing draws beyond it: in a
// fault the fuse opens, and 80 A remain. Where it does not open, or something draws
// beyond, a device is due.
func TestLeadBehindAnotherBattery(t *testing.T) {
	more := func(edit func(*job.Job)) rules.Finding {
		j := read(t, "clinic.yaml")
		j.Chargers[1].MaxA = d("60")
		edit(&j)
		return finding(t, judge(t, j), "P07", "battery A lead, at main bus")
	}
	f := more(func(*job.Job) {})
	assert.Equal(t, working.Passes, f.Verdict())
	assert.Equal(t, "80", f.Demand.String(), "25 A and 15 A of chargers, and the 40 A of the device before the third, which no battery opens")
	assert.Equal(t, working.Fails, more(func(j *job.Job) { // a fault that opens nothing in time
		for i := range j.Batteries {
			j.Batteries[i].HighMilliohm = null("90")
		}
	}).Verdict())
	assert.Equal(t, working.Fails, more(func(j *job.Job) { // the fridge hangs beyond
		for i := range j.Loads {
			if j.Loads[i].Name == "vaccine fridge" {
				j.Loads[i].At = "battery A"
			}
		}
	}).Verdict())
}

// What hangs on a battery beyond its lead overloads the lead by no more than its own
// device lets through; without one, or with one larger than the lead carries, by all
// that the other sources give.
func TestLeadIsOverloadedOnlyThroughTheDevicesBeyond(t *testing.T) {
	for rating, want := range map[string]working.Verdict{"7.5": working.Passes, "200": working.Fails, "": working.Fails} {
		j := read(t, "clinic.yaml")
		circuit(&j, "battery B lead").Size = size(t, "50 mm2")
		other := circuit(&j, "battery A lead").Device // its data sheet says that a fault opens it
		other.OpensA, other.OpensByS = null("1000"), null("1")
		pump := circuit(&j, "pump")
		pump.From = "battery B"
		if rating == "" {
			pump.Device = nil
		} else {
			pump.Device.RatingA = d(rating)
		}
		assert.Equal(t, want, found(t, judge(t, j), "P07", "battery B lead, at main bus").Verdict(), rating)
	}
}
