package facts

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
)

// hung is what draws current at a node: a load, an inverter or a converter's
// input, with what the job states of its lead.
type hung struct {
	Name, Node, Path string
	Lead             string
}

// Hangings lists everything that draws current. An engine's starter has a lead of
// its own by the rules of the file.
func (m *Facts) Hangings() []hung {
	var all []hung
	for i, l := range m.Job.Loads {
		if l.At != "" && !l.Cranking {
			all = append(all, hung{l.Name, l.At, Indexed("loads", i), l.Lead})
		}
	}
	for i, v := range m.Job.Inverters {
		all = append(all, hung{v.Name, v.Name, Indexed("inverters", i), v.Lead})
	}
	for i, c := range m.Job.Chargers {
		if c.FedAt != "" {
			all = append(all, hung{"input of " + c.Name, c.FedAt, m.ChargerPath(i), c.Lead})
		}
	}
	return all
}

// HangsOn tells on what a thing hangs without a lead: the posts of a source, or of
// another unit, or a node where circuits part; "" where it stands at the end of a
// circuit.
func (m *Facts) HangsOn(h hung) string {
	switch {
	case m.IsSource(h.Node):
		return "the posts of " + h.Node
	case m.isPostOfAnother(h):
		return h.Node + ", the posts of another unit"
	case m.parting(h.Node):
		return h.Node + ", where several circuits meet"
	}
	return ""
}

// IsSource reports whether a node is that of a battery, an alternator or a
// charger's output.
func (m *Facts) IsSource(node string) bool {
	return slices.Contains(append(m.sourceNodes(), m.storesAndChargers()...), node)
}

// isPostOfAnother reports whether an inverter or a converter has its input at a
// thing's node: its posts are fused for it, not for what else is put on them.
func (m *Facts) isPostOfAnother(h hung) bool {
	return slices.ContainsFunc(m.Job.Inverters, func(v job.Inverter) bool { return v.Name == h.Node && v.Name != h.Name }) ||
		slices.ContainsFunc(m.Job.Chargers, func(c job.Charger) bool { return c.FedAt == h.Node && "input of "+c.Name != h.Name })
}

// parting reports whether circuits from different places meet at a node.
func (m *Facts) parting(node string) bool {
	beyond := ""
	for _, i := range m.touching[m.index[node]] {
		far := m.Runs[i].OtherEnd(node)
		if beyond != "" && far != beyond {
			return true
		}
		beyond = far
	}
	return false
}
