package tables

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The guards of the data: each holds a data file against something outside of
// it, a formula, another document or a law of the trade, so that a slip in
// copying fails a test. Sums of columns (testdata/sums.csv) catch the rest; they
// repeat the file and are counted apart. TestSlipsAreCaught changes every number
// of the data, one at a time, and counts what the guards see.

// book is the data files as text, so that a test may spoil a cell.
type book map[string]*sheet

type sheet struct {
	columns []string
	rows    [][]string
}

// row is one row of a sheet.
type row struct {
	name  string
	line  int
	sheet *sheet
}

// faults gathers what a guard finds; its text is made only where it is read.
type faults struct {
	quiet bool
	found int
	texts []string
}

type guard struct {
	law   string   // what the data are held against, with its source
	files []string // that it reads
	check func(b book, f *faults)
}

// sees reports whether the guard finds a fault. One that no longer finds the row
// that it compares with has found one.
func (g guard) sees(b book) (found bool) {
	defer func() { found = found || recover() != nil }()
	f := faults{quiet: true}
	g.check(b, &f)
	return f.found > 0
}

var guards = slices.Concat(conductorGuards, ampacityGuards, correctionGuards, deviceGuards, batteryGuards, sunGuards)

func (f *faults) add(r row, format string, args ...any) {
	f.found++
	if !f.quiet {
		f.texts = append(f.texts, fmt.Sprintf("%s:%d %q: ", r.name, r.line, r.cells()[:len(r.sheet.columns)-4])+fmt.Sprintf(format, args...))
	}
}

// near demands that a cell is what a law gives, give or take.
func (f *faults) near(r row, column string, want, within float64) {
	if got := r.num(column); math.IsNaN(want) || math.Abs(got-want) > within*(1+1e-9)+1e-12 {
		f.add(r, "%s is %v, the law gives %.6g give or take %.2g", column, r.text(column), want, within)
	}
}

// rounded demands that a cell is the law's value as the book printed it.
func (f *faults) rounded(r row, column string, want float64) { f.near(r, column, want, r.half(column)) }

// band demands that a cell lies between two factors of what a law gives.
func (f *faults) band(r row, column string, law, low, high float64) {
	if ratio := r.num(column) / law; !(ratio >= low && ratio <= high) {
		f.add(r, "%s is %.4g of %.6g, want %v to %v", column, ratio, law, low, high)
	}
}

// holds demands a condition.
func (f *faults) holds(r row, condition bool, format string, args ...any) {
	if !condition {
		f.add(r, format, args...)
	}
}

// rising and falling demand an order of the column in the rows as given; equal
// neighbours are allowed.
func (f *faults) rising(rows []row, column string) { f.ordered(rows, column, 1, 0) }

func (f *faults) falling(rows []row, column string) { f.ordered(rows, column, -1, 0) }

// climbing and sinking allow no equal neighbours.
func (f *faults) climbing(rows []row, column string) { f.ordered(rows, column, 1, 1e-12) }

func (f *faults) sinking(rows []row, column string) { f.ordered(rows, column, -1, 1e-12) }

func (f *faults) ordered(rows []row, column string, sign, step float64) {
	for i := 1; i < len(rows); i++ {
		if sign*(rows[i].num(column)-rows[i-1].num(column)) < step {
			f.add(rows[i], "%s is %s after %s", column, rows[i].text(column), rows[i-1].text(column))
		}
	}
}

// smooth demands that every point lies near the power law through its two
// neighbours: within a share, in rows of rising x.
func (f *faults) smooth(rows []row, x func(row) float64, column string, within func(row) float64) {
	for i := 1; i+1 < len(rows); i++ {
		a, b, c := rows[i-1], rows[i], rows[i+1]
		share := math.Log(x(b)/x(a)) / math.Log(x(c)/x(a))
		want := a.num(column) * math.Pow(c.num(column)/a.num(column), share)
		f.band(b, column, want, 1-within(b), 1+within(b))
	}
}

// share is a tolerance: large holds from an area in mm² on, small below it.
func share(from, large, small float64) func(row) float64 {
	return func(r row) float64 {
		if area(r) >= from {
			return large
		}
		return small
	}
}

func (b book) rows(name string) []row {
	s := b[name]
	all := make([]row, len(s.rows))
	for i := range all {
		all[i] = row{name, i + 2, s}
	}
	return all
}

// where returns the rows in which each column has the value behind it.
func (b book) where(name string, pairs ...string) []row {
	return slices.DeleteFunc(b.rows(name), func(r row) bool {
		for i := 0; i < len(pairs); i += 2 {
			if r.text(pairs[i]) != pairs[i+1] {
				return true
			}
		}
		return false
	})
}

// groups parts rows by the text of some columns, in order of first use.
func groups(rows []row, columns ...string) [][]row {
	var all [][]row
	at := map[string]int{}
	for _, r := range rows {
		var key strings.Builder
		for _, c := range columns {
			key.WriteString(r.text(c) + "\n")
		}
		i, ok := at[key.String()]
		if !ok {
			i, at[key.String()] = len(all), len(all)
			all = append(all, nil)
		}
		all[i] = append(all[i], r)
	}
	return all
}

// by sorts rows by a number.
func by(rows []row, value func(row) float64) []row {
	slices.SortStableFunc(rows, func(a, b row) int {
		switch x, y := value(a), value(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return rows
}

func (r row) cells() []string { return r.sheet.rows[r.line-2] }

func (r row) text(column string) string {
	i := slices.Index(r.sheet.columns, column)
	if i < 0 {
		panic(r.name + " has no column " + column)
	}
	return r.cells()[i]
}

func (r row) has(column string) bool { return r.text(column) != "" }

func (r row) num(column string) float64 {
	v, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// half is half a unit of a cell's last printed digit.
func (r row) half(column string) float64 { return r.unit(column) / 2 }

func (r row) unit(column string) float64 {
	_, fraction, _ := strings.Cut(r.text(column), ".")
	return math.Pow10(-len(fraction))
}

// figure returns the number of a column for sorting.
func figure(column string) func(row) float64 { return func(r row) float64 { return r.num(column) } }

// area is the copper area of a row's size in mm², by name for metric sizes, by
// the formula of ASTM B258 for AWG.
func area(r row) float64 {
	name, value, _ := strings.Cut(r.text("size"), " ")
	switch {
	case name == "AWG" || name == "SAE":
		d := gaugeInches(value) * 25.4
		return math.Pi / 4 * d * d
	case value == "kcmil":
		return atof(name) * 1000 * math.Pi / 4 * 0.0254 * 0.0254
	default:
		return atof(name)
	}
}

func atof(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// gaugeInches is the diameter of ASTM B258: 0.005 in × 92^((36 − n) ÷ 39).
func gaugeInches(gauge string) float64 {
	n := atof(gauge)
	if noughts, ok := strings.CutSuffix(gauge, "/0"); ok {
		n = 1 - atof(noughts)
	}
	return 0.005 * math.Pow(92, (36-n)/39)
}

func readBook(t *testing.T) book {
	t.Helper()
	names, err := fs.Glob(files, "data/*.csv")
	require.NoError(t, err)
	b := book{}
	for _, name := range names {
		lines, err := readLines(files, name)
		require.NoError(t, err)
		b[strings.TrimSuffix(strings.TrimPrefix(name, "data/"), ".csv")] = &sheet{lines[0], lines[1:]}
	}
	delete(b, catalogueFile)
	return b
}

func TestDataKeepTheirLaws(t *testing.T) {
	b := readBook(t)
	for _, g := range guards {
		t.Run(g.law, func(t *testing.T) {
			var f faults
			g.check(b, &f)
			for _, text := range f.texts {
				t.Error(text)
			}
		})
	}
}

// numbers calls f for every cell that is a number, but for those of the source
// and the note.
func (b book) numbers(name string, f func(line, column int, value decimal.Decimal)) {
	s := b[name]
	for i, cells := range s.rows {
		for c, cell := range cells[:len(cells)-4] {
			if v, err := decimal.NewFromString(cell); err == nil {
				f(i, c, v)
			}
		}
	}
}

// sum is what a spreadsheet shows under a column of numbers: how many, their
// sum, and their sum weighted by line, which sees two that changed places. Of
// each document and confidence it holds the rows, and the sum of their lines.
type sum struct{ count, total, weighted decimal.Decimal }

func (b book) sums(name string) map[string]sum {
	all := map[string]sum{}
	b.numbers(name, func(line, column int, v decimal.Decimal) {
		s := all[b[name].columns[column]]
		s.count = s.count.Add(decimal.NewFromInt(1))
		s.total = s.total.Add(v)
		s.weighted = s.weighted.Add(v.Mul(decimal.NewFromInt(int64(line + 2))))
		all[b[name].columns[column]] = s
	})
	for i, cells := range b[name].rows {
		for _, column := range []string{"source: " + cells[len(cells)-4], "confidence: " + cells[len(cells)-2]} {
			s := all[column]
			s.count = s.count.Add(decimal.NewFromInt(1))
			s.weighted = s.weighted.Add(decimal.NewFromInt(int64(i + 2)))
			all[column] = s
		}
	}
	return all
}

const sumsFile = "testdata/sums.csv"

// TestSums compares the sums of every column with those of the last time that
// the data were read against their documents. To change a figure, say in the
// commit what the book says, and set UPDATE_SUMS=1 for one run.
func TestSums(t *testing.T) {
	b := readBook(t)
	var lines [][]string
	for name := range b {
		for column, s := range b.sums(name) {
			lines = append(lines, []string{name, column, s.count.String(), s.total.String(), s.weighted.String()})
		}
	}
	slices.SortFunc(lines, slices.Compare[[]string])
	lines = append([][]string{{"table", "column", "count", "sum", "sum_by_line"}}, lines...)
	if os.Getenv("UPDATE_SUMS") != "" {
		out, err := os.Create(sumsFile)
		require.NoError(t, err)
		require.NoError(t, csv.NewWriter(out).WriteAll(lines))
		require.NoError(t, out.Close())
	}
	in, err := os.Open(sumsFile)
	require.NoError(t, err)
	defer in.Close()
	want, err := csv.NewReader(in).ReadAll()
	require.NoError(t, err)
	for i := range max(len(want), len(lines)) {
		if i >= len(want) || i >= len(lines) || !slices.Equal(want[i], lines[i]) {
			t.Fatalf("line %d of %s: want %v, got %v", i+1, sumsFile, want[min(i, len(want)-1)], lines[min(i, len(lines)-1)])
		}
	}
}

// slips are the two kinds of slip that TestSlipsAreCaught makes: one more in the
// last digit, and a tenth more.
var slips = []func(v decimal.Decimal) decimal.Decimal{
	func(v decimal.Decimal) decimal.Decimal { return v.Add(decimal.New(1, min(v.Exponent(), 0))) },
	func(v decimal.Decimal) decimal.Decimal {
		places := max(-v.Exponent(), 0)
		if more := v.Mul(decimal.New(11, -1)).Round(places); !more.Equal(v) {
			return more
		}
		return v.Add(decimal.New(1, -places))
	},
}

// TestSlipsAreCaught makes each slip in each number of the data and counts those
// that a guard sees. A share that falls below what is written here has lost a
// guard; raise it with each one gained.
func TestSlipsAreCaught(t *testing.T) {
	if testing.Short() {
		t.Skip("it changes every number twice")
	}
	b := readBook(t)
	cells, caught := 0, [2]int{}
	var report strings.Builder
	for _, name := range slices.Sorted(maps.Keys(b)) {
		var mine []guard
		for _, g := range guards {
			if slices.Contains(g.files, name) {
				mine = append(mine, g)
			}
		}
		n, seen := 0, [2]int{}
		b.numbers(name, func(line, column int, v decimal.Decimal) {
			n++
			cell := &b[name].rows[line][column]
			was := *cell
			for k, slip := range slips {
				*cell = slip(v).StringFixed(max(-v.Exponent(), 0))
				if slices.ContainsFunc(mine, func(g guard) bool { return g.sees(b) }) {
					seen[k]++
				}
			}
			*cell = was
		})
		cells += n
		caught[0] += seen[0]
		caught[1] += seen[1]
		fmt.Fprintf(&report, "%-30s %5d %5d %5d\n", name, n, seen[0], seen[1])
	}
	t.Logf("numbers, slips seen in the last digit, slips seen of a tenth:\n%s%d numbers, %.1f %% and %.1f %%",
		report.String(), cells, 100*float64(caught[0])/float64(cells), 100*float64(caught[1])/float64(cells))
	assert.GreaterOrEqual(t, 100*caught[0]/cells, 77)
	assert.GreaterOrEqual(t, 100*caught[1]/cells, 85)
}
