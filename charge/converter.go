package charge

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Converter is a d.c. converter that charges a bank from a vehicle's system.
type Converter struct {
	OutputV    decimal.Decimal `json:"output_v"`
	OutputA    decimal.Decimal `json:"output_a"`
	InputV     decimal.Decimal `json:"input_v"` // the lowest at which it still works: the current is greatest there
	Efficiency decimal.Decimal `json:"source_efficiency"`
	From       working.Working `json:"from,omitempty"` // the lines that gave any of it
}

// Input is what a converter takes and loses.
type Input struct {
	InputA  decimal.Decimal `json:"input_a"`
	InputW  decimal.Decimal `json:"input_w"`
	LossW   decimal.Decimal `json:"loss_w"`
	Working working.Working `json:"working"`
}

// definition marks what follows from the definition of efficiency.
var definition = cite.OhmsLaw.At("P = U I, efficiency = output ÷ input", cite.Published)

// Input returns the converter's input current, power and loss:
//
//	P_out = U_out × I_out                  [W]
//	P_i   = P_out ÷ η_s                    [W], to 0.0001
//	P_v   = P_i − P_out                    [W], heat in its bay
//	I_i   = P_out ÷ (η_s × U_in)           [A], rounded up to 0.0001
//
// Voltages above 0 to 1000 V, output current above 0 to 10 000 A, efficiency above 0
// to 1. Source: definition of efficiency.
func (c Converter) Input() (Input, error) {
	if err := c.check(); err != nil {
		return Input{}, err
	}
	w := working.Start(c.From)
	u, i := w.Given("U_out", c.OutputV), w.Given("I_out", c.OutputA)
	out := w.Calc("P_out", "U_out × I_out", u.Mul(i), definition)
	η, in := w.Given("η_s", c.Efficiency), w.Given("U_in", c.InputV)
	p := w.Calc("P_i", "P_out ÷ η_s", out.DivRound(η, 4), definition)
	lost := w.Calc("P_v", "P_i − P_out", p.Sub(out), definition)
	a := w.CalcUp("I_i", "P_out ÷ (η_s × U_in)", out, η.Mul(in), 4, definition)
	return Input{InputA: a, InputW: p, LossW: lost, Working: slices.Clip(w)}, nil
}

func (c Converter) check() error {
	return errors.Join(
		working.Above("output_v", c.OutputV, 0, 1000), working.Above("output_a", c.OutputA, 0, 10_000),
		working.Above("input_v", c.InputV, 0, 1000), working.Above("source_efficiency", c.Efficiency, 0, 1),
	)
}

// MainsCharger is a charger on the mains. Its mains side is work for licensed
// people; the current is for a power budget.
type MainsCharger struct {
	OutputV     decimal.Decimal `json:"output_v"`
	OutputA     decimal.Decimal `json:"output_a"`
	MainsV      decimal.Decimal `json:"mains_v"`
	Efficiency  decimal.Decimal `json:"source_efficiency"`
	PowerFactor decimal.Decimal `json:"power_factor"`
	From        working.Working `json:"from,omitempty"` // the lines that gave any of it
}

// Input returns the current that the charger takes from the mains and what it
// loses:
//
//	P_i  = U_out × I_out ÷ η_s                     [W], to 0.0001
//	I_ac = U_out × I_out ÷ (η_s × λ × U_ac)        [A], rounded up to 0.0001
//
// Output above 0 to 1000 V and 10 000 A, mains above 0 to 1000 V,
// efficiency and power factor above 0 to 1. Source: definitions.
func (m MainsCharger) Input() (Input, error) {
	err := errors.Join(
		working.Above("output_v", m.OutputV, 0, 1000), working.Above("output_a", m.OutputA, 0, 10_000),
		working.Above("mains_v", m.MainsV, 0, 1000), working.Above("source_efficiency", m.Efficiency, 0, 1),
		working.Above("power_factor", m.PowerFactor, 0, 1),
	)
	if err != nil {
		return Input{}, err
	}
	w := working.Start(m.From)
	out := w.Calc("P_out", "U_out × I_out", w.Given("U_out", m.OutputV).Mul(w.Given("I_out", m.OutputA)), definition)
	η, factor, volts := w.Given("η_s", m.Efficiency), w.Given("λ", m.PowerFactor), w.Given("U_ac", m.MainsV)
	p := w.Calc("P_i", "P_out ÷ η_s", out.DivRound(η, 4), definition)
	lost := w.Calc("P_v", "P_i − P_out", p.Sub(out), definition)
	a := w.CalcUp("I_ac", "P_out ÷ (η_s × λ × U_ac)", out, η.Mul(factor).Mul(volts), 4, definition)
	return Input{InputA: a, InputW: p, LossW: lost, Working: slices.Clip(w)}, nil
}
