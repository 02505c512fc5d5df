package protect

import (
	"errors"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Place is where a device sits on the conductor that leaves a source.
type Place struct {
	AlongMM   decimal.NullDecimal `json:"source_to_device_mm"` // along the conductor, not through the air; 0: bolted to the source
	Sheathed  bool                `json:"sheathed"`            // in a sheath or enclosure all the way
	AtBattery bool                `json:"at_battery"`          // the conductor sits on a battery's terminal
	SetName   string              `json:"rules"`               // of the rule set, to name it where it is silent
}

const placeTitle = "the device is near enough to its source"

// Check judges the distance from the source:
//
//	P06  l_d ≤ l_max    (< where the code says "less than")
//
// The limit for a battery's terminal holds for a sheathed conductor on one, that
// for sheathed conductors for any source, and else the limit for bare ones; what
// the set does not state falls back on the next. The distance runs from 0 to
// 100 000 mm and is always asked. Sources: the rule set's own clauses.
func (p Place) Check(r tables.PlaceRule) (working.Check, error) {
	limit, why := p.limit(r)
	if err := errors.Join(p.check(), stated("source_to_device_limit_mm", limit, 0, 100_000)); err != nil {
		return working.Check{}, err
	}
	if !limit.Stated() {
		return notApplicable("P06", placeTitle, silence(p.SetName, "the distance of a device from its source")), nil
	}
	var w working.Working
	w.Given("l_d", p.AlongMM.Decimal)
	w.LookUp("l_max", limit)
	w.Note(why)
	c := w.Check("P06", placeTitle, "l_d", "l_max")
	c.Below = tables.StrictlyBelow(limit)
	return c, nil
}

func (p Place) check() error {
	if !p.AlongMM.Valid {
		return &working.InputError{Field: "source_to_device_mm", Got: "unset", Want: "the length of conductor from the source to the device, 0 to 100000"}
	}
	return working.Between("source_to_device_mm", p.AlongMM.Decimal, 0, 100_000)
}

// limit returns the limit that applies, and why.
func (p Place) limit(r tables.PlaceRule) (working.Figure, string) {
	switch {
	case p.Sheathed && p.AtBattery && r.AtBattery.Stated():
		return r.AtBattery, "for a sheathed conductor on a battery's terminal"
	case p.Sheathed && r.Sheathed.Stated():
		return r.Sheathed, "for a conductor sheathed all the way"
	case p.Sheathed:
		return r.Bare, "the rule set has no longer limit for a sheathed conductor"
	default:
		return r.Bare, "for a conductor without a sheath all the way"
	}
}

// ConductorEnd is one end of a conductor that a source can feed.
type ConductorEnd struct {
	Fitted    bool                `json:"fitted"`         // a device guards this end
	Cranking  bool                `json:"cranking"`       // the conductor's purpose is cranking an engine
	LimitA    decimal.NullDecimal `json:"source_limit_a"` // greatest current of a source that limits itself; unset: it does not
	AmpacityA decimal.Decimal     `json:"ampacity_a"`     // of the run, corrected
	From      working.Working     `json:"from,omitempty"` // the lines that gave the ampacity
}

const dueTitle = "a device guards the conductor where it is due"

// Check judges whether this end may go without a device. A device is due at
// every end that a source can feed, and wherever the conductor gets smaller:
//
//	P07  n_due ≤ n_fit, or I_s ≤ I_z at a source that limits itself
//
// Only two ends go without: of a conductor whose purpose is cranking, and at a
// source that limits its own current to what the whole run carries. What
// branches off an exempt conductor is not exempt. Ampacity above 0 to 10 000 A,
// limit 0 to 10 000 A.
//
// Sources: the rule set's own clause on where its devices are due; that this is one
// device an end, and one at any source whose distance from its device a set limits, is
// our deduction, and without a set practice. That cranking goes without is of 33 CFR
// 183.460(a), from memory, and for batteries up to 60 V of NFPA 70 clause 480.6; that
// limited sources do is of 33 CFR 183.460(b), from memory.
func (e ConductorEnd) Check(r tables.PlaceRule) (working.Check, error) {
	err := errors.Join(
		working.Above("ampacity_a", e.AmpacityA, 0, 10_000),
		unsetOr(working.Between, "source_limit_a", e.LimitA, 0, 10_000),
	)
	switch {
	case err != nil:
		return working.Check{}, err
	case e.Cranking && !e.Fitted:
		return notApplicable("P07", dueTitle, "the conductor's purpose is cranking; what branches off it wants a device"), nil
	case e.LimitA.Valid && !e.Fitted:
		w := working.Start(e.From)
		w.Given("I_s", e.LimitA.Decimal)
		w.Given("I_z", e.AmpacityA)
		return w.Check("P07", dueTitle, "I_s", "I_z"), nil
	}
	return e.count(r), nil
}

// dueBy is one device an end, by the clause of the rule set that bears on it.
func dueBy(r tables.PlaceRule) working.Figure {
	due := r.Due
	switch {
	case due.Stated():
	case r.Bare.Stated():
		due.Source = r.Bare.Source
		due.Note = "deduced: the clause limits how far from its source a device may be"
	default:
		due.Source = cite.Practice.At("a device at each end that a source can feed", cite.CommonPractice)
	}
	due.Value = decimal.NewFromInt(1)
	return due
}

func (e ConductorEnd) count(r tables.PlaceRule) working.Check {
	fitted := decimal.Zero
	if e.Fitted {
		fitted = decimal.NewFromInt(1)
	}
	w := working.Start(e.From)
	w.LookUp("n_due", dueBy(r))
	w.Given("n_fit", fitted)
	return w.Check("P07", dueTitle, "n_due", "n_fit")
}
