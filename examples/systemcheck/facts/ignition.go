package facts

import (
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

// sparking is a thing of the job that may spark, with the nodes at which it is.
type sparking struct {
	Name, Path string
	Marked     string // what the job says of its ignition
	Nodes      []string
}

// Sparkings lists everything that may spark: articles, loads that cables feed, devices
// and switches. Of a battery it is the management unit; a mains load stands wherever
// its flex reaches.
func (m *Facts) Sparkings() []sparking {
	var all []sparking
	add := func(name, path string, s job.Sparks, nodes ...string) {
		all = append(all, sparking{name, path, s.Ignition, nodes})
	}
	for i, b := range m.Job.Batteries {
		if b.Chemistry.Has(tables.ManagementUnit) {
			add(b.Name+", its management unit", Indexed("batteries", i), b.Sparks, b.Name)
		}
	}
	for i, a := range m.Job.Alternators {
		add(a.Name, Indexed("alternators", i), a.Sparks, a.Name)
	}
	for i, c := range m.Job.Chargers {
		nodes := []string{c.Name}
		if c.FedAt != "" { // a converter stands at its input too
			nodes = append(nodes, c.FedAt)
		}
		add(c.Name, m.ChargerPath(i), c.Sparks, nodes...)
	}
	for i, v := range m.Job.Inverters {
		add(v.Name, Indexed("inverters", i), v.Sparks, v.Name)
	}
	for i, l := range m.Job.Loads {
		if l.At != "" {
			add(l.Name, Indexed("loads", i), l.Sparks, l.At)
		}
	}
	for _, r := range m.Runs {
		for _, e := range []End{r.EndAt(r.From), r.EndAt(r.To)} {
			if e.Fitted != nil {
				add(e.Where(), e.Path, e.Fitted.Sparks, e.Node)
			}
		}
		if r.Switch != nil {
			add(r.Name+", its "+r.Switch.Kind, r.Path+".switch", r.Switch.Sparks, r.From, r.To)
		}
	}
	return all
}

func Ignition(g tables.SafeguardRule) working.Figure { return g.Ignition }

// PetrolBoat reports whether the set that judges is one of petrol boats, and this a
// boat: the spaces have to be told then.
func (m *Facts) PetrolBoat() bool {
	return m.Set.Guards.Ignition.Stated() && !m.Set.Yardstick(m.Job.Craft)
}
