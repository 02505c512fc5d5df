package wire

import (
	"fmt"
	"math"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire/internal/nodal"
)

// circuit is a network in numbers, with the names of its nodes. It is what the
// solver works on.
type circuit struct {
	*nodal.Circuit
	nodes []string
	index map[string]int
}

// circuit turns a network that was checked into numbers.
func (n Network) circuit() (*circuit, error) {
	c := &circuit{index: make(map[string]int, len(n.Branches)+2)}
	elements := make([]nodal.Element, 0, len(n.Sources)+len(n.Branches)+len(n.Loads))
	c.at(CommonReturn)
	for _, s := range n.Sources {
		e := nodal.Element{From: c.at(s.Node), To: c.at(returnOf(s.Return)), EMF: s.EMFV.InexactFloat64(),
			Siemens: 1000 / s.Milliohm.InexactFloat64(), Limit: math.Inf(1)}
		if s.LimitA.Valid {
			e.Limit = s.LimitA.Decimal.InexactFloat64()
		}
		elements = append(elements, e)
	}
	for _, b := range n.Branches {
		elements = append(elements, nodal.Element{From: c.at(b.From), To: c.at(b.To), Siemens: 1000 / b.Milliohm.InexactFloat64()})
	}
	for _, l := range n.Loads {
		e := nodal.Element{From: c.at(l.Node), To: c.at(returnOf(l.Return)),
			Ampere: l.CurrentA.Decimal.InexactFloat64(), Watt: l.PowerW.Decimal.InexactFloat64()}
		if l.Ohm.Valid {
			e.Siemens = 1 / l.Ohm.Decimal.InexactFloat64()
		}
		elements = append(elements, e)
	}
	c.Circuit = nodal.New(len(c.nodes), elements, len(n.Sources), len(n.Branches))
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

// checkFed refuses a part that no source and no return belongs to, and a charger in constant current
// in a part where no battery takes what it gives.
func (c *circuit) checkFed(n Network) error {
	fed, battery := make([]bool, c.Parts), make([]bool, c.Parts)
	for k, e := range c.Elements[:c.Sources] {
		fed[c.PartOf(k)] = true
		battery[c.PartOf(k)] = battery[c.PartOf(k)] || !e.Limited()
	}
	for i, b := range n.Branches {
		if part := c.PartOf(c.Sources + i); !fed[part] && !c.Returns[part] {
			return unfed(fmt.Sprintf("branches[%d].from_node", i), b.From)
		}
	}
	for i, l := range n.Loads {
		e := c.Elements[c.Sources+c.Branches+i]
		part, back := c.Part[e.From], c.Part[e.To]
		switch {
		case !fed[part]:
			return unfed(fmt.Sprintf("loads[%d].node", i), l.Node)
		case back != part && !(c.Returns[part] && (back < 0 || c.Returns[back])):
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
