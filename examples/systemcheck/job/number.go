package job

import (
	"regexp"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// numberWithUnit is a number and a word of no digits behind it.
var numberWithUnit = regexp.MustCompile(`^[+-]?[0-9]+(?:\.[0-9]+)? ?([^0-9 .,/+-][^0-9]*)$`)

// whyNotNumber returns what to do about a text that is not a plain number,
// behind a semicolon, or nothing where that is plain to see.
func (k key) whyNotNumber(text, name string) string {
	if m := numberWithUnit.FindStringSubmatch(text); m != nil {
		return "; " + k.aboutUnit(m[1], name)
	}
	if say := working.NumberSlip(text); say != "" {
		return "; " + say
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
	v, err := working.ParseNumber(name, text)
	if err != nil {
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
