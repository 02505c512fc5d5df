package wire

import (
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
	if err := working.Between("current_a", currentA, 0, 10_000); err != nil {
		return Temperature{}, err
	}
	if !a.CableA.IsPositive() {
		return Temperature{}, &working.InputError{Field: "cable_ampacity_a", Got: a.CableA.String(), Want: "above 0"}
	}
	w := working.Start(a.Working)
	i := w.Given("I", currentA)
	rise := a.InsulationC.Sub(a.AmbientC).Mul(i).Mul(i)
	t := a.AmbientC.Add(rise.DivRound(a.CableA.Mul(a.CableA), 1)).Round(1)
	w.Calc("T_c", "T_a + (T_r − T_a) × I × I ÷ (I_c × I_c)", t, cite.BS7671.At("appendix 4, clause 6.1", cite.SecondHand))
	return Temperature{ConductorC: t, Working: slices.Clip(w)}, nil
}
