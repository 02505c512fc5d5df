package charge

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Taper is a charge whose current is the source's until the battery takes less,
// and falls from then on with what is missing.
type Taper struct {
	MissingAh     decimal.Decimal `json:"missing_start_ah"`
	AcceptPerHour decimal.Decimal `json:"accept_per_hour"` // A for each Ah missing: 1 by the ampere-hour law
	LimitA        decimal.Decimal `json:"limit_a"`         // of the source
	From          working.Working `json:"from,omitempty"`  // the lines that gave MissingAh and AcceptPerHour
}

// TaperState is how far such a charge has come.
type TaperState struct {
	CurrentA  decimal.Decimal `json:"current_a"`
	MissingAh decimal.Decimal `json:"missing_ah"`
	Working   working.Working `json:"working"`
}

// After returns the current, and the charge still missing, so many hours after
// the start:
//
//	t_x = max(0, (Q_0 − I_max ÷ k_a) ÷ I_max)   the source's limit holds so long [h]
//	Q_m = Q_0 − I_max × t_c                     until then [Ah]
//	Q_m = Q_x × exp(−k_a × (t_c − t_x))         afterwards, Q_x missing at t_x
//	I   = min(I_max, k_a × Q_m)                 [A]
//
// Missing charge above 0 to 100 000 Ah, acceptance above 0 to 100 A/Ah, limit
// above 0 to 10 000 A, time 0 to 10 000 h. Source: the ampere-hour law of
// Woodbridge (k_a = 1) with the source's limit before it; Mas (1971) has the
// same exponential with another k_a. It is a law of lead-acid batteries and
// counts no loss: divide by the charge efficiency for what the source gives.
func (t Taper) After(timeH decimal.Decimal) (TaperState, error) {
	if err := errors.Join(t.check(), working.Between("charge_time_h", timeH, 0, 10_000)); err != nil {
		return TaperState{}, err
	}
	w := working.Start(t.From)
	at, left := t.limited(&w)
	c := w.Given("t_c", timeH)
	var missing decimal.Decimal
	var out exit
	if c.LessThanOrEqual(at) {
		missing = w.Calc("Q_m", "Q_0 − I_max × t_c", t.MissingAh.Sub(t.LimitA.Mul(c)), woodbridge)
	} else {
		decay := math.Exp(-t.AcceptPerHour.Mul(c.Sub(at)).InexactFloat64())
		missing = w.Calc("Q_m", "Q_x × exp(−k_a × (t_c − t_x))", out.fixed(left.InexactFloat64()*decay, 6), woodbridge)
	}
	current := w.Calc("I", "min(I_max, k_a × Q_m)", least(t.LimitA, t.AcceptPerHour.Mul(missing)), woodbridge)
	return TaperState{CurrentA: current, MissingAh: missing, Working: slices.Clip(w)}, out.err
}

// TaperTime is how long such a charge takes.
type TaperTime struct {
	TimeH   decimal.Decimal `json:"charge_time_h"`
	Working working.Working `json:"working"`
}

// Until returns the hours until only so much is missing:
//
//	t_c = (Q_0 − Q_m) ÷ I_max             while the source's limit holds [h]
//	t_c = t_x + ln(Q_x ÷ Q_m) ÷ k_a       afterwards
//
// The charge missing at the end is above 0 (the law never gets to full) and at
// most that at the start. Bounds and sources as for [Taper.After].
func (t Taper) Until(missingAh decimal.Decimal) (TaperTime, error) {
	if err := errors.Join(t.check(), working.Above("missing_ah", missingAh, 0, 100_000)); err != nil {
		return TaperTime{}, err
	}
	if missingAh.GreaterThan(t.MissingAh) {
		return TaperTime{}, &working.InputError{Field: "missing_ah", Got: missingAh.String(), Want: "at most missing_start_ah, " + t.MissingAh.String()}
	}
	w := working.Start(t.From)
	at, left := t.limited(&w)
	m := w.Given("Q_m", missingAh)
	var c decimal.Decimal
	var out exit
	if m.GreaterThanOrEqual(left) {
		c = w.Calc("t_c", "(Q_0 − Q_m) ÷ I_max", t.MissingAh.Sub(m).DivRound(t.LimitA, 4), woodbridge)
	} else {
		decay := math.Log(left.InexactFloat64()/m.InexactFloat64()) / t.AcceptPerHour.InexactFloat64()
		c = w.Calc("t_c", "t_x + ln(Q_x ÷ Q_m) ÷ k_a", out.fixed(at.InexactFloat64()+decay, 4), woodbridge)
	}
	return TaperTime{TimeH: c, Working: slices.Clip(w)}, out.err
}

// limited adds the lines of the part at the source's limit: how long it lasts,
// and what is missing at its end.
func (t Taper) limited(w *working.Working) (at, left decimal.Decimal) {
	q := w.Given("Q_0", t.MissingAh)
	k := w.Given("k_a", t.AcceptPerHour)
	i := w.Given("I_max", t.LimitA)
	// One division: (Q_0 − I_max ÷ k_a) ÷ I_max = (Q_0 × k_a − I_max) ÷ (k_a × I_max).
	x := greatest(decimal.Zero, q.Mul(k).Sub(i).DivRound(k.Mul(i), 6))
	at = w.Calc("t_x", "max(0, (Q_0 − I_max ÷ k_a) ÷ I_max)", x, woodbridge)
	left = w.Calc("Q_x", "Q_0 − I_max × t_x", q.Sub(i.Mul(at)), sums)
	return at, left
}

var woodbridge = cite.Woodbridge.At("ampere-hour law", cite.SecondHand)

func (t Taper) check() error {
	return errors.Join(
		working.Above("missing_start_ah", t.MissingAh, 0, 100_000),
		working.Above("accept_per_hour", t.AcceptPerHour, 0, 100),
		working.Above("limit_a", t.LimitA, 0, 10_000),
	)
}
