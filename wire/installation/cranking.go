package installation

import (
	"math"
	"slices"

	"example.org/extralow/wire/internal/nodal"
)

// crankingCases are the start of an engine: on all that is usually joined to it, and
// on each battery alone that any switch can join to it, so that every lead on a way
// to one carries what it may. Where a switch parts one of several ways, the others
// carry all: that is a case as well.
func (p *plan) crankingCases() []Case {
	var all []Case
	for i, l := range p.in.Loads {
		if !l.Cranks {
			continue
		}
		all = append(all, Case{Name: "cranking " + l.Name, Kind: Cranking, State: -1, Starting: l.Name})
		usual, whole := p.ways(i, Case{}), p.ways(i, Case{AllClosed: true})
		for k, b := range p.in.Batteries {
			c := Case{Name: "cranking " + l.Name + " on " + b.Name + " alone", Kind: Cranking, State: -1, Starting: l.Name, Alone: b.Name}
			leads := usual.from(p.feeders[k][0])
			if leads == nil {
				c.Name, c.AllClosed = c.Name+", every switch closed", true
				if leads = whole.from(p.feeders[k][0]); leads == nil {
					continue
				}
			}
			all = append(all, c)
			all = append(all, p.divertedCases(c, i, leads)...)
		}
	}
	return all
}

// divertedCases are a start with each switch open in turn that lies on one of
// several ways.
func (p *plan) divertedCases(of Case, load int, leads []bool) []Case {
	var all []Case
	for _, x := range p.places {
		if !leads[x.circuits[0]] {
			continue
		}
		c := of
		c.Open = p.in.Circuits[x.circuits[0]].Name
		c.Name += ", " + c.Open + " open"
		open := p.opened(c)
		if p.walk([]int{p.draws[load][0]}, func(i int) bool { return open[i] })[p.index[c.Alone]] {
			all = append(all, c)
		}
	}
	return all
}

// ways are the circuits on any way to a load.
type ways struct {
	*plan
	of      *part
	to      int // the node of the load
	open    []bool
	factors *nodal.Factors
}

func (p *plan) ways(load int, c Case) ways {
	w := ways{plan: p, of: p.parts[p.partOf[p.draws[load][0]]], to: p.draws[load][0], open: p.opened(c)}
	s := p.bare()
	s.open = w.open
	elements := w.of.elements(s, w.milliohm(), s.own)
	at := len(w.of.feeders) + len(w.of.circuits)
	elements[at+slices.Index(w.of.draws, load)].Siemens = 1
	w.factors = w.of.base.With(elements).Factor()
	return w
}

func (w ways) milliohm() []float64 {
	all := make([]float64, len(w.of.circuits))
	for k, i := range w.of.circuits {
		all[k] = w.lines[i].atAmbient()
	}
	return all
}

// from lists the circuits that carry any of a current sent in at a node, if it
// reaches the load at all.
func (w ways) from(node int) []bool {
	if !w.walk([]int{node}, func(i int) bool { return w.open[i] })[w.to] {
		return nil
	}
	current := make([]float64, len(w.of.nodes))
	current[w.local[node]] = 1
	v := w.factors.Volts(current)
	leads := make([]bool, len(w.lines))
	for _, i := range w.of.circuits {
		a, b := w.local[w.wires[i][0]], w.local[w.wires[i][1]]
		leads[i] = !w.open[i] && math.Abs(v[a]-v[b])*1000/w.lines[i].atAmbient() > 1e-9
	}
	return leads
}
