package charge_test

import (
	"fmt"
	"testing"

	"example.org/extralow/charge"
	"github.com/stretchr/testify/assert"
)

// TestSourceRangesAreSharp: what a doc comment allows is answered to its ends, and
// what lies beyond, or is nought, is refused by name.
func TestSourceRangesAreSharp(t *testing.T) {
	mains := func(outV, outA, mainsV, efficiency, factor string) error {
		_, err := charge.MainsCharger{OutputV: d(outV), OutputA: d(outA), MainsV: d(mainsV), Efficiency: d(efficiency), PowerFactor: d(factor)}.Input()
		return err
	}
	converter := func(outV, outA, inV, efficiency string) error {
		_, err := charge.Converter{OutputV: d(outV), OutputA: d(outA), InputV: d(inV), Efficiency: d(efficiency)}.Input()
		return err
	}
	assert.NoError(t, mains("1000", "10000", "1000", "1", "1"))
	assert.NoError(t, converter("1000", "10000", "1000", "1"))
	for field, errs := range map[string][]error{
		"output_v":          {mains("0", "1", "230", "1", "1"), mains("1000.1", "1", "230", "1", "1"), converter("0", "1", "12", "1"), converter("1000.1", "1", "12", "1")},
		"output_a":          {mains("12", "0", "230", "1", "1"), mains("12", "10000.1", "230", "1", "1"), converter("12", "0", "12", "1"), converter("12", "10000.1", "12", "1")},
		"mains_v":           {mains("12", "1", "0", "1", "1"), mains("12", "1", "1000.1", "1", "1")},
		"input_v":           {converter("12", "1", "0", "1"), converter("12", "1", "1000.1", "1")},
		"source_efficiency": {mains("12", "1", "230", "0", "1"), mains("12", "1", "230", "1.1", "1"), converter("12", "1", "12", "0"), converter("12", "1", "12", "1.1")},
		"power_factor":      {mains("12", "1", "230", "1", "0"), mains("12", "1", "230", "1", "1.1")},
	} {
		for _, err := range errs {
			assert.ErrorContains(t, err, field)
		}
	}
}

// TestCountsAreSharp: plates, cells, strings, supplies and batteries are answered up to
// the count of the doc comment, and refused beyond.
func TestCountsAreSharp(t *testing.T) {
	plates := func(n int) error {
		_, err := charge.PlateRate(n)
		return err
	}
	battery := func(cells, strings int) error { // its volts do not suit each count: what is asked is the count
		s := charge.Simulation{Battery: flooded()}
		s.Battery.Cells, s.Battery.Strings, s.Battery.EMF = cells, strings, nil
		_, err := s.Run()
		return err
	}
	sources := func(supplies, batteries int) error {
		var c charge.CombinedSources
		for range supplies {
			c.Supplies = append(c.Supplies, charge.Supply{Name: "charger", CurrentA: d("1")})
		}
		for i := range batteries {
			c.LimitsA = append(c.LimitsA, charge.NamedLimit{Name: fmt.Sprint("battery ", i+1), CurrentA: d("1")})
		}
		_, err := c.Checks()
		return err
	}
	for _, err := range []error{plates(3), plates(99), sources(1, 1), sources(100, 1), sources(1, 100)} {
		assert.NoError(t, err)
	}
	for _, err := range []error{battery(1, 1), battery(400, 1), battery(6, 1000)} {
		assert.NotContains(t, err.Error(), "battery.cells")
		assert.NotContains(t, err.Error(), "battery.strings")
	}
	for field, errs := range map[string][]error{
		"plates":          {plates(1), plates(101)},
		"battery.cells":   {battery(0, 1), battery(401, 1)},
		"battery.strings": {battery(6, 0), battery(6, 1001)},
		"supplies":        {sources(0, 1), sources(101, 1)},
		"batteries":       {sources(1, 0), sources(1, 101)},
	} {
		for _, err := range errs {
			assert.ErrorContains(t, err, field)
		}
	}
}
