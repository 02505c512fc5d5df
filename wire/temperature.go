package wire

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Temperature is that of a conductor under load.
type Temperature struct {
	ConductorC decimal.Decimal `json:"conductor_c"`
	Working    working.Working `json:"working"`
}

// Temperature returns how hot a steady current makes the conductor:
//
//	T_c = T_a + (T_r − T_a) × (I ÷ I_c)²   [°C], to 0.1
//
// It holds above the rating too, where the answer is hotter than the insulation
// bears. Current 0 to 10 000 A. Source: BS 7671 appendix 4, clause 6.1. FAA AC
// 43.13-1B 11-66d(6) takes the square root of the ratio of currents in place of
// the square and calls it conservative.
func (a Ampacity) Temperature(currentA decimal.Decimal) (Temperature, error) {
	if err := errors.Join(working.Between("current_a", currentA, 0, 10_000), a.checkCable()); err != nil {
		return Temperature{}, err
	}
	w := working.Start(a.Working)
	i := w.Given("I", currentA)
	t := a.settles(i)
	w.Calc("T_c", "T_a + (T_r − T_a) × I × I ÷ (I_c × I_c)", t, cite.BS7671.At("appendix 4, clause 6.1", cite.SecondHand))
	return Temperature{ConductorC: t, Working: slices.Clip(w)}, nil
}

// checkCable refuses an ampacity that no conductor can have.
func (a Ampacity) checkCable() error {
	return errors.Join(
		working.Above("cable_ampacity_a", a.CableA, 0, 100_000*20), a.stands("cable_ampacity_a", "I_c", a.CableA),
		a.stands("ambient_c", "T_a", a.AmbientC),
		a.stands("insulation_c", "T_r", a.InsulationC),
	)
}

// settles is the temperature that a steady current ends at, rounded once.
func (a Ampacity) settles(currentA decimal.Decimal) decimal.Decimal {
	full := a.CableA.Mul(a.CableA)
	rise := a.InsulationC.Sub(a.AmbientC).Mul(currentA).Mul(currentA)
	return a.AmbientC.Mul(full).Add(rise).DivRound(full, 1)
}
