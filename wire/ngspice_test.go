package wire_test

import (
	"encoding/csv"
	"flag"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
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
		f := c.solveFault(t)
		all[figure{"load", "fault"}] = f.CurrentA
		for _, s := range f.Sources {
			all[figure{"source", s.Name}] = s.CurrentA
		}
		for _, b := range f.Branches {
			all[figure{"branch", b.Name}], all[figure{"drop", b.Name}] = b.CurrentA, b.DropV
		}
		return all
	}
	s := c.solveLoads(t)
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

func (c spiceCase) solveLoads(t *testing.T) wire.Solution {
	t.Helper()
	var s wire.Solution
	var err error
	require.NotPanics(t, func() { s, err = wire.Network(c.net).Solve() })
	require.NoError(t, err)
	require.Empty(t, s.CollapsedAt)
	return s
}

func (c spiceCase) solveFault(t *testing.T) wire.NetworkFault {
	t.Helper()
	var f wire.NetworkFault
	var err error
	require.NotPanics(t, func() { f, err = wire.Network(c.net).Fault(c.fault, d(c.faultMilliohm)) })
	require.NoError(t, err)
	return f
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

// Two answers agree within a tenth of a microvolt or microampere, or within a
// part in a thousand million. Our currents are given to nine places, and a
// branch's is the sum of all beyond it.
var (
	leastApart = d("0.0000001")
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
		t.Run(c.name, func(t *testing.T) {
			closes(t, c, answers[c.name])
			closes(t, c, c.solve(t))
		})
	}
}

func closes(t *testing.T, c spiceCase, all map[figure]decimal.Decimal) {
	t.Helper()
	given, drawn := c.power(all)
	require.True(t, given.IsPositive())
	assert.Truef(t, given.Sub(drawn).Abs().LessThanOrEqual(given.Mul(partApart)), "%s W given, %s W lost and drawn", given, drawn)
}

// TestSpiceWorkings: the ladder to each load ends at the voltage that ngspice
// has there, and the working of each fault at its current.
func TestSpiceWorkings(t *testing.T) {
	answers := golden(t)
	for _, c := range spiceCases {
		t.Run(c.name, func(t *testing.T) {
			spice := answers[c.name]
			if c.fault != "" {
				f := c.solveFault(t)
				workingtest.Guard(t, f.Working)
				total, ok := f.Working.Value("I_k")
				require.True(t, ok)
				agree(t, map[figure]decimal.Decimal{{"load", "fault"}: spice[figure{"load", "fault"}]}, map[figure]decimal.Decimal{{"load", "fault"}: total})
				return
			}
			s := c.solveLoads(t)
			for _, l := range c.net.Loads {
				ladder, err := s.LoadLadder(l.Name)
				require.NoError(t, err)
				workingtest.Guard(t, ladder.Working)
				volts, ok := ladder.Working.Value("U_L")
				require.True(t, ok)
				across := spice[figure{"node", l.Node}].Sub(spice[figure{"node", l.Return}])
				agree(t, map[figure]decimal.Decimal{{"load", l.Name}: across}, map[figure]decimal.Decimal{{"load", l.Name}: volts})
			}
		})
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
		for i, want := range []string{c.battery, c.battery, "25.000000", "30.000000"} {
			near(t, want, f.Sources[i].CurrentA, c.node, f.Sources[i].Name)
			assert.Equal(t, i >= 2, f.Sources[i].AtLimit, f.Sources[i].Name)
		}
		assert.False(t, f.OnlyLimited)
	}
}

// TestHardByHand: networks that a solver may stumble over, each also among the
// netlists; here their answers by hand, from Kirchhoff's and Ohm's laws.
func TestHardByHand(t *testing.T) {
	want := map[string]map[figure]string{
		// The middle being at 0 V, the lower block gives 12.6 V ÷ 3 mΩ = 4200 A; the
		// second bank drives (25.2 V − 12.6 V) ÷ 6 mΩ = 2100 A backwards through the
		// upper block, into the fault by its return.
		"fault_at_centre_tap": {{"load", "fault"}: "6300.000000", {"source", "lower"}: "4200.000000", {"source", "upper"}: "-2100.000000", {"source", "second"}: "2100.000000"},
		// U = 12.8 V ÷ 2 + √((12.8 V)² ÷ 4 − 10 mΩ × 30 W) at the tap; the upper charger
		// has 26.35 V − U = 13.57 V across it, more than its 12.8 V.
		"series_chargers_tap": {{"node", "mid"}: "12.776519", {"node", "plus"}: "26.350000", {"source", "low"}: "2.348057", {"source", "high"}: "0.000000", {"source", "bank"}: "10.000000"},
		// Both carry the smaller limit; the bank takes 10 A, so 26.4 V + 5 mΩ × 10 A;
		// below it 14.4 V − 10 mΩ × 20 A of the upper charger.
		"series_chargers_bank": {{"node", "plus"}: "26.450000", {"node", "mid"}: "12.250000", {"source", "low"}: "20.000000", {"source", "high"}: "20.000000", {"source", "bank"}: "-10.000000"},
		// Both carry the smaller limit.
		"series_converters_fault": {{"load", "fault"}: "20.000000", {"source", "low"}: "20.000000", {"source", "high"}: "20.000000"},
		// At 11.996906 V: (13.8 V − U) ÷ 15 Ω + (12 V − U) ÷ 2 mΩ = 20 W ÷ U.
		"weak_and_backup": {{"node", "bus"}: "11.996906", {"source", "trickle"}: "0.120206", {"source", "converter"}: "1.546890"},
		// The pump's 8 A flow in the upper half alone: 12.8 V + 60 mΩ × 8 A at the tap
		// is more than the charger's 12.8 V.
		"tap_lifted": {{"node", "tap"}: "13.280000", {"source", "charger"}: "0.000000", {"source", "lower"}: "0.000000", {"source", "upper"}: "8.000000"},
	}
	for _, c := range spiceCases {
		figures, ok := want[c.name]
		if !ok {
			continue
		}
		delete(want, c.name)
		t.Run(c.name, func(t *testing.T) {
			got := c.solve(t)
			for f, w := range figures {
				near(t, w, got[f], f.kind, f.name)
			}
		})
	}
	assert.Empty(t, want, "no such netlist")
}

// TestSeriesChargersIdle: two 12 V chargers in series across a 24 V bank that
// stands above both leave the point between them without a voltage of its own.
// That is no reason to fall over: their currents are nought all the same.
func TestSeriesChargersIdle(t *testing.T) {
	n := wire.Network(drawing{}.battery("bank", "plus", "26.4", "5").limited("low", "mid", "12.8", "10", "20").
		limited("high", "plus/mid", "12.8", "10", "20").amperes("lamps", "plus", "10"))
	var s wire.Solution
	var err error
	require.NotPanics(t, func() { s, err = n.Solve() })
	require.NoError(t, err)
	require.Empty(t, s.CollapsedAt)
	for i, want := range []string{"10.000000", "0.000000", "0.000000"} {
		near(t, want, s.Sources[i].CurrentA, s.Sources[i].Name)
	}
}

// TestFaultOnTheChassis: a short circuit from a frame to the common return is
// one that no source feeds, and the refusal says so of the node.
func TestFaultOnTheChassis(t *testing.T) {
	n := wire.Network(drawing{}.battery("bank", "plus", "12.8", "5").cable("feed", "plus", "lamp", "20").cable("strap", "frame", wire.CommonReturn, "2").
		ohms("lamp", "lamp/frame", "3"))
	_, err := n.Fault("frame", d("0"))
	faults := working.Inputs(err)
	require.Len(t, faults, 1)
	assert.Equal(t, "node", faults[0].Field)
}
