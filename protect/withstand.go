package protect

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// FaultHeating is a conductor heated by a fault from one temperature to another.
type FaultHeating struct {
	Name     string              `json:"conductor"` // copper or aluminium
	InitialC decimal.NullDecimal `json:"initial_c"` // full load: that of the insulation
	FinalC   decimal.Decimal     `json:"final_c"`   // what the insulation bears in a fault
}

// AdiabaticConstant is the constant k of the adiabatic equation.
type AdiabaticConstant struct {
	K       decimal.Decimal `json:"adiabatic_k"` // A√s/mm²
	Working working.Working `json:"working,omitempty"`
}

// Constant returns the constant of the adiabatic equation between the two
// temperatures:
//
//	k = K_m × √(ln((β + T_f) ÷ (β + T_i)))   [A√s/mm²], rounded down to 0.01
//
// K_m is 226 for copper and 148 for aluminium, β 234.5 and 228 °C. Initial -40
// to 250 °C, final above it to 400 °C. The standards' tables round k to whole
// numbers. Sources: IEC 60949 table 1; IEC 60364-5-54 annex A.
func (m FaultHeating) Constant() (AdiabaticConstant, error) {
	err := errors.Join(
		working.OneOf("conductor", m.Name, "copper", "aluminium"),
		m.checkInitial(),
		working.Between("final_c", m.FinalC, -40, 400),
	)
	if err == nil && !m.FinalC.GreaterThan(m.InitialC.Decimal) {
		err = &working.InputError{Field: "final_c", Got: m.FinalC.String(), Want: "above initial_c"}
	}
	if err != nil {
		return AdiabaticConstant{}, err
	}
	constant, err := tables.Material(m.Name, "adiabatic_constant")
	if err != nil {
		return AdiabaticConstant{}, err
	}
	beta, err := tables.Material(m.Name, "adiabatic_beta")
	if err != nil {
		return AdiabaticConstant{}, err
	}
	var w working.Working
	km, b := w.LookUp("K_m", constant), w.LookUp("β", beta)
	from, to := w.Given("T_i", m.InitialC.Decimal), w.Given("T_f", m.FinalC)
	ratio := b.Add(to).Div(b.Add(from)).InexactFloat64()
	k, err := fixed(math.Floor(km.InexactFloat64()*math.Sqrt(math.Log(ratio))*100)/100, 2)
	if err != nil {
		return AdiabaticConstant{}, err
	}
	w.Calc("k", "floor(K_m × sqrt(ln((β + T_f) ÷ (β + T_i))) × 100) ÷ 100", k, constant.Source.Document())
	return AdiabaticConstant{K: k, Working: slices.Clip(w)}, nil
}

func (m FaultHeating) checkInitial() error {
	if !m.InitialC.Valid {
		return &working.InputError{Field: "initial_c", Got: "unset", Want: "the temperature before the fault, -40 to 250: at full load that of the insulation"}
	}
	return working.Between("initial_c", m.InitialC.Decimal, -40, 250)
}

// Cable is what a conductor bears in a fault.
type Cable struct {
	K       decimal.Decimal `json:"adiabatic_k"` // A√s/mm², of its metal and insulation
	AreaMM2 decimal.Decimal `json:"area_mm2"`
	From    working.Working `json:"from,omitempty"` // the lines that gave K
}

// Withstand is how long, or how much, a conductor bears.
type Withstand struct {
	EnergyA2S decimal.Decimal     `json:"withstand_a2s"` // k²S²
	TimeS     decimal.NullDecimal `json:"withstand_s"`   // at the fault current asked about; unset: beyond 5 s
	Working   working.Working     `json:"working,omitempty"`
}

// fiveSeconds is how long the adiabatic equation counts no heat as lost.
var fiveSeconds = decimal.NewFromInt(5)

var adiabatic = cite.IEC6036443.At("434.5.2", cite.SecondHand)

// Withstand returns what the conductor bears at a fault current before its
// insulation is hurt:
//
//	W_z = k² × S²          [A²s]
//	t_z = W_z ÷ I_k²       [s], rounded down to 0.001
//
// It holds up to 5 s, in which no heat is counted as lost; where the time comes
// out longer, TimeS is unset and the heating equation answers. k 1 to
// 500 A√s/mm², area above 0 to 1000 mm², fault above 0 to 1 000 000 A.
// Source: IEC 60364-4-43 clause 434.5.2.
func (c Cable) Withstand(faultA decimal.Decimal) (Withstand, error) {
	if err := errors.Join(c.check(), working.Above("current_a", faultA, 0, 1_000_000)); err != nil {
		return Withstand{}, err
	}
	w := working.Start(c.From)
	fault := w.Given("I_k", faultA)
	energy := c.energy(&w)
	a := Withstand{EnergyA2S: energy}
	if square := fault.Mul(fault); energy.LessThanOrEqual(fiveSeconds.Mul(square)) {
		a.TimeS = decimal.NewNullDecimal(w.CalcDown("t_z", "W_z ÷ (I_k × I_k)", energy, square, 3, adiabatic))
	}
	a.Working = slices.Clip(w)
	return a, nil
}

func (c Cable) check() error {
	return errors.Join(
		working.Between("adiabatic_k", c.K, 1, 500),
		working.Above("area_mm2", c.AreaMM2, 0, 1000),
	)
}

// energy adds the lines of k²S².
func (c Cable) energy(w *working.Working) decimal.Decimal {
	k, s := w.Given("k", c.K), w.Given("S", c.AreaMM2)
	ks := k.Mul(s)
	return w.Calc("W_z", "k × k × S × S", ks.Mul(ks), adiabatic)
}

// CrossSection is a cross-section with its working.
type CrossSection struct {
	AreaMM2 decimal.Decimal `json:"area_mm2"`
	Working working.Working `json:"working,omitempty"`
}

// FaultArea returns the least cross-section that bears a fault current for a
// time:
//
//	S_k = I_k × √t_k ÷ k   [mm²], rounded up to 0.001
//
// Time above 0 to 5 s; the ranges of [Cable.Withstand] hold for the others.
// Source: IEC 60364-4-43 clause 434.5.2.
func FaultArea(faultA, timeS, k decimal.Decimal) (CrossSection, error) {
	err := errors.Join(
		working.Above("current_a", faultA, 0, 1_000_000),
		working.Above("fault_s", timeS, 0, 5),
		working.Between("adiabatic_k", k, 1, 500),
	)
	if err != nil {
		return CrossSection{}, err
	}
	var w working.Working
	i, t := w.Given("I_k", faultA), w.Given("t_k", timeS)
	w.Given("k", k)
	s, err := fixed(math.Ceil(i.InexactFloat64()*math.Sqrt(t.InexactFloat64())/k.InexactFloat64()*1000)/1000, 3)
	if err != nil {
		return CrossSection{}, err
	}
	w.Calc("S_k", "ceil(I_k × sqrt(t_k) ÷ k × 1000) ÷ 1000", s, adiabatic)
	return CrossSection{AreaMM2: s, Working: slices.Clip(w)}, nil
}
