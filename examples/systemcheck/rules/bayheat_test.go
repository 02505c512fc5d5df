package rules_test

import (
	"slices"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// What flows through a battery heats it by I² R (Joule), by its high resistance: with
// half of it the bay of the clinic is cooler, and with four times as much too hot.
func TestBatteriesHeatTheirBay(t *testing.T) {
	heat := func(milliohm string) (working.Verdict, decimal.Decimal) {
		j := read(t, "clinic.yaml")
		for i := range j.Batteries[:2] {
			j.Batteries[i].HighMilliohm = null(milliohm)
		}
		f := found(t, judge(t, j), "B09", "the bay")
		w, _ := f.Working.Value("P_v")
		return f.Verdict(), w
	}
	_, less := heat("5")
	_, own := heat("9")
	verdict, _ := heat("36")
	assert.True(t, less.LessThan(own), "%s W, %s W", less, own)
	assert.Equal(t, working.Fails, verdict)
}

// A lead with both ends in the bay heats it as well.
func TestLeadsInTheBayHeatIt(t *testing.T) {
	heat := func(holds ...string) decimal.Decimal {
		j := read(t, "clinic.yaml")
		j.Bay.Holds = holds
		i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == "converter output" })
		j.Circuits[i].To, j.Circuits[i].LengthM = "battery A", d("5")
		w, _ := found(t, judge(t, j), "B09", "the bay").Working.Value("P_v")
		return w
	}
	// 25 A × 14.2 V at 90 % are 39.4 W of the converter's own; the rest its cable's
	own := heat("engine converter").Sub(heat())
	assert.True(t, own.GreaterThan(d("39.5")), own)
}
