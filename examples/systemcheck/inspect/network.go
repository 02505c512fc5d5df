package inspect

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
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
}

// solved is a case with its currents and voltages.
type solved struct {
	setting
	wire.Solution
}

// settings lists the cases: in each state its loads on the batteries alone and
// with its sources, its sources without loads, and its loads with each battery
// of the house bank missing in turn.
func (m *model) settings() []setting {
	var all []setting
	for i := range m.job.States {
		s := &m.job.States[i]
		all = append(all, setting{index: i, name: s.Name + ", on the batteries alone", state: s, loads: true})
		if len(s.Sources) > 0 {
			all = append(all,
				setting{index: i, name: s.Name + ", with its sources", state: s, loads: true, sources: true},
				setting{index: i, name: s.Name + ", charging without loads", state: s, sources: true})
		}
		for _, b := range m.house() {
			if len(m.house()) > 1 && len(s.Loads) > 0 {
				all = append(all, setting{index: i, name: s.Name + ", without " + b.Name, state: s, loads: true, missing: b.Name})
			}
		}
	}
	return all
}

func (m *model) house() []job.Battery {
	var all []job.Battery
	for _, b := range m.job.Batteries {
		if b.Bank == "house" {
			all = append(all, b)
		}
	}
	return all
}

// solveCases solves every case with the batteries nearly empty and aged: the
// lowest voltages, and for loads of constant power the highest currents.
func (m *model) solveCases() error {
	m.cases = m.cases[:0]
	for _, s := range m.settings() {
		n, err := m.network(s)
		if err != nil {
			return err
		}
		solution, err := n.Solve()
		if err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
		m.cases = append(m.cases, solved{s, solution})
	}
	return nil
}

// regulated is the resistance of a source that holds its voltage up to its
// limit: small, for the solver's sake.
var regulated = decimal.New(1, 0)

func (m *model) network(s setting) (wire.Network, error) {
	n := wire.Network{Branches: m.branches(func(r *run) decimal.Decimal { return r.hotMilliohm })}
	for _, b := range m.job.Batteries {
		if b.Name != s.missing {
			n.Sources = append(n.Sources, wire.Source{Name: b.Name, Node: b.Name, EMFV: b.EmptyV, Milliohm: m.high(b)})
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
	loads, err := m.loads(s.state)
	n.Loads = append(n.Loads, loads...)
	return n, err
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
// carries what the vehicle itself draws.
func (m *model) addSources(n *wire.Network, s setting) error {
	for i, a := range m.job.Alternators {
		if slices.Contains(s.state.Sources, a.Name) {
			most, err := m.output(a, s.state.Engine)
			if err != nil {
				return working.In(fmt.Sprintf("alternators[%d]", i), err)
			}
			n.Sources = append(n.Sources, wire.Source{
				Name: a.Name, Node: a.Name, EMFV: lowest(a), Milliohm: regulated,
				LimitA: decimal.NewNullDecimal(most),
			})
			n.Loads = append(n.Loads, wire.Load{
				Name: "the vehicle's own loads", Node: a.Name, CurrentA: decimal.NewNullDecimal(a.VehicleA),
			})
		}
	}
	for _, c := range m.job.Chargers {
		if !slices.Contains(s.state.Sources, c.Name) {
			continue
		}
		n.Sources = append(n.Sources, wire.Source{
			Name: c.Name, Node: c.Name, EMFV: c.OutputV, Milliohm: regulated, LimitA: decimal.NewNullDecimal(c.MaxA),
		})
		if c.Kind == "converter" {
			n.Loads = append(n.Loads, wire.Load{
				Name: "input of " + c.Name, Node: c.FedAt, PowerW: decimal.NewNullDecimal(inputW(c)),
			})
		}
	}
	return nil
}

// loads returns what runs in a state. What an inverter feeds draws through it.
func (m *model) loads(s *job.State) ([]wire.Load, error) {
	var all []wire.Load
	for _, l := range m.job.Loads {
		if l.At != "" && slices.Contains(s.Loads, l.Name) {
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
		all = append(all, wire.Load{Name: inv.Name, Node: inv.Name, PowerW: decimal.NewNullDecimal(in)})
	}
	return all, nil
}

// direct returns a load as the solver takes it; what is stated at the nominal
// voltage is turned into what stays the same.
func (m *model) direct(l job.Load) wire.Load {
	u := m.job.SystemV
	w := wire.Load{Name: l.Name, Node: l.At, TripV: l.LeastV}
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

// join numbers the parts of the network: a converter does not join its sides.
func (m *model) join() {
	m.parts = map[string]int{}
	for i, r := range m.runs {
		for todo := []string{r.From}; len(todo) > 0; todo = todo[1:] {
			if m.parts[todo[0]] > 0 {
				continue
			}
			m.parts[todo[0]] = i + 1
			for _, other := range m.runs {
				if far := other.otherEnd(todo[0]); far != "" {
					todo = append(todo, far)
				}
			}
		}
	}
}

// joined reports whether cables join two nodes.
func (m *model) joined(a, b string) bool { return m.parts[a] == m.parts[b] }

// ofHouse reports whether what hangs at a node draws on the house bank.
func (m *model) ofHouse(node string) bool {
	return slices.ContainsFunc(m.house(), func(b job.Battery) bool { return m.joined(node, b.Name) })
}

// way returns the runs from a node up to a source. It is found once, also for
// the copies on which a change is tried: no change moves a cable.
func (m *model) way(node, source string) []*run {
	key := [2]string{node, source}
	known, ok := m.ways[key]
	if !ok {
		for _, r := range m.path(node, func(at string) bool { return at == source }) {
			known = append(known, slices.Index(m.runs, r))
		}
		m.ways[key] = known
	}
	var all []*run
	for _, i := range known {
		all = append(all, m.runs[i])
	}
	return all
}

// path returns the runs from a node up to the nearest battery or to the source
// named, by breadth first.
func (m *model) path(from string, isEnd func(node string) bool) []*run {
	type step struct {
		node string
		by   []*run
	}
	seen := map[string]bool{from: true}
	for queue := []step{{from, nil}}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if isEnd(at.node) {
			return at.by
		}
		for _, r := range m.runs {
			for _, way := range [][2]string{{r.From, r.To}, {r.To, r.From}} {
				if way[0] == at.node && !seen[way[1]] {
					seen[way[1]] = true
					queue = append(queue, step{way[1], append(slices.Clone(at.by), r)})
				}
			}
		}
	}
	return nil
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
