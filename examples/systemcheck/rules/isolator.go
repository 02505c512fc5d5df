package rules

import (
	"strings"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

var ofIsolator = []Rule{
	{
		ID: "P35", Title: "An isolator parts the bank from what draws on it",
		Danger:  "who works on it, or finds it smoking, cannot switch it off",
		Why:     "a bank has no plug to pull",
		Sources: []string{"common practice"},
		Grade:   Dangerous, Rank: 200,
		Advice: "fit an isolator near the bank and within reach, before everything that draws on it, and state it as a switch",
		Worse: []Growth{
			{"circuits.switch", "gone"},
		},
		Judge: cutsOff,
	},
}

// cutsOff asks whether something parts the house bank from all that draws on it: who
// works on it, or finds it smoking, has to. ISO 10133 asks it of craft (from memory,
// but not for a bilge pump); elsewhere it is common practice. On a boat the lead that
// cranks the engine has to part too: no device guards it.
func cutsOff(m *facts.Facts) ([]Finding, error) {
	var uncut []string
	for _, h := range m.Hangings() {
		if m.OfHouse(h.Node) && !m.StaysOn(h) && m.AlwaysOn(h.Node) {
			uncut = append(uncut, h.Name)
		}
	}
	isolator := func(where string, uncut []string) Finding {
		f := Finding{Where: where, Path: "circuits"}
		if len(uncut) > 0 {
			f.Danger = "who works on it, or finds it smoking, cannot cut off " + strings.Join(uncut, ", ")
		}
		return guarded(m, f, "P35", "", len(uncut) == 0, func(g tables.SafeguardRule) working.Figure { return g.Isolator })
	}
	all := []Finding{isolator("the house bank", uncut)}
	if m.Job.Craft != "boat" {
		return all, nil // a vehicle's maker built the rest
	}
	for _, l := range m.StarterMotors() {
		uncut = nil
		if m.AlwaysOnAny(l.At) {
			uncut = []string{l.Name}
		}
		all = append(all, isolator("what cranks the engine by "+l.Name, uncut))
	}
	return all, nil
}
