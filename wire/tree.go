package wire

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"
)

// tree leads from the nodes at 0 V to every other node.
type tree struct {
	order []int // every node after the one that it is reached from
	by    []int // the element that leads to each node; -1 at a node held at 0 V
}

// span builds the tree over the sources and branches of least resistance: a
// current's last decimal place then does least to the voltages. A source at its
// limit or idle does not say what its voltage is and comes last.
func (c *circuit) span(flows []flow) tree {
	links := make([]int, c.Sources+c.Branches)
	for k := range links {
		links[k] = k
	}
	slices.SortStableFunc(links, func(a, b int) int {
		if vague := flows[a].vague(); vague != flows[b].vague() {
			if vague {
				return 1
			}
			return -1
		}
		return cmp.Compare(c.Elements[b].Siemens, c.Elements[a].Siemens)
	})
	at, joined := make([][]int, len(c.nodes)), newSets(len(c.nodes))
	for i, held := range c.Fixed {
		if held {
			joined.join(0, i)
		}
	}
	for _, k := range links {
		e := c.Elements[k]
		if joined.join(e.From, e.To) {
			at[e.From], at[e.To] = append(at[e.From], k), append(at[e.To], k)
		}
	}
	return c.grow(at)
}

// grow walks over the links at each node from the nodes at 0 V.
func (c *circuit) grow(at [][]int) tree {
	t := tree{by: make([]int, len(c.nodes)), order: make([]int, 0, len(c.nodes))}
	for i, held := range c.Fixed {
		if held {
			t.by[i] = -1
			t.order = append(t.order, i)
		}
	}
	for done := 0; done < len(t.order); done++ {
		node := t.order[done]
		for _, k := range at[node] {
			if k != t.by[node] {
				far := c.Elements[k].Other(node)
				t.by[far] = k
				t.order = append(t.order, far)
			}
		}
	}
	return t
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

// join joins two nodes and reports whether they were not joined yet.
func (s sets) join(a, b int) bool {
	a, b = s.last(a), s.last(b)
	s[a] = b
	return a != b
}

// last is the node that stands for all those joined to one.
func (s sets) last(node int) int {
	for s[node] != node {
		s[node] = s[s[node]]
		node = s[node]
	}
	return node
}

// close sets the currents along the tree so that every node sums to nought.
func (c *circuit) close(t tree, flows []flow) {
	along := make([]bool, len(flows))
	for _, k := range t.by {
		if k >= 0 {
			along[k] = true
		}
	}
	away := make([]decimal.Decimal, len(c.nodes)) // what leaves each node otherwise
	for k, e := range c.Elements {
		if !along[k] {
			away[e.From], away[e.To] = away[e.From].Add(flows[k].ampere), away[e.To].Sub(flows[k].ampere)
		}
	}
	for _, node := range slices.Backward(t.order) {
		k := t.by[node]
		if k < 0 {
			continue
		}
		e := c.Elements[k]
		flows[k].ampere = away[node]
		if e.From == node {
			flows[k].ampere = away[node].Neg()
		}
		away[e.Other(node)] = away[e.Other(node)].Add(away[node])
	}
}
