package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"unicode"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	trailer = "jobs/trailer-with-faults.yaml"
	launch  = "jobs/survey-launch-with-faults.yaml"
	empty   = "jobs/no-fuse-fits.yaml"
)

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

func TestStatus(t *testing.T) {
	for _, c := range []struct {
		want int
		args []string
	}{
		{0, nil},
		{0, []string{"-working", "all"}},
		{0, []string{"-working", "p09"}},
		{0, []string{"-working", "inverter feed"}},
		{2, []string{"-working", "P99"}},
		{1, []string{"-json", "-sets", trailer}},
		{0, []string{"-json"}},
		{0, []string{"-explain"}},
		{0, []string{"-schema"}},
		{0, []string{"-rules"}},
		{0, []string{"-rule", "p09"}},
		{2, []string{"-rule", "P99"}},
		{0, []string{"-sets", "jobs/clinic.yaml"}},
		{1, []string{"-sets", trailer}},
		{1, []string{"-sets", empty}},
		{0, []string{"-h"}},
		{0, []string{"jobs/clinic.yaml"}},
		{1, []string{trailer}},
		{1, []string{launch}},
		{1, []string{empty}},
		{1, []string{"-json", trailer}},
		{2, []string{"nosuch.yaml"}},
		{2, []string{"jobs"}},
		{2, []string{"-nosuch"}},
		{2, []string{"jobs/clinic.yaml", trailer}},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, c.want, status, "%q", c.args)
		if c.want == 2 {
			assert.Empty(t, out, "%q", c.args)
			assert.NotEmpty(t, errs, "%q", c.args)
			assert.NotContains(t, errs, "goroutine", "%q", c.args)
		}
	}
}

// TestOnlyRegularFiles: a pipe that nobody writes to and a device that never ends
// are refused at once, a pipe behind standard input is read.
func TestOnlyRegularFiles(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	for _, name := range []string{pipe, "/dev/zero", "/dev/null"} {
		status, _, errs := ask(name)
		assert.Equal(t, 2, status, name)
		assert.Contains(t, strings.Join(strings.Fields(errs), " "), "is a pipe or a device: want a job file, or - for standard input", name)
	}
	text, err := os.ReadFile(trailer)
	require.NoError(t, err)
	in, out, err := os.Pipe()
	require.NoError(t, err)
	go func() {
		defer out.Close()
		out.Write(text)
	}()
	stdin := os.Stdin
	defer func() { os.Stdin = stdin }()
	os.Stdin = in
	status, report, errs := ask("-")
	assert.Equal(t, 1, status)
	assert.Empty(t, errs)
	assert.Contains(t, report, "standard input, written")
}

// TestNothingForTheTerminal: file names and flags with what a terminal would obey
// are written out.
func TestNothingForTheTerminal(t *testing.T) {
	text, err := os.ReadFile(empty)
	require.NoError(t, err)
	odd := filepath.Join(t.TempDir(), "a\x1b[31mb\u202ec\nd.yaml")
	require.NoError(t, os.WriteFile(odd, text, 0o644))
	broken := odd + "2"
	require.NoError(t, os.WriteFile(broken, []byte("job: x"), 0o644))
	for _, args := range [][]string{{odd}, {"-json", odd}, {"-sets", odd}, {broken}, {odd + "3"}, {"-no\x1b[2J\u202esuch"}} {
		_, out, errs := ask(args...)
		for _, r := range out + errs {
			if !unicode.IsPrint(r) && r != '\n' && r != '\t' {
				assert.Failf(t, "not printable", "%q: %U", args, r)
			}
		}
		assert.NotEmpty(t, out+errs)
	}
	_, out, _ := ask(odd)
	assert.Contains(t, strings.Join(strings.Fields(out), ""), `a\x1b[31mb\u202ec\nd.yaml`)
}

// TestReports compares the reports with the ones that were read and found good.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"clinic.txt": {"jobs/clinic.yaml"}, "library-truck.txt": {"jobs/library-truck.yaml"},
		"river-workboat.txt": {"jobs/river-workboat.yaml"}, "trailer.txt": {trailer}, "survey-launch.txt": {launch}, "no-fuse-fits.txt": {empty},
	} {
		_, out, errs := ask(args...)
		require.Empty(t, errs)
		programtest.Golden(t, name, out)
	}
}

// TestValues compares the verdict, the demand and the limit of every finding, and
// all other figures but the working, with those that were read and found good; and
// what each rule set says.
func TestValues(t *testing.T) {
	names, err := filepath.Glob("jobs/*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			sample := strings.TrimSuffix(filepath.Base(name), ".yaml")
			_, out, errs := ask("-json", name)
			require.Empty(t, errs)
			programtest.Golden(t, sample+"-values.txt", values(t, out))
			_, out, errs = ask("-sets", name)
			require.Empty(t, errs)
			programtest.Golden(t, sample+"-sets.txt", out)
		})
	}
}

// values is a report in JSON without its working, an entry of a list a line.
func values(t *testing.T, report string) string {
	t.Helper()
	var doc map[string]any
	require.NoError(t, json.Unmarshal([]byte(report), &doc))
	withoutWorking(doc)
	var b strings.Builder
	line := func(key string, v any) {
		text, err := json.Marshal(v)
		require.NoError(t, err)
		fmt.Fprintf(&b, "%s: %s\n", key, text)
	}
	for _, key := range slices.Sorted(maps.Keys(doc)) {
		list, ok := doc[key].([]any)
		if !ok {
			line(key, doc[key])
		}
		for _, entry := range list {
			line(key, entry)
		}
	}
	return b.String()
}

func withoutWorking(v any) {
	switch v := v.(type) {
	case map[string]any:
		delete(v, "working")
		for _, inside := range v {
			withoutWorking(inside)
		}
	case []any:
		for _, inside := range v {
			withoutWorking(inside)
		}
	}
}

// TestPage checks the width of every line and the arithmetic of every printed
// line of working.
func TestPage(t *testing.T) {
	for _, file := range []string{"jobs/clinic.yaml", "jobs/library-truck.yaml", "jobs/river-workboat.yaml", trailer, launch, empty} {
		_, out, _ := ask("-working", "all", file)
		programtest.Narrow(t, out)
		assert.Contains(t, out, "This is a design aid, not a certificate.")
		workingtest.Page(t, file, out)
	}
}

// TestWorkingOf: the working of a rule or of a circuit is that of its findings and of
// no other.
func TestWorkingOf(t *testing.T) {
	heads := regexp.MustCompile(`(?m)^\[(\w+)\] ([^:]*)`)
	for whose, want := range map[string]string{"c07": `^C07 `, "P15": `^P1[56] `, "link": ` link\b`} {
		_, out, _ := ask("-working", whose, launch)
		_, out, _ = strings.Cut(out, "\nWorking\n")
		found := heads.FindAllStringSubmatch(out, -1)
		assert.NotEmpty(t, found, whose)
		for _, head := range found {
			assert.Regexp(t, want, head[1]+" "+head[2], whose)
		}
	}
}

func TestNarrowSets(t *testing.T) {
	for _, file := range []string{"jobs/clinic.yaml", "jobs/library-truck.yaml", "jobs/river-workboat.yaml", trailer, launch, empty} {
		_, out, _ := ask("-sets", file)
		programtest.Narrow(t, out)
	}
}

// TestNarrowSchedule: long runs of several large cables, with a fault current of
// hundreds of kiloamperes and a fuse at either end.
func TestNarrowSchedule(t *testing.T) {
	text, err := os.ReadFile("jobs/library-truck.yaml")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "job.yaml")
	const fuse = "    device: {family: IEC 60269 gG, rating_a: 1250, ambient_percent: 95, rated_v: 125, along_mm: 150}\n"
	large := strings.NewReplacer(
		"low_milliohm: 5\n", "low_milliohm: 0.06\n", "size: 35 mm2", "size: 120 mm2", "length_m: 5.5", "length_m: 155.55",
		"    size: 16 mm2\n", "    size: 120 mm2\n    cables: {count: 10, identical: true}\n"+strings.Replace(fuse, "device", "far_device", 1), "grouped: 1\n", "grouped: 10\n",
		"power_w: 450", "power_w: 20000", "surge_w: 900", "surge_w: 40000", "rated_w: 1500", "rated_w: 20000", "surge_w: 3000", "surge_w: 40000",
	).Replace(string(text))
	large = strings.ReplaceAll(large, "charge line\n    far_device", "charge line\n    device") // the other is the large one
	require.NoError(t, os.WriteFile(file, []byte(large), 0o644))
	_, out, errs := ask(file)
	require.Empty(t, errs)
	schedule, _, _ := strings.Cut(out[strings.Index(out, "Circuit schedule"):], "Volts lost")
	assert.Contains(t, schedule, "10 x 120 mm2")
	programtest.Narrow(t, schedule)
}

// TestManyStatesKeepToThePage: a dozen states beside each other are more than 80 columns.
func TestManyStatesKeepToThePage(t *testing.T) {
	text, err := os.ReadFile("jobs/clinic.yaml")
	require.NoError(t, err)
	var more strings.Builder
	for i := range 7 {
		fmt.Fprintf(&more, "  - {name: hour %d, hours_a_day: 0.01, loads: [examination lights]}\n", i+1)
	}
	file := filepath.Join(t.TempDir(), "job.yaml")
	require.NoError(t, os.WriteFile(file, []byte(strings.NewReplacer("states:\n", "states:\n"+more.String(), "hours_a_day: 10\n", "hours_a_day: 9\n").Replace(string(text))), 0o644))
	_, out, errs := ask(file)
	require.Empty(t, errs)
	_, volts, _ := strings.Cut(out, "Volts lost along")
	volts, _, _ = strings.Cut(volts, "Load audit")
	programtest.Narrow(t, volts)
	for i := range 12 {
		assert.Contains(t, volts, fmt.Sprintf("(%d) ", i+1))
	}
	assert.Equal(t, 3, strings.Count(volts, " load "), "tables of five, five and two")
}

// TestNothingCharges: with one battery and no charger the report says nothing of
// another that is missing, and once that nothing charges.
func TestNothingCharges(t *testing.T) {
	text, err := os.ReadFile("jobs/river-workboat.yaml")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "job.yaml")
	uncharged := regexp.MustCompile(`(?m)^    sources: .*\n`).ReplaceAll(text, nil)
	require.NoError(t, os.WriteFile(file, uncharged, 0o644))
	_, out, errs := ask(file)
	require.Empty(t, errs)
	assert.Equal(t, 1, strings.Count(out, "for the charge nothing"))
	assert.NotContains(t, out, "another missing")
	assert.NotContains(t, out, "()")
}

func TestJSON(t *testing.T) {
	_, out, _ := ask("-json", trailer)
	var doc map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &doc))
	assert.Equal(t, false, doc["passes"])
	keys := map[string]bool{}
	collect(doc, keys)
	var got []string
	for k := range keys {
		got = append(got, k)
	}
	slices.Sort(got)
	programtest.Golden(t, "json-keys.txt", strings.Join(got, "\n")+"\n")
}

// collect gathers every key of a JSON document.
func collect(v any, keys map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for k, inside := range v {
			keys[k] = true
			collect(inside, keys)
		}
	case []any:
		for _, inside := range v {
			collect(inside, keys)
		}
	}
}

// TestNarrowErrors: a device family is one of many, and the line that names them
// all is broken like the rest of the paper.
func TestNarrowErrors(t *testing.T) {
	sample, err := os.ReadFile("jobs/clinic.yaml")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("job.yaml", []byte(strings.Replace(string(sample), "family: ISO 8820-3 C", "family: blade", 1)), 0o644))
	status, _, errs := ask("job.yaml")
	assert.Equal(t, 2, status)
	assert.Greater(t, strings.Count(errs, "\n    "), 5)
	programtest.Narrow(t, errs)
}

// TestBadFiles breaks the sample in one way at a time, and wants one clear line
// with its place.
func TestBadFiles(t *testing.T) {
	sample, err := os.ReadFile("jobs/clinic.yaml")
	require.NoError(t, err)
	for _, c := range []struct{ name, from, to, want string }{
		{"unknown key", "    length_m: 0.6\n", "    lenght_m: 0.6\n", `want a known key; nearest: length_m`},
		{"bare mm", "size: 95 mm2", "size: 4 mm", "copper area"},
		{"bare gauge", "size: 95 mm2", `size: "6"`, "not the same wire"},
		{"leading nought", "max_a: 25", "max_a: 025", "max_a"},
		{"huge", "max_a: 25", "max_a: 1e400", "max_a"},
		{"not a number", "max_a: 25", "max_a: .nan", "max_a"},
		{"infinite", "max_a: 25", "max_a: .inf", "max_a"},
		{"negative", "max_a: 25", "max_a: -25", "max_a"},
		{"empty", "max_a: 25", "max_a:", "max_a"},
		{"unit", "length_m: 4.5", "length_m: 4.5 ft", "length_m"},
		{"VA", "power_w: 800", "power_va: 800", "VA"},
		{"no such node", "from: panel\n    to: pump", "from: pannel\n    to: pump", "pannel"},
		{"two of one name", "  - name: lights\n", "  - name: fridge\n", "fridge"},
		{"no such rules", "rules: european", "rules: lunar", "lunar"},
		{"second document", "needs:", "---\nneeds:", "document"},
		{"alias", "rules: european", "rules: *x", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, string(sample), c.from)
			file := filepath.Join(t.TempDir(), "job.yaml")
			require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(sample), c.from, c.to, 1)), 0o644))
			status, out, errs := ask(file)
			assert.Equal(t, 2, status, out)
			assert.Empty(t, out)
			errs = strings.ReplaceAll(errs, "\n    ", " ") // what does not go into one line
			assert.Contains(t, errs, c.want)
			for line := range strings.Lines(errs) {
				assert.Regexp(t, `^\S+job\.yaml:\d+:\d+: `, line)
			}
		})
	}
}

// TestTextAndJSONAlike: the schedule and the volts of a page stand in the JSON too.
func TestTextAndJSONAlike(t *testing.T) {
	for _, file := range []string{"jobs/clinic.yaml", "jobs/library-truck.yaml", trailer} {
		_, text, _ := ask(file)
		_, out, _ := ask("-json", file)
		var r struct {
			Headline string
			Circuits []struct {
				Name, Size, Parallel_cables string
				Length_m                    string
				Devices                     []struct{ Rating_a string }
			}
			Volts []struct {
				Load   string
				States []struct{ Drop_v, Left_v decimal.Decimal }
			}
		}
		require.NoError(t, json.Unmarshal([]byte(out), &r))
		assert.Contains(t, text, "\n"+r.Headline+":")
		require.NotEmpty(t, r.Circuits)
		for _, c := range r.Circuits {
			want := c.Size
			if c.Parallel_cables != "1" {
				want = c.Parallel_cables + " x " + want
			}
			want = regexp.QuoteMeta(c.Length_m) + ` +` + regexp.QuoteMeta(want) + ` `
			for _, d := range c.Devices {
				want += `.* ` + regexp.QuoteMeta(d.Rating_a) + ` A\b`
			}
			assert.Regexp(t, regexp.QuoteMeta(c.Name[:min(len(c.Name), 10)])+`.* `+want, text)
		}
		require.NotEmpty(t, r.Volts)
		for _, l := range r.Volts {
			want := regexp.QuoteMeta(l.Load[:min(len(l.Load), 15)])
			for _, s := range l.States {
				want += `.* ` + s.Drop_v.StringFixed(2) + ` ` + s.Left_v.StringFixed(1) + `\b`
			}
			assert.Regexp(t, want, text)
		}
	}
}
