package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
)

// At is the node of a finding about an end: "alternator" of "lead, at alternator".
func (f Finding) At() string {
	_, node, _ := strings.Cut(f.Where, ", at ")
	return node
}

// Reason is why a device has the window that it has, and whether no standard
// rating is inside it; "" for a finding of another kind.
func Reason(m *facts.Facts, f Finding) (reason string, empty bool) {
	if !slices.Contains([]string{"P01", "P02", "P03"}, f.ID) {
		return "", false
	}
	for _, e := range m.Ends() {
		if e.Fitted == nil || e.Path != f.Path {
			continue
		}
		if r, err := m.Window(e); err == nil {
			return r.Window.Reason, len(r.Window.InsideA) == 0
		}
	}
	return "", false
}

// Prefill says what resistor keeps the current within what the contact bears.
func Prefill(m *facts.Facts, f Finding) string {
	inv := m.Job.Inverters[slices.IndexFunc(m.Job.Inverters, func(v job.Inverter) bool { return v.Name == f.Where })]
	r, err := m.Filling(inv, facts.Bears(m.WeakestContact(inv.Name)))
	if err != nil {
		return "fill the input through a resistor before the contact closes, and state precharge_ohm"
	}
	return fmt.Sprintf("fill the input through a resistor before the contact closes, %s ohm or more; it takes %s J at each charge. State it as precharge_ohm",
		r.Ohm, r.EnergyJ.Round(2))
}
