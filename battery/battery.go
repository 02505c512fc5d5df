// Package battery answers questions about loads and the batteries that carry
// them: what a day takes, what an inverter draws, what a bank gives at a rate
// and a temperature, what it feeds into a fault, and what its bay must bear.
//
// An [Audit] sums loads. A [Bank] is batteries in series and parallel, each
// [BankBattery] with two resistances: the low one for the greatest fault, the high
// one for volts and the smallest fault. Demands are rounded up and supplies
// down, so that no rounding leads to a pass.
package battery

import (
	"math"
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
// claim. It is the only way out of float64; NaN and Inf become nought only
// behind a caller that has refused them.
func fixed(x float64, places int32) decimal.Decimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Zero
	}
	return decimal.NewFromFloat(x).Round(places)
}

// up returns a ÷ b rounded up to two places; neither is negative.
func up(a, b decimal.Decimal) decimal.Decimal { return upTo(a, b, 2) }

func upTo(a, b decimal.Decimal, places int32) decimal.Decimal {
	quotient, rest := a.QuoRem(b, places)
	if rest.IsPositive() {
		return quotient.Add(decimal.New(1, -places))
	}
	return quotient
}

// down returns a ÷ b rounded down to two places; neither is negative.
func down(a, b decimal.Decimal) decimal.Decimal { return downTo(a, b, 2) }

func downTo(a, b decimal.Decimal, places int32) decimal.Decimal {
	quotient, _ := a.QuoRem(b, places)
	return quotient
}

// upOf and downOf write what up and down do.
func upOf(product string) string   { return "ceil(" + product + " × 100) ÷ 100" }
func downOf(product string) string { return "floor(" + product + " × 100) ÷ 100" }

func upOf4(product string) string   { return "ceil(" + product + " × 10000) ÷ 10000" }
func downOf4(product string) string { return "floor(" + product + " × 10000) ÷ 10000" }

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

func orUnset(v decimal.NullDecimal) string {
	if !v.Valid {
		return "unset"
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
