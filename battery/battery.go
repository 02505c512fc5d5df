package battery

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	X "slices"
	"strconv"
	"strings"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var (
	one     = decimal.NewFromInt(1)
	two     = decimal.NewFromInt(2)
	hundred = decimal.NewFromInt(100)
	day     = decimal.NewFromInt(24) // hours
)

var (
	ohm        = cite.OhmsLaw.At("", cite.Published)
	kirchhoff  = cite.Kirchhoff.At("", cite.Published)
	arithmetic = cite.Arithmetic.At("", cite.Published)
)

// fixed turns a solver's float into a decimal of the places that its model can
// claim. It is the only way out of float64. NaN and Inf are no answer: the error
// names the input that leads there.
func fixed(field string, x float64, places int32) (decimal.Decimal, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) || math.Abs(x) > 1e15 {
		return decimal.Decimal{}, &working.InputError{Field: field, Got: "beyond what can be reckoned", Want: "figures that have a finite answer"}
	}
	return decimal.NewFromFloat(x).Round(places), nil
}

// calcUp and calcDown add a fraction as [working.Working.CalcUp] and
// [working.Working.CalcDown] do.
func calcUp(w *working.Working, symbol, formula string, r *big.Rat, places int32, from cite.Source) decimal.Decimal {
	above, below := fraction(r)
	return w.CalcUp(symbol, formula, above, below, places, from)
}

func calcDown(w *working.Working, symbol, formula string, r *big.Rat, places int32, from cite.Source) decimal.Decimal {
	above, below := fraction(r)
	return w.CalcDown(symbol, formula, above, below, places, from)
}

func fraction(r *big.Rat) (above, below decimal.Decimal) {
	return decimal.NewFromBigInt(r.Num(), 0), decimal.NewFromBigInt(r.Denom(), 0)
}

// nth returns the numbered symbol of the i-th of its kind: "I.1" for 0.
func nth(symbol string, i int) string { return symbol + "." + strconv.Itoa(i+1) }

// sumOf writes the sum of numbered symbols: "E_l.1 + E_l.2".
func sumOf(symbols ...string) string { return strings.Join(symbols, " + ") }

func joined(terms []string) string { return strings.Join(terms, ", ") }

// at returns the path of an element, as errors name it: "loads[2]".
func at(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

func betweenIf(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return nil
	}
	return working.Between(field, v.Decimal, low, high)
}

func aboveIf(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return nil
	}
	return working.Above(field, v.Decimal, low, high)
}

// addUp adds the line that sums symbols of the working.
func addUp(w *working.Working, symbol string, terms ...string) decimal.Decimal {
	sum := decimal.Zero
	for _, t := range terms {
		v, _ := w.Value(t)
		sum = sum.Add(v)
	}
	formula := sumOf(terms...)
	if len(terms) == 0 {
		formula = "0"
	}
	return w.Calc(symbol, formula, sum, arithmetic)
}

// fromTo checks that v is at least low, a part of one or one, and at most high.
func fromTo(field string, v decimal.Decimal, low string, high int64) error {
	err := working.Between(field, v, 0, high)
	if err == nil && (v.GreaterThanOrEqual(one) || v.GreaterThanOrEqual(decimal.RequireFromString(low))) {
		return nil
	}
	bad, refused := errors.AsType[*working.InputError](err)
	if !refused {
		bad = &working.InputError{Field: field, Got: v.String()}
	}
	bad.Want = fmt.Sprintf("%s to %d", low, high)
	return bad
}

func fromToIf(field string, v decimal.NullDecimal, low string, high int64) error {
	if !v.Valid {
		return nil
	}
	return fromTo(field, v.Decimal, low, high)
}

// stated checks a demand of which nought is a value: it has to be said.
func stated(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return &working.InputError{Field: field, Got: "unset", Want: fmt.Sprintf("%d to %d", low, high)}
	}
	return working.Between(field, v.Decimal, low, high)
}

// ordinary reports whether numbers are small enough to compare: one with an
// exponent of a million takes seconds.
func ordinary(all ...decimal.Decimal) bool {
	for _, v := range all {
		if working.Between("", v, -1_000_000_000, 1_000_000_000) != nil {
			return false
		}
	}
	return true
}

func whole(n int) decimal.Decimal { return decimal.NewFromInt(int64(n)) }

// orUnset shows a number that may be unset, or absurd.
func orUnset(v decimal.NullDecimal) string {
	switch {
	case !v.Valid:
		return "unset"
	case !ordinary(v.Decimal):
		return "a number of absurd size"
	}
	return v.Decimal.String()
}

// once refuses a name that is empty or taken.
func once(field, name string, taken []string) error {
	if name == "" || X.Contains(taken, name) {
		return &working.InputError{Field: field, Got: strconv.Quote(name), Want: "a name of its own"}
	}
	return nil
}
