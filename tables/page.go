package tables

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/extralow/tables/cite"
	"github.com/shopspring/decimal"
)

// pageWidth is the number of columns that a printed table keeps to.
const pageWidth = 80

// WriteCSV writes the table as its data file has it.
func (t Table) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	return out.WriteAll(append([][]string{t.Columns}, t.cells...))
}

// WriteMarkdown writes the table under its title, with every column.
func (t Table) WriteMarkdown(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "## %s\n\n%s\n\n", t.Title, t.Conditions)
	rule := slices.Repeat([]string{"---"}, len(t.Columns))
	for _, row := range slices.Concat([][]string{t.Columns, rule}, t.cells) {
		b.WriteString("|")
		for _, cell := range row {
			b.WriteString(" " + strings.ReplaceAll(cell, "|", `\|`) + " |")
		}
		b.WriteString("\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteText writes the table as a page of 80 columns. What all rows share stands
// above them once; sources and notes stand below, and a row points at its own by
// number, or a part of the table at that of all of its rows.
func (t Table) WriteText(w io.Writer) error {
	p := newPage(t)
	var b strings.Builder
	heading := wrapped(t.Title+" ("+t.Name+")", pageWidth)
	fmt.Fprintf(&b, "%s\n%s\n", strings.Join(heading, "\n"), strings.Repeat("=", longest(heading)))
	writeWrapped(&b, "", t.Conditions)
	writeWrapped(&b, "", t.counted())
	for _, s := range p.split() {
		s.write(&b)
	}
	if len(p.references) > 0 {
		b.WriteString("\nSources and notes\n")
	}
	for i, r := range p.references {
		writeWrapped(&b, fmt.Sprintf("[%d] ", i+1), r)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// counted says how many rows there are and how sure our copy of them is.
func (t Table) counted() string {
	text := fmt.Sprintf("Rows: %d", t.Rows)
	for c := cite.Published; c > cite.Unstated; c-- {
		if n := t.Counts[c]; n > 0 {
			text += fmt.Sprintf(", %s %d", c, n)
		}
	}
	return text + "."
}

// page is a table on its way to paper: the columns of names, conditions and
// figures, with the sources and notes of every row gathered as references.
type page struct {
	columns    []string
	rows       []line
	references []string
	sections   []string
	across     []string
}

// line is a row of a page; refer counts its references from 1.
type line struct {
	cells []string
	refer int
}

// behind are the columns that become references.
var behind = []string{"source", "where", "confidence", "note"}

func newPage(t Table) *page {
	p := &page{sections: t.sections, across: t.across}
	for _, c := range t.Columns {
		if !slices.Contains(behind, c) {
			p.columns = append(p.columns, c)
		}
	}
	for i := range t.cells {
		var cells []string
		for _, c := range p.columns {
			cells = append(cells, words(t.cell(i, c)))
		}
		p.rows = append(p.rows, line{cells, p.reference(t, i)})
	}
	return p
}

// reference returns the number of a row's source and note.
func (p *page) reference(t Table, row int) int {
	text := cite.Source{Key: t.cell(row, "source"), Where: t.cell(row, "where"), Confidence: t.confidence(row)}.String()
	if note := t.cell(row, "note"); note != "" {
		text += ": " + note
	}
	i := slices.Index(p.references, text)
	if i < 0 {
		i = len(p.references)
		p.references = append(p.references, text)
	}
	return i + 1
}

// section is a part of a page under its own heading.
type section struct {
	heading []string // name and value of what all of its rows share
	columns []string
	rows    [][]string
}

// split parts the rows by the columns that head a section, in order of first
// use, and lays each part out.
func (p *page) split() []section {
	var order []string
	parts := map[string][]line{}
	for _, l := range p.rows {
		key := strings.Join(p.pick(l, p.sections), "\n")
		if parts[key] == nil {
			order = append(order, key)
		}
		parts[key] = append(parts[key], l)
	}
	var all []section
	for _, key := range order {
		all = append(all, p.lay(parts[key]))
	}
	return all
}

// pick returns the cells of some columns.
func (p *page) pick(l line, columns []string) []string {
	var cells []string
	for _, c := range columns {
		cells = append(cells, l.cells[slices.Index(p.columns, c)])
	}
	return cells
}

// lay puts what all rows share into the heading and the rest into columns.
func (p *page) lay(rows []line) section {
	var s section
	for i, c := range p.columns {
		same := !slices.ContainsFunc(rows, func(l line) bool { return l.cells[i] != rows[0].cells[i] })
		switch {
		case slices.Contains(p.across, c) || len(p.across) > 0 && c == p.figure():
		case same && rows[0].cells[i] == "":
		case same && (len(rows) > 1 || slices.Contains(p.sections, c)):
			s.heading = append(s.heading, words(c)+": "+rows[0].cells[i])
		default:
			s.columns = append(s.columns, c)
		}
	}
	if len(p.across) > 0 {
		p.spread(&s, rows)
	} else {
		p.list(&s, rows)
	}
	return s
}

// list makes one line of each row.
func (p *page) list(s *section, rows []line) {
	usual, shared := usualSource(rows)
	if len(s.columns) == 0 {
		s.columns = p.columns[len(p.columns)-1:]
	}
	names := slices.Clone(s.columns)
	switch {
	case !shared:
		s.columns = append(s.columns, "source")
	case len(p.references) > 1:
		s.heading = append(s.heading, fmt.Sprintf("source: [%d]", usual))
	}
	for _, l := range rows {
		cells := p.pick(l, names)
		if !shared {
			cells = append(cells, fmt.Sprintf("[%d]", l.refer))
		}
		s.rows = append(s.rows, cells)
	}
}

// usualSource returns the reference that most rows have, and whether all do.
func usualSource(rows []line) (refer int, shared bool) {
	count := map[int]int{}
	for _, l := range rows {
		count[l.refer]++
		if count[l.refer] > count[refer] {
			refer = l.refer
		}
	}
	return refer, len(count) == 1
}

// figure is the column that fills a grid: the last one that does not run across.
func (p *page) figure() string {
	for _, c := range slices.Backward(p.columns) {
		if !slices.Contains(p.across, c) {
			return c
		}
	}
	return ""
}

// spread makes a grid: one line for each set of names down the page, one column
// for each value across it. The catalogue is tested to have no two figures for
// one place.
func (p *page) spread(s *section, rows []line) {
	usual, shared := usualSource(rows)
	s.heading = append(s.heading, words(strings.Join(p.across, ", "))+" across", words(p.figure())+" in the cells")
	switch {
	case !shared:
		s.heading = append(s.heading, fmt.Sprintf("source: [%d] but where marked", usual))
	case len(p.references) > 1:
		s.heading = append(s.heading, fmt.Sprintf("source: [%d]", usual))
	}
	down := slices.Clone(s.columns)
	var heads []string
	for _, l := range rows {
		if head := p.head(l); !slices.Contains(heads, head) {
			heads = append(heads, head)
		}
	}
	s.columns = append(s.columns, heads...)
	at := map[string]int{} // line of the grid by its names
	for _, l := range rows {
		names := p.pick(l, down)
		key := strings.Join(names, "\n")
		if _, ok := at[key]; !ok {
			at[key] = len(s.rows)
			s.rows = append(s.rows, append(names, make([]string, len(heads))...))
		}
		cell := p.pick(l, []string{p.figure()})[0]
		if l.refer != usual {
			cell += fmt.Sprintf(" [%d]", l.refer)
		}
		s.rows[at[key]][len(down)+slices.Index(heads, p.head(l))] = cell
	}
}

// head is the heading of the column of a grid that a row belongs to.
func (p *page) head(l line) string { return strings.Join(p.pick(l, p.across), " ") }

// write prints a section.
func (s section) write(b *strings.Builder) {
	b.WriteString("\n")
	if len(s.heading) > 0 {
		writeWrapped(b, "", strings.Join(s.heading, "; "))
	}
	head := make([]string, len(s.columns))
	for i, c := range s.columns {
		head[i] = words(c)
	}
	rows := aligned(s.rows, len(head))
	widths := fit(append([][]string{head}, rows...))
	writeRow(b, head, widths)
	for i := range head {
		head[i] = strings.Repeat("-", widths[i])
	}
	writeRow(b, head, widths)
	for _, row := range rows {
		writeRow(b, row, widths)
	}
}

// words turns the name of a column into words, which can be wrapped.
func words(column string) string { return strings.ReplaceAll(column, "_", " ") }

// aligned puts the decimal points of a column of numbers under each other.
func aligned(rows [][]string, columns int) [][]string {
	all := make([][]string, len(rows))
	for i := range rows {
		all[i] = slices.Clone(rows[i])
	}
	for c := range columns {
		whole := 0
		for _, row := range rows {
			whole = max(whole, wholeDigits(row[c]))
		}
		for i, row := range rows {
			if n := wholeDigits(row[c]); n > 0 {
				all[i][c] = strings.Repeat(" ", whole-n) + row[c]
			}
		}
	}
	return all
}

// wholeDigits returns the length of a number before its point, 0 for a text.
func wholeDigits(cell string) int {
	before, _, _ := strings.Cut(number(cell), ".")
	return len(before)
}

// number returns the number of a cell, without the mark of its source, or
// nothing where the cell is a text.
func number(cell string) string {
	text, _, _ := strings.Cut(cell, " [")
	if _, err := decimal.NewFromString(strings.TrimSpace(text)); err != nil {
		return ""
	}
	return text
}

// fit gives each column its width: what its longest cell needs, and where that
// is more than the page has, the widest columns give way. No number is broken.
func fit(rows [][]string) []int {
	widths := make([]int, len(rows[0]))
	least := make([]int, len(widths))
	total := 2 * (len(widths) - 1)
	for c := range widths {
		for i, row := range rows {
			width := utf8.RuneCountInString(row[c])
			if i == 0 {
				width = longest(strings.Fields(row[c])) // a heading may wrap
			}
			widths[c] = max(widths[c], width)
			least[c] = max(least[c], len(number(row[c])))
		}
		total += widths[c]
	}
	for ; total > pageWidth; total-- {
		widest := 0
		for c := range widths {
			if widths[widest] <= least[widest] || widths[c] > widths[widest] && widths[c] > least[c] {
				widest = c
			}
		}
		widths[widest]--
	}
	return widths
}

// writeRow prints one row, its cells wrapped to their widths.
func writeRow(b *strings.Builder, cells []string, widths []int) {
	parts := make([][]string, len(cells))
	height := 1
	for c, cell := range cells {
		parts[c] = []string{cell}
		if utf8.RuneCountInString(cell) > widths[c] {
			parts[c] = wrapped(cell, widths[c])
		}
		height = max(height, len(parts[c]))
	}
	for i := range height {
		text := ""
		for c, lines := range parts {
			cell := ""
			if i < len(lines) {
				cell = lines[i]
			}
			text += cell + strings.Repeat(" ", widths[c]-utf8.RuneCountInString(cell)+2)
		}
		b.WriteString(strings.TrimRight(text, " ") + "\n")
	}
}

// writeWrapped prints a text, its further lines indented as far as its mark.
func writeWrapped(b *strings.Builder, mark, text string) {
	indent := strings.Repeat(" ", len(mark))
	for i, l := range wrapped(text, pageWidth-len(mark)) {
		if i == 0 {
			b.WriteString(mark + l + "\n")
			continue
		}
		b.WriteString(indent + l + "\n")
	}
}

// wrapped breaks a text into lines at its spaces, and within a word that no
// line can hold: after a hyphen of it where one fits.
func wrapped(text string, width int) []string {
	lines := []string{""}
	for _, word := range strings.Fields(text) {
		last := &lines[len(lines)-1]
		if *last != "" && utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) <= width {
			*last += " " + word
			continue
		}
		if *last != "" {
			lines = append(lines, "")
		}
		letters := []rune(word)
		for len(letters) > width {
			cut := width
			if hyphen := strings.LastIndex(string(letters[:width]), "-"); hyphen > 0 {
				cut = utf8.RuneCountInString(string(letters[:width])[:hyphen]) + 1
			}
			lines[len(lines)-1] = string(letters[:cut])
			lines = append(lines, "")
			letters = letters[cut:]
		}
		lines[len(lines)-1] = string(letters)
	}
	return lines
}

func longest(lines []string) int {
	most := 0
	for _, l := range lines {
		most = max(most, utf8.RuneCountInString(l))
	}
	return most
}
