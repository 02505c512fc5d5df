package working

import (
	"fmt"
	"regexp"

	"github.com/shopspring/decimal"
)

// NumberPattern is the regular expression of the numbers that [ParseNumber]
// reads, for schemas.
const NumberPattern = `^[+-]?(0|[1-9][0-9]{0,11})(\.[0-9]+)?$`

var plainNumber = regexp.MustCompile(NumberPattern)

// longestNumber is more than any quantity needs and keeps arithmetic quick.
const longestNumber = 20

// slip is a way of writing a number that is refused, and what to do instead.
type slip struct {
	form *regexp.Regexp
	say  string
}

var numberSlips = []slip{
	{regexp.MustCompile(`^[+-]?[0-9]*,`), "use a point, not a comma"},
	{regexp.MustCompile(`^[+-]?0[xXoObB]`), "plain decimal digits"},
	{regexp.MustCompile(`^[+-]?0[0-9]`), "without a leading nought"},
	{regexp.MustCompile(`^[+-]?[0-9]+_`), "nothing between the digits"},
	{regexp.MustCompile(`^[+-]?[0-9]+ [0-9]`), "nothing between the digits"},
	{regexp.MustCompile(`^[+-]?[0-9.]+[eE][+-]?[0-9]+$`), "all digits written out, without an exponent"},
	{regexp.MustCompile(`^[+-]?(\.[0-9]+|[0-9]+\.)$`), "digits on both sides of the point"},
	{regexp.MustCompile(`^[+-]?[0-9.]{20,}$`), "at most 20 characters"},
	{regexp.MustCompile(`^[+-]?[0-9]{13}`), "at most twelve digits before the point"},
}

// ParseNumber reads a number as people write quantities: plain digits, a point
// and a sign, at most 20 characters of which twelve
// stand before the point; "010", "1e3", ".5", "1,5" and "5 A" are
// refused with what to write instead. It is the one reader of numbers for flags,
// job files and programs that import this library.
func ParseNumber(field, text string) (decimal.Decimal, error) {
	if len(text) <= longestNumber && plainNumber.MatchString(text) {
		return decimal.NewFromString(text)
	}
	want := "a number of plain digits, such as 12.5, without a unit"
	if say := NumberSlip(text); say != "" {
		want += "; " + say
	}
	return decimal.Decimal{}, &InputError{field, fmt.Sprintf("%q", clip(text)), want}
}

// NumberSlip says what to do about a text that is not a plain number, or nothing
// where that is plain to see.
func NumberSlip(text string) string {
	for _, s := range numberSlips {
		if s.form.MatchString(text) {
			return s.say
		}
	}
	return ""
}
