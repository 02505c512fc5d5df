package battery

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// RateCapacity is what a bank gives at the mean current of a use.
type RateCapacity struct {
	CapacityAh decimal.NullDecimal `json:"at_rate_ah"`
	Bank       Bank                `json:"bank"`              // with that capacity: ask it whatever the bank is asked
	Missing    string              `json:"missing,omitempty"` // the rating to ask the maker for; then the rest is unset
	Working    working.Working     `json:"working"`
}

// CapacityAt returns the capacity of the bank at the mean current of a use that
// is to last some hours. The strings empty together, so each takes its share of
// the current by its rated capacity:
//
//	I_s1 = I_mn × C_s ÷ C   [A], rounded up to 0.01
//	C_s  = C_I              of [Peukert.At] at that share [Ah]
//
// Rated capacity stands where RateH is no more than the hours (as long as the
// charge lasts them, the current is below that of the rating); where the share is
// no more than the current of the rating; and of a chemistry whose capacity does
// not fall with the rate, without a second rating. Of any other string whose hours
// or second rating are missing, or slower than its share, Missing says what to ask.
// A mean current
// hides peaks: of short heavy loads less is there at once, and more after a rest
// ([Kinetic]). Current 0.01 to 10 000 A, hours 0 to 10 000. Source: Peukert's
// law.
func (b Bank) CapacityAt(meanA, hours decimal.Decimal) (RateCapacity, error) {
	if err := errors.Join(b.check(), checkCurrent(meanA), working.Between("hours", hours, 0, 10_000)); err != nil {
		return RateCapacity{}, err
	}
	w := working.Start(b.From)
	b.rating(&w)
	w.Given("I_mn", meanA)
	return b.capacityAt(w, meanA, hours)
}

// capacityAt goes on from the rating of the bank and the mean current.
func (b Bank) capacityAt(w working.Working, meanA, hours decimal.Decimal) (RateCapacity, error) {
	rated, _ := w.Value("C")
	c := RateCapacity{Bank: b}
	c.Bank.Batteries = slices.Clone(b.Batteries)
	var each []string
	for k, s := range b.strings() {
		gives := s[0].CapacityAh
		if s[0].slowerThan(hours) {
			share := w.CalcUp(nth("I_s1", k), "I_mn × "+nth("C_s", k)+" ÷ C", meanA.Mul(gives), rated, 2, kirchhoff)
			var err error
			if gives, c.Missing, err = s[0].capacityAt(&w, k, share); err != nil || c.Missing != "" {
				return RateCapacity{Missing: c.Missing}, err
			}
		}
		for n := range s {
			x := &c.Bank.Batteries[k*b.Series+n]
			x.CapacityAh, x.RateH, x.FastAh, x.FastH = gives, decimal.NullDecimal{}, decimal.NullDecimal{}, decimal.NullDecimal{}
		}
		each = append(each, nth("C_s", k))
	}
	c.Bank.From = slices.Clip(w)
	c.CapacityAh = decimal.NewNullDecimal(addUp(&w, "C", each...))
	c.Working = slices.Clip(w)
	return c, nil
}

// slowerThan reports whether the battery is rated in more hours, or may be.
func (x BankBattery) slowerThan(hours decimal.Decimal) bool {
	if !x.RateH.Valid {
		return x.Chemistry.Has(tables.FallsWithRate)
	}
	return x.RateH.Decimal.GreaterThan(hours)
}

// capacityAt adds what string k gives at its share of the current.
func (x BankBattery) capacityAt(w *working.Working, k int, shareA decimal.Decimal) (gives decimal.Decimal, missing string, err error) {
	above := func(ah, h decimal.Decimal) bool { return shareA.Mul(h).GreaterThan(ah) }
	switch {
	case !x.RateH.Valid:
		return decimal.Decimal{}, fmt.Sprintf("ask the maker of %s in how many hours its %s Ah are drawn, and what it gives faster", cmp.Or(x.Name, fmt.Sprintf("string %d", k+1)), x.CapacityAh), nil
	case !above(x.CapacityAh, x.RateH.Decimal):
		w.Note("no more than the current of the rating: the rated capacity stands")
		return x.CapacityAh, "", nil
	case !x.FastAh.Valid && !x.Chemistry.Has(tables.FallsWithRate):
		w.Note(string(x.Chemistry) + ": the rated capacity stands")
		return x.CapacityAh, "", nil
	case !x.FastAh.Valid || above(x.FastAh.Decimal, x.FastH.Decimal):
		hours, _ := x.CapacityAh.QuoRem(shareA, 2)
		return decimal.Decimal{}, fmt.Sprintf("ask the maker of %s for its capacity at %s A or more (in at most %s h): none that is stated, %s, tells what it gives at that current",
			cmp.Or(x.Name, fmt.Sprintf("string %d", k+1)), shareA, hours, x.ratings()), nil
	}
	w.Calc("I", nth("I_s1", k), shareA, arithmetic)
	d, err := Peukert{
		Slow: HourRating{x.CapacityAh, x.RateH.Decimal}, Fast: HourRating{x.FastAh.Decimal, x.FastH.Decimal}, From: *w,
	}.At(shareA)
	if err != nil {
		return decimal.Decimal{}, "", err
	}
	*w = d.Working
	return w.Calc(nth("C_s", k), "C_I", d.CapacityAh, arithmetic), "", nil
}

// ratings writes the ratings of a battery that states its hours.
func (x BankBattery) ratings() string {
	slow := x.CapacityAh.String() + " Ah in " + x.RateH.Decimal.String() + " h"
	if !x.FastAh.Valid {
		return slow
	}
	return slow + " or " + x.FastAh.Decimal.String() + " Ah in " + x.FastH.Decimal.String() + " h"
}

// checkRatings wants a second rating whole and faster than the first, by the
// rules of [Peukert].
func (x BankBattery) checkRatings() error {
	if !x.FastAh.Valid && !x.FastH.Valid {
		return nil
	}
	if !x.FastAh.Valid || !x.FastH.Valid || !x.RateH.Valid {
		return &working.InputError{Field: "fast_ah", Got: fmt.Sprintf("%s beside fast_h %s and rate_h %s", orUnset(x.FastAh), orUnset(x.FastH), orUnset(x.RateH)),
			Want: "all three, or neither fast_ah nor fast_h"}
	}
	err := Peukert{Slow: HourRating{x.CapacityAh, x.RateH.Decimal}, Fast: HourRating{x.FastAh.Decimal, x.FastH.Decimal}}.check()
	for _, e := range working.Inputs(err) {
		return &working.InputError{Field: "fast_ah", Got: e.Got, Want: e.Want}
	}
	return nil
}
