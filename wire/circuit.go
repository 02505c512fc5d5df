package wire

import (
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables/working"
)

// circuit is a network in numbers: volts, siemens and amperes as float64, nodes
// by index. It is what the solver works on. Node 0 is the common return.
type circuit struct {
	nodes    []string
	index    map[string]int
	elements []element // sources, then branches, then loads
	sources  int       // how many
	branches int
	part     []int        // of each node: which connected part it belongs to; -1 for node 0
	parts    int          // how many
	returns  []bool       // of each part: the common return belongs to it
	fixed    []bool       // nodes held at 0 V: the returns, and that of a bolted fault
	order    *elimination // found when it is first solved
}

// element lies between two nodes and lets a current through that depends on
// the voltage between them.
type element struct {
	from, to int
	siemens  float64 // of a branch, a source, a resistive load
	ampere   float64 // constant current from from to to
	watt     float64 // constant power
	emf      float64 // above 0: a source
	limit    float64 // of a source; +Inf: a battery
}

func (e element) source() bool  { return e.emf > 0 }
func (e element) limited() bool { return e.source() && !math.IsInf(e.limit, 1) }

// other is the far end of an element.
func (e element) other(node int) int { return e.from + e.to - node }

// through returns the current at a voltage and how it grows with it, with that
// share of a constant power switched on.
func (e element) through(u, power float64) (ampere, slope float64) {
	gives := (e.emf - u) * e.siemens
	switch {
	case e.watt*power > 0:
		return power * e.watt / u, -power * e.watt / (u * u)
	case !e.source():
		return e.ampere + e.siemens*u, e.siemens
	case gives >= e.limit:
		return -e.limit, 0
	case gives <= 0 && e.limited():
		return 0, 0
	default:
		return -gives, e.siemens
	}
}

// follows returns the part of a step of the voltage at which a source that gave
// nothing, or its limit, gives way, and a margin more; +Inf if it does not.
func (e element) follows(u, along, margin float64) float64 {
	switch full := e.emf - e.limit/e.siemens; {
	case e.limited() && along < 0 && u >= e.emf:
		return (e.emf - margin - u) / along
	case e.limited() && along > 0 && u <= full:
		return (full + margin - u) / along
	}
	return math.Inf(1)
}

// circuit turns a network that was checked into numbers.
func (n Network) circuit() (*circuit, error) {
	c := &circuit{
		index: make(map[string]int, len(n.Branches)+2), sources: len(n.Sources), branches: len(n.Branches),
		elements: make([]element, 0, len(n.Sources)+len(n.Branches)+len(n.Loads)),
	}
	c.at(CommonReturn)
	for _, s := range n.Sources {
		e := element{from: c.at(s.Node), to: c.at(returnOf(s.Return)), emf: s.EMFV.InexactFloat64(),
			siemens: 1000 / s.Milliohm.InexactFloat64(), limit: math.Inf(1)}
		if s.LimitA.Valid {
			e.limit = s.LimitA.Decimal.InexactFloat64()
		}
		c.elements = append(c.elements, e)
	}
	for _, b := range n.Branches {
		c.elements = append(c.elements, element{from: c.at(b.From), to: c.at(b.To), siemens: 1000 / b.Milliohm.InexactFloat64()})
	}
	for _, l := range n.Loads {
		e := element{from: c.at(l.Node), to: c.at(returnOf(l.Return)),
			ampere: l.CurrentA.Decimal.InexactFloat64(), watt: l.PowerW.Decimal.InexactFloat64()}
		if l.Ohm.Valid {
			e.siemens = 1 / l.Ohm.Decimal.InexactFloat64()
		}
		c.elements = append(c.elements, e)
	}
	c.findParts()
	return c, c.checkFed(n)
}

// at returns the index of a node, new where the name is.
func (c *circuit) at(name string) int {
	i, ok := c.index[name]
	if !ok {
		i = len(c.nodes)
		c.index[name] = i
		c.nodes = append(c.nodes, name)
	}
	return i
}

// touching lists the elements at each node.
func (c *circuit) touching() [][]int {
	degree := make([]int, len(c.nodes))
	for _, e := range c.elements {
		degree[e.from]++
		degree[e.to]++
	}
	at, all := make([][]int, len(c.nodes)), make([]int, 2*len(c.elements))
	for i, n := range degree {
		at[i], all = all[:0:n], all[n:]
	}
	for k, e := range c.elements {
		at[e.from], at[e.to] = append(at[e.from], k), append(at[e.to], k)
	}
	return at
}

// findParts numbers the parts that sources and branches join otherwise than
// through the common return, and holds a return of each at 0 V.
func (c *circuit) findParts() {
	at := c.touching()
	c.fixed = make([]bool, len(c.nodes))
	c.fixed[0] = true
	c.part = slices.Repeat([]int{-1}, len(c.nodes))
	for first := 1; first < len(c.nodes); first++ {
		if c.part[first] >= 0 {
			continue
		}
		returns := c.fill(at, first)
		if !returns {
			c.fixed[c.ownReturn(c.parts, first)] = true
		}
		c.returns = append(c.returns, returns)
		c.parts++
	}
}

// fill gives the next part's number to all that hangs together with a node, and
// reports whether the common return belongs to it.
func (c *circuit) fill(at [][]int, first int) (returns bool) {
	c.part[first] = c.parts
	queue := make([]int, 1, len(c.nodes))
	for queue[0] = first; len(queue) > 0; queue = queue[1:] {
		for _, k := range at[queue[0]] {
			far := c.elements[k].other(queue[0])
			switch {
			case k >= c.sources+c.branches: // a load joins nothing
			case far == 0:
				returns = true
			case c.part[far] < 0:
				c.part[far] = c.parts
				queue = append(queue, far)
			}
		}
	}
	return returns
}

// ownReturn is the return of the first source of a part that has nothing to do
// with the common one.
func (c *circuit) ownReturn(part, otherwise int) int {
	for _, e := range c.elements[:c.sources] {
		if c.part[e.from] == part {
			return e.to
		}
	}
	return otherwise
}

// partOf is the part that an element belongs to.
func (c *circuit) partOf(k int) int {
	return max(c.part[c.elements[k].from], c.part[c.elements[k].to])
}

// checkFed refuses a part that no source and no return belongs to, and a charger in constant current
// in a part where no battery takes what it gives.
func (c *circuit) checkFed(n Network) error {
	fed, battery := make([]bool, c.parts), make([]bool, c.parts)
	for k, e := range c.elements[:c.sources] {
		fed[c.partOf(k)] = true
		battery[c.partOf(k)] = battery[c.partOf(k)] || !e.limited()
	}
	for i, b := range n.Branches {
		if part := c.partOf(c.sources + i); !fed[part] && !c.returns[part] {
			return unfed(fmt.Sprintf("branches[%d].from_node", i), b.From)
		}
	}
	for i, l := range n.Loads {
		e := c.elements[c.sources+c.branches+i]
		part, back := c.part[e.from], c.part[e.to]
		switch {
		case !fed[part]:
			return unfed(fmt.Sprintf("loads[%d].node", i), l.Node)
		case back != part && !(c.returns[part] && (back < 0 || c.returns[back])):
			return &working.InputError{Field: fmt.Sprintf("loads[%d].return", i), Got: fmt.Sprintf("%q", returnOf(l.Return)),
				Want: "a node from which the current finds back to the sources of " + l.Node}
		case l.CurrentA.Decimal.IsNegative() && !battery[part]:
			return &working.InputError{Field: fmt.Sprintf("loads[%d].current_a", i), Got: l.CurrentA.Decimal.String(),
				Want: "0 or more where no battery, a source without limit, takes what a charger gives"}
		}
	}
	return nil
}

func unfed(field, node string) error {
	return &working.InputError{Field: field, Got: fmt.Sprintf("%q", node), Want: "a node that a source reaches"}
}
