package battery

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Inverter turns direct current into a.c. It states one efficiency, or a curve.
type Inverter struct {
	Name              string              `json:"name"`
	EfficiencyPercent decimal.NullDecimal `json:"efficiency_percent"` // 1 to 100
	Curve             []EfficiencyPoint   `json:"curve,omitempty"`    // rising; in place of EfficiencyPercent; 1 to 100
	RatingW           decimal.NullDecimal `json:"rating_w"`           // continuous output: 100 % of the curve; 1 to 100 000
	IdleW             decimal.NullDecimal `json:"idle_w"`             // drawn with nothing connected; 0 to 1000
}

// EfficiencyPoint is one point of an inverter's curve, from its data sheet.
type EfficiencyPoint struct {
	LoadPercent       decimal.Decimal `json:"load_percent"` // of the continuous rating; 0 to 300
	EfficiencyPercent decimal.Decimal `json:"efficiency_percent"`
}

// InverterDraw is what an inverter takes from its supply.
type InverterDraw struct {
	InputW   decimal.Decimal `json:"input_w"`
	LossW    decimal.Decimal `json:"loss_w"` // heat in its bay
	CurrentA decimal.Decimal `json:"input_a"`
	Working  working.Working `json:"working"`
}

// Draw returns what the inverter takes for an output, at a voltage on its d.c.
// terminals:
//
//	P_i = P × 100 ÷ η + P_0   [W]
//	P_v = P_i − P             [W]
//	I_i = P_i ÷ U_t           [A]
//
// P_i and I_i are rounded up to 0.01. The current rises as the voltage falls:
// ask at the cut-out voltage for the greatest. Idle power is added in full,
// which is a little on the safe side where the efficiency stated includes it.
// From a curve it takes the worse of the two points beside the load, and
// refuses a load that the curve does not reach.
//
// Output 0 to 100 000 W, voltage 1 to 100 V, efficiency 1 to 100 %.
// Source: UFC 3-520-01 appendix E-2.2 for the efficiency, Ohm's law.
func (i Inverter) Draw(outputW, terminalV decimal.Decimal) (InverterDraw, error) {
	if err := errors.Join(i.check(), working.Between("power_w", outputW, 0, 100_000), working.Between("terminal_v", terminalV, 1, 100)); err != nil {
		return InverterDraw{}, err
	}
	var w working.Working
	in, err := i.input(&w, outputW)
	if err != nil {
		return InverterDraw{}, err
	}
	loss := w.Calc("P_v", "P_i − P", in.Sub(outputW), arithmetic)
	u := w.Given("U_t", terminalV)
	amps := w.CalcUp("I_i", "P_i ÷ U_t", in, u, 2, ohm)
	return InverterDraw{InputW: in, LossW: loss, CurrentA: amps, Working: slices.Clip(w)}, nil
}

// input adds what an output takes.
func (i Inverter) input(w *working.Working, outputW decimal.Decimal) (decimal.Decimal, error) {
	p := w.Given("P", outputW)
	percent, err := i.efficiency(w, "η", outputW, outputW)
	if err != nil {
		return decimal.Decimal{}, err
	}
	idle := w.Given("P_0", i.IdleW.Decimal)
	product := p.Mul(hundred).Add(idle.Mul(percent))
	return w.CalcUp("P_i", "P × 100 ÷ η + P_0", product, percent, 2, cite.UFC352001.At("appendix E-2.2", cite.Published)), nil
}

// efficiency adds the worst efficiency at any output from one to another.
func (i Inverter) efficiency(w *working.Working, symbol string, leastW, greatestW decimal.Decimal) (decimal.Decimal, error) {
	if i.EfficiencyPercent.Valid {
		return w.Given(symbol, i.EfficiencyPercent.Decimal), nil
	}
	first, last := -1, -1 // the points from the one at or below leastW to the one at or above greatestW
	for n, point := range i.Curve {
		// load ÷ rating against the point, as products
		at := point.LoadPercent.Mul(i.RatingW.Decimal)
		if at.LessThanOrEqual(leastW.Mul(hundred)) {
			first = n
		}
		if last < 0 && at.GreaterThanOrEqual(greatestW.Mul(hundred)) {
			last = n
		}
	}
	if first < 0 || last < 0 {
		return decimal.Decimal{}, i.unreached(leastW, greatestW)
	}
	worst := i.Curve[first]
	for _, point := range i.Curve[first : last+1] {
		if point.EfficiencyPercent.LessThan(worst.EfficiencyPercent) {
			worst = point
		}
	}
	f := worst.figure()
	if last-first == 1 {
		f.Note = "the worse of the two points beside the load"
	} else if last > first {
		f.Note = fmt.Sprintf("the worst of the points from %s to %s W", leastW, greatestW)
	}
	return w.LookUp(symbol, f), nil
}

// unreached names the output that the curve does not reach.
func (i Inverter) unreached(leastW, greatestW decimal.Decimal) error {
	reach := greatestW
	if leastW.Mul(hundred).LessThan(i.Curve[0].LoadPercent.Mul(i.RatingW.Decimal)) {
		reach = leastW
	}
	return &working.InputError{Field: "curve",
		Got:  fmt.Sprintf("a curve from %s to %s %% of %s W", i.Curve[0].LoadPercent, i.Curve[len(i.Curve)-1].LoadPercent, i.RatingW.Decimal),
		Want: fmt.Sprintf("one that reaches %s W", reach)}
}

func (p EfficiencyPoint) figure() working.Figure {
	return working.Figure{Value: p.EfficiencyPercent, Unit: "%",
		Source: cite.DataSheet.At("efficiency at "+p.LoadPercent.String()+" % load", cite.Given)}
}

func (i Inverter) check() error {
	faults := []error{stated("idle_w", i.IdleW, 0, 1000), betweenIf("rating_w", i.RatingW, 1, 100_000)}
	if i.EfficiencyPercent.Valid == (len(i.Curve) > 0) {
		faults = append(faults, &working.InputError{Field: "efficiency_percent",
			Got: fmt.Sprintf("%s beside a curve of %d points", orUnset(i.EfficiencyPercent), len(i.Curve)), Want: "one efficiency or a curve"})
	}
	if i.EfficiencyPercent.Valid {
		faults = append(faults, working.Between("efficiency_percent", i.EfficiencyPercent.Decimal, 1, 100))
	}
	if len(i.Curve) > 0 {
		faults = append(faults, i.checkCurve())
	}
	return errors.Join(faults...)
}

func (i Inverter) checkCurve() error {
	faults := []error{working.Between("curve", whole(len(i.Curve)), 1, 100)}
	if !i.RatingW.Valid {
		faults = append(faults, &working.InputError{Field: "rating_w", Got: "unset", Want: "the continuous output that is 100 % of the curve"})
	}
	for n, p := range i.Curve {
		faults = append(faults, working.In(at("curve", n), errors.Join(
			working.Between("load_percent", p.LoadPercent, 0, 300),
			working.Between("efficiency_percent", p.EfficiencyPercent, 1, 100),
		)))
	}
	for n := 1; n < len(i.Curve); n++ {
		if here, before := i.Curve[n].LoadPercent, i.Curve[n-1].LoadPercent; ordinary(here, before) && !here.GreaterThan(before) {
			faults = append(faults, &working.InputError{Field: at("curve", n) + ".load_percent", Got: here.String(), Want: "above that of the point before"})
		}
	}
	return errors.Join(faults...)
}

// Feed is an inverter at the end of its supply.
type Feed struct {
	Inverter     Inverter            `json:"inverter"`
	SteadyW      decimal.Decimal     `json:"power_w"`        // output; above 0 to 100 000
	SurgeW       decimal.Decimal     `json:"surge_w"`        // no less than SteadyW; above 0 to 100 000
	SourceV      decimal.Decimal     `json:"emf_v"`          // at rest: of a nearly empty bank for the worst case; 1 to 100
	PathMilliohm decimal.Decimal     `json:"path_milliohm"`  // source, cables out and back, devices and joints: never nought; above 0 to 10 000
	CutOutV      decimal.NullDecimal `json:"cut_out_v"`      // where the inverter switches itself off; 1 to 100
	From         working.Working     `json:"from,omitempty"` // the lines that gave the source and the path
}

// InverterTerminals is what an inverter finds on its d.c. terminals.
type InverterTerminals struct {
	Steady  OperatingPoint  `json:"steady"`
	Surge   OperatingPoint  `json:"surge"`
	Working working.Working `json:"working"`
}

// OperatingPoint is one working point. Where the supply cannot carry the load at
// any voltage it collapses: both figures are unset.
type OperatingPoint struct {
	VoltageV  decimal.NullDecimal `json:"terminal_v"`
	CurrentA  decimal.NullDecimal `json:"input_a"`
	Collapses bool                `json:"collapses"`
}

// Terminals returns volts and amperes at the inverter, steady and at surge, as
// they settle on a supply that sags:
//
//	U_t = E_0 − R_p × P_i ÷ 1000 ÷ U_t   [V]; of the two answers the higher
//	I_i = P_i ÷ U_t                      [A]
//
// The voltage is solved to 0.0001 V and rounded down, the current up. Where
// 4 × R_p × P_i ÷ 1000 is more than E_0 × E_0 the supply collapses: no voltage
// carries that power. Efficiency as in [Inverter.Draw].
//
// Outputs above 0 to 100 000 W, source 1 to 100 V, path above 0 to 10 000 mΩ. Sources:
// Ohm's law; for the limit, the greatest power that a source delivers.
func (f Feed) Terminals() (InverterTerminals, error) {
	if err := f.check(); err != nil {
		return InverterTerminals{}, err
	}
	w := working.Start(f.From)
	w.Given("E_0", f.SourceV)
	w.Given("R_p", f.PathMilliohm)
	var t InverterTerminals
	for _, c := range []struct {
		title   string
		outputW decimal.Decimal
		answer  *OperatingPoint
	}{{"steady", f.SteadyW, &t.Steady}, {"surge", f.SurgeW, &t.Surge}} {
		w.Part(c.title)
		in, err := f.Inverter.input(&w, c.outputW)
		if err != nil {
			return InverterTerminals{}, err
		}
		if *c.answer, err = f.settle(&w, in); err != nil {
			return InverterTerminals{}, err
		}
	}
	t.Working = slices.Clip(w)
	return t, nil
}

// settle adds the voltage and current at which an input power is carried.
func (f Feed) settle(w *working.Working, inputW decimal.Decimal) (OperatingPoint, error) {
	e, sag := f.SourceV, f.PathMilliohm.Mul(inputW).Shift(-3) // V²
	if four.Mul(sag).GreaterThan(e.Mul(e)) {
		w.Choose("U_t", "4 × R_p × P_i ÷ 1000 > E_0 × E_0", decimal.Zero, ohm)
		w.Note("collapses: no voltage carries this power")
		return OperatingPoint{Collapses: true}, nil
	}
	// the root of U_t × U_t − E_0 × U_t + R_p × P_i ÷ 1000 = 0
	root := math.Sqrt(math.Max(0, e.Mul(e).Sub(four.Mul(sag)).InexactFloat64()))
	u, err := fixed("emf_v", (e.InexactFloat64()+root)/2, 8)
	if err != nil {
		return OperatingPoint{}, err
	}
	u = w.Solve("U_t", "E_0 − R_p × P_i ÷ 1000 ÷ U_t", u.RoundFloor(4), decimal.New(2, -4), ohm)
	amps := w.CalcUp("I_i", "P_i ÷ U_t", inputW, u, 2, ohm)
	return OperatingPoint{VoltageV: decimal.NewNullDecimal(u), CurrentA: decimal.NewNullDecimal(amps)}, nil
}

var four = decimal.NewFromInt(4)

// Check judges the voltage at surge against the inverter's cut-out: see
// [SurgeVoltage.Check].
func (f Feed) Check() (working.Check, error) {
	t, err := f.Terminals()
	if err != nil {
		return working.Check{}, err
	}
	w := working.Start(t.Working)
	left := w.Calc("U_L", "U_t", t.Surge.VoltageV.Decimal, ohm)
	return SurgeVoltage{TerminalV: left, CutOutV: f.CutOutV, From: w}.Check()
}

// SurgeVoltage is what an inverter gets at its terminals while it gives its surge,
// however that was found: by a [Feed], or with a whole installation.
type SurgeVoltage struct {
	TerminalV decimal.Decimal     `json:"load_v"`         // 0: no voltage carries the surge; 0 to 100
	CutOutV   decimal.NullDecimal `json:"cut_out_v"`      // where the inverter switches itself off; 1 to 100
	From      working.Working     `json:"from,omitempty"` // the lines that gave the voltage
}

// Check judges the voltage at surge against the inverter's cut-out: B05. A cut-out that
// is not stated is a thing to ask.
func (s SurgeVoltage) Check() (working.Check, error) {
	const id, title = "B05", "Voltage at the inverter at surge"
	if err := errors.Join(working.Between("load_v", s.TerminalV, 0, 100), betweenIf("cut_out_v", s.CutOutV, 1, 100)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(s.From)
	if line, ok := w.Value("U_L"); !ok || !line.Equal(s.TerminalV) {
		w.Given("U_L", s.TerminalV)
	}
	if !s.CutOutV.Valid {
		return working.Check{ID: id, Title: title, Working: w, Missing: "the voltage at which the inverter switches itself off, from its data sheet"}, nil
	}
	w.Given("U_c", s.CutOutV.Decimal)
	c := w.Check(id, title, "U_c", "U_L")
	c.Below = true
	return c, nil
}

func (f Feed) check() error {
	faults := []error{
		working.In("inverter", f.Inverter.check()),
		working.Above("power_w", f.SteadyW, 0, 100_000),
		working.Above("surge_w", f.SurgeW, 0, 100_000),
		working.Between("emf_v", f.SourceV, 1, 100),
		working.Above("path_milliohm", f.PathMilliohm, 0, 10_000),
		betweenIf("cut_out_v", f.CutOutV, 1, 100),
	}
	if faults[2] == nil && ordinary(f.SteadyW) && f.SurgeW.LessThan(f.SteadyW) {
		faults = append(faults, &working.InputError{Field: "surge_w", Got: f.SurgeW.String(), Want: "at least power_w"})
	}
	return errors.Join(faults...)
}

// PartLoadCurve is an inverter of which only the rated efficiency is known.
type PartLoadCurve struct {
	RatedInputW       decimal.Decimal `json:"rated_input_w"`      // d.c. at full output
	EfficiencyPercent decimal.Decimal `json:"efficiency_percent"` // there
	From              working.Working `json:"from,omitempty"`
}

// InverterOutput is what an inverter makes of its input.
type InverterOutput struct {
	OutputW decimal.Decimal `json:"power_w"`
	Working working.Working `json:"working"`
}

// Output returns the output for an input by a published shape of the curve:
//
//	z = P_i ÷ P_in
//	P = min(P_in, P_i × (0.9858 − 0.0162 × z − 0.0059 ÷ z) ÷ 0.9637) × η ÷ 100
//
// to 0.000001 W. The curve is one of grid inverters: it serves for the shape
// at part load and knows no idle draw from a battery. z to 0.00000001. Rated
// input 1 to 100 000 W, input from 1 % to all of it. Source: PVWatts
// version 5.
// Input above 0 to 100 000 W.
func (s PartLoadCurve) Output(inputW decimal.Decimal) (InverterOutput, error) {
	if err := errors.Join(
		working.Between("rated_input_w", s.RatedInputW, 1, 100_000),
		working.Between("efficiency_percent", s.EfficiencyPercent, 1, 100),
		working.Above("input_w", inputW, 0, 100_000),
	); err != nil {
		return InverterOutput{}, err
	}
	if inputW.GreaterThan(s.RatedInputW) || inputW.Mul(hundred).LessThan(s.RatedInputW) {
		return InverterOutput{}, &working.InputError{Field: "input_w", Got: inputW.String(), Want: "1 % to all of rated_input_w, " + s.RatedInputW.String()}
	}
	w := working.Start(s.From)
	law := cite.PVWatts.At("inverter", cite.Published)
	rated, eta, in := w.Given("P_in", s.RatedInputW), w.Given("η", s.EfficiencyPercent), w.Given("P_i", inputW)
	z := w.Calc("z_i", "P_i ÷ P_in", in.DivRound(rated, 8), law)
	part := decimal.RequireFromString("0.9858").Sub(decimal.RequireFromString("0.0162").Mul(z)).Sub(decimal.RequireFromString("0.0059").DivRound(z, 12))
	shaped := decimal.Min(rated, in.Mul(part).DivRound(decimal.RequireFromString("0.9637"), 10))
	p := w.Calc("P", "min(P_in, P_i × (0.9858 − 0.0162 × z_i − 0.0059 ÷ z_i) ÷ 0.9637) × η ÷ 100", shaped.Mul(eta).Shift(-2).Round(6), law)
	return InverterOutput{OutputW: p, Working: slices.Clip(w)}, nil
}
