package installation

import (
	"math"
	"slices"

	"example.org/extralow/wire/internal/nodal"
)

// linear reports whether a case is one thing by itself at its limit, on batteries:
// then the unloaded network, eliminated once, and one column of it tell all.
func (p *plan) linear(c Case) bool {
	return c.AtLimitOf != "" && !p.partOfLimited(c).supplied()
}

// limited are the nodes between which a thing at its limit draws or gives.
func (p *plan) limited(c Case) [2]int {
	switch {
	case c.load > 0:
		return p.draws[c.load-1]
	case c.Input:
		return [2]int{p.inputs[c.source-1], 0}
	default:
		return p.feeders[len(p.in.Batteries)+c.source-1]
	}
}

func (p *plan) partOfLimited(c Case) *part {
	ends := p.limited(c)
	return p.parts[p.partAt(ends)]
}

// most is the most that a load, or the input of a source, takes.
func (p *plan) most(c Case) Demand {
	if c.load > 0 {
		return p.in.Loads[c.load-1].most()
	}
	return p.in.Sources[c.source-1].greatestInput()
}

// unloaded is a part with its batteries alone: nearly empty and aged for what draws
// constant power or current, full and new for a resistance, nearly empty and new
// for what charges.
type unloaded struct {
	milliohm            []float64
	aged, full, charged *rested
}

// rested is a part at rest.
type rested struct {
	factors *nodal.Factors
	volts   []float64
}

// base is the part at rest as a case asks for it, solved once.
func (u *unloaded) base(f *fellow, c Case) *rested {
	at := &u.aged
	switch as := c.batteries(); {
	case as.Full:
		at = &u.full
	case as.NewBattery != "":
		at = &u.charged
	}
	if *at == nil {
		*at = f.rested(c.batteries(), u.milliohm)
	}
	return *at
}

// batteries is how they are while one thing is at its limit by itself.
func (c Case) batteries() Case {
	switch {
	case c.Full:
		return Case{Full: true}
	case c.source > 0 && !c.Input:
		return Case{NewBattery: EveryBattery}
	}
	return Case{}
}

// rested solves a part at rest.
func (f *fellow) rested(c Case, milliohm []float64) *rested {
	s := f.resting(c)
	elements := f.of.elements(s, milliohm, s.own)
	current := make([]float64, len(f.of.nodes))
	for _, e := range elements[:f.of.batteries] {
		current[e.From] += e.EMF * e.Siemens
		current[e.To] -= e.EMF * e.Siemens
	}
	r := &rested{factors: f.of.base.With(elements).Factor()}
	r.volts = r.factors.Volts(current)
	return r
}

// solve finds the voltages with one thing at its limit; stuck is the node where it
// shows that there are none, as of a network. What draws a constant current has it
// divide among its ways even where no voltage would be left.
func (u *unloaded) solve(f *fellow, c Case) (v []float64, stuck int) {
	if f.partOfLimited(c) != f.of {
		return nil, -1
	}
	ends, base := f.limited(c), u.base(f, c)
	if !f.atRest.alive[ends[0]] || !f.atRest.alive[ends[1]] {
		return nil, -1 // no battery is joined to it
	}
	a, b := f.local[ends[0]], f.local[ends[1]]
	column := make([]float64, len(f.of.nodes))
	column[a], column[b] = -1, 1
	column = base.factors.Volts(column)
	rest, own := base.volts[a]-base.volts[b], column[b]-column[a]
	ampere := f.drawn(c, rest, own)
	if math.IsNaN(ampere) {
		return nil, a
	}
	for i := range column {
		column[i] = base.volts[i] + ampere*column[i]
	}
	if !(rest-ampere*own > 0) {
		return column, a
	}
	return column, -1
}

// drawn is what a thing at its limit draws from a voltage at rest behind a
// resistance; NaN where that cannot bring it. A source gives.
func (f *fellow) drawn(c Case, rest, ohm float64) float64 {
	if c.source > 0 && !c.Input {
		return -float(f.in.Sources[c.source-1].GreatestA)
	}
	e := f.most(c).element()
	switch {
	case e.Watt > 0:
		return (rest - math.Sqrt(rest*rest-4*ohm*e.Watt)) / (2 * ohm)
	case e.Siemens > 0:
		return rest / (1/e.Siemens + ohm)
	}
	return e.Ampere
}

// greatestInput is the most that a source's input takes.
func (s Source) greatestInput() Demand {
	if s.InputA.Valid {
		return Demand{CurrentA: s.InputA}
	}
	return Demand{PowerW: s.InputW}
}

// lineOf is the circuits for which a thing at its limit counts: where states run it, its
// own line, from its node on as far as nothing else hangs on the way and no way parts;
// they say what it does elsewhere. Of what no state runs, and in other cases, it is nil,
// for every circuit.
func (p *plan) lineOf(c Case) []bool {
	if c.Kind != AtLimit || !p.runs(c) {
		return nil
	}
	line := make([]bool, len(p.wires))
	for _, i := range p.touching[p.limited(c)[0]] {
		line[i] = true
		by, at := i, p.other(i, p.limited(c)[0])
		for at != 0 && len(p.touching[at]) == 2 && !p.hangs(at) {
			by = p.touching[at][0] + p.touching[at][1] - by
			if line[by] {
				break
			}
			line[by] = true
			at = p.other(by, at)
		}
	}
	return line
}

// runs reports whether a state runs the thing at its limit in a case.
func (p *plan) runs(c Case) bool {
	if c.load > 0 {
		return p.listed(c.load - 1)
	}
	x := p.in.Sources[c.source-1]
	return x.Always && len(p.in.States) > 0 || slices.ContainsFunc(p.in.States, func(s State) bool {
		return slices.ContainsFunc(s.Sources, func(u Supply) bool { return u.Source == x.Name })
	})
}

// counts reports whether a case counts for a circuit.
func (p *plan) counts(at, circuit int) bool { return p.ownLine[at] == nil || p.ownLine[at][circuit] }

// hangs reports whether a battery, a source, its input or a load is at a node.
func (p *plan) hangs(node int) bool {
	ends := func(e [2]int) bool { return e[0] == node || e[1] == node }
	return slices.ContainsFunc(p.feeders, ends) || slices.ContainsFunc(p.draws, ends) || slices.Contains(p.inputs, node)
}
