package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
)

// hung is what draws current at a node: a load, an inverter or a converter's
// input, with what the job states of its lead.
type hung struct {
	name, node, path string
	lead             string
}

// hangings lists everything that draws current. An engine's starter has a lead of
// its own by the rules of the file.
func (m *model) hangings() []hung {
	var all []hung
	for i, l := range m.job.Loads {
		if l.At != "" && !l.Cranking {
			all = append(all, hung{l.Name, l.At, indexed("loads", i), l.Lead})
		}
	}
	for i, v := range m.job.Inverters {
		all = append(all, hung{v.Name, v.Name, indexed("inverters", i), v.Lead})
	}
	for i, c := range m.job.Chargers {
		if c.FedAt != "" {
			all = append(all, hung{"input of " + c.Name, c.FedAt, m.chargerPath(i), c.Lead})
		}
	}
	return all
}

// ownLeads asks of everything that hangs on the posts of something else, or where
// circuits part, what its lead is: no rule can judge a cable that the job does not
// state. What stands at the end of a circuit, with or without others, has that.
func ownLeads(m *model) ([]Finding, error) {
	var all []Finding
	for _, h := range m.hangings() {
		why := m.hangsOn(h)
		if why == "" {
			continue
		}
		f := Finding{Where: h.name, Path: h.path, Check: working.Check{ID: "P30"}}
		switch {
		case h.lead == job.OwnDevice:
			f.Silent = "as stated, its lead has a device of its own where it begins"
		case h.lead == job.LoopedThrough && !m.isSource(h.node):
			f.Silent = "as stated, the cables end on its own terminals"
		default:
			f.Missing = "it hangs straight on " + why + ": state its lead as a circuit, or lead: " + job.OwnDevice + " where that is so"
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("P30", "the loads", "loads", "each stands at the end of a circuit"), nil
	}
	return all, nil
}

// hangsOn tells on what a thing hangs without a lead: the posts of a source, or of
// another unit, or a node where circuits part; "" where it stands at the end of a
// circuit.
func (m *model) hangsOn(h hung) string {
	switch {
	case m.isSource(h.node):
		return "the posts of " + h.node
	case m.isPostOfAnother(h):
		return h.node + ", the posts of another unit"
	case m.parting(h.node):
		return h.node + ", where several circuits meet"
	}
	return ""
}

// isSource reports whether a node is that of a battery, an alternator or a
// charger's output.
func (m *model) isSource(node string) bool {
	return slices.Contains(append(m.sourceNodes(), m.storesAndChargers()...), node)
}

// isPostOfAnother reports whether an inverter or a converter has its input at a
// thing's node: its posts are fused for it, not for what else is put on them.
func (m *model) isPostOfAnother(h hung) bool {
	return slices.ContainsFunc(m.job.Inverters, func(v job.Inverter) bool { return v.Name == h.node && v.Name != h.name }) ||
		slices.ContainsFunc(m.job.Chargers, func(c job.Charger) bool { return c.FedAt == h.node && "input of "+c.Name != h.name })
}

// parting reports whether circuits from different places meet at a node.
func (m *model) parting(node string) bool {
	beyond := ""
	for _, i := range m.touching[m.index[node]] {
		far := m.runs[i].otherEnd(node)
		if beyond != "" && far != beyond {
			return true
		}
		beyond = far
	}
	return false
}
