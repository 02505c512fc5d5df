// Package wire answers questions about conductors: resistance, ampacity,
// conductor temperature, voltage drop, size, and circuits that share feeders.
//
// A [Conductor] is a cable as it lies; it answers ampacity and resistance. A
// [Run] is one supply conductor and its return carrying a current; it answers
// drop; a [CodeDrop] is the same by a rule set's own formula. A [Sizing] finds
// the smallest size, the longest run or the most current. A [Network] is an
// installation as one circuit: what every load sees when all of them draw, how
// batteries share, what a fault draws. Lengths are one way unless a field says
// loop. Resistance is that of the conductor at its real temperature, never the
// cold one.
//
// Checks of this package: W01 ampacity, W02 voltage drop, W03 smallest size, W04
// voltage at the load, W05 joint against its twins, W06 bend radius.
package wire

import (
	"math"

	"github.com/shopspring/decimal"
)

var one, two = decimal.NewFromInt(1), decimal.NewFromInt(2)

// Ranges that several questions share.
const (
	mostVolts    = 1000
	mostMilliohm = 1_000_000
	mostAmperes  = 10_000
	mostWatts    = 1_000_000
	mostOhms     = 1_000_000_000
)

var (
	leastMilliohm = decimal.RequireFromString("0.001")
	leastPerM     = decimal.RequireFromString("0.0001")
	leastVolt     = decimal.RequireFromString("0.001")
	leastAmpere   = decimal.RequireFromString("0.01")
	leastArea     = decimal.RequireFromString("0.001")
	leastOhm      = decimal.RequireFromString("0.000001")
)

// fixed turns a solver's float into a decimal of the places that its model can
// claim. It is the only way out of float64; NaN and Inf become nought only
// behind a caller that has refused them.
func fixed(x float64, places int32) decimal.Decimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Zero
	}
	scaled := x * math.Pow10(int(places))
	whole := math.Round(scaled)
	if off := math.Abs(scaled - whole); math.Abs(scaled) < 1<<40 && off < 0.499 {
		return decimal.New(int64(whole), -places) // the product is out by less than 0.001
	}
	return decimal.NewFromFloat(x).Round(places)
}
