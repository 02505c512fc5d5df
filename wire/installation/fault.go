package installation

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// End is the end of a circuit at one of its two nodes.
type End struct {
	Circuit string `json:"circuit"`
	Node    string `json:"node"`
}

// Fault is what a bolted short circuit at a node draws at the most.
type Fault struct {
	FaultA      decimal.Decimal    `json:"greatest_fault_a"`
	Sources     []wire.SourceShare `json:"sources,omitempty"` // of its part
	OnlyLimited bool               `json:"only_limited"`      // no battery feeds it: it may open no fuse
	Working     working.Working    `json:"working"`
}

// ThroughEnd is the most that a device at an end of a circuit may have to break.
type ThroughEnd struct {
	FaultA  decimal.Decimal `json:"greatest_fault_a"`
	Working working.Working `json:"working"`
}

// GreatestFault returns the greatest current of a short circuit at a node:
//
//	I_k = I_so1 + I_so2 + ...
//
// every source and every switch connected, batteries full and at their low
// resistance, cables at 20 °C, all that lie side by side, no contacts, no loads. A
// limited source adds up to its greatest current, one that does not limit itself up
// to its ShortA or a tabled multiple of that. A battery that would take current, a lower one beside
// a higher one, is left out. Currents to 0.000001 A. Where returns are drawn, the
// fault is to the common return. Sources: Kirchhoff's laws, Ohm's law; the multiple
// from memory.
func (s *Solved) GreatestFault(node string) (Fault, error) {
	at, err := s.faulty(node)
	if err != nil {
		return Fault{}, err
	}
	x, err := s.strike(at)
	if err != nil {
		return Fault{}, err
	}
	return s.fault(s.plan.partOf[at], at, x), nil
}

// errUnsettled: the search for the currents of a fault found no end.
var errUnsettled = errors.New("the fault did not settle")

// strike finds the currents of the greatest fault at a node.
func (s *Solved) strike(at int) (struck, error) {
	x := s.strong[s.plan.partOf[at]].at(s.plan.local[at])
	if math.IsNaN(x.ampere) {
		return x, fmt.Errorf("at %s: %w", s.plan.nodes[at], errUnsettled)
	}
	return x, nil
}

// faulty is the number of a node at which a source can drive a fault.
func (s *Solved) faulty(name string) (int, error) {
	at, err := s.node(name)
	if err != nil {
		return 0, err
	}
	of := s.plan.parts[s.plan.partOf[at]]
	local := s.plan.local[at]
	for k := range of.feeders {
		if of.base.PartOf(k) == of.base.Part[local] && !of.base.Fixed[local] {
			return at, nil
		}
	}
	return 0, &working.InputError{Field: "node", Got: fmt.Sprintf("%.60q", name), Want: "a live node that a battery or a source reaches"}
}

// sum adds up the currents that reach a node.
type sum struct {
	working.Working
	total decimal.Decimal
	begun bool
}

func (s *sum) add(symbol string, ampere decimal.Decimal) {
	if s.begun {
		symbol = "I_k + " + symbol
	}
	s.begun, s.total = true, s.Calc("I_k", symbol, s.total.Add(ampere), kirchhoff)
}

// fault lays a fault out: what reaches its node.
func (s *Solved) fault(part, at int, x struck) Fault {
	p, of := s.plan, s.plan.parts[part]
	f := Fault{OnlyLimited: true}
	var reaches sum
	for k, i := range of.feeders {
		share := s.share(&reaches.Working, part, k, x.gives[k])
		f.Sources = append(f.Sources, share)
		f.OnlyLimited = f.OnlyLimited && !(k < of.batteries && of.base.PartOf(k) == of.base.Part[p.local[at]])
		switch at {
		case p.feeders[i][0]:
			reaches.add("I_so", share.CurrentA)
		case p.feeders[i][1]:
			reaches.add("(0 − I_so)", share.CurrentA.Neg())
		}
	}
	for k, i := range of.circuits {
		if p.wires[i][0] == at || p.wires[i][1] == at {
			s.arriving(&reaches, part, k, at, x)
		}
	}
	if !reaches.begun {
		reaches.add("0", decimal.Zero)
	}
	f.FaultA, f.Working = reaches.total, slices.Clip(reaches.Working)
	return f
}

// arriving adds what a circuit brings to the node of a fault.
func (s *Solved) arriving(reaches *sum, part, k, at int, x struck) {
	ampere := s.arrives(part, k, at, x)
	if ampere.IsZero() {
		return
	}
	reaches.Part(s.plan.in.Circuits[s.plan.parts[part].circuits[k]].Name)
	reaches.Given("R_b", decimal.NewFromFloat(s.strong[part].milliohm[k]).Round(9))
	reaches.Note("at 20 °C, without contacts")
	reaches.add("I_br", reaches.Step("I_br", ampere, kirchhoff))
}

// feeder names a battery or a source.
func (p *plan) feeder(i int) string {
	if i < len(p.in.Batteries) {
		return p.in.Batteries[i].Name
	}
	return p.in.Sources[i-len(p.in.Batteries)].Name
}

// share adds the lines of what a battery or a source gives a fault.
func (s *Solved) share(w *working.Working, part, k int, gives float64) wire.SourceShare {
	p, i := s.plan, s.plan.parts[part].feeders[k]
	w.Part(p.feeder(i))
	if i < len(p.in.Batteries) {
		b := p.in.Batteries[i]
		*w = append(*w, b.From...)
		w.Given("E_0", b.FullV)
		w.Given("R_i", b.LowMilliohm)
		return wire.SourceShare{Name: b.Name, CurrentA: given(w, gives, "full and new, solved with the whole installation")}
	}
	x := p.in.Sources[i-len(p.in.Batteries)]
	*w = append(*w, x.From...)
	w.Given("E_0", x.HeldV)
	if gives < s.strong[part].elements[k].Limit {
		return wire.SourceShare{Name: x.Name, CurrentA: given(w, gives, "below its limit, solved with the whole installation")}
	}
	return wire.SourceShare{Name: x.Name, CurrentA: x.limit(w), AtLimit: true}
}

// limit adds the lines of the most that a source drives into a fault.
func (s Source) limit(w *working.Working) decimal.Decimal {
	formula, most := s.shorted(w, "")
	source := kirchhoff
	if figure, err := unlimited(); err == nil && !s.LimitsItself && !s.ShortA.Valid {
		source = figure.Source
	}
	return w.Calc("I_so", formula, most, source)
}

func given(w *working.Working, gives float64, note string) decimal.Decimal {
	ampere := w.Step("I_so", fixed(gives, 6).Decimal, kirchhoff)
	w.Note(note)
	return ampere
}

// arrives is what a circuit brings to a node in a fault.
func (s *Solved) arrives(part, k, at int, x struck) decimal.Decimal {
	p := s.plan
	ends := p.wires[p.parts[part].circuits[k]]
	from, to := x.volts[p.local[ends[0]]], x.volts[p.local[ends[1]]]
	ampere := (from - to) * 1000 / s.strong[part].milliohm[k]
	if ends[0] == at {
		ampere = -ampere
	}
	return fixed(ampere, 6).Decimal
}

// ThroughEnd returns the most that a device at an end of a circuit may have to
// break: what the circuit brings to a fault at its node, or what all else brings to
// one just inside the circuit:
//
//	I_k = max(I_br, I_k − I_br)
//
// I_k and its circumstances are those of [Solved.GreatestFault].
func (s *Solved) ThroughEnd(e End) (ThroughEnd, error) {
	i, at, err := s.end(e)
	if err != nil {
		return ThroughEnd{}, err
	}
	if _, err := s.faulty(e.Node); err != nil {
		return ThroughEnd{}, err
	}
	x, err := s.strike(at)
	if err != nil {
		return ThroughEnd{}, err
	}
	part := s.plan.partOfCircuit(i)
	f := s.fault(part, at, x)
	w := working.Start(f.Working)
	w.Part("Through the end of " + e.Circuit + ": the fault on either side of it")
	far := w.Step("I_br", s.arrives(part, s.plan.placeInPart(i), at, x).Abs(), kirchhoff)
	all := w.Calc("I_k", "max(I_br, I_k − I_br)", decimal.Max(far, f.FaultA.Sub(far)), kirchhoff)
	return ThroughEnd{all, slices.Clip(w)}, nil
}

// end is the number of a circuit and that of one of its nodes.
func (s *Solved) end(e End) (circuit, node int, err error) {
	i, err := s.circuit("circuit", e.Circuit)
	if err != nil {
		return 0, 0, err
	}
	ends := s.plan.wires[i]
	switch e.Node {
	case s.plan.nodes[ends[0]]:
		return i, ends[0], nil
	case s.plan.nodes[ends[1]]:
		return i, ends[1], nil
	}
	return 0, 0, unknown("node", cmp.Or(e.Node, " "), "node of "+e.Circuit, []string{s.plan.nodes[ends[0]], s.plan.nodes[ends[1]]})
}
