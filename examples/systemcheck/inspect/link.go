package inspect

import (
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// linksBear asks of each switch that joins the house bank to the starter's what
// flows through it at the moment when it closes, one side full and its sources
// running, the other nearly empty: the difference of their voltages over all
// resistance, as far as the sources go. The contact must bear that and the
// devices beside it stay closed.
func linksBear(m *model) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
		if r.Switch == nil || !m.joinsBanks(r) {
			continue
		}
		closing, err := m.closingCurrent(r)
		if err != nil {
			return nil, working.In(r.path, err)
		}
		all = append(all, Finding{Check: against(closing, momentary(r.Switch), bears(r.Switch)), Where: r.Name + ", its " + r.Switch.Kind, Path: r.path + ".switch"})
		for _, e := range []end{r.endAt(r.From), r.endAt(r.To)} {
			if e.device != nil {
				all = append(all, Finding{Check: against(closing, "I_n", e.device.RatingA), Where: e.where(), Path: e.path})
			}
		}
	}
	if len(all) == 0 {
		return notHere("P27", "the circuits", "circuits", "no switch joins the house bank to another"), nil
	}
	return all, nil
}

func against(closing working.Working, symbol string, limitA decimal.Decimal) working.Check {
	w := working.Start(closing)
	w.Given(symbol, limitA)
	return w.Check("P27", "", "I_cl", symbol)
}

// joinsBanks reports whether batteries of different banks stand on the two sides
// of a run, and nothing else joins the sides.
func (m *model) joinsBanks(r *run) bool {
	from, to := m.side(r.From, r), m.side(r.To, r)
	if from[r.To] {
		return false
	}
	return m.bankOn(from) != "" && m.bankOn(to) != "" && m.bankOn(from) != m.bankOn(to)
}

// side is every node that cables other than one run join to a node.
func (m *model) side(node string, but *run) map[string]bool {
	_, met, _ := m.reach(node, but, func(*run, string) bool { return true }, func(string) bool { return false })
	all := map[string]bool{}
	for i, at := range met {
		all[m.nodes[i]] = at.down != ""
	}
	return all
}

// bankOn names the bank of the batteries among some nodes; "" where there is
// none.
func (m *model) bankOn(nodes map[string]bool) string {
	for _, b := range m.job.Batteries {
		if nodes[b.Name] {
			return b.Bank
		}
	}
	return ""
}

// closingCurrent is the greater of what a link carries as it closes with either
// side full.
func (m *model) closingCurrent(r *run) (w working.Working, err error) {
	most := decimal.Zero
	for _, full := range []string{r.From, r.To} {
		solution, err := m.closed(m.side(full, r)).Solve()
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(solution.Branches, func(b wire.BranchCurrent) bool { return b.Name == r.Name })
		if a := solution.Branches[i].CurrentA.Abs(); w == nil || a.GreaterThan(most) {
			most, w = a, nil
			w.Step("I_cl", a, cite.Kirchhoff.At("", cite.Published))
			w.Note("at the moment of closing, the side of " + full + " full and charged, the other nearly empty, all new, cables cold")
		}
	}
	return w, nil
}

// closed is the installation, without loads, as a link closes on a side that is
// full and whose sources run.
func (m *model) closed(full map[string]bool) wire.Network {
	n := m.strong()
	n.Sources = slices.DeleteFunc(n.Sources, func(s wire.Source) bool { return s.LimitA.Valid && !full[s.Node] })
	for i, s := range n.Sources {
		if j := slices.IndexFunc(m.job.Batteries, func(b job.Battery) bool { return b.Name == s.Name }); j >= 0 && !full[s.Node] {
			n.Sources[i].EMFV = m.job.Batteries[j].EmptyV
		}
	}
	return n
}
