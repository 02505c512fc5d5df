package installation

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/internal/nodal"
	"github.com/shopspring/decimal"
)

// regulated is the resistance of a source that holds its voltage up to its limit.
func regulated() (working.Figure, error) { return tables.FaultSource("regulated") }

// setup is what stands how in a case, in numbers.
type setup struct {
	open    []bool          // of each circuit: its switch
	feeders []nodal.Element // of each battery and source; none where it gives nothing
	draws   []nodal.Element // of each load
	own     []float64       // of each source: A that its vehicle draws beside it
	inputs  []float64       // of each source: W that its input takes at full output
	alive   []bool          // of each node: something reaches it
}

// setup works a case out.
func (p *plan) setup(c Case) setup {
	if p.linear(c) {
		return p.atRest // found from the unloaded network
	}
	s := setup{open: p.opened(c), feeders: make([]nodal.Element, len(p.feeders)), draws: make([]nodal.Element, len(p.draws)),
		own: make([]float64, len(p.in.Sources)), inputs: make([]float64, len(p.in.Sources))}
	for i, b := range p.in.Batteries {
		s.feeders[i] = p.cell(c, b)
	}
	p.wake(c, &s)
	if c.Loads {
		p.draw(c, &s)
	}
	if c.Kind == Cranking {
		p.turnOn(p.loads[c.Starting], p.load(c.Starting).cranking(), &s)
	}
	if c.load > 0 {
		p.turnOn(c.load-1, p.most(c), &s)
	}
	if c.source > 0 && s.alive[p.inputs[c.source-1]] {
		s.inputs[c.source-1] = float(p.in.Sources[c.source-1].InputW.Decimal)
	}
	return s
}

// resting is a setup of the batteries alone, as they are in a case.
func (p *plan) resting(c Case) setup {
	s := p.bare()
	s.open = p.opened(c)
	for i, b := range p.in.Batteries {
		s.feeders[i] = p.cell(c, b)
	}
	s.alive = p.reached(&s)
	return s
}

func float(v decimal.Decimal) float64 { return v.InexactFloat64() }

// cell is a battery as it is in a case.
func (p *plan) cell(c Case, b Battery) nodal.Element {
	if b.Name == c.BatteryMissing || c.Alone != "" && b.Name != c.Alone {
		return nodal.Element{}
	}
	emf, milliohm := p.state(c, b)
	return nodal.Element{EMF: float(emf), Siemens: 1000 / float(milliohm), Limit: infinite}
}

// state is the rested voltage and the resistance of a battery in a case.
func (p *plan) state(c Case, b Battery) (emf, milliohm decimal.Decimal) {
	emf, milliohm = b.EmptyV, b.HighMilliohm
	full := c.Full || c.Fuller != "" && p.sides[p.battery(c.Fuller)] == p.sides[p.battery(b.Name)]
	if full {
		emf = b.FullV
	}
	if full || c.NewBattery == b.Name || c.NewBattery == EveryBattery {
		milliohm = b.LowMilliohm
	}
	return emf, milliohm
}

// wake finds what is alive: what batteries reach through closed switches, and
// sources that are on, a converter where its input is alive.
func (p *plan) wake(c Case, s *setup) {
	limits, on := p.limits(c), make([]bool, len(p.in.Sources))
	for {
		s.alive = p.reached(s)
		again := false
		for i, limit := range limits {
			if limit > off && !on[i] && (p.inputs[i] < 0 || s.alive[p.inputs[i]]) {
				on[i], again = true, true
				p.switchOn(c, i, limit, s)
			}
		}
		if !again {
			return
		}
	}
}

// switchOn lets a source work. One that gives nothing, as an alternator at idle may,
// leaves what the vehicle draws beside it to the batteries.
func (p *plan) switchOn(c Case, i int, limit float64, s *setup) {
	x := p.in.Sources[i]
	s.own[i] = float(x.OwnLoadsA.Decimal)
	if limit > 0 {
		s.feeders[len(p.in.Batteries)+i] = nodal.Element{EMF: float(p.held(c, x)), Siemens: p.regulated, Limit: limit}
		s.inputs[i] = float(x.InputW.Decimal)
	}
}

// held is the voltage of a source: beside loads the lowest that it holds, which
// leaves least; with batteries full or no loads its highest, which drives most.
func (p *plan) held(c Case, s Source) decimal.Decimal {
	if c.Loads && !c.Full && s.LeastHeldV.Valid {
		return s.LeastHeldV.Decimal
	}
	return s.HeldV
}

// off is the limit of a source that is not on.
const off = -1

// limits is what each source gives at the most in a case. A converter that feeds a
// part without a battery works wherever loads run.
func (p *plan) limits(c Case) []float64 {
	all := slices.Repeat([]float64{off}, len(p.in.Sources))
	if c.AtLimitOf != "" && !p.linear(c) {
		for _, k := range p.partOfLimited(c).feeders {
			all[k-len(p.in.Batteries)] = float(p.in.Sources[k-len(p.in.Batteries)].GreatestA)
		}
	}
	if c.State < 0 {
		return all
	}
	for i, x := range p.in.Sources {
		use := slices.IndexFunc(p.in.States[c.State].Sources, func(u Supply) bool { return u.Source == x.Name })
		supplies := c.Loads && x.FedAt != "" && p.parts[p.partOf[p.feeders[len(p.in.Batteries)+i][0]]].supplied()
		switch {
		case !supplies && !(c.Sources && (x.Always && c.Always || use >= 0)):
		case use >= 0 && p.in.States[c.State].Sources[use].CurrentA.Valid:
			all[i] = float(p.in.States[c.State].Sources[use].CurrentA.Decimal)
		default:
			all[i] = float(x.GreatestA)
		}
	}
	return all
}

// reached are the nodes that batteries and sources at work reach, the returns
// counted.
func (p *plan) reached(s *setup) []bool {
	beside := map[int][]int{} // what a battery or a source joins
	for k, e := range s.feeders {
		if e.Siemens > 0 {
			a, b := p.feeders[k][0], p.feeders[k][1]
			beside[a], beside[b] = append(beside[a], b), append(beside[b], a)
		}
	}
	met, queue := make([]bool, len(p.nodes)), p.grounds()
	meet := func(node int) {
		if !met[node] {
			met[node] = true
			queue = append(queue, node)
		}
	}
	for _, node := range queue {
		met[node] = true
	}
	for next := 0; next < len(queue); next++ {
		at := queue[next]
		for _, node := range beside[at] {
			meet(node)
		}
		for _, i := range p.touching[at] {
			if !s.open[i] {
				meet(p.other(i, at))
			}
		}
	}
	return met
}

// grounds are the nodes at 0 V: the common return, and one of each part that has
// nothing to do with it.
func (p *plan) grounds() []int {
	all := []int{0}
	for _, of := range p.parts {
		for i, held := range of.base.Fixed {
			if held && i > 0 {
				all = append(all, of.nodes[i])
			}
		}
	}
	return all
}

// draw turns on the loads of the case's state that something reaches.
func (p *plan) draw(c Case, s *setup) {
	for i, k := range p.uses[c.State] {
		if k >= 0 {
			p.turnOn(i, c.demand(&p.in.Loads[i], &p.in.States[c.State].Loads[k]), s)
		}
	}
}

// demand is what a load draws in a case: a start, a peak, or what heats in its
// place.
func (c Case) demand(l *Load, use *LoadUse) Demand {
	takes := l.Takes
	if !use.Takes.none() {
		takes = use.Takes
	}
	switch {
	case c.Starting == l.Name && !l.Starts.none():
		return l.Starts
	case c.Kind != Brief && l.EquivalentA.Valid:
		return Demand{CurrentA: l.EquivalentA, From: takes.From}
	}
	return takes
}

func (d Demand) element() nodal.Element {
	switch {
	case d.CurrentA.Valid:
		return nodal.Element{Ampere: float(d.CurrentA.Decimal)}
	case d.PowerW.Valid:
		return nodal.Element{Watt: float(d.PowerW.Decimal)}
	default:
		return nodal.Element{Siemens: 1 / float(d.Ohm.Decimal)}
	}
}

// turnOn lets a load draw where something reaches it.
func (p *plan) turnOn(load int, d Demand, s *setup) {
	if s.alive[p.draws[load][0]] && s.alive[p.draws[load][1]] {
		s.draws[load] = d.element()
	}
}

// cranking is what a starter draws.
func (l Load) cranking() Demand {
	if l.Starts.none() {
		return l.Takes
	}
	return l.Starts
}

// elements fills the skeleton of a part with the figures of a case. The resistances
// are those of the part's circuits, in mΩ; output is the share of its full output
// that each source gives.
func (of *part) elements(s setup, milliohm []float64, output []float64) []nodal.Element {
	all := slices.Clone(of.base.Elements)
	k := 0
	put := func(e nodal.Element) {
		e.From, e.To = all[k].From, all[k].To
		all[k] = e
		k++
	}
	for _, i := range of.feeders {
		put(s.feeders[i])
	}
	for j, i := range of.circuits {
		if s.open[i] {
			put(nodal.Element{})
			continue
		}
		put(nodal.Element{Siemens: 1000 / milliohm[j]})
	}
	for _, i := range of.draws {
		put(s.draws[i])
	}
	for _, i := range of.inputs {
		put(nodal.Element{Watt: s.inputs[i] * output[i]})
	}
	for _, i := range of.feeders[of.batteries:] {
		put(nodal.Element{Ampere: s.own[i-(len(s.feeders)-len(s.own))]})
	}
	return all
}
