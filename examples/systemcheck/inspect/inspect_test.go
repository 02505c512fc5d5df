package inspect_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/inspect"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden files; then read the difference")

var d = decimal.RequireFromString

func null(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }

func read(t testing.TB, name string) job.Job {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "jobs", name))
	require.NoError(t, err)
	defer f.Close()
	file, err := job.Read(name, f)
	require.NoError(t, err)
	return file.Job
}

func judge(t testing.TB, j job.Job) inspect.Report {
	t.Helper()
	r, err := inspect.Inspect(j)
	require.NoError(t, err)
	return r
}

// bad lists what fails or cannot be told, as "P02 inverter feed, at bus: fails".
func bad(r inspect.Report) []string {
	var all []string
	for _, f := range r.Findings {
		if v := f.Verdict(); v == working.Fails || v == working.CannotTell {
			all = append(all, fmt.Sprintf("%s %s: %s", f.ID, f.Where, v))
		}
	}
	return all
}

func TestSoundJobsPass(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml"} {
		r := judge(t, read(t, name))
		assert.Empty(t, bad(r), name)
		assert.Greater(t, r.Count(working.Passes), 60, name)
	}
}

// TestTrailerShowsEachFaultOnce compares the findings with those that the
// comments of the file name.
func TestTrailerShowsEachFaultOnce(t *testing.T) {
	r := judge(t, read(t, "trailer-with-faults.yaml"))
	got := strings.Join(bad(r), "\n") + "\n"
	golden := filepath.Join("testdata", "trailer.txt")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
	for _, f := range r.Findings {
		if f.Verdict() == working.Fails {
			assert.NotEmpty(t, f.Remedy, f.ID)
			assert.NotEmpty(t, f.Danger, f.ID)
		}
	}
}

// TestEveryWorkingHolds puts each finding of the samples through the drift
// guard.
func TestEveryWorkingHolds(t *testing.T) {
	for _, name := range []string{"clinic.yaml", "library-truck.yaml", "river-workboat.yaml", "trailer-with-faults.yaml"} {
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
		{"W02", "examination lights", func(j *job.Job) { circuit(j, "lights").LengthM = d("30") }},
		{"W04", "water pump", func(j *job.Job) { j.Loads[2].LeastV = null("12.6") }},
		{"B01", "battery A", func(j *job.Job) { j.Batteries[0].MaxDischargeA = null("20") }},
		{"B02", "battery B", func(j *job.Job) { j.Batteries[1].MaxDischargeA = null("80") }},
		{"B03", "the house bank", func(j *job.Job) { j.Needs.AutonomyDays = d("9") }},
		{"B04", "battery A", func(j *job.Job) { j.Batteries[0].CutOutV = null("11.5") }},
		{"B05", "inverter", func(j *job.Job) { circuit(j, "inverter feed").LengthM = d("15") }},
		{"B18", "inverter, steady", func(j *job.Job) { j.Inverters[0].RatedW = d("500") }},
		{"P05", "fridge, at panel", func(j *job.Job) { circuit(j, "fridge").Device.RatedV = null("12") }},
		{"P08", "fridge, at panel, when vaccine fridge starts", func(j *job.Job) {
			j.Loads[0].SurgeW, j.Loads[0].SurgeS = null("400"), null("5")
		}},
		{"P09", "panel feed, at main bus", func(j *job.Job) { d := circuit(j, "panel feed").Device; d.OpensA, d.OpensByS = null("400"), null("60") }},
		{"B09", "the bay", func(j *job.Job) { j.Bay.OutsideC = d("45") }},
		{"B10", "the bay", func(j *job.Job) { j.Batteries[0].LengthMM = null("580") }},
		{"B12", "the bay", func(j *job.Job) { j.Bay.HeightMM = d("280") }},
		{"B13", "the bay", func(j *job.Job) { j.Bay.FixingN = null("500") }},
		{"B14", "front axle", func(j *job.Job) { j.Weights.FrontMostKg = d("1400") }},
		{"B15", "rear axle", func(j *job.Job) { j.Weights.RearMostKg = d("1500") }},
		{"B16", "gross mass", func(j *job.Job) { j.Weights.GrossMostKg = d("3100") }},
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

func circuit(j *job.Job, name string) *job.Circuit {
	i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == name })
	return &j.Circuits[i]
}

func BenchmarkInspect(b *testing.B) {
	for _, name := range []string{"clinic.yaml", "trailer-with-faults.yaml"} {
		j := read(b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := inspect.Inspect(j); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
