package inspect

import (
	"fmt"
	"slices"
	"sync"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// setting is one case that can occur: a state of use, with its loads and its
// chargers on or off, and perhaps a battery missing.
type setting struct {
	name    string
	index   int // of the state
	state   *job.State
	loads   bool
	sources bool
	missing string // a battery that has switched itself off
	full    bool   // batteries full and at their low resistance, alternators at their set voltage
	strong  string // the one new battery among aged ones; every for all of them
	starts  string // a load that starts while the others run
	lasts   bool   // that start is so long that it heats as a load does
	open    string // the place of switches that stand open between banks: see linkAt
}

// short reports whether a case is too short to heat anything: a start.
func (s setting) short() bool { return s.starts != "" && !s.lasts }

// every stands for all batteries of the house bank in a setting.
const every = "every battery"

// solved is a case with its currents and voltages.
type solved struct {
	setting
	wire.Solution
}

// settings lists the cases: in each state its loads on the batteries alone and
// with its sources, and its sources without loads, where new batteries take most;
// the same with each battery of the house bank missing in turn; with batteries
// full, where a load draws more as the voltage rises; with batteries of unlike
// age; with each load starting; and all that runs on the batteries alone also with
// each link between two banks open, where one has to do without the other.
func (m *model) settings() []setting {
	all := m.closedSettings()
	return append(all, m.apartSettings(all)...)
}

// apartSettings are those of some cases that run loads on the batteries alone,
// with each link between two banks open.
func (m *model) apartSettings(of []setting) []setting {
	var all []setting
	for _, open := range m.links() {
		for _, s := range of {
			if s.loads && !s.sources {
				s.name, s.open = s.name+", the banks apart", open
				all = append(all, s)
			}
		}
	}
	return all
}

// closedSettings lists the cases with every switch closed.
func (m *model) closedSettings() []setting {
	var all []setting
	for i := range m.job.States {
		s := &m.job.States[i]
		plain := setting{index: i, name: s.Name + ", on the batteries alone", state: s, loads: true}
		all = append(all, plain)
		if len(s.Sources) > 0 {
			all = append(all,
				setting{index: i, name: s.Name + ", with its sources", state: s, loads: true, sources: true},
				setting{index: i, name: s.Name + ", charging without loads", state: s, sources: true, strong: every})
		}
		all = append(all, m.fullSettings(plain)...)
		all = append(all, m.chargeSettings(plain)...)
		if !m.covered(i) {
			all = append(all, m.bankSettings(plain)...)
			all = append(all, m.startSettings(plain)...)
		}
	}
	return all
}

// covered reports whether another state runs all the loads of this one, and so
// draws no less from the batteries.
func (m *model) covered(i int) bool {
	loads := m.job.States[i].Loads
	for k, other := range m.job.States {
		all := !slices.ContainsFunc(loads, func(l string) bool { return !slices.Contains(other.Loads, l) })
		if k != i && all && (len(other.Loads) > len(loads) || k < i) {
			return true
		}
	}
	return false
}

// fullSettings are a state with full batteries: resistive loads draw most then,
// the more where a source holds the voltage up.
func (m *model) fullSettings(of setting) []setting {
	if !slices.ContainsFunc(m.job.Loads, func(l job.Load) bool {
		return l.At != "" && l.Behaves == "resistance" && slices.Contains(of.state.Loads, l.Name)
	}) {
		return nil
	}
	alone := of
	alone.name, alone.full = of.state.Name+", on full batteries", true
	if len(of.state.Sources) == 0 {
		return []setting{alone}
	}
	charged := alone
	charged.name, charged.sources = of.state.Name+", with its sources and full batteries", true
	return []setting{alone, charged}
}

// chargeSettings are a state that charges without loads, with each battery of
// several missing in turn: the others take its charge.
func (m *model) chargeSettings(of setting) []setting {
	if len(m.chargersIn(of.state)) == 0 {
		return nil
	}
	var all []setting
	for _, b := range m.droppable() {
		all = append(all, setting{
			index: of.index, name: of.state.Name + ", charging without loads and without " + b.Name, state: of.state, sources: true, missing: b.Name, strong: every,
		})
	}
	return all
}

// bankSettings are the loads of a state with each battery of several missing in
// turn; and, as a battery's share follows the resistances, with all of them new
// and with one new among aged.
func (m *model) bankSettings(of setting) []setting {
	several := m.droppable()
	if len(several) == 0 || len(of.state.Loads) == 0 {
		return nil
	}
	var all []setting
	for _, b := range several {
		without := of
		without.name, without.missing = of.state.Name+", without "+b.Name, b.Name
		all = append(all, without)
	}
	fresh := of
	fresh.name, fresh.strong = of.state.Name+", on new batteries", every
	all = append(all, fresh)
	for _, b := range several {
		fresh.name, fresh.strong = of.state.Name+", "+b.Name+" new among aged", b.Name
		all = append(all, fresh)
	}
	for _, k := range m.several() {
		all = append(all, m.mixedSettings(of, k.batteries)...)
	}
	return all
}

// droppable are the batteries that others of their bank stand in for.
func (m *model) droppable() []job.Battery {
	var all []job.Battery
	for _, k := range m.several() {
		all = append(all, k.batteries...)
	}
	return all
}

// mixedSettings are a state with one battery missing and one new among the aged
// rest: of two batteries the one left has no share to take.
func (m *model) mixedSettings(of setting, bank []job.Battery) []setting {
	if len(bank) < 3 {
		return nil
	}
	var all []setting
	for _, gone := range bank {
		for _, b := range bank {
			if b.Name != gone.Name {
				mixed := of
				mixed.name = of.state.Name + ", without " + gone.Name + ", " + b.Name + " new among aged"
				mixed.missing, mixed.strong = gone.Name, b.Name
				all = append(all, mixed)
			}
		}
	}
	return all
}

// startSettings are a state on the batteries alone with each load that states a
// surge starting in turn while the others run. An inverter's are rule B05.
func (m *model) startSettings(of setting) []setting {
	var all []setting
	for _, l := range m.job.Loads {
		if l.At != "" && l.SurgeW.Valid && slices.Contains(of.state.Loads, l.Name) {
			start := of
			start.name, start.starts, start.lasts = of.name+", "+l.Name+" starting", l.Name, startLasts(l)
			all = append(all, start)
		}
	}
	return all
}

// solveCases solves those cases that are asked for. Batteries are nearly empty
// and aged unless the case says otherwise: the lowest voltages, and for loads of
// constant power the highest currents.
func (m *model) solveCases(asked func(setting) bool) error {
	milliohm := make([]decimal.Decimal, len(m.runs))
	for i, r := range m.runs {
		milliohm[i] = r.hotMilliohm
	}
	m.cases = nil
	for i, s := range m.occurring {
		if !asked(s) {
			continue
		}
		c, err := m.solve(i, milliohm)
		if err != nil {
			return err
		}
		m.cases = append(m.cases, c)
	}
	return nil
}

func everyCase(setting) bool { return true }

// solve solves a case from its beginning, or again where it was solved with
// other resistances.
func (m *model) solve(i int, milliohm []decimal.Decimal) (c solved, err error) {
	c.setting = m.occurring[i]
	if m.first != nil {
		c.Solution, err = m.first[i].With(m.opened(milliohm, c.setting))
	} else {
		n, bad := m.network(c.setting)
		if bad != nil {
			return c, bad
		}
		c.Solution, err = n.Solve()
	}
	if err != nil {
		return c, fmt.Errorf("%s: %w", c.name, err)
	}
	return c, nil
}

// regulated is the resistance of a source that holds its voltage up to its
// limit: small, for the solver's sake.
var regulated = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.FaultSource("regulated")
	return tabled(f, err)
})

// tabled is a figure that the tables are known to hold; a library without it is
// broken.
func tabled(f working.Figure, err error) decimal.Decimal {
	if err != nil {
		panic(err)
	}
	return f.Value
}

func (m *model) network(s setting) (wire.Network, error) {
	n := wire.Network{Branches: m.branches(func(r *run) decimal.Decimal { return m.milliohm(r, s) })}
	for _, b := range m.job.Batteries {
		if b.Name != s.missing {
			n.Sources = append(n.Sources, m.source(b, s))
		}
	}
	if s.sources {
		if err := m.addSources(&n, s); err != nil {
			return n, err
		}
	}
	if !s.loads {
		return n, nil
	}
	loads, err := m.loads(s)
	n.Loads = append(n.Loads, loads...)
	return n, err
}

// source is a battery as it is in a case.
func (m *model) source(b job.Battery, s setting) wire.NodeSource {
	x := wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.EmptyV, Milliohm: m.high(b)}
	if s.full {
		x.EMFV = b.FullV
	}
	if s.full || s.strong == b.Name || s.strong == every && m.isHouse(b.Name) {
		x.Milliohm = m.low(b)
	}
	return x
}

func (m *model) branches(loop func(*run) decimal.Decimal) []wire.Branch {
	all := make([]wire.Branch, len(m.runs))
	for i, r := range m.runs {
		all[i] = wire.Branch{Name: r.Name, From: r.From, To: r.To, Milliohm: loop(r)}
	}
	return all
}

// addSources adds the alternators and chargers of the state. A converter's
// input is a load of constant power on the engine's side, an alternator also
// carries what the vehicle itself draws. It is hot and holds the lowest voltage
// that it runs at, which leaves least; with batteries full or no loads it holds
// its highest, which drives most.
func (m *model) addSources(n *wire.Network, s setting) error {
	for i, a := range m.job.Alternators {
		if slices.Contains(s.state.Sources, a.Name) {
			most, err := m.output(a, s.state.Engine)
			if err != nil {
				return working.In(fmt.Sprintf("alternators[%d]", i), err)
			}
			held := lowest(a)
			if s.full || !s.loads {
				held = a.RunsAtV
			}
			if most.IsPositive() { // some give nothing at idle
				n.Sources = append(n.Sources, wire.NodeSource{
					Name: a.Name, Node: a.Name, EMFV: held, Milliohm: regulated(),
					LimitA: decimal.NewNullDecimal(most),
				})
			}
			n.Loads = append(n.Loads, wire.NodeLoad{
				Name: "the vehicle's own loads on " + a.Name, Node: a.Name, CurrentA: decimal.NewNullDecimal(a.VehicleA),
			})
		}
	}
	for _, c := range m.job.Chargers {
		if !slices.Contains(s.state.Sources, c.Name) {
			continue
		}
		n.Sources = append(n.Sources, wire.NodeSource{
			Name: c.Name, Node: c.Name, EMFV: c.OutputV, Milliohm: regulated(), LimitA: decimal.NewNullDecimal(c.MaxA),
		})
		if c.Kind == "converter" {
			n.Loads = append(n.Loads, wire.NodeLoad{
				Name: "input of " + c.Name, Node: c.FedAt, PowerW: decimal.NewNullDecimal(inputW(c)),
			})
		}
	}
	return nil
}

// loads returns what runs in a case. What an inverter feeds draws through it.
func (m *model) loads(of setting) ([]wire.NodeLoad, error) {
	s := of.state
	var all []wire.NodeLoad
	for _, l := range m.job.Loads {
		if l.At != "" && slices.Contains(s.Loads, l.Name) {
			if l.Name == of.starts {
				l.PowerW, l.CurrentA = decimal.NewNullDecimal(decimal.Max(l.SurgeW.Decimal, m.watts(l))), decimal.NullDecimal{}
			}
			all = append(all, m.direct(l))
		}
	}
	for i, inv := range m.job.Inverters {
		out := m.inverterOut(inv, s)
		if !out.IsPositive() {
			continue
		}
		in, err := inverterIn(inv, out)
		if err != nil {
			return nil, working.In(fmt.Sprintf("inverters[%d]", i), err)
		}
		all = append(all, wire.NodeLoad{Name: inv.Name, Node: inv.Name, PowerW: decimal.NewNullDecimal(in)})
	}
	return all, nil
}

// direct returns a load as the solver takes it; what is stated at the nominal
// voltage is turned into what stays the same.
func (m *model) direct(l job.Load) wire.NodeLoad {
	u := m.job.SystemV
	w := wire.NodeLoad{Name: l.Name, Node: l.At, TripV: l.LeastV}
	power, current := l.PowerW.Decimal, l.CurrentA.Decimal
	if l.PowerW.Valid {
		current = power.DivRound(u, 4)
	} else {
		power = current.Mul(u)
	}
	switch l.Behaves {
	case "power":
		w.PowerW = decimal.NewNullDecimal(power)
	case "current":
		w.CurrentA = decimal.NewNullDecimal(current)
	default:
		w.Ohm = decimal.NewNullDecimal(u.DivRound(current, 6))
	}
	return w
}

// join numbers the nodes, finds the runs at each and numbers the parts of the
// network: a converter does not join its sides.
func (m *model) join() {
	m.index = map[string]int{}
	m.ways, m.lines, m.meshes = map[[2]string][]int{}, map[[2]string][]int{}, map[[2]string][]int{}
	for i, r := range m.runs {
		r.between = [2]int{m.number(r.From), m.number(r.To)}
		m.laid[i].between = r.between
		for _, at := range r.between {
			m.touching[at] = append(m.touching[at], i)
		}
	}
	m.parts = m.part(func(*run) bool { return true })
	m.wired = m.parts
}

// part numbers the parts of the network that the runs which join make. A converter
// does not join its sides.
func (m *model) part(joins func(*run) bool) map[string]int {
	parts := map[string]int{}
	for i, node := range m.nodes {
		for todo := []string{node}; len(todo) > 0; todo = todo[1:] {
			if parts[todo[0]] > 0 {
				continue
			}
			parts[todo[0]] = i + 1
			for _, k := range m.touching[m.index[todo[0]]] {
				if joins(m.runs[k]) {
					todo = append(todo, m.runs[k].otherEnd(todo[0]))
				}
			}
		}
	}
	return parts
}

// number is that of a node, new where the name is.
func (m *model) number(node string) int {
	i, ok := m.index[node]
	if !ok {
		i = len(m.nodes)
		m.index[node] = i
		m.nodes, m.touching = append(m.nodes, node), append(m.touching, nil)
	}
	return i
}

// joined reports whether cables join two nodes.
func (m *model) joined(a, b string) bool { return m.parts[a] == m.parts[b] }

// ofHouse reports whether what hangs at a node draws on the house bank.
func (m *model) ofHouse(node string) bool {
	return slices.ContainsFunc(m.job.Batteries, func(b job.Battery) bool { return b.Bank == "house" && m.joined(node, b.Name) })
}

// way returns the runs from a node up to a source.
func (m *model) way(node, source string) []*run {
	return m.known(m.ways, [2]string{node, source}, func(at string) bool { return at == source })
}

// toBattery returns the runs from a node up to the nearest battery, one of them
// missing or "" for none.
func (m *model) toBattery(node, missing string) []*run {
	return m.known(m.lines, [2]string{node, missing}, func(at string) bool { return m.isBattery(at) && at != missing })
}

// known finds a path once, also for the copies on which a change is tried: no
// change moves a cable.
func (m *model) known(paths map[[2]string][]int, key [2]string, isEnd func(at string) bool) []*run {
	known, ok := paths[key]
	if !ok {
		for _, r := range m.path(key[0], isEnd) {
			known = append(known, slices.Index(m.runs, r))
		}
		paths[key] = known
	}
	all := make([]*run, len(known))
	for i, k := range known {
		all[i] = m.runs[k]
	}
	return all
}

// path returns the runs from a node up to the nearest battery or to the source
// named, by breadth first.
func (m *model) path(from string, isEnd func(node string) bool) []*run {
	way, _, _ := m.reach(from, nil, func(*run, string) bool { return true }, isEnd)
	var all []*run
	for _, s := range way {
		all = append(all, s.run)
	}
	return all
}

// voltage returns a node's voltage in a case.
func (c solved) voltage(node string) (decimal.Decimal, bool) {
	for _, n := range c.Nodes {
		if n.Node == node {
			return n.VoltageV, true
		}
	}
	return decimal.Decimal{}, false
}

// current returns a run's current in a case.
func (c solved) current(name string) decimal.Decimal {
	for _, b := range c.Branches {
		if b.Name == name {
			return b.CurrentA
		}
	}
	return decimal.Decimal{}
}
