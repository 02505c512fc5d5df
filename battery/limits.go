package battery

import (
	"fmt"
	"math/big"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// BankLimits are the greatest currents of a bank, in one direction.
type BankLimits struct {
	SumA    decimal.NullDecimal `json:"limits_sum_a"`      // limits of the strings added up: only where they share evenly
	LimitA  decimal.NullDecimal `json:"sharing_limit_a"`   // by shares: the current at which the first string reaches its limit
	MixedA  decimal.NullDecimal `json:"aged_limit_a"`      // the same with one string new and the others aged
	Missing string              `json:"missing,omitempty"` // what to measure or ask; what rests on it is unset
	Working working.Working     `json:"working"`
}

// Discharge returns the greatest steady discharge current of the bank:
//
//	I_sum = Σ I_m
//	I_sh  = I_m × (1 + R_sl ÷ R_sl.2 + R_sl ÷ R_sl.3 ...)   for each string
//	I_lim = min(I_sh)
//
// Strings share in inverse proportion to their resistance with leads, so the
// one with the shortest leads reaches its limit first. I_mx is the same with
// this string at its lowest resistance and the others at their highest: a new
// battery among aged ones. Rounded down to 0.01 A. One string has its own limit.
// An unknown limit or resistance is a thing to ask or measure. Source: Kirchhoff's
// laws.
func (b Bank) Discharge() (BankLimits, error) {
	return b.limits("discharge", func(x BankBattery) decimal.NullDecimal { return x.GreatestDischargeA })
}

// Charge returns the greatest charge current of the bank, in the way of
// [Bank.Discharge].
func (b Bank) Charge() (BankLimits, error) {
	return b.limits("charge", func(x BankBattery) decimal.NullDecimal { return x.GreatestChargeA })
}

func (b Bank) limits(direction string, limit func(BankBattery) decimal.NullDecimal) (BankLimits, error) {
	if err := b.check(); err != nil {
		return BankLimits{}, err
	}
	for i, x := range b.Batteries {
		if !limit(x).Valid {
			return BankLimits{Missing: fmt.Sprintf("the greatest steady %s current of battery %d (%s), from its data sheet", direction, i+1, x.Name)}, nil
		}
	}
	w := working.Start(b.From)
	if len(b.Batteries) == b.Series {
		one := decimal.NewNullDecimal(w.Calc("I_lim", "I_m.1", b.stringLimit(&w, 0, limit), arithmetic))
		return BankLimits{SumA: one, LimitA: one, MixedA: one, Working: slices.Clip(w)}, nil
	}
	strings, lacks := b.branches(&w)
	if lacks.low != "" {
		return BankLimits{Missing: lacks.low}, nil
	}
	var sums []string
	for k := range strings {
		strings[k].limit = b.stringLimit(&w, k, limit)
		sums = append(sums, nth("I_m", k))
	}
	l := BankLimits{Missing: lacks.high}
	l.SumA = decimal.NewNullDecimal(addUp(&w, "I_sum", sums...))
	if lacks.high == "" {
		l.MixedA = shareOut(&w, strings, "I_ad", "I_mx", "R_sg", func(s branch) decimal.Decimal { return s.high.Decimal })
	}
	l.LimitA = shareOut(&w, strings, "I_lim", "I_sh", "R_sl", func(s branch) decimal.Decimal { return s.low.Decimal })
	l.Working = slices.Clip(w)
	return l, nil
}

// stringLimit adds the limit of string k: that of its weakest battery.
func (b Bank) stringLimit(w *working.Working, k int, limit func(BankBattery) decimal.NullDecimal) decimal.Decimal {
	own := b.strings()[k]
	if len(own) == 1 {
		return w.Given(nth("I_m", k), limit(own[0]).Decimal)
	}
	var each []string
	for n, x := range own {
		i := k*b.Series + n
		w.Given(nth("I_bm", i), limit(x).Decimal)
		each = append(each, nth("I_bm", i))
	}
	return w.Calc(nth("I_m", k), "min("+joined(each)+")", least(*w, each), arithmetic)
}

// shareOut adds, for each string, the current of the bank at which it reaches
// its limit, and the least of them.
func shareOut(w *working.Working, strings []branch, answer, symbol, other string, resistance func(branch) decimal.Decimal) decimal.NullDecimal {
	var all []string
	for k, s := range strings {
		sum, formula := new(big.Rat).SetInt64(1), "1"
		for j, o := range strings {
			if j != k {
				sum.Add(sum, new(big.Rat).Quo(s.low.Decimal.Rat(), resistance(o).Rat()))
				formula += " + " + nth("R_sl", k) + " ÷ " + nth(other, j)
			}
		}
		calcDown(w, nth(symbol, k), nth("I_m", k)+" × ("+formula+")", sum.Mul(sum, s.limit.Rat()), 2, kirchhoff)
		all = append(all, nth(symbol, k))
	}
	return decimal.NewNullDecimal(w.Calc(answer, "min("+joined(all)+")", least(*w, all), kirchhoff))
}

// least returns the least value of symbols of the working.
func least(w working.Working, symbols []string) decimal.Decimal {
	var values []decimal.Decimal
	for _, s := range symbols {
		v, _ := w.Value(s)
		values = append(values, v)
	}
	return decimal.Min(values[0], values[1:]...)
}
