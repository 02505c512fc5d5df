package battery

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// HourRating is a capacity and the hours in which it was drawn.
type HourRating struct {
	CapacityAh decimal.Decimal `json:"capacity_ah"`
	RateH      decimal.Decimal `json:"rate_h"`
}

// Peukert is a battery that states two ratings. The exponent holds between
// their currents and nowhere else.
type Peukert struct {
	Slow HourRating      `json:"slow"` // the usual one: 20 h, say
	Fast HourRating      `json:"fast"`
	From working.Working `json:"-"` // the lines that gave the ratings
}

// Exponent is Peukert's exponent, with the currents between which it holds.
type Exponent struct {
	Exponent decimal.Decimal `json:"exponent"`
	SlowA    decimal.Decimal `json:"slow_a"`
	FastA    decimal.Decimal `json:"fast_a"`
	Working  working.Working `json:"working"`
}

// Exponent returns the exponent that ties two ratings:
//
//	I_1h = C ÷ H                                       of each [A]
//	k_P  = ln(H.1 ÷ H.2) ÷ ln(I_1h.2 ÷ I_1h.1)         to 0.0001
//
// It depends on which two ratings are taken. Capacities above 0 to 10 000 Ah,
// hours above 0 to 1000; the fast rating has fewer hours and no more capacity.
// Source: Peukert's law.
func (p Peukert) Exponent() (Exponent, error) {
	if err := p.check(); err != nil {
		return Exponent{}, err
	}
	w := working.Start(p.From)
	e := p.exponent(&w)
	e.Working = slices.Clip(w)
	return e, nil
}

func (p Peukert) exponent(w *working.Working) Exponent {
	law := cite.Peukert.At("", cite.Published)
	var e Exponent
	for i, r := range []struct {
		HourRating
		amps *decimal.Decimal
	}{{p.Slow, &e.SlowA}, {p.Fast, &e.FastA}} {
		c := w.Given(nth("C", i), r.CapacityAh)
		h := w.Given(nth("H", i), r.RateH)
		*r.amps = w.Calc(nth("I_1h", i), nth("C", i)+" ÷ "+nth("H", i), c.DivRound(h, 6), arithmetic)
	}
	hours := ratio(p.Slow.RateH, p.Fast.RateH)
	amps := ratio(e.FastA, e.SlowA)
	e.Exponent = w.Calc("k_P", "ln(H.1 ÷ H.2) ÷ ln(I_1h.2 ÷ I_1h.1)", fixed(math.Log(hours)/math.Log(amps), 4), law)
	return e
}

// ratio returns a ÷ b for a logarithm or a power.
func ratio(a, b decimal.Decimal) float64 {
	r, _ := a.Rat().Quo(a.Rat(), b.Rat()).Float64()
	return r
}

// Discharge is a battery emptied at one current.
type Discharge struct {
	TimeH      decimal.Decimal `json:"time_h"`
	CapacityAh decimal.Decimal `json:"at_rate_ah"`
	Working    working.Working `json:"working"`
}

// At returns how long the battery lasts at a current, and what it gives:
//
//	t_e = H.1 × (C.1 ÷ (I × H.1)) ^ k_P   [h], rounded down to 0.01
//	C_I = I × t_e                         [Ah]
//
// Below the current of the slow rating it gives no more than that rating (the
// exponent would promise more); above that of the fast one it is
// [tables.ErrOutside]. Current 0.01 to 10 000 A. Source: Peukert's law in the
// form referred to a rating.
func (p Peukert) At(currentA decimal.Decimal) (Discharge, error) {
	if err := errors.Join(p.check(), checkCurrent(currentA)); err != nil {
		return Discharge{}, err
	}
	w := working.Start(p.From)
	e := p.exponent(&w)
	if currentA.Mul(p.Fast.RateH).GreaterThan(p.Fast.CapacityAh) {
		return Discharge{}, outside("current_a", currentA, "at most "+e.FastA.String()+" A, that of the fast rating")
	}
	i := w.Given("I", currentA)
	law := cite.Peukert.At("referred to a rating", cite.FromMemory)
	var hours decimal.Decimal
	if i.Mul(p.Slow.RateH).LessThan(p.Slow.CapacityAh) {
		hours = w.Calc("t_e", downOf("C.1 ÷ I"), down(p.Slow.CapacityAh, i), arithmetic)
		w.Note("slower than the slow rating: no more than its capacity")
	} else {
		share := ratio(p.Slow.CapacityAh, i.Mul(p.Slow.RateH))
		t := p.Slow.RateH.InexactFloat64() * math.Pow(share, e.Exponent.InexactFloat64())
		hours = w.Calc("t_e", downOf("H.1 × (C.1 ÷ (I × H.1)) ^ k_P"), fixed(math.Floor(t*100)/100, 2), law)
	}
	c := w.Calc("C_I", "I × t_e", i.Mul(hours), arithmetic)
	return Discharge{TimeH: hours, CapacityAh: c, Working: slices.Clip(w)}, nil
}

func checkCurrent(a decimal.Decimal) error {
	if err := working.Above("current_a", a, 0, 10_000); err != nil {
		return err
	}
	if a.LessThan(decimal.New(1, -2)) {
		return &working.InputError{Field: "current_a", Got: a.String(), Want: "0.01 to 10000"}
	}
	return nil
}

// outside is a current or condition that a table or law does not reach.
func outside(field string, got decimal.Decimal, want string) error {
	return errors.Join(&working.InputError{Field: field, Got: got.String(), Want: want}, tables.ErrOutside)
}

func (p Peukert) check() error {
	if err := errors.Join(working.In("slow", p.Slow.check()), working.In("fast", p.Fast.check())); err != nil {
		return err
	}
	if p.Fast.RateH.LessThan(p.Slow.RateH) && p.Fast.CapacityAh.LessThanOrEqual(p.Slow.CapacityAh) &&
		p.Fast.CapacityAh.Mul(p.Slow.RateH).GreaterThan(p.Slow.CapacityAh.Mul(p.Fast.RateH)) {
		return nil
	}
	return &working.InputError{Field: "fast", Got: p.Fast.CapacityAh.String() + " Ah in " + p.Fast.RateH.String() + " h",
		Want: "fewer hours and no more capacity than the slow rating, at a greater current"}
}

func (r HourRating) check() error {
	return errors.Join(
		working.Above("capacity_ah", r.CapacityAh, 0, 10_000),
		working.Above("rate_h", r.RateH, 0, 1000),
	)
}

// atRating is the share or factor of a battery at the temperature of its rating.
func atRating(v decimal.Decimal) working.Figure {
	return working.Figure{Value: v, Source: cite.DataSheet.At("rated capacity", cite.Given), Note: "no temperature stated: that of the rating"}
}

// capacityShare adds the share of the rated capacity that is there at a
// temperature. A multiplier is turned into a share, rounded down.
func capacityShare(w *working.Working, chemistry string, atC decimal.Decimal) (decimal.Decimal, error) {
	f, err := tables.ColdCapacity(chemistry, atC)
	if err != nil {
		return decimal.Decimal{}, err
	}
	w.Given("T_b", atC)
	if f.Unit == "%" {
		return w.LookUp("c_T", f), nil
	}
	k := w.LookUp("k_T", f)
	return w.Calc("c_T", downOf("100 ÷ k_T"), down(hundred, k), arithmetic), nil
}
