package wire

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Run is one supply conductor and its return of the same size.
type Run struct {
	CurrentA       decimal.Decimal `json:"current_a"`
	LengthM        decimal.Decimal `json:"length_m"` // one way; the return is added
	MilliohmPerM   decimal.Decimal `json:"resistance_mohm_per_m"`
	JointsMilliohm decimal.Decimal `json:"joints_milliohm"` // every contact of the loop together
	From           working.Working `json:"-"`               // the lines that gave MilliohmPerM; nil where it is given
}

// Drop is what a run loses.
type Drop struct {
	LoopMilliohm decimal.Decimal `json:"loop_milliohm"`
	DropV        decimal.Decimal `json:"drop_v"`
	Working      working.Working `json:"working"`
}

// Drop returns the voltage lost out and back, joints included:
//
//	R  = 2 × L × R_T + R_j   [mΩ]
//	ΔU = I × R ÷ 1000        [V]
//
// Current 0 to 10 000 A, length above 0 to 500 m, resistance above 0 to
// 1000 mΩ/m, joints 0 to 1000 mΩ; anything else is an error that names every
// fault. Source: Ohm's law.
func (r Run) Drop() (Drop, error) {
	if err := r.check(); err != nil {
		return Drop{}, err
	}
	w := working.Start(r.From)
	rT := w.Given("R_T", r.MilliohmPerM)
	l := w.Given("L", r.LengthM)
	rJ := w.Given("R_j", r.JointsMilliohm)
	law := cite.OhmsLaw.At("", cite.Published)
	loop := w.Calc("R", "2 × L × R_T + R_j", two.Mul(l).Mul(rT).Add(rJ), law)
	i := w.Given("I", r.CurrentA)
	drop := w.Calc("ΔU", "I × R ÷ 1000", i.Mul(loop).Shift(-3), law)
	return Drop{LoopMilliohm: loop, DropV: drop, Working: slices.Clip(w)}, nil
}

func (r Run) check() error {
	return errors.Join(
		working.Between("current_a", r.CurrentA, 0, 10_000),
		working.Above("length_m", r.LengthM, 0, 500),
		working.Above("resistance_mohm_per_m", r.MilliohmPerM, 0, 1000),
		working.Between("joints_milliohm", r.JointsMilliohm, 0, 1000),
	)
}
