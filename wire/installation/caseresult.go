package installation

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// CaseResult is the installation in one case: cables as hot as they get, every contact
// in it. As JSON it gives voltages and currents, and does not come back.
type CaseResult struct {
	Case

	solved *Solved
	setup  setup
	volts  [][]float64 // of each part; nil: nothing reaches it, or no operating point
	stuck  []int       // of each part: the node where it shows that there is none; -1: there is, -2: not found out
}

// Case returns what was found of a case, by its index in [Solved.Cases].
func (s *Solved) Case(index int) (*CaseResult, error) {
	if s == nil || s.plan == nil {
		return nil, errUnsolved
	}
	if index < 0 || index >= len(s.plan.cases) {
		return nil, &working.InputError{Field: "index", Got: fmt.Sprint(index), Want: fmt.Sprintf("a case: there are %d, from 0 on", len(s.plan.cases))}
	}
	x := s.caseResult(s.plan.cases[index], s.plan.setups[index])
	for i, of := range s.found {
		x.volts[i], x.stuck[i] = of.volts[index], of.stuck[index]
	}
	return x, nil
}

func (s *Solved) caseResult(c Case, set setup) *CaseResult {
	return &CaseResult{Case: c, solved: s, setup: set, volts: make([][]float64, len(s.found)), stuck: slices.Repeat([]int{-1}, len(s.found))}
}

// Ask solves a case that need not be listed, in a state of the caller's own: an
// inverter at its surge with one battery missing, an alternator that gives nothing yet.
// Its State is not asked for, and nothing may be AtLimitOf in it. Cables are as hot as
// the listed cases make them. Ranges and errors as of [Installation.Solve].
func (s *Solved) Ask(c Case, in State) (*CaseResult, error) {
	if s == nil || s.plan == nil {
		return nil, errUnsolved
	}
	if err := s.plan.checkAsked(c, in); err != nil {
		return nil, err
	}
	p := s.plan.withState(in)
	c.State, c.Open, c.Closed = len(p.in.States)-1, p.placeName(c.Open), p.placeName(c.Closed)
	x := s.caseResult(c, p.setup(c))
	output := slices.Repeat([]float64{1}, len(p.in.Sources))
	for _, i := range p.order {
		of := p.parts[i]
		if elements := of.elements(x.setup, s.found[i].milliohm, output); of.fed(elements) {
			x.volts[i], x.stuck[i] = p.operate(c, of.base.With(elements))
		}
		if x.stuck[i] != -1 {
			x.volts[i] = nil
		}
		p.outputs(of, x.volts[i], x.setup, output)
	}
	return x, nil
}

// withState is the plan with one state more.
func (p *plan) withState(in State) *plan {
	own := *p
	own.in.States, own.uses = append(slices.Clip(p.in.States), in), append(slices.Clip(p.uses), p.usesOf(in))
	return &own
}

// from is what was solved; nil where nothing was.
func (x *CaseResult) from() *Solved {
	if x == nil {
		return nil
	}
	return x.solved
}

// placeName is the circuit that stands for all that open and close with one.
func (p *plan) placeName(circuit string) string {
	i, ok := p.circuits[circuit]
	if !ok {
		return circuit
	}
	return p.in.Circuits[p.places[p.placeOf(i)].circuits[0]].Name
}

// reaches reports whether something feeds a node.
func (x *CaseResult) reaches(node int) bool {
	return x.solved.plan.reaches(x.Case, x.setup.alive, node)
}

// Drawn returns what a load draws, to 0.000001 A, nought where it does not run; it is
// unset where its part has no operating point.
func (x *CaseResult) Drawn(load string) (decimal.NullDecimal, error) {
	i, err := x.from().load(load)
	if err != nil {
		return decimal.NullDecimal{}, err
	}
	return x.drawn(i), nil
}

func (x *CaseResult) drawn(i int) decimal.NullDecimal {
	p := x.solved.plan
	return x.flow(p.partAt(p.draws[i]), func(v []float64) float64 {
		e := x.setup.draws[i]
		if x.load == i+1 {
			e = p.most(x.Case).element()
		}
		ampere, _ := e.Through(p.across(v, p.draws[i]), 1)
		return ampere
	})
}

// load is the number of a load.
func (s *Solved) load(name string) (int, error) {
	if s == nil || s.plan == nil {
		return 0, errUnsolved
	}
	if i, ok := s.plan.loads[name]; ok {
		return i, nil
	}
	return 0, unknown("load", name, "load", slices.Sorted(maps.Keys(s.plan.loads)))
}

// CollapsedAt is the node where it shows that no operating point exists, the loads ask
// for more than there is; of several parts that of the first, and "" where all hold. A
// part of which none was found is named by its first node.
func (x *CaseResult) CollapsedAt() string {
	if x.from() == nil {
		return ""
	}
	for i, of := range x.solved.plan.parts {
		if x.stuck[i] != -1 {
			return x.solved.plan.nodes[of.nodes[max(1, x.stuck[i])]]
		}
	}
	return ""
}

// Voltage returns the voltage of a node against the common return, to 0.000001 V; it is
// unset where nothing reaches the node and where its part has no operating point.
func (x *CaseResult) Voltage(node string) (decimal.NullDecimal, error) {
	at, err := x.from().node(node)
	if err != nil {
		return decimal.NullDecimal{}, err
	}
	return x.voltage(at), nil
}

func (x *CaseResult) voltage(at int) decimal.NullDecimal {
	v := x.volts[x.solved.plan.partOf[at]]
	if v == nil || !x.reaches(at) {
		return decimal.NullDecimal{}
	}
	return fixed(v[x.solved.plan.local[at]], 6)
}

// Current returns what flows in a circuit, to 0.000001 A, positive from its From to its
// To; it is unset where its part has no operating point.
func (x *CaseResult) Current(circuit string) (decimal.NullDecimal, error) {
	i, err := x.from().circuit("circuit", circuit)
	if err != nil {
		return decimal.NullDecimal{}, err
	}
	return x.current(i), nil
}

func (x *CaseResult) current(i int) decimal.NullDecimal {
	p := x.solved.plan
	part := p.partOfCircuit(i)
	return x.flow(part, func(v []float64) float64 {
		if x.setup.open[i] {
			return 0
		}
		return p.across(v, p.wires[i]) * 1000 / x.solved.found[part].milliohm[p.placeInPart(i)]
	})
}

// flow is a current in a part: unset where that has no operating point, nought where
// nothing reaches it.
func (x *CaseResult) flow(part int, ampere func(volts []float64) float64) decimal.NullDecimal {
	switch v := x.volts[part]; {
	case v != nil:
		return fixed(ampere(v), 6)
	case x.stuck[part] == -1:
		return decimal.NewNullDecimal(decimal.Zero)
	}
	return decimal.NullDecimal{}
}

// across is the voltage between two nodes of a part.
func (p *plan) across(v []float64, ends [2]int) float64 {
	return v[p.local[ends[0]]] - v[p.local[ends[1]]]
}

// partAt is the part in which a thing between two nodes lies.
func (p *plan) partAt(ends [2]int) int { return max(p.partOf[ends[0]], p.partOf[ends[1]]) }

// Given returns what a battery or a source gives, to 0.000001 A, negative where it
// takes; it is unset where its part has no operating point.
func (x *CaseResult) Given(source string) (decimal.NullDecimal, error) {
	k, err := x.from().feeder(source)
	if err != nil {
		return decimal.NullDecimal{}, err
	}
	return x.given(k), nil
}

func (x *CaseResult) given(k int) decimal.NullDecimal {
	ends := x.solved.plan.feeders[k]
	return x.flow(x.solved.plan.partAt(ends), func(v []float64) float64 { return -x.takes(k, x.solved.plan.across(v, ends)) })
}

// takes is what a battery or a source takes at a voltage. One that is at its limit by
// itself gives that.
func (x *CaseResult) takes(k int, u float64) float64 {
	p := x.solved.plan
	source := k - len(p.in.Batteries)
	switch {
	case !p.linear(x.Case):
		a, _ := x.setup.feeders[k].Through(u, 1)
		return a
	case source < 0:
		a, _ := p.cell(x.batteries(), p.in.Batteries[k]).Through(u, 1)
		return a
	case x.source == source+1 && !x.Input:
		return -float(p.in.Sources[source].GreatestA)
	}
	return 0
}

// feeder is the number of a battery or a source.
func (s *Solved) feeder(name string) (int, error) {
	if s == nil || s.plan == nil {
		return 0, errUnsolved
	}
	var all []string
	for k := range s.plan.feeders {
		all = append(all, s.plan.feeder(k))
	}
	if k := slices.Index(all, name); k >= 0 {
		return k, nil
	}
	return 0, unknown("source", name, "battery or source", all)
}

// CheckVoltage is check W04: the lowest voltage at which what hangs at a node works,
// against what there is, with the drops down to it; nought where no operating point
// exists. Without the lowest voltage it cannot be told. That is 1 to 1000 V.
func (x *CaseResult) CheckVoltage(node string, lowestV decimal.NullDecimal) (working.Check, error) {
	const id, title = "W04", "Voltage at the load"
	ladder, err := x.Ladder(node)
	collapsed := errors.Is(err, wire.ErrNoOperatingPoint)
	if err = errors.Join(noneIf(collapsed, err), optional(lowestV, func(v decimal.Decimal) error { return working.Between("lowest_v", v, 1, greatestVolts) })); err != nil {
		return working.Check{}, err
	}
	w := ladder.Working
	if collapsed {
		w.Calc("U_L", "0", decimal.Zero, kirchhoff)
		w.Note("no voltage holds: the loads ask more than the sources can give, at " + x.CollapsedAt())
	}
	if !lowestV.Valid {
		return working.Check{ID: id, Title: title, Working: slices.Clip(w), Missing: "the lowest voltage at which what hangs at " + node + " works: read its data sheet or rating plate"}, nil
	}
	w.Given("U_lo", lowestV.Decimal)
	return w.Check(id, title, "U_lo", "U_L"), nil
}

// noneIf is no error where that is what was found.
func noneIf(found bool, err error) error {
	if found {
		return nil
	}
	return err
}

// MarshalJSON writes what the installation does in the case.
func (x *CaseResult) MarshalJSON() ([]byte, error) {
	type current struct {
		Name     string              `json:"name"`
		CurrentA decimal.NullDecimal `json:"current_a"`
	}
	type voltage struct {
		Node     string              `json:"node"`
		VoltageV decimal.NullDecimal `json:"voltage_v"`
	}
	var out struct {
		Case
		CollapsedAt string    `json:"collapsed_at,omitempty"`
		Nodes       []voltage `json:"nodes,omitempty"`
		Circuits    []current `json:"circuits,omitempty"`
		Feeders     []current `json:"given,omitempty"`
		Draws       []current `json:"drawn,omitempty"`
	}
	if x.from() == nil {
		return json.Marshal(out)
	}
	out.Case, out.CollapsedAt = x.Case, x.CollapsedAt()
	for i, name := range x.solved.plan.nodes[1:] {
		out.Nodes = append(out.Nodes, voltage{name, x.voltage(i + 1)})
	}
	for i, c := range x.solved.plan.in.Circuits {
		out.Circuits = append(out.Circuits, current{c.Name, x.current(i)})
	}
	for k := range x.solved.plan.feeders {
		out.Feeders = append(out.Feeders, current{x.solved.plan.feeder(k), x.given(k)})
	}
	for i, l := range x.solved.plan.in.Loads {
		out.Draws = append(out.Draws, current{l.Name, x.drawn(i)})
	}
	return json.Marshal(out)
}

// checkAsked wants names that there are.
func (p *plan) checkAsked(c Case, in State) error {
	if c.AtLimitOf != "" || c.Input {
		return &working.InputError{Field: "at_limit_of", Got: fmt.Sprintf("%.60q", c.AtLimitOf), Want: "empty: what is at its limit by itself is listed among the cases"}
	}
	var batteries, circuits, loads []string
	for _, b := range p.in.Batteries {
		batteries = append(batteries, b.Name)
	}
	for _, x := range p.places {
		for _, i := range x.circuits {
			circuits = append(circuits, p.in.Circuits[i].Name)
		}
	}
	for _, l := range p.in.Loads {
		loads = append(loads, l.Name)
	}
	named := func(field, got, kind string, known []string) error {
		if got == "" {
			return nil
		}
		return unknown(field, got, kind, known)
	}
	return errors.Join(
		working.In("state", p.in.checkState(in)),
		named("battery_missing", c.BatteryMissing, "battery", batteries),
		named("new_battery", c.NewBattery, "battery", append(batteries, EveryBattery)),
		named("fuller", c.Fuller, "battery", batteries), named("alone", c.Alone, "battery", batteries),
		named("starting", c.Starting, "load", loads),
		named("open", c.Open, "circuit with a switch", circuits), named("closed", c.Closed, "circuit with a switch", circuits),
		working.Between("kind", decimal.NewFromInt(int64(c.Kind)), 0, int64(Unequal)),
	)
}
