package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
)

var ofStall = []Rule{
	{
		ID: "P29", Title: "A stalled motor is switched off in time",
		Danger:  "the motor burns while its fuse holds",
		Why:     "with its rotor held a motor draws several times its current, often too little to open a fuse soon",
		Sources: []string{"ISO 8820-3:2015"},
		Grade:   Dangerous, Rank: 440,
		Changes: Cables | Devices,
		Advice:  "fit a smaller or faster device at the load, or a protector in the motor",
		Judge:   stopsStall,
	},
}

// stopsStall asks of the device nearest to each load that states what its stalled
// motor draws whether it opens before the motor is hurt. One device that does is
// enough.
func stopsStall(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, l := range m.Job.Loads {
		if !l.StallA.Valid {
			continue
		}
		f := Finding{Where: l.Name, Path: facts.Indexed("loads", i), Check: working.Check{ID: "P29", Missing: "no device stands before its motor: ask whether it has a protector of its own"}}
		if guards := facts.InSeries(l.Node(), m.ToBattery(l.Node(), "")); len(guards) > 0 {
			c, err := facts.Article(guards[0].Fitted).StopsStall(protect.Stall{CurrentA: l.StallA.Decimal, BearsS: l.StallS})
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			f.Check, f.Where = c, l.Name+", by the device of "+guards[0].Where()
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("P29", "the loads", "loads", "none states what its motor draws with the rotor held"), nil
	}
	return all, nil
}
