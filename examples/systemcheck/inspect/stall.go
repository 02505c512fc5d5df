package inspect

import (
	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
)

// stopsStall asks of the device nearest to each load that states what its stalled
// motor draws whether it opens before the motor is hurt. One device that does is
// enough.
func stopsStall(m *model) ([]Finding, error) {
	var all []Finding
	for i, l := range m.job.Loads {
		if !l.StallA.Valid {
			continue
		}
		f := Finding{Where: l.Name, Path: indexed("loads", i), Check: working.Check{ID: "P29", Missing: "no device stands before its motor: ask whether it has a protector of its own"}}
		if guards := inSeries(l.Node(), m.toBattery(l.Node(), "")); len(guards) > 0 {
			c, err := article(guards[0].device).StopsStall(protect.Stall{CurrentA: l.StallA.Decimal, BearsS: l.StallS})
			if err != nil {
				return nil, working.In(f.Path, err)
			}
			f.Check, f.Where = c, l.Name+", by the device of "+guards[0].where()
		}
		all = append(all, f)
	}
	if len(all) == 0 {
		return notHere("P29", "the loads", "loads", "none states what its motor draws with the rotor held"), nil
	}
	return all, nil
}
