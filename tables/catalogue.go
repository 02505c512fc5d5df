package tables

import (
	"maps"
	"slices"
	"strings"

	"example.org/extralow/tables/cite"
)

// Table is one table of the catalogue, as it stands in its data file: one
// figure a row, the source of each behind it. The typed look-ups of this package
// answer questions; a Table is for reading, printing and copying.
type Table struct {
	Name       string                  `json:"name"` // of its data file: "ampacity-bs7671"
	Title      string                  `json:"title"`
	Subject    string                  `json:"subject"`    // the chapter that it belongs to: "ampacity"
	Conditions string                  `json:"conditions"` // at which all of its figures hold
	Keywords   []string                `json:"keywords,omitempty"`
	Documents  []string                `json:"documents,omitempty"` // that it cites, by key, in order of first use
	Columns    []string                `json:"columns,omitempty"`
	Rows       int                     `json:"rows"`
	Weakest    cite.Confidence         `json:"weakest"`          // of its rows
	Counts     map[cite.Confidence]int `json:"counts,omitempty"` // rows by confidence

	sections []string // columns whose values head a section of the printed page
	across   []string // columns whose values run across it
	cells    [][]string
}

// catalogueFile lists the tables; it is not one.
const catalogueFile = "catalogue"

// Catalogue returns every table, in the order of the book.
func Catalogue() []Table {
	all := slices.Clone(catalogue())
	for i := range all {
		all[i] = all[i].clone()
	}
	return all
}

// catalogue is read once; what is returned of it is the caller's own.
var catalogue = load(catalogueFile, func(r *record) Table {
	t := Table{
		Name: r.text("name"), Title: r.text("title"), Subject: r.text("subject"), Conditions: r.text("conditions"),
		Keywords: strings.Fields(r.text("keywords")),
		sections: strings.Fields(r.text("sections")), across: strings.Fields(r.text("across")),
	}
	if err := t.fill(); err != nil {
		r.fault("%v", err)
	}
	return t
})

var tablesByName = indexed("table", catalogue, func(t Table) string { return t.Name })

func (t Table) clone() Table {
	t.Keywords, t.Documents, t.Columns = slices.Clone(t.Keywords), slices.Clone(t.Documents), slices.Clone(t.Columns)
	t.Counts = maps.Clone(t.Counts)
	return t
}

// fill reads the table's own file.
func (t *Table) fill() error {
	lines, err := readLines(files, "data/"+t.Name+".csv")
	if err != nil {
		return err
	}
	*t = t.with(lines[0], lines[1:])
	return nil
}

// with returns the table with other rows, counted anew.
func (t Table) with(columns []string, cells [][]string) Table {
	t.Columns, t.cells, t.Rows = columns, cells, len(cells)
	t.Documents, t.Weakest, t.Counts = nil, cite.Unstated, map[cite.Confidence]int{}
	for i := range cells {
		if document := t.cell(i, "source"); !slices.Contains(t.Documents, document) {
			t.Documents = append(t.Documents, document)
		}
		c := t.confidence(i)
		t.Counts[c]++
		t.Weakest = cite.Weakest(t.Weakest, c)
	}
	return t
}

// cell returns the text of a row in a column, empty where there is none.
func (t Table) cell(row int, column string) string {
	if i := slices.Index(t.Columns, column); i >= 0 {
		return t.cells[row][i]
	}
	return ""
}

// confidence returns that of a row. Every word of the data is tested.
func (t Table) confidence(row int) cite.Confidence {
	c, _ := cite.ParseConfidence(t.cell(row, "confidence"))
	return c
}

// TableOf returns the table of that name.
func TableOf(name string) (Table, error) {
	t, err := tablesByName().first(name)
	return t.clone(), err
}

// Find returns the tables that have every word somewhere in their name, title,
// subject, conditions or keywords, whatever the case of its letters. No word
// finds every table.
func Find(words ...string) []Table {
	return slices.DeleteFunc(Catalogue(), func(t Table) bool {
		text := strings.ToLower(strings.Join(slices.Concat(t.Keywords, []string{t.Name, t.Title, t.Subject, t.Conditions}), " "))
		return slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, strings.ToLower(w)) })
	})
}

// Cells returns the rows of the table, without the names of its columns.
func (t Table) Cells() [][]string {
	all := make([][]string, len(t.cells))
	for i, row := range t.cells {
		all[i] = slices.Clone(row)
	}
	return all
}

// Weak returns the table with only those rows that our copy is not sure of:
// from memory, common practice or second hand. Confirm them before you rely on
// one.
func (t Table) Weak() Table {
	var weak [][]string
	for i, row := range t.cells {
		if t.confidence(i) != cite.Published {
			weak = append(weak, row)
		}
	}
	return t.with(t.Columns, weak)
}
