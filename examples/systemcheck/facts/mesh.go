package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
)

// mesh is every run that lies on any way between two nodes, all switches closed:
// where there are two ways, both carry.
func (m *Facts) mesh(node, source string) []int {
	all, _ := m.meshes.get([2]string{node, source}, func() (all []int, _ error) {
		names, err := m.solved.Between(node, source)
		if err != nil { // one and the same, or no run ends there
			return nil, nil
		}
		for _, name := range names {
			all = append(all, slices.IndexFunc(m.Runs, func(r *Run) bool { return r.Name == name }))
		}
		return all, nil
	})
	return all
}

// Cranked is every run that an engine's starter can draw through: on any way to any
// battery that is joined to it, by a selector or in a bank; not through a link that
// is usually open.
func (m *Facts) Cranked(l job.Load) []*Run {
	lies := make([]bool, len(m.Runs))
	for _, b := range m.Job.Batteries {
		if !m.Joined(l.At, b.Name) {
			continue
		}
		for _, i := range m.mesh(l.At, b.Name) {
			lies[i] = true
		}
	}
	var all []*Run
	for i, r := range m.Runs {
		if lies[i] {
			all = append(all, r)
		}
	}
	return all
}
