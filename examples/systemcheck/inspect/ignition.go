package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

// sparking is a thing of the job that may spark, with the nodes at which it is.
type sparking struct {
	name, path string
	marked     string // what the job says of its ignition
	nodes      []string
}

// sparkings lists everything that may spark: articles, loads that cables feed, devices
// and switches. Of a battery it is the management unit; a mains load stands wherever
// its flex reaches.
func (m *model) sparkings() []sparking {
	var all []sparking
	add := func(name, path string, s job.Sparks, nodes ...string) {
		all = append(all, sparking{name, path, s.Ignition, nodes})
	}
	for i, b := range m.job.Batteries {
		if b.Chemistry.Has(tables.ManagementUnit) {
			add(b.Name+", its management unit", indexed("batteries", i), b.Sparks, b.Name)
		}
	}
	for i, a := range m.job.Alternators {
		add(a.Name, indexed("alternators", i), a.Sparks, a.Name)
	}
	for i, c := range m.job.Chargers {
		add(c.Name, m.chargerPath(i), c.Sparks, c.Name)
	}
	for i, v := range m.job.Inverters {
		add(v.Name, indexed("inverters", i), v.Sparks, v.Name)
	}
	for i, l := range m.job.Loads {
		if l.At != "" {
			add(l.Name, indexed("loads", i), l.Sparks, l.At)
		}
	}
	for _, r := range m.runs {
		for _, e := range []end{r.endAt(r.From), r.endAt(r.To)} {
			if e.device != nil {
				add(e.where(), e.path, e.device.Sparks, e.node)
			}
		}
		if r.Switch != nil {
			add(r.Name+", its "+r.Switch.Kind, r.path+".switch", r.Switch.Sparks, r.From, r.To)
		}
	}
	return all
}

// nothingIgnites asks of everything that may spark in a space where petrol vapour or
// liquefied gas may gather whether it is ignition protected. A switch counts as in a
// space where either end of its circuit is.
func nothingIgnites(m *model) ([]Finding, error) {
	if m.petrolBoat() && len(m.job.Spaces) == 0 {
		f := Finding{Where: "the spaces", Path: "spaces"}
		return []Finding{m.guarded(f, "P34", "look where petrol is: "+m.set.Name+" judge what stands there; state the spaces of the boat, what gathers in each and the nodes in it", false, ignition)}, nil
	}
	var all []Finding
	for _, s := range m.job.Spaces {
		if s.Gathers == "neither" {
			continue
		}
		for _, x := range m.sparkings() {
			if !slices.ContainsFunc(x.nodes, func(node string) bool { return slices.Contains(s.Nodes, node) }) {
				continue
			}
			missing := ""
			if x.marked == "" {
				missing = "look for the mark of ignition protection on it and state ignition, or move it out of " + s.Name + ": " + s.Gathers + " may gather there"
			}
			all = append(all, m.guarded(Finding{Where: x.name + ", in " + s.Name, Path: x.path}, "P34", missing, x.marked == "protected", ignition))
		}
	}
	if len(all) == 0 {
		return notHere("P34", "the spaces", "spaces", "nothing is said to stand where petrol vapour or liquefied gas may gather"), nil
	}
	return all, nil
}

func ignition(g tables.SafeguardRule) working.Figure { return g.Ignition }

// petrolBoat reports whether the set that judges is one of petrol boats, and this a
// boat: the spaces have to be told then.
func (m *model) petrolBoat() bool {
	return m.set.Guards.Ignition.Stated() && !m.set.Yardstick(m.job.Craft)
}
