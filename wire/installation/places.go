package installation

import "slices"

// place is where circuits with switches lie side by side between two nodes: they
// open and close together.
type place struct {
	circuits    []int
	usuallyOpen bool
	links       bool // opened, it leaves a battery and something to feed on either side
}

// findPlaces finds them. One with a circuit beside it that has no switch opens
// nothing.
func (p *plan) findPlaces() []place {
	at := map[[2]int]int{}
	var all []place
	for i, c := range p.in.Circuits {
		key := [2]int{min(p.wires[i][0], p.wires[i][1]), max(p.wires[i][0], p.wires[i][1])}
		k, ok := at[key]
		if !ok {
			k = len(all)
			at[key] = k
			all = append(all, place{usuallyOpen: true})
		}
		all[k].circuits = append(all[k].circuits, i)
		all[k].usuallyOpen = all[k].usuallyOpen && c.Switch == UsuallyOpen
	}
	all = slices.DeleteFunc(all, func(x place) bool {
		return slices.ContainsFunc(x.circuits, func(i int) bool { return p.in.Circuits[i].Switch == AlwaysClosed })
	})
	for i := range all {
		all[i].links = p.divides(all[i])
	}
	return all
}

// divides reports whether a place, opened, leaves a battery and something to feed
// on either side: else it is a battery's own switch, or a load's.
func (p *plan) divides(x place) bool {
	open := func(i int) bool { return slices.Contains(x.circuits, i) }
	ends := p.wires[x.circuits[0]]
	one, other := p.walk(ends[:1], open), p.walk(ends[1:], open)
	return !one[ends[1]] && p.serves(one) && p.serves(other)
}

// findSides finds which batteries are joined with every link open.
func (p *plan) findSides() []int {
	open := func(i int) bool {
		k := p.placeOf(i)
		return k >= 0 && (p.places[k].links || p.places[k].usuallyOpen)
	}
	sides := make([]int, len(p.in.Batteries))
	for i := range sides {
		met := p.walk([]int{p.feeders[i][0]}, open)
		sides[i] = slices.IndexFunc(p.feeders, func(f [2]int) bool { return met[f[0]] })
	}
	return sides
}

// serves reports whether there are a battery and something to feed among some
// nodes.
func (p *plan) serves(nodes []bool) bool {
	battery := slices.ContainsFunc(p.feeders[:len(p.in.Batteries)], func(f [2]int) bool { return nodes[f[0]] })
	feeds := slices.ContainsFunc(p.draws, func(d [2]int) bool { return nodes[d[0]] }) ||
		slices.ContainsFunc(p.inputs, func(node int) bool { return node > 0 && nodes[node] })
	for i, s := range p.in.Sources {
		feeds = feeds || s.OwnLoadsA.Valid && nodes[p.feeders[len(p.in.Batteries)+i][0]]
	}
	return battery && feeds
}

// opened lists the circuits whose switches stand open in a case.
func (p *plan) opened(c Case) []bool {
	open := make([]bool, len(p.lines))
	for _, x := range p.places {
		name := p.in.Circuits[x.circuits[0]].Name
		stands := x.usuallyOpen && name != c.Closed && !c.AllClosed || name == c.Open
		for _, i := range x.circuits {
			open[i] = stands
		}
	}
	return open
}

// placeOf is that of a circuit's switch; -1 where it opens nothing.
func (p *plan) placeOf(circuit int) int {
	return slices.IndexFunc(p.places, func(x place) bool { return slices.Contains(x.circuits, circuit) })
}
