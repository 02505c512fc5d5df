package facts

import (
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

// Side is every node that the runs which conduct join to a node.
func (m *Facts) Side(node string, conducts func(*Run, string) bool) map[string]bool {
	_, met, _ := m.reach(node, nil, conducts, func(string) bool { return false })
	all := map[string]bool{node: true}
	for i, at := range met {
		if at.down != "" {
			all[m.nodes[i]] = true
		}
	}
	return all
}

// banksOn names the banks of the batteries among some nodes.
func (m *Facts) banksOn(nodes map[string]bool) []string {
	var all []string
	for _, b := range m.Job.Batteries {
		if nodes[b.Name] && !slices.Contains(all, b.Bank) {
			all = append(all, b.Bank)
		}
	}
	return all
}

// bankOn names the bank of the first battery among some nodes; "" where there is
// none.
func (m *Facts) bankOn(nodes map[string]bool) string {
	for _, bank := range m.banksOn(nodes) {
		return bank
	}
	return ""
}

// Closing is one way in which a switch joins batteries to others.
type Closing struct{ installation.Closing }

// Closings are the ways in which a switch joins batteries to others, either side
// full; none where it joins none. Banks meet as they come, one full and charged
// and the other nearly empty. Batteries of one bank are joined by hand after work
// on them, within 0.1 V of each other and without a charger.
func (m *Facts) Closings(r *Run) ([]Closing, error) {
	found, err := m.solved.Closing(r.Name)
	var all []Closing
	for _, c := range found {
		all = append(all, Closing{c})
	}
	return all, err
}

// Most is the line of the most that a run carries as a link closes.
func Most(r *Run, all []Closing) (w working.Working, corner string) {
	greatest := decimal.Zero
	for _, c := range all {
		a := c.Through(r)
		if w != nil && a.LessThanOrEqual(greatest) {
			continue
		}
		greatest, w = a, c.Line(a)
		if corner = ""; c.OneBank {
			corner = "batteries of one bank, joined only within 0.1 V of each other and without a charger"
		}
	}
	return w, corner
}

// Line says in which way a current flows.
func (c Closing) Line(a decimal.Decimal) (w working.Working) {
	w.Step("I_cl", a, cite.Kirchhoff.At("", cite.Published))
	if c.OneBank {
		w.Note("at the moment of closing, the side of " + c.Full + " 0.1 V above the other (common practice: measure first), all new, cables cold")
		return w
	}
	w.Note("at the moment of closing, the side of " + c.Full + " full and charged, the other nearly empty, all new, cables cold")
	return w
}

// Through is what a run carries as a link closes; nothing where it has no part in it.
func (c Closing) Through(r *Run) decimal.Decimal {
	for _, b := range c.Circuits {
		if b.Name == r.Name {
			return b.CurrentA.Abs()
		}
	}
	return decimal.Zero
}

// Given is what a battery or a source gives as a link closes.
func (c Closing) Given(source string) decimal.Decimal {
	for _, s := range c.Sources {
		if s.Name == source {
			return s.CurrentA
		}
	}
	return decimal.Zero
}
