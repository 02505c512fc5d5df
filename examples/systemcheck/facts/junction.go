package facts

import (
	"slices"
)

// junction is the two sides of a switch while it is open, each with a battery.
type junction struct{ from, to map[string]bool }

// junctions finds what a switch joins as it closes: with every other switch closed
// before it that can be, as of a battery's own isolator, and with every other one
// open, as of two links side by side.
func (m *Facts) junctions(r *Run) []junction {
	var all []junction
	for _, shut := range m.shutBefore(r) {
		j := junction{m.Side(r.From, shut), m.Side(r.To, shut)}
		if !j.from[r.To] && len(m.banksOn(j.from)) > 0 && len(m.banksOn(j.to)) > 0 {
			all = append(all, j)
		}
	}
	return all
}

// shutBefore are the ways in which the other switches may stand as one closes. Where
// all of them closed join its ends already, as many are closed as do not, once from
// the first in the file on and once from the last: which of several in one line stays
// open decides on which side a battery between them is.
func (m *Facts) shutBefore(r *Run) []func(*Run, string) bool {
	standing := func(open map[*Run]bool) func(*Run, string) bool {
		return func(x *Run, _ string) bool { return x != r && !open[x] }
	}
	others := map[*Run]bool{}
	var switches []*Run
	for _, x := range m.Runs {
		if x != r && x.Switch != nil {
			others[x], switches = true, append(switches, x)
		}
	}
	none := standing(nil)
	if !m.Side(r.From, none)[r.To] {
		return []func(*Run, string) bool{none, standing(others)}
	}
	backwards := slices.Clone(switches)
	slices.Reverse(backwards)
	return []func(*Run, string) bool{standing(m.leftOpen(r, switches)), standing(m.leftOpen(r, backwards)), standing(others)}
}

// leftOpen closes switches one after another unless that joins the ends of a run, and
// returns those that stay open.
func (m *Facts) leftOpen(r *Run, switches []*Run) map[*Run]bool {
	parts := m.part(func(x *Run) bool { return x != r && x.Switch == nil })
	joined := map[int]int{} // part to another that it has become one with
	root := func(node string) int {
		part := parts[node]
		for joined[part] > 0 {
			part = joined[part]
		}
		return part
	}
	open := map[*Run]bool{}
	for _, x := range switches {
		a, b, from, to := root(x.From), root(x.To), root(r.From), root(r.To)
		switch {
		case a == b:
		case a == from && b == to, a == to && b == from:
			open[x] = true
		default:
			joined[a] = b
		}
	}
	return open
}
