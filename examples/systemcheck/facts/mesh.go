package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
)

// mesh is every run that lies on any way between two nodes, all switches closed:
// where there are two ways, both carry.
func (m *Facts) mesh(node, source string) []int {
	key := [2]string{node, source}
	all, _ := m.meshes.get(key, func() ([]int, error) {
		from, known := m.index[node]
		to, also := m.index[source]
		if !known || !also || from == to {
			return nil, nil
		}
		return newBlocks(m, from, to).find(), nil
	})
	return all
}

// blocks looks for the runs of which each lies on some way between two nodes that
// passes no node twice: those of the block, in the graph with a run between the two
// added, that holds the added one (Hopcroft and Tarjan).
type blocks struct {
	*Facts
	from, to int
	depth    []int // of a node, 1 first; 0: not met
	open     []int // runs not yet in a block
	found    []int
}

// added stands for the run between the two nodes.
const added = -1

func newBlocks(m *Facts, from, to int) *blocks {
	return &blocks{Facts: m, from: from, to: to, depth: make([]int, len(m.nodes))}
}

func (b *blocks) find() []int {
	b.walk(b.from, added-1, 1)
	slices.Sort(b.found)
	return b.found
}

// walk goes on from a node and returns the least depth that it leads back to.
func (b *blocks) walk(at, by, depth int) (low int) {
	b.depth[at], low = depth, depth
	for _, i := range b.touchingWith(at) {
		far := b.farOf(i, at)
		switch {
		case i == by:
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

// close takes a block off the open runs, and keeps it where it has the added one.
func (b *blocks) close(mark int) {
	if block := b.open[mark:]; slices.Contains(block, added) {
		b.found = slices.DeleteFunc(slices.Clone(block), func(i int) bool { return i == added })
	}
	b.open = b.open[:mark]
}

func (b *blocks) touchingWith(at int) []int {
	if at != b.from && at != b.to {
		return b.touching[at]
	}
	return append([]int{added}, b.touching[at]...)
}

func (b *blocks) farOf(i, at int) int {
	if i == added {
		return b.from + b.to - at
	}
	return b.Runs[i].between[0] + b.Runs[i].between[1] - at
}

// Cranked is every run that an engine's starter can draw through: on any way to any
// battery that is joined to it, by a selector or in a bank; not through a link that
// is usually open.
func (m *Facts) Cranked(l job.Load) []*Run {
	lies := make([]bool, len(m.Runs))
	for _, b := range m.Job.Batteries {
		if !m.Joined(l.At, b.Name) {
			continue
		}
		for _, i := range m.mesh(l.At, b.Name) {
			lies[i] = true
		}
	}
	var all []*Run
	for i, r := range m.Runs {
		if lies[i] {
			all = append(all, r)
		}
	}
	return all
}
