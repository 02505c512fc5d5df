package battery

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CellCurve is a cell by four points of its discharge curve, as a data sheet
// draws it at one rate.
type CellCurve struct {
	FullV        decimal.Decimal `json:"curve_full_v"`        // at the start
	BendV        decimal.Decimal `json:"curve_bend_v"`        // where the first steep part ends
	NominalV     decimal.Decimal `json:"curve_nominal_v"`     // where the last steep part begins
	FullAh       decimal.Decimal `json:"curve_full_ah"`       // whole charge
	BendAh       decimal.Decimal `json:"curve_bend_ah"`       // drawn at the bend
	NominalAh    decimal.Decimal `json:"curve_nominal_ah"`    // drawn at the nominal point
	RatePerHour  decimal.Decimal `json:"curve_rate_per_hour"` // of the curve: 0.2 is five hours; above 0 to 10
	MilliohmEach decimal.Decimal `json:"curve_milliohm"`      // internal resistance; above 0 to 1000
	From         working.Working `json:"from,omitempty"`
}

// CurveVoltage is a cell under load.
type CurveVoltage struct {
	VoltageV decimal.Decimal `json:"curve_cell_v"`
	Working  working.Working `json:"working"`
}

// Voltage returns the voltage of the cell with a charge left and a current
// (discharge positive):
//
//	A   = U_fu − U_be
//	B   = 3 ÷ Q_be
//	K   = (U_fu − U_no + A × (exp(−B × Q_no) − 1)) × (Q_fu − Q_no) ÷ Q_no
//	E_k = U_fu + K + R_k × k_C × Q_fu ÷ 1000 − A
//	U_kc = E_k − K × Q_fu ÷ Q_l + A × exp(−B × (Q_fu − Q_l)) − R_k × I ÷ 1000
//
// to 0.0001 V. The model knows no temperature and no ageing, and one resistance;
// it is for a course of discharge, not for a fault. Voltages 0.5 to 5,
// falling; charges 0.001 to 1000 Ah, rising; charge left from 1 % of the whole
// to all of it. Source: Tremblay and Dessaint, as in NREL ssc.
// Current -10 000 to 10 000 A, charge left above 0 to 1000 Ah.
func (c CellCurve) Voltage(leftAh, currentA decimal.Decimal) (CurveVoltage, error) {
	if err := errors.Join(c.check(), working.Between("current_a", currentA, -10_000, 10_000)); err != nil {
		return CurveVoltage{}, err
	}
	if err := c.checkLeft(leftAh); err != nil {
		return CurveVoltage{}, err
	}
	w := working.Start(c.From)
	law := cite.Tremblay.At("as in NREL ssc", cite.SecondHand)
	full, bend, nominal := w.Given("U_fu", c.FullV), w.Given("U_be", c.BendV), w.Given("U_no", c.NominalV)
	qf, qb, qn := w.Given("Q_fu", c.FullAh), w.Given("Q_be", c.BendAh), w.Given("Q_no", c.NominalAh)
	rate, r := w.Given("k_C", c.RatePerHour), w.Given("R_k", c.MilliohmEach)
	left, i := w.Given("Q_l", leftAh), w.Given("I", currentA)
	a := w.Calc("A_k", "U_fu − U_be", full.Sub(bend), law)
	b := w.Calc("B_k", "3 ÷ Q_be", decimal.NewFromInt(3).DivRound(qb, 8), law)
	fade, err := fixed("curve_bend_ah", math.Exp(-b.InexactFloat64()*qn.InexactFloat64()), 12)
	if err != nil {
		return CurveVoltage{}, err
	}
	k := full.Sub(nominal).Add(a.Mul(fade.Sub(one))).Mul(qf.Sub(qn)).DivRound(qn, 8)
	w.Calc("K_k", "(U_fu − U_no + A_k × (exp(−B_k × Q_no) − 1)) × (Q_fu − Q_no) ÷ Q_no", k, law)
	e := w.Calc("E_k", "U_fu + K_k + R_k × k_C × Q_fu ÷ 1000 − A_k", full.Add(k).Add(r.Mul(rate).Mul(qf).Shift(-3)).Sub(a), law)
	rise, err := fixed("curve_bend_ah", a.InexactFloat64()*math.Exp(-b.InexactFloat64()*qf.Sub(left).InexactFloat64()), 12)
	if err != nil {
		return CurveVoltage{}, err
	}
	fall := k.Mul(qf).DivRound(left, 12)
	u := e.Sub(fall).Add(rise).Sub(r.Mul(i).Shift(-3)).Round(4)
	w.Calc("U_kc", "E_k − K_k × Q_fu ÷ Q_l + A_k × exp(−B_k × (Q_fu − Q_l)) − R_k × I ÷ 1000", u, law)
	return CurveVoltage{VoltageV: u, Working: slices.Clip(w)}, nil
}

func (c CellCurve) checkLeft(leftAh decimal.Decimal) error {
	if err := working.Above("left_cell_ah", leftAh, 0, 1000); err != nil {
		return err
	}
	if leftAh.GreaterThan(c.FullAh) || leftAh.Mul(hundred).LessThan(c.FullAh) {
		return &working.InputError{Field: "left_cell_ah", Got: leftAh.String(), Want: "1 % to all of curve_full_ah, " + orUnset(decimal.NewNullDecimal(c.FullAh))}
	}
	return nil
}

func (c CellCurve) check() error {
	if err := errors.Join(
		fromTo("curve_full_v", c.FullV, "0.5", 5),
		fromTo("curve_bend_v", c.BendV, "0.5", 5),
		fromTo("curve_nominal_v", c.NominalV, "0.5", 5),
		fromTo("curve_full_ah", c.FullAh, "0.001", 1000),
		fromTo("curve_bend_ah", c.BendAh, "0.001", 1000),
		fromTo("curve_nominal_ah", c.NominalAh, "0.001", 1000),
		working.Above("curve_rate_per_hour", c.RatePerHour, 0, 10),
		working.Above("curve_milliohm", c.MilliohmEach, 0, 1000),
	); err != nil {
		return err
	}
	var faults []error
	if !c.BendV.LessThan(c.FullV) || !c.NominalV.LessThan(c.BendV) {
		faults = append(faults, &working.InputError{Field: "curve_nominal_v", Got: c.NominalV.String(), Want: "below curve_bend_v, and that below curve_full_v"})
	}
	if !c.BendAh.LessThan(c.NominalAh) || !c.NominalAh.LessThan(c.FullAh) {
		faults = append(faults, &working.InputError{Field: "curve_nominal_ah", Got: c.NominalAh.String(), Want: "above curve_bend_ah and below curve_full_ah"})
	}
	return errors.Join(faults...)
}
