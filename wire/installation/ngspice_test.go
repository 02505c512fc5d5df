package installation_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ngspice, a general circuit simulator, solves three whole installations as well.
// testdata/spice holds the netlists, one a case, and in golden.csv its answers to them;
// make.sh writes both again.
var renderNetlists = flag.Bool("netlists", false, "write the netlists in testdata/spice anew; then run make.sh there")

const spiceDir = "testdata/spice"

// spiceCase is a case of an installation, or a greatest fault in it.
type spiceCase struct {
	name, of string
	in       installation.Installation
	fault    string
}

func spiceCases() []spiceCase {
	return []spiceCase{
		{"van_parked", "parked, on the batteries alone", van(), ""},
		{"van_full", "parked, on full batteries", van(), ""},
		{"van_start", "parked, fridge starting", van(), ""},
		{"van_fault", "", van(), "fridge"},
		{"drawn_at_random_charging", "state 0, with its sources and what may always work", newDice(1).installation(2), ""},
		{"drawn_at_random_one_lost", "state 0, without B0", newDice(1).installation(2), ""},
		{"drawn_at_random_fault", "", newDice(1).installation(2), "panel 1"},
		{"twelve_panels", "state 0, with its sources", newDice(7).installation(12), ""},
		{"twelve_panels_linked", "state 0, S to bus closed", newDice(7).installation(12), ""},
		{"twelve_panels_unequal", "state 0, the bank of S full and the others nearly empty", newDice(7).installation(12), ""},
		{"twelve_panels_fault", "", newDice(7).installation(12), "load 11.0"},
	}
}

// network is the case by the test's own account, cables as hot as the answer says that
// they get; a fault's at 20 °C without contacts.
func (c spiceCase) network(t *testing.T, s *installation.Solved) wire.Network {
	t.Helper()
	if c.fault != "" {
		n := strongest(c.in) // without the part behind the converter, which has nothing to do with it
		n.Sources = slices.DeleteFunc(n.Sources, func(x wire.NodeSource) bool { return x.Name == "supply" })
		n.Branches = slices.DeleteFunc(n.Branches, func(x wire.Branch) bool { return x.From == "supply" })
		n.Loads = []wire.NodeLoad{{Name: "fault", Node: c.fault}}
		return n
	}
	i := slices.IndexFunc(s.Cases(), func(x installation.Case) bool { return x.Name == c.of })
	require.GreaterOrEqual(t, i, 0, c.of)
	own := func(x installation.Circuit) decimal.Decimal { return resistance(x, "own", must(s.Circuit(x.Name))) }
	n := drawn(c.in, s.Cases()[i], own)
	if len(c.in.Sources) > 2 {
		n.Loads = append(n.Loads, inputOf(t, c.in, s.Cases()[i], must(s.Circuit("supply to radio")))...)
	}
	return n
}

var plain = strings.NewReplacer(" ", "_", ".", "_", ",", "")

// netlist is what ngspice reads. A battery in a fault gives current and takes none.
func (c spiceCase) netlist(n wire.Network) string {
	var b strings.Builder
	node := func(name string) string { return "n_" + plain.Replace(name) }
	fmt.Fprintf(&b, "* %s\n", c.name)
	for _, s := range n.Sources {
		own := plain.Replace(s.Name)
		if s.LimitA.Valid {
			fmt.Fprintf(&b, "bs_%s 0 %s I=max(0, min(%s, (%s - v(%[2]s))/%[5]s))\n.nodeset v(%[2]s)=12\n", own, node(s.Node), s.LimitA.Decimal, s.EMFV, s.Milliohm.Shift(-3))
			continue
		}
		fmt.Fprintf(&b, "ve_%s e_%[1]s 0 %[2]s\nrs_%[1]s e_%[1]s %[3]s %[4]s\n", own, s.EMFV, node(s.Node), s.Milliohm.Shift(-3))
	}
	for i, x := range n.Branches {
		fmt.Fprintf(&b, "rb_%d %s %s %s\n", i, node(x.From), node(x.To), x.Milliohm.Shift(-3))
	}
	for i, l := range n.Loads {
		switch at := node(l.Node); {
		case l.PowerW.Valid:
			fmt.Fprintf(&b, "bl_%d %s 0 I=%s/v(%[2]s)\n.nodeset v(%[2]s)=12\n", i, at, l.PowerW.Decimal)
		case l.Ohm.Valid:
			fmt.Fprintf(&b, "rl_%d %s 0 %s\n", i, at, l.Ohm.Decimal)
		case l.CurrentA.Valid:
			fmt.Fprintf(&b, "il_%d %s 0 %s\n", i, at, l.CurrentA.Decimal)
		default:
			fmt.Fprintf(&b, "vl_fault %s 0 0\n", at)
		}
	}
	return b.String() + ".options reltol=1e-12 abstol=1e-12 vntol=1e-12 itl1=5000\n.control\nset numdgt=16\nop\nprint all\nquit\n.endc\n.end\n"
}

// TestNetlists: what ngspice solved is what the installations say.
func TestNetlists(t *testing.T) {
	for _, c := range spiceCases() {
		want := c.netlist(c.network(t, must(c.in.Solve())))
		path := filepath.Join(spiceDir, c.name+".cir")
		if *renderNetlists {
			require.NoError(t, os.MkdirAll(spiceDir, 0o755))
			require.NoError(t, os.WriteFile(path, []byte(want), 0o644))
		}
		committed, err := os.ReadFile(path)
		require.NoError(t, err, c.name)
		assert.Equal(t, string(committed), want, c.name)
	}
}

// TestAgainstNgspice: our voltages and faults are those that are committed.
func TestAgainstNgspice(t *testing.T) {
	answers := golden(t)
	for _, c := range spiceCases() {
		t.Run(c.name, func(t *testing.T) { c.compare(t, answers[c.name]) })
	}
}

// TestLiveNgspice has the program that is installed solve the netlists again.
func TestLiveNgspice(t *testing.T) {
	program, err := exec.LookPath("ngspice")
	if err != nil && os.Getenv("CI") == "" {
		t.Skip("ngspice is not installed")
	}
	require.NoError(t, err)
	for _, c := range spiceCases() {
		t.Run(c.name, func(t *testing.T) {
			printed, _ := exec.Command(program, "-b", filepath.Join(spiceDir, c.name+".cir")).CombinedOutput()
			found := map[string]decimal.Decimal{}
			for _, m := range regexp.MustCompile(`(?m)^(n_\w+|vl_fault#branch) = (\S+)`).FindAllStringSubmatch(string(printed), -1) {
				found[m[1]] = d(m[2])
			}
			c.compare(t, found)
		})
	}
}

// compare holds our answer to ngspice's, to a millionth of a volt; a fault to a
// thousandth of an ampere.
func (c spiceCase) compare(t *testing.T, spice map[string]decimal.Decimal) {
	t.Helper()
	require.NotEmpty(t, spice)
	s := must(c.in.Solve())
	if c.fault != "" {
		near(t, spice["vl_fault#branch"].StringFixed(3), must(s.GreatestFault(c.fault)).FaultA)
		return
	}
	compared := 0
	for _, node := range nodes(c.in) {
		want, ok := spice["n_"+strings.ToLower(plain.Replace(node))]
		if !ok {
			continue
		}
		got := volts(t, s, node, c.of)
		compared++
		assert.True(t, got.Decimal.Sub(want).Abs().LessThan(d("0.000002")), "%s: ngspice %s, we %s", node, want, got.Decimal)
	}
	assert.Greater(t, compared, 4)
}

// golden reads the answers that are committed, by netlist.
func golden(t *testing.T) map[string]map[string]decimal.Decimal {
	t.Helper()
	file, err := os.Open(filepath.Join(spiceDir, "golden.csv"))
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	all := map[string]map[string]decimal.Decimal{}
	for _, r := range rows[1:] {
		if all[r[0]] == nil {
			all[r[0]] = map[string]decimal.Decimal{}
		}
		all[r[0]][r[1]] = d(r[2])
	}
	return all
}
