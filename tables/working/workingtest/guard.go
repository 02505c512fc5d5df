package workingtest

import (
	"math"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Guard is the drift guard: it fails the test where a line of the working does
// not say what was done. Every formula is evaluated again from the symbols
// before it, and must give the value stored, to half a unit of its last place
// where it was rounded.
func Guard(t testing.TB, w working.Working) {
	t.Helper()
	if len(w) == 0 {
		t.Error("the working is empty")
		return
	}
	if len(w) != cap(w) {
		t.Error("the working is not clipped: two checks on it could overwrite each other")
	}
	if w[len(w)-1].Kind == working.Part {
		t.Error("the working ends in a heading, not in an answer")
	}
	symbols := map[string]*big.Rat{}
	for i, s := range w {
		if s.Kind == working.Part {
			continue
		}
		if fault := vocabularyFault(s); fault != "" {
			t.Errorf("line %d, %s: %s", i+1, s.Symbol, fault)
		}
		own := s.Value.Rat()
		if s.Kind == working.Chosen || s.Kind == working.Solved {
			symbols[s.Symbol] = own
		}
		if fault := drift(s, symbols); fault != "" {
			t.Errorf("line %d, %s = %s: %s", i+1, s.Symbol, s.Formula, fault)
		}
		symbols[s.Symbol] = own
	}
}

func vocabularyFault(s working.Step) string {
	name, ok := working.Find(s.Symbol)
	base, _, _ := strings.Cut(s.Symbol, ".") // of I.2, the second current
	switch {
	case !ok:
		return "is not in the vocabulary (names.go)"
	case name.Unit != s.Unit:
		return "has unit " + s.Unit + ", the vocabulary " + name.Unit
	case s.Kind == working.LookedUp && s.Source.Key == "":
		return "is looked up without a source"
	case s.Kind != working.Given && s.Kind != working.LookedUp && s.Kind != working.Stepped && s.Formula == "":
		return "has no formula"
	case s.Kind == working.Stepped && !slices.Contains(steppedSymbols(), base):
		return "is a stepped symbol that testdata/stepped.txt does not list"
	}
	return ""
}

// steppedSymbols reads the golden file of symbols that cannot be redone.
func steppedSymbols() []string {
	text, err := os.ReadFile(filepath.Join("testdata", "stepped.txt"))
	if err != nil {
		return nil
	}
	return strings.Fields(string(text))
}

func drift(s working.Step, symbols map[string]*big.Rat) string {
	if s.Formula == "" {
		return ""
	}
	v, holds, err := evaluate(s.Formula, symbols)
	switch {
	case err != nil:
		return err.Error()
	case s.Kind == working.Chosen && !holds:
		return "the condition does not hold for " + s.Value.String()
	case s.Kind == working.Chosen:
		return ""
	case s.Kind == working.Solved && !s.Within.IsPositive():
		return "a solved line states no tolerance"
	case s.Kind == working.Solved:
		return apart(v, s.Value, s.Within)
	default:
		return apart(v, s.Value, halfLastPlace(s.Value))
	}
}

// halfLastPlace is what one rounding may have changed.
func halfLastPlace(v decimal.Decimal) decimal.Decimal {
	return decimal.New(5, min(v.Exponent(), 0)-1)
}

// apart says so where the formula's value and the one stored differ by more
// than within; an inexact evaluation has a slack of 1e-9 of the value.
func apart(v number, stored, within decimal.Decimal) string {
	if v.exact != nil {
		d := new(big.Rat).Sub(v.exact, stored.Rat())
		if d.Abs(d).Cmp(within.Rat()) <= 0 {
			return ""
		}
		return "the formula gives " + v.exact.FloatString(12) + ", stored is " + stored.String()
	}
	f, w := stored.InexactFloat64(), within.InexactFloat64()
	if math.Abs(v.real-f) <= w+1e-9*math.Abs(v.real) {
		return ""
	}
	return "the formula gives " + decimal.NewFromFloat(finite(v.real)).String() + ", stored is " + stored.String()
}

// finite keeps NaN and Inf out of the decimal package; they fail all the same.
func finite(f float64) float64 {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return math.MaxFloat64
	}
	return f
}
