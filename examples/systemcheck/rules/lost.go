package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
)

var ofLost = []Rule{
	{
		ID: "P36", Title: "The others carry on when a battery drops out",
		Danger:  "one battery drops out, the device of the next opens on what is left to it, and all is dark",
		Why:     "what two batteries shared flows through the lead of the one that is left",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 445,
		RestsOn: Currents | Resistance,
		Changes: Cables | Devices,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Advice:  "fit a larger device with a thicker lead, or let less run while a battery is missing",
		Worse: []Growth{
			{"circuits.device.rating_a", "÷1.6"}, {"circuits.far_device.rating_a", "÷1.6"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
		},
		Judge: carriesOnAlone,
	},
}

// carriesOnAlone asks of each device that carries more with a battery missing than in
// normal use whether it carries that without end. What is asked of it in normal use it
// carries by P01.
func carriesOnAlone(m *facts.Facts) ([]Finding, error) {
	all, err := fitted(m, func(e facts.End) (working.Check, error) {
		if !e.Lost.A.GreaterThan(e.DesignA) {
			return working.Check{ID: "P36", Silent: facts.Unstated}, nil
		}
		var w working.Working
		w.Step("I_ls", e.Lost.A, cite.Kirchhoff.At("", cite.Published))
		return withoutEnd(e, "P36", w, "I_ls")
	})
	var found []Finding
	for _, f := range all {
		if f.Silent != facts.Unstated {
			f.Case, f.RuleSet = m.LostIn(f.Circuit), ""
			found = append(found, f)
		}
	}
	if len(found) == 0 && err == nil {
		if m.Collapsed() {
			return notHere("P36", "the devices", "circuits", collapsedText), nil
		}
		return notHere("P36", "the devices", "circuits", "none carries more when a battery drops out"), nil
	}
	return found, err
}
