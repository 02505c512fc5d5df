package wire

import (
	"errors"
	"math"
	"slices"
)

var errUnsettled = errors.New("the network did not settle")

// solver finds the voltages at which the currents at every node sum to nought.
//
// An element's current depends on the voltage across it alone. Let Φ be the sum
// over all elements of ∫ i du: its slope at a node is F, what is drawn there
// less what reaches it. The currents balance where Φ is level, and the network
// stays there if that is a hollow: beside it, the voltages run back into it.
// The voltages sink into a hollow by Newton's steps, each no longer than it
// leads down, so that no step can undo another.
//
// Without constant power every current grows with its voltage. Φ is then convex
// and has one hollow, or none, where constant currents ask for more than
// limited sources give. Constant powers are switched on from there.
//
// Where all returns are at 0 V, voltages with F ≥ 0 everywhere lie above every
// operating point, and a step down from them that halts where a limited source
// wakes ends at such voltages again: P ÷ U and a source at its limit are convex,
// and only the waking is not. A load whose voltage falls to nought on that way
// therefore proves that there is no operating point.
type solver struct {
	*circuit
	e     *elimination
	v     []float64
	power float64 // the part of every constant power that is switched on
	scale float64 // the highest voltage without constant powers
}

// solve returns the voltage of every node, or the node at which it shows that
// no operating point exists (-1: one does).
func (c *circuit) solve() (v []float64, collapsed int, err error) {
	s := &solver{circuit: c, e: newElimination(c)}
	s.start()
	collapsed, err = s.settle()
	if err == nil && collapsed < 0 {
		collapsed, err = s.switchOn()
	}
	if err == nil && collapsed < 0 {
		collapsed = s.starved(func(e element) bool { return e.ampere > 0 })
	}
	return s.v, collapsed, err
}

// start finds the voltages without constant powers, as if no source were
// limited.
func (s *solver) start() {
	siemens, current := make([]float64, len(s.elements)), make([]float64, len(s.nodes))
	for k, e := range s.elements {
		siemens[k] = e.siemens
		push := e.siemens*e.emf - e.ampere
		current[e.from] += push
		current[e.to] -= push
	}
	s.clear(current)
	s.v, _, _ = s.e.solve(siemens, current)
}

// switchOn switches the constant powers on, at once if that goes well and else
// little by little: where returns have voltages of their own, loads can hold
// each other up that fall one by one.
func (s *solver) switchOn() (collapsed int, err error) {
	least := 1.0 / 1024
	if s.oneLine() {
		least = 1
	}
	for i := range s.v {
		s.scale = math.Max(s.scale, math.Abs(s.v[i]))
	}
	for more := 1.0; s.power < 1; {
		before, on := slices.Clone(s.v), s.power
		s.power = math.Min(1, on+more)
		collapsed, err = s.settle()
		if err == nil && collapsed < 0 {
			more *= 2
			continue
		}
		s.v, s.power = before, on
		if more /= 2; more < least {
			return collapsed, err
		}
	}
	return -1, nil
}

// oneLine reports whether all sources and loads return to 0 V.
func (s *solver) oneLine() bool {
	for k, e := range s.elements {
		if !s.fixed[e.to] && (k < s.sources || k >= s.sources+s.branches) {
			return false
		}
	}
	return true
}

// settle lets the voltages sink until the currents balance and the steps get no
// shorter. It returns the node of a load that has no voltage left, or -1.
func (s *solver) settle() (collapsed int, err error) {
	last := math.Inf(1)
	for range 200 + 20*s.sources {
		if node := s.starved(func(e element) bool { return e.watt*s.power > 0 }); node >= 0 {
			return node, nil
		}
		lack, balanced := s.lack()
		step, floats, whole := s.newton(lack)
		size := largest(step)
		if balanced && (!whole || size > 0.9*last || size == 0) {
			return -1, nil
		}
		last = size; if debug {println(size, balanced, whole, s.power, largest(lack), s.v[1],s.v[2])}
		part := s.part(step)
		for i := range s.v {
			s.v[i] += part * step[i]
		}
		if floats && part == 1 {
			return s.farthest(), nil
		}
	}
	return -1, errUnsettled
}

// lack returns the current that each node lacks, and whether that is no more
// than rounding at every node.
func (s *solver) lack() (current []float64, balanced bool) {
	current = make([]float64, len(s.nodes))
	rounding := make([]float64, len(s.nodes))
	for _, e := range s.elements {
		i, _ := e.through(s.across(e), s.power)
		current[e.from] -= i
		current[e.to] += i
		r := 4 * epsilon * (math.Abs(i) + e.siemens*(math.Abs(s.v[e.from])+math.Abs(s.v[e.to])))
		rounding[e.from] += r
		rounding[e.to] += r
	}
	s.clear(current)
	for i := range current {
		if math.Abs(current[i]) > leastLack+rounding[i] {
			return current, false
		}
	}
	return current, true
}

// epsilon is the step between 1 and the next float64.
const epsilon = 0x1p-52

// newton returns the step at whose end the currents would balance if each grew
// on as it does here. Where that leads up to a crest of Φ and not down, less is
// counted of what constant powers draw more as their voltages fall, as little
// less as will do; whole says that all of it is.
func (s *solver) newton(lack []float64) (step []float64, floats, whole bool) {
	if step, floats, whole = s.counting(1, lack); whole {
		return step, floats, true
	}
	step, floats, _ = s.counting(0, lack)
	for less := 0.5; less > 1e-6; less /= 2 {
		longer, far, ok := s.counting(1-less, lack)
		if !ok {
			break
		}
		step, floats = longer, far
	}
	return step, floats, false
}

// counting returns the step that counts a share of what constant powers draw
// more; ok says that it leads down.
func (s *solver) counting(share float64, lack []float64) (step []float64, floats, ok bool) {
	slope := make([]float64, len(s.elements))
	for k, e := range s.elements {
		_, slope[k] = e.through(s.across(e), s.power)
		if e.watt > 0 {
			slope[k] *= share
		}
	}
	return s.e.solve(slope, lack)
}

// part returns how much of a step to take: all that leads down, but no
// constant power loses more than three quarters of its voltage, and while they
// are on it halts just below the voltage at which a sleeping source wakes.
func (s *solver) part(step []float64) float64 {
	part := 1.0
	for _, e := range s.elements {
		u, falls := s.across(e), step[e.to]-step[e.from]
		wake := e.emf - 1e-12*s.scale
		switch {
		case s.power == 0 || falls <= 0:
		case e.watt > 0:
			part = math.Min(part, 0.75*u/falls)
		case e.limited() && u >= e.emf && u-part*falls < wake:
			part = (u - wake) / falls
		}
	}
	if s.pull(step, part) <= 0 {
		return part
	}
	enough := 0.1 * s.pull(step, 0)
	low, high := 0.0, part
	for range 100 {
		middle := (low + high) / 2
		switch pull := s.pull(step, middle); {
		case pull > 0:
			high = middle
		case pull >= enough:
			return middle
		default:
			low = middle
		}
	}
	return low
}

// pull is the slope of Φ along a step after a part of it: below nought as long
// as it leads down.
func (s *solver) pull(step []float64, part float64) float64 {
	sum := 0.0
	for _, e := range s.elements {
		along := step[e.from] - step[e.to]
		i, _ := e.through(s.across(e)+part*along, s.power)
		sum += i * along
	}
	return sum
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

// starved returns the node of a load of that kind that has no voltage left, or
// -1.
func (s *solver) starved(kind func(element) bool) int {
	for _, e := range s.elements {
		if kind(e) && s.across(e) <= 1e-9*s.scale {
			return e.from
		}
	}
	return -1
}

// farthest is the node of the load with the highest voltage of either sign: of
// those that asked for more than there is.
func (s *solver) farthest() int {
	node, most := 0, 0.0
	for _, e := range s.elements[s.sources+s.branches:] {
		if u := math.Abs(s.across(e)); u > most {
			node, most = e.from, u
		}
	}
	return node
}

// largest is the greatest magnitude of a list.
func largest(list []float64) float64 {
	most := 0.0
	for _, x := range list {
		most = math.Max(most, math.Abs(x))
	}
	return most
}
