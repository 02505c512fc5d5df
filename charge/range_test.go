package charge_test

import (
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
