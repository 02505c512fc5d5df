package facts

import (
	"slices"

	"example.org/extralow/wire/installation"
)

// Relaid puts a run in another size and finds what each carries then.
func (m *Facts) Relaid(name string) error {
	i := slices.IndexFunc(m.Runs, func(r *Run) bool { return r.Name == name })
	relaid, err := NewRun(m.Job.Circuits[i], m.Set, m.Runs[i].Path)
	if err != nil {
		return err
	}
	relaid.between = m.Runs[i].between
	solved, err := m.solved.With(m.circuit(relaid))
	if err != nil {
		return err
	}
	m.Runs = m.copied()
	m.Runs[i] = relaid
	backs := m.backs
	err = m.warm(solved)
	m.backs = backs // they hang on devices and sources, and on no size
	return err
}

// copied are the runs with what the job says of each now.
func (m *Facts) copied() []*Run {
	runs := make([]*Run, len(m.Runs))
	for i, r := range m.Runs {
		own := *r
		own.Circuit = m.Job.Circuits[i]
		runs[i] = &own
	}
	return runs
}

// Refitted puts another device at an end, and asks about that end alone. The
// currents stay as they are.
func (m *Facts) Refitted(at string) {
	m.Runs = m.copied()
	m.Rated(at)
	m.Only = map[string]bool{at: true}
}

// Sees reports whether the device at a place may count in what stands behind an end:
// whether its run lies on any way from there to a source.
func (m *Facts) Sees(e End, place string) bool {
	i := slices.IndexFunc(m.Runs, func(r *Run) bool { return slices.Contains(r.devices[:], place) })
	return i < 0 || m.Runs[i] != e.Run && m.Between(m.Runs[i], e.Node, slices.Concat(m.sourceNodes(), m.storesAndChargers()))
}

// Rated forgets the window of the device at an end, which is another, and what stands
// behind any end.
func (m *Facts) Rated(at string) {
	own := *m.found
	own.windows, own.backs = m.windows.without(at), newMemo[string, installation.Infeed]()
	m.found = &own
}

// Same reports whether two things that stand behind an end are alike and no
// device at a place is one of their guards.
func (b Backing) Same(c Backing, place string) bool {
	return b.LimitA.Equal(c.LimitA) && b.OwnA.Equal(c.OwnA) &&
		b.Unlimited == c.Unlimited && b.Fed == c.Fed && b.Battery == c.Battery &&
		slices.EqualFunc(b.Guards, c.Guards, func(g, h End) bool { return g.Path == h.Path && g.Path != place })
}
