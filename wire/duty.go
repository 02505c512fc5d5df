package wire

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Pulse is a current for a time.
type Pulse struct {
	CurrentA decimal.Decimal `json:"current_a"`
	TimeS    decimal.Decimal `json:"time_s"`
}

// Duty is a load that comes and goes: the pulses of one period, nothing in
// between.
type Duty struct {
	Pulses  []Pulse         `json:"pulses,omitempty"`
	PeriodS decimal.Decimal `json:"period_s"`
}

// Equivalent returns the steady current that heats a conductor as much as the
// duty does over its period:
//
//	I_1² × t_1 + I_2² × t_2 + ... = T_p × I_th²      [A], up to 0.01
//
// It holds where the period is short against the conductor's time constant
// ([Overload]); a longer pulse must be judged as it is. The peak counts for the
// drop, contacts and devices. 1 to 50 pulses of above 0 to 10 000 A that fill no more
// than the period, above 0 to 86 400 s. Source: Joule heat, P = R I².
func (d Duty) Equivalent() (Current, error) {
	if err := d.check(); err != nil {
		return Current{}, err
	}
	var w working.Working
	sum, terms := decimal.Zero, []string{}
	for n, p := range d.Pulses {
		i, t := fmt.Sprintf("I.%d", n+1), fmt.Sprintf("t.%d", n+1)
		a, s := w.Given(i, p.CurrentA), w.Given(t, p.TimeS)
		sum = sum.Add(a.Mul(a).Mul(s))
		terms = append(terms, i+" × "+i+" × "+t)
	}
	period := w.Given("T_p", d.PeriodS)
	root, err := rootUp(sum, period)
	if err != nil {
		return Current{}, err
	}
	current := w.Choose("I_th", strings.Join(terms, " + ")+" ≤ T_p × I_th × I_th", root, ohm)
	w.Note("the least that is, to 0.01 A")
	return Current{current, slices.Clip(w)}, nil
}

// rootUp is the square root of a ÷ b, rounded up to 0.01; the root in floating
// point may be a step too high, never more.
func rootUp(a, b decimal.Decimal) (decimal.Decimal, error) {
	root, err := fixed(math.Sqrt(a.InexactFloat64()/b.InexactFloat64()), 2)
	cent := decimal.New(1, -2)
	for err == nil && root.Mul(root).Mul(b).LessThan(a) {
		root = root.Add(cent)
	}
	return root, err
}

func (d Duty) check() error {
	faults := []error{
		working.Between("pulses", decimal.NewFromInt(int64(len(d.Pulses))), 1, 50),
		working.Above("period_s", d.PeriodS, 0, 86_400),
	}
	for i, p := range d.Pulses {
		faults = append(faults, working.In(fmt.Sprintf("pulses[%d]", i), errors.Join(
			working.Above("current_a", p.CurrentA, 0, greatestAmperes), working.Above("time_s", p.TimeS, 0, 86_400))))
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	total := decimal.Zero
	for _, p := range d.Pulses {
		total = total.Add(p.TimeS)
	}
	if total.GreaterThan(d.PeriodS) {
		return &working.InputError{Field: "period_s", Got: d.PeriodS.String(), Want: "at least the pulses together, " + total.String()}
	}
	return nil
}

// Overload is a current that need not last: how hot the conductor is when.
type Overload struct {
	Ampacity      Ampacity            `json:"ampacity"`
	AreaMM2       decimal.Decimal     `json:"area_mm2"`
	CurrentA      decimal.Decimal     `json:"current_a"`
	StartC        decimal.NullDecimal `json:"start_c"`         // unset: the ambient
	TimeConstantS decimal.NullDecimal `json:"time_constant_s"` // unset: from the copper alone
}

// Temperature returns how hot the conductor is after a time, its resistance
// rising with it:
//
//	b   = 1 − (I ÷ I_c)² × (T_r − T_a) ÷ (β + T_r)       to 0.000000001
//	T_e = (β + T_a) ÷ b − β                              [°C], to 0.1
//	τ   = (K_m × S ÷ I_c)² × (T_r − T_a) ÷ (β + T_r)     [s], down to 0.1
//	T_c = T_e − (T_e − T_s) × exp(−b × t ÷ τ)            [°C], to 0.1
//
// At I_c it ends at T_r. Where b is below nought the heat runs away: each kelvin
// adds more than it carries off. For short times the law is that of IEC 60949,
// k² S², and from there on it lasts longer by the heat that is lost. τ, where it
// is not stated, follows from the heat that the copper alone takes in: the
// insulation's share is left out, so the conductor warms faster here than it
// does. Current above 0 to 10 000 A, area 0.001 to 1000 mm², start -60 to 250 °C, τ 1
// to 86 400 s, time 0 to 86 400 s. A temperature beyond 1500 °C, where copper
// has long melted, is given as 1500 °C. Sources: BS 7671 appendix 4, clause 6.1,
// for the heat carried off; IEC 60949 for K_m and β.
func (o Overload) Temperature(timeS decimal.Decimal) (Temperature, error) {
	if err := errors.Join(o.check(), working.Between("time_s", timeS, 0, 86_400)); err != nil {
		return Temperature{}, err
	}
	w := working.Start(o.Ampacity.Working)
	h, err := o.law(&w)
	if err != nil {
		return Temperature{}, err
	}
	t := w.Given("t", timeS)
	e, s := h.endC.InexactFloat64(), h.startC.InexactFloat64()
	hot := e - (e-s)*math.Exp(-h.dying.InexactFloat64()*t.InexactFloat64()/h.tauS.InexactFloat64())
	c, err := calcFixed(&w, "T_c", "min(1500, T_e − (T_e − T_s) × exp(0 − b × t ÷ τ))", math.Min(hot, melted), 1, heating)
	return Temperature{c, slices.Clip(w)}, err
}

// melted is well above the melting point of copper.
const melted = 1500

var heating = cite.Practice.At("one thermal time constant", cite.CommonPractice)

// heat is the law of one conductor at one current.
type heat struct{ dying, endC, startC, tauS decimal.Decimal }

// law adds the lines of how the rise dies away, of the end temperature, the
// start and the time constant.
func (o Overload) law(w *working.Working) (heat, error) {
	zero, err := tables.Material("copper", "adiabatic_beta")
	if err != nil {
		return heat{}, err
	}
	a := o.Ampacity
	i, beta := w.Given("I", o.CurrentA), w.LookUp("β", zero)
	full := a.CableA.Mul(a.CableA).Mul(beta.Add(a.InsulationC))
	rest := full.Sub(i.Mul(i).Mul(a.InsulationC.Sub(a.AmbientC)))
	h := heat{dying: rest.DivRound(full, 9), startC: a.AmbientC}
	if h.dying.IsZero() {
		return heat{}, &working.InputError{Field: "current_a", Got: i.String(), Want: "a little more or less: just here the heat neither dies away nor runs away"}
	}
	w.Calc("b", "1 − I × I × (T_r − T_a) ÷ (I_c × I_c × (β + T_r))", h.dying, heating)
	h.endC = beta.Add(a.AmbientC).Sub(beta.Mul(h.dying)).DivRound(h.dying, 1)
	w.Calc("T_e", "(β + T_a) ÷ b − β", h.endC, heating)
	if o.StartC.Valid {
		h.startC = o.StartC.Decimal
	}
	w.Given("T_s", h.startC)
	if o.TimeConstantS.Valid {
		h.tauS = w.Given("τ", o.TimeConstantS.Decimal)
		return h, nil
	}
	h.tauS, err = o.ownTimeConstant(w)
	return h, err
}

// ownTimeConstant is what the copper's heat alone gives.
func (o Overload) ownTimeConstant(w *working.Working) (decimal.Decimal, error) {
	constant, err := tables.Material("copper", "adiabatic_constant")
	if err != nil {
		return decimal.Zero, err
	}
	a := o.Ampacity
	beta, _ := w.Value("β")
	k, s := w.LookUp("K_m", constant), w.Given("S", o.AreaMM2)
	heat := k.Mul(k).Mul(s).Mul(s).Mul(a.InsulationC.Sub(a.AmbientC))
	tau := w.CalcDown("τ", "K_m × K_m × S × S × (T_r − T_a) ÷ (I_c × I_c × (β + T_r))", heat,
		a.CableA.Mul(a.CableA).Mul(beta.Add(a.InsulationC)), 1, cite.IEC60949.At("heat capacity of the conductor", cite.FromMemory))
	if tau.LessThan(decimal.New(1, -1)) {
		return decimal.Zero, &working.InputError{Field: "area_mm2", Got: o.AreaMM2.String(), Want: "an area that belongs to the ampacity"}
	}
	return tau, nil
}

// Time is how long something takes; Reached is false where it never comes to
// pass.
type Time struct {
	Reached bool                `json:"reached"`
	TimeS   decimal.NullDecimal `json:"time_s"` // unset where it never does
	Working working.Working     `json:"working"`
}

// TimeTo returns when the conductor comes to a temperature:
//
//	t_T = τ ÷ b × ln((T_e − T_s) ÷ (T_e − T_lim))      [s], down to 0.1
//
// with b, T_e, T_s and τ as in [Overload.Temperature]. It never does where it
// ends no hotter, 0 < b and T_e ≤ T_lim; it is there from the start, 0 s, where
// T_lim ≤ T_s. The limit runs from -60 to 350 °C, to which silicone rubber may be
// heated in a fault.
func (o Overload) TimeTo(limitC decimal.Decimal) (Time, error) {
	if err := errors.Join(o.check(), working.Between("limit_c", limitC, -60, 350)); err != nil {
		return Time{}, err
	}
	w := working.Start(o.Ampacity.Working)
	h, err := o.law(&w)
	if err != nil {
		return Time{}, err
	}
	limit := w.Given("T_lim", limitC)
	switch {
	case limit.LessThanOrEqual(h.startC):
		w.Choose("t_T", "T_lim ≤ T_s", decimal.Zero, heating)
		return Time{true, decimal.NewNullDecimal(decimal.Zero), slices.Clip(w)}, nil
	case h.dying.IsPositive() && h.endC.LessThanOrEqual(limit):
		w.Choose("T_lim", "T_e ≤ T_lim", limit, heating)
		w.Note("never reached")
		return Time{Working: slices.Clip(w)}, nil
	}
	ratio := h.endC.Sub(h.startC).InexactFloat64() / h.endC.Sub(limit).InexactFloat64()
	s := h.tauS.InexactFloat64() / h.dying.InexactFloat64() * math.Log(ratio)
	t, err := calcFixed(&w, "t_T", "floor(τ ÷ b × ln((T_e − T_s) ÷ (T_e − T_lim)) × 10) ÷ 10", floorTo(s, 1), 1, heating)
	return Time{true, decimal.NewNullDecimal(t), slices.Clip(w)}, err
}

func (o Overload) check() error {
	err := errors.Join(
		o.Ampacity.check(),
		checkFrom("area_mm2", o.AreaMM2, leastArea, 1000),
		working.Above("current_a", o.CurrentA, 0, greatestAmperes),
		checkOptional("start_c", o.StartC, -60, 250),
		checkOptional("time_constant_s", o.TimeConstantS, 1, 86_400),
	)
	if err == nil && !o.Ampacity.InsulationC.GreaterThan(o.Ampacity.AmbientC) {
		err = &working.InputError{Field: "insulation_c", Got: o.Ampacity.InsulationC.String(), Want: "above ambient_c"}
	}
	return err
}
