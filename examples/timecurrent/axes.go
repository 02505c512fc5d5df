package main

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
)

// scale is a part of an axis: from first to below end it marks 1 to 9 of each
// decade, and names those that begin with one of the digits.
type scale struct {
	first, end float64 // in units
	unit       float64 // of the axis
	name       string  // behind the number
	digits     string
}

func (s scale) ticks() []plot.Tick {
	var all []plot.Tick
	for decade := s.first; decade < s.end; decade *= 10 {
		for lead := 1; lead <= 9 && float64(lead)*decade < s.end; lead++ {
			t := plot.Tick{Value: float64(lead) * decade * s.unit}
			if first := strconv.Itoa(lead); strings.Contains(s.digits, first) {
				t.Label = strconv.FormatFloat(float64(lead)*decade, 'g', 6, 64) + s.name
			}
			all = append(all, t)
		}
	}
	return all
}

// currentTicks are in amperes; few are named where the axis is long.
func currentTicks(low, high float64) plot.ConstantTicks {
	digits := "125"
	if high/low > 5e3 {
		digits = "1"
	}
	return scale{0.001, 1e5, 1, "", digits}.ticks()
}

// timeTicks are in seconds, minutes and hours, as on printed paper.
func timeTicks() plot.ConstantTicks {
	var all []plot.Tick
	for _, s := range []scale{
		{0.001, 10, 1, " s", "125"}, {10, 60, 1, " s", "123"},
		{1, 10, 60, " min", "125"}, {10, 60, 60, " min", "123"},
		{1, 1000, 3600, " h", "125"},
	} {
		all = append(all, s.ticks()...)
	}
	return all
}

// span is an axis that begins and ends at 1, 2 or 5 of a decade, with some
// room beyond what it must show.
func span(low, high float64) (from, to float64) {
	return roundDown(low / 1.5), 1 / roundDown(1/(high*1.5))
}

// roundDown goes to the next 5, 2 or 1 of a decade; the reciprocal of one is
// another.
func roundDown(v float64) float64 {
	decade := math.Pow(10, math.Floor(math.Log10(v)))
	for _, lead := range []float64{5, 2} {
		if v >= lead*decade {
			return lead * decade
		}
	}
	return decade
}
