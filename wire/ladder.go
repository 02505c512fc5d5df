package wire

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var (
	kirchhoff = cite.Kirchhoff.At("", cite.Published)
	ohm       = cite.OhmsLaw.At("", cite.Published)
)

// solved says of a current where it comes from.
const solved = "solved with the whole network"

// Ladder is the way of the voltage from a source's EMF down to a node or a load.
type Ladder struct {
	VoltageV decimal.Decimal `json:"voltage_v"` // at the node
	DropV    decimal.Decimal `json:"drop_v"`    // lost in the branches
	Working  working.Working `json:"working"`
}

// Ladder lays out the drops from a source's EMF down to a node, on the way of
// least resistance; sources in series add up:
//
//	U_t  = E_0 − I_so × R_i ÷ 1000
//	ΔU_k = I_br × R_b ÷ 1000
//	U_k  = U_k−1 − ΔU_k, or U_k−1 + U_t
//
// and then shows that each load at the node draws there what it should. The
// currents are the solver's. The voltage at the node is the symbol U_L; the
// last line is what is lost in the branches, ΔU. A solution without an
// operating point is [ErrNoOperatingPoint].
func (s Solution) Ladder(node string) (Ladder, error) {
	if s.found.collapsedAt != "" {
		return Ladder{}, fmt.Errorf("ladder to %s: %w (it shows at %s)", node, ErrNoOperatingPoint, s.found.collapsedAt)
	}
	if s.circuit == nil {
		return Ladder{}, &working.InputError{Field: "solution", Got: "empty", Want: "one that a network gave"}
	}
	to, ok := s.circuit.index[node]
	if !ok || to == 0 {
		return Ladder{}, &working.InputError{Field: "node", Got: fmt.Sprintf("%q", node), Want: "a live node of the network"}
	}
	return s.ladder(s.root(to), to), nil
}

// root is the node at 0 V that the tree leads from to a node.
func (s Solution) root(node int) int {
	for s.tree.by[node] >= 0 {
		node = s.circuit.Elements[s.tree.by[node]].Other(node)
	}
	return node
}

// ladder lays out the way between two nodes and the loads that lie across them.
func (s Solution) ladder(from, to int) Ladder {
	var w working.Working
	u, above := decimal.Zero, "" // the symbol of the voltage so far
	lost, drops := decimal.Zero, []string{}
	for _, r := range s.path(from, to) {
		if r.element < s.circuit.Sources {
			u, above = s.sourceRung(&w, r, u, above)
			continue
		}
		b := s.network.Branches[r.element-s.circuit.Sources]
		w.Part(fmt.Sprintf("%s, %s to %s", b.Name, s.circuit.nodes[r.from], s.circuit.nodes[r.to]))
		drops = append(drops, fmt.Sprintf("ΔU.%d", len(drops)+1))
		i, milliohm := w.Step("I_br", r.ampere, kirchhoff), w.Given("R_b", b.Milliohm)
		drop := w.Calc(drops[len(drops)-1], "I_br × R_b ÷ 1000", i.Mul(milliohm).Shift(-3), ohm)
		u = w.Calc("U_k", cmp.Or(above, "0")+" − "+drops[len(drops)-1], u.Sub(drop), kirchhoff)
		above, lost = "U_k", lost.Add(drop)
	}
	w.Part("At " + s.circuit.nodes[to])
	w.Calc("U_L", cmp.Or(above, "0"), u, kirchhoff)
	s.loadsAcross(from, to, &w)
	w.Calc("ΔU", strings.Join(append(drops, "0")[:max(1, len(drops))], " + "), lost, kirchhoff)
	return Ladder{u, lost, slices.Clip(w)}
}

// sourceRung adds the lines of a source on the way: what its terminals add.
func (s Solution) sourceRung(w *working.Working, r rung, u decimal.Decimal, above string) (decimal.Decimal, string) {
	src, state := s.network.Sources[r.element], s.found.sources[r.element]
	if above == "U_t" { // a second source: its terminals are U_t from here on
		above = "U_k"
		w.Calc(above, "U_t", u, kirchhoff)
	}
	w.Part(src.Name + " at " + src.Node)
	var terminal decimal.Decimal
	if s.circuit.vague(r.element, state) {
		w.Step("I_so", state.CurrentA, kirchhoff)
		terminal = w.Step("U_t", state.TerminalV, kirchhoff)
		w.Note("the source is idle or at its limit: the rest of the network sets its voltage")
	} else {
		e, i := w.Given("E_0", src.EMFV), w.Step("I_so", state.CurrentA, kirchhoff)
		w.Note(solved)
		milliohm := w.Given("R_i", src.Milliohm)
		terminal = w.Calc("U_t", "E_0 − I_so × R_i ÷ 1000", e.Sub(i.Mul(milliohm).Shift(-3)), ohm)
	}
	switch down := s.circuit.Elements[r.element].From == r.from; {
	case down:
		return w.Calc("U_k", cmp.Or(above, "0")+" − U_t", u.Sub(terminal), kirchhoff), "U_k"
	case above == "":
		return terminal, "U_t"
	default:
		return w.Calc("U_k", above+" + U_t", u.Add(terminal), kirchhoff), "U_k"
	}
}

// vague reports whether a source's current does not say what its voltage is.
func (c *circuit) vague(k int, s SourceCurrent) bool {
	return s.AtLimit || c.Elements[k].Limited() && s.CurrentA.IsZero()
}

// rung is one element on the way, with the current in that direction.
type rung struct {
	element, from, to int
	ampere            decimal.Decimal
}

// path lists the elements of the tree between two nodes.
func (s Solution) path(from, to int) []rung {
	up := s.climb(from)
	down := s.climb(to)
	for len(up) > 0 && len(down) > 0 && up[len(up)-1].element == down[len(down)-1].element {
		up, down = up[:len(up)-1], down[:len(down)-1]
	}
	for _, r := range slices.Backward(down) {
		up = append(up, rung{r.element, r.to, r.from, r.ampere.Neg()})
	}
	return up
}

// climb lists the elements from a node up to the root of the tree.
func (s Solution) climb(node int) []rung {
	var up []rung
	for k := s.tree.by[node]; k >= 0; k = s.tree.by[node] {
		e := s.circuit.Elements[k]
		r := rung{k, node, e.Other(node), s.flows[k]}
		if e.To == node {
			r.ampere = r.ampere.Neg()
		}
		up = append(up, r)
		node = r.to
	}
	return up
}

// loadsAcross shows that the loads between two nodes draw what they should.
func (s Solution) loadsAcross(from, to int, w *working.Working) {
	for i, l := range s.network.Loads {
		e := s.circuit.Elements[s.circuit.Sources+s.circuit.Branches+i]
		if e.From != to || e.To != from {
			continue
		}
		w.Part(l.Name)
		switch {
		case l.PowerW.Valid:
			w.Given("P", l.PowerW.Decimal)
			w.Solve("I_L", "P ÷ U_L", s.found.loads[i].CurrentA, solvedWithin, ohm)
		case l.Ohm.Valid:
			w.Given("R_L", l.Ohm.Decimal)
			w.Solve("I_L", "U_L ÷ R_L", s.found.loads[i].CurrentA, solvedWithin, ohm)
		default:
			w.Given("I_L", l.CurrentA.Decimal)
		}
	}
}

// LoadLadder lays out the drops as [Solution.Ladder] does, to one load and between
// its own two nodes.
func (s Solution) LoadLadder(name string) (Ladder, error) {
	i := slices.IndexFunc(s.network.Loads, func(l NodeLoad) bool { return l.Name == name })
	switch {
	case i < 0:
		return Ladder{}, &working.InputError{Field: "load", Got: fmt.Sprintf("%q", name), Want: "a load of the network"}
	case s.found.collapsedAt != "":
		return Ladder{}, fmt.Errorf("%s: %w (it shows at %s)", name, ErrNoOperatingPoint, s.found.collapsedAt)
	}
	e := s.circuit.Elements[s.circuit.Sources+s.circuit.Branches+i]
	return s.ladder(e.To, e.From), nil
}

// LoadCheck is check W04: the lowest voltage at which a load works, its trip
// voltage, against what there is. Without one it cannot be told.
func (s Solution) LoadCheck(name string) (working.Check, error) {
	l, err := s.LoadLadder(name)
	if err != nil {
		return working.Check{}, err
	}
	w := l.Working
	const id, title = "W04", "Voltage at the load"
	i := slices.IndexFunc(s.network.Loads, func(l NodeLoad) bool { return l.Name == name })
	if trip := s.network.Loads[i].TripV; trip.Valid {
		w.Given("U_lo", trip.Decimal)
		return w.Check(id, title, "U_lo", "U_L"), nil
	}
	return working.Check{ID: id, Title: title, Working: w,
		Missing: "the lowest voltage at which " + name + " works: read its data sheet or rating plate"}, nil
}
