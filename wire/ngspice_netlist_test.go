package wire_test

import (
	"fmt"
	"regexp"
	"strings"

	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// The netlists in testdata/spice are rendered from the table in
// ngspice_networks_test.go, so that what ngspice solves and what we solve cannot
// drift apart. How an element is named, for a node or a part called NAME:
//
//	n_NAME   the node; the common return is SPICE's node 0
//	vb_NAME  an ammeter (a source of 0 V) in the branch, current from From to To
//	vs_NAME  an ammeter at the source, current out of it into its node
//	vl_NAME  an ammeter at the load or the fault, current out of its node
//	vt_NAME  ties to 0 V a node of a part that has nothing to do with the return
//	rb_ rs_ rl_  the resistance of a branch, a battery, a resistive load
//	ve_      a battery's EMF
//	bs_      a limited source: max(0, min(limit, (EMF − U) ÷ R))
//	bl_      a constant power: P ÷ U
//	il_      a constant current
//	xb_ xs_ xl_ e_  the nodes between an ammeter or an EMF and what follows it
//
// Only nodes n_ and currents vb_, vs_ and vl_ are compared.

// settings ask ngspice for about all that a float64 holds.
const settings = `.options reltol=1e-12 abstol=1e-12 vntol=1e-12 itl1=2000
.control
set numdgt=16
op
print all
quit
.endc
.end
`

// netlist is what ngspice reads.
func (c spiceCase) netlist() string {
	var b strings.Builder
	fmt.Fprintf(&b, "* %s: %s\n* Rendered from ngspice_networks_test.go; do not edit.\n", c.name, c.shows)
	for _, s := range c.net.Sources {
		writeSource(&b, s)
	}
	for _, br := range c.net.Branches {
		fmt.Fprintf(&b, "vb_%s %s xb_%[1]s 0\nrb_%[1]s xb_%[1]s %[3]s %[4]s\n", br.Name, spiceNode(br.From), spiceNode(br.To), inOhms(br.Milliohm))
	}
	for _, l := range c.loads() {
		writeLoad(&b, l)
	}
	if c.tied != "" {
		fmt.Fprintf(&b, "vt_%s n_%[1]s 0 0\n", c.tied)
	}
	c.writeStart(&b)
	return b.String() + settings
}

// loads are what the netlist draws from the sources: the loads of the network,
// or a fault in their place.
func (c spiceCase) loads() []wire.NodeLoad {
	if c.fault == "" {
		return c.net.Loads
	}
	return []wire.NodeLoad{{Name: "fault", Node: c.fault, Return: c.tied, Ohm: decimal.NewNullDecimal(d(c.faultMilliohm).Shift(-3))}}
}

func writeSource(b *strings.Builder, s wire.NodeSource) {
	at, back := spiceNode(s.Node), spiceNode(s.Return)
	if s.LimitA.Valid {
		fmt.Fprintf(b, "bs_%s %s xs_%[1]s I=max(0, min(%[3]s, (%[4]s - v(xs_%[1]s,%[2]s))/%[5]s))\n", s.Name, back, s.LimitA.Decimal, s.EMFV, inOhms(s.Milliohm))
	} else {
		fmt.Fprintf(b, "ve_%s e_%[1]s %[2]s %[3]s\nrs_%[1]s e_%[1]s xs_%[1]s %[4]s\n", s.Name, back, s.EMFV, inOhms(s.Milliohm))
	}
	fmt.Fprintf(b, "vs_%s xs_%[1]s %[2]s 0\n", s.Name, at)
}

func writeLoad(b *strings.Builder, l wire.NodeLoad) {
	at, back := spiceNode(l.Node), spiceNode(l.Return)
	if l.Ohm.Valid && l.Ohm.Decimal.IsZero() { // a bolted fault: nothing but the ammeter
		fmt.Fprintf(b, "vl_%s %s %s 0\n", l.Name, at, back)
		return
	}
	fmt.Fprintf(b, "vl_%s %s xl_%[1]s 0\n", l.Name, at)
	switch {
	case l.PowerW.Valid:
		fmt.Fprintf(b, "bl_%s xl_%[1]s %[2]s I=%[3]s/v(xl_%[1]s,%[2]s)\n", l.Name, back, l.PowerW.Decimal)
	case l.Ohm.Valid:
		fmt.Fprintf(b, "rl_%s xl_%[1]s %[2]s %[3]s\n", l.Name, back, l.Ohm.Decimal)
	default:
		fmt.Fprintf(b, "il_%s xl_%[1]s %[2]s %[3]s\n", l.Name, back, l.CurrentA.Decimal)
	}
}

// writeStart tells ngspice to begin near the voltages that the network has
// without loads: a constant power has two operating points, and from 0 V it
// finds the one that no installation works at; and a limited source alone sends
// it from its limit to nothing and back.
func (c spiceCase) writeStart(b *strings.Builder) {
	if c.start == "" {
		return
	}
	for _, s := range c.net.Sources {
		if s.LimitA.Valid {
			fmt.Fprintf(b, ".nodeset v(%s)=%s v(xs_%s)=%[2]s\n", spiceNode(s.Node), c.startsAt(s.Node), s.Name)
		}
	}
	for _, l := range c.loads() {
		if l.PowerW.Valid {
			fmt.Fprintf(b, ".nodeset v(%s)=%s v(xl_%s)=%[2]s\n", spiceNode(l.Node), c.startsAt(l.Node), l.Name)
		}
	}
}

// startsAt is the voltage at which ngspice starts a node: the first of c.start,
// but for nodes named after it.
func (c spiceCase) startsAt(node string) string {
	all := strings.Fields(c.start)
	for _, exception := range all[1:] {
		if volts, ok := strings.CutPrefix(exception, node+"="); ok {
			return volts
		}
	}
	return all[0]
}

func spiceNode(name string) string {
	if name == "" || name == wire.CommonReturn {
		return "0"
	}
	return "n_" + name
}

func inOhms(milliohm decimal.Decimal) string { return milliohm.Shift(-3).String() }

// figure is one of those compared: the voltage of a node, or the current in a
// branch, a source or a load.
type figure struct{ kind, name string }

// spiceLine is a line of ngspice's answer that holds such a figure. make.sh looks
// for the same.
var spiceLine = regexp.MustCompile(`(?m)^(n|vb|vs|vl)_(\w+?)(?:#branch)? = (\S+)$`)

var kinds = map[string]string{"n": "node", "vb": "branch", "vs": "source", "vl": "load"}

// readAnswer takes the figures out of what ngspice printed.
func readAnswer(printed string) map[figure]decimal.Decimal {
	all := map[figure]decimal.Decimal{}
	for _, m := range spiceLine.FindAllStringSubmatch(printed, -1) {
		all[figure{kinds[m[1]], m[2]}] = d(m[3])
	}
	return all
}
