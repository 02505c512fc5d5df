package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ChargeCycle is a battery charged and discharged until it is as full as it was
// at the beginning, as its monitor counted.
type ChargeCycle struct {
	ChargedAh    decimal.Decimal     `json:"charged_ah"`
	DischargedAh decimal.Decimal     `json:"discharged_ah"`
	ChargedWh    decimal.NullDecimal `json:"charged_wh"` // at its posts; unset: not counted
	DischargedWh decimal.NullDecimal `json:"discharged_wh"`
	From         working.Working     `json:"from,omitempty"`
}

// CycleEfficiency is what a battery gives back of what it was charged with.
type CycleEfficiency struct {
	CoulombicPercent decimal.Decimal     `json:"coulombic_percent"` // of the charge, in Ah
	EnergyPercent    decimal.NullDecimal `json:"energy_percent"`    // in Wh: the lower volts of discharge count
	Missing          string              `json:"missing,omitempty"` // what to count for the energy
	Working          working.Working     `json:"working,omitempty"`
}

// Efficiency returns the share of charge and energy that comes back:
//
//	η_Q = Q_di × 100 ÷ Q_ci   [%]
//	η_E = E_di × 100 ÷ E_ci   [%]
//
// each rounded down to 0.01. Begin and end at one state of charge, best at a full
// battery, and count through whole days: a battery that ends less full than it
// began makes an efficiency above 100 %, which is an error, and one a little too
// high looks right. With watt-hours of one side alone Missing says what to count.
// Charge above 0 to 100 000 Ah, energy to 10 000 000 Wh. Sources: IEC 61427-1 for
// the energy (as reproduced in IS 16298); the charge by counting.
func (c ChargeCycle) Efficiency() (CycleEfficiency, error) {
	if err := c.check(); err != nil {
		return CycleEfficiency{}, err
	}
	w := working.Start(c.From)
	in, out := w.Given("Q_ci", c.ChargedAh), w.Given("Q_di", c.DischargedAh)
	var e CycleEfficiency
	e.CoulombicPercent = w.CalcDown("η_Q", "Q_di × 100 ÷ Q_ci", out.Mul(hundred), in, 2, arithmetic)
	if c.ChargedWh.Valid && c.DischargedWh.Valid {
		in, out = w.Given("E_ci", c.ChargedWh.Decimal), w.Given("E_di", c.DischargedWh.Decimal)
		share := w.CalcDown("η_E", "E_di × 100 ÷ E_ci", out.Mul(hundred), in, 2, cite.IEC614271.At("energy efficiency", cite.SecondHand))
		e.EnergyPercent = decimal.NewNullDecimal(share)
	} else {
		e.Missing = "the watt-hours of charge and of discharge, from a monitor that counts both"
	}
	e.Working = slices.Clip(w)
	return e, nil
}

func (c ChargeCycle) check() error {
	faults := []error{
		working.Above("charged_ah", c.ChargedAh, 0, 100_000),
		working.Above("discharged_ah", c.DischargedAh, 0, 100_000),
		aboveIf("charged_wh", c.ChargedWh, 0, 10_000_000),
		aboveIf("discharged_wh", c.DischargedWh, 0, 10_000_000),
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	return errors.Join(
		noMoreOut("discharged_ah", c.DischargedAh, "charged_ah", c.ChargedAh),
		noMoreOut("discharged_wh", c.DischargedWh.Decimal, "charged_wh", orAny(c.ChargedWh, c.DischargedWh)),
	)
}

// orAny is a charge, or what was discharged where the charge was not counted.
func orAny(charged, discharged decimal.NullDecimal) decimal.Decimal {
	if charged.Valid {
		return charged.Decimal
	}
	return discharged.Decimal
}

// noMoreOut refuses a battery that gave more than it got.
func noMoreOut(field string, out decimal.Decimal, than string, in decimal.Decimal) error {
	if out.LessThanOrEqual(in) {
		return nil
	}
	return &working.InputError{Field: field, Got: out.String(), Want: "at most " + than + ", " + in.String() + ": the cycle has to end as full as it began"}
}
