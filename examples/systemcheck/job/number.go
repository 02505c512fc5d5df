package job

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"
)

var plainNumber = regexp.MustCompile(`^[+-]?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// longestNumber is more than any quantity needs and keeps arithmetic quick.
const longestNumber = 20

// parseNumber reads a number of plain digits, point and sign.
func parseNumber(text string) (decimal.Decimal, bool) {
	if len(text) > longestNumber || !plainNumber.MatchString(text) {
		return decimal.Decimal{}, false
	}
	v, err := decimal.NewFromString(text)
	return v, err == nil
}

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
}

// numberWithUnit is a number and a word of no digits behind it.
var numberWithUnit = regexp.MustCompile(`^[+-]?[0-9]+(?:\.[0-9]+)? ?([^0-9 .,/+-][^0-9]*)$`)

// whyNotNumber returns what to do about a text that is not a plain number,
// behind a semicolon, or nothing where that is plain to see.
func (k key) whyNotNumber(text, name string) string {
	for _, s := range numberSlips {
		if s.form.MatchString(text) {
			return "; " + s.say
		}
	}
	if m := numberWithUnit.FindStringSubmatch(text); m != nil {
		return "; " + k.aboutUnit(m[1], name)
	}
	return ""
}

// aboutUnit says what to do with a unit typed behind a number.
func (k key) aboutUnit(unit, name string) string {
	own := unitOf(name)
	switch {
	case own == "W" && (strings.EqualFold(unit, "VA") || strings.EqualFold(unit, "kVA")):
		return vaIsNotW
	case own == "":
		return "the number alone"
	case sameUnit(unit, own):
		return "the number alone, the key says " + own
	}
	for _, other := range k.names {
		if other != name && sameUnit(unit, unitOf(other)) {
			return "the number alone in " + own + ", or use " + other
		}
	}
	return "the number alone, in " + own
}

const vaIsNotW = "VA is not W: multiply it by the power factor and give watts"

// sameUnit compares a unit as typed with the name of one, degree sign or not.
func sameUnit(typed, unit string) bool {
	bare := func(s string) string { return strings.TrimPrefix(s, "°") }
	return strings.EqualFold(bare(typed), bare(unit))
}

// quantity reads the number typed under a name of the key, in the unit of its
// first name. Where it is refused, wrong says what is wanted instead.
func (k key) quantity(text, name string) (v decimal.Decimal, wrong string) {
	v, ok := parseNumber(text)
	if !ok {
		return v, k.wanted(name) + k.whyNotNumber(text, name)
	}
	u, us := k.us(name)
	if us {
		v = u.metric(v)
	}
	switch {
	case k.want.takes(v):
		return v, ""
	case us:
		return v, k.wanted(name) + ", not " + v.String() + " " + unitOf(k.names[0])
	default:
		return v, k.wanted(name)
	}
}
