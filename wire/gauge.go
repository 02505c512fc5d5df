package wire

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Geometry is the metal of a conductor.
type Geometry struct {
	DiameterMM decimal.Decimal `json:"wire_mm"` // of the wire, or of each of several
	AreaMM2    decimal.Decimal `json:"area_mm2"`
	AreaCmil   decimal.Decimal `json:"area_cmil"`
	Working    working.Working `json:"working"`
}

// AWG returns the geometry of a solid round wire of an AWG size:
//
//	d_w = 0.127 × 92 ^ ((36 − n_g) ÷ 39)                 [mm], to 0.00001
//	S   = pi ÷ 4 × (0.127 × 92 ^ ((36 − n_g) ÷ 39))²     [mm²], to 0.000001
//	A_c = 25 × 92 ^ ((36 − n_g) ÷ 19.5)                  [cmil], to 0.01
//
// n_g is the number of the gauge, with 1/0 as 0 and 4/0 as −3. Sizes AWG 4/0 to
// 30. Source: ASTM B258.
func AWG(size tables.Size) (Geometry, error) {
	n, err := gaugeNumber(size)
	if err != nil {
		return Geometry{}, err
	}
	steps := float64(36 - n)
	var w working.Working
	law := cite.ASTMB258.At("diameter series", cite.Published)
	w.Given("n_g", decimal.NewFromInt(int64(n)))
	d, bad := calcFixed(&w, "d_w", "0.127 × 92 ^ ((36 − n_g) ÷ 39)", 0.127*math.Pow(92, steps/39), 5, law)
	cmil, bad2 := calcFixed(&w, "A_c", "25 × 92 ^ ((36 − n_g) ÷ 19.5)", 25*math.Pow(92, steps/19.5), 2, law)
	mm2, bad3 := calcFixed(&w, "S", "pi ÷ 4 × 0.127 × 0.127 × 92 ^ ((36 − n_g) ÷ 19.5)", math.Pi/4*0.127*0.127*math.Pow(92, steps/19.5), 6, law)
	return Geometry{d, mm2, cmil, slices.Clip(w)}, errors.Join(bad, bad2, bad3)
}

// gaugeNumber reads 6 from AWG 6 and −3 from AWG 4/0.
func gaugeNumber(size tables.Size) (int, error) {
	if size.System() != tables.AWG {
		return 0, &working.InputError{Field: "size", Got: fmt.Sprintf("%q", size), Want: "an AWG size"}
	}
	text := strings.TrimPrefix(size.String(), "AWG ")
	noughts, aught := strings.CutSuffix(text, "/0")
	n, err := strconv.Atoi(noughts)
	if aught {
		n = 1 - n
	}
	return n, err
}

// Strands is a conductor of equal round wires.
type Strands struct {
	Wires      int             `json:"strands_of_wire"`
	DiameterMM decimal.Decimal `json:"wire_mm"` // of each
}

// Geometry returns the area of all wires together:
//
//	S   = n_w × pi ÷ 4 × d_w²         [mm²], to 0.000001
//	A_c = n_w × (d_w ÷ 0.0254)²       [cmil], to 0.01
//
// 1 to 10 000 wires, each above 0 to 50 mm. A circular mil is the area of a
// circle of 0.001 in.
func (s Strands) Geometry() (Geometry, error) {
	err := errors.Join(
		working.Between("strands_of_wire", decimal.NewFromInt(int64(s.Wires)), 1, 10_000),
		working.Above("wire_mm", s.DiameterMM, 0, 50),
	)
	if err != nil {
		return Geometry{}, err
	}
	var w working.Working
	n, d := w.Given("n_w", decimal.NewFromInt(int64(s.Wires))), w.Given("d_w", s.DiameterMM)
	square := n.Mul(d).Mul(d)
	cmil := w.Calc("A_c", "n_w × d_w × d_w ÷ (0.0254 × 0.0254)", square.DivRound(mil.Mul(mil), 2), arithmetic)
	mm2, err := calcFixed(&w, "S", "n_w × pi ÷ 4 × d_w × d_w", math.Pi/4*square.InexactFloat64(), 6, arithmetic)
	return Geometry{d, mm2, cmil, slices.Clip(w)}, err
}

var (
	arithmetic  = cite.Arithmetic.At("", cite.Published)
	mil         = decimal.RequireFromString("0.0254")        // mm
	foot        = decimal.RequireFromString("0.3048")        // m
	circularMil = decimal.RequireFromString("0.00050670748") // mm², π ÷ 4 × (0.0254 mm)²
)
