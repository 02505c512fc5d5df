package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// TwoLoads is a battery measured under two loads, volts on its own posts. One
// of the currents may be nought.
type TwoLoads struct {
	FirstA  decimal.Decimal `json:"first_a"`
	FirstV  decimal.Decimal `json:"first_v"`
	SecondA decimal.Decimal `json:"second_a"` // the greater current
	SecondV decimal.Decimal `json:"second_v"`
}

// MeasuredResistance is a battery's resistance as measured.
type MeasuredResistance struct {
	Milliohm decimal.Decimal `json:"measured_milliohm"`
	EmfV     decimal.Decimal `json:"emf_v"`                   // where the line through both points meets no current
	FaultA   decimal.Decimal `json:"short_circuit_current_a"` // where it meets no voltage
	Working  working.Working `json:"working"`
}

// Resistance returns the internal resistance from two loads, and the voltage and
// fault current of the straight line through them:
//
//	R_m = (U.1 − U.2) × 1000 ÷ (I.2 − I.1)               [mΩ]
//	E_0 = (U.1 × I.2 − U.2 × I.1) ÷ (I.2 − I.1)          [V]
//	I_kb = (U.1 × I.2 − U.2 × I.1) ÷ (U.1 − U.2)          [A]
//
// each to 0.0001. The test of the standard takes the first point at 4 to 6 times
// the 10 h current after 20 s and the second at 20 to 40 times after 5 s. A
// resistance measured warm and full is the low one; measure again cold and
// nearly empty for the high one. Currents 0 to 10 000 A, voltages 1 to 100 V. Source: IEC 60896-21.
func (t TwoLoads) Resistance() (MeasuredResistance, error) {
	if err := t.check(); err != nil {
		return MeasuredResistance{}, err
	}
	var w working.Working
	i1, u1 := w.Given("I.1", t.FirstA), w.Given("U_t.1", t.FirstV)
	i2, u2 := w.Given("I.2", t.SecondA), w.Given("U_t.2", t.SecondV)
	law := cite.IEC6089621.At("short-circuit current and internal resistance", cite.FromMemory)
	di, du, cross := i2.Sub(i1), u1.Sub(u2), u1.Mul(i2).Sub(u2.Mul(i1))
	var m MeasuredResistance
	m.EmfV = w.Calc("E_0", "(U_t.1 × I.2 − U_t.2 × I.1) ÷ (I.2 − I.1)", cross.DivRound(di, 4), law)
	m.FaultA = w.Calc("I_kb", "(U_t.1 × I.2 − U_t.2 × I.1) ÷ (U_t.1 − U_t.2)", cross.DivRound(du, 4), law)
	m.Milliohm = w.Calc("R_m", "(U_t.1 − U_t.2) × 1000 ÷ (I.2 − I.1)", du.Shift(3).DivRound(di, 4), law)
	m.Working = slices.Clip(w)
	return m, nil
}

func (t TwoLoads) check() error {
	if err := errors.Join(
		working.Between("first_a", t.FirstA, 0, 10_000),
		working.Between("first_v", t.FirstV, 1, 100),
		working.Above("second_a", t.SecondA, 0, 10_000),
		working.Between("second_v", t.SecondV, 1, 100),
	); err != nil {
		return err
	}
	var faults []error
	if !t.SecondA.GreaterThan(t.FirstA) {
		faults = append(faults, &working.InputError{Field: "second_a", Got: t.SecondA.String(), Want: "above first_a, " + t.FirstA.String()})
	}
	if !t.SecondV.LessThan(t.FirstV) {
		faults = append(faults, &working.InputError{Field: "second_v", Got: t.SecondV.String(), Want: "below first_v, " + t.FirstV.String()})
	}
	return errors.Join(faults...)
}

// Circuit is a source behind its resistance on a resistive load.
type Circuit struct {
	EmfV         decimal.Decimal `json:"emf_v"`
	PathMilliohm decimal.Decimal `json:"path_milliohm"` // the source's own and the cables'
	LoadOhm      decimal.Decimal `json:"load_ohm"`
	From         working.Working `json:"from,omitempty"`
}

// LoadedCircuit is what the load finds.
type LoadedCircuit struct {
	CurrentA  decimal.Decimal `json:"current_a"`
	TerminalV decimal.Decimal `json:"terminal_v"`
	LoadW     decimal.Decimal `json:"power_w"`
	HeatW     decimal.Decimal `json:"path_w"` // in the source and the cables
	Working   working.Working `json:"working"`
}

// Loaded returns current, terminal voltage and powers:
//
//	I   = E_0 ÷ (R_L + R_p ÷ 1000)   [A]
//	U_t = E_0 − I × R_p ÷ 1000       [V]
//	P   = U_t × I                    [W]
//	P_h = I × I × R_p ÷ 1000         [W]
//
// Current to 0.0001, the others follow from it. Voltage 1 to 100 V, path
// above 0 to 10 000 mΩ, load 0.001 to 10 000 Ω. Source: Ohm's law.
func (c Circuit) Loaded() (LoadedCircuit, error) {
	if err := errors.Join(
		working.Between("emf_v", c.EmfV, 1, 100),
		working.Above("path_milliohm", c.PathMilliohm, 0, 10_000),
		fromTo("load_ohm", c.LoadOhm, "0.001", 10_000),
	); err != nil {
		return LoadedCircuit{}, err
	}
	w := working.Start(c.From)
	e, p, r := w.Given("E_0", c.EmfV), w.Given("R_p", c.PathMilliohm), w.Given("R_L", c.LoadOhm)
	var l LoadedCircuit
	l.CurrentA = w.Calc("I", "E_0 ÷ (R_L + R_p ÷ 1000)", e.DivRound(r.Add(p.Shift(-3)), 4), ohm)
	drop := l.CurrentA.Mul(p).Shift(-3)
	l.HeatW = w.Calc("P_h", "I × I × R_p ÷ 1000", l.CurrentA.Mul(drop), ohm)
	l.TerminalV = w.Calc("U_t", "E_0 − I × R_p ÷ 1000", e.Sub(drop), ohm)
	l.LoadW = w.Calc("P", "U_t × I", l.TerminalV.Mul(l.CurrentA), ohm)
	l.Working = slices.Clip(w)
	return l, nil
}
