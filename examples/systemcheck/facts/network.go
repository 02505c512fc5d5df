package facts

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

// Setting is one case that can occur: a state of use, with its loads and its
// chargers on or off, and perhaps a battery missing.
type Setting struct {
	Name        string
	Index       int // of the state
	State       *job.State
	WithLoads   bool
	WithSources bool
	Missing     string // a battery that has switched itself off
	full        bool   // batteries full and at their low resistance, alternators at their set voltage
	strong      string // the one new battery among aged ones; every for all of them
	starts      string // a load that starts while the others run
	lasts       bool   // that start is so long that it heats as a load does
	open        string // the place of switches that stand open between banks: see links
	fuller      string // a battery: those on its side of the links are full, the others nearly empty
}

// short reports whether a case is too short to heat anything: a start.
func (s Setting) short() bool { return s.starts != "" && !s.lasts }

// every stands for all batteries of the house bank in a setting.
const every = "every battery"

// Solved is a case with its currents and voltages.
type Solved struct {
	Setting
	wire.Solution
}

// settings lists the cases: in each state its loads on the batteries alone and
// with its sources, and its sources without loads, where new batteries take most;
// the same with each battery of the house bank missing in turn; with batteries
// full, where a load draws more as the voltage rises; with batteries of unlike
// age; with each load starting; and all that runs on the batteries alone also with
// each link between two banks open, where one has to do without the other; and, as
// banks on one link are not empty together, with either of them full.
func (m *Facts) settings() []Setting {
	all := m.closedSettings()
	return slices.Concat(all, m.apartSettings(all), m.opposedSettings())
}

// opposedSettings are the loads of each state with the batteries on one side of the
// links between banks full and all others nearly empty: what is full feeds the others
// besides the loads.
func (m *Facts) opposedSettings() []Setting {
	if len(m.links()) == 0 {
		return nil
	}
	var all []Setting
	for i := range m.Job.States {
		s := &m.Job.States[i]
		var sides []int
		for _, b := range m.Job.Batteries {
			if !m.covered(i) && !slices.Contains(sides, m.sides[b.Name]) {
				sides = append(sides, m.sides[b.Name])
				all = append(all, Setting{
					Index: i, Name: s.Name + ", the bank of " + b.Name + " full and the others nearly empty", State: s, WithLoads: true, fuller: b.Name,
				})
			}
		}
	}
	return all
}

// apartSettings are those of some cases that run loads on the batteries alone,
// with each link between two banks open.
func (m *Facts) apartSettings(of []Setting) []Setting {
	var all []Setting
	for _, open := range m.links() {
		for _, s := range of {
			if s.WithLoads && !s.WithSources {
				s.Name, s.open = s.Name+", the banks apart", open
				all = append(all, s)
			}
		}
	}
	return all
}

// closedSettings lists the cases with every switch closed.
func (m *Facts) closedSettings() []Setting {
	var all []Setting
	for i := range m.Job.States {
		s := &m.Job.States[i]
		plain := Setting{Index: i, Name: s.Name + ", on the batteries alone", State: s, WithLoads: true}
		all = append(all, plain)
		if len(s.Sources) > 0 {
			all = append(all,
				Setting{Index: i, Name: s.Name + ", with its sources", State: s, WithLoads: true, WithSources: true},
				Setting{Index: i, Name: s.Name + ", charging without loads", State: s, WithSources: true, strong: every})
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
func (m *Facts) covered(i int) bool {
	loads := m.Job.States[i].Loads
	for k, other := range m.Job.States {
		all := !slices.ContainsFunc(loads, func(l string) bool { return !slices.Contains(other.Loads, l) })
		if k != i && all && (len(other.Loads) > len(loads) || k < i) {
			return true
		}
	}
	return false
}

// fullSettings are a state with full batteries: resistive loads draw most then,
// the more where a source holds the voltage up.
func (m *Facts) fullSettings(of Setting) []Setting {
	if !slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool {
		return l.At != "" && l.Behaves == "resistance" && slices.Contains(of.State.Loads, l.Name)
	}) {
		return nil
	}
	alone := of
	alone.Name, alone.full = of.State.Name+", on full batteries", true
	if len(of.State.Sources) == 0 {
		return []Setting{alone}
	}
	charged := alone
	charged.Name, charged.WithSources = of.State.Name+", with its sources and full batteries", true
	return []Setting{alone, charged}
}

// chargeSettings are a state that charges without loads, with each battery of
// several missing in turn: the others take its charge.
func (m *Facts) chargeSettings(of Setting) []Setting {
	if len(m.chargersIn(of.State)) == 0 {
		return nil
	}
	var all []Setting
	for _, b := range m.Droppable() {
		all = append(all, Setting{
			Index: of.Index, Name: of.State.Name + ", charging without loads and without " + b.Name, State: of.State, WithSources: true, Missing: b.Name, strong: every,
		})
	}
	return all
}

// bankSettings are the loads of a state with each battery of several missing in
// turn; and, as a battery's share follows the resistances, with all of them new
// and with one new among aged.
func (m *Facts) bankSettings(of Setting) []Setting {
	several := m.Droppable()
	if len(several) == 0 || len(of.State.Loads) == 0 {
		return nil
	}
	var all []Setting
	for _, b := range several {
		without := of
		without.Name, without.Missing = of.State.Name+", without "+b.Name, b.Name
		all = append(all, without)
	}
	fresh := of
	fresh.Name, fresh.strong = of.State.Name+", on new batteries", every
	all = append(all, fresh)
	for _, b := range several {
		fresh.Name, fresh.strong = of.State.Name+", "+b.Name+" new among aged", b.Name
		all = append(all, fresh)
	}
	for _, k := range m.Several() {
		all = append(all, m.mixedSettings(of, k.Batteries)...)
	}
	return all
}

// Droppable are the batteries that others of their bank stand in for.
func (m *Facts) Droppable() []job.Battery {
	var all []job.Battery
	for _, k := range m.Several() {
		all = append(all, k.Batteries...)
	}
	return all
}

// mixedSettings are a state with one battery missing and one new among the aged
// rest: of two batteries the one left has no share to take.
func (m *Facts) mixedSettings(of Setting, bank []job.Battery) []Setting {
	if len(bank) < 3 {
		return nil
	}
	var all []Setting
	for _, gone := range bank {
		for _, b := range bank {
			if b.Name != gone.Name {
				mixed := of
				mixed.Name = of.State.Name + ", without " + gone.Name + ", " + b.Name + " new among aged"
				mixed.Missing, mixed.strong = gone.Name, b.Name
				all = append(all, mixed)
			}
		}
	}
	return all
}

// startSettings are a state on the batteries alone with each load that states a
// surge starting in turn while the others run. An inverter's are rule B05.
func (m *Facts) startSettings(of Setting) []Setting {
	var all []Setting
	for _, l := range m.Job.Loads {
		if l.At != "" && l.SurgeW.Valid && slices.Contains(of.State.Loads, l.Name) {
			start := of
			start.Name, start.starts, start.lasts = of.Name+", "+l.Name+" starting", l.Name, StartLasts(l)
			all = append(all, start)
		}
	}
	return all
}

// SolveCases solves those cases that are asked for. Batteries are nearly empty
// and aged unless the case says otherwise: the lowest voltages, and for loads of
// constant power the highest currents.
func (m *Facts) SolveCases(asked func(Setting) bool) error {
	milliohm := make([]decimal.Decimal, len(m.Runs))
	for i, r := range m.Runs {
		milliohm[i] = r.HotMilliohm
	}
	m.Cases = nil
	for i, s := range m.occurring {
		if !asked(s) {
			continue
		}
		c, err := m.solve(i, milliohm)
		if err != nil {
			return err
		}
		m.Cases = append(m.Cases, c)
	}
	return nil
}

func EveryCase(Setting) bool { return true }

// solve solves a case from its beginning, or again where it was solved with
// other resistances.
func (m *Facts) solve(i int, milliohm []decimal.Decimal) (c Solved, err error) {
	c.Setting = m.occurring[i]
	if m.first != nil {
		c.Solution, err = m.first[i].With(m.opened(milliohm, c.Setting))
	} else {
		n, bad := m.network(c.Setting)
		if bad != nil {
			return c, bad
		}
		c.Solution, err = n.Solve()
	}
	if err != nil {
		return c, fmt.Errorf("%s: %w", c.Name, err)
	}
	return c, nil
}

// regulated is the resistance of a source that holds its voltage up to its
// limit: small, for the solver's sake.
var regulated = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.FaultSource("regulated")
	return Tabled(f, err)
})

// Tabled is a figure that the tables are known to hold; a library without it is
// broken.
func Tabled(f working.Figure, err error) decimal.Decimal {
	if err != nil {
		panic(err)
	}
	return f.Value
}

func (m *Facts) network(s Setting) (wire.Network, error) {
	n := wire.Network{Branches: m.Branches(func(r *Run) decimal.Decimal { return m.milliohm(r, s) })}
	for _, b := range m.Job.Batteries {
		if b.Name != s.Missing {
			n.Sources = append(n.Sources, m.Source(b, s))
		}
	}
	if s.WithSources {
		if err := m.addSources(&n, s); err != nil {
			return n, err
		}
	}
	if !s.WithLoads {
		return n, nil
	}
	loads, err := m.loads(s)
	n.Loads = append(n.Loads, loads...)
	return n, err
}

// Source is a battery as it is in a case.
func (m *Facts) Source(b job.Battery, s Setting) wire.NodeSource {
	x := wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.EmptyV, Milliohm: m.High(b)}
	full := s.full || s.fuller != "" && m.sides[s.fuller] == m.sides[b.Name]
	if full {
		x.EMFV = b.FullV
	}
	if full || s.strong == b.Name || s.strong == every && m.IsHouse(b.Name) {
		x.Milliohm = m.low(b)
	}
	return x
}

func (m *Facts) Branches(loop func(*Run) decimal.Decimal) []wire.Branch {
	all := make([]wire.Branch, len(m.Runs))
	for i, r := range m.Runs {
		all[i] = wire.Branch{Name: r.Name, From: r.From, To: r.To, Milliohm: loop(r)}
	}
	return all
}

// addSources adds the alternators and chargers of the state. A converter's
// input is a load of constant power on the engine's side, an alternator also
// carries what the vehicle itself draws. It is hot and holds the lowest voltage
// that it runs at, which leaves least; with batteries full or no loads it holds
// its highest, which drives most.
func (m *Facts) addSources(n *wire.Network, s Setting) error {
	for i, a := range m.Job.Alternators {
		if slices.Contains(s.State.Sources, a.Name) {
			most, err := m.Output(a, s.State.Engine)
			if err != nil {
				return working.In(fmt.Sprintf("alternators[%d]", i), err)
			}
			held := Lowest(a)
			if s.full || !s.WithLoads {
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
	for _, c := range m.Job.Chargers {
		if !slices.Contains(s.State.Sources, c.Name) {
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
func (m *Facts) loads(of Setting) ([]wire.NodeLoad, error) {
	s := of.State
	var all []wire.NodeLoad
	for _, l := range m.Job.Loads {
		if l.At != "" && slices.Contains(s.Loads, l.Name) {
			if l.Name == of.starts {
				l.PowerW, l.CurrentA = decimal.NewNullDecimal(decimal.Max(l.SurgeW.Decimal, m.watts(l))), decimal.NullDecimal{}
			}
			all = append(all, m.direct(l))
		}
	}
	for i, inv := range m.Job.Inverters {
		out := m.InverterOut(inv, s)
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
func (m *Facts) direct(l job.Load) wire.NodeLoad {
	u := m.Job.SystemV
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
func (m *Facts) join() {
	m.index = map[string]int{}
	m.ways, m.lines, m.meshes = map[[2]string][]int{}, map[[2]string][]int{}, map[[2]string][]int{}
	for i, r := range m.Runs {
		r.between = [2]int{m.number(r.From), m.number(r.To)}
		m.laid[i].between = r.between
		for _, at := range r.between {
			m.touching[at] = append(m.touching[at], i)
		}
	}
	m.parts = m.part(func(*Run) bool { return true })
	m.wired = m.parts
}

// part numbers the parts of the network that the runs which join make. A converter
// does not join its sides.
func (m *Facts) part(joins func(*Run) bool) map[string]int {
	parts := map[string]int{}
	for i, node := range m.nodes {
		for todo := []string{node}; len(todo) > 0; todo = todo[1:] {
			if parts[todo[0]] > 0 {
				continue
			}
			parts[todo[0]] = i + 1
			for _, k := range m.touching[m.index[todo[0]]] {
				if joins(m.Runs[k]) {
					todo = append(todo, m.Runs[k].OtherEnd(todo[0]))
				}
			}
		}
	}
	return parts
}

// number is that of a node, new where the name is.
func (m *Facts) number(node string) int {
	i, ok := m.index[node]
	if !ok {
		i = len(m.nodes)
		m.index[node] = i
		m.nodes, m.touching = append(m.nodes, node), append(m.touching, nil)
	}
	return i
}

// Joined reports whether cables join two nodes.
func (m *Facts) Joined(a, b string) bool { return m.parts[a] == m.parts[b] }

// OfHouse reports whether what hangs at a node draws on the house bank.
func (m *Facts) OfHouse(node string) bool {
	return slices.ContainsFunc(m.Job.Batteries, func(b job.Battery) bool { return b.Bank == "house" && m.Joined(node, b.Name) })
}

// way returns the runs from a node up to a source.
func (m *Facts) way(node, source string) []*Run {
	return m.known(m.ways, [2]string{node, source}, func(at string) bool { return at == source })
}

// ToBattery returns the runs from a node up to the nearest battery, one of them
// missing or "" for none.
func (m *Facts) ToBattery(node, missing string) []*Run {
	return m.known(m.lines, [2]string{node, missing}, func(at string) bool { return m.IsBattery(at) && at != missing })
}

// known finds a path once, also for the copies on which a change is tried: no
// change moves a cable.
func (m *Facts) known(paths map[[2]string][]int, key [2]string, isEnd func(at string) bool) []*Run {
	known, ok := paths[key]
	if !ok {
		for _, r := range m.Path(key[0], isEnd) {
			known = append(known, slices.Index(m.Runs, r))
		}
		paths[key] = known
	}
	all := make([]*Run, len(known))
	for i, k := range known {
		all[i] = m.Runs[k]
	}
	return all
}

// Path returns the runs from a node up to the nearest battery or to the source
// named, by breadth first.
func (m *Facts) Path(from string, isEnd func(node string) bool) []*Run {
	way, _, _ := m.reach(from, nil, func(*Run, string) bool { return true }, isEnd)
	var all []*Run
	for _, s := range way {
		all = append(all, s.Run)
	}
	return all
}

// Voltage returns a node's voltage in a case.
func (c Solved) Voltage(node string) (decimal.Decimal, bool) {
	for _, n := range c.Nodes {
		if n.Node == node {
			return n.VoltageV, true
		}
	}
	return decimal.Decimal{}, false
}

// current returns a run's current in a case.
func (c Solved) current(name string) decimal.Decimal {
	for _, b := range c.Branches {
		if b.Name == name {
			return b.CurrentA
		}
	}
	return decimal.Decimal{}
}
