package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"example.org/extralow/tables"
	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// mistake is one wrong thing put into testdata/van.yaml: old replaced by new,
// once.
type mistake struct {
	name, old, new string
	want           []string // lines of the error
}

func van(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("testdata/van.yaml")
	require.NoError(t, err)
	return string(text)
}

func readVan(t testing.TB) *Survey {
	t.Helper()
	f, err := Read("van.yaml", strings.NewReader(van(t)))
	require.NoError(t, err)
	return f
}

func TestMistakes(t *testing.T) {
	good := van(t)
	for _, m := range mistakes {
		t.Run(m.name, func(t *testing.T) {
			require.Contains(t, good, m.old)
			require.NotEmpty(t, m.want)
			f, err := Read("van.yaml", strings.NewReader(strings.Replace(good, m.old, m.new, 1)))
			require.EqualError(t, err, strings.Join(m.want, "\n"))
			require.Nil(t, f)
			require.Len(t, faultsOf(t, err), len(m.want))
		})
	}
}

// faultsOf returns the faults that an error joins, and fails where it holds
// anything else.
func faultsOf(t testing.TB, err error) (faults []*Fault) {
	t.Helper()
	joined, ok := err.(interface{ Unwrap() []error })
	require.True(t, ok, "%T", err)
	for _, one := range joined.Unwrap() {
		f, ok := one.(*Fault)
		require.True(t, ok, "%T", one)
		faults = append(faults, f)
	}
	return faults
}

func TestYAMLAndJSONGiveTheSameJob(t *testing.T) {
	text, err := os.ReadFile("testdata/van.json")
	require.NoError(t, err)
	fromJSON, err := Read("van.json", strings.NewReader(string(text)))
	require.NoError(t, err)
	sameSize := cmp.Comparer(func(a, b tables.Size) bool { return a == b })
	require.Empty(t, cmp.Diff(readVan(t).Job(), fromJSON.Job(), sameSize))
	var short bytes.Buffer
	require.NoError(t, json.Compact(&short, text))
	compact, err := Read("van.json", &short)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(fromJSON.Job(), compact.Job(), sameSize))
	at, ok := fromJSON.Stated("system_v")
	require.True(t, ok)
	require.Equal(t, At{Line: 4, Column: 2, Key: "system_v", Text: "12"}, at)
}

// Factors: NIST SP 811 (2008), appendix B.8: 1 ft = 0.3048 m, 1 in = 25.4 mm,
// 1 lb = 0.45359237 kg, all exact; °C = (°F - 32) / 1.8.
func TestUSUnits(t *testing.T) {
	f := readVan(t)
	for _, c := range []struct {
		got         decimal.Decimal
		want, typed string
		path        string
	}{
		{f.Job().Circuits[1].LengthM, "1.524", "5", "circuits[1].length_m"},
		{f.Job().Circuits[1].Device.AlongMM, "152.4", "6", "circuits[1].device.along_mm"},
		{f.Job().Batteries[0].MassKg.Decimal, "22.6796185", "50", "batteries[0].mass_kg"},
		{f.Job().Circuits[1].AmbientC, "40", "104", "circuits[1].ambient_c"},
		{f.Job().ColdestC, "-10", "14", "coldest_c"},
	} {
		require.Equal(t, c.want, c.got.String(), c.path)
		text, ok := f.Text(c.path)
		require.True(t, ok)
		require.Equal(t, c.typed, text)
	}
	// 33 °F is 5/9 °C
	f, err := Read("van.yaml", strings.NewReader(strings.Replace(van(t), "coldest_f: 14", "coldest_f: 33", 1)))
	require.NoError(t, err)
	require.Equal(t, "0.5556", f.Job().ColdestC.String())
}

func TestValues(t *testing.T) {
	f := readVan(t)
	require.Equal(t, "Tool library van", f.Job().Name)
	require.Equal(t, "2031-05-17", f.Job().Date)
	require.True(t, f.Job().Batteries[0].ColdGuard)
	require.False(t, f.Job().Batteries[1].LowMilliohm.Valid)
	require.Equal(t, "2.5 mm2", f.Job().Circuits[5].Size.String())
	require.Equal(t, "100", f.Job().Circuits[1].Device.RatingA.String())
	require.Nil(t, f.Job().Circuits[1].FarDevice)
	require.Equal(t, []string{"crew fridge", "label printer"}, f.Job().States[1].Loads)
	require.Empty(t, f.Job().States[1].Sources)
}

func TestWhereThingsStand(t *testing.T) {
	f := readVan(t)
	for path, want := range map[string]At{
		"":                            {2, 1, "file", ""},
		"batteries":                   {8, 1, "batteries", ""},
		"circuits[1]":                 {94, 5, "circuits[1]", ""},
		"circuits[1].length_m":        {97, 5, "circuits[1].length_ft", "5"},
		"circuits[1].device":          {107, 5, "circuits[1].device", ""},
		"circuits[1].device.along_mm": {110, 7, "circuits[1].device.along_in", "6"},
		"states[1].loads[1]":          {171, 26, "states[1].loads[1]", "label printer"},
		"batteries[1].empty_v":        {30, 5, "batteries[1].empty_v", "12.0"},
	} {
		at, ok := f.Stated(path)
		require.True(t, ok, path)
		require.Equal(t, want, at, path)
	}
	_, ok := f.Stated("circuits[9]")
	require.False(t, ok)
	_, ok = f.Text("circuits[1].device")
	require.False(t, ok)
}

func TestEquivalentForms(t *testing.T) {
	text := van(t)
	for name, form := range map[string]string{
		"byte order mark":      "\ufeff" + text,
		"other line ends":      strings.ReplaceAll(text, "\n", "\r\n"),
		"no line end at last":  strings.TrimSuffix(text, "\n"),
		"numbers in quotes":    strings.ReplaceAll(text, "grouped: 3", `grouped: "3"`),
		"signs and places":     strings.ReplaceAll(text, "grouped: 3", "grouped: +3.00"),
		"document marks":       "---\n" + text + "...\n",
		"comments":             strings.ReplaceAll(text, "craft: vehicle", "craft: vehicle # a van\n# and a comment"),
		"list in square marks": strings.ReplaceAll(text, "[alternator, converter]", "\n    - alternator\n    - converter"),
		"nominal voltage":      strings.ReplaceAll(text, "system_v: 12", "system_v: 12.0"),
	} {
		f, err := Read("van.yaml", strings.NewReader(form))
		require.NoError(t, err, name)
		require.Empty(t, cmp.Diff(readVan(t).Job(), f.Job(), cmp.Comparer(func(a, b tables.Size) bool { return a == b })), name)
	}
}

// counter counts the bytes that a reader was asked for.
type counter struct {
	from io.Reader
	read int
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.from.Read(p)
	c.read += n
	return n, err
}

func TestUnusableFiles(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"empty":            {"", `x.yaml:1:1: file is empty: want the keys of a job`},
		"blank":            {" \n\n", `x.yaml:1:1: file is empty: want the keys of a job`},
		"comments only":    {"# nothing\n", `x.yaml:1:1: file is empty: want the keys of a job`},
		"empty document":   {"---\n", `x.yaml:2:1: file is empty: want keys with values`},
		"a list":           {"- job\n", `x.yaml:1:1: file is a list: want keys with values`},
		"a word":           {"job\n", `x.yaml:1:1: file is "job": want keys with values`},
		"binary":           {"\x7fELF\x02\x01\x01\x00", `x.yaml:1:1: file is not plain text (it has the character U+007F): want YAML or JSON in UTF-8`},
		"nought byte":      {"job: a\nrules: \x00\n", `x.yaml:2:8: file is not plain text (it has the character U+0000): want YAML or JSON in UTF-8`},
		"Latin-1":          {"job: caf\xe9\n", `x.yaml:1:9: file is not text in UTF-8: want YAML or JSON in UTF-8`},
		"UTF-16":           {"\xff\xfej\x00", `x.yaml:1:1: file is not text in UTF-8: want YAML or JSON in UTF-8`},
		"deep list":        {strings.Repeat("[", 900_000), `x.yaml:1:1: line is "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[...": want YAML or JSON that can be read up to here: exceeded max depth of 10000`},
		"deep map":         {strings.Repeat(`{"a":`, 190_000), `x.yaml:1:1: line is "{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":...": want YAML or JSON that can be read up to here: exceeded max depth of 10000`},
		"deep but allowed": {"job: " + strings.Repeat("[", 9_000) + strings.Repeat("]", 9_000), `x.yaml:1:1: job is a list: want text`},
		"JSON cut short":   {"{\n\t\"job\": \"a\",\n\t\"rules\"", `x.yaml:3:2: line is "\"rules\"": want YAML or JSON that can be read up to here: did not find expected ',' or '}'`},
		"JSON comma":       {"{\n\t\"job\": \"a\"\n\t\"rules\": \"b\"\n}", `x.yaml:4:1: line is "}": want YAML or JSON that can be read up to here: did not find expected ',' or '}'`},
		"two lines":        {"{}\n{}", `x.yaml:2:1: line is "{}": want YAML or JSON that can be read up to here: did not find expected <document start>`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read("x.yaml", strings.NewReader(c.text))
			require.Equal(t, c.want, faultsOf(t, err)[0].Error())
		})
	}
}

func TestLargeFileIsNotRead(t *testing.T) {
	c := &counter{from: io.LimitReader(endless{}, 50_000_000)}
	_, err := Read("large.yaml", c)
	require.EqualError(t, err, `large.yaml: file is larger than 1 MB: want a job file of at most 1 MB`)
	require.LessOrEqual(t, c.read, mostBytes+1)
}

// endless is a file of line ends.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '\n'
	}
	return len(p), nil
}

func TestMoreFaultsThanAnybodyReads(t *testing.T) {
	_, err := Read("x.json", strings.NewReader(`{"states":[{"loads":[`+strings.Repeat("{},", 300_000)+"{}]}]}"))
	faults := faultsOf(t, err)
	require.Len(t, faults, mostFaults)
	require.Contains(t, err.Error(), "file is faulty in more places: want the faults listed here mended first")
}

// TestLongerThanAnyVehicle: what would be judged for ever is refused at once, where
// it stands.
func TestLongerThanAnyVehicle(t *testing.T) {
	for list, most := range map[string]int{
		"batteries": 16, "alternators": 4, "chargers": 16, "solar": 16, "inverters": 8, "loads": 200, "circuits": 1000, "states": 50,
	} {
		for n, refused := range map[int]bool{most: false, most + 1: true, 100_000: true} {
			_, err := Read("x.json", strings.NewReader("{\n  \""+list+"\": ["+strings.Repeat("{},", n-1)+"{}]\n}"))
			line := fmt.Sprintf("x.json:2:3: %s is a list of %d: want at most %d", list, n, most)
			if refused {
				require.ErrorContains(t, err, line)
			} else {
				require.NotContains(t, err.Error(), line)
			}
		}
	}
}

func TestFolder(t *testing.T) {
	folder, err := os.Open(t.TempDir())
	require.NoError(t, err)
	defer folder.Close()
	_, err = Read("jobs", folder)
	require.EqualError(t, err, `jobs: file is a folder: want a job file`)
}

func TestUnreadable(t *testing.T) {
	_, err := Read("x.yaml", iotest.ErrReader(errors.New("the disk is gone")))
	require.EqualError(t, err, `x.yaml: file is unreadable: want a job file; the disk is gone`)
}

// TestAllFaultsAtOnce puts several mistakes of every sort into one file.
func TestAllFaultsAtOnce(t *testing.T) {
	text := van(t)
	for _, m := range [][2]string{
		{"system_v: 12", "system_v: 12 V"},
		{"craft: vehicle\n", ""},
		{"chemistry: LiFePO4", "chemistry: LiFePo4"},
		{"empty_v: 12.0", "empty_v: 12.9"},
		{"    sleep_v: 12.7\n", ""},
		{"power_w: 300", "power_va: 300"},
		{"inverter: inverter", "inverter: invertor"},
		{"length_ft: 5", "length_ft: 5\n    length_m: 1.5"},
		{"from: board\n    to: inverter", "from: hook up\n    to: inverter"},
		{"size: 2.5 mm2", "size: 4 mm"},
		{"sources: [hook-up]", "sources: [hook-up, house, hook-up]"},
		{"  refill_h: 6", "  refill_hours: 0x6"},
		{"name: overnight\n    hours_a_day", "name: driving\n    hours_a_day"},
		{"longest_run_s: 120", "longest_run_s: no"},
		{"return: chassis", "return: cable"},
		{"  - name: alternator\n    rated_a", "  - name: &a alternator\n    rated_a"},
	} {
		require.Contains(t, text, m[0])
		text = strings.Replace(text, m[0], m[1], 1)
	}
	_, err := Read("van.yaml", strings.NewReader(text))
	require.EqualError(t, err, strings.Join([]string{
		`van.yaml:2:1: craft is missing: want vehicle, trailer or boat (what carries the installation)`,
		`van.yaml:4:1: system_v is "12 V": want 12 or 24 V; the number alone, the key says V`,
		`van.yaml:10:5: batteries[0].chemistry is "LiFePo4": want lead-acid flooded, lead-acid AGM, lead-acid gel or LiFePO4; nearest: LiFePO4`,
		`van.yaml:29:5: batteries[1].empty_v is "12.9": want less than full_v, which is 12.7`,
		`van.yaml:33:5: alternators[0].name is an anchor, &a: want the value alone`,
		`van.yaml:39:5: chargers[0].sleep_v is missing: want it where wakes_by is voltage`,
		`van.yaml:70:5: loads[1].inverter is "invertor": want the name of an inverter; nearest: inverter`,
		`van.yaml:71:5: loads[1].power_va is "300": want the key power_w; VA is not W: multiply it by the power factor and give watts`,
		`van.yaml:75:5: loads[1].longest_run_s is "no": want a number from 0.1 to 86400 s`,
		`van.yaml:89:5: circuits[0].chassis_milliohm is "1.5": want it left out where return is cable`,
		`van.yaml:96:5: circuits[1].length_m is "1.5": want either length_m or length_ft, not both`,
		`van.yaml:137:5: circuits[4].from is "hook up": want a node at which something else is; nearest: hook-up`,
		`van.yaml:153:5: circuits[5].size is "4 mm": want the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper`,
		`van.yaml:171:5: states[2].name is "driving": want a name of its own; states[0].name on line 163 has it`,
		`van.yaml:173:24: states[2].sources[1] is "house": want it left out: a battery always runs`,
		`van.yaml:173:31: states[2].sources[2] is "hook-up": want each name once`,
		`van.yaml:177:3: needs.refill_hours is "0x6": want a known key; nearest: refill_h`,
	}, "\n"))
}
