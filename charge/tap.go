package charge

import (
	"errors"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CentreTap is a load of half the voltage taken from the middle of a bank of two
// halves in series: 12 V from a 24 V bank.
type CentreTap struct {
	TapA       decimal.Decimal `json:"tap_a"`          // above 0 to 1000
	TapH       decimal.Decimal `json:"tap_h"`          // a day
	EqualiserA decimal.Decimal `json:"equaliser_a"`    // 0: none; 0 to 1000
	From       working.Working `json:"from,omitempty"` // the lines that gave any of it
}

// Imbalance is what one half loses more than the other.
type Imbalance struct {
	ChargeAh decimal.Decimal `json:"tapped_ah"` // a day
	MovedAh  decimal.Decimal `json:"equalised_ah"`
	Working  working.Working `json:"working"`
}

// Imbalance returns the charge that the lower half loses each day beyond the
// upper one, and what an equaliser moves back:
//
//	Q_tap = I_tap × t_tap   [Ah]
//	Q_eq  = 24 × I_eq       [Ah]
//
// A charger in series puts the same charge into both halves: without an
// equaliser the lower one is never full and the upper one overcharged. Currents
// above 0 to 1000 A, above 0 to 24 h a day; equaliser 0 to 1000 A.
func (c CentreTap) Imbalance() (Imbalance, error) {
	err := errors.Join(
		working.Above("tap_a", c.TapA, 0, 1000), working.Above("tap_h", c.TapH, 0, 24),
		working.Between("equaliser_a", c.EqualiserA, 0, 1000),
	)
	if err != nil {
		return Imbalance{}, err
	}
	w := working.Start(c.From)
	i, t, eq := w.Given("I_tap", c.TapA), w.Given("t_tap", c.TapH), w.Given("I_eq", c.EqualiserA)
	lost := w.Calc("Q_tap", "I_tap × t_tap", i.Mul(t), sums)
	moved := w.Calc("Q_eq", "24 × I_eq", decimal.NewFromInt(24).Mul(eq), sums)
	return Imbalance{lost, moved, slices.Clip(w)}, nil
}

// Check checks (C09) that the equaliser keeps up: Q_tap ≤ Q_eq. A converter from
// the whole bank takes no such imbalance.
func (c CentreTap) Check() (working.Check, error) {
	i, err := c.Imbalance()
	if err != nil {
		return working.Check{}, err
	}
	return i.Working.Check("C09", "Centre tap", "Q_tap", "Q_eq"), nil
}
