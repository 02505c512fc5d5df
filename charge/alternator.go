package charge

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Alternator is a vehicle's alternator by its plate, as ISO 8854 marks it: "50/120A
// 13.5V" is 50 A at 1500 and 120 A at 6000 revolutions a minute, cold.
type Alternator struct {
	RatedA    decimal.Decimal     `json:"rated_a"`        // above 0 to 1000
	IdleA     decimal.NullDecimal `json:"idle_output_a"`  // unset: not known, which leaves the check at idle open; 0 to 1000
	HotFactor decimal.NullDecimal `json:"hot_factor"`     // the maker's; 1 where the figures above are hot ones; above 0 to 1
	VehicleA  decimal.NullDecimal `json:"vehicle_a"`      // has to be stated: the vehicle's own loads, all that run together; 0 to 1000
	From      working.Working     `json:"from,omitempty"` // the lines that gave any of it
}

// Spare is what an alternator has left for a bank.
type Spare struct {
	OutputA decimal.Decimal `json:"hot_a"`
	SpareA  decimal.Decimal `json:"spare_a"` // below nought: the vehicle by itself empties its battery
	Working working.Working `json:"working"`
}

// OnRoad returns what the alternator has to spare at road speed, hot, once for
// each hot factor (the maker's or, where there is none, both common ones):
//
//	I_h  = f_h × I_R   [A]
//	I_sp = I_h − I_v   [A]
//
// Rated output above 0 to 1000 A, hot factor above 0 to 1, vehicle's loads 0 to
// 1000 A. Sources: ISO 8854 for the marking; common practice for the factors.
func (a Alternator) OnRoad() ([]Spare, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	return a.spare("I_R", a.RatedA), nil
}

// AtIdle is [Alternator.OnRoad] at idle: I_h = f_h × I_idle. It needs the output
// at idle.
func (a Alternator) AtIdle() ([]Spare, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	if !a.IdleA.Valid {
		return nil, &working.InputError{Field: "idle_output_a", Got: "unset", Want: idleMissing}
	}
	return a.spare("I_idle", a.IdleA.Decimal), nil
}

const idleMissing = "the alternator's output at idle: the number before the stroke on its plate, the maker's curve, or a clamp meter on its lead, hot and idling with everything on"

func (a Alternator) spare(symbol string, marked decimal.Decimal) []Spare {
	factors := tables.HotOutputs()
	if a.HotFactor.Valid {
		factors = []working.Figure{ofDataSheet(a.HotFactor.Decimal, "")}
	}
	var all []Spare
	for _, f := range factors {
		w := working.Start(a.From)
		cold, factor := w.Given(symbol, marked), w.LookUp("f_h", f)
		hot := w.Calc("I_h", "f_h × "+symbol, factor.Mul(cold), f.Source.Document())
		left := w.Calc("I_sp", "I_h − I_v", hot.Sub(w.Given("I_v", a.VehicleA.Decimal)), cite.Kirchhoff.At("", cite.Published))
		all = append(all, Spare{OutputA: hot, SpareA: left, Working: slices.Clip(w)})
	}
	return all
}

// CheckRoad checks (C04) that the bank draws no more than the alternator has to
// spare on the road, with the worst of the hot factors: I_dr ≤ I_sp.
// Draw 0 to 10 000 A.
func (a Alternator) CheckRoad(drawA decimal.NullDecimal) (working.Check, error) {
	spares, err := a.OnRoad()
	return a.checkSpare("C04", "Alternator on the road", spares, drawA, err)
}

// CheckIdle checks (C03) that the bank draws no more than the alternator has to
// spare at idle, with the worst of the hot factors:
//
//	I_def = max(0, I_dr − I_sp)   [A], which is Ah out of the starter battery each hour
//	I_dr ≤ I_sp
//
// Without the output at idle it cannot tell, and says what to measure.
// Draw 0 to 10 000 A.
func (a Alternator) CheckIdle(drawA decimal.NullDecimal) (working.Check, error) {
	if err := errors.Join(a.check(), demanded("draw_a", drawA, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	if !a.IdleA.Valid {
		return working.Check{ID: "C03", Title: "Alternator at idle", Demand: drawA.Decimal, Unit: "A", Missing: idleMissing}, nil
	}
	spares, err := a.AtIdle()
	return a.checkSpare("C03", "Alternator at idle", spares, drawA, err)
}

// checkSpare judges a draw by each hot factor and returns the strictest.
func (a Alternator) checkSpare(id, title string, spares []Spare, drawA decimal.NullDecimal, err error) (working.Check, error) {
	if err := errors.Join(err, demanded("draw_a", drawA, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	var checks []working.Check
	for _, s := range spares {
		w := working.Start(s.Working)
		draw := w.Given("I_dr", drawA.Decimal)
		w.Calc("I_def", "max(0, I_dr − I_sp)", greatest(decimal.Zero, draw.Sub(s.SpareA)), cite.Kirchhoff.At("", cite.Published))
		checks = append(checks, w.Check(id, title, "I_dr", "I_sp"))
	}
	worst, _ := working.Strictest(checks...)
	return checks[worst], nil
}

func (a Alternator) check() error {
	errs := []error{
		working.Above("rated_a", a.RatedA, 0, 1000),
		checkOptional("idle_output_a", a.IdleA, 0, 1000),
		demanded("vehicle_a", a.VehicleA, 0, 1000),
	}
	if a.HotFactor.Valid {
		errs = append(errs, working.Above("hot_factor", a.HotFactor.Decimal, 0, 1))
	}
	return errors.Join(errs...)
}

// SpeedCurve is an alternator's output against its speed, as measured or as the
// maker draws it.
type SpeedCurve struct {
	PulleyRatio decimal.Decimal `json:"pulley_ratio"`     // alternator's speed by engine's
	Points      []SpeedPoint    `json:"points,omitempty"` // by rising speed; 1 to 1000
}

// SpeedPoint is one point of it.
type SpeedPoint struct {
	PerMin  decimal.Decimal `json:"alternator_per_min"` // above 0 to 30 000
	OutputA decimal.Decimal `json:"output_a"`           // 0 to 1000
}

// AlternatorOutput is what an alternator gives.
type AlternatorOutput struct {
	AlternatorPerMin decimal.Decimal `json:"alternator_per_min"`
	OutputA          decimal.Decimal `json:"output_a"`
	Working          working.Working `json:"working"`
}

// OutputInterpolated returns the output at a speed of the engine, on a straight
// line between the points of the curve:
//
//	n_a   = r_p × n_e                                              [1/min]
//	I_out = I_a1 + (I_a2 − I_a1) × (n_a − n_1) ÷ (n_2 − n_1)       [A], to 0.01
//
// The real curve is bent upwards between two points, so that it gives no less.
// Above the last point the output is the last one's; below the first nothing is
// known and it is an error. Pulley ratio above 0 to 10, engine 0 to 10 000
// 1/min.
func (s SpeedCurve) OutputInterpolated(enginePerMin decimal.Decimal) (AlternatorOutput, error) {
	if err := errors.Join(s.check(), working.Between("engine_per_min", enginePerMin, 0, 10_000)); err != nil {
		return AlternatorOutput{}, err
	}
	var w working.Working
	speed := w.Calc("n_a", "r_p × n_e", w.Given("r_p", s.PulleyRatio).Mul(w.Given("n_e", enginePerMin)), sums)
	first, last := s.Points[0], s.Points[len(s.Points)-1]
	if speed.LessThan(first.PerMin) {
		return AlternatorOutput{}, &working.InputError{Field: "engine_per_min", Got: enginePerMin.String() + ", alternator at " + speed.String(), Want: "at least the curve's first speed, " + first.PerMin.String()}
	}
	if speed.GreaterThanOrEqual(last.PerMin) {
		w.Given("n_1", last.PerMin)
		amps := w.Choose("I_out", "n_a ≥ n_1", last.OutputA, cite.DataSheet.At("", cite.Given))
		return AlternatorOutput{speed, amps, slices.Clip(w)}, nil
	}
	i := slices.IndexFunc(s.Points, func(p SpeedPoint) bool { return p.PerMin.GreaterThan(speed) })
	low, high := s.Points[i-1], s.Points[i]
	w.Given("n_1", low.PerMin)
	w.Given("n_2", high.PerMin)
	w.Given("I_a1", low.OutputA)
	w.Given("I_a2", high.OutputA)
	rise := high.OutputA.Sub(low.OutputA).Mul(speed.Sub(low.PerMin)).DivRound(high.PerMin.Sub(low.PerMin), 16)
	amps := w.Calc("I_out", "I_a1 + (I_a2 − I_a1) × (n_a − n_1) ÷ (n_2 − n_1)", low.OutputA.Add(rise).Round(2), cite.Arithmetic.At("straight line", cite.Published))
	return AlternatorOutput{speed, amps, slices.Clip(w)}, nil
}

func (s SpeedCurve) check() error {
	errs := []error{working.Above("pulley_ratio", s.PulleyRatio, 0, 10), working.Between("points", count(len(s.Points)), 1, 1000)}
	for i, p := range s.Points[:min(len(s.Points), 1000)] {
		errs = append(errs, working.In(fmt.Sprintf("points[%d]", i), errors.Join(
			working.Above("alternator_per_min", p.PerMin, 0, 30_000), working.Between("output_a", p.OutputA, 0, 1000))))
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	for i, p := range s.Points[1:] {
		if p.PerMin.LessThanOrEqual(s.Points[i].PerMin) {
			errs = append(errs, &working.InputError{Field: fmt.Sprintf("points[%d].alternator_per_min", i+1), Got: p.PerMin.String(), Want: "above the point before"})
		}
	}
	return errors.Join(errs...)
}

// Coupled is a bank joined to a vehicle's system by a relay or a switch, with no
// converter that limits the current.
type Coupled struct {
	VehicleV decimal.Decimal `json:"vehicle_v"`      // where the bank is joined
	BankV    decimal.Decimal `json:"bank_emf_v"`     // at rest
	Milliohm decimal.Decimal `json:"loop_milliohm"`  // bank, cable and contacts, out and back
	From     working.Working `json:"from,omitempty"` // the lines that gave any of it
}

// CoupledCurrent is a current drawn.
type CoupledCurrent struct {
	CurrentA decimal.Decimal `json:"draw_a"`
	Working  working.Working `json:"working"`
}

// Current returns the current at the first moment after closing:
//
//	I_dr = (U_v − E_b) × 1000 ÷ R   [A], to 0.01
//
// Below nought the bank feeds the vehicle. A lithium bank's voltage hardly rises
// as it charges, so that the current stays, up to what the alternator gives and
// the battery's own limit. Voltages above 0 to 100 V, loop above 0 to 10 000 mΩ.
// Source: Ohm's law.
func (c Coupled) Current() (CoupledCurrent, error) {
	err := errors.Join(
		working.Above("vehicle_v", c.VehicleV, 0, 100), working.Above("bank_emf_v", c.BankV, 0, 100),
		working.Above("loop_milliohm", c.Milliohm, 0, 10_000),
	)
	if err != nil {
		return CoupledCurrent{}, err
	}
	w := working.Start(c.From)
	u, e, r := w.Given("U_v", c.VehicleV), w.Given("E_b", c.BankV), w.Given("R", c.Milliohm)
	i := w.Calc("I_dr", "(U_v − E_b) × 1000 ÷ R", u.Sub(e).Shift(3).DivRound(r, 2), cite.OhmsLaw.At("", cite.Published))
	return CoupledCurrent{CurrentA: i, Working: slices.Clip(w)}, nil
}
