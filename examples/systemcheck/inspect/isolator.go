package inspect

import (
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
)

// cutOff asks whether something parts the house bank from all that draws on it: who
// works on it, or finds it smoking, has to. It is common practice on vehicles and
// asked of craft (ISO 10133, from memory, but not for a bilge pump); that the
// switch is near the batteries and within reach no file shows.
func (m *model) cutOff() []Finding {
	var uncut []string
	for _, h := range m.hangings() {
		if m.ofHouse(h.node) && !m.staysOn(h) && m.alwaysOn(h.node) {
			uncut = append(uncut, h.name)
		}
	}
	if len(uncut) == 0 {
		return nil
	}
	return []Finding{{Where: "the house bank", Path: "circuits", Check: working.Check{ID: "P15",
		Missing: "look for the isolator of the bank, near it and within reach, and state it as a switch: none parts it from " + strings.Join(uncut, ", ")}}}
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
