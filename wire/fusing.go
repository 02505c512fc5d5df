package wire

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// MeltingPreece returns the current that melts a long wire in still air, for
// information and never a limit of design:
//
//	I_me = a_P × (d_w ÷ 25.4)^1.5      [A], to 0.01
//
// The constant is for inches. Diameter above 0 to 20 mm. Source: Preece.
func MeltingPreece(material string, diameterMM decimal.Decimal) (Current, error) {
	if err := working.Above("wire_mm", diameterMM, 0, 20); err != nil {
		return Current{}, err
	}
	constant, err := tables.FusingConstant(material)
	if err != nil {
		return Current{}, &working.InputError{Field: "material", Got: fmt.Sprintf("%.60q", material), Want: "a metal that Preece tells of, such as copper, aluminium or tin-lead"}
	}
	var w working.Working
	a, d := w.LookUp("a_P", constant), w.Given("d_w", diameterMM)
	melts := a.InexactFloat64() * math.Pow(d.InexactFloat64()/25.4, 1.5)
	current, err := calcFixed(&w, "I_me", "a_P × (d_w ÷ 25.4) ^ 1.5", melts, 2, cite.Preece.At("I = a d^1.5", cite.Published))
	w.Note("melts the wire: for information, no limit of design")
	return Current{current, slices.Clip(w)}, err
}

// Melting is a copper wire in a short circuit.
type Melting struct {
	AreaMM2  decimal.Decimal     `json:"area_mm2"`
	AmbientC decimal.NullDecimal `json:"ambient_c"`
	TimeS    decimal.Decimal     `json:"time_s"`
	From     working.Working     `json:"from,omitempty"` // the lines that gave AreaMM2
}

// Onderdonk returns the current that melts a copper wire in a time, no heat
// leaving it, for information and never a limit of design:
//
//	A_c  = S ÷ 0.00050670748
//	I_me = A_c × √(lg((T_m − T_a) ÷ (234 + T_a) + 1) ÷ (33 × t))      [A], to 0.1
//
// Area 0.001 to 1000 mm², ambient -40 to 120 °C, time above 0 to 10 s (from
// memory). Source: Onderdonk's equation, in circular mils.
func (m Melting) Onderdonk() (Current, error) {
	err := errors.Join(
		checkFrom("area_mm2", m.AreaMM2, leastArea, 1000),
		checkStated("ambient_c", m.AmbientC, -40, 120),
		working.Above("time_s", m.TimeS, 0, 10),
	)
	if err != nil {
		return Current{}, err
	}
	point, err := tables.Material("copper", "melting_point")
	if err != nil {
		return Current{}, err
	}
	w := working.Start(m.From)
	s := w.Given("S", m.AreaMM2)
	area := w.Calc("A_c", "S ÷ 0.00050670748", s.DivRound(circularMil, 1), arithmetic)
	melts, ambient, t := w.LookUp("T_m", point), w.Given("T_a", m.AmbientC.Decimal), w.Given("t", m.TimeS)
	rise := melts.Sub(ambient).InexactFloat64() / (234 + ambient.InexactFloat64())
	x := area.InexactFloat64() * math.Sqrt(math.Log10(rise+1)/(33*t.InexactFloat64()))
	formula := "A_c × sqrt(log((T_m − T_a) ÷ (234 + T_a) + 1) ÷ (33 × t))"
	current, err := calcFixed(&w, "I_me", formula, x, 1, cite.Onderdonk.At("in circular mils", cite.SecondHand))
	w.Note("melts the wire: for information, no limit of design")
	return Current{current, slices.Clip(w)}, err
}
