package facts

import (
	"maps"
	"slices"
)

// Apart is the same model with a memory of its own.
func (m *Facts) Apart() *Facts {
	own := *m
	own.faults, own.through = maps.Clone(m.faults), maps.Clone(m.through)
	own.Windows, own.backs = maps.Clone(m.Windows), maps.Clone(m.backs)
	own.startVolts = maps.Clone(m.startVolts)
	own.ways, own.lines, own.meshes = maps.Clone(m.ways), maps.Clone(m.lines), maps.Clone(m.meshes)
	return &own
}

// Relaid puts a run in another size and finds what each carries then.
func (m *Facts) Relaid(name string) error {
	runs := make([]*Run, len(m.Runs))
	solved := m.solved
	for i, r := range m.laid {
		r.Circuit = m.Job.Circuits[i]
		if runs[i] = &r; r.Name != name {
			continue
		}
		var err error
		if runs[i], err = NewRun(r.Circuit, m.Set, r.Path); err != nil {
			return err
		}
		runs[i].between = r.between
		if solved, err = solved.With(m.circuit(runs[i])); err != nil {
			return err
		}
	}
	m.Runs = runs
	return m.warm(solved)
}

// Refitted puts another device at an end, and asks about that end alone. The
// currents stay as they are.
func (m *Facts) Refitted(at string) {
	runs := make([]*Run, len(m.Runs))
	for i, r := range m.Runs {
		own := *r
		own.Circuit = m.Job.Circuits[i]
		runs[i] = &own
	}
	m.Runs = runs
	m.Windows, m.backs = maps.Clone(m.Windows), map[string]Backing{}
	delete(m.Windows, at)
	m.Only = map[string]bool{at: true}
}

// Same reports whether two things that stand behind an end are alike and no
// device at a place is one of their guards.
func (b Backing) Same(c Backing, place string) bool {
	return b.LimitA.Equal(c.LimitA) && b.OwnA.Equal(c.OwnA) &&
		b.Unlimited == c.Unlimited && b.Fed == c.Fed && b.Battery == c.Battery &&
		slices.EqualFunc(b.Guards, c.Guards, func(g, h End) bool { return g.Path == h.Path && g.Path != place })
}
