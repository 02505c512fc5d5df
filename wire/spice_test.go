package wire_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.org/extralow/wire"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the netlists and what ngspice answers to testdata/spice")

// spiceNetworks are solved by ngspice too, a general circuit simulator.
func spiceNetworks() map[string]wire.Network {
	heavy := single(wire.Load{PowerW: some("3500")}) // of at most 3600 W
	return map[string]wire.Network{
		"van": van(), "diagonal bank": bank(4, "1", 1, 4), "bank of sixteen": bank(16, "0.1", 1, 16), "near collapse": heavy,
		"loops": random(rand.New(rand.NewPCG(9, 10)), 25), "more loops": random(rand.New(rand.NewPCG(11, 13)), 40),
	}
}

// netlist writes a network for ngspice: a battery as a voltage behind a
// resistor, a limited source and a constant power as functions of the voltage.
func netlist(n wire.Network, s wire.Solution) string {
	var b strings.Builder
	name := map[string]string{"": "0", wire.CommonReturn: "0"}
	for i, node := range s.Nodes {
		name[node.Node] = fmt.Sprint("n", i)
	}
	if _, common := name["minus 1"]; common {
		name["minus 1"] = "0" // the return of the first battery
	}
	fmt.Fprintln(&b, "* a direct-current installation")
	for i, src := range n.Sources {
		at, back := name[src.Node], name[src.Return]
		if src.LimitA.Valid {
			fmt.Fprintf(&b, "Bs%d %s %s I = min(%s, max(0, (%s - V(%s,%s)) / %s))\n", i, back, at, src.LimitA.Decimal, src.EMFV, at, back, src.Milliohm.Shift(-3))
			continue
		}
		fmt.Fprintf(&b, "Vs%d e%d %s %s\nRs%d e%d %s %s\n", i, i, back, src.EMFV, i, i, at, src.Milliohm.Shift(-3))
	}
	for i, br := range n.Branches {
		fmt.Fprintf(&b, "Rb%d %s %s %s\n", i, name[br.From], name[br.To], br.Milliohm.Shift(-3))
	}
	for i, l := range n.Loads {
		at, back := name[l.Node], name[l.Return]
		switch {
		case l.PowerW.Valid:
			fmt.Fprintf(&b, "Bl%d %s %s I = %s / V(%s,%s)\n", i, at, back, l.PowerW.Decimal, at, back)
		case l.Ohm.Valid:
			fmt.Fprintf(&b, "Rl%d %s %s %s\n", i, at, back, l.Ohm.Decimal)
		default:
			fmt.Fprintf(&b, "Il%d %s %s %s\n", i, at, back, l.CurrentA.Decimal)
		}
	}
	for i, node := range s.Nodes {
		if !strings.HasPrefix(node.Node, "minus") {
			fmt.Fprintf(&b, ".nodeset V(n%d)=%s\n", i, n.Sources[0].EMFV)
		}
	}
	b.WriteString(".options reltol=1e-10 abstol=1e-12 vntol=1e-12 itl1=1000\n.control\nop\nset numdgt=14\nprint all\nquit\n.endc\n.end\n")
	return b.String()
}

var answer = regexp.MustCompile(`(?m)^(n\d+) = (\S+)`)

// simulate runs ngspice on a netlist and returns the lines of its node voltages.
func simulate(t *testing.T, program, path string) string {
	out, err := exec.Command(program, "-b", path).CombinedOutput()
	require.NoError(t, err, string(out))
	var b strings.Builder
	for _, m := range answer.FindAllStringSubmatch(string(out), -1) {
		fmt.Fprintln(&b, m[1], m[2])
	}
	return b.String()
}

// TestSpice holds the node voltages to those of ngspice, to 1 µV. The netlists
// and its answers are committed; where the program is installed it answers
// again.
func TestSpice(t *testing.T) {
	program, missing := exec.LookPath("ngspice")
	for name, n := range spiceNetworks() {
		t.Run(name, func(t *testing.T) {
			s, err := n.Solve()
			require.NoError(t, err)
			require.Empty(t, s.CollapsedAt)
			path := filepath.Join("testdata", "spice", strings.ReplaceAll(name, " ", "-"))
			if *update {
				require.NoError(t, os.WriteFile(path+".cir", []byte(netlist(n, s)), 0o644))
				require.NoError(t, os.WriteFile(path+".txt", []byte(simulate(t, program, path+".cir")), 0o644))
			}
			list, err := os.ReadFile(path + ".cir")
			require.NoError(t, err)
			require.Equal(t, string(list), netlist(n, s), "the netlist is not that of the network")
			golden, err := os.ReadFile(path + ".txt")
			require.NoError(t, err)
			compare(t, string(golden), s)
			if missing == nil {
				compare(t, simulate(t, program, path+".cir"), s)
			}
		})
	}
}

func compare(t *testing.T, lines string, s wire.Solution) {
	t.Helper()
	found := 0
	for line := range strings.Lines(lines) {
		var i int
		var volts string
		_, err := fmt.Sscanf(line, "n%d %s", &i, &volts)
		require.NoError(t, err)
		found++
		assert.Truef(t, s.Nodes[i].VoltageV.Sub(d(volts)).Abs().LessThan(d("0.000001")), "%s: we have %s, ngspice %s", s.Nodes[i].Node, s.Nodes[i].VoltageV, volts)
	}
	assert.GreaterOrEqual(t, found, len(s.Nodes)-1)
}
