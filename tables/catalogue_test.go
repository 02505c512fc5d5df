package tables_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCatalogueListsEveryFile: each data file stands in it once, and all of its
// rows cite a document of package cite.
func TestCatalogueListsEveryFile(t *testing.T) {
	names, err := filepath.Glob("data/*.csv")
	require.NoError(t, err)
	listed := map[string]int{"catalogue": 1}
	for _, table := range tables.Catalogue() {
		listed[table.Name]++
		rows := 0
		for _, n := range table.Counts {
			rows += n
		}
		assert.Equal(t, table.Rows, rows, table.Name)
		assert.NotContains(t, table.Counts, cite.Unstated, table.Name)
		assert.Positive(t, table.Counts[table.Weakest], table.Name)
		for _, text := range []string{table.Title, table.Subject, table.Conditions} {
			assert.NotEmpty(t, text, table.Name)
		}
		for _, document := range table.Documents {
			_, known := cite.Find(document)
			assert.True(t, known, "%s: %s", table.Name, document)
		}
		assert.Equal(t, []string{"source", "where", "confidence", "note"}, table.Columns[len(table.Columns)-4:], table.Name)
	}
	for _, name := range names {
		assert.Equal(t, 1, listed[strings.TrimSuffix(filepath.Base(name), ".csv")], name)
	}
	assert.Len(t, listed, len(names))
}

// TestCSVIsTheDataFile: what WriteCSV writes is the file, byte for byte, so the
// book and the file cannot differ.
func TestCSVIsTheDataFile(t *testing.T) {
	for _, table := range tables.Catalogue() {
		var b bytes.Buffer
		require.NoError(t, table.WriteCSV(&b))
		want, err := os.ReadFile("data/" + table.Name + ".csv")
		require.NoError(t, err)
		assert.Equal(t, string(want), b.String(), table.Name)
	}
}

// TestPagesHoldEveryFigure: no line of a printed table is wider than the page,
// and none of its cells is lost on the way. A cell may be wrapped, so the page
// is compared without its spaces.
func TestPagesHoldEveryFigure(t *testing.T) {
	for _, table := range tables.Catalogue() {
		var b bytes.Buffer
		require.NoError(t, table.WriteText(&b))
		numbers := map[string]int{}
		for line := range strings.Lines(b.String()) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, line)
			assert.Equal(t, strings.TrimRight(line, " \n"), strings.TrimSuffix(line, "\n"))
			for _, word := range strings.Fields(line) {
				numbers[strings.TrimSuffix(word, ";")]++
			}
		}
		for _, row := range table.Cells() {
			for c, cell := range row[:len(row)-4] {
				if strings.Trim(cell, "-.0123456789") == "" && cell != "" {
					assert.Positive(t, numbers[cell], "%s: %s %s", table.Name, table.Columns[c], cell)
				}
			}
		}
	}
}

// TestGridsHaveOnePlaceForEachFigure: where a table runs across the page no
// figure hides another, so the page has as many figures as the file.
func TestGridsHaveOnePlaceForEachFigure(t *testing.T) {
	f, err := os.Open("data/catalogue.csv")
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	grids := 0
	for _, line := range lines[1:] {
		table, err := tables.TableOf(line[0])
		require.NoError(t, err)
		for _, column := range strings.Fields(line[5] + " " + line[6]) {
			assert.Contains(t, table.Columns, column, table.Name)
		}
		if line[6] == "" {
			continue
		}
		grids++
		figure := len(table.Columns) - 5
		for strings.Contains(" "+line[6]+" ", " "+table.Columns[figure]+" ") {
			figure--
		}
		places := map[string]bool{}
		for _, row := range table.Cells() {
			place := strings.Join(row[:figure], "\n") + "\n" + strings.Join(row[figure+1:len(row)-4], "\n")
			assert.False(t, places[place], "%s: two figures for %q", table.Name, place)
			places[place] = true
		}
	}
	assert.Greater(t, grids, 15)
}

func TestMarkdownHasEveryRow(t *testing.T) {
	for _, table := range tables.Catalogue() {
		var b bytes.Buffer
		require.NoError(t, table.WriteMarkdown(&b))
		rows := 0
		for line := range strings.Lines(b.String()) {
			if strings.HasPrefix(line, "|") {
				rows++
				assert.Equal(t, len(table.Columns)+1, strings.Count(line, "|")-strings.Count(line, `\|`), line)
			}
		}
		assert.Equal(t, table.Rows+2, rows, table.Name)
	}
}

func TestWeakRows(t *testing.T) {
	for _, table := range tables.Catalogue() {
		weak := table.Weak()
		assert.Equal(t, table.Rows-table.Counts[cite.Published], weak.Rows, table.Name)
		assert.Zero(t, weak.Counts[cite.Published], table.Name)
		if weak.Rows > 0 {
			assert.Equal(t, table.Weakest, weak.Weakest, table.Name)
		}
		assert.Equal(t, weak.Cells(), weak.Weak().Cells(), table.Name)
	}
}

// TestNoneWeak: a table that is published throughout prints an empty page.
func TestNoneWeak(t *testing.T) {
	table, err := tables.TableOf("conductor-resistance")
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, table.Weak().WriteText(&b))
	assert.True(t, strings.HasSuffix(b.String(), "Rows: 0.\n"), b.String())
}

func TestFind(t *testing.T) {
	assert.Len(t, tables.Find(), len(tables.Catalogue()))
	assert.Empty(t, tables.Find("ampacity", "no such word"))
	assert.NotEmpty(t, tables.Find("AMPACITY", "boat"))
	for _, table := range tables.Find("batteries") {
		text := strings.Join(append(table.Keywords, table.Name, table.Title, table.Subject, table.Conditions), " ")
		assert.Contains(t, strings.ToLower(text), "batteries")
	}
}

// TestCellsAreTheReadersOwn: spoiling what Cells returned spoils nothing else.
func TestCellsAreTheReadersOwn(t *testing.T) {
	table, err := tables.TableOf("awg")
	require.NoError(t, err)
	table.Cells()[0][0] = "spoilt"
	again, err := tables.TableOf("awg")
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(again.Cells(), table.Cells()))
}

func TestTableOfAnotherName(t *testing.T) {
	_, err := tables.TableOf("no such table")
	bad, ok := errors.AsType[*working.InputError](err)
	require.True(t, ok)
	assert.Equal(t, "table", bad.Field)
	assert.Equal(t, `"no such table"`, bad.Got)
}

// broken refuses to write.
type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestWritersReportAFullDisk(t *testing.T) {
	table, err := tables.TableOf("awg")
	require.NoError(t, err)
	for _, err := range []error{table.WriteText(broken{}), table.WriteCSV(broken{}), table.WriteMarkdown(broken{})} {
		assert.ErrorContains(t, err, "no room")
	}
}
