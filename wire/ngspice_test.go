package wire_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ngspice, a general circuit simulator, is the outside reference of the network
// solver. testdata/spice holds the netlists and, in golden.csv, its answers to
// them; make.sh writes both again.
var renderNetlists = flag.Bool("netlists", false, "write the netlists in testdata/spice anew; then run make.sh there")

const spiceDir = "testdata/spice"

// TestNetlistsAreThoseOfTheTable: what ngspice solved is what the table says.
func TestNetlistsAreThoseOfTheTable(t *testing.T) {
	require.GreaterOrEqual(t, len(spiceCases), 14)
	for _, c := range spiceCases {
		path := filepath.Join(spiceDir, c.name+".cir")
		if *renderNetlists {
			require.NoError(t, os.WriteFile(path, []byte(c.netlist()), 0o644))
		}
		committed, err := os.ReadFile(path)
		require.NoError(t, err, c.name)
		assert.Equal(t, string(committed), c.netlist(), c.name)
	}
}

// golden reads the answers that are committed, by netlist.
func golden(t *testing.T) map[string]map[figure]decimal.Decimal {
	t.Helper()
	file, err := os.Open(filepath.Join(spiceDir, "golden.csv"))
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"netlist", "kind", "name", "value"}, rows[0])
	all := map[string]map[figure]decimal.Decimal{}
	for _, r := range rows[1:] {
		if all[r[0]] == nil {
			all[r[0]] = map[figure]decimal.Decimal{}
		}
		all[r[0]][figure{r[1], r[2]}] = d(r[3])
	}
	return all
}

// solve gives our answer to a case. A fault's answer has no node voltages; the
// drops of its branches stand in for them.
func (c spiceCase) solve(t *testing.T) map[figure]decimal.Decimal {
	t.Helper()
	all := map[figure]decimal.Decimal{}
	if c.fault != "" {
		f, err := wire.Network(c.net).Fault(c.fault, d(c.faultMilliohm))
		require.NoError(t, err, c.name)
		all[figure{"load", "fault"}] = f.CurrentA
		for _, s := range f.Sources {
			all[figure{"source", s.Name}] = s.CurrentA
		}
		for _, b := range f.Branches {
			all[figure{"branch", b.Name}], all[figure{"drop", b.Name}] = b.CurrentA, b.DropV
		}
		return all
	}
	s, err := wire.Network(c.net).Solve()
	require.NoError(t, err, c.name)
	require.Empty(t, s.CollapsedAt, c.name)
	for _, n := range s.Nodes {
		all[figure{"node", n.Node}] = n.VoltageV
	}
	for _, b := range s.Branches {
		all[figure{"branch", b.Name}] = b.CurrentA
	}
	for _, src := range s.Sources {
		all[figure{"source", src.Name}] = src.CurrentA
	}
	for _, l := range s.Loads {
		all[figure{"load", l.Name}] = l.CurrentA
	}
	return all
}

// asked turns what ngspice says into what we answer: of a fault, drops in place
// of voltages.
func (c spiceCase) asked(spice map[figure]decimal.Decimal) map[figure]decimal.Decimal {
	if c.fault == "" {
		return spice
	}
	all := maps.Clone(spice)
	maps.DeleteFunc(all, func(f figure, _ decimal.Decimal) bool { return f.kind == "node" })
	for _, b := range c.net.Branches {
		all[figure{"drop", b.Name}] = spice[figure{"node", b.From}].Sub(spice[figure{"node", b.To}])
	}
	return all
}

// Two answers agree within a microvolt or a microampere, or within a part in a
// thousand million: both stand for less than a float64 loses on the way.
var (
	leastApart = d("0.000001")
	partApart  = d("0.000000001")
)

// apart lists the figures on which an answer differs from what it should be,
// and those that only one of the two has.
func apart(want, got map[figure]decimal.Decimal) []figure {
	var all []figure
	for f, w := range want {
		g, ok := got[f]
		if !ok || g.Sub(w).Abs().GreaterThan(decimal.Max(leastApart, w.Abs().Mul(partApart))) {
			all = append(all, f)
		}
	}
	for f := range got {
		if _, ok := want[f]; !ok {
			all = append(all, f)
		}
	}
	return all
}

func agree(t *testing.T, want, got map[figure]decimal.Decimal) {
	t.Helper()
	for _, f := range apart(want, got) {
		t.Errorf("%s %s: want %s, got %s", f.kind, f.name, want[f], got[f])
	}
}

// TestAgainstGolden holds every voltage and current to what ngspice answered.
func TestAgainstGolden(t *testing.T) {
	answers := golden(t)
	require.Equal(t, len(spiceCases), len(answers), "an answer to every netlist, and no more")
	for _, c := range spiceCases {
		t.Run(c.name, func(t *testing.T) {
			require.NotEmpty(t, answers[c.name])
			agree(t, c.asked(answers[c.name]), c.solve(t))
		})
	}
}

// TestAgainstNgspice runs ngspice itself where it is installed; where the whole
// check runs it must be.
func TestAgainstNgspice(t *testing.T) {
	program, err := exec.LookPath("ngspice")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("ngspice is missing: apt-get install ngspice")
		}
		t.Skip("ngspice is not installed; the committed answers are compared all the same")
	}
	committed := golden(t)
	for _, c := range spiceCases {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "live.cir")
			require.NoError(t, os.WriteFile(path, []byte(c.netlist()), 0o644))
			printed, err := exec.Command(program, "-b", path).CombinedOutput()
			require.NoError(t, err, string(printed))
			live := readAnswer(string(printed))
			require.NotEmpty(t, live, string(printed))
			agree(t, committed[c.name], live)
			agree(t, c.asked(live), c.solve(t))
		})
	}
}

// TestComparisonBites: a sign turned in any one figure of any network is found,
// and it alone.
func TestComparisonBites(t *testing.T) {
	answers := golden(t)
	for _, c := range spiceCases {
		want := c.asked(answers[c.name])
		got := maps.Clone(want)
		turned := 0
		for f := range got {
			if want[f].Abs().LessThanOrEqual(leastApart) {
				continue
			}
			turned++
			want[f] = want[f].Neg()
			assert.Equal(t, []figure{f}, apart(want, got), c.name)
			want[f] = want[f].Neg()
		}
		assert.NotZero(t, turned, c.name)
	}
}

// TestTurnedLoadIsFound: a load drawn the wrong way round is another network.
func TestTurnedLoadIsFound(t *testing.T) {
	c := spiceCases[0]
	want := golden(t)[c.name]
	c.net.Loads = slices.Clone(c.net.Loads)
	c.net.Loads[0].CurrentA.Decimal = c.net.Loads[0].CurrentA.Decimal.Neg()
	assert.Len(t, apart(want, c.solve(t)), len(want), "every voltage and every current of one_feeder depends on the sign")
}

// TestSpicePowerBalance: what the sources give is lost in branches or drawn by
// loads, in our answers and in ngspice's.
func TestSpicePowerBalance(t *testing.T) {
	answers := golden(t)
	for _, c := range spiceCases {
		if c.fault != "" {
			continue
		}
		for who, all := range map[string]map[figure]decimal.Decimal{"we": c.solve(t), "ngspice": answers[c.name]} {
			given, drawn := c.power(all)
			require.True(t, given.IsPositive(), c.name)
			assert.True(t, given.Sub(drawn).Abs().LessThanOrEqual(given.Mul(partApart)), "%s, %s: %s W given, %s W lost and drawn", c.name, who, given, drawn)
		}
	}
}

// power sums what the sources give at their terminals, a charger in constant
// current among them, and what branches lose and loads draw.
func (c spiceCase) power(all map[figure]decimal.Decimal) (given, drawn decimal.Decimal) {
	across := func(node, back string) decimal.Decimal {
		return all[figure{"node", node}].Sub(all[figure{"node", back}])
	}
	for _, s := range c.net.Sources {
		given = given.Add(across(s.Node, s.Return).Mul(all[figure{"source", s.Name}]))
	}
	for _, b := range c.net.Branches {
		current := all[figure{"branch", b.Name}]
		drawn = drawn.Add(current.Mul(current).Mul(b.Milliohm).Shift(-3))
	}
	for _, l := range c.net.Loads {
		watt := across(l.Node, l.Return).Mul(all[figure{"load", l.Name}])
		if watt.IsNegative() {
			given = given.Sub(watt)
			continue
		}
		drawn = drawn.Add(watt)
	}
	return given, drawn
}

// TestFaultByHand: two batteries of 13.5 V, each behind 3 mΩ of its own and
// 0.247 mΩ of lead, and two limited sources of 25 A and 30 A feed a bus; 3.5 m
// of 10 mm² cable, 1.91 mΩ/m at 20 °C (IEC 60228:2004, class 5), lead out to a
// panel and back.
//
//	half of 3.247 mΩ                                = 1.6235 mΩ
//	run: 2 × 3.5 m × 1.91 mΩ/m                      = 13.37 mΩ
//	bus:   13.5 V ÷ 1.6235 mΩ + 25 A + 30 A         = 8370.368 A
//	panel: (13.5 V + 55 A × 1.6235 mΩ) ÷ 14.9935 mΩ = 906.346 A
//
// At the panel's fault the bus stands at 906.346 A × 13.37 mΩ = 12.118 V, so that
// both limited sources, of 14.4 V behind 1 mΩ, are at their limits.
func TestFaultByHand(t *testing.T) {
	n := wire.Network(twoLimitedTwoBatteries())
	for _, c := range []struct{ node, total, battery string }{
		{"bus", "8370.368", "4157.684"},
		{"panel", "906.346", "425.673"},
	} {
		f, err := n.Fault(c.node, d("0"))
		require.NoError(t, err)
		near(t, c.total, f.CurrentA, c.node)
		for i, want := range []string{c.battery, c.battery, "25", "30"} {
			near(t, want, f.Sources[i].CurrentA, c.node, f.Sources[i].Name)
			assert.Equal(t, i >= 2, f.Sources[i].AtLimit, f.Sources[i].Name)
		}
		assert.False(t, f.OnlyLimited)
	}
}

// TestFaultAtCentreTap: a fault between two blocks in series is fed through the
// upper block's return as well. By hand, the middle being at 0 V: the lower block
// gives 12.6 V ÷ 3 mΩ = 4200 A; the second bank of 25.2 V drives
// (25.2 V − 12.6 V) ÷ 6 mΩ = 2100 A backwards through the upper block.
func TestFaultAtCentreTap(t *testing.T) {
	i := slices.IndexFunc(spiceCases, func(c spiceCase) bool { return c.name == "fault_at_centre_tap" })
	f, err := wire.Network(spiceCases[i].net).Fault("middle", d("0"))
	require.NoError(t, err)
	near(t, "6300", f.CurrentA)
	assert.Equal(t, "4200", fmt.Sprint(f.Sources[0].CurrentA))
}
