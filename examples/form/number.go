package form

import (
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ReadNumber reads a number as [working.ParseNumber] does and puts it to the
// checks. The first fault names the field.
func ReadNumber(field, text string, checks ...Check) (decimal.Decimal, error) {
	v, err := working.ParseNumber(field, text)
	if err != nil {
		return v, err
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
