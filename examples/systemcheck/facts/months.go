package facts

import (
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Month is how the bank fares through weeks of a month's mean days, by rule C08:
// aged, full at the start, with the sources and loads of every day.
type Month struct {
	Month         string          // "" where no array makes one month unlike another
	Weeks         int             // four, or more where it still sank
	LowestPercent decimal.Decimal // of the capacity left to it
	EndPercent    decimal.Decimal // after these weeks
	ShedH         decimal.Decimal // hours in which the loads went short
	Verdict       working.Verdict
}
