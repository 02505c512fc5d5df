package protect

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ProtectiveArea returns the least cross-section of a protective conductor of
// the same metal as its line conductor:
//
//	S_pe = S_l           up to 16 mm²
//	S_pe = 16            above 16 up to 35 mm²
//	S_pe = S_l ÷ 2       above 35 mm²
//
// Line above 0 to 1000 mm². The mains side of an installation is work for a
// licensed person; the figure is for reading and checking.
// Source: IEC 60364-5-54 table 54.2, from memory.
func ProtectiveArea(lineMM2 decimal.Decimal) (CrossSection, error) {
	if err := working.Above("line_area_mm2", lineMM2, 0, 1000); err != nil {
		return CrossSection{}, err
	}
	middle, err := tables.BondOf("iec60364-54-middle")
	if err != nil {
		return CrossSection{}, err
	}
	source := middle.Figure.Source
	step, half := middle.Figure.Value, decimal.New(5, -1)
	var w working.Working
	var a CrossSection
	s := w.Given("S_l", lineMM2)
	switch {
	case s.LessThanOrEqual(step):
		a.AreaMM2 = w.Calc("S_pe", "S_l", s, source.Document())
	case s.LessThanOrEqual(decimal.NewFromInt(35)):
		a.AreaMM2 = w.LookUp("S_pe", middle.Figure)
	default:
		a.AreaMM2 = w.Calc("S_pe", "S_l ÷ 2", s.Mul(half), source.Document())
	}
	a.Working = slices.Clip(w)
	return a, nil
}
