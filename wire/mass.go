package wire

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Mass is that of the metal in cables.
type Mass struct {
	MassKg  decimal.Decimal `json:"copper_kg"`
	Working working.Working `json:"working"`
}

// CopperMass returns the mass of the copper in a length of conductor, all
// conductors together (out and back: twice the one-way length), without its
// insulation:
//
//	m_c = γ × S × L_t ÷ 1000      [kg]
//
// Length above 0 to 10 000 m. Source: density of annealed copper, NBS Handbook
// 100.
func CopperMass(size tables.Size, totalM decimal.Decimal) (Mass, error) {
	if err := working.Above("total_m", totalM, 0, 10_000); err != nil {
		return Mass{}, err
	}
	area, err := size.Area()
	if err != nil {
		return Mass{}, err
	}
	density, err := tables.Material("copper", "density_20c")
	if err != nil {
		return Mass{}, err
	}
	area.Note = size.String()
	var w working.Working
	g, s, l := w.LookUp("γ", density), w.LookUp("S", area), w.Given("L_t", totalM)
	m := w.Calc("m_c", "γ × S × L_t ÷ 1000", g.Mul(s).Mul(l).Shift(-3), arithmetic)
	return Mass{m, slices.Clip(w)}, nil
}

// RunLoss is the heat in a run.
type RunLoss struct {
	LossW   decimal.Decimal `json:"run_loss_w"`
	Working working.Working `json:"working"`
}

// Loss returns the power lost in a run that loses this voltage:
//
//	P_l = I × ΔU      [W]
//
// The current is the run's. Source: Joule heat.
func (d Drop) Loss() (RunLoss, error) {
	if err := d.check(); err != nil {
		return RunLoss{}, err
	}
	w := working.Start(d.Working)
	p := w.Calc("P_l", "I × ΔU", d.CurrentA.Mul(d.DropV), ohm)
	return RunLoss{p, slices.Clip(w)}, nil
}
