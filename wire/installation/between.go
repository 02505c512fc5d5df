package installation

import (
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
)

// Between returns the circuits that lie on any way between two nodes which passes no node
// twice, every switch closed: where there are two ways, both carry. They come in the order
// of the installation; none where no circuit joins the two. A way over the common return
// is none. Source: the blocks of a graph (Hopcroft and Tarjan 1973, from memory).
func (s *Solved) Between(one, other string) ([]string, error) {
	from, err := s.node(one)
	if err != nil {
		return nil, err
	}
	to, err := s.node(other)
	if err != nil {
		return nil, err
	}
	if from == to {
		return nil, &working.InputError{Field: "node", Got: fmt.Sprintf("%.60q twice", one), Want: "two nodes"}
	}
	b := &blocks{plan: s.plan, from: from, to: to, depth: make([]int, len(s.plan.nodes))}
	b.walk(from, none, 1)
	slices.Sort(b.found)
	var names []string
	for _, i := range b.found {
		names = append(names, s.plan.in.Circuits[i].Name)
	}
	return names, nil
}

// blocks looks for the circuits of the block, in the graph with a circuit between the
// two nodes added, that holds the added one.
type blocks struct {
	*plan
	from, to int
	depth    []int // of a node, 1 first; 0: not met
	open     []int // circuits not yet in a block
	found    []int
}

const (
	added = -1 // the circuit between the two nodes
	none  = -2
)

// walk goes on from a node and returns the least depth that it leads back to.
func (b *blocks) walk(at, by, depth int) (low int) {
	b.depth[at], low = depth, depth
	for _, i := range b.leaving(at) {
		far := b.farOf(i, at)
		switch {
		case i == by || far == 0:
		case b.depth[far] == 0:
			mark := len(b.open)
			b.open = append(b.open, i)
			back := b.walk(far, i, depth+1)
			if low = min(low, back); back >= depth {
				b.close(mark)
			}
		case b.depth[far] < depth:
			b.open = append(b.open, i)
			low = min(low, b.depth[far])
		}
	}
	return low
}

// close takes a block off the open circuits, and keeps it where it has the added one.
func (b *blocks) close(mark int) {
	if block := b.open[mark:]; slices.Contains(block, added) {
		b.found = slices.DeleteFunc(slices.Clone(block), func(i int) bool { return i == added })
	}
	b.open = b.open[:mark]
}

func (b *blocks) leaving(at int) []int {
	if at != b.from && at != b.to {
		return b.touching[at]
	}
	return append([]int{added}, b.touching[at]...)
}

func (b *blocks) farOf(i, at int) int {
	if i == added {
		return b.from + b.to - at
	}
	return b.other(i, at)
}
