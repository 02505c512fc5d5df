package protect

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Switch is a switch or relay contact with the load that it makes and breaks.
type Switch struct {
	SystemV  decimal.Decimal `json:"system_v"`  // above 0 to 100
	CurrentA decimal.Decimal `json:"current_a"` // of the load, running
	Load     string          `json:"load"`      // lamp, inductive, resistive or motor
	RatingA  decimal.Decimal `json:"switch_rating_a"`

	StartA decimal.NullDecimal `json:"start_a"`        // while the load starts, as the job states it; unset: it does not
	MakesA decimal.NullDecimal `json:"makes_a"`        // current on which the contact may close, of its data sheet
	From   working.Working     `json:"from,omitempty"` // the lines that gave the currents
}

const (
	switchTitle   = "the switch bears its kind of load"
	makesTitle    = "the switch bears to close on the start"
	isolatorTitle = "the isolator carries the full current"
	shortTitle    = "the isolator bears the starting current"

	askStart = "state the greatest current while something behind it starts, or 0 where nothing does"
)

// Check judges the rating of the contact, on d.c., by the kind of load:
//
//	P14  k_sw × I ≤ I_sw
//
// A lamp draws many times its current when cold, and a motor while it starts;
// an inductive load draws an arc. A rating for a.c. does not serve. System above
// 0 to 28 V (24 V takes the rows for 28 V), current above 0 to 10 000 A, rating
// 0 to 10 000 A. Source: FAA AC 43.13-1B table 11-4.
func (s Switch) Check() (working.Check, error) {
	factor, err := s.factor()
	err = errors.Join(err,
		working.Above("current_a", s.CurrentA, 0, 10_000),
		working.Between("switch_rating_a", s.RatingA, 0, 10_000),
	)
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(s.From)
	w.Given("U_n", s.SystemV)
	i := w.Given("I", s.CurrentA)
	w.Calc("I_sn", "k_sw × I", w.LookUp("k_sw", factor).Mul(i), factor.Source.Document())
	w.Given("I_sw", s.RatingA)
	return w.Check("P14", switchTitle, "I_sn", "I_sw"), nil
}

// factor is what a kind of load asks of its contact.
func (s Switch) factor() (working.Figure, error) {
	if err := working.Above("system_v", s.SystemV, 0, 100); err != nil {
		_, unlisted := tables.SwitchFactor(decimal.NewFromInt(12), s.Load)
		return working.Figure{}, errors.Join(err, unlisted)
	}
	return tables.SwitchFactor(s.SystemV, s.Load)
}

// makes is what a contact closes on without a figure of its own: that of the
// category for resistive loads, the least of all.
func makes() (working.Figure, error) {
	f, _, err := tables.CategoryFactors("DC-1")
	f.Note = "its data sheet does not state it"
	return f, err
}

// Start judges whether the contact bears to close on a start that is known:
//
//	P14  I_st ≤ I_mk,  I_mk = k_mk × I_sw without a figure of the data sheet
//
// A contact that closes on more bounces in an arc and welds. The factors of
// [Switch.Check] allow for an ordinary start, not for a harder one. It does not
// apply where nothing starts (a start of 0 A), and cannot be told where nobody says.
// Rating 0 to 10 000 A, currents 0 to 100 000 A.
// Source: IEC 60947-4-1 table 7 (category DC-1 makes and breaks 1.5 times its
// rating), from memory.
func (s Switch) Start() (working.Check, error) {
	err := errors.Join(
		working.Between("switch_rating_a", s.RatingA, 0, 10_000),
		unsetOr(working.Between, "start_a", s.StartA, 0, 100_000),
		unsetOr(working.Above, "makes_a", s.MakesA, 0, 100_000),
	)
	switch {
	case err != nil:
		return working.Check{}, err
	case !s.StartA.Valid:
		return cannotTell("P14", makesTitle, askStart, nil), nil
	case s.StartA.Decimal.IsZero():
		return notApplicable("P14", makesTitle, "nothing that starts passes through it"), nil
	}
	w := working.Start(s.From)
	w.Given("I_st", s.StartA.Decimal)
	if s.MakesA.Valid {
		w.LookUp("I_mk", dataSheet(s.MakesA.Decimal, "A"))
		return w.Check("P14", makesTitle, "I_st", "I_mk"), nil
	}
	times, err := makes()
	if err != nil {
		return working.Check{}, err
	}
	rating := w.Given("I_sw", s.RatingA)
	w.Calc("I_mk", "k_mk × I_sw", w.LookUp("k_mk", times).Mul(rating), times.Source.Document())
	return w.Check("P14", makesTitle, "I_st", "I_mk"), nil
}

// Isolator is a battery switch or any contact that opens without load.
type Isolator struct {
	CurrentA   decimal.NullDecimal `json:"current_a"`       // of everything behind it, at once
	RatingA    decimal.Decimal     `json:"switch_rating_a"` // without end
	StartA     decimal.NullDecimal `json:"start_a"`         // cranking or inverter surge; 0: none passes
	ShortTimeA decimal.NullDecimal `json:"short_time_a"`    // rating for as long as the start lasts
	From       working.Working     `json:"from,omitempty"`  // the lines that gave the currents
}

// Checks judges the isolator:
//
//	P15  I ≤ I_sw       the full current, without end
//	P16  I_st ≤ I_cw    the starting current, for its time
//
// P16 does not apply where no starting current passes (0 A), and cannot be told where
// it or the short-time rating is not known. Currents 0 to 10 000 A; the full current is
// always asked. Source: common practice; for small craft ISO 10133 clause 6 asks it,
// from memory.
func (i Isolator) Checks() ([]working.Check, error) {
	err := errors.Join(
		i.checkCurrent(),
		working.Between("switch_rating_a", i.RatingA, 0, 10_000),
		unsetOr(working.Between, "start_a", i.StartA, 0, 10_000),
		unsetOr(working.Between, "short_time_a", i.ShortTimeA, 0, 10_000),
	)
	if err != nil {
		return nil, err
	}
	w := working.Start(i.From)
	w.Given("I", i.CurrentA.Decimal)
	w.LookUp("I_sw", dataSheet(i.RatingA, "A"))
	return []working.Check{w.Check("P15", isolatorTitle, "I", "I_sw"), i.start()}, nil
}

func (i Isolator) checkCurrent() error {
	if !i.CurrentA.Valid {
		return &working.InputError{Field: "current_a", Got: "unset", Want: "the current of everything behind the isolator, 0 to 10000"}
	}
	return working.Between("current_a", i.CurrentA.Decimal, 0, 10_000)
}

func (i Isolator) start() working.Check {
	switch {
	case !i.StartA.Valid:
		return cannotTell("P16", shortTitle, askStart, nil)
	case i.StartA.Decimal.IsZero():
		return notApplicable("P16", shortTitle, "no starting current passes through it")
	}
	w := working.Start(i.From)
	w.Given("I_st", i.StartA.Decimal)
	if !i.ShortTimeA.Valid {
		return cannotTell("P16", shortTitle, "ask the maker of the switch for its short-time rating, and for how long it holds", slices.Clip(w))
	}
	w.LookUp("I_cw", dataSheet(i.ShortTimeA.Decimal, "A"))
	return w.Check("P16", shortTitle, "I_st", "I_cw")
}
