package facts

import (
	"maps"
	"slices"
	"sync"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
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

// apart is how far the voltages of batteries of one bank may differ as they are
// joined: whoever joins them measures that first (common practice).
var apart = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.SizingFigure("apart_when_joined")
	return Tabled(f, err)
})

// Closing is one way in which a switch joins batteries to others.
type Closing struct {
	full string // the node of the side that is full
	Even bool   // batteries of one bank
	wire.Solution
}

// Closings are the ways in which a switch joins batteries to others, either side
// full; none where it joins none. Banks meet as they come, one full and charged
// and the other nearly empty. Batteries of one bank are joined by hand after work
// on them, within 0.1 V of each other and without a charger.
func (m *Facts) Closings(r *Run) ([]Closing, error) {
	var all []Closing
	for _, j := range m.junctions(r) {
		both := maps.Clone(j.from)
		maps.Copy(both, j.to)
		even := len(m.banksOn(both)) == 1
		for _, full := range []string{r.From, r.To} {
			side := j.from
			if full == r.To {
				side = j.to
			}
			solution, err := m.closed(r, both, side, even).Solve()
			if err != nil {
				return nil, err
			}
			all = append(all, Closing{full, even, solution})
		}
	}
	return all, nil
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
		if corner = ""; c.Even {
			corner = "batteries of one bank, joined only within 0.1 V of each other and without a charger"
		}
	}
	return w, corner
}

// Line says in which way a current flows.
func (c Closing) Line(a decimal.Decimal) (w working.Working) {
	w.Step("I_cl", a, cite.Kirchhoff.At("", cite.Published))
	if c.Even {
		w.Note("at the moment of closing, the side of " + c.full + " 0.1 V above the other (common practice: measure first), all new, cables cold")
		return w
	}
	w.Note("at the moment of closing, the side of " + c.full + " full and charged, the other nearly empty, all new, cables cold")
	return w
}

// Through is what a run carries as a link closes; nothing where it has no part in it.
func (c Closing) Through(r *Run) decimal.Decimal {
	return Solved{Solution: c.Solution}.current(r.Name).Abs()
}

func (c Closing) Given(source string) decimal.Decimal {
	return Solved{Solution: c.Solution}.given(source)
}

// closed is what stands on both sides of a link, without loads, as it closes on a
// side that is full and whose sources run, or is a little higher than the other.
func (m *Facts) closed(link *Run, both, full map[string]bool, even bool) wire.Network {
	n := m.strong()
	n.Branches = slices.DeleteFunc(n.Branches, func(b wire.Branch) bool {
		within := both[b.From] && both[b.To] && full[b.From] == full[b.To]
		return b.Name != link.Name && !within
	})
	n.Sources = slices.DeleteFunc(n.Sources, func(s wire.NodeSource) bool {
		return !both[s.Node] || s.LimitA.Valid && (even || !full[s.Node])
	})
	high := m.fullOn(full)
	for i, s := range n.Sources {
		j := slices.IndexFunc(m.Job.Batteries, func(b job.Battery) bool { return b.Name == s.Name })
		switch {
		case j < 0:
		case even && full[s.Node]:
			n.Sources[i].EMFV = high
		case even:
			n.Sources[i].EMFV = high.Sub(apart())
		case !full[s.Node]:
			n.Sources[i].EMFV = m.Job.Batteries[j].EmptyV
		}
	}
	return n
}

// fullOn is the voltage of the first battery among some nodes when it is full.
func (m *Facts) fullOn(nodes map[string]bool) decimal.Decimal {
	i := slices.IndexFunc(m.Job.Batteries, func(b job.Battery) bool { return nodes[b.Name] })
	return m.Job.Batteries[i].FullV
}
