package nodal

import (
	"errors"
	"math"
	"slices"
)

// ErrUnsettled: no end was found of a search that should have one.
var ErrUnsettled = errors.New("the network did not settle")

// solver finds the voltages at which the currents at every node sum to nought.
//
// An element's current depends on the voltage across it alone. Let Φ be the sum
// over all elements of ∫ i du: its slope at a node is F, what is drawn there
// less what reaches it. The currents balance where Φ is level, and the network
// stays there if that is a hollow: beside it, the voltages run back into it.
// The voltages sink into a hollow by Newton's steps. Each halts where a source
// that gave nothing, or its limit, starts to follow the voltage: up to there no
// current grows faster than the step counts on, and so it leads down all the way.
//
// Without constant power every current grows with its voltage. Φ is then convex
// and has one hollow, or none, where constant currents ask for more than
// limited sources give. Constant powers are switched on from there.
//
// Where all returns are at 0 V, voltages with F ≥ 0 everywhere lie above every
// operating point, and a step down from them that halts where a limited source
// wakes ends at such voltages again: P ÷ U and a source at its limit are convex,
// and only the waking is not. A load whose voltage falls to nought on that way
// therefore proves that there is no operating point. Where returns have voltages
// of their own, a constant power may rise, and its current fall faster than
// counted on: there the descent is what works in practice, and no proof.
type solver struct {
	*Circuit
	e     *elimination
	v     []float64
	power float64 // the part of every constant power that is switched on
	scale float64 // the highest EMF or voltage at the start
	far   float64 // no constant current drives a node as far: 100 times all EMFs in series

	slope, balance []float64 // room to work in
}

// Solve returns the voltage of every node, or the node at which it shows that
// no operating point exists (-1: one does).
func (c *Circuit) Solve() (v []float64, collapsed int, err error) {
	c.Prepare()
	s := &solver{Circuit: c, e: c.order, slope: make([]float64, len(c.Elements)), balance: make([]float64, 2*len(c.Fixed))}
	s.start()
	collapsed, err = s.settle()
	if err == nil && collapsed < 0 {
		collapsed, err = s.switchOn()
	}
	if err == nil && collapsed < 0 {
		collapsed = s.starved(func(e Element) bool { return e.Ampere > 0 })
	}
	return s.v, collapsed, err
}

// start finds the voltages without constant powers, as if no source were
// limited.
func (s *solver) start() {
	siemens, current := make([]float64, len(s.Elements)), make([]float64, len(s.Fixed))
	for k, e := range s.Elements {
		s.scale, s.far = math.Max(s.scale, e.EMF), s.far+100*e.EMF
		siemens[k] = e.Siemens
		push := e.Siemens*e.EMF - e.Ampere
		current[e.From] += push
		current[e.To] -= push
	}
	s.clear(current)
	s.v, _, _ = s.e.solve(siemens, current)
	s.scale = math.Max(s.scale, largest(s.v))
}

// switchOn switches the constant powers on, at once if that goes well and else
// little by little: where returns have voltages of their own, loads can hold
// each other up that fall one by one.
func (s *solver) switchOn() (collapsed int, err error) {
	least := 1.0 / 1024
	if s.oneLine() {
		least = 1
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
	for k, e := range s.Elements {
		if !s.Fixed[e.To] && (k < s.Sources || k >= s.Sources+s.Branches) {
			return false
		}
	}
	return true
}

// settle lets the voltages sink until the currents balance and the steps get no
// shorter. It returns the node of a load that has no voltage left, or whose
// current nothing brings, or -1.
func (s *solver) settle() (collapsed int, err error) {
	last := math.Inf(1)
	for range 200 + 20*s.Sources {
		if node := s.starved(func(e Element) bool { return e.Watt*s.power > 0 }); node >= 0 {
			return node, nil
		}
		lack, balanced := s.lack()
		step, floats, whole := s.newton(lack)
		size := largest(step)
		if balanced && (floats || !whole || size > 0.9*last || size <= epsilon*s.scale) {
			return -1, nil
		}
		last = size
		part := s.halt(step, floats)
		if math.IsInf(part, 1) {
			return s.asking(step), nil
		}
		for i := range s.v {
			s.v[i] += part * step[i]
		}
		if largest(s.v) > s.far {
			return s.asking(s.v), nil
		}
	}
	return -1, ErrUnsettled
}

// lack returns the current that each node lacks, and whether that is no more
// than rounding at every node.
func (s *solver) lack() (current []float64, balanced bool) {
	clear(s.balance)
	current, rounding := s.balance[:len(s.Fixed)], s.balance[len(s.Fixed):]
	for _, e := range s.Elements {
		i, _ := e.Through(s.across(e), s.power)
		current[e.From] -= i
		current[e.To] += i
		r := 4 * epsilon * (math.Abs(i) + e.Siemens*(math.Abs(s.v[e.From])+math.Abs(s.v[e.To])))
		rounding[e.From] += r
		rounding[e.To] += r
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
	for k, e := range s.Elements {
		_, s.slope[k] = e.Through(s.across(e), s.power)
		if e.Watt > 0 {
			s.slope[k] *= share
		}
	}
	return s.e.solve(s.slope, lack)
}

// halt returns how much of a step to take: no constant power loses more than
// three quarters of its voltage, and it ends where the first source that gave
// nothing, or its limit, starts to follow the voltage. It is +Inf for nodes that
// float and that nothing will ever hold.
func (s *solver) halt(step []float64, floats bool) float64 {
	part := 1.0
	if floats {
		part = math.Inf(1)
	}
	for _, e := range s.Elements {
		u, along := s.across(e), step[e.From]-step[e.To]
		if e.Watt*s.power > 0 && along < 0 {
			part = math.Min(part, -0.75*u/along)
		}
		margin := 16 * epsilon * (e.EMF + math.Abs(s.v[e.From]) + math.Abs(s.v[e.To]))
		part = math.Min(part, e.follows(u, along, margin))
	}
	return part
}

// clear takes the nodes held at 0 V out of a list of currents.
func (s *solver) clear(current []float64) {
	for i := range current {
		if s.Fixed[i] {
			current[i] = 0
		}
	}
}

// across is the voltage between the two ends of an element.
func (s *solver) across(e Element) float64 { return s.v[e.From] - s.v[e.To] }

// starved returns the node of a load of that kind that has no voltage left, or
// -1.
func (s *solver) starved(kind func(Element) bool) int {
	for _, e := range s.Elements {
		if kind(e) && s.across(e) <= 1e-9*s.scale {
			return e.From
		}
	}
	return -1
}

// asking is the node of the load whose constant current does most to drive the
// voltages there.
func (s *solver) asking(there []float64) int {
	node, most := 0, 0.0
	for _, e := range s.Elements[s.Sources+s.Branches:] {
		if drives := e.Ampere * (there[e.To] - there[e.From]); drives > most {
			node, most = e.From, drives
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
