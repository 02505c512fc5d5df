package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
)

var ofLeads = []Rule{
	{
		ID: "P30", Title: "Each thing has a lead of its own",
		Danger:  "its lead burns on a fault: no device was chosen for it, and no rule judged it",
		Why:     "what hangs straight on a post or a bus is joined to it by a cable all the same",
		Sources: []string{"common practice"},
		Grade:   Dangerous, Rank: 30,
		Judge: ownLeads,
	},
}

// ownLeads asks of everything that hangs on the posts of something else, or where
// circuits part, what its lead is: no rule can judge a cable that the job does not
// state. What stands at the end of a circuit, with or without others, has that.
func ownLeads(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, h := range m.Hangings() {
		why := m.HangsOn(h)
		if why == "" {
			continue
		}
		f := Finding{Where: h.Name, Path: h.Path, Check: working.Check{ID: "P30"}}
		switch {
		case h.Lead == job.OwnDevice:
			f.Silent = "as stated, its lead has a device of its own where it begins"
		case h.Lead == job.LoopedThrough && !m.IsSource(h.Node):
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
