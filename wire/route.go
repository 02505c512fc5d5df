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
	LengthM   decimal.Decimal `json:"length_m"` // one way; above 0 to 1000
}

// Route is a run whose surroundings change on the way: an engine space, a duct,
// thermal insulation, a cabinet. Its terminals are those of the first and of the
// last section's conductor, each in the surroundings of that section.
type Route struct {
	Sections       []Section       `json:"sections,omitempty"`
	CurrentA       decimal.Decimal `json:"current_a"`
	JointsMilliohm decimal.Decimal `json:"joints_milliohm"`
}

// RouteAmpacity is what a route may carry: as much as its weakest section.
type RouteAmpacity struct {
	AmpacityA decimal.Decimal `json:"ampacity_a"`
	Weakest   int             `json:"weakest"`            // index of the section
	Sections  []Ampacity      `json:"sections,omitempty"` // what ends nowhere is capped by no terminal
	Working   working.Working `json:"working"`
}

// Ampacity returns the least of the sections' ampacities; of equals the first:
//
//	I_z = min(I_z1, I_z2, ...)
//
// Terminals cap the section that ends on them and no hotter one elsewhere: a
// section between two others has none. 1 to 20 sections; ranges as for
// [Conductor.Ampacity]. Source: the table and factors of each section.
func (r Route) Ampacity(rule tables.AmpacityRule) (RouteAmpacity, error) {
	if err := r.checkSections(); err != nil {
		return RouteAmpacity{}, err
	}
	var route RouteAmpacity
	var w working.Working
	var symbols []string
	for i, s := range r.Sections {
		a, err := s.Conductor.ampacity(rule, r.ends(i))
		if err != nil {
			return RouteAmpacity{}, working.In(section(i)+".conductor", err)
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

// ends reports whether the section is one of the two that end on terminals.
func (r Route) ends(i int) bool { return i == 0 || i == len(r.Sections)-1 }

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
//	ΔU = I × R ÷ 1000
//
// with R as in [Route.Loop]. Source: Ohm's law.
func (r Route) Drop(rule tables.AmpacityRule) (Drop, error) {
	l, err := r.Loop(rule)
	if err != nil {
		return Drop{}, err
	}
	return l.drop(r.CurrentA, working.Start(l.Working)), nil
}

// Loop returns the resistance of all sections, out and back, each at the
// temperature that the current gives it:
//
//	R = 2 × L_1 × R_T1 + 2 × L_2 × R_T2 + ... + R_j
//
// Current above 0 to 10 000 A, until a section would be hotter than 250 °C; length
// of a section above 0 to 1000 m, joints 0 to 1000 mΩ, else as for
// [Route.Ampacity].
func (r Route) Loop(rule tables.AmpacityRule) (Loop, error) {
	if err := r.check(); err != nil {
		return Loop{}, err
	}
	route, err := r.Ampacity(rule)
	if err != nil {
		return Loop{}, err
	}
	var w working.Working
	formula, loop := "", decimal.Zero
	for i, s := range r.Sections {
		w.Part(fmt.Sprintf("Section %d", i+1))
		one, err := s.loop(route.Sections[i], r.CurrentA)
		if err != nil {
			return Loop{}, working.In(section(i), err)
		}
		w = append(w, one.Working...)
		symbol := fmt.Sprintf("R.%d", i+1)
		loop = loop.Add(w.Calc(symbol, "2 × L × R_T", one.LoopMilliohm, ohm))
		formula += symbol + " + "
	}
	w.Part("Route")
	loop = loop.Add(w.Given("R_j", r.JointsMilliohm))
	w.Calc("R", formula+"R_j", loop, ohm)
	return Loop{LoopMilliohm: loop, Working: slices.Clip(w)}, nil
}

// loop adds the lines of the section's own resistance, out and back.
func (s Section) loop(a Ampacity, current decimal.Decimal) (Loop, error) {
	t, err := a.Temperature(current)
	if err != nil {
		return Loop{}, err
	}
	r, err := s.Conductor.warm(t, current)
	if err != nil {
		return Loop{}, err
	}
	w := r.Working
	l := w.Given("L", s.LengthM)
	return Loop{LoopMilliohm: two.Mul(l).Mul(r.MilliohmPerM), Working: w}, nil
}

func (r Route) check() error {
	return errors.Join(
		working.Above("current_a", r.CurrentA, 0, greatestAmperes),
		working.Between("joints_milliohm", r.JointsMilliohm, 0, 1000),
		r.checkSections(),
	)
}

func (r Route) checkSections() error {
	if err := working.Between("sections", decimal.NewFromInt(int64(len(r.Sections))), 1, 20); err != nil {
		return err
	}
	var faults []error
	for i, s := range r.Sections {
		faults = append(faults,
			working.In(section(i), working.Above("length_m", s.LengthM, 0, 1000)),
			working.In(section(i)+".conductor", s.Conductor.check()))
		if s.Conductor.TerminalC.Valid && !r.ends(i) {
			faults = append(faults, &working.InputError{Field: section(i) + ".conductor.terminal_c",
				Got: s.Conductor.TerminalC.Decimal.String(), Want: "unset: only the first and the last section end on terminals"})
		}
	}
	return errors.Join(faults...)
}

// InParallel returns the ampacity of equal cables side by side, which share the
// current because they have one size, length and way of lying, as if they were
// one:
//
//	I_z = n_cb × I_z, and I_c and I_zt alike
//
// Grouped of the conductor must have counted each of them. 1 to 20 cables.
// Source: IEC 60364-4-43 clause 433.4.
func (a Ampacity) InParallel(cables int) (Ampacity, error) {
	n := decimal.NewFromInt(int64(cables))
	if err := errors.Join(working.Between("parallel_cables", n, 1, 20), a.check()); err != nil {
		return Ampacity{}, err
	}
	w, law := working.Start(a.Working), cite.IEC6036443.At("433.4", cite.FromMemory)
	w.Given("n_cb", n)
	a.CableA = w.Calc("I_c", "n_cb × I_c", n.Mul(a.CableA), law)
	if a.TerminalA.Valid {
		a.TerminalA.Decimal = w.Calc("I_zt", "n_cb × I_zt", n.Mul(a.TerminalA.Decimal), law)
	}
	a.AmpacityA = w.Calc("I_z", "n_cb × I_z", n.Mul(a.AmpacityA), law)
	a.Working = slices.Clip(w)
	return a, nil
}

// check refuses an ampacity that no conductor gave.
func (a Ampacity) check() error {
	faults := []error{a.stands("ampacity_a", "I_z", a.AmpacityA), a.checkCable()}
	if a.TerminalA.Valid {
		faults = append(faults, a.stands("terminal_ampacity_a", "I_zt", a.TerminalA.Decimal))
	}
	return errors.Join(faults...)
}

// stands refuses a figure that the working does not end with.
func (a Ampacity) stands(field, symbol string, v decimal.Decimal) error {
	if err := working.Between(field, v, -100, 100_000*20); err != nil {
		return err
	}
	if line, ok := a.Working.Value(symbol); !ok || !line.Equal(v) {
		return &working.InputError{Field: field, Got: v.String() + ", without its lines", Want: "an ampacity with its working"}
	}
	return nil
}

// Check is check W01: the current against the ampacity. Current above 0 to 10 000
// A.
func (a Ampacity) Check(currentA decimal.Decimal) (working.Check, error) {
	if err := errors.Join(a.check(), working.Above("current_a", currentA, 0, greatestAmperes)); err != nil {
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
