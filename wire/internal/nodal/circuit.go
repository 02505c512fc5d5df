// Package nodal solves direct-current circuits in numbers: volts, siemens and
// amperes as float64, nodes by index. It is the solver that package wire and
// package installation share; what it finds leaves them as decimals.
package nodal

import (
	"math"
	"slices"
)

// Circuit is a network of elements between nodes. Node 0 is the common return.
type Circuit struct {
	Elements []Element // sources, then branches, then loads
	Sources  int       // how many
	Branches int
	Part     []int  // of each node: which connected part it belongs to; -1 for node 0
	Parts    int    // how many
	Returns  []bool // of each part: the common return belongs to it
	Fixed    []bool // nodes held at 0 V: the returns, and that of a bolted fault

	order *elimination // found when it is first solved
}

// Element lies between two nodes and lets a current through that depends on
// the voltage between them.
type Element struct {
	From, To int
	Siemens  float64 // of a branch, a source, a resistive load
	Ampere   float64 // constant current from From to To
	Watt     float64 // constant power
	EMF      float64 // above 0: a source
	Limit    float64 // of a source; +Inf: a battery
}

func (e Element) source() bool { return e.EMF > 0 }

// Limited reports a source that is no battery.
func (e Element) Limited() bool { return e.source() && !math.IsInf(e.Limit, 1) }

// Other is the far end of an element.
func (e Element) Other(node int) int { return e.From + e.To - node }

// Through returns the current at a voltage and how it grows with it, with that
// share of a constant power switched on.
func (e Element) Through(u, power float64) (ampere, slope float64) {
	gives := (e.EMF - u) * e.Siemens
	switch {
	case e.Watt*power > 0:
		return power * e.Watt / u, -power * e.Watt / (u * u)
	case !e.source():
		return e.Ampere + e.Siemens*u, e.Siemens
	case gives >= e.Limit:
		return -e.Limit, 0
	case gives <= 0 && e.Limited():
		return 0, 0
	default:
		return -gives, e.Siemens
	}
}

// follows returns the part of a step of the voltage at which a source that gave
// nothing, or its limit, gives way, and a margin more; +Inf if it does not.
func (e Element) follows(u, along, margin float64) float64 {
	switch full := e.EMF - e.Limit/e.Siemens; {
	case e.Limited() && along < 0 && u >= e.EMF:
		return (e.EMF - margin - u) / along
	case e.Limited() && along > 0 && u <= full:
		return (full + margin - u) / along
	}
	return math.Inf(1)
}

// New finds the parts of a circuit of so many nodes, and holds a return of each at
// 0 V.
func New(nodes int, elements []Element, sources, branches int) *Circuit {
	c := &Circuit{Elements: elements, Sources: sources, Branches: branches}
	c.findParts(nodes)
	return c
}

// With is the same circuit with other figures in its elements, to be solved by
// itself: what was found out about its shape is not found out again.
func (c *Circuit) With(elements []Element) *Circuit {
	own := *c
	own.Elements = elements
	if c.order != nil {
		own.order = c.order.again()
	}
	return &own
}

// touching lists the elements at each node.
func (c *Circuit) touching(nodes int) [][]int {
	degree := make([]int, nodes)
	for _, e := range c.Elements {
		degree[e.From]++
		degree[e.To]++
	}
	at, all := make([][]int, nodes), make([]int, 2*len(c.Elements))
	for i, n := range degree {
		at[i], all = all[:0:n], all[n:]
	}
	for k, e := range c.Elements {
		at[e.From], at[e.To] = append(at[e.From], k), append(at[e.To], k)
	}
	return at
}

// findParts numbers the parts that sources and branches join otherwise than
// through the common return, and holds a return of each at 0 V.
func (c *Circuit) findParts(nodes int) {
	at := c.touching(nodes)
	c.Fixed = make([]bool, nodes)
	c.Fixed[0] = true
	c.Part = slices.Repeat([]int{-1}, nodes)
	for first := 1; first < nodes; first++ {
		if c.Part[first] >= 0 {
			continue
		}
		returns := c.fill(at, first)
		if !returns {
			c.Fixed[c.ownReturn(c.Parts, first)] = true
		}
		c.Returns = append(c.Returns, returns)
		c.Parts++
	}
}

// fill gives the next part's number to all that hangs together with a node, and
// reports whether the common return belongs to it.
func (c *Circuit) fill(at [][]int, first int) (returns bool) {
	c.Part[first] = c.Parts
	queue := make([]int, 1, len(at))
	for queue[0] = first; len(queue) > 0; queue = queue[1:] {
		for _, k := range at[queue[0]] {
			far := c.Elements[k].Other(queue[0])
			switch {
			case k >= c.Sources+c.Branches: // a load joins nothing
			case far == 0:
				returns = true
			case c.Part[far] < 0:
				c.Part[far] = c.Parts
				queue = append(queue, far)
			}
		}
	}
	return returns
}

// ownReturn is the return of the first source of a part that has nothing to do
// with the common one.
func (c *Circuit) ownReturn(part, otherwise int) int {
	for _, e := range c.Elements[:c.Sources] {
		if c.Part[e.From] == part {
			return e.To
		}
	}
	return otherwise
}

// PartOf is the part that an element belongs to.
func (c *Circuit) PartOf(k int) int {
	return max(c.Part[c.Elements[k].From], c.Part[c.Elements[k].To])
}
