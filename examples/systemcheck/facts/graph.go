package facts

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
)

// join numbers the nodes, finds the runs at each and numbers the parts of the
// network: a converter does not join its sides.
func (m *Facts) join() {
	m.index = map[string]int{}
	m.ways, m.lines, m.meshes = newMemo[[2]string, []int](), newMemo[[2]string, []int](), newMemo[[2]string, []int]()
	m.audits, m.usables = newMemo[string, battery.AuditSum](), newMemo[string, battery.Usable]()
	m.ledgers, m.refills = newMemo[int, MonthLedger](), newMemo[string, Refilling]()
	for i, r := range m.Runs {
		r.between = [2]int{m.number(r.From), m.number(r.To)}
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

// LostIn is the case with a battery lost in which a run carries most.
func (m *Facts) LostIn(run string) string { return m.run(run).Lost.In }

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
func (m *Facts) known(paths *memo[[2]string, []int], key [2]string, isEnd func(at string) bool) []*Run {
	known, _ := paths.get(key, func() (all []int, _ error) {
		for _, r := range m.Path(key[0], isEnd) {
			all = append(all, slices.Index(m.Runs, r))
		}
		return all, nil
	})
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
