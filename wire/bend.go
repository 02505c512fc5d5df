package wire

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Bend is a cable laid round a corner.
type Bend struct {
	Cable      string          `json:"cable"`    // a kind that tables.BendCables lists
	DiameterMM decimal.Decimal `json:"cable_mm"` // above 0 to 200
}

// LeastRadius is the least bend radius.
type LeastRadius struct {
	RadiusMM decimal.Decimal `json:"bend_limit_mm"`
	Working  working.Working `json:"working"`
}

// LeastRadius returns the least radius that the cable may be bent to, at its inner
// side; beyond a lug the cable needs about as much room before it turns:
//
//	r_min = k_bd × D_o      [mm]
//
// Outer diameter above 0 to 200 mm. Source: the table of the kind of cable.
func (b Bend) LeastRadius() (LeastRadius, error) {
	err := errors.Join(
		working.OneOf("cable", b.Cable, tables.BendCables()...),
		working.Above("cable_mm", b.DiameterMM, 0, 200),
	)
	if err != nil {
		return LeastRadius{}, err
	}
	multiple, err := tables.BendMultiple(b.Cable, b.DiameterMM)
	if err != nil {
		return LeastRadius{}, err
	}
	var w working.Working
	d, k := w.Given("D_o", b.DiameterMM), w.LookUp("k_bd", multiple)
	r := w.Calc("r_min", "k_bd × D_o", k.Mul(d), multiple.Source)
	return LeastRadius{r, slices.Clip(w)}, nil
}

// Check is check W06: the least radius against the radius it is bent to, above
// 0 to 10 000 mm.
func (b Bend) Check(radiusMM decimal.Decimal) (working.Check, error) {
	r, err := b.LeastRadius()
	if err := errors.Join(err, working.Above("bend_mm", radiusMM, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(r.Working)
	w.Given("r_b", radiusMM)
	return w.Check("W06", "Bend radius", "r_min", "r_b"), nil
}

// Busbar is a flat bar of copper.
type Busbar struct {
	WidthMM     decimal.Decimal `json:"bar_width_mm"`
	ThicknessMM decimal.Decimal `json:"bar_thickness_mm"`
}

// perMM2 is a guess that fitters use before the heat is reckoned.
var perMM2 = working.Figure{
	Value: decimal.NewFromInt(2), Unit: "A/mm²",
	Source: cite.Practice.At("copper busbars, a first guess", cite.CommonPractice),
	Note:   "no rating: the heat of the box and the joints decides",
}

// Guess returns a first guess of what a bar carries; it is no rating, and there
// is no check on it:
//
//	I_bb = J_b × b_w × b_t      [A]
//
// Width above 0 to 500 mm, thickness above 0 to 50 mm. Common practice.
func (b Busbar) Guess() (Current, error) {
	err := errors.Join(working.Above("bar_width_mm", b.WidthMM, 0, 500), working.Above("bar_thickness_mm", b.ThicknessMM, 0, 50))
	if err != nil {
		return Current{}, err
	}
	var w working.Working
	j, width, thick := w.LookUp("J_b", perMM2), w.Given("b_w", b.WidthMM), w.Given("b_t", b.ThicknessMM)
	i := w.Calc("I_bb", "J_b × b_w × b_t", j.Mul(width).Mul(thick), perMM2.Source)
	return Current{i, slices.Clip(w)}, nil
}
