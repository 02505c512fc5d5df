package rules_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

func null(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }

func read(t testing.TB, name string) job.Job {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "jobs", name))
	require.NoError(t, err)
	defer f.Close()
	file, err := job.Read(name, f)
	require.NoError(t, err)
	return file.Job()
}

// judge inspects a job that a test has changed. A circuit that leads nowhere since
// then gets a pilot lamp at its end: no reader takes it for what was meant.
func judge(t testing.TB, j job.Job) paper.Report {
	t.Helper()
	r, err := paper.ReportOn(ended(j))
	require.NoError(t, err)
	return r
}

// ended puts a pilot lamp at each end of a circuit at which nothing else is, and
// takes names of loads that are gone out of the states.
func ended(j job.Job) job.Job {
	at := map[string]int{}
	for _, c := range j.Circuits {
		at[c.From]++
		at[c.To]++
	}
	for _, l := range j.Loads {
		at[l.At]++
	}
	for _, a := range j.Alternators {
		at[a.Name]++
	}
	for _, b := range j.Batteries {
		at[b.Name]++
	}
	for _, c := range j.Chargers {
		at[c.Name]++
		at[c.FedAt]++
	}
	for _, x := range j.Solar {
		at[x.Name]++
	}
	for _, v := range j.Inverters {
		at[v.Name]++
	}
	j.Loads = slices.Clone(j.Loads)
	for _, c := range j.Circuits {
		for _, node := range []string{c.From, c.To} {
			if at[node] == 1 {
				j.Loads = append(j.Loads, job.Load{
					Name: "pilot lamp at " + node, At: node, PowerW: null("0.01"), Behaves: "resistance", Percent: d("100"), LeastV: null("1"),
				})
			}
		}
	}
	j.States = slices.Clone(j.States)
	for i := range j.States {
		j.States[i].Loads = slices.DeleteFunc(slices.Clone(j.States[i].Loads), func(name string) bool {
			return !slices.ContainsFunc(j.Loads, func(l job.Load) bool { return l.Name == name })
		})
	}
	for _, l := range j.Loads {
		if strings.HasPrefix(l.Name, "pilot lamp") {
			j.States[0].Loads = append(j.States[0].Loads, l.Name)
		}
	}
	return j
}

// bad lists what fails or cannot be told, as "P02 inverter feed, at bus: fails".
func bad(r paper.Report) []string {
	var all []string
	for _, f := range r.Findings {
		if v := f.Verdict(); v == working.Fails || v == working.CannotTell {
			all = append(all, fmt.Sprintf("%s %s: %s", f.ID, f.Where, v))
		}
	}
	return all
}

// samples are the jobs of this example.
var samples = []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml", "trailer-with-faults.yaml", "survey-launch-with-faults.yaml", "no-fuse-fits.yaml"}

func TestSoundJobsPass(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml"} {
		r := judge(t, read(t, name))
		assert.Empty(t, bad(r), name)
		assert.Greater(t, r.Count(working.Passes), 60, name)
	}
}

// faulty are the samples that show faults, and where their findings are listed.
var faulty = map[string]string{"trailer-with-faults.yaml": "trailer.txt", "survey-launch-with-faults.yaml": "survey-launch.txt"}

// TestFaultySamples compares the findings with those that the comments of the
// files name.
func TestFaultySamples(t *testing.T) {
	for sample, golden := range faulty {
		r := judge(t, read(t, sample))
		programtest.Golden(t, golden, strings.Join(bad(r), "\n")+"\n")
		for _, f := range r.Findings {
			if f.Verdict() == working.Fails {
				assert.NotEmpty(t, f.Remedy, f.ID)
				assert.NotEmpty(t, f.Danger, f.ID)
			}
		}
	}
}

// TestCommentsNameTheFaults wants each rule that a comment of a faulty sample
// names to find its fault there, and none that no comment names.
func TestCommentsNameTheFaults(t *testing.T) {
	id := regexp.MustCompile(`[# ,]([WPBC][0-9]{2}):`)
	for sample := range faulty {
		text, err := os.ReadFile(filepath.Join("..", "jobs", sample))
		require.NoError(t, err)
		var named, found []string
		for _, m := range id.FindAllStringSubmatch(string(text), -1) {
			named = append(named, m[1])
		}
		for _, f := range judge(t, read(t, sample)).Findings {
			if v := f.Verdict(); v == working.Fails || v == working.CannotTell {
				found = append(found, f.ID)
			}
		}
		slices.Sort(named)
		slices.Sort(found)
		assert.Equal(t, slices.Compact(named), slices.Compact(found), sample)
	}
}

// TestEachRuleHasASample wants a fault for each rule in one of the two samples.
// No sample shows P23, whose rule set has no ampacities and leaves all else
// untold, P10, which W01 finds as well, B14, against which B15 stands, or W07, which
// leaves nothing to be told of currents.
func TestEachRuleHasASample(t *testing.T) {
	never := []string{"B14", "P10", "P23", "W07"}
	shown := map[string]bool{}
	for _, sample := range samples {
		for _, f := range judge(t, read(t, sample)).Findings {
			v := f.Verdict()
			shown[f.ID] = shown[f.ID] || faulty[sample] != "" && (v == working.Fails || v == working.CannotTell)
		}
	}
	for id, ok := range shown {
		assert.Equal(t, !slices.Contains(never, id), ok, id)
	}
}

// TestNoFuseFits wants an empty window shown with both sides and the change that
// opens it: 22 A that last want 30 A of the ratings 25 and 30 A (22 ÷ 0.8 is
// 27.5), and the cable bears less than 26 A.
func TestNoFuseFits(t *testing.T) {
	r := judge(t, read(t, "no-fuse-fits.yaml"))
	assert.Equal(t, []string{"P01 extractor, at panel: fails"}, bad(r))
	assert.Equal(t, "none exists: 30 A carries the load, but wants a conductor of 30 A and this one has 25.6 A; "+
		"25 A protects the conductor, but carries a load of 20 A at most. "+
		"The smallest change: run extractor in 6 mm2 in place of 4 mm2, with 30 A at panel", r.Findings[0].Remedy)
}

// TestNoChangeCures wants the two sides of the window as well where no larger
// cable helps: the load is more than a fuse of the family carries.
func TestNoChangeCures(t *testing.T) {
	j := read(t, "no-fuse-fits.yaml")
	j.Loads[0].CurrentA, circuit(&j, "extractor").Size = null("60"), size(t, "95 mm2")
	circuit(&j, "battery lead").Size = size(t, "95 mm2")
	r := judge(t, j)
	i := slices.IndexFunc(r.Findings, func(f rules.Finding) bool { return f.ID == "P01" && f.Where == "extractor, at panel" })
	assert.True(t, strings.HasPrefix(r.Findings[i].Remedy, "none exists: the family ends at 40 A and the load wants 75 A; "), r.Findings[i].Remedy)
}

// TestCablesInParallel wants equal cables to add up, and of unequal ones one
// alone to count (IEC 60364-4-43, 433.4).
func TestCablesInParallel(t *testing.T) {
	lead := func(cables *job.Cables) facts.Circuit {
		j := read(t, "clinic.yaml")
		circuit(&j, "converter feed").Cables, circuit(&j, "converter feed").Grouped = cables, d("2")
		r := judge(t, j)
		i := slices.IndexFunc(r.Circuits, func(c facts.Circuit) bool { return c.Name == "converter feed" })
		return r.Circuits[i]
	}
	one := lead(nil)
	alike := lead(&job.Cables{Count: d("2"), Identical: true})
	unlike := lead(&job.Cables{Count: d("2")})
	assert.Equal(t, one.AmpacityA.Mul(d("2")).String(), alike.AmpacityA.String())
	assert.True(t, alike.DropV.LessThan(one.DropV))
	assert.True(t, alike.ConductorC.LessThan(one.ConductorC))
	assert.Equal(t, one.AmpacityA.String(), unlike.AmpacityA.String())
	assert.Equal(t, one.DropV.String(), unlike.DropV.String())
	assert.True(t, unlike.FaultA.GreaterThanOrEqual(one.FaultA))
}

// TestInputOfInverter works the sample by hand: 14.2 V through 10 Ω are 1.42 A;
// half of 15 mF × 14.2² is 1.5123 J; three times 10 Ω × 15 mF are 0.45 s.
func TestInputOfInverter(t *testing.T) {
	j := read(t, "clinic.yaml")
	in := judge(t, j).Bank.Inputs[0]
	assert.Equal(t, []string{"1.42", "1.5123", "0.45"}, []string{in.PeakA.String(), in.EnergyJ.String(), in.TimeS.Decimal.String()})
	j.Inverters[0].PrechargeOhm = decimal.NullDecimal{}
	r := judge(t, j)
	bare := r.Bank.Inputs[0]
	assert.Equal(t, "1.5123", bare.EnergyJ.String()) // whatever the resistor
	assert.False(t, bare.TimeS.Valid)
	assert.True(t, bare.PeakA.GreaterThan(d("1000")), bare.PeakA)
}

// TestOtherPartsOfTheNetwork wants the house bank to answer for its own loads
// alone: what hangs on the starter side costs it nothing.
func TestOtherPartsOfTheNetwork(t *testing.T) {
	j := read(t, "river-workboat.yaml")
	with := judge(t, j).Bank.DayWh
	j.Loads = slices.DeleteFunc(j.Loads, func(l job.Load) bool { return l.Name == "engine gauges" })
	assert.Equal(t, judge(t, j).Bank.DayWh.String(), with.String())
}

// TestEveryWorkingHolds puts each finding of the samples through the drift
// guard.
func TestEveryWorkingHolds(t *testing.T) {
	for _, name := range samples {
		for _, f := range judge(t, read(t, name)).Findings {
			assert.NotEqual(t, working.NotMade, f.Verdict(), "%s %s", f.ID, f.Where)
			if f.Verdict() != working.Passes && f.Verdict() != working.Fails {
				continue
			}
			t.Run(f.ID+" "+f.Where, func(t *testing.T) { workingtest.Guard(t, f.Working) })
		}
	}
}

// TestEachRuleFindsItsFault breaks the sample that passes in one way at a time.
func TestEachRuleFindsItsFault(t *testing.T) {
	for _, c := range []struct {
		rule, where string
		spoil       func(j *job.Job)
	}{
		{"P07", "battery A lead, at battery A", func(j *job.Job) { circuit(j, "battery A lead").Device = nil }},
		{"P02", "panel feed, at main bus", func(j *job.Job) { circuit(j, "panel feed").Device.RatingA = d("80") }},
		{"P04", "inverter feed, at main bus", func(j *job.Job) { circuit(j, "inverter feed").Device.BreaksA = null("1000") }},
		{"P01", "lights, at panel", func(j *job.Job) { circuit(j, "lights").Device.RatingA = d("4") }},
		{"W01", "roof fan", func(j *job.Job) { circuit(j, "roof fan").Grouped = d("20"); circuit(j, "roof fan").AmbientC = d("85") }},
		{"W07", "on site", func(j *job.Job) { j.Loads[2].PowerW = null("900") }},
		{"W02", "examination lights", func(j *job.Job) { circuit(j, "lights").LengthM = d("30") }},
		{"W04", "water pump", func(j *job.Job) { j.Loads[2].LeastV = null("12.6") }},
		{"B01", "battery A", func(j *job.Job) { j.Batteries[0].MaxDischargeA = null("20") }},
		{"B02", "battery B", func(j *job.Job) { j.Batteries[1].MaxDischargeA = null("80") }},
		{"B03", "the house bank", func(j *job.Job) { j.Needs.AutonomyDays = d("9") }},
		{"B04", "battery A", func(j *job.Job) { j.Batteries[0].CutOutV = null("11.5") }},
		{"B20", "vaccine fridge", func(j *job.Job) { j.Loads[1].ShedsV = null("10.4") }},
		{"B05", "inverter", func(j *job.Job) { circuit(j, "inverter feed").LengthM = d("15") }},
		{"B18", "inverter, steady", func(j *job.Job) { j.Inverters[0].RatedW = d("500") }},
		{"P05", "fridge, at panel", func(j *job.Job) { circuit(j, "fridge").Device.RatedV = null("12") }},
		{"P08", "fridge, at panel, when vaccine fridge starts", func(j *job.Job) {
			j.Loads[0].SurgeW, j.Loads[0].SurgeS = null("400"), null("5")
		}},
		{"P29", "water pump, by the device of pump, at panel", func(j *job.Job) { j.Loads[2].StallA, j.Loads[2].StallS = null("20"), null("4") }},
		{"P09", "panel feed, at main bus", func(j *job.Job) { d := circuit(j, "panel feed").Device; d.OpensA, d.OpensByS = null("400"), null("60") }},
		{"B09", "the bay", func(j *job.Job) { j.Bay.OutsideC = d("45") }},
		{"B10", "the bay", func(j *job.Job) { j.Batteries[0].LengthMM = null("580") }},
		{"B12", "the bay", func(j *job.Job) { j.Bay.HeightMM = d("280") }},
		{"B13", "the bay", func(j *job.Job) { j.Bay.FixingN = null("500") }},
		{"B14", "front axle", func(j *job.Job) { j.Weights.FrontMostKg = d("1400") }},
		{"B15", "rear axle", func(j *job.Job) { j.Weights.RearMostKg = d("1500") }},
		{"B16", "gross mass", func(j *job.Job) { j.Weights.GrossMostKg = d("3100") }},
		{"B21", "front axle or coupling", func(j *job.Job) { j.Weights.FrontLeastKg = null("1600") }},
		{"B19", "the house bank", func(j *job.Job) { j.Inverters[0].Isolated = false }},
		{"C07", "roof array", func(j *job.Job) { j.Solar[0].InSeries = d("4") }},
		{"C08", "the house bank, December", func(j *job.Job) { j.States[0].HoursDay, j.States[3].HoursDay = d("0.5"), d("0.5") }},
		{"P20", "roof array", func(j *job.Job) { j.Solar[0].Strings, j.Solar[0].ModuleFuseA = d("4"), null("10") }},
		{"P22", "roof array", func(j *job.Job) { j.Solar[0].Strings, j.Solar[0].StringFuseA = d("3"), null("20") }},
		{"B17", "starter battery", func(j *job.Job) { j.Batteries[2].LowMilliohm = decimal.NullDecimal{} }},
		{"C01", "the house bank, without battery B", func(j *job.Job) { j.Batteries[0].MaxChargeA = null("25") }},
		{"C02", "battery B", func(j *job.Job) { j.Batteries[1].ColdGuard = false }},
		{"C03", "alternator", func(j *job.Job) { j.Alternators[0].IdleA = null("60") }},
		{"C04", "alternator", func(j *job.Job) { j.Alternators[0].RatedA = d("70") }},
		{"C05", "engine converter", func(j *job.Job) {
			c := &j.Chargers[0]
			c.WakesBy, c.WakeV, c.SleepV = "voltage", null("13.3"), null("12.8")
		}},
		{"C06", "the house bank", func(j *job.Job) { j.Needs.RefillH = d("0.5") }},
		{"P12", "fridge, at panel, under panel feed, at main bus", func(j *job.Job) {
			for _, name := range []string{"fridge", "panel feed"} {
				circuit(j, name).Device.Family = "IEC 60269 gG"
			}
			circuit(j, "fridge").Device.RatingA, circuit(j, "panel feed").Device.RatingA = d("16"), d("20")
		}},
		{"P12", "fridge, at panel, under panel feed, at main bus", func(j *job.Job) {
			circuit(j, "fridge").Device.RatingA = d("15")
			circuit(j, "panel feed").Device = &job.Device{Family: "ISO 8820-3 C", RatingA: d("5")}
		}},
		{"P25", "fridge, at panel, under panel feed, at main bus", func(j *job.Job) {
			circuit(j, "fridge").Device.TotalA2S, circuit(j, "panel feed").Device.PreArcingA2S = null("5001"), null("5000")
		}},
		{"P14", "roof fan, its relay", func(j *job.Job) { circuit(j, "roof fan").Switch.RatingA = d("5") }},
		{"P15", "panel feed, its isolator", func(j *job.Job) { circuit(j, "panel feed").Switch.RatingA = d("15") }},
		{"P16", "inverter feed, its isolator", func(j *job.Job) { circuit(j, "inverter feed").Switch.ShortTimeA = null("100") }},
		{"P16", "panel feed, its isolator", func(j *job.Job) { circuit(j, "panel feed").Switch.StartA = null("300") }},
		{"P17", "vaccine fridge", func(j *job.Job) { j.Loads[0].WorksFromV, j.Loads[0].LeastV = null("12.2"), decimal.NullDecimal{} }},
		{"P17", "examination lights", func(j *job.Job) { j.Loads[1].SupplyCode = "H" }},
		{"P18", "inverter", func(j *job.Job) { j.Inverters[0].WorksToV = null("14") }},
		{"P18", "inverter", func(j *job.Job) { // 14.2 V + 35 K × 48 mV/K + 0.3 V are 16.18 V at -10 °C
			c := &j.Chargers[1]
			c.MilliVPerC, c.ToleranceV = null("-48"), null("0.3")
		}},
		{"P19", "examination lights", func(j *job.Job) { j.Loads[1].At, j.Loads[1].SurvivesV = "converter input", null("100") }},
		{"P28", "vaccine fridge, reversed voltage", func(j *job.Job) { j.Loads[0].SurvivesReversedV = null("13.9") }},
		{"P28", "examination lights, jump start", func(j *job.Job) { j.Loads[1].At, j.Loads[1].SurvivesJumpV = "converter input", null("20") }},
		{"P23", "fridge, at panel", func(j *job.Job) {
			j.RuleSet = "us-rv"
			circuit(j, "fridge").Size, circuit(j, "fridge").Device.RatingA = size(t, "AWG 14"), d("20")
		}},
		{"P24", "panel feed, at main bus", func(j *job.Job) {
			feed := circuit(j, "panel feed")
			feed.Size, feed.Cables, feed.Grouped = size(t, "4 mm2"), &job.Cables{Count: d("2")}, decimal.Max(feed.Grouped, d("2"))
		}},
		{"P26", "inverter", func(j *job.Job) { j.Inverters[0].PrechargeOhm = decimal.NullDecimal{} }},
		{"C11", "mains charger, highest charging voltage", func(j *job.Job) { j.Chargers[1].OutputV = d("14.8") }},
		{"C11", "roof array, lowest charging voltage", func(j *job.Job) { j.Solar[0].OutputV = d("13.6") }},
		{"C11", "mains charger, equalising voltage", func(j *job.Job) { j.Chargers[1].EqualiseV = null("15.5") }},
		{"C11", "engine converter, highest charging voltage", func(j *job.Job) { j.Chargers[0].MilliVPerC = null("-30") }},
		{"C11", "roof array, highest charging voltage", func(j *job.Job) { j.Batteries[1].ChargeMostV = null("14.0") }},
		{"C12", "battery B", func(j *job.Job) { j.Batteries[1].ChargeCutOutV = null("14.2") }},
		{"C12", "battery A", func(j *job.Job) { j.Batteries[0].ChargeCutOutV, j.Solar[0].ToleranceV = null("14.4"), null("0.2") }},
		{"C12", "the house bank, by current, without battery A", func(j *job.Job) {
			j.Batteries[0].ChargeCutOutA, j.Batteries[1].ChargeCutOutA = null("100"), null("30")
			j.Batteries[1].MaxChargeA = null("30")
		}},
		{"C10", "engine converter, input", func(j *job.Job) { j.Chargers[0].LeastInputV = null("12.4") }},
	} {
		t.Run(c.rule, func(t *testing.T) {
			j := read(t, "clinic.yaml")
			c.spoil(&j)
			found := bad(judge(t, j))
			assert.True(t, slices.ContainsFunc(found, func(f string) bool {
				return strings.HasPrefix(f, c.rule+" "+c.where+":")
			}), "%q", found)
		})
	}
}

func size(t *testing.T, name string) tables.Size {
	t.Helper()
	s, err := tables.ParseSize(name)
	require.NoError(t, err)
	return s
}

func circuit(j *job.Job, name string) *job.Circuit {
	i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == name })
	return &j.Circuits[i]
}

func BenchmarkInspect(b *testing.B) {
	for _, name := range []string{"clinic.yaml", "trailer-with-faults.yaml"} {
		j := read(b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := paper.ReportOn(j); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestSeveralAtOnce inspects the samples side by side, as a server of jobs would:
// under the race detector this is where tables and models could get into each
// other's way. Each comes to what it comes to alone.
func TestSeveralAtOnce(t *testing.T) {
	alone := map[string][]string{}
	for _, name := range samples {
		alone[name] = bad(judge(t, read(t, name)))
	}
	var all sync.WaitGroup
	for _, name := range samples {
		j := read(t, name)
		for range 2 {
			all.Go(func() {
				r, err := paper.ReportOn(j)
				assert.NoError(t, err, name)
				assert.Equal(t, alone[name], bad(r), name)
			})
		}
	}
	all.Wait()
}
