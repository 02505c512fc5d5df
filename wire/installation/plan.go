package installation

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"example.org/extralow/wire/internal/nodal"
)

// plan is an installation in numbers: what holds in each of its cases.
type plan struct {
	in       Installation
	lines    []line
	nodes    []string // the common return first
	index    map[string]int
	wires    [][2]int // the nodes of each circuit
	touching [][]int  // the circuits at each node
	feeders  [][2]int // node and return of each battery, then of each source
	draws    [][2]int // of each load
	inputs   []int    // of each source the node of its input; -1: none
	loads    map[string]int
	circuits map[string]int
	feederAt []int   // of each node; -1: no battery or source stands there
	uses     [][]int // of each state and load, where the state lists it; -1: it does not
	parts    []*part
	local    []int // of each node: its number in its part
	partOf   []int // of each node; -1 for the common return
	order    []int // of the parts: what converters alone feed before what feeds these
	places   []place
	sides    []int // of each battery: the first one that is joined to it with every link open
	cases    []Case
	setups   []setup  // of each case
	ownLine  [][]bool // of each case of a thing at its limit: the circuits of its line; nil of others
	atRest   setup    // of all batteries and nothing else

	regulated float64 // S of a source that holds its voltage
}

// part is what circuits, batteries and loads join; a converter does not join its
// sides. Node 0 is the common return.
type part struct {
	nodes     []int // of the plan
	circuits  []int
	feeders   []int // batteries, then sources
	draws     []int // loads
	inputs    []int // sources whose input is here
	batteries int   // how many of the feeders
	base      *nodal.Circuit
}

// supplied reports whether sources alone feed the part.
func (p *part) supplied() bool { return p.batteries == 0 }

// newPlan turns an installation that was checked into numbers.
func newPlan(in Installation, lines []line) (*plan, error) {
	own, err := regulated()
	if err != nil {
		return nil, err
	}
	p := &plan{in: in, lines: lines, index: map[string]int{}, regulated: 1000 / float(own.Value)}
	p.number()
	p.touch()
	p.join()
	p.list()
	if err := p.checkFed(); err != nil {
		return nil, err
	}
	if err := p.sort(); err != nil {
		return nil, err
	}
	p.places = p.findPlaces()
	p.sides = p.findSides()
	p.atRest = p.resting(Case{})
	p.cases = p.listCases()
	for _, c := range p.cases {
		p.setups, p.ownLine = append(p.setups, p.setup(c)), append(p.ownLine, p.lineOf(c))
	}
	return p, nil
}

// number gives every node a number, the common return 0.
func (p *plan) number() {
	p.at(wire.CommonReturn)
	for _, c := range p.in.Circuits {
		p.wires = append(p.wires, [2]int{p.at(c.From), p.at(c.To)})
	}
	for _, b := range p.in.Batteries {
		p.feeders = append(p.feeders, [2]int{p.at(b.Name), p.at(returnOf(b.Return))})
	}
	for _, s := range p.in.Sources {
		p.feeders = append(p.feeders, [2]int{p.at(s.Name), p.at(returnOf(s.Return))})
	}
	for _, l := range p.in.Loads {
		p.draws = append(p.draws, [2]int{p.at(l.Node), p.at(returnOf(l.Return))})
	}
	for _, s := range p.in.Sources {
		if s.FedAt == "" {
			p.inputs = append(p.inputs, -1)
			continue
		}
		p.inputs = append(p.inputs, p.at(s.FedAt))
	}
}

// at returns the number of a node, new where the name is.
func (p *plan) at(name string) int {
	i, ok := p.index[name]
	if !ok {
		i = len(p.nodes)
		p.index[name] = i
		p.nodes = append(p.nodes, name)
	}
	return i
}

// list finds things by their names and nodes, and loads in the states.
func (p *plan) list() {
	p.circuits, p.feederAt = make(map[string]int, len(p.in.Circuits)), slices.Repeat([]int{-1}, len(p.nodes))
	for i, c := range p.in.Circuits {
		p.circuits[c.Name] = i
	}
	for k, ends := range p.feeders {
		p.feederAt[ends[0]] = k
	}
	p.loads = make(map[string]int, len(p.in.Loads))
	for i, l := range p.in.Loads {
		p.loads[l.Name] = i
	}
	for _, s := range p.in.States {
		p.uses = append(p.uses, p.usesOf(s))
	}
}

// usesOf is of each load where a state lists it; -1: it does not.
func (p *plan) usesOf(s State) []int {
	of := slices.Repeat([]int{-1}, len(p.in.Loads))
	for k, u := range s.Loads {
		of[p.loads[u.Load]] = k
	}
	return of
}

// touch lists the circuits at each node.
func (p *plan) touch() {
	p.touching = make([][]int, len(p.nodes))
	for i, w := range p.wires {
		p.touching[w[0]], p.touching[w[1]] = append(p.touching[w[0]], i), append(p.touching[w[1]], i)
	}
}

// join finds the parts.
func (p *plan) join() {
	joined := newSets(len(p.nodes))
	for _, pairs := range [][][2]int{p.wires, p.feeders, p.draws} {
		for _, ends := range pairs {
			if ends[0] != 0 && ends[1] != 0 {
				joined.join(ends[0], ends[1])
			}
		}
	}
	p.partOf, p.local = slices.Repeat([]int{-1}, len(p.nodes)), make([]int, len(p.nodes))
	number := map[int]int{}
	for node := 1; node < len(p.nodes); node++ {
		root := joined.last(node)
		if _, ok := number[root]; !ok {
			number[root] = len(p.parts)
			p.parts = append(p.parts, &part{nodes: []int{0}})
		}
		of := p.parts[number[root]]
		p.partOf[node], p.local[node] = number[root], len(of.nodes)
		of.nodes = append(of.nodes, node)
	}
	p.fill()
	for _, of := range p.parts {
		of.base = p.skeleton(of)
	}
}

// fill puts everything into its part.
func (p *plan) fill() {
	for i, w := range p.wires {
		of := p.parts[p.partAt(w)]
		of.circuits = append(of.circuits, i)
	}
	for i, f := range p.feeders {
		of := p.parts[p.partAt(f)]
		of.feeders = append(of.feeders, i)
		if i < len(p.in.Batteries) {
			of.batteries++
		}
	}
	for i, d := range p.draws {
		of := p.parts[p.partAt(d)]
		of.draws = append(of.draws, i)
	}
	for i, node := range p.inputs {
		if node > 0 {
			of := p.parts[p.partOf[node]]
			of.inputs = append(of.inputs, i)
		}
	}
}

// skeleton is the shape of a part, without figures: batteries and sources,
// circuits, then loads, inputs of sources and what vehicles draw beside theirs.
func (p *plan) skeleton(of *part) *nodal.Circuit {
	var elements []nodal.Element
	add := func(ends [2]int) {
		elements = append(elements, nodal.Element{From: p.local[ends[0]], To: p.local[ends[1]]})
	}
	for _, i := range of.feeders {
		add(p.feeders[i])
	}
	for _, i := range of.circuits {
		add(p.wires[i])
	}
	for _, i := range of.draws {
		add(p.draws[i])
	}
	for _, i := range of.inputs {
		add([2]int{p.inputs[i], 0})
	}
	for _, i := range of.feeders[of.batteries:] {
		add(p.feeders[i])
	}
	c := nodal.New(len(of.nodes), elements, len(of.feeders), len(of.circuits))
	c.Prepare()
	return c
}

// checkFed refuses circuits and loads that nothing feeds.
func (p *plan) checkFed() error {
	var faults []error
	for _, of := range p.parts {
		c := of.base
		fed := make([]bool, c.Parts)
		for k := range of.feeders {
			fed[c.PartOf(k)] = true
		}
		for k, i := range of.circuits {
			if at := c.PartOf(c.Sources + k); !fed[at] && !c.Returns[at] {
				faults = append(faults, unfed(fmt.Sprintf("circuits[%d].from_node", i), p.in.Circuits[i].From))
			}
		}
		for k, i := range of.draws {
			e := c.Elements[c.Sources+c.Branches+k]
			faults = append(faults, p.checkLoad(of, e, fed, i))
		}
		for k, i := range of.inputs {
			e := c.Elements[c.Sources+c.Branches+len(of.draws)+k]
			if at := c.Part[e.From]; at < 0 || !fed[at] || !c.Returns[at] {
				faults = append(faults, unfed(fmt.Sprintf("sources[%d].fed_at", i), p.in.Sources[i].FedAt))
			}
		}
	}
	return errors.Join(faults...)
}

func (p *plan) checkLoad(of *part, e nodal.Element, fed []bool, load int) error {
	at, back := of.base.Part[e.From], of.base.Part[e.To]
	switch {
	case at < 0 || !fed[at]:
		return unfed(fmt.Sprintf("loads[%d].node", load), p.in.Loads[load].Node)
	case back != at && !(of.base.Returns[at] && (back < 0 || of.base.Returns[back])):
		return &working.InputError{Field: fmt.Sprintf("loads[%d].return", load), Got: fmt.Sprintf("%.60q", returnOf(p.in.Loads[load].Return)),
			Want: "a node from which the current finds back to the sources of " + p.in.Loads[load].Node}
	}
	return nil
}

func unfed(field, node string) error {
	return &working.InputError{Field: field, Got: fmt.Sprintf("%.60q", node), Want: "a node that a battery or a source reaches"}
}

// sort puts each part that converters alone feed before the part of their inputs.
func (p *plan) sort() error {
	const open, done = 1, 2
	state := make([]int, len(p.parts))
	var visit func(int) error
	visit = func(i int) error {
		if state[i] == done {
			return nil
		}
		state[i] = open
		for _, s := range p.parts[i].inputs {
			out := p.partOf[p.feeders[len(p.in.Batteries)+s][0]]
			if !p.parts[out].supplied() {
				continue
			}
			if state[out] == open {
				return &working.InputError{Field: fmt.Sprintf("sources[%d].fed_at", s), Got: fmt.Sprintf("%.60q", p.in.Sources[s].FedAt), Want: "a node that is not fed by this source alone"}
			}
			if err := visit(out); err != nil {
				return err
			}
		}
		state[i] = done
		p.order = append(p.order, i)
		return nil
	}
	for i := range p.parts {
		if err := visit(i); err != nil {
			return err
		}
	}
	return nil
}

// battery is the number of a battery; -1 where there is none of the name.
func (p *plan) battery(name string) int {
	return slices.IndexFunc(p.in.Batteries, func(b Battery) bool { return b.Name == name })
}

func (p *plan) source(name string) int {
	return slices.IndexFunc(p.in.Sources, func(s Source) bool { return s.Name == name })
}

// other is the far end of a circuit.
func (p *plan) other(circuit, node int) int { return p.wires[circuit][0] + p.wires[circuit][1] - node }

// walk visits all nodes that circuits join to some nodes, not through the common
// return.
func (p *plan) walk(from []int, open func(circuit int) bool) (met []bool) {
	met = make([]bool, len(p.nodes))
	queue := slices.Clone(from)
	for _, node := range queue {
		met[node] = true
	}
	for ; len(queue) > 0; queue = queue[1:] {
		for _, i := range p.touching[queue[0]] {
			far := p.other(i, queue[0])
			if queue[0] == 0 || far == 0 || met[far] || open(i) {
				continue
			}
			met[far] = true
			queue = append(queue, far)
		}
	}
	return met
}

// sets keeps account of which nodes are joined.
type sets []int // of each node: one it is joined to; itself: none

func newSets(size int) sets {
	s := make(sets, size)
	for i := range s {
		s[i] = i
	}
	return s
}

func (s sets) join(a, b int) { s[s.last(a)] = s.last(b) }

// last is the node that stands for all those joined to one.
func (s sets) last(node int) int {
	for s[node] != node {
		s[node] = s[s[node]]
		node = s[node]
	}
	return node
}

// infinite is the limit of a battery.
var infinite = math.Inf(1)
