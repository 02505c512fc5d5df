package paper

import (
	"strings"

	"github.com/shopspring/decimal"
)

// meterPlaces is what the meter of each unit shows.
var meterPlaces = map[string]int32{
	"A": 1, "V": 2, "mΩ": 1, "°C": 0, "Ah": 0, "Wh": 0, "h": 1, "mm": 0, "kg": 1, "W": 0, "days": 1, "mm²": 2,
}

// dial is how a meter shows values about as large as one: in what unit, with how
// many places, and by how many tens smaller.
type dial struct {
	unit          string
	places, tens  int32
	trailingZeros bool
}

// dialFor picks the dial of a unit. From 100 A a clamp shows whole amperes, from
// 1000 A kiloamperes.
func dialFor(v decimal.Decimal, unit string) dial {
	places, known := meterPlaces[unit]
	switch {
	case !known:
		return dial{unit: unit, places: 3}
	case unit == "A" && v.Abs().GreaterThanOrEqual(decimal.NewFromInt(1000)):
		return dial{"kA", 1, 3, true}
	case unit == "A" && v.Abs().GreaterThanOrEqual(decimal.NewFromInt(100)):
		places = 0
	}
	return dial{unit, places, 0, true}
}

// show writes a value that is rounded already.
func (d dial) show(v decimal.Decimal) string {
	if d.trailingZeros {
		return v.StringFixed(d.places) + " " + d.unit
	}
	return strings.TrimSpace(v.String() + " " + d.unit)
}

// Meter writes a value as a meter shows it.
func Meter(v decimal.Decimal, unit string) string {
	d := dialFor(v, unit)
	return d.show(v.Shift(-d.tens).Round(d.places))
}

// MeterPair writes what is asked for rounded up and what is allowed rounded down,
// so that no figure is rounded towards a pass, with as many places as it takes
// for the two to compare as they do: 0.803 V against 0.8 V, not 0.81 V.
func MeterPair(asked, allowed decimal.Decimal, unit string) (string, string) {
	first, second := dialFor(asked, unit), dialFor(allowed, unit)
	for ; ; first.places, second.places = first.places+1, second.places+1 {
		a := asked.Shift(-first.tens).RoundCeil(first.places)
		b := allowed.Shift(-second.tens).RoundFloor(second.places)
		if a.Shift(first.tens).Cmp(b.Shift(second.tens)) == asked.Cmp(allowed) || first.places > 9 {
			return first.show(a), second.show(b)
		}
	}
}
