package sheet

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
)

// digit is 1 to 9 of a decade.
type digit struct {
	value decimal.Decimal
	lead  string
}

// digits lists them from low to high: none where low is not above nought.
func digits(low, high decimal.Decimal) []digit {
	var all []digit
	if !low.IsPositive() {
		return all
	}
	for one := decade(low); !one.GreaterThan(high); one = one.Shift(1) {
		for lead := 1; lead <= 9; lead++ {
			v := one.Mul(decimal.NewFromInt(int64(lead)))
			if !v.LessThan(low) && !v.GreaterThan(high) {
				all = append(all, digit{v, strconv.Itoa(lead)})
			}
		}
	}
	return all
}

// decade is the power of ten that v is or next below it.
func decade(v decimal.Decimal) decimal.Decimal {
	return decimal.New(1, int32(v.NumDigits())+v.Exponent()-1)
}

// Marks returns the 1, 2 and 5 of each decade from low to high: none where low
// is not above nought.
func Marks(low, high decimal.Decimal) []decimal.Decimal {
	var all []decimal.Decimal
	for _, d := range digits(low, high) {
		if strings.Contains("125", d.lead) {
			all = append(all, d.value)
		}
	}
	return all
}

// MarkBelow returns the 1, 2 or 5 of a decade that v is or that is next below
// it: nought where v is not above nought.
func MarkBelow(v decimal.Decimal) decimal.Decimal {
	all := Marks(v.Shift(-1), v)
	if len(all) == 0 {
		return decimal.Zero
	}
	return all[len(all)-1]
}

// MarkAbove returns the 1, 2 or 5 of a decade that v is or that is next above
// it: nought where v is not above nought.
func MarkAbove(v decimal.Decimal) decimal.Decimal {
	all := Marks(v, v.Shift(1))
	if len(all) == 0 {
		return decimal.Zero
	}
	return all[0]
}

// Ticks marks 1 to 9 of each decade from low to high and names 1, 2 and 5; where
// high is more than 5000 times low it names 1 alone, for want of room.
func Ticks(low, high decimal.Decimal) []plot.Tick {
	named := "125"
	if high.GreaterThan(low.Mul(decimal.NewFromInt(5000))) {
		named = "1"
	}
	return ticks(digits(low, high), 1, named, "")
}

// TimeTicks marks times from a millisecond to a million hours in seconds,
// minutes and hours, as on printed paper. One on the axis is so many seconds.
func TimeTicks(axisS float64) []plot.Tick {
	from := func(low, high string) []digit {
		return digits(decimal.RequireFromString(low), decimal.RequireFromString(high))
	}
	second, minute, hour := 1/axisS, 60/axisS, 3600/axisS
	return slices.Concat(
		ticks(from("0.001", "9"), second, "125", " s"), ticks(from("10", "50"), second, "123", " s"),
		ticks(from("1", "9"), minute, "125", " min"), ticks(from("10", "50"), minute, "123", " min"),
		ticks(from("1", "1000000"), hour, "125", " h"),
	)
}

// ticks marks digits of a unit, and names those that begin with one of named.
func ticks(all []digit, unit float64, named, name string) []plot.Tick {
	var marked []plot.Tick
	for _, d := range all {
		t := plot.Tick{Value: d.value.InexactFloat64() * unit}
		if strings.Contains(named, d.lead) {
			t.Label = d.value.String() + name
		}
		marked = append(marked, t)
	}
	return marked
}
