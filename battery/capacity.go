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
	From working.Working `json:"from,omitempty"` // the lines that gave the ratings
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
//	k_P  = ln(H.1 ÷ H.2) ÷ ln(C.2 × H.1 ÷ (C.1 × H.2))
//
// to 12 places, so that what rests on it is rounded once. It depends on which two
// ratings are taken. Capacities 0.1 to 10 000 Ah, hours 0.01 to 1000; the fast
// rating has fewer hours and no more capacity; an exponent above 5 is an error.
// Source: Peukert's law.
func (p Peukert) Exponent() (Exponent, error) {
	if err := p.check(); err != nil {
		return Exponent{}, err
	}
	w := working.Start(p.From)
	e, err := p.exponent(&w)
	e.Working = slices.Clip(w)
	if err != nil {
		return Exponent{}, err
	}
	return e, nil
}

// exponent adds the ratings and the exponent, to far more places than it is known
// to: what rests on it is rounded once, last.
func (p Peukert) exponent(w *working.Working) (Exponent, error) {
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
	amps := ratio(p.Fast.CapacityAh.Mul(p.Slow.RateH), p.Slow.CapacityAh.Mul(p.Fast.RateH))
	k, err := fixed("fast", math.Log(hours)/math.Log(amps), 12)
	if err != nil {
		return Exponent{}, err
	}
	if k.GreaterThan(steepest) {
		return Exponent{}, &working.InputError{Field: "fast", Got: p.Fast.text() + " beside " + p.Slow.text(), Want: "ratings further apart: by these the exponent is above " + steepest.String()}
	}
	e.Exponent = w.Calc("k_P", "ln(H.1 ÷ H.2) ÷ ln(C.2 × H.1 ÷ (C.1 × H.2))", k, law)
	return e, nil
}

// steepest is an exponent that no battery has: published ones end below 2
// (common practice).
var steepest = decimal.NewFromInt(5)

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
//	t_e = H.1 × (C.1 ÷ (I × H.1)) ^ k_P         [h], rounded down to 0.01
//	C_I = C.1 × (C.1 ÷ (I × H.1)) ^ (k_P − 1)   [Ah], rounded down to 0.01
//
// At the current of either rating it gives that rating. Below that of the slow
// one it gives no more than that (the exponent would promise more); above that of
// the fast one it is [tables.ErrOutside]. Current 0.01 to 10 000 A. Source:
// Peukert's law in the form referred to a rating.
func (p Peukert) At(currentA decimal.Decimal) (Discharge, error) {
	if err := errors.Join(p.check(), checkCurrent(currentA)); err != nil {
		return Discharge{}, err
	}
	w := working.Start(p.From)
	e, err := p.exponent(&w)
	if err != nil {
		return Discharge{}, err
	}
	i := w.Given("I", currentA)
	var d Discharge
	switch against := i.Mul(p.Fast.RateH).Cmp(p.Fast.CapacityAh); {
	case against > 0:
		return Discharge{}, outside("current_a", currentA, "at most "+e.FastA.String()+" A, that of the fast rating")
	case against == 0:
		d.TimeH, d.CapacityAh = w.Calc("t_e", "H.2", p.Fast.RateH, arithmetic), w.Calc("C_I", "C.2", p.Fast.CapacityAh, arithmetic)
		w.Note("the fast rating itself")
	case i.Mul(p.Slow.RateH).LessThanOrEqual(p.Slow.CapacityAh):
		d.TimeH = w.CalcDown("t_e", "C.1 ÷ I", p.Slow.CapacityAh, i, 2, arithmetic)
		d.CapacityAh = w.Calc("C_I", "C.1", p.Slow.CapacityAh, arithmetic)
		w.Note("no faster than the slow rating: its capacity, and no more")
	default:
		if err := p.between(&w, e, &d); err != nil {
			return Discharge{}, err
		}
	}
	d.Working = slices.Clip(w)
	return d, nil
}

// between adds what the battery gives at a current between those of its ratings.
func (p Peukert) between(w *working.Working, e Exponent, d *Discharge) error {
	i, _ := w.Value("I")
	share, k := ratio(p.Slow.CapacityAh, i.Mul(p.Slow.RateH)), e.Exponent.InexactFloat64()
	hours, errH := fixed("current_a", p.Slow.RateH.InexactFloat64()*math.Pow(share, k), 12)
	gives, errG := fixed("current_a", p.Slow.CapacityAh.InexactFloat64()*math.Pow(share, k-1), 12)
	law := cite.Peukert.At("referred to a rating", cite.FromMemory)
	d.TimeH = w.CalcDown("t_e", "H.1 × (C.1 ÷ (I × H.1)) ^ k_P", hours, one, 2, law)
	d.CapacityAh = w.CalcDown("C_I", "C.1 × (C.1 ÷ (I × H.1)) ^ (k_P − 1)", gives, one, 2, law)
	return errors.Join(errH, errG)
}

func checkCurrent(a decimal.Decimal) error {
	return fromTo("current_a", a, "0.01", 10_000)
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
	return &working.InputError{Field: "fast", Got: p.Fast.text(),
		Want: "fewer hours and no more capacity than the slow rating, at a greater current"}
}

func (r HourRating) check() error {
	return errors.Join(
		fromTo("capacity_ah", r.CapacityAh, "0.1", 10_000),
		fromTo("rate_h", r.RateH, "0.01", 1000),
	)
}

// text writes the rating as a label does: "100 Ah in 20 h".
func (r HourRating) text() string {
	return r.CapacityAh.String() + " Ah in " + r.RateH.String() + " h"
}

// capacityShare adds the share of the rated capacity that is there at a
// temperature. A multiplier is turned into a share, rounded down.
func capacityShare(w *working.Working, chemistry tables.Chemistry, atC decimal.Decimal) (decimal.Decimal, error) {
	f, err := tables.ColdCapacity(chemistry, atC)
	if err != nil {
		return decimal.Decimal{}, err
	}
	w.Given("T_b", atC)
	if f.Unit == "%" {
		return w.LookUp("c_T", f), nil
	}
	k := w.LookUp("k_T", f)
	return w.CalcDown("c_T", "100 ÷ k_T", hundred, k, 2, arithmetic), nil
}
