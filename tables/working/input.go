package working

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// InputError is one fault in what a function was given.
type InputError struct {
	Field string `json:"field"` // the key as in JSON, with its path: "circuits[2].length_m"
	Got   string `json:"got"`
	Want  string `json:"want"`
}

// Error returns one line: "length_m is 0: want above 0 and at most 200".
func (e *InputError) Error() string {
	return fmt.Sprintf("%s is %s: want %s", e.Field, e.Got, e.Want)
}

// In puts a path before the field of every InputError inside err; other errors
// get the path in front. A nil error stays nil.
func In(path string, err error) error {
	if err == nil {
		return nil
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range joined.Unwrap() {
			all = append(all, In(path, e))
		}
		return errors.Join(all...)
	}
	if bad, ok := errors.AsType[*InputError](err); ok {
		return &InputError{Field: path + "." + bad.Field, Got: bad.Got, Want: bad.Want}
	}
	return fmt.Errorf("%s: %w", path, err)
}

// Inputs returns every InputError inside err, in order.
func Inputs(err error) []*InputError {
	switch e := err.(type) {
	case nil:
		return nil
	case *InputError:
		return []*InputError{e}
	case interface{ Unwrap() []error }:
		var all []*InputError
		for _, one := range e.Unwrap() {
			all = append(all, Inputs(one)...)
		}
		return all
	case interface{ Unwrap() error }:
		return Inputs(e.Unwrap())
	}
	return nil
}

// Above checks that v is above low and at most high.
func Above(field string, v decimal.Decimal, low, high int64) error {
	if sane(v) && against(v, low) > 0 && against(v, high) <= 0 {
		return nil
	}
	return &InputError{field, shown(v), fmt.Sprintf("above %d and at most %d", low, high)}
}

// Between checks that v is at least low and at most high.
func Between(field string, v decimal.Decimal, low, high int64) error {
	if sane(v) && against(v, low) >= 0 && against(v, high) <= 0 {
		return nil
	}
	return &InputError{field, shown(v), fmt.Sprintf("%d to %d", low, high)}
}

// OneOf checks that a word is one of those allowed. Where one of them is no more
// than a slip away from what was given, the error says so.
func OneOf(field, got string, allowed ...string) error {
	if slices.Contains(allowed, got) {
		return nil
	}
	want := "one of " + strings.Join(allowed, between(allowed))
	if near, ok := Nearest(got, allowed...); ok {
		want += "; nearest: " + near
	}
	return &InputError{field, fmt.Sprintf("%q", clip(got)), want}
}

// between separates words so that one which holds a comma stays one.
func between(words []string) string {
	if slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, ",") }) {
		return "; "
	}
	return ", "
}

// sane reports whether a number is small enough to compare and print: an
// exponent of a million takes seconds.
func sane(v decimal.Decimal) bool {
	return v.Exponent() >= -100 && v.Exponent() <= 30 && v.NumDigits() <= 200
}

// against compares a number with a whole one: what stands before the point
// decides, and what is left behind it.
func against(v decimal.Decimal, whole int64) int {
	places := int(-v.Exponent())
	if places < 0 || places >= len(units) || v.NumDigits() >= len(units) {
		return v.Cmp(decimal.NewFromInt(whole))
	}
	unit := units[places]
	return cmp.Or(cmp.Compare(v.CoefficientInt64()/unit, whole), cmp.Compare(v.CoefficientInt64()%unit, 0))
}

// units are one in coefficients of no decimal place, of one and so on, as far as
// an int64 holds every number of as many digits.
var units = func() (all [19]int64) {
	unit := int64(1)
	for i := range all {
		all[i] = unit
		unit *= 10
	}
	return all
}()

func shown(v decimal.Decimal) string {
	if !sane(v) {
		return "a number of absurd size"
	}
	return clip(v.String())
}

func clip(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "..."
	}
	return text
}
