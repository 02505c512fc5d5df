package form

import (
	"fmt"
	"regexp"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// plain leaves out exponents, which can name a number of a million digits.
var plain = regexp.MustCompile(`^[+-]?[0-9]{1,12}(\.[0-9]{1,12})?$`)

// ReadNumber reads a number of plain digits, at most twelve before the point and
// twelve behind it, and puts it to the checks. The first fault names the field.
func ReadNumber(field, text string, checks ...Check) (decimal.Decimal, error) {
	v, err := decimal.NewFromString(text)
	if err != nil || !plain.MatchString(text) {
		return decimal.Zero, &working.InputError{Field: field, Got: fmt.Sprintf("%q", text), Want: "a number of plain digits, such as 12.5, without a unit"}
	}
	for _, check := range checks {
		if err := check(field, v); err != nil {
			return v, err
		}
	}
	return v, nil
}

// Check judges a number, and names its field where it is at fault.
type Check func(field string, v decimal.Decimal) error

// Between wants at least low and at most high.
func Between(low, high int64) Check {
	return func(field string, v decimal.Decimal) error { return working.Between(field, v, low, high) }
}

// Above wants more than low and at most high.
func Above(low, high int64) Check {
	return func(field string, v decimal.Decimal) error { return working.Above(field, v, low, high) }
}

func whole(field string, v decimal.Decimal) error {
	if v.IsInteger() {
		return nil
	}
	return &working.InputError{Field: field, Got: v.String(), Want: "a whole number"}
}
