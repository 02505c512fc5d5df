package wire

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CodeDrop is a drop by a rule set's own formula, with the drop constant that
// the set prints in place of the resistance. Most constants are those of nearly
// cold copper: the drop of a loaded cable is greater ([Run.Drop]).
type CodeDrop struct {
	CurrentA decimal.Decimal `json:"current_a"`
	LengthM  decimal.Decimal `json:"length_m"` // one way
	AreaMM2  decimal.Decimal `json:"area_mm2"`
	Constant working.Figure  `json:"drop_constant"`  // of the set: in Ω mm²/m or Ω cmil/ft
	From     working.Working `json:"from,omitempty"` // the lines that gave AreaMM2
}

// Drop returns the drop by the formula:
//
//	R  = 2 × L × K_d ÷ S × 1000                   [mΩ], to 0.000001
//	R  = 2 × (L ÷ 0.3048) × K_c ÷ A_c × 1000      in feet and circular mils
//	ΔU = I × R ÷ 1000                             [V]
//
// Current above 0 to 10 000 A, length above 0 to 1000 m, area 0.001 to 1000 mm².
// Sources: EN 1648-2 (0.01989 Ω mm²/m), ISO 10133 (0.0164), ABYC E-11 (10.75 Ω
// cmil/ft: CM = K × I × L ÷ E with L out and back).
func (c CodeDrop) Drop() (Drop, error) {
	if err := errors.Join(c.check(), c.checkArea(), working.Above("current_a", c.CurrentA, 0, 10_000)); err != nil {
		return Drop{}, err
	}
	w := working.Start(c.From)
	loop := c.loop(&w)
	i := w.Given("I", c.CurrentA)
	drop := w.Calc("ΔU", "I × R ÷ 1000", i.Mul(loop).Shift(-3), c.Constant.Source)
	return Drop{CurrentA: i, LoopMilliohm: loop, DropV: drop, Working: slices.Clip(w)}, nil
}

// loop adds the lines of the loop's resistance by the formula.
func (c CodeDrop) loop(w *working.Working) decimal.Decimal {
	l, s := w.Given("L", c.LengthM), w.Given("S", c.AreaMM2)
	if !c.mils() {
		k := w.LookUp("K_d", c.Constant)
		return w.Calc("R", "2 × L × K_d × 1000 ÷ S", two.Mul(l).Mul(k).Shift(3).DivRound(s, 6), c.Constant.Source)
	}
	a := w.Calc("A_c", "S ÷ 0.00050670748", s.DivRound(circularMil, 1), arithmetic)
	k := w.LookUp("K_c", c.Constant)
	r := two.Mul(l).Mul(k).Shift(3).DivRound(foot.Mul(a), 6)
	return w.Calc("R", "2 × L × K_c × 1000 ÷ (0.3048 × A_c)", r, c.Constant.Source)
}

// mils reports whether the constant is for feet and circular mils.
func (c CodeDrop) mils() bool { return strings.Contains(c.Constant.Unit, "cmil") }

func (c CodeDrop) check() error {
	var constant error
	if !c.Constant.Stated() || !strings.Contains(c.Constant.Unit, "mm2") && !strings.Contains(c.Constant.Unit, "mm²") && !c.mils() {
		constant = &working.InputError{Field: "drop_constant", Got: fmt.Sprintf("in %q", c.Constant.Unit), Want: "the constant of a rule set, in ohm mm2 per m or ohm cmil per ft"}
	}
	return errors.Join(constant,
		working.Above("length_m", c.LengthM, 0, 1000),
		working.Above("drop_constant", c.Constant.Value, 0, 1000),
	)
}

func (c CodeDrop) checkArea() error { return checkFrom("area_mm2", c.AreaMM2, leastArea, 1000) }

// LeastArea is the metal that a run needs.
type LeastArea struct {
	AreaMM2 decimal.Decimal `json:"area_mm2"` // above 0 to 10 000
	Working working.Working `json:"working"`
}

// LeastArea returns the least area for a drop by the formula, rounded up:
//
//	S   = 2 × L × K_d × I ÷ ΔU_max                    [mm²], up to 0.01
//	A_c = 2 × L × K_c × I ÷ (0.3048 × ΔU_max)         [cmil], up to 1, then in mm²
//
// Current above 0 to 10 000 A, drop 0.001 to 1000 V; AreaMM2 does not count.
func (c CodeDrop) LeastArea(limitV decimal.Decimal) (LeastArea, error) {
	err := errors.Join(c.check(), working.Above("current_a", c.CurrentA, 0, 10_000), checkFrom("drop_limit_v", limitV, leastVolt, greatestVolts))
	if err != nil {
		return LeastArea{}, err
	}
	var w working.Working
	l, i, u := w.Given("L", c.LengthM), w.Given("I", c.CurrentA), w.Given("ΔU_max", limitV)
	if !c.mils() {
		k := w.LookUp("K_d", c.Constant)
		s := w.CalcUp("S_min", "2 × L × K_d × I ÷ ΔU_max", two.Mul(l).Mul(k).Mul(i), u, 2, c.Constant.Source)
		return LeastArea{s, slices.Clip(w)}, nil
	}
	k := w.LookUp("K_c", c.Constant)
	a := w.CalcUp("A_c", "2 × L × K_c × I ÷ (0.3048 × ΔU_max)", two.Mul(l).Mul(k).Mul(i), foot.Mul(u), 0, c.Constant.Source)
	s := w.Calc("S_min", "A_c × 0.00050670748", a.Mul(circularMil), arithmetic)
	return LeastArea{s, slices.Clip(w)}, nil
}

// Current is the most current that something carries.
type Current struct {
	CurrentA decimal.Decimal `json:"current_a"`
	Working  working.Working `json:"working"`
}

// GreatestCurrent returns the most current for a drop by the formula:
//
//	I_du = ΔU_max × 1000 ÷ R      [A], down to 0.01
//
// with R as in [CodeDrop.Drop]. Drop 0.001 to 1000 V.
func (c CodeDrop) GreatestCurrent(limitV decimal.Decimal) (Current, error) {
	if err := errors.Join(c.check(), c.checkArea(), checkFrom("drop_limit_v", limitV, leastVolt, greatestVolts)); err != nil {
		return Current{}, err
	}
	w := working.Start(c.From)
	loop := c.loop(&w)
	u := w.Given("ΔU_max", limitV)
	if !loop.IsPositive() {
		return Current{}, &working.InputError{Field: "length_m", Got: c.LengthM.String(), Want: "a length with a resistance of at least 0.000001 mΩ"}
	}
	i := w.CalcDown("I_du", "ΔU_max × 1000 ÷ R", u.Shift(3), loop, 2, c.Constant.Source)
	return Current{i, slices.Clip(w)}, nil
}

// LeastSize returns the smallest size of a system with at least that area. Where
// none has it, Found is false and the largest size stands in the answer.
func (a LeastArea) LeastSize(system tables.System) (Choice, error) {
	all := tables.Sizes(system)
	if len(all) == 0 {
		return Choice{}, working.OneOf("system", string(system), string(tables.Metric), string(tables.AWG), string(tables.SAE))
	}
	if err := working.Above("area_mm2", a.AreaMM2, 0, 10_000); err != nil {
		return Choice{}, err
	}
	w := working.Start(a.Working)
	w.Given("S_min", a.AreaMM2)
	var last working.Figure
	for _, size := range all {
		area, err := size.Area()
		if err != nil {
			return Choice{}, err
		}
		if area.Value.GreaterThanOrEqual(a.AreaMM2) {
			w.Choose("S", "S_min ≤ S", area.Value, area.Source)
			w.Note(size.String() + ", the smallest with so much")
			return Choice{Size: size, Found: true, Working: slices.Clip(w)}, nil
		}
		last = area
	}
	w.LookUp("S", last)
	w.Note("the largest there is: too little")
	return Choice{Size: all[len(all)-1], Working: slices.Clip(w)}, nil
}
