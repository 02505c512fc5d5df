package workingtest

import (
	"encoding/csv"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// handbookHeader names the columns of testdata/handbook.csv. Inputs and
// expected answers are written "name=value unit; name=value unit". A tolerance
// is "exact", a number in the unit of the answer or "2 %"; one for all answers,
// or one each, separated by semicolons. It is half the last digit that the book
// prints at most, unless wider says why. Counts says whether the row is a check
// from outside: "yes", or "no: " and one of [inside].
const handbookHeader = "id,asks,source,clause_or_page,inputs,expected,tolerance,wider,obtained,counts,url,note"

// inside says why a row is no check from outside, though it is worth holding.
var inside = []string{
	"from memory",               // nobody has read the answer
	"our own evaluation",        // of a published law, by another way
	"same reading as the table", // the answer is a cell of it, or a cell times an input of ours
	"the answer was not seen",   // the question was
}

// Row is one published example.
type Row struct {
	ID, Asks, Source, Where, Obtained, URL, Note string

	counts bool   // as a check from outside
	wider  string // why a tolerance exceeds half the last digit

	t        testing.TB
	inputs   map[string]quantity
	expected []quantity
}

type quantity struct{ name, value, unit, tolerance string }

// D returns the input of that name as a number.
func (r Row) D(name string) decimal.Decimal {
	r.t.Helper()
	v, err := decimal.NewFromString(r.Text(name))
	require.NoError(r.t, err, "%s: input %s", r.ID, name)
	return v
}

// Text returns the input of that name as written.
func (r Row) Text(name string) string {
	r.t.Helper()
	q, ok := r.inputs[name]
	require.True(r.t, ok, "%s has no input %s", r.ID, name)
	return q.value
}

// Has reports whether the row gives that input.
func (r Row) Has(name string) bool { _, ok := r.inputs[name]; return ok }

// Unit returns the unit of the input of that name.
func (r Row) Unit(name string) string { return r.inputs[name].unit }

// Answers are what a function answered, under the names of the row's expected
// answers; and the working behind them, nil only where the function has none.
type Answers struct {
	Values  map[string]string
	Working working.Working
}

// Answer is the common case: one number and its working.
func Answer(name string, v decimal.Decimal, w working.Working) Answers {
	return Answers{map[string]string{name: v.String()}, w}
}

// And adds another answer.
func (a Answers) And(name string, v decimal.Decimal) Answers {
	a.Values[name] = v.String()
	return a
}

// AndText adds an answer that is a word: a size, a letter.
func (a Answers) AndText(name, v string) Answers {
	if a.Values == nil {
		a.Values = map[string]string{}
	}
	a.Values[name] = v
	return a
}

// Asks ties the name in the column asks to the function that answers it.
type Asks map[string]func(r Row) (Answers, error)

// Handbook runs every row of testdata/handbook.csv as a subtest and holds its
// working to the drift guard. It fails for a row that asks for an unknown
// function, for a function that no row asks for, and where fewer rows than least
// count as checks from outside.
func Handbook(t *testing.T, asks Asks, least int) {
	rows := readHandbook(t, filepath.Join("testdata", "handbook.csv"))
	outside := 0
	for _, r := range rows {
		if r.counts {
			outside++
		}
	}
	t.Logf("%d of %d rows are checks from outside", outside, len(rows))
	require.GreaterOrEqual(t, outside, least, "rows of the handbook that count")
	asked := map[string]bool{}
	for _, r := range rows {
		asked[r.Asks] = true
		t.Run(r.ID, func(t *testing.T) {
			r.t = t
			ask, ok := asks[r.Asks]
			require.True(t, ok, "no function answers %q", r.Asks)
			got, err := ask(r)
			require.NoError(t, err)
			for _, want := range r.expected {
				if fault := want.fault(got.Values); fault != "" {
					t.Error(fault)
				}
			}
			if got.Working != nil {
				Guard(t, got.Working)
			}
		})
	}
	for name := range asks {
		require.True(t, asked[name], "no row of the handbook asks %q", name)
	}
}

func readHandbook(t testing.TB, name string) []Row {
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, handbookHeader, strings.Join(lines[0], ","))
	rows := make([]Row, 0, len(lines))
	var ids []string
	for _, l := range lines[1:] {
		require.NotContains(t, ids, l[0], "two rows of one id")
		ids = append(ids, l[0])
		rows = append(rows, readRow(t, l))
	}
	return rows
}

func readRow(t testing.TB, l []string) Row {
	r := Row{ID: l[0], Asks: l[1], Source: l[2], Where: l[3], wider: l[7], Obtained: l[8], URL: l[10], Note: l[11], t: t}
	require.NotEmpty(t, r.Source, "%s has no source", r.ID)
	require.Contains(t, []string{"read", "cross-checked", "memory", "computed", "common practice"}, r.Obtained, r.ID)
	r.setCounts(l[9])
	r.inputs = map[string]quantity{}
	for _, q := range quantities(t, r.ID, l[4]) {
		r.inputs[q.name] = q
	}
	r.expected = quantities(t, r.ID, l[5])
	require.NotEmpty(t, r.expected, "%s expects nothing", r.ID)
	r.setTolerances(l[6])
	return r
}

// setCounts reads whether the row counts. One that nobody has read does not.
func (r *Row) setCounts(text string) {
	why, no := strings.CutPrefix(text, "no: ")
	require.True(r.t, text == "yes" || no && slices.Contains(inside, why), "%s counts %q: want yes, or no: and one of %q", r.ID, text, inside)
	r.counts = !no
	read := r.Obtained == "read" || r.Obtained == "cross-checked"
	require.False(r.t, r.counts && !read, "%s counts, and is %s", r.ID, r.Obtained)
}

func quantities(t testing.TB, id, list string) []quantity {
	var all []quantity
	for part := range strings.SplitSeq(list, ";") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		name, rest, ok := strings.Cut(strings.TrimSpace(part), "=")
		require.True(t, ok, "%s: %q is not name=value unit", id, part)
		q := quantity{name: name, value: rest}
		if value, unit, ok := strings.Cut(rest, " "); ok && isNumber(value) {
			q.value, q.unit = value, unit
		}
		all = append(all, q)
	}
	return all
}

func isNumber(s string) bool { _, err := decimal.NewFromString(s); return err == nil }

// setTolerances gives each answer its tolerance. One wider than half the last
// digit that the book prints must be explained, and no other.
func (r *Row) setTolerances(list string) {
	parts := strings.Split(list, ";")
	require.True(r.t, len(parts) == 1 || len(parts) == len(r.expected), "%s: tolerances", r.ID)
	wide := false
	for i := range r.expected {
		q := &r.expected[i]
		q.tolerance = strings.TrimSpace(parts[min(i, len(parts)-1)])
		number, _, _ := strings.Cut(q.tolerance, " ")
		require.True(r.t, number == "exact" || isNumber(number), "%s: tolerance %q", r.ID, q.tolerance)
		wide = wide || isNumber(q.value) && q.slack().Shift(1).GreaterThan(lastPlace(q.value).Mul(decimal.NewFromInt(5)))
	}
	require.Equal(r.t, wide, r.wider != "", "%s: a tolerance wider than half the last digit says why, and no other does", r.ID)
}

// lastPlace is one unit of the last digit as printed: 0.01 for 12.30.
func lastPlace(printed string) decimal.Decimal {
	_, fraction, _ := strings.Cut(printed, ".")
	return decimal.New(1, -int32(len(fraction)))
}

func (q quantity) slack() decimal.Decimal {
	number, unit, _ := strings.Cut(q.tolerance, " ")
	v, err := decimal.NewFromString(number)
	switch {
	case err != nil: // "exact"
		return decimal.Zero
	case unit == "%":
		return decimal.RequireFromString(q.value).Abs().Mul(v).Shift(-2)
	default:
		return v
	}
}

// fault says how an answer differs from the book, or "".
func (q quantity) fault(answers map[string]string) string {
	got, ok := answers[q.name]
	if !ok {
		return fmt.Sprintf("%s was not answered, only %q", q.name, slices.Sorted(maps.Keys(answers)))
	}
	if !isNumber(q.value) {
		if got != q.value {
			return fmt.Sprintf("%s is %s, the book has %s", q.name, got, q.value)
		}
		return ""
	}
	v, err := decimal.NewFromString(got)
	if err != nil {
		return fmt.Sprintf("%s is %q, the book has the number %s", q.name, got, q.value)
	}
	if off := v.Sub(decimal.RequireFromString(q.value)).Abs(); off.GreaterThan(q.slack()) {
		return fmt.Sprintf("%s is %s, the book has %s (tolerance %s)", q.name, got, q.value, q.tolerance)
	}
	return ""
}
