package inspect

import (
	"errors"
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

// linksBear asks of each switch that joins batteries to batteries what flows
// through it at the moment when it closes: the difference of their voltages over
// all resistance, as far as the sources go. The contact must bear that, the devices
// beside it carry it, so do the cables on its way, and the units of lithium batteries
// stay closed: it lasts for as long as the two sides differ.
func linksBear(m *model) ([]Finding, error) {
	var all []Finding
	for _, r := range m.runs {
		if r.Switch == nil {
			continue
		}
		ways, err := m.closings(r)
		if err != nil {
			return nil, working.In(r.path, err)
		}
		carried, corner := most(r, ways)
		if carried == nil {
			continue
		}
		all = append(all, m.unitsBear(r, ways)...)
		all = append(all, m.cablesBear(r, ways)...)
		contact := working.Start(carried)
		contact.Given(momentary(r.Switch), bears(r.Switch))
		all = append(all, Finding{
			Check: contact.Check("P27", "", "I_cl", momentary(r.Switch)), Where: r.Name + ", its " + r.Switch.Kind, Path: r.path + ".switch", Corner: corner,
		})
		for _, e := range []end{r.endAt(r.From), r.endAt(r.To)} {
			if e.device == nil {
				continue
			}
			c, err := e.carriesOn(carried)
			if err != nil {
				return nil, working.In(e.path, err)
			}
			all = append(all, Finding{Check: c, Where: e.where(), Path: e.path, Corner: corner})
		}
	}
	if len(all) == 0 {
		return notHere("P27", "the circuits", "circuits", "no switch joins batteries to others"), nil
	}
	return all, nil
}

// carriesOn compares what flows as a link closes with what a device carries
// without end: its conventional holding current, or its rating where its
// standard fixes none. That it holds for a moment does not help: two banks
// take minutes to come together.
func (e end) carriesOn(closing working.Working) (working.Check, error) {
	held, err := article(e.device).ConventionalCurrents()
	if err != nil && !errors.Is(err, tables.ErrNotListed) {
		return working.Check{}, err
	}
	if err == nil && held.HoldsA.Valid {
		w := working.Start(closing, held.Working)
		return w.Check("P27", "", "I_cl", "I_1"), nil
	}
	w := working.Start(closing)
	w.Given("I_n", e.device.RatingA)
	return w.Check("P27", "", "I_cl", "I_n"), nil
}

// side is every node that the runs which conduct join to a node.
func (m *model) side(node string, conducts func(*run, string) bool) map[string]bool {
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
func (m *model) banksOn(nodes map[string]bool) []string {
	var all []string
	for _, b := range m.job.Batteries {
		if nodes[b.Name] && !slices.Contains(all, b.Bank) {
			all = append(all, b.Bank)
		}
	}
	return all
}

// bankOn names the bank of the first battery among some nodes; "" where there is
// none.
func (m *model) bankOn(nodes map[string]bool) string {
	for _, bank := range m.banksOn(nodes) {
		return bank
	}
	return ""
}

// apart is how far the voltages of batteries of one bank may differ as they are
// joined: whoever joins them measures that first (common practice).
var apart = sync.OnceValue(func() decimal.Decimal {
	f, err := tables.SizingFigure("apart_when_joined")
	return tabled(f, err)
})

// closing is one way in which a switch joins batteries to others.
type closing struct {
	full string // the node of the side that is full
	even bool   // batteries of one bank
	wire.Solution
}

// closings are the ways in which a switch joins batteries to others, either side
// full; none where it joins none. Banks meet as they come, one full and charged
// and the other nearly empty. Batteries of one bank are joined by hand after work
// on them, within 0.1 V of each other and without a charger.
func (m *model) closings(r *run) ([]closing, error) {
	var all []closing
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
			all = append(all, closing{full, even, solution})
		}
	}
	return all, nil
}

// most is the line of the most that a switch carries as it closes.
func most(r *run, all []closing) (w working.Working, corner string) {
	greatest := decimal.Zero
	for _, c := range all {
		i := slices.IndexFunc(c.Branches, func(b wire.BranchCurrent) bool { return b.Name == r.Name })
		a := c.Branches[i].CurrentA.Abs()
		if w != nil && a.LessThanOrEqual(greatest) {
			continue
		}
		greatest, w = a, c.line(a)
		if corner = ""; c.even {
			corner = "batteries of one bank, joined only within 0.1 V of each other and without a charger"
		}
	}
	return w, corner
}

// line says in which way a current flows.
func (c closing) line(a decimal.Decimal) (w working.Working) {
	w.Step("I_cl", a, cite.Kirchhoff.At("", cite.Published))
	if c.even {
		w.Note("at the moment of closing, the side of " + c.full + " 0.1 V above the other (common practice: measure first), all new, cables cold")
		return w
	}
	w.Note("at the moment of closing, the side of " + c.full + " full and charged, the other nearly empty, all new, cables cold")
	return w
}

// unitsBear asks of each lithium battery whether its management unit stays closed
// as banks are joined: what the battery gives or takes against its own limit.
func (m *model) unitsBear(r *run, all []closing) []Finding {
	var found []Finding
	for i, b := range m.job.Batteries {
		if !b.Chemistry.Has(tables.ManagementUnit) {
			continue
		}
		f := Finding{Where: b.Name + ", as " + r.Name + " closes", Path: indexed("batteries", i)}
		for _, c := range all {
			a := c.given(b.Name)
			limit := b.MaxDischargeA
			if a.IsNegative() {
				limit = b.MaxChargeA
			}
			if c.even || !limit.Valid {
				continue
			}
			w := c.line(a.Abs())
			w.Given("I_bm", limit.Decimal)
			if check := w.Check("P27", "", "I_cl", "I_bm"); f.Working == nil || check.Margin().LessThan(f.Margin()) {
				f.Check = check
			}
		}
		if f.Working != nil {
			found = append(found, f)
		}
	}
	return found
}

// cablesBear asks of the link and of every lead on its way whether it carries what one
// full bank drives into one that is nearly empty: they are not empty together, and take
// minutes to come together. Batteries of one bank differ for a moment only.
func (m *model) cablesBear(link *run, all []closing) []Finding {
	var found []Finding
	for _, r := range m.runs {
		if r.noAmps != nil {
			continue // W01 says so
		}
		f := Finding{Where: r.Name + ", as " + link.Name + " closes", Path: r.path}
		for _, c := range all {
			a := c.through(r)
			if c.even || !a.GreaterThan(decimal.Max(r.designA, least)) {
				continue
			}
			w := working.Start(c.line(a), r.overall().Working)
			if check := w.Check("P27", "", "I_cl", "I_z"); f.Working == nil || check.Margin().LessThan(f.Margin()) {
				f.Check = check
			}
		}
		if f.Working != nil {
			found = append(found, f)
		}
	}
	return found
}

// through is what a run carries as a link closes; nothing where it has no part in it.
func (c closing) through(r *run) decimal.Decimal {
	return solved{Solution: c.Solution}.current(r.Name).Abs()
}

func (c closing) given(source string) decimal.Decimal {
	return solved{Solution: c.Solution}.given(source)
}

// closed is what stands on both sides of a link, without loads, as it closes on a
// side that is full and whose sources run, or is a little higher than the other.
func (m *model) closed(link *run, both, full map[string]bool, even bool) wire.Network {
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
		j := slices.IndexFunc(m.job.Batteries, func(b job.Battery) bool { return b.Name == s.Name })
		switch {
		case j < 0:
		case even && full[s.Node]:
			n.Sources[i].EMFV = high
		case even:
			n.Sources[i].EMFV = high.Sub(apart())
		case !full[s.Node]:
			n.Sources[i].EMFV = m.job.Batteries[j].EmptyV
		}
	}
	return n
}

// fullOn is the voltage of the first battery among some nodes when it is full.
func (m *model) fullOn(nodes map[string]bool) decimal.Decimal {
	i := slices.IndexFunc(m.job.Batteries, func(b job.Battery) bool { return nodes[b.Name] })
	return m.job.Batteries[i].FullV
}
