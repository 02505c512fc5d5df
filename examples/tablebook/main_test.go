package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"strings"
	"testing"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

func TestStatus(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string // on the error stream; empty for status 0
	}{
		{nil, ""},
		{[]string{"-weak"}, ""},
		{[]string{"-find", "ampacity boat"}, ""},
		{[]string{"-find", "no such word"}, ""},
		{[]string{"awg"}, ""},
		{[]string{"-csv", "awg"}, ""},
		{[]string{"-markdown", "awg"}, ""},
		{[]string{"-weak", "-csv", "awg"}, ""},
		{[]string{"nosuch"}, `table is "nosuch": want one of conductor-resistance`},
		{[]string{""}, `table is "": want one of `},
		{[]string{"awg", "preece"}, "one table at a time"},
		{[]string{"awg", "-csv"}, "flags before its name"},
		{[]string{"-csv", "-markdown", "awg"}, "either -csv or -markdown"},
		{[]string{"-csv"}, "name the table"},
		{[]string{"-markdown"}, "name the table"},
		{[]string{"-find", "wire", "awg"}, "leave the name out"},
		{[]string{"-nosuch"}, "flag provided but not defined"},
		{[]string{"-find"}, "flag needs an argument"},
		{[]string{"-csv=maybe", "awg"}, "invalid boolean value"},
	} {
		status, out, errs := ask(c.args...)
		if c.says == "" {
			assert.Equal(t, 0, status, "%q", c.args)
			assert.NotEmpty(t, out, "%q", c.args)
			assert.Empty(t, errs, "%q", c.args)
			continue
		}
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Contains(t, errs, c.says, "%q", c.args)
	}
}

func TestHelp(t *testing.T) {
	status, out, errs := ask("-h")
	assert.Equal(t, 0, status)
	assert.Empty(t, out)
	for _, want := range []string{"tablebook [flags] [NAME]", "-csv", "-markdown", "-weak", "-find"} {
		assert.Contains(t, errs, want)
	}
}

// TestPages compares what is printed with pages that were read and found good.
func TestPages(t *testing.T) {
	for name, args := range map[string][]string{
		"list.txt":     nil,
		"found.txt":    {"-find", "Ampacity boat"},
		"grid.txt":     {"ampacity-bs7671"},
		"sections.txt": {"voltage-drop-limits"},
		"weak.txt":     {"-weak", "awg"},
		"cranking.csv": {"-csv", "cranking-steps"},
		"cranking.md":  {"-markdown", "cranking-steps"},
	} {
		_, out, _ := ask(args...)
		programtest.Golden(t, name, out)
	}
}

// TestEveryTableIsListedAndPrints: each name of the catalogue stands in the
// list, and its page and its help keep to 80 columns.
func TestEveryTableIsListedAndPrints(t *testing.T) {
	_, list, _ := ask()
	_, _, help := ask("-h")
	texts := []string{list, help}
	for _, table := range tables.Catalogue() {
		assert.Contains(t, list, "  "+table.Name+" ")
		assert.Contains(t, list, table.Title)
		for _, args := range [][]string{{table.Name}, {"-weak", table.Name}} {
			status, out, errs := ask(args...)
			assert.Equal(t, 0, status, table.Name)
			assert.Empty(t, errs, table.Name)
			texts = append(texts, out)
		}
	}
	for _, text := range texts {
		programtest.Narrow(t, text)
	}
}

// TestWeakListAddsUp: the rows in the list of weak ones are those that are not
// published.
func TestWeakListAddsUp(t *testing.T) {
	_, out, _ := ask("-weak")
	for _, table := range tables.Catalogue() {
		weak := table.Weak()
		assert.Equal(t, weak.Rows > 0, strings.Contains(out, "  "+table.Name+" "), table.Name)
	}
	assert.NotContains(t, out, " published\n")
}

func TestCSVReadsBack(t *testing.T) {
	_, out, _ := ask("-csv", "-weak", "awg")
	lines, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	table, err := tables.TableOf("awg")
	require.NoError(t, err)
	assert.Len(t, lines, table.Weak().Rows+1)
	assert.Equal(t, table.Columns, lines[0])
}

// full refuses to write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestFullDisk(t *testing.T) {
	for _, args := range [][]string{nil, {"awg"}, {"-csv", "awg"}, {"-markdown", "awg"}} {
		var errs bytes.Buffer
		assert.Equal(t, 2, run(args, full{}, &errs), "%q", args)
		assert.Equal(t, "tablebook: no room\n", errs.String())
	}
}
