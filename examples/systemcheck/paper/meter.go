package paper

import (
	"strings"

	"github.com/shopspring/decimal"
)

// meterPlaces is what the meter of each unit shows.
var meterPlaces = map[string]int32{
	"A": 1, "V": 2, "mΩ": 1, "°C": 0, "Ah": 0, "Wh": 0, "h": 1, "mm": 0, "kg": 1, "W": 0, "days": 1, "mm²": 2,
}

// Meter writes a value as a meter shows it. From 100 A a clamp shows whole
// amperes, from 1000 A kiloamperes.
func Meter(v decimal.Decimal, unit string) string {
	places, known := meterPlaces[unit]
	switch {
	case !known:
		return strings.TrimSpace(v.Round(3).String() + " " + unit)
	case unit == "A" && v.Abs().GreaterThanOrEqual(decimal.NewFromInt(1000)):
		return v.Shift(-3).StringFixed(1) + " kA"
	case unit == "A" && v.Abs().GreaterThanOrEqual(decimal.NewFromInt(100)):
		places = 0
	}
	return v.StringFixed(places) + " " + unit
}

// MeterPair writes two values of one unit so that they differ where they do:
// 0.803 V against 0.8 V, not 0.80 V against 0.80 V.
func MeterPair(a, b decimal.Decimal, unit string) (string, string) {
	first, second := Meter(a, unit), Meter(b, unit)
	for places := meterPlaces[unit] + 1; first == second && !a.Equal(b) && places < 9; places++ {
		first, second = a.Round(places).String()+" "+unit, b.Round(places).String()+" "+unit
	}
	return first, second
}
