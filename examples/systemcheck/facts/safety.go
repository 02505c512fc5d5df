package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
)

// StopsSafety reports whether a thing of the job, by its path or as the run that
// leads to it, is a load that safety hangs on or an inverter that feeds one.
func (m *Facts) StopsSafety(path, circuit string) bool {
	for i, l := range m.Job.Loads {
		if !l.Safety {
			continue
		}
		if path == Indexed("loads", i) || l.Inverter != "" && path == m.inverterPath(l.Inverter) || m.ends(circuit, l.Node()) {
			return true
		}
	}
	return false
}

// ends reports whether a run leads to a node.
func (m *Facts) ends(circuit, node string) bool {
	return slices.ContainsFunc(m.Job.Circuits, func(c job.Circuit) bool { return c.Name == circuit && c.To == node })
}

func (m *Facts) inverterPath(name string) string {
	return Indexed("inverters", slices.IndexFunc(m.Job.Inverters, func(inv job.Inverter) bool { return inv.Name == name }))
}
