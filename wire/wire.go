package wire

import (
	"errors"
	"fmt"
	"math"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var one, two = decimal.NewFromInt(1), decimal.NewFromInt(2)

// Ranges that several questions share.
const (
	greatestVolts    = 1000
	greatestMilliohm = 1_000_000
	greatestAmperes  = 10_000
	greatestWatts    = 1_000_000
	greatestOhms     = 1_000_000_000
)

var (
	leastMilliohm = decimal.RequireFromString("0.001")
	leastPerM     = decimal.RequireFromString("0.0001")
	leastVolt     = decimal.RequireFromString("0.001")
	leastAmpere   = decimal.RequireFromString("0.01")
	leastArea     = decimal.RequireFromString("0.001")
	leastOhm      = decimal.RequireFromString("0.000001")
)

// errNoNumber: a formula left the range of numbers.
var errNoNumber = errors.New("the answer is no finite number")

// fixed turns a solver's float into a decimal of the places that its model can
// claim. It is the only way out of float64, and none for NaN and Inf.
func fixed(x float64, places int32) (decimal.Decimal, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Zero, errNoNumber
	}
	scaled := x * math.Pow10(int(places))
	whole := math.Round(scaled)
	if off := math.Abs(scaled - whole); math.Abs(scaled) < 1<<40 && off < 0.499 {
		return decimal.New(int64(whole), -places), nil // the product is out by less than 0.001
	}
	return decimal.NewFromFloat(x).Round(places), nil
}

// calcFixed adds a line that float64 worked out.
func calcFixed(w *working.Working, symbol, formula string, x float64, places int32, from cite.Source) (decimal.Decimal, error) {
	v, err := fixed(x, places)
	if err != nil {
		return v, err
	}
	return w.Calc(symbol, formula, v, from), nil
}

// floorTo rounds down to so many places, so that no rounding leads to a pass.
func floorTo(x float64, places int) float64 {
	return math.Floor(x*math.Pow10(places)) / math.Pow10(places)
}

// checkFrom checks a range whose low end is no whole number.
func checkFrom(field string, v, low decimal.Decimal, high int64) error {
	if err := working.Above(field, v, 0, high); err != nil || v.LessThan(low) {
		got := "too small"
		if bad, ok := errors.AsType[*working.InputError](err); ok {
			got = bad.Got
		} else {
			got = v.String()
		}
		return &working.InputError{Field: field, Got: got, Want: fmt.Sprintf("%s to %d", low, high)}
	}
	return nil
}

func checkAbove(field string, v decimal.NullDecimal, high int64) error {
	if !v.Valid {
		return nil
	}
	return working.Above(field, v.Decimal, 0, high)
}

func checkOptional(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return nil
	}
	return working.Between(field, v.Decimal, low, high)
}

// checkStated wants a number that may be nought and has to be stated.
func checkStated(field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return &working.InputError{Field: field, Got: "unset", Want: fmt.Sprintf("%d to %d", low, high)}
	}
	return working.Between(field, v.Decimal, low, high)
}
