package protect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Surge is a current that the device must let pass.
type Surge struct {
	CurrentA  decimal.Decimal `json:"current_a"`
	DurationS decimal.Decimal `json:"surge_s"`
	From      working.Working `json:"-"` // the lines that gave the current
}

const (
	ridesTitle  = "the device rides through the surge"
	clearsTitle = "the device opens before the cable is hurt"
	limitTitle  = "a limited source alone need never open the device, and stays within the cable"
	largeTitle  = "the breaker opens before the cable is hurt at its largest fault"
)

// RidesThrough judges whether the device stays closed while a load starts:
//
//	P08  t_su ≤ t_lo
//
// A surge no greater than the rating opens nothing, and the rule does not apply.
// What a data sheet does not say of a current, the gates of the standard do: the
// article complies with it. Where no gate says that the device holds at that
// current, or no table has its gates, it cannot be told.
// Current above 0 to 1 000 000 A, duration above 0 to 1 000 000 s.
// Sources: those of [Device.Opening].
func (d Device) RidesThrough(s Surge) (working.Check, error) {
	c, missing, err := d.known()
	err = errors.Join(err,
		working.Above("current_a", s.CurrentA, 0, 1_000_000),
		working.Above("surge_s", s.DurationS, 0, 1_000_000),
	)
	switch {
	case err != nil:
		return working.Check{}, err
	case s.CurrentA.LessThanOrEqual(d.RatingA):
		return notApplicable("P08", ridesTitle, "the surge is no greater than the rating"), nil
	case missing != "":
		return cannotTell("P08", ridesTitle, missing, nil), nil
	}
	w := working.Start(s.From)
	w.Given("I_n", d.RatingA)
	w.Given("I", s.CurrentA)
	w.Given("t_su", s.DurationS)
	if holds := leastTime(d.heldBy(c, s.CurrentA), s.CurrentA, &w); !holds.Valid {
		return cannotTell("P08", ridesTitle, fmt.Sprintf(
			"ask the maker for the shortest time in which a %s A device opens at %s A", d.RatingA, asShown(s.CurrentA)), slices.Clip(w)), nil
	}
	return w.Check("P08", ridesTitle, "t_su", "t_lo"), nil
}

// heldBy is the earlier side that tells of a current: of the article's own gates,
// or where they say nothing of it that of its standard.
func (d Device) heldBy(own characteristic, currentA decimal.Decimal) []point {
	var scrap working.Working
	if len(d.Gates) == 0 || leastTime(own.least, currentA, &scrap).Valid || mostTime(own.most, currentA, &scrap).Valid {
		return own.least
	}
	standard, err := Device{Family: d.Family, RatingA: d.RatingA}.characteristic()
	if err != nil {
		return own.least
	}
	return standard.least
}

// Fault is a short circuit at the far end of the longest cable that a device
// guards, and what is known of the cable.
type Fault struct {
	SmallestA decimal.Decimal     `json:"fault_a"`         // everything hot, the sources low and old
	LargestA  decimal.NullDecimal `json:"largest_fault_a"` // wanted for a breaker
	LimitedA  decimal.NullDecimal `json:"source_limit_a"`  // set where only sources that limit themselves feed it: their sum
	AmpacityA decimal.NullDecimal `json:"ampacity_a"`      // wanted with LimitedA
	Cable     Cable               `json:"cable"`
	HeatsInS  decimal.NullDecimal `json:"heats_in_s"` // by the heating equation at SmallestA; wanted above 5 s
	From      working.Working     `json:"-"`          // the lines that gave the currents
}

// Clears judges whether the device opens before the fault hurts the cable:
//
//	P09  I² × t_hi ≤ k² × S²    where it opens within 5 s, else t_k ≤ t_h
//	P10  I_s ≤ I_z              where a limited source alone feeds the fault
//	P11  P09 at the largest fault, of a breaker
//
// A current-limited source (a converter, a charger, a module) alone opens no
// fuse: the device need never open, and only P10 is asked. A fuse is judged at
// the smallest fault, because what it lets through falls as the current rises:
// above its last gate it lets through no more than at that gate. A breaker
// lets through more the larger the fault, and is judged at both. A fault that
// the device need not open at passes only within the ampacity. A device whose
// gates no table has cannot be told.
//
// The last gate of a standard bounds the time at all greater currents, but shows
// nothing of a device there: one that opens within 600 s at twice its rating opens
// within a second at thirty times. So a device that passes by it passes, and one
// that does not fails only up to twice that gate's current; beyond that it cannot
// be told. Gates of the article's own are taken as its word.
//
// The adiabatic equation counts to 5 s; an opening time beyond that wants
// HeatsInS, the time of the heating equation, or cannot be told. Currents above
// 0 to 1 000 000 A; the ranges of [Device.Opening] and [Cable.Withstand] hold.
// Source: IEC 60364-4-43 clause 434.5.2.
func (d Device) Clears(f Fault) ([]working.Check, error) {
	c, missing, err := d.known()
	if err = errors.Join(err, f.check()); err != nil {
		return nil, err
	}
	switch {
	case f.LimitedA.Valid:
		return []working.Check{f.limited()}, nil
	case missing != "":
		return []working.Check{cannotTell("P09", clearsTitle, missing, nil)}, nil
	}
	checks := []working.Check{d.clears("P09", clearsTitle, c, f, f.SmallestA)}
	if c.fuse {
		return checks, nil
	}
	if !f.LargestA.Valid {
		missing := "work out the largest fault at the device: a breaker lets through more the larger the fault"
		return append(checks, cannotTell("P11", largeTitle, missing, nil)), nil
	}
	f.HeatsInS = decimal.NullDecimal{} // it holds for the smallest fault
	return append(checks, d.clears("P11", largeTitle, c, f, f.LargestA.Decimal)), nil
}

func (f Fault) check() error {
	var alone, order error
	if f.LimitedA.Valid && !f.AmpacityA.Valid {
		alone = &working.InputError{Field: "ampacity_a", Got: "unset", Want: "the ampacity of the run that the limited source feeds"}
	}
	if f.LimitedA.Valid {
		return errors.Join(
			working.Above("source_limit_a", f.LimitedA.Decimal, 0, 10_000),
			unsetOr(working.Above, "ampacity_a", f.AmpacityA, 0, 10_000),
			alone,
		)
	}
	err := errors.Join(
		working.Above("fault_a", f.SmallestA, 0, 1_000_000),
		unsetOr(working.Above, "largest_fault_a", f.LargestA, 0, 1_000_000),
		unsetOr(working.Above, "ampacity_a", f.AmpacityA, 0, 10_000),
		unsetOr(working.Above, "heats_in_s", f.HeatsInS, 0, 1_000_000),
		working.In("cable", f.Cable.check()),
	)
	if err == nil && f.LargestA.Valid && f.LargestA.Decimal.LessThan(f.SmallestA) {
		order = &working.InputError{Field: "largest_fault_a", Got: f.LargestA.Decimal.String(), Want: "no less than fault_a"}
	}
	return errors.Join(err, order)
}

// limited is the check of a fault that opens no device.
func (f Fault) limited() working.Check {
	w := working.Start(f.From)
	w.Given("I_s", f.LimitedA.Decimal)
	w.Given("I_z", f.AmpacityA.Decimal)
	return w.Check("P10", limitTitle, "I_s", "I_z")
}

// clears judges one fault current.
func (d Device) clears(id, title string, c characteristic, f Fault, faultA decimal.Decimal) working.Check {
	w := slices.Grow(working.Start(f.From, f.Cable.From), 13)
	w.Given("I_n", d.RatingA)
	w.Given("I_k", faultA)
	judged := c.judgedAt(faultA, &w)
	opens := mostTime(c.most, judged, &w)
	switch {
	case !opens.Valid && f.AmpacityA.Valid && faultA.LessThanOrEqual(f.AmpacityA.Decimal):
		w.Given("I_z", f.AmpacityA.Decimal)
		return w.Check(id, title, "I_k", "I_z")
	case !opens.Valid:
		return cannotTell(id, title, fmt.Sprintf(
			"a fault of %s A need not open the device: make the cable shorter or thicker, or ask the maker for the opening time at that current", asShown(faultA)), slices.Clip(w))
	}
	let := w.Calc("W_k", "I × I × t_hi", judged.Mul(judged).Mul(opens.Decimal), adiabatic)
	if square := faultA.Mul(faultA); let.GreaterThan(fiveSeconds.Mul(square)) {
		t := w.Calc("t_k", "ceil(W_k ÷ (I_k × I_k) × 1000) ÷ 1000", ceilDiv(let, square, 3), adiabatic)
		return d.shown(f.slow(id, title, t, w), c, faultA)
	}
	f.Cable.energy(&w)
	return d.shown(w.Check(id, title, "W_k", "W_z"), c, faultA)
}

// shown turns a failure into a question where only a far gate of the standard
// stands for the device: a bound from far below the current is no proof. The
// instantaneous release of a breaker is no such gate: it takes its time at any
// current.
func (d Device) shown(failed working.Check, c characteristic, currentA decimal.Decimal) working.Check {
	if failed.Verdict() != working.Fails || len(d.Gates) > 0 {
		return failed
	}
	last := c.most[len(c.most)-1]
	released := !c.fuse && last.timeS.LessThanOrEqual(decimal.NewFromInt(1))
	if at := last.current.Value; !released && currentA.GreaterThan(at.Add(at)) {
		failed.Missing = fmt.Sprintf(
			"the last gate of its standard is at %s A, far below %s A: ask the maker by when it opens at a current near that, and state opens_a and opens_by_s", at, asShown(currentA))
	}
	return failed
}

// asShown writes a current as a line of working does.
func asShown(a decimal.Decimal) string {
	text, _ := working.Show(a)
	return text
}

// slow is the check of a fault that lasts beyond 5 s.
func (f Fault) slow(id, title string, t decimal.Decimal, w working.Working) working.Check {
	if !f.HeatsInS.Valid {
		return cannotTell(id, title, fmt.Sprintf(
			"the fault may last %s s and the adiabatic equation counts to 5 s: work out by the heating equation how long the cable takes to reach its limit", t), slices.Clip(w))
	}
	w.Given("t_h", f.HeatsInS.Decimal)
	return w.Check(id, title, "t_k", "t_h")
}

var falls = cite.Practice.At("what a fuse lets through falls as the current rises", cite.CommonPractice)

// judgedAt adds the line of the current at which the energy is judged: the
// fault's own, but for a fuse no more than that of its last gate.
func (c characteristic) judgedAt(faultA decimal.Decimal, w *working.Working) decimal.Decimal {
	if !c.fuse || len(c.most) == 0 {
		return w.Calc("I", "I_k", faultA, sum)
	}
	last := w.LookUp("I_g", c.most[len(c.most)-1].current)
	return w.Calc("I", "min(I_k, I_g)", decimal.Min(faultA, last), falls)
}
