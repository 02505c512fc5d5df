package form_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/extralow/examples/form"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

var pump = []form.Entry{
	{Name: "current_a", Sample: "8", Means: "steady current, A"},
	{Name: "surge_a", Means: "short peak, A"},
	{Name: "cores", Sample: "2", Means: "of the cable"},
}

func Example() {
	f := form.New("pump", []form.Entry{
		{Name: "current_a", Sample: "8", Means: "steady current, A"},
		{Name: "length_m", Sample: "4.5", Means: "one way, m"},
		{Name: "surge_a", Means: "short peak, A"},
	})
	if err := f.Parse([]string{"-length_m", "6"}); err != nil {
		f.Refused(os.Stdout, err)
		return
	}
	amps, length := f.Number("current_a", form.Above(0, 100)), f.Number("length_m", form.Above(0, 50))
	if err := f.Faults(); err != nil {
		f.Refused(os.Stdout, err)
		return
	}
	f.Print(os.Stdout, "Asked")
	fmt.Println(amps.Mul(length), "A m")
	// Output:
	// Asked (* is a sample value of ours: give your own)
	// * current_a  8                  steady current, A
	//   length_m   6                  one way, m
	//   surge_a    unset              short peak, A
	// 48 A m
}

// All faults are found at once, those of the library among them.
func ExampleForm_Refused() {
	f := form.New("pump", []form.Entry{
		{Name: "current_a", Sample: "8", Means: "steady current, A"},
		{Name: "length_m", Sample: "4.5", Means: "one way, m"},
		{Name: "cores", Sample: "2", Means: "of the cable"},
	})
	if err := f.Parse([]string{"-current_a", "8 A", "-cores", "1.5", "-length_m", "0"}); err != nil {
		f.Refused(os.Stdout, err)
		return
	}
	f.Number("current_a", form.Above(0, 100))
	f.Whole("cores")
	length := f.Number("length_m")
	f.Refuse(working.In("run", working.Above("length_m", length, 0, 1000)))
	fmt.Println("status", f.Refused(os.Stdout, f.Faults()))
	// Output:
	// pump: current_a is "8 A": want a number of plain digits, such as 12.5, without a unit
	// pump: cores is 1.5: want a whole number
	// pump: length_m is 0: want above 0 and at most 1000
	// status 2
}

// parsed is the form of the pump with arguments that can be parsed.
func parsed(t *testing.T, args ...string) *form.Form {
	t.Helper()
	f := form.New("pump", pump)
	require.NoError(t, f.Parse(args))
	return f
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		typed, value string
		checks       []form.Check
		fault        string
	}{
		{"12.5", "12.5", nil, ""},
		{"+3", "3", nil, ""},
		{"-3", "-3", nil, ""},
		{"100", "100", []form.Check{form.Between(0, 100), form.Above(0, 100)}, ""},
		{"0", "0", []form.Check{form.Between(0, 100)}, ""},
		// a flag at fault counts as left at its sample value, 8
		{"0", "8", []form.Check{form.Above(0, 100)}, "current_a is 0: want above 0 and at most 100"},
		{"100.1", "8", []form.Check{form.Between(0, 100), form.Above(0, 10)}, "current_a is 100.1: want 0 to 100"},
		{"", "8", nil, `current_a is "": want a number of plain digits, such as 12.5, without a unit`},
		{"8A", "8", nil, `current_a is "8A": want a number of plain digits, such as 12.5, without a unit`},
		{"010", "8", nil, `current_a is "010": want a number of plain digits, such as 12.5, without a unit; without a leading nought`},
		{"1,5", "8", nil, `current_a is "1,5": want a number of plain digits, such as 12.5, without a unit; use a point, not a comma`},
		{" 9", "8", nil, `current_a is " 9": want a number of plain digits, such as 12.5, without a unit`},
		{".5", "8", nil, `current_a is ".5": want a number of plain digits, such as 12.5, without a unit; digits on both sides of the point`},
		{"1e9", "8", nil, `current_a is "1e9": want a number of plain digits, such as 12.5, without a unit; all digits written out, without an exponent`},
		{"1234567890123", "8", nil, `current_a is "1234567890123": want a number of plain digits, such as 12.5, without a unit; at most twelve digits before the point`},
	} {
		f := parsed(t, "-current_a", c.typed)
		assert.Equal(t, c.value, f.Number("current_a", c.checks...).String(), "%q", c.typed)
		if c.fault == "" {
			assert.NoError(t, f.Faults(), "%q", c.typed)
		} else {
			assert.EqualError(t, f.Faults(), c.fault)
		}
	}
}

func TestWhole(t *testing.T) {
	for typed, want := range map[string]int{"5": 5, "5.0": 5, "5.5": 2, "0": 2, "61": 2, "x": 2} {
		f := parsed(t, "-cores", typed)
		assert.Equal(t, want, f.Whole("cores", form.Between(1, 60)), typed)
		assert.Equal(t, want == 2, f.Faults() != nil, typed)
	}
}

func TestOptional(t *testing.T) {
	assert.False(t, parsed(t).Optional("surge_a").Valid)
	f := parsed(t, "-surge_a", "20")
	assert.Equal(t, decimal.NewNullDecimal(d("20")), f.Optional("surge_a", form.Between(0, 20)))
	assert.NoError(t, f.Faults())
	assert.False(t, f.Optional("surge_a", form.Between(0, 19)).Valid)
	assert.EqualError(t, f.Faults(), "surge_a is 20: want 0 to 19")
}

func TestGivenAndUnset(t *testing.T) {
	f := parsed(t, "-current_a", "8")
	assert.True(t, f.Given("current_a"), "also where it is the sample value")
	assert.False(t, f.Given("cores"))
	assert.Equal(t, "2", f.Text("cores"))
	f.Unset("cores")
	assert.Empty(t, f.Text("cores"))
	assert.False(t, f.Given("cores"))
}

// TestNoSuchFlag: a name that is no flag's is empty, and no number.
func TestNoSuchFlag(t *testing.T) {
	f := parsed(t)
	f.Unset("volts")
	assert.False(t, f.Given("volts"))
	assert.Empty(t, f.Text("volts"))
	assert.True(t, f.Number("volts").IsZero())
	assert.ErrorContains(t, f.Faults(), `volts is "": want a number`)
}

func TestSwitchAndFile(t *testing.T) {
	f := form.New("pump", pump)
	long, file := f.Switch("working", "print every line"), f.File("o", "file to write to")
	require.NoError(t, f.Parse([]string{"-working", "-o", ""}))
	assert.True(t, *long)
	assert.Empty(t, *file)
	assert.True(t, f.Given("o"))
	var out bytes.Buffer
	f.Print(&out, "Asked")
	assert.NotContains(t, out.String(), "working", "it asks nothing")
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"8"}, `"8" is no flag: want flags only, such as -current_a 8`},
		{[]string{"-current_a", "9", "and"}, `"and" is no flag: want flags only, such as -current_a 8`},
		{[]string{"-volts", "12"}, "flag provided but not defined: -volts"},
		{[]string{"-current_a"}, "flag needs an argument: -current_a"},
	} {
		assert.EqualError(t, form.New("pump", pump).Parse(c.args), c.want)
	}
	spaced := form.New("pump", []form.Entry{{Name: "size", Sample: "6 mm2", Means: "of the cable"}})
	assert.EqualError(t, spaced.Parse([]string{"8"}), `"8" is no flag: want flags only, such as -size "6 mm2"`)
	assert.EqualError(t, form.New("bare", nil).Parse([]string{"8"}), `"8" is no flag: want flags only`)
}

// TestNothingForTheTerminal: what a terminal would obey is refused as a value, and
// written out in the name of a flag.
func TestNothingForTheTerminal(t *testing.T) {
	for typed, shown := range map[string]string{
		"\x1b[2J": `"\x1b[2J"`, "8\u202e": `"8\u202e"`, "8\n9": `"8\n9"`, "8\r": `"8\r"`,
	} {
		f := form.New("pump", pump)
		var errs bytes.Buffer
		assert.Equal(t, 2, f.Refused(&errs, f.Parse([]string{"-current_a", typed})))
		assert.Equal(t, "pump: current_a is "+shown+": want one line of letters that can be printed\n", errs.String())
	}
	f := form.New("pump", pump)
	var errs bytes.Buffer
	assert.Equal(t, 2, f.Refused(&errs, f.Parse([]string{"-\x1b[31mvolts\u202e"})))
	assert.Equal(t, "pump: flag provided but not defined: -\\x1b[31mvolts\\u202e\n", errs.String())
	assert.Equal(t, "6 mm², 'Ω'", form.Printable("6 mm², 'Ω'"), "what can be read stays")
}

func TestHelp(t *testing.T) {
	f := form.New("pump", append(slices.Clone(pump), form.Entry{Name: "system", Sample: "mm2", Means: "of sizes", Words: form.Names("system")}))
	f.Switch("working", "print every line")
	f.File("o", "file to write to")
	var errs bytes.Buffer
	assert.Equal(t, 0, f.Refused(&errs, f.Parse([]string{"-h"})))
	assert.Equal(t, `pump [flags], each with its sample value:
 -current_a  8                  steady current, A
 -surge_a    unset              short peak, A
 -cores      2                  of the cable
 -system     mm2                of sizes
 -working                       print every line
 -o          FILE               file to write to

-system takes one of
  mm2; AWG; SAE
`, errs.String())
}

// TestRefused: one line a fault, none twice, and the flag's name in place of the
// library's path where there is such a flag.
func TestRefused(t *testing.T) {
	f := form.New("pump", append(pump, form.Entry{Name: "stage-v", Sample: "14", Means: "V"}))
	wrong := func(field string) error { return &working.InputError{Field: field, Got: "0", Want: "more"} }
	var errs bytes.Buffer
	err := errors.Join(
		wrong("runs[2].current_a"), wrong("current_a"), wrong("battery.stage_v"), wrong("stage-v"),
		errors.Join(wrong("runs[2].length_m"), errors.New("no\nsuch table")),
	)
	assert.Equal(t, 2, f.Refused(&errs, err))
	assert.Equal(t, `pump: current_a is 0: want more
pump: stage-v is 0: want more
pump: runs[2].length_m is 0: want more
pump: no such table
`, errs.String())
}

// TestLongValues: a list stands part by part, a long value by itself, and the
// page keeps its 80 columns.
func TestLongValues(t *testing.T) {
	f := form.New("pump", []form.Entry{
		{Name: "loads", Sample: "lamp 2; fan 3", Means: "name, A"},
		{Name: "position", Sample: "in a row, on a wall, top covered, Ω", Means: "of the housing, seen from the door"},
		{Name: "material", Sample: "painted sheet steel", Means: "of its walls"},
	})
	require.NoError(t, f.Parse(nil))
	var out bytes.Buffer
	f.Print(&out, "Asked")
	assert.Equal(t, `Asked (* is a sample value of ours: give your own)
* loads                        name, A
    lamp 2
    fan 3
* position                     of the housing, seen from the door
    in a row, on a wall, top covered, Ω
* material  painted sheet steel of its walls
`, out.String())
	for line := range strings.Lines(out.String()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 81, line)
	}
}

// FuzzForm: whatever is typed, a form reads it within the checks or refuses it
// in lines of its own.
func FuzzForm(f *testing.F) {
	f.Add("12.5", "3", "")
	f.Add("1e999999", "0.5", "-1")
	f.Add("a;b\n", "+000000000001", "\x00")
	f.Fuzz(func(t *testing.T, current, cores, surge string) {
		one := form.New("pump", pump)
		if err := one.Parse([]string{"-current_a=" + current, "-cores=" + cores, "-surge_a=" + surge}); err != nil {
			var errs bytes.Buffer
			assert.Equal(t, 2, one.Refused(&errs, err))
			for line := range strings.Lines(errs.String()) {
				assert.Contains(t, line, "want one line of letters that can be printed")
			}
			return
		}
		amps, n, peak := one.Number("current_a", form.Above(0, 100)), one.Whole("cores", form.Between(1, 60)), one.Optional("surge_a", form.Between(0, 100))
		assert.NoError(t, working.Above("current_a", amps, 0, 100))
		assert.True(t, 1 <= n && n <= 60)
		if peak.Valid {
			assert.NoError(t, working.Between("surge_a", peak.Decimal, 0, 100))
		}
		if one.Faults() == nil {
			return
		}
		var errs bytes.Buffer
		assert.Equal(t, 2, one.Refused(&errs, one.Faults()))
		assert.LessOrEqual(t, strings.Count(errs.String(), "\n"), 3)
		for line := range strings.Lines(errs.String()) {
			assert.True(t, strings.HasPrefix(line, "pump: "), "%q", line)
		}
	})
}

// rod is a program that asks whether a rod goes into a box.
var rod = form.Program{
	Name: "rod", Heading: "Asked", Sums: true, Picture: "rod.svg", Caution: "Caution: mind your eyes.",
	Entries: []form.Entry{{Name: "rod_m", Sample: "1", Means: "length, m"}, {Name: "box_m", Sample: "2", Means: "length of the box, m"}},
}

func rodFits(f *form.Form) (form.Answer, error) {
	left := f.Number("box_m", form.Above(0, 10)).Sub(f.Number("rod_m", form.Above(0, 10)))
	a := form.Answer{
		Print:   func(out io.Writer) { fmt.Fprintf(out, "\n%s m are left.\n", left) },
		Working: func(out io.Writer) { fmt.Fprintln(out, "\nbox - rod") },
		No:      left.IsNegative(),
	}
	if a.No {
		a.Undrawn = errors.New("nothing to draw")
	} else {
		a.Save = func(file string, _ bool) error { return os.WriteFile(file, []byte("a rod"), 0o600) }
	}
	return a, f.Faults()
}

func ExampleProgram_Run() {
	fmt.Println(rod.Run([]string{"-rod_m", "1.5"}, os.Stdout, os.Stdout, rodFits))
	// Output:
	// Asked (* is a sample value of ours: give your own)
	//   rod_m  1.5                length, m
	// * box_m  2                  length of the box, m
	//
	// 0.5 m are left.
	//
	// To draw it: go run ./examples/rod -o rod.svg
	// Caution: mind your eyes.
	// 0
}

// TestProgram: the status tells a no from an answer and from a fault; of a picture
// that is not there no page tells.
func TestProgram(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rod.svg")
	for _, c := range []struct {
		args     []string
		status   int
		out, not string
		errs     string
	}{
		{nil, 0, "\n1 m are left.\n", "box - rod", ""},
		{[]string{"-working"}, 0, "\nbox - rod\n", "nothing", ""},
		{[]string{"-o", file}, 0, "\nThe picture is in " + file + ".\n", "To draw it", ""},
		{[]string{"-rod_m", "3"}, 1, "\n-1 m are left.\n", "To draw it", ""},
		{[]string{"-rod_m", "3", "-o", file}, 2, "", "left", "rod: nothing to draw\n"},
		{[]string{"-o", filepath.Join(file, "x")}, 2, "", "left", "rod: o: "},
		{[]string{"-rod_m", "0", "-box_m", "x"}, 2, "", "left", "rod_m is 0: want above 0"},
		{[]string{"-nosuch"}, 2, "", "left", "not defined: -nosuch"},
		{[]string{"-h"}, 0, "", "left", " -working "},
	} {
		var out, errs strings.Builder
		assert.Equal(t, c.status, rod.Run(c.args, &out, &errs, rodFits), "%q", c.args)
		assert.Contains(t, out.String(), c.out, "%q", c.args)
		assert.NotContains(t, out.String(), c.not, "%q", c.args)
		assert.Contains(t, errs.String(), c.errs, "%q", c.args)
		assert.Equal(t, c.errs == "", errs.String() == "", "%q", c.args)
	}
	saved, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "a rod", string(saved))
}
