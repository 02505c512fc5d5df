package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
)

var ofIgnition = []Rule{
	{
		ID: "P34", Title: "What stands among petrol or gas is ignition protected",
		Danger:  "its spark sets off petrol vapour or gas, and the craft burns or bursts",
		Why:     "contacts, brushes and fuses spark in ordinary use; vapour and liquefied gas are heavier than air and gather low down",
		Sources: []string{"33 CFR 183", "common practice"},
		Grade:   Dangerous, Rank: 10,
		Advice: "move it out of that space, or fit one that is marked as ignition protected; leave what carries petrol or gas to those who may",
		Worse: []Growth{
			{"loads.ignition", "gone"},
		},
		Judge: nothingIgnites,
	},
}

// nothingIgnites asks of everything that may spark in a space where petrol vapour or
// liquefied gas may gather whether it is ignition protected. A switch counts as in a
// space where either end of its circuit is.
func nothingIgnites(m *facts.Facts) ([]Finding, error) {
	if m.PetrolBoat() && len(m.Job.Spaces) == 0 {
		f := Finding{Where: "the spaces", Path: "spaces"}
		return []Finding{guarded(m, f, "P34", "look where petrol is: "+m.Set.Name+" judge what stands there; state the spaces of the boat, what gathers in each and the nodes in it", false, facts.Ignition)}, nil
	}
	var all []Finding
	for _, s := range m.Job.Spaces {
		if s.Gathers == "neither" {
			continue
		}
		for _, x := range m.Sparkings() {
			if !slices.ContainsFunc(x.Nodes, func(node string) bool { return slices.Contains(s.Nodes, node) }) {
				continue
			}
			missing := ""
			if x.Marked == "" {
				missing = "look for the mark of ignition protection on it and state ignition, or move it out of " + s.Name + ": " + s.Gathers + " may gather there"
			}
			all = append(all, guarded(m, Finding{Where: x.Name + ", in " + s.Name, Path: x.Path}, "P34", missing, x.Marked == "protected", facts.Ignition))
		}
	}
	if len(all) == 0 {
		return notHere("P34", "the spaces", "spaces", "nothing is said to stand where petrol vapour or liquefied gas may gather"), nil
	}
	return all, nil
}
