package wire

import (
	"errors"
	"slices"

	"example.org/extralow/wire/internal/nodal"
	"github.com/shopspring/decimal"
)

// ErrNoOperatingPoint means that the loads ask for more than a network can
// bring.
var ErrNoOperatingPoint = errors.New("no operating point exists")

// Solution holds the currents of a network and what follows from them.
// CollapsedAt is empty, or the node at which it showed that no operating point
// exists; then nothing else is set. It remembers the network that it solves: what
// is read back from JSON has the figures and answers no further questions.
type Solution struct {
	CollapsedAt string          `json:"collapsed_at,omitempty"`
	Nodes       []NodeVoltage   `json:"nodes,omitempty"`
	Branches    []BranchCurrent `json:"branches,omitempty"`
	Sources     []SourceCurrent `json:"sources,omitempty"`
	Loads       []LoadState     `json:"loads,omitempty"`

	network Network
	circuit *circuit
	found   found
	tree    tree
	volts   []decimal.Decimal // of each node of the circuit
	flows   []decimal.Decimal // of each element, from its first end to its second
}

// found is what the solver found, of which the exported fields are a copy.
type found struct {
	collapsedAt string
	sources     []SourceCurrent
	loads       []LoadState
}

// NodeVoltage is the voltage of a node against the common return, or against
// the return of the first source where the node has nothing to do with that.
type NodeVoltage struct {
	Node     string          `json:"node"`
	VoltageV decimal.Decimal `json:"voltage_v"`
}

// BranchCurrent is what flows in a branch, positive from From to To.
type BranchCurrent struct {
	Name     string          `json:"name"`
	From     string          `json:"from_node"`
	To       string          `json:"to_node"`
	CurrentA decimal.Decimal `json:"current_a"`
	DropV    decimal.Decimal `json:"drop_v"`
	LossW    decimal.Decimal `json:"loss_w"`
}

// SourceCurrent is what a source gives, negative where it takes.
type SourceCurrent struct {
	Name      string          `json:"name"`
	CurrentA  decimal.Decimal `json:"current_a"`
	TerminalV decimal.Decimal `json:"terminal_v"`
	AtLimit   bool            `json:"at_limit"`
}

// LoadState is what a load draws.
type LoadState struct {
	Name      string          `json:"name"`
	VoltageV  decimal.Decimal `json:"voltage_v"`
	CurrentA  decimal.Decimal `json:"current_a"`
	BelowTrip bool            `json:"below_trip"` // below the voltage at which it switches itself off
}

// solverPlaces are those of an ampere that the solver's currents keep;
// solvedWithin is what they are held to.
const solverPlaces = 9

var solvedWithin = decimal.New(1, -6)

// solution turns the solver's voltages into currents, and from these on it is
// decimal arithmetic: the currents of loads and of what closes a loop are
// rounded, those along the tree are sums, so that every node closes exactly,
// and the voltages follow from them down the tree.
func (n Network) solution(c *circuit, v []float64) (Solution, error) {
	flows, err := n.flows(c, v)
	if err != nil {
		return Solution{}, err
	}
	s := Solution{
		network: n, circuit: c, tree: c.span(flows), flows: make([]decimal.Decimal, len(flows)),
		Nodes: make([]NodeVoltage, len(c.nodes)-1), Sources: make([]SourceCurrent, 0, len(n.Sources)), Loads: make([]LoadState, 0, len(n.Loads)),
	}
	c.close(s.tree, flows)
	for k, f := range flows {
		s.flows[k] = f.ampere
	}
	s.volts = n.voltages(c, s.tree, flows)
	for i, name := range c.nodes[1:] {
		s.Nodes[i] = NodeVoltage{name, s.volts[i+1]}
	}
	for k, src := range n.Sources {
		f := flows[k]
		if f.atLimit {
			f.ampere = src.LimitA.Decimal.Neg()
		}
		s.Sources = append(s.Sources, SourceCurrent{src.Name, f.ampere.Neg(), s.across(k), f.atLimit})
	}
	s.Branches = n.branchCurrents(flows)
	for i, l := range n.Loads {
		k := c.Sources + c.Branches + i
		state := LoadState{Name: l.Name, VoltageV: s.across(k), CurrentA: flows[k].ampere}
		state.BelowTrip = l.TripV.Valid && state.VoltageV.LessThan(l.TripV.Decimal)
		s.Loads = append(s.Loads, state)
	}
	s.found = found{sources: slices.Clone(s.Sources), loads: slices.Clone(s.Loads)}
	return s, nil
}

// across is the voltage between the ends of an element.
func (s *Solution) across(k int) decimal.Decimal {
	e := s.circuit.Elements[k]
	return s.volts[e.From].Sub(s.volts[e.To])
}

func (n Network) branchCurrents(flows []flow) []BranchCurrent {
	all := make([]BranchCurrent, len(n.Branches))
	for i, b := range n.Branches {
		ampere := flows[len(n.Sources)+i].ampere
		drop := ampere.Mul(b.Milliohm).Shift(-3)
		all[i] = BranchCurrent{b.Name, b.From, b.To, ampere, drop, drop.Mul(ampere)}
	}
	return all
}

// flow is the current through an element, from its first end to its second.
type flow struct {
	ampere  decimal.Decimal
	atLimit bool            // a source that gives its limit
	idle    bool            // a limited source that gives nothing
	volts   decimal.Decimal // across one of these
}

// flows returns the current of every element at the solver's voltages.
func (n Network) flows(c *circuit, v []float64) ([]flow, error) {
	all := make([]flow, len(c.Elements))
	for k, e := range c.Elements {
		u := v[e.From] - v[e.To]
		i, _ := e.Through(u, 1)
		ampere, err := fixed(i, solverPlaces)
		all[k].ampere = ampere
		switch {
		case k >= c.Sources+c.Branches && n.Loads[k-c.Sources-c.Branches].CurrentA.Valid:
			all[k].ampere = n.Loads[k-c.Sources-c.Branches].CurrentA.Decimal
		case e.Limited() && -i >= e.Limit:
			all[k].ampere, all[k].atLimit = n.Sources[k].LimitA.Decimal.Neg(), true
		case e.Limited() && i >= 0:
			all[k].ampere, all[k].idle = decimal.Zero, true
		}
		if err == nil && all[k].vague() {
			all[k].volts, err = fixed(u, solverPlaces)
		}
		if err != nil {
			return nil, nodal.ErrUnsettled
		}
	}
	return all, nil
}

// vague reports whether a source's current does not say what its voltage is.
func (f flow) vague() bool { return f.atLimit || f.idle }

// voltages walks down the tree. Only where it passes a source that is at its
// limit or idle the voltage is the solver's.
func (n Network) voltages(c *circuit, t tree, flows []flow) []decimal.Decimal {
	volts := make([]decimal.Decimal, len(c.nodes))
	for _, node := range t.order {
		k := t.by[node]
		if k < 0 {
			continue
		}
		e := c.Elements[k]
		var u decimal.Decimal
		switch {
		case k >= c.Sources:
			u = flows[k].ampere.Mul(n.Branches[k-c.Sources].Milliohm).Shift(-3)
		case flows[k].vague():
			u = flows[k].volts
		default:
			u = n.Sources[k].EMFV.Add(flows[k].ampere.Mul(n.Sources[k].Milliohm).Shift(-3))
		}
		if e.From != node {
			u = u.Neg()
		}
		volts[node] = volts[e.Other(node)].Add(u)
	}
	return volts
}
