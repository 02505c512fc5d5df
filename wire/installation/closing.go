package installation

import (
	"fmt"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Closing is what flows at the moment when a switch joins batteries to others.
type Closing struct {
	CurrentA decimal.Decimal      `json:"closing_a"` // through the switch
	Full     string               `json:"full"`      // the node of the switch whose side is the higher
	OneBank  bool                 `json:"one_bank"`  // batteries of one bank, joined by hand: within a tabled voltage of each other
	Sources  []wire.SourceCurrent `json:"sources,omitempty"`
	Circuits []wire.BranchCurrent `json:"circuits,omitempty"` // of both sides
	Working  working.Working      `json:"working"`
}

// Closing returns the ways in which the switch of a circuit joins batteries to
// others, the greatest current first; none where it joins none:
//
//	I_cl = the difference of the voltages over all resistance, as far as sources go
//
// Banks meet as they come: one side full with its sources at work, the other nearly
// empty, and the other way round; batteries of one bank within a tabled voltage of
// each other and without a source. All are at their low resistance, cables at 20 °C,
// no contacts, no loads. Every other switch is closed before it, as far as that does not
// join its two nodes already, or every other one is open. The current falls as the sides come together, which takes minutes or
// hours. Sources: Kirchhoff's laws, Ohm's law; the voltage is common practice.
func (s *Solved) Closing(circuit string) ([]Closing, error) {
	i, err := s.circuit("circuit", circuit)
	if err != nil {
		return nil, err
	}
	if s.plan.placeOf(i) < 0 {
		return nil, nil
	}
	apart, err := tables.SizingFigure("apart_when_joined")
	if err != nil {
		return nil, err
	}
	var all []Closing
	for _, j := range s.plan.junctions(i) {
		for _, full := range []int{0, 1} {
			c, err := s.plan.closing(i, j, full, apart)
			if err != nil {
				return nil, err
			}
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b Closing) int { return b.CurrentA.Cmp(a.CurrentA) })
	return all, nil
}

// junction is the two sides of a switch while it is open, each with a battery, and
// what other switches stand open meanwhile.
type junction struct {
	sides   [2][]bool // of each node
	open    []bool    // of each circuit
	oneBank bool
}

// junctions finds what the switch of a circuit joins.
func (p *plan) junctions(circuit int) []junction {
	var all []junction
	for _, open := range p.standing(p.placeOf(circuit)) {
		j := junction{open: open}
		for k, node := range p.wires[circuit] {
			j.sides[k] = p.walk([]int{node}, func(i int) bool { return open[i] })
		}
		banks := [2][]string{p.banksOn(j.sides[0]), p.banksOn(j.sides[1])}
		if j.sides[0][p.wires[circuit][1]] || len(banks[0]) == 0 || len(banks[1]) == 0 {
			continue
		}
		j.oneBank = len(banks[0]) == 1 && slices.Equal(banks[0], banks[1])
		if !slices.ContainsFunc(all, func(x junction) bool {
			return slices.Equal(x.sides[0], j.sides[0]) && slices.Equal(x.sides[1], j.sides[1])
		}) {
			all = append(all, j)
		}
	}
	return all
}

// standing are the ways in which all switches may stand as those of a place close:
// every other one closed, as before a battery's own isolator, or every other one open,
// as of two links side by side. Where all of them closed join its ends already, as many
// are closed as do not, once from the first on and once from the last: which of several
// in one line stays open decides on which side a battery between them is.
func (p *plan) standing(own int) [][]bool {
	var others []int
	for k := range p.places {
		if k != own {
			others = append(others, k)
		}
	}
	apart := p.opening(own)
	ends := p.wires[p.places[own].circuits[0]]
	if !p.walk(ends[:1], func(i int) bool { return apart[i] })[ends[1]] {
		return [][]bool{apart, p.opening(append(others, own)...)}
	}
	backwards := slices.Clone(others)
	slices.Reverse(backwards)
	return [][]bool{p.opening(append(p.leftOpen(own, others), own)...), p.opening(append(p.leftOpen(own, backwards), own)...), p.opening(append(others, own)...)}
}

// opening is the circuits of some places.
func (p *plan) opening(places ...int) []bool {
	open := make([]bool, len(p.lines))
	for _, k := range places {
		for _, i := range p.places[k].circuits {
			open[i] = true
		}
	}
	return open
}

// leftOpen closes places one after another unless that joins the ends of one, and
// returns those that stay open.
func (p *plan) leftOpen(own int, others []int) []int {
	joined := newSets(len(p.nodes))
	for i, ends := range p.wires {
		if p.placeOf(i) < 0 && ends[0] != 0 && ends[1] != 0 {
			joined.join(ends[0], ends[1])
		}
	}
	ends := p.wires[p.places[own].circuits[0]]
	var open []int
	for _, k := range others {
		at := p.wires[p.places[k].circuits[0]]
		a, b, from, to := joined.last(at[0]), joined.last(at[1]), joined.last(ends[0]), joined.last(ends[1])
		if a == from && b == to || a == to && b == from {
			open = append(open, k)
		} else {
			joined.join(a, b)
		}
	}
	return open
}

// banksOn names the banks of the batteries among some nodes.
func (p *plan) banksOn(nodes []bool) []string {
	var all []string
	for i, b := range p.in.Batteries {
		if nodes[p.feeders[i][0]] && !slices.Contains(all, b.Bank) {
			all = append(all, b.Bank)
		}
	}
	slices.Sort(all)
	return all
}

// closing solves one way of closing a switch.
func (p *plan) closing(circuit int, j junction, full int, apart working.Figure) (Closing, error) {
	own, err := regulated()
	if err != nil {
		return Closing{}, err
	}
	n := wire.Network{Sources: p.meeting(j, full, apart.Value, own.Value), Branches: p.between(circuit, j)}
	solution, err := n.Solve()
	if err != nil {
		return Closing{}, fmt.Errorf("as %s closes: %w", p.in.Circuits[circuit].Name, err)
	}
	c := Closing{Full: p.nodes[p.wires[circuit][full]], OneBank: j.oneBank, Sources: solution.Sources, Circuits: solution.Branches}
	at := slices.IndexFunc(c.Circuits, func(b wire.BranchCurrent) bool { return b.Name == p.in.Circuits[circuit].Name })
	c.CurrentA = c.Circuits[at].CurrentA.Abs()
	c.Working = p.joined(c, n, apart)
	return c, nil
}

// meeting is what feeds either side: the higher one full and with its sources, or a
// little above the other.
func (p *plan) meeting(j junction, full int, apart, regulated decimal.Decimal) []wire.NodeSource {
	var all []wire.NodeSource
	high := p.fullOn(j.sides[full])
	for i, b := range p.in.Batteries {
		at := p.feeders[i][0]
		if !j.sides[0][at] && !j.sides[1][at] {
			continue
		}
		x := wire.NodeSource{Name: b.Name, Node: b.Name, Return: b.Return, EMFV: b.FullV, Milliohm: b.LowMilliohm}
		switch higher := j.sides[full][at]; {
		case j.oneBank && higher:
			x.EMFV = high
		case j.oneBank:
			x.EMFV = high.Sub(apart)
		case !higher:
			x.EMFV = b.EmptyV
		}
		all = append(all, x)
	}
	for i, s := range p.in.Sources {
		if !j.oneBank && j.sides[full][p.feeders[len(p.in.Batteries)+i][0]] {
			all = append(all, wire.NodeSource{Name: s.Name, Node: s.Name, Return: s.Return, EMFV: s.HeldV,
				Milliohm: regulated, LimitA: decimal.NewNullDecimal(s.GreatestA)})
		}
	}
	return all
}

// fullOn is the voltage of the first battery among some nodes when it is full.
func (p *plan) fullOn(nodes []bool) decimal.Decimal {
	i := slices.IndexFunc(p.feeders[:len(p.in.Batteries)], func(f [2]int) bool { return nodes[f[0]] })
	return p.in.Batteries[i].FullV
}

// between is the circuits of both sides and the switch between them; of several beside
// it, which are meant to close together, one is the first.
func (p *plan) between(circuit int, j junction) []wire.Branch {
	var returns []int // where these are drawn
	for _, f := range p.feeders {
		if f[1] > 0 && (j.sides[0][f[0]] || j.sides[1][f[0]]) {
			returns = append(returns, f[1])
		}
	}
	frames := p.walk(returns, func(i int) bool { return j.open[i] })
	inside := func(node int) bool { return node == 0 || j.sides[0][node] || j.sides[1][node] || frames[node] }
	var all []wire.Branch
	for i, c := range p.in.Circuits {
		a, b := p.wires[i][0], p.wires[i][1]
		if j.open[i] && i != circuit || !inside(a) || !inside(b) {
			continue
		}
		all = append(all, wire.Branch{Name: c.Name, From: c.From, To: c.To, Milliohm: decimal.NewFromFloat(p.lines[i].bolted()).Round(9)})
	}
	return all
}

// joined lays out what feeds the closing and what flows.
func (p *plan) joined(c Closing, n wire.Network, apart working.Figure) working.Working {
	var w working.Working
	for k, s := range n.Sources {
		w.Part(s.Name)
		if i := p.battery(s.Name); i >= 0 {
			w = append(w, p.in.Batteries[i].From...)
		}
		w.Given("E_0", s.EMFV)
		w.Given("R_i", s.Milliohm)
		w.Step("I_so", c.Sources[k].CurrentA, kirchhoff)
		w.Note("solved with both sides")
	}
	w.Part("At the moment of closing")
	w.Step("I_cl", c.CurrentA, kirchhoff)
	w.Note("the side of " + c.Full + " full, its sources at work, the other nearly empty")
	if c.OneBank {
		w[len(w)-1].Source = apart.Source
		w.Note("the side of " + c.Full + " " + apart.Value.String() + " V above the other: measure first")
	}
	return slices.Clip(w)
}

// Live returns the nodes that some battery or source still feeds with the switches
// of some circuits open and every other one closed: what stays live after an
// isolator is opened. A converter feeds where its input is live. The common return
// is not listed.
func (s *Solved) Live(open ...string) ([]string, error) {
	set := setup{}
	if s != nil && s.plan != nil {
		set = s.plan.bare()
	}
	for _, name := range open {
		i, err := s.circuit("open", name)
		if err != nil {
			return nil, err
		}
		if s.plan.placeOf(i) < 0 {
			return nil, &working.InputError{Field: "open", Got: fmt.Sprintf("%.60q", name), Want: "a circuit with a switch that parts its two nodes"}
		}
		for _, k := range s.plan.places[s.plan.placeOf(i)].circuits {
			set.open[k] = true
		}
	}
	if s == nil || s.plan == nil {
		return nil, errUnsolved
	}
	return s.plan.live(set), nil
}

// live walks from batteries and sources at work.
func (p *plan) live(set setup) []string {
	on := make([]bool, len(p.feeders))
	for again := true; again; {
		var from []int
		for k := range p.feeders {
			if k < len(p.in.Batteries) || on[k] {
				from = append(from, p.feeders[k][0])
			}
		}
		met := p.walk(from, func(i int) bool { return set.open[i] })
		again = false
		for i, input := range p.inputs {
			if k := len(p.in.Batteries) + i; !on[k] && (input < 0 || met[input]) {
				on[k], again = true, true
			}
		}
		if !again {
			return p.named(met)
		}
	}
	return nil
}

// named lists the names of the live nodes among some.
func (p *plan) named(met []bool) []string {
	var all []string
	for i, live := range met {
		if live && i > 0 {
			all = append(all, p.nodes[i])
		}
	}
	slices.Sort(all)
	return all
}
