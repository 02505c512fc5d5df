package workingtest

import (
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// arithmetic is a printed line of numbers and the result printed under it; three
// blanks end the numbers, and a remark follows.
var arithmetic = regexp.MustCompile(`(?m)^ +=((?: {1,2}[^ \n]+)+)(?: {3,}[^\n]*)?\n +([=≈]) (-?[\d.]+)`)

// Pages checks the arithmetic that a reader sees: in the printed output of
// every Example of the package in this folder, each line of numbers must give
// the result under it, as far as the digits shown allow.
func Pages(t *testing.T) {
	t.Helper()
	files, err := filepath.Glob("*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range doc.Examples([]*ast.File{parsed}...) {
			Page(t, "Example"+e.Name, e.Output)
		}
	}
}

// Page checks the arithmetic of one printed text.
func Page(t testing.TB, name, text string) {
	t.Helper()
	for _, m := range arithmetic.FindAllStringSubmatch(text, -1) {
		if fault := misprint(strings.TrimSpace(m[1]), m[3]); fault != "" {
			t.Errorf("%s: %s", name, fault)
		}
	}
}

var printedNumber = regexp.MustCompile(`\d+(?:\.\d+)?`)

// misprint compares a line of numbers with its printed result. The result may
// have been rounded in its last place and each number in its fifth digit, which
// moves the result by so much at most.
func misprint(numbers, result string) string {
	v, _, err := evaluate(numbers, nil)
	if err != nil {
		return err.Error()
	}
	want, _, err := evaluate(result, nil)
	if err != nil {
		return err.Error()
	}
	_, fraction, _ := strings.Cut(result, ".")
	slack := 0.5*math.Pow10(-len(fraction)) + 1e-9*math.Abs(v.real)
	for _, at := range printedNumber.FindAllStringIndex(numbers, -1) {
		one := numbers[at[0]:at[1]]
		moved, _, err := evaluate(numbers[:at[0]]+"("+one+fmt.Sprintf("+%.12f)", lastDigit(one))+numbers[at[1]:], nil)
		if err == nil {
			slack += 1.01 * math.Abs(moved.real-v.real)
		}
	}
	if math.Abs(v.real-want.real) > slack {
		return fmt.Sprintf("%s is %.9g, printed is %s", numbers, v.real, result)
	}
	return ""
}

// lastDigit is half a unit of the fifth digit of a number as shown: noughts at
// its end are not printed, so a short number may have been rounded there too.
func lastDigit(shown string) float64 {
	v, err := strconv.ParseFloat(shown, 64)
	if err != nil || v == 0 {
		return 0
	}
	whole := math.Floor(math.Log10(math.Abs(v))) + 1
	return 0.5 * math.Pow10(-int(max(0, 5-whole)))
}
