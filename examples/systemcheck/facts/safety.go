package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
)

// StopsSafety reports whether a thing of the job, by its path or as a run, is a load
// that safety hangs on, an inverter that feeds one, or on the way to one from a battery
// of its bank.
func (m *Facts) StopsSafety(path, circuit string) bool {
	for i, l := range m.Job.Loads {
		if !l.Safety {
			continue
		}
		if path == Indexed("loads", i) || l.Inverter != "" && path == m.inverterPath(l.Inverter) || m.feeds(circuit, l.Node()) {
			return true
		}
	}
	return false
}

// feeds reports whether a run lies between a node and a battery of its bank.
func (m *Facts) feeds(circuit, node string) bool {
	return slices.ContainsFunc(m.OwnBank(node), func(b string) bool {
		return slices.ContainsFunc(m.way(node, b), func(r *Run) bool { return r.Name == circuit })
	})
}

func (m *Facts) inverterPath(name string) string {
	return Indexed("inverters", slices.IndexFunc(m.Job.Inverters, func(inv job.Inverter) bool { return inv.Name == name }))
}
