package main

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"
)

// currentTicks marks 1 to 9 of each decade and names some of them: 1, 2 and 5,
// or 1 alone where there are many decades.
type currentTicks struct{}

func (currentTicks) Ticks(low, high float64) []plot.Tick {
	named := "125"
	if high/low > 1e5 {
		named = "1"
	}
	var all []plot.Tick
	for decade := math.Floor(math.Log10(low)); decade <= math.Log10(high); decade++ {
		for lead := range 9 {
			all = append(all, tick(float64(lead+1)*math.Pow(10, decade), 1, named, ""))
		}
	}
	return within(all, low, high)
}

// timeTicks counts in seconds, minutes and hours, as time-current paper does.
type timeTicks struct{}

func (timeTicks) Ticks(low, high float64) []plot.Tick {
	var all []plot.Tick
	for _, part := range []struct {
		first, end, unitS float64 // in its unit
		named, unit       string
	}{
		{0.001, 10, 1, "125", " s"}, {10, 60, 1, "123", " s"},
		{1, 10, 60, "125", " min"}, {10, 60, 60, "123", " min"},
		{1, 1000, 3600, "125", " h"},
	} {
		for decade := part.first; decade < part.end; decade *= 10 {
			for lead := 1; lead <= 9 && float64(lead)*decade < part.end; lead++ {
				all = append(all, tick(float64(lead)*decade, part.unitS, part.named, part.unit))
			}
		}
	}
	return within(all, low, high)
}

// tick marks a number of units; it bears a name where its first digit is named.
func tick(value, unit float64, named, name string) plot.Tick {
	text := strconv.FormatFloat(value, 'g', 1, 64)
	value, _ = strconv.ParseFloat(text, 64)
	t := plot.Tick{Value: value * unit}
	for _, digit := range named {
		if lead(text) == digit {
			t.Label = strconv.FormatFloat(value, 'f', -1, 64) + name
		}
	}
	return t
}
