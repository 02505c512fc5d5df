package wire

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Run is one supply conductor and its return, of the same size unless a return
// of its own is stated.
type Run struct {
	CurrentA       decimal.Decimal     `json:"current_a"`
	LengthM        decimal.Decimal     `json:"length_m"` // one way; the return is added
	MilliohmPerM   decimal.Decimal     `json:"resistance_mohm_per_m"`
	JointsMilliohm decimal.Decimal     `json:"joints_milliohm"` // every contact of the loop together
	Cables         int                 `json:"parallel_cables"` // side by side, out and back alike; 0 is one
	ReturnMilliohm decimal.NullDecimal `json:"return_milliohm"` // chassis or bus in place of the return cable
	From           working.Working     `json:"from,omitempty"`  // the lines that gave MilliohmPerM; nil where it is given
}

// Loop is the resistance of a run, out and back.
type Loop struct {
	LoopMilliohm decimal.Decimal     `json:"loop_milliohm"`
	ConductorC   decimal.NullDecimal `json:"conductor_c"` // at which; unset: not known here; -60 to 250
	Working      working.Working     `json:"working"`
}

// Drop is what a run loses.
type Drop struct {
	CurrentA     decimal.Decimal     `json:"current_a"`
	LoopMilliohm decimal.Decimal     `json:"loop_milliohm"`
	ConductorC   decimal.NullDecimal `json:"conductor_c"` // at which; unset: not known here
	DropV        decimal.Decimal     `json:"drop_v"`
	Working      working.Working     `json:"working"`
}

// Loop returns the resistance of a run out and back, joints included, which no
// current has to be known for:
//
//	R  = 2 × L × R_T + R_j              [mΩ]
//	R  = L × R_T + R_rt + R_j           with a return of its own
//
// Of several cables side by side the length counts as divided by their number,
// R to 0.000001 mΩ. CurrentA does not count. Length above 0 to 1000 m, resistance
// 0.0001 to 1000 mΩ/m, joints and return 0 to 1000 mΩ, 1 to 20 cables. Source:
// Ohm's law.
func (r Run) Loop() (Loop, error) {
	if err := errors.Join(r.check(), r.checkLength()); err != nil {
		return Loop{}, err
	}
	w := working.Start(r.From)
	loop := r.loop(&w)
	return Loop{LoopMilliohm: loop, Working: slices.Clip(w)}, nil
}

func (r Run) checkLength() error { return working.Above("length_m", r.LengthM, 0, 1000) }

func (r Run) loop(w *working.Working) decimal.Decimal {
	rT := w.Given("R_T", r.MilliohmPerM)
	l := w.Given("L", r.LengthM)
	rJ := w.Given("R_j", r.JointsMilliohm)
	cable, formula := two.Mul(l).Mul(rT), "2 × L × R_T"
	rest, restFormula := rJ, " + R_j"
	if r.ReturnMilliohm.Valid {
		cable, formula = l.Mul(rT), "L × R_T"
		rest, restFormula = w.Given("R_rt", r.ReturnMilliohm.Decimal).Add(rJ), " + R_rt + R_j"
	}
	loop := cable.Add(rest)
	if r.Cables > 1 {
		n := w.Given("n_cb", decimal.NewFromInt(int64(r.Cables)))
		loop, formula = cable.DivRound(n, 9).Add(rest).Round(6), formula+" ÷ n_cb"
	}
	return w.Calc("R", formula+restFormula, loop, ohm)
}

// Drop returns the voltage lost in the loop at a current, as warm as the loop was
// found: a surge, or what a network puts on it, which may be nought:
//
//	ΔU = I × R ÷ 1000                   [V]
//
// Current 0 to 10 000 A. Source: Ohm's law.
func (l Loop) Drop(currentA decimal.Decimal) (Drop, error) {
	if err := errors.Join(l.check(), working.Between("current_a", currentA, 0, greatestAmperes)); err != nil {
		return Drop{}, err
	}
	w := working.Start(l.Working)
	return l.drop(currentA, w), nil
}

// check refuses a loop that no run gave.
func (l Loop) check() error {
	if err := errors.Join(working.Between("loop_milliohm", l.LoopMilliohm, 0, greatestMilliohm*1000), checkOptional("conductor_c", l.ConductorC, -60, hottest)); err != nil {
		return err
	}
	if v, ok := l.Working.Value("R"); !ok || !v.Equal(l.LoopMilliohm) {
		return &working.InputError{Field: "loop_milliohm", Got: "without its lines", Want: "a loop with its working"}
	}
	return nil
}

func (l Loop) drop(currentA decimal.Decimal, w working.Working) Drop {
	i := w.Given("I", currentA)
	drop := w.Calc("ΔU", "I × R ÷ 1000", i.Mul(l.LoopMilliohm).Shift(-3), ohm)
	return Drop{CurrentA: i, LoopMilliohm: l.LoopMilliohm, ConductorC: l.ConductorC, DropV: drop, Working: slices.Clip(w)}
}

// Drop returns the voltage lost out and back, joints included:
//
//	ΔU = I × R ÷ 1000                   [V]
//
// R is that of [Run.Loop], with its ranges; current above 0 to 10 000 A. Anything
// else is an error that names every fault. Where the resistance is not known, a
// [Cable] finds it. Source: Ohm's law.
func (r Run) Drop() (Drop, error) {
	if err := errors.Join(r.checkCurrent(), r.check(), r.checkLength()); err != nil {
		return Drop{}, err
	}
	w := working.Start(r.From)
	return Loop{LoopMilliohm: r.loop(&w)}.drop(r.CurrentA, w), nil
}

func (r Run) checkCurrent() error { return working.Above("current_a", r.CurrentA, 0, greatestAmperes) }

func (r Run) check() error {
	return errors.Join(
		checkFrom("resistance_mohm_per_m", r.MilliohmPerM, leastPerM, 1000),
		working.Between("joints_milliohm", r.JointsMilliohm, 0, 1000),
		working.Between("parallel_cables", decimal.NewFromInt(int64(r.Cables)), 0, 20),
		checkOptional("return_milliohm", r.ReturnMilliohm, 0, 1000),
	)
}

// VoltageLeft is what a run leaves of the voltage.
type VoltageLeft struct {
	LeftV       decimal.Decimal `json:"left_v"`
	DropPercent decimal.Decimal `json:"drop_percent"`
	Working     working.Working `json:"working"`
}

// VoltageLeft returns the voltage behind the run and the drop in percent of the
// voltage before it:
//
//	U_lf = U_fr − ΔU             [V], below nought where the run cannot carry the current
//	p    = ΔU × 100 ÷ U_fr       [%], to 0.0001
//
// Voltage above 0 to 1000 V. Source: Ohm's law.
func (d Drop) VoltageLeft(beforeV decimal.Decimal) (VoltageLeft, error) {
	if err := errors.Join(d.check(), working.Above("run_supply_v", beforeV, 0, greatestVolts)); err != nil {
		return VoltageLeft{}, err
	}
	w := working.Start(d.Working)
	u := w.Given("U_fr", beforeV)
	percent := w.Calc("p", "ΔU × 100 ÷ U_fr", d.DropV.Shift(2).DivRound(u, 4), arithmetic)
	left := w.Calc("U_lf", "U_fr − ΔU", u.Sub(d.DropV), kirchhoff)
	return VoltageLeft{left, percent, slices.Clip(w)}, nil
}

// check refuses a drop that no run gave.
func (d Drop) check() error {
	return errors.Join(d.stands("drop_v", "ΔU", d.DropV), d.stands("current_a", "I", d.CurrentA))
}

// stands refuses a figure that the working does not end with.
func (d Drop) stands(field, symbol string, v decimal.Decimal) error {
	if err := working.Between(field, v, 0, 1_000_000_000_000); err != nil {
		return err
	}
	if line, ok := d.Working.Value(symbol); !ok || !line.Equal(v) {
		return &working.InputError{Field: field, Got: v.String() + ", without its lines", Want: "a drop with its working"}
	}
	return nil
}

// Check is check W02: the drop against a limit in V, or in percent of the
// nominal voltage, as rule sets state them. Where the set is silent the check
// does not apply. Nominal voltage above 0 to 1000 V.
func (d Drop) Check(limit working.Figure, systemV decimal.Decimal) (working.Check, error) {
	const id, title = "W02", "Voltage drop"
	if !limit.Stated() {
		return working.Check{ID: id, Title: title, Silent: "the rule set states no drop for this"}, nil
	}
	if err := d.check(); err != nil {
		return working.Check{}, err
	}
	w := working.Start(d.Working)
	if _, err := limitLine(&w, limit, systemV); err != nil {
		return working.Check{}, err
	}
	return w.Check(id, title, "ΔU", "ΔU_max"), nil
}

// limitLine adds the greatest drop allowed, in V.
func limitLine(w *working.Working, limit working.Figure, systemV decimal.Decimal) (decimal.Decimal, error) {
	switch limit.Unit {
	case "V":
		return w.LookUp("ΔU_max", limit), checkFrom("drop_limit_v", limit.Value, leastVolt, greatestVolts)
	case "%":
		err := errors.Join(working.Above("system_v", systemV, 0, greatestVolts), working.Above("drop_limit_percent", limit.Value, 0, 100))
		if err != nil {
			return decimal.Zero, err
		}
		u, p := w.Given("U_n", systemV), w.LookUp("p_max", limit)
		return w.Calc("ΔU_max", "U_n × p_max ÷ 100", u.Mul(p).Shift(-2), limit.Source.Document()), nil
	}
	return decimal.Zero, &working.InputError{Field: "drop_limit", Got: fmt.Sprintf("in %q", limit.Unit), Want: "a limit in V or %"}
}

// Length is the longest run.
type Length struct {
	LengthM decimal.Decimal `json:"greatest_length_m"` // one way; 0 where the joints alone lose too much
	Working working.Working `json:"working"`
}

// GreatestLength returns the longest one-way length within a drop; the run's own
// LengthM does not count:
//
//	L_max = (ΔU_max × 1000 ÷ I − R_j) ÷ (2 × R_T)               [m], down to 0.01
//	L_max = (ΔU_max × 1000 ÷ I − R_rt − R_j) ÷ R_T              with a return of its own
//
// times the number of cables side by side, and 0 where the joints alone lose
// too much. Current 0.01 to 10 000 A, drop 0.001 to 1000 V, else as for [Run.Drop].
// Source: Ohm's law.
func (r Run) GreatestLength(limitV decimal.Decimal) (Length, error) {
	err := errors.Join(r.check(), checkFrom("current_a", r.CurrentA, leastAmpere, greatestAmperes), checkFrom("drop_limit_v", limitV, leastVolt, greatestVolts))
	if err != nil {
		return Length{}, err
	}
	w := working.Start(r.From)
	return r.longest(&w, w.Given("ΔU_max", limitV)), nil
}

func (r Run) longest(w *working.Working, limit decimal.Decimal) Length {
	rT, rJ, i := w.Given("R_T", r.MilliohmPerM), w.Given("R_j", r.JointsMilliohm), w.Given("I", r.CurrentA)
	spare, formula := rJ, "ΔU_max × 1000 − I × R_j"
	each, eachFormula := two.Mul(rT), "2 × R_T"
	if r.ReturnMilliohm.Valid {
		spare, formula = rJ.Add(w.Given("R_rt", r.ReturnMilliohm.Decimal)), "ΔU_max × 1000 − I × (R_j + R_rt)"
		each, eachFormula = rT, "R_T"
	}
	n := one
	if r.Cables > 1 {
		n = w.Given("n_cb", decimal.NewFromInt(int64(r.Cables)))
		formula = "n_cb × (" + formula + ")"
	}
	above := limit.Shift(3).Sub(i.Mul(spare)).Mul(n)
	formula = "(" + formula + ") ÷ (I × " + eachFormula + ")"
	if above.IsNegative() {
		return Length{w.Calc("L_max", "max(0, "+formula+")", decimal.Zero, ohm), slices.Clip(*w)}
	}
	return Length{w.CalcDown("L_max", formula, above, i.Mul(each), 2, ohm), slices.Clip(*w)}
}
