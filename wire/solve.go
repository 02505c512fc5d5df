package wire

import (
	"errors"
	"math"
)

var errUnsettled = errors.New("the network did not settle")

// solver walks from the unloaded voltages down to those at which the currents
// at every node sum to nought.
//
// Let F be what is drawn at each node less what reaches it. With one line for
// both poles, voltages with F ≥ 0 everywhere are too high. F is convex (P ÷ U
// is, and so is a source at its limit), so a Newton step from such voltages
// leads down, ends at such voltages again and never below the answer. A pivot
// or a load's voltage that falls to nought therefore proves that there is no
// answer. The one concave corner is a limited source that wakes as the voltage
// sinks to its own: the step ends there and the source counts from then on.
type solver struct {
	*circuit
	e     *elimination
	v     []float64
	awake []bool // of each element; only a limited source can be asleep
	scale float64
}

// solve returns the voltage of every node, or the node at which it shows that
// no operating point exists (-1: one does).
func (c *circuit) solve() (v []float64, collapsed int, err error) {
	s := &solver{circuit: c, e: newElimination(c), v: make([]float64, len(c.nodes))}
	s.unload()
	const most = 500
	last := math.Inf(1)
	for range most {
		if low := s.dead(); low >= 0 {
			return nil, low, nil
		}
		lack, slope := s.lack()
		step, pivot := s.e.solve(slope, lack)
		newton := pivot < 0
		if !newton {
			step, pivot = s.slower(lack, slope)
		}
		if pivot >= 0 {
			if s.balanced(lack) {
				return s.v, -1, nil
			}
			return nil, s.blame(pivot), nil
		}
		moved, whole := s.move(step)
		if whole && (moved <= 1e-14*s.scale || newton && moved <= 1e-8*s.scale && moved > 0.9*last) {
			return s.v, -1, nil
		}
		last = moved
	}
	return nil, -1, errUnsettled
}

// unload finds the voltages with every load off, chargers in constant current
// at work and no source limited. A limited source that would then take current
// sleeps; the highest of a part never does.
func (s *solver) unload() {
	s.awake = make([]bool, len(s.elements))
	for k := range s.awake {
		s.awake[k] = true
	}
	for again := true; again; {
		siemens, current := make([]float64, len(s.elements)), make([]float64, len(s.nodes))
		for k, e := range s.elements {
			push := math.Max(0, -e.ampere)
			if s.awake[k] && k < s.sources+s.branches {
				siemens[k] = e.siemens
				push += e.siemens * e.emf
			}
			current[e.from] += push
			current[e.to] -= push
		}
		s.clear(current)
		s.v, _ = s.e.solve(siemens, current)
		again = false
		for k, e := range s.elements {
			if s.awake[k] && e.limited() && s.across(e) > e.emf*(1+1e-12) {
				s.awake[k], again = false, true
			}
		}
	}
	for i := range s.v {
		s.scale = math.Max(s.scale, math.Abs(s.v[i]))
	}
}

// clear takes the nodes held at 0 V out of a list of currents.
func (s *solver) clear(current []float64) {
	for i := range current {
		if s.fixed[i] {
			current[i] = 0
		}
	}
}

// across is the voltage between the two ends of an element.
func (s *solver) across(e element) float64 { return s.v[e.from] - s.v[e.to] }

// lack returns the current that each node lacks, and how each element's current
// grows with its voltage.
func (s *solver) lack() (current, slope []float64) {
	current, slope = make([]float64, len(s.nodes)), make([]float64, len(s.elements))
	for k, e := range s.elements {
		i, g := e.through(s.across(e), s.awake[k])
		current[e.from] -= i
		current[e.to] += i
		slope[k] = g
	}
	s.clear(current)
	return current, slope
}

// slower returns the step that counts sleeping sources as if they gave already.
// It is shorter and still ends at voltages that are too high; it serves where
// those awake cannot carry the loads alone.
func (s *solver) slower(lack, slope []float64) (step []float64, pivot int) {
	for k, e := range s.elements {
		if !s.awake[k] {
			slope[k] = e.siemens
		}
	}
	return s.e.solve(slope, lack)
}

// move takes the step, or as much of it as wakes the first sleeping source, and
// returns the longest move of a voltage and whether the step was taken whole.
func (s *solver) move(step []float64) (moved float64, whole bool) {
	part, wakes := 1.0, -1
	for k, e := range s.elements[:s.sources] {
		falls := step[e.from] - step[e.to]
		if s.awake[k] || s.across(e)+falls >= e.emf {
			continue
		}
		if p := (e.emf - s.across(e)) / falls; wakes < 0 || p < part {
			part, wakes = p, k
		}
	}
	for i := range s.v {
		s.v[i] += part * step[i]
		moved = math.Max(moved, math.Abs(part*step[i]))
	}
	if wakes >= 0 {
		s.awake[wakes] = true
	}
	return moved, wakes < 0
}

// balanced reports whether the currents sum to nought as well as they can: at
// the very edge of collapse a pivot may come out as nought.
func (s *solver) balanced(lack []float64) bool {
	through := 0.0
	for k, e := range s.elements {
		i, _ := e.through(s.across(e), s.awake[k])
		through = math.Max(through, math.Abs(i))
	}
	for _, i := range lack {
		if math.Abs(i) > 1e-9*through {
			return false
		}
	}
	return true
}

// dead returns the node of a load that has no voltage left, or -1.
func (s *solver) dead() int {
	for _, e := range s.elements {
		if e.draws() && s.across(e) <= 0 {
			return e.from
		}
	}
	return -1
}

// blame names the node of a collapse: the one where it showed if a load is
// there, else that of the lowest load, of the same part if it has any.
func (s *solver) blame(pivot int) int {
	best := -1
	for k, e := range s.elements {
		switch {
		case !e.draws():
		case e.from == pivot:
			return pivot
		case best < 0 || s.blames(k, best, pivot):
			best = k
		}
	}
	if best < 0 {
		return pivot
	}
	return s.elements[best].from
}

// blames reports whether load a stands nearer to a collapse than load b.
func (s *solver) blames(a, b, pivot int) bool {
	nearA, nearB := s.partOf(a) == s.part[pivot], s.partOf(b) == s.part[pivot]
	if nearA != nearB {
		return nearA
	}
	return s.across(s.elements[a]) < s.across(s.elements[b])
}
