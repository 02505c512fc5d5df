package protect

import (
	"errors"
	"fmt"
	"math"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// dataSheet is a figure of the article's own, as the reader gives it.
func dataSheet(v decimal.Decimal, unit string) working.Figure {
	return working.Figure{Value: v, Unit: unit, Source: cite.DataSheet.At("", cite.Given)}
}

// sum marks a line that only adds, multiplies or compares.
var sum = cite.Arithmetic.At("", cite.Published)

// notApplicable is a check of which the rule set says nothing.
func notApplicable(id, title, why string) working.Check {
	return working.Check{ID: id, Title: title, Silent: why}
}

// cannotTell is a check that wants something measured or asked first.
func cannotTell(id, title, missing string, w working.Working) working.Check {
	return working.Check{ID: id, Title: title, Missing: missing, Working: w}
}

// silence says that a rule set has no rule about something.
func silence(setName, about string) string {
	if setName == "" {
		setName = "the rule set"
	}
	return fmt.Sprintf("%s has no rule on %s", setName, about)
}

// errNotFinite is of a root or a power that no number comes of.
var errNotFinite = errors.New("the formula gives no finite number")

// fixed turns the result of a root or a power into a decimal of the places that
// its formula states.
func fixed(x float64, places int32) (decimal.Decimal, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Decimal{}, errNotFinite
	}
	return decimal.NewFromFloat(x).Round(places), nil
}

// unsetOr checks a number that may be left out.
func unsetOr(check func(string, decimal.Decimal, int64, int64) error, field string, v decimal.NullDecimal, low, high int64) error {
	if !v.Valid {
		return nil
	}
	return check(field, v.Decimal, low, high)
}

// stated checks a figure of a rule where the rule has one.
func stated(field string, f working.Figure, low, high int64) error {
	if !f.Stated() {
		return nil
	}
	return working.Above(field, f.Value, low, high)
}
