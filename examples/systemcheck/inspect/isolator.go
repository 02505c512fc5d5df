package inspect

import (
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

// cutsOff asks whether something parts the house bank from all that draws on it: who
// works on it, or finds it smoking, has to. ISO 10133 asks it of craft (from memory,
// but not for a bilge pump); elsewhere it is common practice.
func cutsOff(m *model) ([]Finding, error) {
	var uncut []string
	for _, h := range m.hangings() {
		if m.ofHouse(h.node) && !m.staysOn(h) && m.alwaysOn(h.node) {
			uncut = append(uncut, h.name)
		}
	}
	f := Finding{Where: "the house bank", Path: "circuits"}
	if len(uncut) > 0 {
		f.Danger = "who works on it, or finds it smoking, cannot cut off " + strings.Join(uncut, ", ")
	}
	return []Finding{m.guarded(f, "P35", "", len(uncut) == 0, func(g tables.SafeguardRule) working.Figure { return g.Isolator })}, nil
}

// staysOn reports whether a thing may bypass the isolator: on a boat what must run
// while nobody is aboard.
func (m *model) staysOn(h hung) bool {
	return m.job.Craft == "boat" && slices.ContainsFunc(m.job.Loads, func(l job.Load) bool { return l.Name == h.name && l.MustRun })
}

// alwaysOn reports whether a node hangs on a house battery with every isolator and
// contactor open.
func (m *model) alwaysOn(node string) bool {
	closed := func(r *run, _ string) bool {
		return r.Switch == nil || r.Switch.Kind != "isolator" && r.Switch.Kind != "contactor"
	}
	_, _, on := m.reach(node, nil, closed, m.isHouse)
	return on
}
