package wire

import (
	"maps"
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

// newElimination finds the order of the nodes once; it holds whatever the loads
// draw.
func newElimination(c *circuit) *elimination {
	e := &elimination{}
	beside := make([]map[int]int, len(c.nodes)) // neighbour: edge
	for i := range beside {
		if !c.fixed[i] {
			beside[i] = map[int]int{}
		}
	}
	for _, el := range c.elements {
		p := place{-1, -1}
		switch {
		case c.fixed[el.from] && c.fixed[el.to]:
		case c.fixed[el.from]:
			p.earth = el.to
		case c.fixed[el.to]:
			p.earth = el.from
		default:
			p.edge = e.join(beside, el.from, el.to)
		}
		e.place = append(e.place, p)
	}
	q := newByDegree(beside)
	for node, ok := q.next(beside); ok; node, ok = q.next(beside) {
		e.steps = append(e.steps, e.remove(beside, node, q))
	}
	return e
}

// join returns the edge between two nodes, new where there is none.
func (e *elimination) join(beside []map[int]int, i, j int) int {
	edge, ok := beside[i][j]
	if !ok {
		edge = e.edges
		e.edges++
		beside[i][j], beside[j][i] = edge, edge
	}
	return edge
}

// remove takes a node out of the pattern and joins its neighbours.
func (e *elimination) remove(beside []map[int]int, node int, q *byDegree) starMesh {
	s := starMesh{node: node}
	for _, far := range slices.Sorted(maps.Keys(beside[node])) {
		s.far, s.edge = append(s.far, far), append(s.edge, beside[node][far])
		delete(beside[far], node)
	}
	for b := range s.far {
		for a := range b {
			s.mesh = append(s.mesh, e.join(beside, s.far[a], s.far[b]))
		}
	}
	for _, far := range s.far {
		q.add(far, len(beside[far]))
	}
	beside[node] = nil
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
	edge, earth := make([]float64, e.edges), make([]float64, len(current))
	for k, p := range e.place {
		switch {
		case p.edge >= 0:
			edge[p.edge] += siemens[k]
		case p.earth >= 0:
			earth[p.earth] += siemens[k]
		}
	}
	x = slices.Clone(current)
	pivots := make([]float64, len(e.steps))
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

func newByDegree(beside []map[int]int) *byDegree {
	q := &byDegree{}
	for node := range beside {
		if beside[node] != nil {
			q.add(node, len(beside[node]))
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
func (q *byDegree) next(beside []map[int]int) (node int, ok bool) {
	for q.lowest < len(q.degree) {
		last := len(q.degree[q.lowest]) - 1
		if last < 0 {
			q.lowest++
			continue
		}
		node = q.degree[q.lowest][last]
		q.degree[q.lowest] = q.degree[q.lowest][:last]
		if beside[node] != nil && len(beside[node]) == q.lowest {
			return node, true
		}
	}
	return 0, false
}
