package inspect

import (
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// operates asks of each state whether the network has an operating point in all
// of its cases. Where the loads ask more than batteries and cables can give at
// any voltage there is none: the voltage falls until everything drops out, with
// currents that nobody can name.
func operates(m *model) ([]Finding, error) {
	var all []Finding
	for i, s := range m.job.States {
		f := Finding{Where: s.Name, Path: indexed("states", i)}
		var w working.Working
		w.Given("n_pw", one)
		if at := slices.IndexFunc(m.cases, func(c solved) bool { return c.index == i && c.CollapsedAt != "" }); at < 0 {
			w.Step("n_po", one, cite.Kirchhoff.At("", cite.Published))
		} else {
			w.Step("n_po", decimal.Zero, cite.Kirchhoff.At("", cite.Published))
			w.Note("it shows at " + m.cases[at].CollapsedAt)
			f.Corner = m.cases[at].name + ", seen at " + m.cases[at].CollapsedAt
		}
		f.Check = w.Check("W07", "", "n_pw", "n_po")
		all = append(all, f)
	}
	return all, nil
}

// onCurrents are the rules whose pass rests on the currents and voltages of every
// case.
var onCurrents = []string{"W01", "W02", "W04", "W09", "P01", "P08", "P14", "P15", "P16", "P17", "B01", "B02", "B20", "C03", "C04", "C10"}

const collapsedText = "some state has no operating point, so that its currents are not known: see W07"

// collapsed reports whether any case has no operating point.
func (m *model) collapsed() bool {
	return slices.ContainsFunc(m.cases, func(c solved) bool { return c.CollapsedAt != "" })
}

// unsolved is the finding about a thing of which no case gives the volts: where some
// case has no operating point it is that one, and nothing else judges the thing.
func (m *model) unsolved(id, name string) (Finding, bool) {
	return Finding{Where: name, Check: working.Check{ID: id, Silent: collapsedText}}, m.collapsed()
}
