package job

import (
	"fmt"
	"slices"
)

// returns wants of a run what belongs to its return and nothing of the other kind.
func (l links) returns(c Circuit, path string) {
	if l.good(path, "return_at", "from", "to") && !l.sensed(c) {
		l.fault(under(path, "return_at"), "it left out where neither end is a battery with post_sensor: true")
	}
	switch {
	case !l.good(path, "return"):
	case c.Return == "chassis":
		l.needs(path, "return is chassis", "chassis_milliohm")
	default:
		l.without(path, "return is cable", "chassis_milliohm", "return_size")
	}
}

// sensed reports whether a run ends at a battery with a sensor on its post, or may.
func (l links) sensed(c Circuit) bool {
	if l.bad["batteries"] {
		return true
	}
	for i, b := range l.job.Batteries {
		path := fmt.Sprintf("batteries[%d]", i)
		ends := !l.good(path, "name") || b.Name == c.From || b.Name == c.To
		if ends && (b.PostSensor || l.bad[under(path, "post_sensor")]) {
			return true
		}
	}
	return false
}

// spaces wants each node of a space to be one of the diagram, in one space at most.
func (l links) spaces(articles roll) {
	ends, whole := l.circuitEnds()
	known := namesOf(articles.uses, ends)
	nodes := roll{has: known, whole: whole && articles.whole}
	for name := range known {
		nodes.names = append(nodes.names, name)
	}
	slices.Sort(nodes.names)
	taken := map[string]string{} // node to its space
	for i, s := range l.job.Spaces {
		path := fmt.Sprintf("spaces[%d].nodes", i)
		l.listed(s.Nodes, path, "a node", nodes)
		for k, node := range s.Nodes {
			if other, twice := taken[node]; twice && other != s.Name {
				l.fault(fmt.Sprintf("%s[%d]", path, k), "it in one space; "+other+" has it")
			}
			taken[node] = s.Name
		}
	}
}
