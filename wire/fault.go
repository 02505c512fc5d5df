package wire

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire/internal/nodal"
	"github.com/shopspring/decimal"
)

// NetworkFault is what a short circuit at a node draws. Only what is connected with
// the node is listed.
type NetworkFault struct {
	CurrentA decimal.Decimal `json:"current_a"`
	Sources  []SourceShare   `json:"sources,omitempty"`
	Branches []BranchCurrent `json:"branches,omitempty"`
	// OnlyLimited: no battery feeds it, so the current never exceeds the limits
	// of the sources and may open no fuse.
	OnlyLimited bool            `json:"only_limited"`
	Working     working.Working `json:"working"`
}

// SourceShare is what one source adds to a fault.
type SourceShare struct {
	Name     string          `json:"name"`
	CurrentA decimal.Decimal `json:"current_a"`
	AtLimit  bool            `json:"at_limit"`
}

// Fault returns the current of a short circuit from a node to 0 V, the loads
// left out: a bolted one (0 mΩ), or one through a stated resistance (0.001 to
// 1 000 000 mΩ). Every source feeds it from its EMF through its own resistance,
// a limited one with at most its limit:
//
//	I_k = I_so1 + I_so2 + ...
//
// 0 V is the common return, or the return of the first source of a part that has
// nothing to do with it. A frame between that and the place of the fault is left
// out, so that the current is greater than that of a fault to the frame: add the
// frame's resistance to the stated one for the smallest fault.
//
// The EMFs count as given: full and new for the largest fault, low and aged for
// the smallest. Ranges as for [Network.Solve]. Sources: Kirchhoff's laws, Ohm's
// law.
func (n Network) Fault(node string, faultMilliohm decimal.Decimal) (NetworkFault, error) {
	var bad error
	if !faultMilliohm.IsZero() {
		bad = checkFrom("fault_milliohm", faultMilliohm, leastMilliohm, greatestMilliohm)
	}
	bare := Network{Sources: n.Sources, Branches: n.Branches}
	if err := errors.Join(bad, n.check()); err != nil {
		return NetworkFault{}, err
	}
	whole, err := bare.circuit()
	if err != nil {
		return NetworkFault{}, err
	}
	var part Network
	at, ok := whole.index[node]
	if ok && !whole.Fixed[at] {
		part = bare.around(whole, at)
	}
	if len(part.Sources) == 0 {
		return NetworkFault{}, &working.InputError{Field: "node", Got: fmt.Sprintf("%q", node), Want: "a live node that a source reaches"}
	}
	if !faultMilliohm.IsZero() {
		part.Loads = []NodeLoad{{Name: "fault", Node: node, Return: whole.nodes[whole.held(at)], Ohm: decimal.NewNullDecimal(faultMilliohm.Shift(-3))}}
	}
	return part.fault(node)
}

// around returns the part of the network that a node belongs to.
func (n Network) around(c *circuit, node int) Network {
	var part Network
	for i, s := range n.Sources {
		if c.PartOf(i) == c.Part[node] {
			part.Sources = append(part.Sources, s)
		}
	}
	for i, b := range n.Branches {
		if c.PartOf(c.Sources+i) == c.Part[node] {
			part.Branches = append(part.Branches, b)
		}
	}
	return part
}

// fault solves a network whose only load, if any, is the fault; without one it
// is bolted.
func (n Network) fault(node string) (NetworkFault, error) {
	c, err := n.circuit()
	if err != nil {
		return NetworkFault{}, err
	}
	at := c.index[node]
	if len(n.Loads) == 0 {
		c.Fixed[at] = true
	}
	v, collapsed, err := c.Solve()
	if err != nil || collapsed >= 0 {
		return NetworkFault{}, errors.Join(err, nodal.ErrUnsettled)
	}
	flows, err := n.flows(c, v)
	if err != nil {
		return NetworkFault{}, err
	}
	c.close(c.span(flows), flows)
	f := NetworkFault{OnlyLimited: true, Branches: n.branchCurrents(flows)}
	for k, src := range n.Sources {
		f.Sources = append(f.Sources, SourceShare{src.Name, flows[k].ampere.Neg(), flows[k].atLimit})
		f.OnlyLimited = f.OnlyLimited && src.LimitA.Valid
	}
	f.Working = n.faultWorking(c, at, flows)
	f.CurrentA, _ = f.Working.Value("I_k")
	return f, nil
}

// held is the node at 0 V that a fault at the node returns to.
func (c *circuit) held(node int) int {
	for i := range c.Fixed {
		if c.Fixed[i] && c.Part[i] == c.Part[node] {
			return i
		}
	}
	return 0
}

// faultWorking adds up what reaches the node of the fault.
func (n Network) faultWorking(c *circuit, at int, flows []flow) working.Working {
	var w working.Working
	total, sum := decimal.Zero, ""
	add := func(sign, symbol string, ampere decimal.Decimal) {
		if sum != "" || sign == "−" {
			sum = cmp.Or(sum, "0") + " " + sign + " "
		}
		total = w.Calc("I_k", sum+symbol, total.Add(ampere), kirchhoff)
		sum = "I_k"
	}
	for k, src := range n.Sources {
		w.Part(src.Name + " at " + src.Node)
		w.Given("E_0", src.EMFV)
		w.Given("R_i", src.Milliohm)
		i := w.Step("I_so", flows[k].ampere.Neg(), kirchhoff)
		w.Note(solved)
		if flows[k].atLimit {
			w.Note("its limit")
		}
		switch at {
		case c.Elements[k].From:
			add("+", "I_so", i)
		case c.Elements[k].To: // the node is the source's own return, and gives it what it sends out
			add("−", "I_so", i.Neg())
		}
	}
	for b, branch := range n.Branches {
		e := c.Elements[c.Sources+b]
		i := flows[c.Sources+b].ampere
		if e.From != at && e.To != at || i.IsZero() {
			continue
		}
		if e.From == at {
			i = i.Neg()
		}
		w.Part(branch.Name)
		w.Given("R_b", branch.Milliohm)
		add("+", "I_br", w.Step("I_br", i, kirchhoff))
	}
	if sum == "" {
		w.Calc("I_k", "0", decimal.Zero, kirchhoff)
	}
	return slices.Clip(w)
}
