package wire

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// HotJoint is a lug, a bolted joint or a contact at the end of a cable, which
// carries its heat away.
type HotJoint struct {
	Milliohm decimal.Decimal     `json:"joint_milliohm"` // above 0 to 1000
	CurrentA decimal.Decimal     `json:"current_a"`      // above 0 to 10 000
	Ampacity Ampacity            `json:"ampacity"`       // of the cable
	AreaMM2  decimal.Decimal     `json:"area_mm2"`       // of the cable
	TimeS    decimal.NullDecimal `json:"time_s"`         // for which the current flows; unset: without end; above 0 to 600
	From     working.Working     `json:"from,omitempty"`
}

// JointRise is how hot a joint makes itself.
type JointRise struct {
	MilliV  decimal.Decimal `json:"joint_mv"`
	LossW   decimal.Decimal `json:"joint_w"`
	RiseK   decimal.Decimal `json:"joint_rise_k"`
	Working working.Working `json:"working"`
}

// Rise returns by how much a joint is warmer than its cable would be without it:
//
//	U_j   = R_jt × I                                                 [mV]
//	P_jt  = U_j × I ÷ 1000                                           [W]
//	G_jt  = I_c × √(L_0 × (273.15 + T_r) ÷ (T_r − T_a))              [W/K], down to 0.000001
//	ΔT_jt = P_jt ÷ G_jt                                              [K], up to 0.1
//
// and where the current flows for a time alone, in which the heat does not come far:
//
//	ΔT_jt = 2 × P_jt ÷ S × √(t ÷ (π × L_0 × (273.15 + T_r) × K_m² ÷ (β + T_r)))
//
// One cable carries all of it away, as a long rod that gives heat off along its
// length: copper conducts heat as it conducts current (L_0), and what its surface
// gives off is known from its ampacity. So the millivolts across a joint decide,
// whatever the size: a fully loaded cable's joint is some 2 K warmer for each mV.
// What the post or bar on the other side takes is left out.
//
// Joint above 0 to 1000 mΩ, current above 0 to 10 000 A, area 0.001 to 1000 mm²,
// time above 0 to 600 s. Sources: the law of Wiedemann and Franz for L_0; the
// equations of a long fin and of a half-space heated on its face, from memory; IEC
// 60949 for K_m and β.
func (j HotJoint) Rise() (JointRise, error) {
	if err := j.check(); err != nil {
		return JointRise{}, err
	}
	lorenz, err := tables.Material("copper", "lorenz_number")
	if err != nil {
		return JointRise{}, err
	}
	w := working.Start(j.From)
	r, i := w.Given("R_jt", j.Milliohm), w.Given("I", j.CurrentA)
	x := JointRise{MilliV: w.Calc("U_j", "R_jt × I", r.Mul(i), ohm)}
	x.LossW = w.Calc("P_jt", "U_j × I ÷ 1000", x.MilliV.Mul(i).Shift(-3), ohm)
	w.LookUp("L_0", lorenz)
	w.Given("T_r", j.Ampacity.InsulationC)
	law := j.lasting
	if j.TimeS.Valid {
		law = j.shortly
	}
	x.RiseK, err = law(&w, lorenz.Value.InexactFloat64(), x.LossW.InexactFloat64())
	x.Working = slices.Clip(w)
	return x, err
}

var (
	fin       = cite.Practice.At("equation of a long fin", cite.FromMemory)
	halfSpace = cite.Practice.At("equation of a half-space heated on its face", cite.FromMemory)
)

// kelvin is 0 °C on the scale that begins at absolute zero.
const kelvin = 273.15

// lasting adds the rise that the joint comes to in the end.
func (j HotJoint) lasting(w *working.Working, lorenz, lossW float64) (decimal.Decimal, error) {
	a := j.Ampacity
	ic, ta := w.Given("I_c", a.CableA), w.Given("T_a", a.AmbientC)
	hot, rise := a.InsulationC.InexactFloat64()+kelvin, a.InsulationC.Sub(ta).InexactFloat64()
	g, err := calcFixed(w, "G_jt", "floor(I_c × sqrt(L_0 × (273.15 + T_r) ÷ (T_r − T_a)) × 1000000) ÷ 1000000",
		floorTo(ic.InexactFloat64()*math.Sqrt(lorenz*hot/rise), 6), 6, fin)
	if err != nil {
		return g, err
	}
	return calcFixed(w, "ΔT_jt", "ceil(P_jt ÷ G_jt × 10) ÷ 10", ceilTo(lossW/g.InexactFloat64(), 1), 1, ohm)
}

// shortly adds the rise after the time that the current flows.
func (j HotJoint) shortly(w *working.Working, lorenz, lossW float64) (decimal.Decimal, error) {
	constant, err := tables.Material("copper", "adiabatic_constant")
	if err != nil {
		return decimal.Zero, err
	}
	zero, err := tables.Material("copper", "adiabatic_beta")
	if err != nil {
		return decimal.Zero, err
	}
	t, s := w.Given("t", j.TimeS.Decimal).InexactFloat64(), w.Given("S", j.AreaMM2).InexactFloat64()
	k, beta := w.LookUp("K_m", constant).InexactFloat64(), w.LookUp("β", zero).InexactFloat64()
	c := j.Ampacity.InsulationC.InexactFloat64()
	const pi = 3.1415 // as the formula has it: below π, on the hot side
	x := 2 * lossW / s * math.Sqrt(t/(pi*lorenz*(kelvin+c)*k*k/(beta+c)))
	return calcFixed(w, "ΔT_jt", "ceil(2 × P_jt ÷ S × sqrt(t ÷ (3.1415 × L_0 × (273.15 + T_r) × K_m × K_m ÷ (β + T_r))) × 10) ÷ 10", ceilTo(x, 1), 1, halfSpace)
}

// ceilTo rounds up to so many places.
func ceilTo(x float64, places int) float64 {
	return math.Ceil(x*math.Pow10(places)) / math.Pow10(places)
}

// Check is check W09: the rise of the joint against what a tin-plated terminal may
// be warmer than the air about it. It leaves out how warm the cable makes the
// terminal, which its ampacity bounds.
func (j HotJoint) Check() (working.Check, error) {
	rise, err := j.Rise()
	if err != nil {
		return working.Check{}, err
	}
	limit, err := tables.Material("tin-plated terminal", "temperature_rise")
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(rise.Working)
	w.LookUp("ΔT_jm", limit)
	return w.Check("W09", "Heat of the joint", "ΔT_jt", "ΔT_jm"), nil
}

func (j HotJoint) check() error {
	faults := []error{
		working.Above("joint_milliohm", j.Milliohm, 0, 1000),
		working.Above("current_a", j.CurrentA, 0, greatestAmperes),
		checkFrom("area_mm2", j.AreaMM2, leastArea, 10_000),
		j.Ampacity.check(),
	}
	if j.TimeS.Valid {
		faults = append(faults, working.Above("time_s", j.TimeS.Decimal, 0, 600))
	}
	err := errors.Join(faults...)
	if err == nil && !j.Ampacity.InsulationC.GreaterThan(j.Ampacity.AmbientC) {
		err = &working.InputError{Field: "insulation_c", Got: j.Ampacity.InsulationC.String(), Want: "above ambient_c"}
	}
	return err
}
