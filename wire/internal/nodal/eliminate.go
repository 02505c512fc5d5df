package nodal

import (
	"math"
	"slices"
)

// elimination solves a nodal network by turning one node after another from the
// star of its neighbours into a mesh between them, the node with the fewest
// neighbours first: a tree never gains a branch, so the work grows with the
// number of nodes. Conductances between nodes and to earth, the nodes held at
// 0 V, are kept apart, so that no difference of near-equal numbers is taken
// where all of them are positive.
type elimination struct {
	steps []starMesh
	place []place // of each element
	edges int     // between nodes, those gained included
	held  []int   // the nodes at 0 V

	edge, earth, pivots []float64 // room for solve to work in
}

// starMesh is the removal of one node.
type starMesh struct {
	node int
	far  []int // its neighbours then
	edge []int // the edge to each
	mesh []int // the edge between each pair of them: (0,1), (0,2), (1,2), ...
}

// place is where an element's conductance goes: to an edge, or to a node's
// conductance to earth; -1 for neither.
type place struct{ edge, earth int }

// pattern is which nodes are neighbours while one after another goes.
type pattern struct {
	links  [][]link // of each node, also those to neighbours that are gone
	degree []int    // of each node: how many neighbours are left; -1: it is gone itself, or held at 0 V
}

// link leads to a neighbour.
type link struct{ far, edge int }

// newElimination finds the order of the nodes once; it holds whatever the loads
// draw.
func newElimination(c *Circuit) *elimination {
	e := &elimination{place: make([]place, len(c.Elements)), steps: make([]starMesh, 0, len(c.Fixed))}
	p := pattern{make([][]link, len(c.Fixed)), make([]int, len(c.Fixed))}
	for i, held := range c.Fixed {
		if held {
			p.degree[i] = -1
			e.held = append(e.held, i)
		}
	}
	for k, el := range c.Elements {
		e.place[k] = place{-1, -1}
		switch {
		case c.Fixed[el.From] && c.Fixed[el.To]:
		case c.Fixed[el.From]:
			e.place[k].earth = el.To
		case c.Fixed[el.To]:
			e.place[k].earth = el.From
		default:
			e.place[k].edge = e.join(p, el.From, el.To)
		}
	}
	q := newByDegree(p)
	for node, ok := q.next(p); ok; node, ok = q.next(p) {
		e.steps = append(e.steps, e.remove(p, node, q))
	}
	e.earth = make([]float64, len(c.Fixed))
	return e.again()
}

// again is the same order with room of its own to work in.
func (e *elimination) again() *elimination {
	own := *e
	own.edge, own.earth, own.pivots = make([]float64, e.edges), make([]float64, len(e.earth)), make([]float64, len(e.steps))
	return &own
}

// join returns the edge between two nodes, new where there is none.
func (e *elimination) join(p pattern, i, j int) int {
	if len(p.links[j]) < len(p.links[i]) {
		i, j = j, i
	}
	for _, l := range p.links[i] {
		if l.far == j {
			return l.edge
		}
	}
	edge := e.edges
	e.edges++
	p.links[i], p.links[j] = append(p.links[i], link{j, edge}), append(p.links[j], link{i, edge})
	p.degree[i]++
	p.degree[j]++
	return edge
}

// remove takes a node out of the pattern and joins its neighbours.
func (e *elimination) remove(p pattern, node int, q *byDegree) starMesh {
	left := slices.DeleteFunc(p.links[node], func(l link) bool { return p.degree[l.far] < 0 })
	slices.SortFunc(left, func(a, b link) int { return a.far - b.far })
	ends := make([]int, 2*len(left))
	s := starMesh{node: node, far: ends[:len(left)], edge: ends[len(left):]}
	for i, l := range left {
		s.far[i], s.edge[i] = l.far, l.edge
		p.degree[l.far]--
	}
	p.degree[node] = -1
	for b := range s.far {
		for a := range b {
			s.mesh = append(s.mesh, e.join(p, s.far[a], s.far[b]))
		}
	}
	for _, far := range s.far {
		q.add(far, p.degree[far])
	}
	return s
}

// leastLack is a current that counts as none, in A: a hundredth of what the
// answers are held to.
const leastLack = 1e-8

// solve returns the voltages at which the elements' conductances draw the
// current of each node; ok tells whether there are any and a step towards them
// leads down, that is, whether no pivot is below nought. Nodes that no
// conductance holds stay where they are if they have no current. If they have,
// floats says so, and the answer is where they drift: 1 up, -1 down, 0 for all
// nodes that are held.
func (e *elimination) solve(siemens, current []float64) (x []float64, floats, ok bool) {
	edge, earth, pivots := e.edge, e.earth, e.pivots
	clear(edge)
	clear(earth)
	clear(pivots)
	for k, p := range e.place {
		switch {
		case p.edge >= 0:
			edge[p.edge] += siemens[k]
		case p.earth >= 0:
			earth[p.earth] += siemens[k]
		}
	}
	x = slices.Clone(current)
	for k, s := range e.steps {
		sum, held := earth[s.node], earth[s.node] != 0
		for _, n := range s.edge {
			sum += edge[n]
			held = held || edge[n] != 0
		}
		switch {
		case !held:
			continue
		case !(sum > 0):
			return nil, false, false
		}
		pivots[k] = sum
		m := 0
		for b, far := range s.far {
			share := edge[s.edge[b]] / sum
			earth[far] += share * earth[s.node]
			x[far] += share * x[s.node]
			for a := range b {
				edge[s.mesh[m]] += share * edge[s.edge[a]]
				m++
			}
		}
	}
	floats = e.drift(x, pivots)
	for k, s := range slices.Backward(e.steps) {
		sum := x[s.node]
		if pivots[k] == 0 {
			continue
		}
		for b, far := range s.far {
			sum += edge[s.edge[b]] * x[far]
		}
		x[s.node] = sum / pivots[k]
	}
	return x, floats, true
}

// drift keeps the nodes without a pivot where they are if none of them has a
// current. Else it leaves of all currents only the signs of theirs.
func (e *elimination) drift(x, pivots []float64) (floats bool) {
	for k, s := range e.steps {
		floats = floats || pivots[k] == 0 && math.Abs(x[s.node]) > leastLack
	}
	for k, s := range e.steps {
		switch {
		case pivots[k] == 0 && math.Abs(x[s.node]) > leastLack:
			x[s.node] = math.Copysign(1, x[s.node])
		case pivots[k] == 0 || floats:
			x[s.node] = 0
		}
	}
	return floats
}

// byDegree hands out the nodes, those with the fewest neighbours first. A node
// stands in it once for each change of its degree; what is stale is skipped.
type byDegree struct {
	degree [][]int // nodes that had that many neighbours when they were added
	lowest int
}

func newByDegree(p pattern) *byDegree {
	q := &byDegree{}
	for node, degree := range p.degree {
		if degree >= 0 {
			q.add(node, degree)
		}
	}
	return q
}

func (q *byDegree) add(node, degree int) {
	for len(q.degree) <= degree {
		q.degree = append(q.degree, nil)
	}
	q.degree[degree] = append(q.degree[degree], node)
	q.lowest = min(q.lowest, degree)
}

// next returns a node with the fewest neighbours; not ok where none is left.
func (q *byDegree) next(p pattern) (node int, ok bool) {
	for q.lowest < len(q.degree) {
		last := len(q.degree[q.lowest]) - 1
		if last < 0 {
			q.lowest++
			continue
		}
		node = q.degree[q.lowest][last]
		q.degree[q.lowest] = q.degree[q.lowest][:last]
		if p.degree[node] == q.lowest {
			return node, true
		}
	}
	return 0, false
}
