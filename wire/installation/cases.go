package installation

import (
	"slices"

	"github.com/shopspring/decimal"
)

// listCases lists the cases that can occur. Their number grows with that of states
// times batteries, loads and links, never with a product of these.
func (p *plan) listCases() []Case {
	var all []Case
	for i := range p.in.States {
		all = append(all, p.stateCases(i)...)
	}
	all = append(all, p.limitCases()...)
	return append(all, p.crankingCases()...)
}

// stateCases are those of a state of use.
func (p *plan) stateCases(i int) []Case {
	s, alone := p.in.States[i], Case{State: i}
	with := func(name string, set func(*Case)) Case {
		c := alone
		c.Name = s.Name + ", " + name
		set(&c)
		return c
	}
	var all []Case
	covered := p.covered(i)
	if len(s.Loads) > 0 {
		all = append(all, with("on the batteries alone", func(c *Case) { c.Loads = true }))
	}
	if len(s.Loads) > 0 && len(s.Sources) > 0 {
		all = append(all, with("with its sources", func(c *Case) { c.Loads, c.Sources = true, true }))
	}
	if len(s.Loads) > 0 && p.worksAlways() {
		all = append(all, with("with its sources and what may always work", func(c *Case) { c.Loads, c.Sources, c.Always = true, true, true }))
	}
	if p.works(s) {
		all = append(all, with("charging without loads", func(c *Case) { c.Sources, c.Always, c.NewBattery = true, true, EveryBattery }))
	}
	if p.resists(s) {
		all = append(all, with("on full batteries", func(c *Case) { c.Loads, c.Full = true, true }))
		if p.works(s) {
			all = append(all, with("with its sources and full batteries", func(c *Case) { c.Loads, c.Sources, c.Always, c.Full = true, true, true, true }))
		}
	}
	if len(s.Loads) > 0 {
		all = append(all, p.newCases(with)...)
		all = append(all, p.linkCases(with)...)
	}
	return append(all, p.exceptional(s, covered, with)...)
}

// exceptional are a battery lost, and peaks and starts. What another state asks no
// less of is left to that.
func (p *plan) exceptional(s State, covered bool, with func(string, func(*Case)) Case) []Case {
	var all []Case
	loads := len(s.Loads) > 0 && !covered
	for _, b := range p.standIns() {
		if loads {
			all = append(all, with("without "+b, func(c *Case) { c.Kind, c.Loads, c.BatteryMissing = BatteryLost, true, b }))
		}
		if p.works(s) {
			all = append(all, with("charging without loads and without "+b, func(c *Case) {
				c.Kind, c.Sources, c.Always, c.BatteryMissing, c.NewBattery = BatteryLost, true, true, b, EveryBattery
			}))
		}
	}
	if !loads {
		return all
	}
	if slices.ContainsFunc(s.Loads, func(u LoadUse) bool { return p.load(u.Load).EquivalentA.Valid }) {
		all = append(all, with("short loads at their peak", func(c *Case) { c.Kind, c.Loads, c.Peaks = Brief, true, true }))
	}
	for _, u := range s.Loads {
		if l := p.load(u.Load); !l.Starts.none() {
			all = append(all, with(u.Load+" starting", func(c *Case) { c.Kind, c.Loads, c.Starting = l.startKind(), true, u.Load }))
		}
	}
	return append(all, p.unequalCases(with)...)
}

// startKind is that of its start: one that lasts heats as what runs does.
func (l *Load) startKind() CaseKind {
	if l.StartLasts {
		return Normal
	}
	return Brief
}

// unequalCases are a state with the batteries on one side of the links full and all
// others nearly empty, every link closed: what is full feeds the others besides the
// loads.
func (p *plan) unequalCases(with func(string, func(*Case)) Case) []Case {
	var all []Case
	for i, b := range p.in.Batteries {
		if first, apart := p.side(i); apart && first == i {
			all = append(all, with("the bank of "+b.Name+" full and the others nearly empty", func(c *Case) {
				c.Kind, c.Loads, c.Fuller, c.AllClosed = Unequal, true, b.Name, true
			}))
		}
	}
	return all
}

// side is the first battery on a battery's side of the links, and whether links join
// that side to another battery.
func (p *plan) side(battery int) (first int, apart bool) {
	first = -1
	for i := range p.in.Batteries {
		if p.sides[i] == p.sides[battery] && first < 0 {
			first = i
		}
		apart = apart || p.sides[i] != p.sides[battery] && p.partOf[p.feeders[i][0]] == p.partOf[p.feeders[battery][0]]
	}
	return first, apart
}

// newCases are a state on batteries of unlike age: a battery's share follows its
// resistance.
func (p *plan) newCases(with func(string, func(*Case)) Case) []Case {
	several := p.standIns()
	if len(several) == 0 {
		return nil
	}
	all := []Case{with("on new batteries", func(c *Case) { c.Loads, c.NewBattery = true, EveryBattery })}
	for _, b := range several {
		all = append(all, with(b+" new among aged", func(c *Case) { c.Loads, c.NewBattery = true, b }))
	}
	return all
}

// linkCases are a state with each link between batteries as it does not usually
// stand.
func (p *plan) linkCases(with func(string, func(*Case)) Case) []Case {
	var all []Case
	for _, x := range p.places {
		name := p.in.Circuits[x.circuits[0]].Name
		switch {
		case x.usuallyOpen:
			all = append(all, with(name+" closed", func(c *Case) { c.Loads, c.Closed = true, name }))
		case x.links:
			all = append(all, with(name+" open", func(c *Case) { c.Loads, c.Open = true, name }))
		}
	}
	return all
}

// works reports whether any source works in a state.
func (p *plan) works(s State) bool {
	return len(s.Sources) > 0 || p.worksAlways()
}

// worksAlways reports whether any source may work in every state.
func (p *plan) worksAlways() bool {
	return slices.ContainsFunc(p.in.Sources, func(x Source) bool { return x.Always })
}

// resists reports whether a resistive load runs in a state: it draws the more the
// higher the voltage is.
func (p *plan) resists(s State) bool {
	return slices.ContainsFunc(s.Loads, func(u LoadUse) bool {
		if !u.Takes.none() {
			return u.Takes.Ohm.Valid
		}
		return p.load(u.Load).Takes.Ohm.Valid
	})
}

func (p *plan) load(name string) *Load { return &p.in.Loads[p.loads[name]] }

// standIns are the batteries that others stand in for: those of their bank in one part,
// and what no link parts from them.
func (p *plan) standIns() []string {
	var all []string
	for i, b := range p.in.Batteries {
		for k, o := range p.in.Batteries {
			alike := o.Bank == b.Bank && p.partOf[p.feeders[k][0]] == p.partOf[p.feeders[i][0]]
			if k != i && (alike || p.sides[k] == p.sides[i]) {
				all = append(all, b.Name)
				break
			}
		}
	}
	return all
}

// covered reports whether another state takes no less of every load: of equals the
// first stays.
func (p *plan) covered(i int) bool {
	for k := range p.in.States {
		if k != i && p.takesNoLess(k, i) && (k < i || !p.takesNoLess(i, k)) {
			return true
		}
	}
	return false
}

// takesNoLess reports whether one state takes of each load of another no less.
func (p *plan) takesNoLess(one, other int) bool {
	for i, k := range p.uses[other] {
		at := p.uses[one][i]
		if k >= 0 && (at < 0 || !p.taken(p.in.States[one].Loads[at]).noLess(p.taken(p.in.States[other].Loads[k]))) {
			return false
		}
	}
	return true
}

// taken is what a state takes of a load.
func (p *plan) taken(u LoadUse) Demand {
	if u.Takes.none() {
		return p.load(u.Load).Takes
	}
	return u.Takes
}

// noLess reports whether a demand draws no less than another of its kind.
func (d Demand) noLess(than Demand) bool {
	least := func(a, b decimal.NullDecimal) bool {
		return a.Valid && b.Valid && a.Decimal.GreaterThanOrEqual(b.Decimal)
	}
	return least(d.CurrentA, than.CurrentA) || least(d.PowerW, than.PowerW) || least(than.Ohm, d.Ohm)
}

// limitCases are each source, its input and each load by itself at the most that
// it can: each source whether a state lists it or not, a load where its most is
// stated or no state runs it.
func (p *plan) limitCases() []Case {
	var all []Case
	for i, s := range p.in.Sources {
		if !p.parts[p.partOf[p.feeders[len(p.in.Batteries)+i][0]]].supplied() {
			all = append(all, Case{Name: s.Name + " at its limit", State: -1, Kind: AtLimit, AtLimitOf: s.Name, source: i + 1})
		}
		if s.FedAt != "" {
			all = append(all, Case{Name: "the input of " + s.Name + " at its limit", State: -1, Kind: AtLimit, AtLimitOf: s.Name, Input: true, source: i + 1})
		}
	}
	for i, l := range p.in.Loads {
		if !l.Cranks && (!l.Full.none() || !p.listed(i)) {
			all = append(all, Case{Name: l.Name + " at its limit", State: -1, Kind: AtLimit, AtLimitOf: l.Name, Full: l.most().Ohm.Valid, load: i + 1})
		}
	}
	return all
}

// listed reports whether a state runs a load.
func (p *plan) listed(load int) bool {
	return slices.ContainsFunc(p.uses, func(of []int) bool { return of[load] >= 0 })
}

// most is what a load draws at its limit: what heats in its place where its duty is
// short; a constant power at the lowest voltage at which it works.
func (l Load) most() Demand {
	d := l.Full
	if d.none() {
		d = l.Takes
	}
	switch {
	case l.EquivalentA.Valid:
		return Demand{CurrentA: l.EquivalentA, From: d.From}
	case d.PowerW.Valid && l.LeastV.Valid:
		return Demand{CurrentA: decimal.NewNullDecimal(d.PowerW.Decimal.DivRound(l.LeastV.Decimal, 9)), From: d.From}
	}
	return d
}
