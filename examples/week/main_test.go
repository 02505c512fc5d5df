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
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var hexColour = regexp.MustCompile(`#[0-9A-Fa-f]{6}\b`)

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// pages are runs that were read and found good.
var pages = map[string][]string{
	"week.txt":     nil,
	"asked.txt":    {"-month", "3", "-driving_h", "2.25", "-days", "10"},
	"latitude.txt": {"-latitude", "-34", "-sunshine_percent", "45", "-cut_out_percent", "", "-resume_percent", "", "-mains", ""},
	"year.txt":     {"-days", "365", "-month", "3"},
}

func TestPages(t *testing.T) {
	for name, args := range pages {
		status, out, errs := ask(args...)
		assert.Equal(t, 0, status, name)
		assert.Empty(t, errs, name)
		programtest.Golden(t, name, out)
		assert.Contains(t, out, "\nCaution: a model on mean days", name)
	}
}

func TestColumns(t *testing.T) {
	_, _, help := ask("-h")
	texts := []string{help}
	for _, args := range pages {
		_, out, _ := ask(args...)
		texts = append(texts, out)
	}
	for _, text := range texts {
		programtest.Narrow(t, text)
	}
}

func TestHelp(t *testing.T) {
	program.Help(t, entries)
	_, _, errs := ask("-h")
	assert.Regexp(t, `-o +FILE`, errs)
}

// TestBadInput: one line a fault, and no answer.
func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		says []string
	}{
		{[]string{"-nosuch"}, []string{"flag provided but not defined"}},
		{[]string{"June"}, []string{`"June" is no flag: want flags only`}},
		{[]string{"-month", "13"}, []string{"month is 13: want 1 to 12"}},
		{[]string{"-month", "2.5"}, []string{"month is 2.5: want a whole number"}},
		{[]string{"-cells", "5"}, []string{"stage_v is 14.2: want above 15.971 and at most 18.25 with 5 cells"}},
		{[]string{"-cells", "3"}, []string{"stage_v is 14.2: want above 9."}},
		{[]string{"-days", "0"}, []string{"days is 0: want"}},
		{[]string{"-days", "367"}, []string{"days is 367: want"}},
		{[]string{"-days", "1e2"}, []string{`days is "1e2": want a number of plain digits`}},
		{[]string{"-place", "Atlantis"}, []string{`place is "Atlantis": want a place of go run ./examples/tablebook insolation`}},
		{[]string{"-place", "Leeds", "-latitude", "54", "-sunshine_percent", "30"}, []string{"latitude is 54: want place or latitude, not both"}},
		{[]string{"-latitude", "54"}, []string{`sunshine_percent is "": want a number`}},
		{[]string{"-latitude", "91", "-sunshine_percent", "130"}, []string{"latitude is 91: want", "sunshine_percent is 130: want"}},
		{[]string{"-sunshine_percent", "30"}, []string{"sunshine_percent is 30: want latitude with it"}},
		{[]string{"-driving_h", "12.5"}, []string{"driving_h is 12.5: want at most 12 h 00 min, or one drive runs into the next"}},
		{[]string{"-driving_h", "-1"}, []string{"driving_h is -1: want"}},
		{[]string{"-drives", "7;12"}, []string{`drives is "7;12": want a number`}},
		{[]string{"-drives", "24"}, []string{"drives is 24: want"}},
		{[]string{"-drives", "7,7", "-driving_h", "0.5"}, []string{"driving_h is 0.5: want at most 0 min"}},
		{[]string{"-drives", strings.Repeat("1,", 16) + "1", "-driving_h", "0"}, []string{"drives is 17: want"}},
		{[]string{"-drive_days", "6-2"}, []string{`drive_days is "6-2": want days from 1 to 7`}},
		{[]string{"-drive_days", "0"}, []string{"drive_days is"}},
		{[]string{"-drive_days", ""}, []string{"drive_days is"}},
		{[]string{"-loads", "lamps 2"}, []string{`loads is "lamps 2": want a name of up to 12 letters, amperes and hours`}},
		{[]string{"-loads", "lamps 2 22-6"}, []string{"loads is 22-6: want rising hours from 0 to 24: give what runs past midnight as two"}},
		{[]string{"-loads", "lamps 2 17-25; fridge x 0-24"}, []string{"loads is 17-25: want", `loads is "x": want a number`}},
		{[]string{"-loads", "lamps 2 17-22 8"}, []string{`loads is "8": want days from 1 to 7`}},
		{[]string{"-mains", "yard -15 10-16"}, []string{"mains is -15: want"}},
		{[]string{"-loads", strings.Repeat("lamp 1 1-2;", 17)}, []string{"loads is 17: want"}},
		{[]string{"-start_percent", "10"}, []string{"start_percent is 10: want at least limit_percent, 20"}},
		{[]string{"-cut_out_percent", ""}, []string{"resume_percent is one of the two: want both"}},
		{[]string{"-resume_percent", "5"}, []string{"resume_percent is 5: want at least"}},
		{[]string{"-capacity_ah", "0", "-cells", "4.5", "-stage_v", "high"}, []string{"capacity_ah is 0: want", "cells is 4.5: want", `stage_v is "high": want`}},
		{[]string{"-o", ""}, []string{`o: cannot write "": want the name of a file`}},
		{[]string{"-o", filepath.Join("nowhere", "week.svg")}, []string{`o: cannot write "nowhere/week.svg": no such file`}},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Equal(t, len(c.says), strings.Count(errs, "\n"), "%q: %s", c.args, errs)
		for _, want := range c.says {
			assert.Contains(t, errs, "week: "+want, "%q", c.args)
		}
	}
}

// full refuses to write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestFullDisk(t *testing.T) {
	var errs bytes.Buffer
	assert.Equal(t, 2, run(nil, full{}, &errs))
	assert.Equal(t, "week: no room\n", errs.String())
}

// picture draws and returns the SVG and the words in it.
func picture(t *testing.T, args ...string) (svg, words string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "week.svg")
	status, out, errs := ask(append(args, "-o", file)...)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "The picture is in "+file)
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing but the picture")
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(data), wordsOf(t, data)
}

// wordsOf reads the whole file as XML.
func wordsOf(t *testing.T, data []byte) string {
	t.Helper()
	var words strings.Builder
	in := xml.NewDecoder(bytes.NewReader(data))
	inText := false
	for {
		token, err := in.Token()
		if err == io.EOF {
			return words.String()
		}
		require.NoError(t, err)
		switch one := token.(type) {
		case xml.StartElement:
			inText = one.Name.Local == "text"
		case xml.CharData:
			if inText {
				words.WriteString(string(one) + "\n")
			}
		}
	}
}

func TestPicture(t *testing.T) {
	svg, words := picture(t, "-month", "3")
	again, _ := picture(t, "-month", "3")
	assert.True(t, svg == again, "two runs differ")
	assert.Contains(t, svg, `width="841.89pt" height="595.28pt"`, "A4 laid across: 297 by 210 mm, ISO 216")
	for _, want := range []string{
		"State of charge: 200 Ah at Leeds, 1 h 30 min of driving a day, 200 W of modules", "State of charge, %", "Day of the week",
		"December", "March", "June", "limit 20 %", "loads shed at 10 %", "Mon", "Sun",
		"driving 30 A", "yard 15 A", "fridge 1.2 A", "wheels 8 A", "lamps 2 A", "heater 1.5 A",
		"night in June; light grey: night in December only", "C08 fails", "C08 passes", "Caution: a model",
	} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "\nsun ", "its night is shaded instead")
}

func TestPictureOfAYear(t *testing.T) {
	_, words := picture(t, "-days", "365", "-month", "3")
	for _, want := range []string{"Month", "Mar", "Dec", "Feb", "least of a day", "most of a day", "limit 20 %", "C08 fails"} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "fridge")
}

// TestPictureHasNoColour: every colour of the file is a grey.
func TestPictureHasNoColour(t *testing.T) {
	svg, _ := picture(t)
	colours := hexColour.FindAllString(svg, -1)
	require.NotEmpty(t, colours)
	for _, c := range colours {
		assert.True(t, c[1:3] == c[3:5] && c[3:5] == c[5:7], c)
	}
}

// TestNoHalfPicture: where the picture cannot be written there is no answer.
func TestNoHalfPicture(t *testing.T) {
	status, out, errs := ask("-o", t.TempDir())
	assert.Equal(t, 2, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "want the name of a file, new or to be replaced")
}
