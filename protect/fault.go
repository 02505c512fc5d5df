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
	From      working.Working `json:"from,omitempty"` // the lines that gave the current
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
// Sources: those of [Device.OpeningTime].
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

// FarFault is a short circuit at the far end of the longest cable that a device
// guards, and what is known of the cable.
type FarFault struct {
	LeastFaultA    decimal.Decimal     `json:"least_fault_a"`    // everything hot, the sources low and old
	GreatestFaultA decimal.NullDecimal `json:"greatest_fault_a"` // wanted for a breaker
	LimitedA       decimal.NullDecimal `json:"source_limit_a"`   // set where only sources that limit themselves feed it: their sum; above 0 to 10 000
	AmpacityA      decimal.NullDecimal `json:"ampacity_a"`       // wanted with LimitedA; above 0 to 10 000
	Cable          Cable               `json:"cable"`
	HeatsInS       decimal.NullDecimal `json:"heats_in_s"`     // by the heating equation at LeastFaultA; wanted above 5 s
	From           working.Working     `json:"from,omitempty"` // the lines that gave the currents
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
// lets through more the larger the fault, and is judged at both. A fault that no
// gate says opens the device is no pass, however little the cable minds it: a short
// circuit that nothing opens burns where it is. Up to the rating the device never
// opens, and the rule fails; above it, and of a device whose gates no table has, it
// cannot be told.
//
// The last gate of a standard bounds the time at all greater currents, but shows
// nothing of a device there: one that opens within 600 s at twice its rating opens
// within a second at thirty times. So a device that passes by it passes, and one
// that does not fails only up to twice that gate's current; beyond that it cannot
// be told. Gates of the article's own are taken as its word.
//
// The adiabatic equation counts to 5 s; an opening time beyond that wants
// HeatsInS, the time of the heating equation, or cannot be told. Currents above
// 0 to 1 000 000 A; the ranges of [Device.OpeningTime] and [Cable.Withstand] hold.
// Source: IEC 60364-4-43 clause 434.5.2.
func (d Device) Clears(f FarFault) ([]working.Check, error) {
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
	checks := []working.Check{d.clears("P09", clearsTitle, "I_kl", c, f, f.LeastFaultA)}
	if c.fuse {
		return checks, nil
	}
	if !f.GreatestFaultA.Valid {
		missing := "work out the largest fault at the device: a breaker lets through more the larger the fault"
		return append(checks, cannotTell("P11", largeTitle, missing, nil)), nil
	}
	f.HeatsInS = decimal.NullDecimal{} // it holds for the smallest fault
	return append(checks, d.clears("P11", largeTitle, "I_k", c, f, f.GreatestFaultA.Decimal)), nil
}

func (f FarFault) check() error {
	var alone, order error
	if f.LimitedA.Valid && !f.AmpacityA.Valid {
		alone = &working.InputError{Field: "ampacity_a", Got: "unset", Want: "the ampacity of the run that the limited source feeds"}
	}
	if f.LimitedA.Valid {
		return errors.Join(unsetOr(working.Above, "ampacity_a", f.AmpacityA, 0, 10_000), f.checkFaults(), alone)
	}
	err := errors.Join(
		working.Above("least_fault_a", f.LeastFaultA, 0, 1_000_000),
		unsetOr(working.Above, "greatest_fault_a", f.GreatestFaultA, 0, 1_000_000),
		unsetOr(working.Above, "ampacity_a", f.AmpacityA, 0, 10_000),
		unsetOr(working.Above, "heats_in_s", f.HeatsInS, 0, 1_000_000),
		working.In("cable", f.Cable.check()),
	)
	if err == nil && f.GreatestFaultA.Valid && f.GreatestFaultA.Decimal.LessThan(f.LeastFaultA) {
		order = &working.InputError{Field: "greatest_fault_a", Got: f.GreatestFaultA.Decimal.String(), Want: "no less than least_fault_a"}
	}
	return errors.Join(err, order)
}

// checkFaults wants no greater fault than limited sources alone can feed.
func (f FarFault) checkFaults() error {
	limit := f.LimitedA.Decimal
	err := errors.Join(
		working.Above("source_limit_a", limit, 0, 10_000),
		working.Between("least_fault_a", f.LeastFaultA, 0, 1_000_000),
		unsetOr(working.Between, "greatest_fault_a", f.GreatestFaultA, 0, 1_000_000),
	)
	if err == nil && decimal.Max(f.LeastFaultA, f.GreatestFaultA.Decimal).GreaterThan(limit) {
		return &working.InputError{Field: "source_limit_a", Got: limit.String(), Want: "no less than the fault, or unset: something else feeds it too"}
	}
	return err
}

// limited is the check of a fault that opens no device.
func (f FarFault) limited() working.Check {
	w := working.Start(f.From)
	w.Given("I_s", f.LimitedA.Decimal)
	w.Given("I_z", f.AmpacityA.Decimal)
	return w.Check("P10", limitTitle, "I_s", "I_z")
}

// clears judges one fault current, which stands under a symbol.
func (d Device) clears(id, title, symbol string, c characteristic, f FarFault, faultA decimal.Decimal) working.Check {
	w := slices.Grow(working.Start(f.From, f.Cable.From), 13)
	w.Given("I_n", d.RatingA)
	w.Given(symbol, faultA)
	let, opens := c.energy(symbol, faultA, &w)
	switch {
	case !opens:
		return d.neverOpens(id, title, symbol, c, faultA, w)
	case let.GreaterThan(fiveSeconds.Mul(faultA).Mul(faultA)):
		return d.shown(f.slow(id, title, lasting(symbol, faultA, let, &w), w), c, faultA)
	}
	f.Cable.energy(&w)
	return d.shown(w.Check(id, title, "W_k", "W_z"), c, faultA)
}

// neverOpens is the check of a fault that no gate says opens the device: the
// current that does is above it. Up to the rating that is certain.
func (d Device) neverOpens(id, title, symbol string, c characteristic, faultA decimal.Decimal, w working.Working) working.Check {
	missing := fmt.Sprintf(
		"a fault of %s A need not open the device: make the cable shorter or thicker, or ask the maker for the opening time at that current", asShown(faultA))
	if len(c.most) == 0 {
		return cannotTell(id, title, missing, slices.Clip(w))
	}
	w.LookUp("I_g", c.most[0].current)
	failed := w.Check(id, title, "I_g", symbol)
	if faultA.GreaterThan(d.RatingA) {
		failed.Missing = missing
	}
	return failed
}

// shown turns a failure into a question where only a far gate of the standard
// stands for the device: a bound from far below the current is no proof. The
// instantaneous release of a breaker is no such gate: it takes its time at any
// current.
func (d Device) shown(failed working.Check, c characteristic, currentA decimal.Decimal) working.Check {
	if failed.Verdict() != working.Fails || c.ownMost {
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
func (f FarFault) slow(id, title string, t decimal.Decimal, w working.Working) working.Check {
	if !f.HeatsInS.Valid {
		return cannotTell(id, title, fmt.Sprintf(
			"the fault may last %s s and the adiabatic equation counts to 5 s: work out by the heating equation how long the cable takes to reach its limit", t), slices.Clip(w))
	}
	w.Given("t_h", f.HeatsInS.Decimal)
	return w.Check(id, title, "t_k", "t_h")
}

var falls = cite.Practice.At("what a fuse lets through falls as the current rises", cite.CommonPractice)

// LetThrough is what a device lets through of a fault at the most.
type LetThrough struct {
	EnergyA2S decimal.NullDecimal `json:"let_through_a2s"` // unset: the device need not open
	TimeS     decimal.NullDecimal `json:"fault_s"`         // for as long as that lasts at the fault's current
	Working   working.Working     `json:"working,omitempty"`
}

// LetThrough returns the most that the device lets through of a fault, from cold:
//
//	W_k = I² × t_hi       [A²s]
//	t_k = W_k ÷ I_k²      [s], rounded up to 0.001
//
// I is the fault's own current I_k, but for a fuse no more than that of its last
// gate: what a fuse lets through falls as the current rises, so that above its last
// gate it opens the sooner the larger the fault, where [Device.OpeningTime] only has
// that gate's time. The fall is practice, no clause of a standard: with more current
// less heat is lost while the element melts. Below the first gate that opens the
// device nothing is known. Current above 0 to 1 000 000 A; the errors are those of
// [Device.OpeningTime]. Sources: those of [Device.OpeningTime].
func (d Device) LetThrough(faultA decimal.Decimal) (LetThrough, error) {
	c, err := d.characteristic()
	if err = errors.Join(err, working.Above("current_a", faultA, 0, 1_000_000)); err != nil {
		return LetThrough{}, err
	}
	w := make(working.Working, 0, 10)
	w.Given("I_n", d.RatingA)
	w.Given("I_k", faultA)
	var a LetThrough
	if energy, ok := c.energy("I_k", faultA, &w); ok {
		a.EnergyA2S = decimal.NewNullDecimal(energy)
		a.TimeS = decimal.NewNullDecimal(lasting("I_k", faultA, energy, &w))
	}
	a.Working = slices.Clip(w)
	return a, nil
}

// energy adds the lines of what the device lets through; it is not ok where no gate
// says that it opens.
func (c characteristic) energy(symbol string, faultA decimal.Decimal, w *working.Working) (let decimal.Decimal, ok bool) {
	judged := c.judgedAt(symbol, faultA, w)
	opens := mostTime(c.most, judged, w)
	if !opens.Valid {
		return let, false
	}
	return w.Calc("W_k", "I × I × t_hi", judged.Mul(judged).Mul(opens.Decimal), adiabatic), true
}

// lasting adds the line of the time in which a fault gives so much energy.
func lasting(symbol string, faultA, energy decimal.Decimal, w *working.Working) decimal.Decimal {
	return w.CalcUp("t_k", fmt.Sprintf("W_k ÷ (%s × %s)", symbol, symbol), energy, faultA.Mul(faultA), 3, adiabatic)
}

// judgedAt adds the line of the current at which the energy is judged: the
// fault's own, but for a fuse no more than that of its last gate.
func (c characteristic) judgedAt(symbol string, faultA decimal.Decimal, w *working.Working) decimal.Decimal {
	if !c.fuse || len(c.most) == 0 {
		return w.Calc("I", symbol, faultA, sum)
	}
	last := w.LookUp("I_g", c.most[len(c.most)-1].current)
	return w.Calc("I", "min("+symbol+", I_g)", decimal.Min(faultA, last), falls)
}
