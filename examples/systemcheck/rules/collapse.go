package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofCollapse = []Rule{
	{
		ID: "W07", Title: "Each state can run at all",
		Danger:  "the voltage falls until everything drops out, and no current here is sure",
		Why:     "batteries and cables can give so much power and no more, at whatever voltage",
		Sources: []string{"Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 140,
		Changes: Cables | Devices,
		Advice:  "run less at once, or shorten and thicken the path to what asks so much",
		Worse: []Growth{
			{"batteries.high_milliohm", "×3"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
		},
		Judge: operates,
	},
}

// operates asks of each state whether the network has an operating point in all
// of its cases. Where the loads ask more than batteries and cables can give at
// any voltage there is none: the voltage falls until everything drops out, with
// currents that nobody can name.
func operates(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, s := range m.Job.States {
		f := Finding{Where: s.Name, Path: facts.Indexed("states", i)}
		var w working.Working
		w.Given("n_pw", facts.One)
		if at := slices.IndexFunc(m.Cases, func(c facts.Solved) bool { return c.Index == i && c.CollapsedAt() != "" }); at < 0 {
			w.Step("n_po", facts.One, cite.Kirchhoff.At("", cite.Published))
		} else {
			w.Step("n_po", decimal.Zero, cite.Kirchhoff.At("", cite.Published))
			w.Note("it shows at " + m.Cases[at].CollapsedAt())
			f.Case = m.Cases[at].Name + ", seen at " + m.Cases[at].CollapsedAt()
		}
		f.Check = w.Check("W07", "", "n_pw", "n_po")
		all = append(all, f)
	}
	return all, nil
}

const collapsedText = "some state has no operating point, so that its currents are not known: see W07"

// unsolved is the finding about a thing of which no case gives the volts: where some
// case has no operating point it is that one, and nothing else judges the thing.
func unsolved(m *facts.Facts, id, name string) (Finding, bool) {
	return Finding{Where: name, Check: working.Check{ID: id, Silent: collapsedText}}, m.Collapsed()
}
