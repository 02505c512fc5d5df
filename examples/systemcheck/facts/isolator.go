package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
)

// StaysOn reports whether a thing may bypass the isolator: on a boat what must run
// while nobody is aboard.
func (m *Facts) StaysOn(h hung) bool {
	return m.Job.Craft == "boat" && slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool { return l.Name == h.Name && l.MustRun })
}

// AlwaysOn reports whether a node hangs on a house battery with every isolator and
// contactor open.
func (m *Facts) AlwaysOn(node string) bool { return m.onOf(node, m.IsHouse) }

// AlwaysOnAny reports the same of any battery.
func (m *Facts) AlwaysOnAny(node string) bool { return m.onOf(node, m.IsBattery) }

func (m *Facts) onOf(node string, battery func(string) bool) bool {
	closed := func(r *Run, _ string) bool {
		return r.Switch == nil || r.Switch.Kind != "isolator" && r.Switch.Kind != "contactor"
	}
	_, _, on := m.reach(node, nil, closed, battery)
	return on
}
