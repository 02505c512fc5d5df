package wire

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Section is a length of a route in one surrounding.
type Section struct {
	Conductor Conductor       `json:"conductor"`
	LengthM   decimal.Decimal `json:"length_m"` // one way
}

// Route is a run whose surroundings change on the way: an engine space, a duct,
// a cabinet.
type Route struct {
	Sections       []Section       `json:"sections"`
	CurrentA       decimal.Decimal `json:"current_a"`
	JointsMilliohm decimal.Decimal `json:"joints_milliohm"`
}

// RouteAmpacity is what a route may carry: as much as its weakest section.
type RouteAmpacity struct {
	AmpacityA decimal.Decimal `json:"ampacity_a"`
	Weakest   int             `json:"weakest"` // index of the section
	Sections  []Ampacity      `json:"sections"`
	Working   working.Working `json:"working"`
}

// Ampacity returns the least of the sections' ampacities; of equals the first:
//
//	I_z = min(I_z1, I_z2, ...)
//
// 1 to 20 sections; ranges as for [Conductor.Ampacity]. Source: the table and
// factors of each section.
func (r Route) Ampacity(rule tables.AmpacityRule) (RouteAmpacity, error) {
	if err := r.check(); err != nil {
		return RouteAmpacity{}, err
	}
	var route RouteAmpacity
	var w working.Working
	var symbols []string
	for i, s := range r.Sections {
		a, err := s.Conductor.Ampacity(rule)
		if err != nil {
			return RouteAmpacity{}, working.In(section(i), err)
		}
		w.Part(fmt.Sprintf("Section %d", i+1))
		w = append(w, a.Working...)
		symbols = append(symbols, fmt.Sprintf("I_z.%d", i+1))
		w.Calc(symbols[i], "I_z", a.AmpacityA, arithmetic)
		if i == 0 || a.AmpacityA.LessThan(route.AmpacityA) {
			route.AmpacityA, route.Weakest = a.AmpacityA, i
		}
		route.Sections = append(route.Sections, a)
	}
	w.Part("Route")
	w.Calc("I_z", least(symbols), route.AmpacityA, arithmetic)
	route.Working = slices.Clip(w)
	return route, nil
}

// least writes the formula of the smallest of several.
func least(symbols []string) string {
	if len(symbols) == 1 {
		return symbols[0]
	}
	return "min(" + strings.Join(symbols, ", ") + ")"
}

func section(i int) string { return fmt.Sprintf("sections[%d]", i) }

// Drop returns the voltage lost in all sections, out and back, each at the
// temperature that the current gives it:
//
//	R  = 2 × L_1 × R_T1 + 2 × L_2 × R_T2 + ... + R_j
//	ΔU = I × R ÷ 1000
//
// Ranges as for [Conductor.Ampacity] and [Run.Drop]. Source: Ohm's law.
func (r Route) Drop(rule tables.AmpacityRule) (Drop, error) {
	route, err := r.Ampacity(rule)
	if err != nil {
		return Drop{}, err
	}
	var w working.Working
	formula, loop := "", decimal.Zero
	for i, s := range r.Sections {
		rT, err := s.resistance(route.Sections[i], r.CurrentA)
		if err != nil {
			return Drop{}, working.In(section(i), err)
		}
		w.Part(fmt.Sprintf("Section %d", i+1))
		w = append(w, rT.Working...)
		symbol := fmt.Sprintf("R.%d", i+1)
		l := w.Given("L", s.LengthM)
		loop = loop.Add(w.Calc(symbol, "2 × L × R_T", two.Mul(l).Mul(rT.MilliohmPerM), ohm))
		formula += symbol + " + "
	}
	w.Part("Route")
	loop = loop.Add(w.Given("R_j", r.JointsMilliohm))
	w.Calc("R", formula+"R_j", loop, ohm)
	i := w.Given("I", r.CurrentA)
	drop := w.Calc("ΔU", "I × R ÷ 1000", i.Mul(loop).Shift(-3), ohm)
	return Drop{loop, drop, slices.Clip(w)}, nil
}

// resistance is that of the section's conductor under the current, with the
// lines from the ampacity on.
func (s Section) resistance(a Ampacity, current decimal.Decimal) (Resistance, error) {
	t, err := a.Temperature(current)
	if err != nil {
		return Resistance{}, err
	}
	r, err := s.Conductor.Resistance(t.ConductorC)
	r.Working = working.Start(t.Working, r.Working)
	return r, err
}

func (r Route) check() error {
	faults := []error{
		working.Between("sections", decimal.NewFromInt(int64(len(r.Sections))), 1, 20),
		working.Between("current_a", r.CurrentA, 0, 10_000),
		working.Between("joints_milliohm", r.JointsMilliohm, 0, 1000),
	}
	for i, s := range r.Sections {
		faults = append(faults,
			working.In(section(i), working.Above("length_m", s.LengthM, 0, 1000)),
			working.In(section(i)+".conductor", s.Conductor.check()))
	}
	return errors.Join(faults...)
}

// InParallel returns what equal cables side by side carry, which share the
// current because they have one size, length and way of lying:
//
//	I_zn = n_cb × I_z
//
// Grouped of the conductor must have counted each of them. 1 to 20 cables.
// Source: IEC 60364-4-43 clause 433.4.
func (a Ampacity) InParallel(cables int) (Current, error) {
	n := decimal.NewFromInt(int64(cables))
	if err := errors.Join(working.Between("parallel_cables", n, 1, 20), a.check()); err != nil {
		return Current{}, err
	}
	w := working.Start(a.Working)
	w.Given("n_cb", n)
	all := w.Calc("I_zn", "n_cb × I_z", n.Mul(a.AmpacityA), cite.IEC6036443.At("433.4", cite.FromMemory))
	return Current{all, slices.Clip(w)}, nil
}

// check refuses an ampacity that no conductor gave.
func (a Ampacity) check() error {
	if err := working.Between("ampacity_a", a.AmpacityA, 0, 100_000); err != nil {
		return err
	}
	if v, ok := a.Working.Value("I_z"); !ok || !v.Equal(a.AmpacityA) {
		return &working.InputError{Field: "ampacity_a", Got: "without its lines", Want: "an ampacity with its working"}
	}
	return nil
}

// Check is check W01: the current against the ampacity. Current 0 to 10 000 A.
func (a Ampacity) Check(currentA decimal.Decimal) (working.Check, error) {
	if err := errors.Join(a.check(), working.Between("current_a", currentA, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	w := working.Start(a.Working)
	w.Given("I", currentA)
	return w.Check("W01", "Ampacity", "I", "I_z"), nil
}

// CheckLeastSize is check W03: the smallest size that a rule set allows against the
// size. Where the set is silent the check does not apply.
func CheckLeastSize(rule tables.MinSize, size tables.Size) (working.Check, error) {
	const id, title = "W03", "Smallest size"
	if rule.Size.IsZero() {
		return working.Check{ID: id, Title: title, Silent: "the rule set states no smallest size"}, nil
	}
	least, err := rule.Size.Area()
	if err != nil {
		return working.Check{}, err
	}
	area, err := size.Area()
	if err != nil {
		return working.Check{}, err
	}
	least.Source, least.Note, area.Note = rule.Source, rule.Size.String(), size.String()
	var w working.Working
	w.LookUp("S_min", least)
	w.LookUp("S", area)
	return w.Check(id, title, "S_min", "S"), nil
}
