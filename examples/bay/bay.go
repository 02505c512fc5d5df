package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/battery"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// question is batteries of one kind in one space.
type question struct {
	cases                     []string // "drawn", "delivered"
	fit                       battery.Fit
	longerMM                  decimal.Decimal // of the case as delivered
	eachKg, terminalMM        decimal.Decimal
	straps                    int // across each row
	times                     decimal.Decimal
	strengthN                 decimal.NullDecimal
	gas                       battery.Gassing
	openingCM2                decimal.Decimal
	lossW, outsideC, ambientC decimal.Decimal
	position, material        string
	vehicle                   battery.Vehicle
	behindM                   decimal.Decimal
}

// layout is one case in the space.
type layout struct {
	name string
	battery.Fit
	battery.FitMargins
}

// answer is all that the package says.
type answer struct {
	question
	laid    []layout
	warmth  battery.BoxTemperature
	warm    working.Check
	fan     *battery.Flow // that takes what the walls do not, where the bay becomes too warm
	vent    battery.Ventilation
	opening working.Check
	holds   battery.HoldDown
	forces  battery.Forces
	held    working.Check
	pull    battery.Pull
	axles   battery.Axles
}

var arithmetic = cite.Arithmetic.At("", cite.Published)

// answer asks the package and returns every fault at once, those of the flags
// first.
func (q question) answer(faults error) (answer, error) {
	a := answer{question: q}
	err := errors.Join(faults, a.lay(), a.heat(), a.ventilate(), a.hold(), a.weigh())
	return a, err
}

func (a *answer) lay() error {
	for _, name := range a.cases {
		l := layout{name: name, Fit: a.fit}
		if name == "delivered" {
			var w working.Working
			drawn := w.Given("l_c", l.Case.LengthMM)
			l.Case.LengthMM = w.Calc("l_c", "l_c + "+bracketed(a.longerMM), drawn.Add(a.longerMM), cite.Practice.At("measure the article", cite.CommonPractice))
			w.Note("longer than drawn")
			l.From = slices.Clip(w)
		}
		var err error
		if l.FitMargins, err = l.Fit.Fit(); err != nil {
			return err
		}
		a.laid = append(a.laid, l)
	}
	return nil
}

func bracketed(v decimal.Decimal) string {
	if v.IsNegative() {
		return "(" + v.String() + ")"
	}
	return v.String()
}

// box is the space as a closed box.
func (q question) box() battery.Box {
	var w working.Working
	side := func(symbol, of string, mm decimal.Decimal) decimal.Decimal {
		w.Given(of, mm)
		return w.Calc(symbol, of+" ÷ 1000", mm.Shift(-3), arithmetic)
	}
	s := q.fit.Space
	b := battery.Box{HeightM: side("H_b", "H_sp", s.HeightMM), WidthM: side("W_b", "L_sp", s.LengthMM), DepthM: side("D_b", "W_sp", s.WidthMM)}
	b.Position, b.Material, b.From = q.position, q.material, slices.Clip(w)
	return b
}

// heat judges the closed bay, and asks for a fan where it becomes too warm.
func (a *answer) heat() (err error) {
	box := a.box()
	if a.warm, err = box.CheckTemperature(decimal.NewNullDecimal(a.lossW), decimal.NewNullDecimal(a.outsideC), decimal.NewNullDecimal(a.ambientC)); err != nil {
		return err
	}
	if a.warmth, err = box.Temperature(decimal.NewNullDecimal(a.lossW), decimal.NewNullDecimal(a.outsideC)); err != nil {
		return err
	}
	rise := a.ambientC.Sub(a.outsideC)
	if a.warm.Verdict() != working.Fails || !rise.IsPositive() {
		return nil
	}
	walls, err := box.WallLoss(a.lossW, rise)
	if err != nil {
		return err
	}
	flow, err := battery.Airflow{LossW: walls.RestW, RiseC: rise, From: walls.Working}.Flow()
	a.fan = &flow
	return err
}

func (a *answer) ventilate() (err error) {
	if a.vent, err = a.gas.Ventilation(); err != nil {
		return err
	}
	a.opening, err = a.gas.CheckOpening(a.openingCM2)
	return err
}

// hold throws all batteries across the rows of fixings, which stand as far apart
// as the cases are wide.
func (a *answer) hold() (err error) {
	c, one := a.fit, decimal.NewFromInt(1)
	massKg, w := a.mass("m")
	rows := w.Given("n_yr", decimal.NewFromInt(int64(c.Across)))
	width, gap := w.Given("w_c", c.Case.WidthMM), w.Given("g_c", c.GapMM.Decimal)
	spacing := w.Calc("b_f", "n_yr × w_c + (n_yr − 1) × g_c", rows.Mul(width).Add(rows.Sub(one).Mul(gap)), arithmetic)
	height := w.Calc("h_m", "h_c ÷ 2", w.Given("h_c", c.Case.HeightMM).Div(decimal.NewFromInt(2)), arithmetic)
	fixings := 2 * c.Along * a.straps
	w.Calc("n_fx", fmt.Sprintf("2 × n_x × %d", a.straps), decimal.NewFromInt(int64(fixings)), arithmetic)
	w.Note("two to a strap")
	a.holds = battery.HoldDown{MassKg: massKg, Times: a.times, Fixings: fixings, HeightMM: decimal.NewNullDecimal(height), SpacingMM: spacing, StrengthN: a.strengthN, From: slices.Clip(w)}
	if a.forces, err = a.holds.Forces(); err != nil {
		return err
	}
	if a.held, err = a.holds.Check(); err != nil {
		return err
	}
	a.pull, err = battery.CraftPull(a.eachKg)
	return err
}

// mass is that of all batteries.
func (a *answer) mass(symbol string) (massKg decimal.Decimal, w working.Working) {
	along, across := w.Given("n_x", decimal.NewFromInt(int64(a.fit.Along))), w.Given("n_yr", decimal.NewFromInt(int64(a.fit.Across)))
	each := w.Given("m", a.eachKg)
	w.Note("one battery")
	return w.Calc(symbol, "n_x × n_yr × m", along.Mul(across).Mul(each), arithmetic), w
}

func (a *answer) weigh() (err error) {
	massKg, w := a.mass("m.1")
	a.vehicle.Items = []battery.AddedMass{{Name: "batteries", MassKg: massKg, BehindM: decimal.NewNullDecimal(a.behindM)}}
	a.vehicle.From = slices.Clip(w)
	a.axles, err = a.vehicle.Axles()
	return err
}

// span is a stretch of a chain of dimensions; a negative one is what there is
// too little.
type span struct {
	kind string // "wall", "case", "gap", "bend", "above", "left"
	mm   decimal.Decimal
	text string
}

// chain drops the stretches of nought.
func chain(spans ...span) []span {
	return slices.DeleteFunc(spans, func(s span) bool { return s.mm.IsZero() })
}

func plain(kind string, mm decimal.Decimal) span {
	return span{kind, mm, strings.Replace(show(mm), "-", "−", 1)}
}

// inRow is n cases with their gaps.
func (l layout) inRow(n int, side decimal.Decimal) []span {
	text := show(side)
	if t := l.Case.ToleranceMM.Decimal; !t.IsZero() {
		text += " + " + show(t)
	}
	var all []span
	for i := range n {
		if i > 0 {
			all = append(all, plain("gap", l.GapMM.Decimal))
		}
		all = append(all, span{"case", side.Add(l.Case.ToleranceMM.Decimal), text})
	}
	return all
}

// lengths run from the wall with the openings to the one beyond the cables.
func (l layout) lengths() []span {
	all := append([]span{plain("wall", l.WallMM.Decimal)}, l.inRow(l.Along, l.Case.LengthMM)...)
	return chain(append(all, plain("bend", l.BendMM), plain("wall", l.WallMM.Decimal), plain("left", l.FitMargins.LengthMM))...)
}

func (l layout) widths() []span {
	all := append([]span{plain("wall", l.WallMM.Decimal)}, l.inRow(l.Across, l.Case.WidthMM)...)
	return chain(append(all, plain("wall", l.WallMM.Decimal), plain("left", l.FitMargins.WidthMM))...)
}

// heights run from the floor up.
func (l layout) heights() []span {
	return chain(append(l.inRow(1, l.Case.HeightMM), plain("above", l.AboveMM.Decimal), plain("left", l.FitMargins.HeightMM))...)
}

// axes names the three directions with what is left of each.
func (l layout) axes() []axis {
	return []axis{{"length", l.FitMargins.LengthMM, l.Checks[0]}, {"width", l.FitMargins.WidthMM, l.Checks[1]}, {"height", l.FitMargins.HeightMM, l.Checks[2]}}
}

type axis struct {
	name   string
	leftMM decimal.Decimal
	check  working.Check
}
