package charge

import (
	"errors"
	"fmt"
	"math"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var (
	one     = decimal.NewFromInt(1)
	hundred = decimal.NewFromInt(100)
)

// exit is the only way out of float64. It keeps what it refuses, so that a call asks
// once, at its end, and returns err beside its answer.
type exit struct{ err error }

var errBeyond = errors.New("the inputs lead to numbers beyond reckoning")

// fixed turns a solver's float into a decimal of the places that its model can claim.
// NaN and Inf are refused.
func (e *exit) fixed(x float64, places int32) decimal.Decimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		e.err = errBeyond
		return decimal.Zero
	}
	scaled := math.Round(x * math.Pow10(int(places)))
	if math.Abs(scaled) < 1<<53 {
		return decimal.New(int64(scaled), -places)
	}
	return decimal.NewFromFloat(x).Round(places)
}

// sums marks plain sums and conversions.
var sums = cite.Arithmetic.At("", cite.Published)

// count turns a number of things into a decimal.
func count(n int) decimal.Decimal { return decimal.NewFromInt(int64(n)) }

// greatest and least are max and min of decimals.
func greatest(a, b decimal.Decimal) decimal.Decimal { return decimal.Max(a, b) }
func least(a, b decimal.Decimal) decimal.Decimal    { return decimal.Min(a, b) }

// demanded checks a number that has to be stated, nought too where it is that.
func demanded(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return &working.InputError{Field: field, Got: "unset", Want: fmt.Sprintf("%d to %d, and 0 only where it is that", low, high)}
	}
	return working.Between(field, v.Decimal, low, high)
}

// stands checks that a field of an answer is what the answer's own working says.
func stands(field string, v decimal.Decimal, w working.Working, symbol string) error {
	if stated, ok := w.Value(symbol); ok && stated.Equal(v) {
		return nil
	}
	return &working.InputError{Field: field, Got: "another figure than that of its working", Want: "the answer as it was returned"}
}

func checkOptional(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return nil
	}
	return working.Between(field, v.Decimal, low, high)
}
