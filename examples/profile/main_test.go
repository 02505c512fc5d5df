package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables/working/workingtest"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// pages are command lines whose output was read and found good.
var pages = map[string][]string{
	"sample.txt":  nil,
	"working.txt": {"-working", "-battery_c", "-10", "-temperatures_c", "-10,25"},
	"lithium.txt": {"-working", "-chemistry", "LiFePO4", "-cells", "4", "-capacity_ah", "200", "-battery_c", "5", "-limit_a", "60", "-cable_milliohm", "4", "-within_h", "6"},
	"barred.txt":  {"-working", "-chemistry", "LiFePO4", "-cells", "8", "-battery_c", "-5"},
	"gel.txt":     {"-chemistry", "lead-acid gel", "-cells", "12", "-capacity_ah", "110", "-battery_c", "35", "-remote_sensing", "yes", "-limit_a", "15", "-internal_milliohm", "14"},
	"finish.txt":  {"-characteristic", "IUIa", "-finish_a", "5", "-finish_h", "3"},
	"clock.txt":   {"-characteristic", "Ia", "-finish_a", "10", "-finish_h", "8"},
	"given.txt": {"-chemistry", "NiCd", "-cells", "10", "-capacity_ah", "60", "-characteristic", "IU", "-absorption_cell_v", "1.45", "-voltage_reference_c", "20",
		"-compensation_mv_per_c", "-3", "-charge_limit_a", "12", "-emf", "0 11.8; 50 13; 100 13.8", "-coulombic_efficiency", "0.75", "-least_charge_c", "-20", "-most_charge_c", "40"},
}

func TestPages(t *testing.T) {
	for name, args := range pages {
		status, out, errs := ask(args...)
		assert.Equal(t, map[string]int{"barred.txt": 1}[name], status, name)
		assert.Empty(t, errs, name)
		programtest.Golden(t, name, out)
		programtest.Narrow(t, out)
		workingtest.Page(t, name, out)
		assert.Contains(t, out, "\nCaution: a design aid", name)
		assert.True(t, strings.HasSuffix(out, "local codes come first.\n"), name)
	}
}

func TestNoArguments(t *testing.T) { program.NoArguments(t) }

func TestHelp(t *testing.T) {
	program.Help(t, entries)
	_, _, help := ask("-h")
	programtest.Narrow(t, help)
}

// TestBadInput: one line a fault, and no answer.
func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		says []string
	}{
		{[]string{"-nosuch"}, []string{"flag provided but not defined: -nosuch"}},
		{[]string{"IUoU"}, []string{`"IUoU" is no flag: want flags only, such as -characteristic IUoU`}},
		{[]string{"-characteristic", "IUU"}, []string{`characteristic is "IUU": want one of I, Ia, U, IU`}},
		{[]string{"-characteristic", "WoWa"}, []string{"characteristic is WoWa: want I, Ia, U, IU, IUIa or IUoU: a W part follows the mains"}},
		{[]string{"-characteristic", "Ia"}, []string{"finish_a is unset: want finish_a and finish_h"}},
		{[]string{"-characteristic", "Ia", "-finish_a", "21", "-finish_h", "1"}, []string{"finish_a is 21: want at most limit_a, 20"}},
		{[]string{"-chemistry", "lead", "-cells", "6.5", "-capacity_ah", "0"}, []string{"cells is 6.5: want a whole number", "capacity_ah is 0: want above 0", `chemistry is "lead": want one of`}},
		{[]string{"-float_cell_v", "3"}, []string{"float_cell_v is 3: want no more than the absorption voltage"}},
		{[]string{"-absorption_cell_v", "2"}, []string{"absorption_cell_v is 2: want no less than the float voltage"}},
		{[]string{"-remote_sensing", "maybe"}, []string{`remote_sensing is "maybe": want one of yes, no`}},
		{[]string{"-battery_c", "warm", "-temperatures_c", "0,x"}, []string{`battery_c is "warm": want a number`, `temperatures_c is "x": want a number`}},
		{[]string{"-temperatures_c", strings.Repeat("1,", 15) + "1"}, []string{"temperatures_c is 16 temperatures: want up to 15 with commas"}},
		{[]string{"-limit_a", "0", "-within_h", "1e3", "-start_percent", "101"}, []string{"limit_a is 0: want above 0", "start_percent is 101: want 0 to 100", `within_h is "1e3": want a number`}},
		{[]string{"-cable_milliohm", "-1", "-source_efficiency", "88"}, []string{"cable_milliohm is -1: want", "source_efficiency is 88: want above 0 and at most 1"}},
		{[]string{"-emf", "12.7"}, []string{`emf is "12.7": want state of charge and volts from 0 to 100 %, rising, such as 0 11.9; 100 12.7`}},
		{[]string{"-emf", "0 12.7; 100 11.9"}, []string{"emf is"}},
		{[]string{"-emf", "0 11; 50 12"}, []string{"emf is"}},
		{[]string{"-emf", "0 a; 100 12"}, []string{`emf is "a": want a number`}},
		{[]string{"-chemistry", "NiCd"}, []string{
			"absorption_cell_v is unset: want the data sheet's", "compensation_mv_per_c is unset: want", "tail_a is unset: want",
			"charge_limit_a is unset: want", "emf is unset: want", "coulombic_efficiency is unset: want",
		}},
		{[]string{"-chemistry", "lead-acid"}, []string{"charge_limit_a is unset: want", "emf is unset: want"}},
		{[]string{"-chemistry", "LiFePO4", "-cells", "4", "-battery_c", "-5", "-o", "cold.svg"}, []string{"battery_c is -5: want a temperature at which there is a charge to draw: not to be charged below 0 °C"}},
		{[]string{"-least_charge_c", "41", "-most_charge_c", "40"}, []string{"least_charge_c is 41: want at most most_charge_c, 40"}},
		{[]string{"-voltage_reference_c", "20"}, []string{"voltage_reference_c is 20: want absorption_cell_v or float_cell_v with it"}},
		{[]string{"-o"}, []string{"flag needs an argument: -o"}},
		{[]string{"-o", ""}, []string{`o: cannot write "": want the name of a file`}},
		{[]string{"-o", filepath.Join("nowhere", "x.svg")}, []string{`o: cannot write "nowhere/x.svg": no such file`}},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Equal(t, len(c.says), strings.Count(errs, "\n"), "%q: %s", c.args, errs)
		for _, want := range c.says {
			assert.Contains(t, errs, "profile: "+want, "%q", c.args)
		}
	}
	assert.NoFileExists(t, "cold.svg")
}

// full refuses to write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestFullDisk(t *testing.T) {
	var errs bytes.Buffer
	assert.Equal(t, 2, run(nil, full{}, &errs))
	assert.Equal(t, "profile: no room\n", errs.String())
	assert.ErrorContains(t, asked(t).draw(full{}), "no room")
}

// picture draws, and returns the SVG and the texts in it.
func picture(t *testing.T, args ...string) (svg string, texts []string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "curve.svg")
	status, out, errs := ask(append(args, "-o", file)...)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "The picture is in "+file+".")
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing but the picture")
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	inText := false
	for in := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := in.Token()
		if errors.Is(err, io.EOF) {
			return string(data), texts
		}
		require.NoError(t, err)
		switch one := token.(type) {
		case xml.StartElement:
			inText = one.Name.Local == "text"
		case xml.EndElement:
			inText = false
		case xml.CharData:
			if inText {
				texts = append(texts, string(one))
			}
		}
	}
}

func TestPicture(t *testing.T) {
	svg, texts := picture(t)
	for _, want := range []string{
		"IUoU on 6 cells of lead-acid flooded, 220 Ah, at 10 °C, from 50 %", "Hours from the start",
		"Volts at the battery", "Amperes into the battery", "State of charge, %",
		"absorption 14.49 V", "float 13.47 V", "tail 4.4 A", "bulk I ends, 1 h 13 min", "absorption U ends, 11 h 07 min",
		"80 %, 4 h 39 min", "90 %, 11 h 32 min",
	} {
		assert.Contains(t, texts, want)
	}
	assert.Contains(t, strings.Join(texts, " "), "Caution: a design aid")
	again, _ := picture(t)
	assert.True(t, svg == again, "the same flags give the same picture")
	for _, c := range regexp.MustCompile(`#([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})\b`).FindAllStringSubmatch(svg, -1) {
		assert.True(t, c[1] == c[2] && c[2] == c[3], "%s is a colour", c[0])
	}
}

// TestPicturesOfAll: every charge of the pages has a picture.
func TestPicturesOfAll(t *testing.T) {
	for name, args := range pages {
		if name == "barred.txt" {
			continue
		}
		_, texts := picture(t, args...)
		assert.Contains(t, texts, "State of charge, %", name)
	}
	_, texts := picture(t, "-start_percent", "100", "-within_h", "0.01")
	assert.Contains(t, texts, "float 13.47 V")
}

// TestNoHalfPicture: where the picture cannot be written there is no answer.
func TestNoHalfPicture(t *testing.T) {
	status, out, errs := ask("-o", t.TempDir())
	assert.Equal(t, 2, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "want the name of a file, new or to be replaced")
}
