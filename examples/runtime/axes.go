package main

import (
	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
)

// loadTicks are amperes, or watts.
func loadTicks(low, high decimal.Decimal) plot.ConstantTicks {
	return ticks(low, high, decimal.Decimal.String)
}

// timeTicks are in hours, below one in minutes.
func timeTicks(low, high decimal.Decimal) plot.ConstantTicks {
	return ticks(low, high, func(v decimal.Decimal) string {
		if v.LessThan(decimal.NewFromInt(1)) {
			return v.Mul(decimal.NewFromInt(60)).String() + " min"
		}
		return v.String() + " h"
	})
}

// ticks marks 1 to 9 of each decade and names 1, 2 and 5.
func ticks(low, high decimal.Decimal, name func(decimal.Decimal) string) plot.ConstantTicks {
	var all []plot.Tick
	named := between(low, high)
	for _, v := range named {
		all = append(all, plot.Tick{Value: v.InexactFloat64(), Label: name(v)})
	}
	for _, v := range decades(low, high) {
		all = append(all, plot.Tick{Value: v.InexactFloat64()})
	}
	return all
}

// decades lists the other digits of each decade.
func decades(low, high decimal.Decimal) []decimal.Decimal {
	var all []decimal.Decimal
	for exponent := int32(-6); exponent < 7; exponent++ {
		for _, lead := range []int64{3, 4, 6, 7, 8, 9} {
			if v := decimal.New(lead, exponent); v.GreaterThan(low) && v.LessThan(high) {
				all = append(all, v)
			}
		}
	}
	return all
}
