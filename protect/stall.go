package protect

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Stall is a motor whose rotor is held fast: a pump with a stone in it, a winch at
// its stop.
type Stall struct {
	CurrentA decimal.Decimal     `json:"current_a"`
	BearsS   decimal.NullDecimal `json:"stall_bears_s"`  // of the motor's data sheet; unset: not known
	From     working.Working     `json:"from,omitempty"` // the lines that gave the current
}

const stallTitle = "the device opens before a stalled motor is hurt"

// StopsStall judges whether the device opens before a stalled motor is hurt:
//
//	P29  t_hi ≤ t_mo
//
// A device is chosen for the cable and to ride through the start; often it need
// not open at all while the motor burns, which is then asked of a protector of the
// motor's own. It cannot be told where no gate says by when the device opens at
// that current, or where nobody knows how long the motor bears it. Current above 0
// to 1 000 000 A, time above 0 to 1 000 000 s. Sources: those of [Device.OpeningTime];
// that a fuse alone seldom guards a motor is common practice.
func (d Device) StopsStall(s Stall) (working.Check, error) {
	c, missing, err := d.known()
	err = errors.Join(err,
		working.Above("current_a", s.CurrentA, 0, 1_000_000),
		unsetOr(working.Above, "stall_bears_s", s.BearsS, 0, 1_000_000),
	)
	switch {
	case err != nil:
		return working.Check{}, err
	case missing != "":
		return cannotTell("P29", stallTitle, missing, nil), nil
	}
	w := working.Start(s.From)
	w.Given("I_n", d.RatingA)
	w.Given("I", s.CurrentA)
	if opens := mostTime(c.most, s.CurrentA, &w); !opens.Valid {
		return cannotTell("P29", stallTitle, fmt.Sprintf(
			"%s A of a stalled motor need not open a device of %s A: ask whether the motor has a protector of its own", s.CurrentA, d.RatingA), slices.Clip(w)), nil
	}
	if !s.BearsS.Valid {
		return cannotTell("P29", stallTitle, "ask the maker of the motor how long it bears standing still under voltage", slices.Clip(w)), nil
	}
	w.LookUp("t_mo", dataSheet(s.BearsS.Decimal, "s"))
	return d.shown(w.Check("P29", stallTitle, "t_hi", "t_mo"), c, s.CurrentA), nil
}
