package job

import (
	"strings"

	"github.com/shopspring/decimal"
)

// unitNames says which unit the last word of a number's key stands for.
var unitNames = map[string]string{
	"m": "m", "mm": "mm", "kg": "kg", "c": "°C",
	"ft": "ft", "in": "in", "lb": "lb", "f": "°F",
	"v": "V", "a": "A", "ah": "Ah", "w": "W", "milliohm": "milliohm",
	"h": "h", "s": "s", "day": "h", "days": "days", "percent": "%", "cm2": "cm²", "n": "N", "wh": "Wh",
	"uf": "µF", "ohm": "ohm", "a2s": "A²s",
}

// unitOf returns the unit of a key: "ft" of "length_ft", "h" of "hours_a_day".
func unitOf(key string) string {
	return unitNames[key[strings.LastIndexByte(key, '_')+1:]]
}

// usUnit says how a US unit becomes the metric one:
// metric = (US - offset) × times ÷ over.
type usUnit struct{ offset, times, over decimal.Decimal }

// usUnits are exact by definition: NIST SP 811 (2008) appendix B.8, from the
// yard and pound agreement of 1959 (ft, in, lb) and the definition of °F.
var usUnits = map[string]usUnit{
	"ft": {decimal.Zero, decimal.RequireFromString("0.3048"), decimal.NewFromInt(1)},     // to m
	"in": {decimal.Zero, decimal.RequireFromString("25.4"), decimal.NewFromInt(1)},       // to mm
	"lb": {decimal.Zero, decimal.RequireFromString("0.45359237"), decimal.NewFromInt(1)}, // to kg
	"°F": {decimal.NewFromInt(32), decimal.NewFromInt(5), decimal.NewFromInt(9)},         // to °C
}

// metric converts exactly, and degrees to 0.0001 °C.
func (u usUnit) metric(us decimal.Decimal) decimal.Decimal {
	product := us.Sub(u.offset).Mul(u.times)
	if u.over.Equal(decimal.NewFromInt(1)) {
		return product
	}
	return product.DivRound(u.over, 4)
}
