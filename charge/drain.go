package charge

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Drain is a converter that works while no alternator turns on its input side.
type Drain struct {
	Converter    Converter           `json:"converter"`     // at the lowest rested voltage of what feeds it
	HoursADay    decimal.NullDecimal `json:"drain_h"`       // that it works so; has to be stated
	FilledA      decimal.Decimal     `json:"filled_a"`      // of chargers on that side meanwhile, the least of it; the sun gives none
	SpareAh      decimal.Decimal     `json:"spare_ah"`      // of the batteries on that side: capacity × depth × age
	Filled       bool                `json:"filled"`        // something fills them at other times
	FedElsewhere bool                `json:"fed_elsewhere"` // by something else than its own output
}

// Check checks (C13) that the batteries which feed the converter can spare what it
// takes out of them in a day:
//
//	Q_dr = max(0, I_i − I_fl) × t_dn   [Ah]
//	Q_dr ≤ Q_sp, 0 where nothing ever fills them
//
// Of a converter that is fed from its own output what it takes must be less than what
// it gives, which no efficiency allows:
//
//	P_i < P_out
//
// I_i as in [Converter.Input]. Hours 0 to 24, currents and charge 0 to 100 000.
// Source: Kirchhoff's current law.
func (d Drain) Check() (working.Check, error) {
	in, err := d.Converter.Input()
	err = errors.Join(err,
		demanded("drain_h", d.HoursADay, 0, 24), working.Between("filled_a", d.FilledA, 0, 100_000),
		working.Between("spare_ah", d.SpareAh, 0, 100_000))
	if err != nil {
		return working.Check{}, err
	}
	if !d.FedElsewhere {
		return feedsItself(in), nil
	}
	w := working.Start(in.Working)
	net := greatest(decimal.Zero, in.InputA.Sub(w.Given("I_fl", d.FilledA)))
	w.Calc("Q_dr", "max(0, I_i − I_fl) × t_dn", net.Mul(w.Given("t_dn", d.HoursADay.Decimal)), cite.Kirchhoff.At("", cite.Published))
	if d.Filled {
		w.Given("Q_sp", d.SpareAh)
	} else {
		w.Calc("Q_sp", "0", decimal.Zero, cite.Kirchhoff.At("", cite.Published))
		w.Note("nothing ever fills them")
	}
	return w.Check("C13", "What feeds the converter", "Q_dr", "Q_sp"), nil
}

// feedsItself checks a converter that is fed from its own output.
func feedsItself(in Input) working.Check {
	c := in.Working.Check("C13", "What feeds the converter", "P_i", "P_out")
	c.Below, c.Working = true, slices.Clip(c.Working)
	return c
}
