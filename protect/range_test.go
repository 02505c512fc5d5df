package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"github.com/stretchr/testify/assert"
)

// TestRangesAreSharp: what a doc comment allows is answered to its ends, and what
// lies beyond, or is nought, is refused by name.
func TestRangesAreSharp(t *testing.T) {
	fuse := protect.Device{Family: "IEC 60269 gG", RatingA: d("16")}
	limited := func(limit, ampacity, fault string) error {
		_, err := fuse.Clears(protect.FarFault{LimitedA: some(limit), AmpacityA: some(ampacity), LeastFaultA: d(fault)})
		return err
	}
	parallel := func(ampacity, rating string) error {
		_, err := protect.Parallel{Cables: 2, AmpacityA: d(ampacity), RatingA: d(rating), Identical: true}.Checks(rulesOf("european").Device)
		return err
	}
	withstand := func(k, area string) error {
		_, err := protect.Cable{K: d(k), AreaMM2: d(area)}.Withstand(d("10000"))
		return err
	}
	heating := func(initial string) error {
		_, err := protect.FaultHeating{Name: "copper", InitialC: some(initial), FinalC: d("350")}.Constant()
		return err
	}
	for _, err := range []error{
		limited("10000", "10000", "10000"), // a fault of all that the source can give
		limited("20", "0.1", "0"), parallel("10000", "10000"), withstand("1", "1000"), withstand("500", "0.1"), heating("-40"), heating("250"),
	} {
		assert.NoError(t, err)
	}
	for field, errs := range map[string][]error{
		"source_limit_a": {limited("10000.1", "10", "1"), limited("20", "10", "20.1"), limited("0", "10", "0")},
		"ampacity_a":     {limited("20", "0", "1"), limited("20", "10000.1", "1"), parallel("0", "10"), parallel("10000.1", "10")},
		"least_fault_a":  {limited("10000", "10", "1000000.1"), limited("20", "10", "-1")},
		"rating_a":       {parallel("10", "0"), parallel("10", "10000.1")},
		"adiabatic_k":    {withstand("0.9", "1"), withstand("500.1", "1")},
		"area_mm2":       {withstand("115", "0"), withstand("115", "1000.1")},
		"initial_c":      {heating("-40.1"), heating("250.1")},
	} {
		for _, err := range errs {
			assert.ErrorContains(t, err, field)
		}
	}
}
