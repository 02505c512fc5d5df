package protect

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Precharge is the input of an inverter or converter whose capacitors are to be
// filled through a resistor before the contact closes.
type Precharge struct {
	HighestV      decimal.Decimal `json:"highest_v"`
	CapacitanceUF decimal.Decimal `json:"capacitance_uf"`
	LimitA        decimal.Decimal `json:"precharge_limit_a"` // greatest current wanted
	From          working.Working `json:"from,omitempty"`
}

// Resistor is what limits the charging current, and what it must bear.
type Resistor struct {
	Ohm     decimal.Decimal `json:"precharge_ohm"`
	PeakA   decimal.Decimal `json:"precharge_peak_a"`
	PeakW   decimal.Decimal `json:"precharge_peak_w"` // falls away with the current
	EnergyJ decimal.Decimal `json:"precharge_j"`      // at each charge
	TimeS   decimal.Decimal `json:"precharge_s"`      // to 95 % of the voltage
	Working working.Working `json:"working,omitempty"`
}

var capacitor = cite.Capacitor.At("", cite.Published)

// Resistor returns the least resistor that keeps the charging current down, and
// what it must bear:
//
//	R_pc = U_hi ÷ I_pm         [Ω], rounded up to 0.01
//	I_pc = U_hi ÷ R_pc         [A]
//	P_pc = U_hi × U_hi ÷ R_pc  [W], at first
//	E_pc = C_in × U_hi² ÷ 2    [J], at each charge, whatever the resistor
//	t_pc = 3 × R_pc × C_in     [s], to 95 % of the voltage
//
// A load that draws current meanwhile keeps the capacitor from filling and the
// resistor hot: switch it off. Voltage above 0 to 100 V, capacitance above 0 to
// 10 000 000 µF, current 0.001 to 1000 A. Source: any textbook of physics.
func (p Precharge) Resistor() (Resistor, error) {
	if err := p.check(); err != nil {
		return Resistor{}, err
	}
	w := working.Start(p.From)
	u, c := w.Given("U_hi", p.HighestV), w.Given("C_in", p.CapacitanceUF)
	limit := w.Given("I_pm", p.LimitA)
	var r Resistor
	r.Ohm = w.CalcUp("R_pc", "U_hi ÷ I_pm", u, limit, 2, cite.OhmsLaw.At("", cite.Published))
	r.PeakA = w.Calc("I_pc", "U_hi ÷ R_pc", u.DivRound(r.Ohm, 3), cite.OhmsLaw.At("", cite.Published))
	square := u.Mul(u)
	r.PeakW = w.Calc("P_pc", "U_hi × U_hi ÷ R_pc", square.DivRound(r.Ohm, 2), cite.OhmsLaw.At("", cite.Published))
	r.EnergyJ = w.Calc("E_pc", "C_in × U_hi × U_hi ÷ 2 ÷ 1000000", c.Mul(square).DivRound(decimal.NewFromInt(2_000_000), 4), capacitor)
	r.TimeS = w.Calc("t_pc", "3 × R_pc × C_in ÷ 1000000", three.Mul(r.Ohm).Mul(c).Shift(-6), capacitor)
	r.Working = slices.Clip(w)
	return r, nil
}

var three = decimal.NewFromInt(3)

func (p Precharge) check() error {
	limit := working.Above("precharge_limit_a", p.LimitA, 0, 1000)
	if limit == nil && p.LimitA.LessThan(decimal.New(1, -3)) {
		limit = &working.InputError{Field: "precharge_limit_a", Got: p.LimitA.String(), Want: "0.001 to 1000"}
	}
	return errors.Join(
		working.Above("highest_v", p.HighestV, 0, 100),
		working.Above("capacitance_uf", p.CapacitanceUF, 0, 10_000_000),
		limit,
	)
}
