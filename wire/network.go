package wire

import (
	"errors"
	"fmt"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CommonReturn is the node, at 0 V, that everything returns to which names no
// return of its own: the one node for all negative poles where the branches
// hold the resistance out and back together.
const CommonReturn = "return"

// NodeSource feeds a node through its own resistance. Without a limit it is a
// battery, which takes current as well; with one it is a converter, a charger
// or an alternator: a voltage up to its limit, a current at it, and idle where
// others hold the node above its voltage.
type NodeSource struct {
	Name     string              `json:"name"`
	Node     string              `json:"node"`
	Return   string              `json:"return"`   // empty: CommonReturn
	EMFV     decimal.Decimal     `json:"emf_v"`    // at no load
	Milliohm decimal.Decimal     `json:"milliohm"` // its own
	LimitA   decimal.NullDecimal `json:"limit_a"`  // the most it gives
}

// Branch joins two nodes: a cable, a fuse, a switch, a joint, a chassis. It is
// out and back together, except where return nodes are named: there it is what
// lies between its two nodes.
type Branch struct {
	Name     string          `json:"name"`
	From     string          `json:"from_node"`
	To       string          `json:"to_node"`
	Milliohm decimal.Decimal `json:"milliohm"`
}

// NodeLoad draws from a node. Exactly one of the three is given: a constant current
// (negative: a charger that feeds the node), a constant power (an inverter, a
// converter: its current rises as the voltage falls) or a resistance.
type NodeLoad struct {
	Name     string              `json:"name"`
	Node     string              `json:"node"`
	Return   string              `json:"return"`    // empty: CommonReturn
	CurrentA decimal.NullDecimal `json:"current_a"` // -10 000 to 10 000
	PowerW   decimal.NullDecimal `json:"power_w"`
	Ohm      decimal.NullDecimal `json:"ohm"`
	TripV    decimal.NullDecimal `json:"trip_v"` // below this it switches itself off
}

// Network is a direct-current installation as one circuit of any shape: trees,
// loops, split busbars, batteries side by side. Most are drawn with one line
// for both poles: no returns are named, and a branch is out and back together.
// Where the poles differ (a shared chassis, a take-off from opposite ends of a
// bank), name the return nodes and draw both poles.
type Network struct {
	Sources  []NodeSource `json:"sources,omitempty"`
	Branches []Branch     `json:"branches,omitempty"`
	Loads    []NodeLoad   `json:"loads,omitempty"`
}

// Solve finds the currents at which Kirchhoff's laws hold, every load drawing
// what it draws at its own voltage:
//
//	I_k = (U_from − U_to) ÷ R_k                in every branch
//	I_s = (E − U) ÷ R_i, of a limited source 0 to its limit
//	sum of currents at every node = 0
//
// Where the loads ask for more than the network can bring, no such currents
// exist: that is an answer, and CollapsedAt names the node where it showed. With
// one line for both poles it is proved, and the answer is the highest of several
// operating points. Where returns are named it is the solver's finding, not a
// proof: with the constant powers switched on little by little, there comes a
// point from which the network falls to a load without voltage. A constant
// current that drives a node to more than a hundred times all EMFs together
// counts as one that nothing brings. A load below its trip voltage stays
// connected and is reported.
//
// EMF above 0 to 1000 V, resistances 0.001 to 1 000 000 mΩ, currents up to
// 10 000 A, power up to 1 000 000 W, loads 0.000001 to 1 000 000 000 Ω; at most
// 5000 sources, branches and loads together. Names are unique among their kind;
// every node must be reached by a source, and a charger in constant current
// needs a battery there that takes it. Sources: Kirchhoff's laws, Ohm's law.
func (n Network) Solve() (Solution, error) {
	if err := n.check(); err != nil {
		return Solution{}, err
	}
	c, err := n.circuit()
	if err != nil {
		return Solution{}, err
	}
	return n.settled(c)
}

func (n Network) settled(c *circuit) (Solution, error) {
	v, collapsed, err := c.Solve()
	switch {
	case err != nil:
		return Solution{}, err
	case collapsed >= 0:
		return Solution{CollapsedAt: c.nodes[collapsed], found: found{collapsedAt: c.nodes[collapsed]}, network: n, circuit: c}, nil
	}
	return n.solution(c, v)
}

// With solves the same network with other resistances of its branches, one for
// each in their order: cables of another size, or warmer ones. The answer is that
// of [Network.Solve]; what that finds out about the shape of the network is not
// found out again. Resistances 0.001 to 1 000 000 mΩ.
func (s Solution) With(milliohm []decimal.Decimal) (Solution, error) {
	if s.circuit == nil || len(milliohm) != len(s.network.Branches) {
		return Solution{}, &working.InputError{Field: "milliohm", Got: fmt.Sprintf("%d resistances", len(milliohm)), Want: "one for each branch of a network that was solved"}
	}
	n, c := s.network, *s.circuit
	c.Circuit = c.Circuit.With(slices.Clone(c.Elements))
	n.Branches = slices.Clone(n.Branches)
	var faults []error
	for i, r := range milliohm {
		if err := checkFrom("milliohm", r, leastMilliohm, greatestMilliohm); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("branches[%d]", i), err))
		}
		n.Branches[i].Milliohm, c.Elements[c.Sources+i].Siemens = r, 1000/r.InexactFloat64()
	}
	if err := errors.Join(faults...); err != nil {
		return Solution{}, err
	}
	return n.settled(&c)
}

// greatestParts keeps a network to a size that is solved in the blink of an eye.
const greatestParts = 5000

// check gathers every fault of the description.
func (n Network) check() error {
	var faults []error
	if len(n.Sources) == 0 {
		faults = append(faults, &working.InputError{Field: "sources", Got: "none", Want: "at least one"})
	}
	if total := len(n.Sources) + len(n.Branches) + len(n.Loads); total > greatestParts {
		return &working.InputError{Field: "branches", Got: fmt.Sprintf("%d with sources and loads", total), Want: fmt.Sprintf("at most %d", greatestParts)}
	}
	sources, branches, loads := make(names, len(n.Sources)), make(names, len(n.Branches)), make(names, len(n.Loads))
	for i, s := range n.Sources {
		if err := errors.Join(sources.unique("source", s.Name), s.check()); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("sources[%d]", i), err))
		}
	}
	for i, b := range n.Branches {
		if err := errors.Join(branches.unique("branch", b.Name), b.check()); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("branches[%d]", i), err))
		}
	}
	for i, l := range n.Loads {
		if err := errors.Join(loads.unique("load", l.Name), l.check()); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("loads[%d]", i), err))
		}
	}
	return errors.Join(faults...)
}

// names are those of one kind.
type names map[string]bool

// unique refuses an empty name and one that its kind already has.
func (seen names) unique(kind, name string) error {
	if name == "" || seen[name] {
		return &working.InputError{Field: "name", Got: fmt.Sprintf("%q", name), Want: "a name that no other " + kind + " has"}
	}
	seen[name] = true
	return nil
}

func (s NodeSource) check() error {
	return errors.Join(
		checkEnds("node", s.Node, "return", returnOf(s.Return)), checkLive(s.Node),
		working.Above("emf_v", s.EMFV, 0, greatestVolts),
		checkFrom("milliohm", s.Milliohm, leastMilliohm, greatestMilliohm),
		checkAbove("limit_a", s.LimitA, greatestAmperes),
	)
}

func (b Branch) check() error {
	return errors.Join(
		checkEnds("from_node", b.From, "to_node", b.To),
		checkFrom("milliohm", b.Milliohm, leastMilliohm, greatestMilliohm),
	)
}

func (l NodeLoad) check() error {
	return errors.Join(
		l.checkOne(),
		checkEnds("node", l.Node, "return", returnOf(l.Return)), checkLive(l.Node),
		checkOptional("current_a", l.CurrentA, -greatestAmperes, greatestAmperes),
		checkOptional("power_w", l.PowerW, 0, greatestWatts),
		l.checkOhm(),
		checkAbove("trip_v", l.TripV, greatestVolts),
	)
}

// checkOne wants one way of drawing, and names each that is too many.
func (l NodeLoad) checkOne() error {
	const want = "exactly one of current_a, power_w and ohm"
	var given []error
	for _, one := range []struct {
		key   string
		value decimal.NullDecimal
	}{{"current_a", l.CurrentA}, {"power_w", l.PowerW}, {"ohm", l.Ohm}} {
		if one.value.Valid {
			given = append(given, &working.InputError{Field: one.key, Got: "one of several", Want: want})
		}
	}
	switch len(given) {
	case 0:
		return &working.InputError{Field: "current_a", Got: "unset", Want: want}
	case 1:
		return nil
	}
	return errors.Join(given...)
}

func (l NodeLoad) checkOhm() error {
	if !l.Ohm.Valid {
		return nil
	}
	return checkFrom("ohm", l.Ohm.Decimal, leastOhm, greatestOhms)
}

// checkEnds wants two nodes, not one and the same.
func checkEnds(field, node, field2, node2 string) error {
	switch {
	case node == "":
		return &working.InputError{Field: field, Got: "empty", Want: "the name of a node"}
	case node2 == "":
		return &working.InputError{Field: field2, Got: "empty", Want: "the name of a node"}
	case node == node2:
		return &working.InputError{Field: field2, Got: fmt.Sprintf("%q", node2), Want: "another node than " + field}
	}
	return nil
}

// checkLive keeps sources and loads from standing on the common return by their
// live end.
func checkLive(node string) error {
	if node != CommonReturn {
		return nil
	}
	return &working.InputError{Field: "node", Got: fmt.Sprintf("%q", node), Want: "a live node"}
}

func returnOf(name string) string {
	if name == "" {
		return CommonReturn
	}
	return name
}
