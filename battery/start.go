package battery

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Motor is an a.c. motor by its plate: the load that starts an inverter's
// surge.
type Motor struct {
	CodeLetter string          `json:"code_letter"` // of the plate
	PowerHP    decimal.Decimal `json:"power_hp"`
	VoltageV   decimal.Decimal `json:"motor_v"` // a.c., single phase
	From       working.Working `json:"from,omitempty"`
}

// LockedRotor is what a motor draws while its rotor stands.
type LockedRotor struct {
	MiddleA    decimal.NullDecimal `json:"locked_a"`          // middle of the letter; unset where none is printed
	GreatestA  decimal.Decimal     `json:"greatest_locked_a"` // end of the letter
	GreatestVA decimal.Decimal     `json:"greatest_locked_va"`
	Working    working.Working     `json:"working"`
}

// LockedRotor returns the starting current and apparent power of the code
// letter:
//
//	I_lm = 1000 × k_lm × P_hp ÷ U_m   [A], middle of the letter
//	S_lr = 1000 × k_lr × P_hp         [VA], end of the letter
//	I_lr = S_lr ÷ U_m                 [A]
//
// each rounded up to 0.01. An inverter's surge rating in W is no match for VA:
// ask its maker which motor it starts. Letters from T on have no middle and V
// has no end: V is an error. Power 0.01 to 100 hp, 50 to 480 V. Source: NFPA
// 70 430.7(B).
func (m Motor) LockedRotor() (LockedRotor, error) {
	_, middle, end, err := tables.LockedRotor(m.CodeLetter)
	if err = errors.Join(err, fromTo("power_hp", m.PowerHP, "0.01", 100), working.Between("motor_v", m.VoltageV, 50, 480)); err != nil {
		return LockedRotor{}, err
	}
	if !end.Stated() {
		return LockedRotor{}, &working.InputError{Field: "code_letter", Got: m.CodeLetter, Want: "a letter with an upper end; measure the start of this motor"}
	}
	w := working.Start(m.From)
	hp, u := w.Given("P_hp", m.PowerHP), w.Given("U_m", m.VoltageV)
	law := cite.NFPA70.At("430.7(B)", cite.Published)
	thousand := decimal.NewFromInt(1000)
	var l LockedRotor
	if middle.Stated() {
		k := w.LookUp("k_lm", middle)
		l.MiddleA = decimal.NewNullDecimal(w.CalcUp("I_lm", "1000 × k_lm × P_hp ÷ U_m", thousand.Mul(k).Mul(hp), u, 2, law))
	}
	k := w.LookUp("k_lr", end)
	l.GreatestVA = w.CalcUp("S_lr", "1000 × k_lr × P_hp", thousand.Mul(k).Mul(hp), one, 2, law)
	l.GreatestA = w.CalcUp("I_lr", "S_lr ÷ U_m", l.GreatestVA, u, 2, law)
	l.Working = slices.Clip(w)
	return l, nil
}
