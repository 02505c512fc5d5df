package wire_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func some(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }

// near asserts a figure to half a unit of the last digit that the book prints.
func near(t *testing.T, want string, got decimal.Decimal, message ...any) {
	t.Helper()
	slack := decimal.New(5, d(want).Exponent()-1)
	assert.Truef(t, got.Sub(d(want)).Abs().LessThanOrEqual(slack), "%v: want %s, got %s", message, want, got)
}

// bank is a row of batteries of 1 mΩ with links of both poles between
// neighbours, drawn with both poles; 100 A are taken between two posts.
func bank(batteries int, linkMilliohm string, plus, minus int) wire.Network {
	var n wire.Network
	post := func(pole string, i int) string { return fmt.Sprint(pole, " ", i) }
	for i := 1; i <= batteries; i++ {
		n.Sources = append(n.Sources, wire.NodeSource{Name: fmt.Sprint("battery ", i), Node: post("plus", i), Return: post("minus", i), EMFV: d("12.8"), Milliohm: d("1")})
		for _, pole := range []string{"plus", "minus"} {
			if i < batteries {
				n.Branches = append(n.Branches, wire.Branch{Name: fmt.Sprint(pole, " link ", i), From: post(pole, i), To: post(pole, i+1), Milliohm: d(linkMilliohm)})
			}
		}
	}
	n.Loads = []wire.NodeLoad{{Name: "inverter", Node: post("plus", plus), Return: post("minus", minus), CurrentA: some("100")}}
	return n
}

// TestBankShares holds the shares of a bank to those published for diagonal
// and same-end take-offs. Source: common practice, worked by hand: with equal
// batteries each link's drop follows from the sum of the currents behind it.
func TestBankShares(t *testing.T) {
	for _, c := range []struct {
		name  string
		net   wire.Network
		share []string
	}{
		{"diagonal, 1 mΩ links", bank(4, "1", 1, 4), []string{"37.5", "12.5", "12.5", "37.5"}},
		{"same end, 1 mΩ links", bank(4, "1", 1, 1), []string{"73", "20", "5", "2"}},
		{"diagonal, 0.1 mΩ links", bank(4, "0.1", 1, 4), []string{"27", "23", "23", "27"}},
	} {
		s, err := c.net.Solve()
		require.NoError(t, err, c.name)
		require.Empty(t, s.CollapsedAt, c.name)
		for i, want := range c.share {
			near(t, want, s.Sources[i].CurrentA, c.name, i+1)
		}
	}
}

// TestUnequalLeads: two batteries share in the inverse ratio of all that lies
// between each and the busbar.
func TestUnequalLeads(t *testing.T) {
	for _, c := range []struct{ own, first, second string }{{"3", "113", "87"}, {"1", "125", "75"}} {
		s, err := wire.Network{
			Sources: []wire.NodeSource{
				{Name: "left", Node: "left posts", EMFV: d("12.8"), Milliohm: d(c.own)},
				{Name: "right", Node: "right posts", EMFV: d("12.8"), Milliohm: d(c.own)},
			},
			Branches: []wire.Branch{
				{Name: "left lead", From: "left posts", To: "busbar", Milliohm: d("0.5")},
				{Name: "right lead", From: "right posts", To: "busbar", Milliohm: d("1.5")},
			},
			Loads: []wire.NodeLoad{{Name: "inverter", Node: "busbar", CurrentA: some("200")}},
		}.Solve()
		require.NoError(t, err)
		near(t, c.first, s.Sources[0].CurrentA)
		near(t, c.second, s.Sources[1].CurrentA)
	}
}

// single is one battery, one cable and one load.
func single(l wire.NodeLoad) wire.Network {
	l.Name, l.Node = "load", "end"
	return wire.Network{
		Sources:  []wire.NodeSource{{Name: "battery", Node: "posts", EMFV: d("12"), Milliohm: d("4")}},
		Branches: []wire.Branch{{Name: "cable", From: "posts", To: "end", Milliohm: d("6")}},
		Loads:    []wire.NodeLoad{l},
	}
}

// TestSingleLoad: a quadratic solves one constant-power load by hand:
// U = E ÷ 2 + √(E² ÷ 4 − R P).
func TestSingleLoad(t *testing.T) {
	for _, c := range []struct {
		load wire.NodeLoad
		want string // V at the load
	}{
		{wire.NodeLoad{CurrentA: some("100")}, "11"},
		{wire.NodeLoad{CurrentA: some("-100")}, "13"},
		{wire.NodeLoad{Ohm: some("0.11")}, "11"},
		{wire.NodeLoad{PowerW: some("1100")}, "11.000000"},
		{wire.NodeLoad{PowerW: some("0")}, "12"},
	} {
		s, err := single(c.load).Solve()
		require.NoError(t, err)
		near(t, c.want, s.Loads[0].VoltageV)
		l, err := s.Ladder("end")
		require.NoError(t, err)
		workingtest.Guard(t, l.Working)
		drop, _ := l.Working.Value("ΔU")
		near(t, s.Branches[0].DropV.String(), drop)
	}
}

// TestCollapse: the most that a source of 12 V behind 10 mΩ brings is
// E² ÷ 4 R = 3600 W, at half its voltage.
func TestCollapse(t *testing.T) {
	for _, c := range []struct{ watt, collapsed string }{
		{"3599.9999", ""}, {"3600", ""}, {"3600.0001", "end"}, {"5000", "end"}, {"1000000", "end"},
	} {
		s, err := single(wire.NodeLoad{PowerW: some(c.watt)}).Solve()
		require.NoError(t, err)
		assert.Equal(t, c.collapsed, s.CollapsedAt, c.watt)
		if c.watt == "3600" {
			near(t, "6.0000", s.Loads[0].VoltageV)
			near(t, "600.00", s.Loads[0].CurrentA)
		}
	}
	s, err := single(wire.NodeLoad{CurrentA: some("1200")}).Solve()
	require.NoError(t, err)
	assert.Equal(t, "end", s.CollapsedAt, "no voltage is left")
	_, err = s.Ladder("end")
	assert.ErrorIs(t, err, wire.ErrNoOperatingPoint)
	_, err = s.LoadCheck("load")
	assert.ErrorIs(t, err, wire.ErrNoOperatingPoint)
}

// TestLimitedSources: a limited source sleeps above its voltage, gives up to
// its limit below it, and never takes current.
func TestLimitedSources(t *testing.T) {
	n := func(emf, limit, load string) wire.Network {
		return wire.Network{
			Sources: []wire.NodeSource{
				{Name: "battery", Node: "busbar", EMFV: d("12.8"), Milliohm: d("5")},
				{Name: "converter", Node: "busbar", EMFV: d(emf), Milliohm: d("10"), LimitA: some(limit)},
			},
			Loads: []wire.NodeLoad{{Name: "load", Node: "busbar", CurrentA: some(load)}},
		}
	}
	for _, c := range []struct {
		name                          string
		net                           wire.Network
		battery, converter, atVoltage string
		limited                       bool
	}{
		{"charges at its limit", n("14.4", "40", "10"), "-30", "40", "12.95", true},
		{"shares below its limit", n("14.4", "400", "10"), "-100", "110", "13.3", false},
		{"sleeps", n("12.5", "40", "10"), "10", "0", "12.75", false},
		{"wakes", n("12.5", "40", "105"), "90", "15", "12.35", false},
		{"at its limit below", n("12.5", "40", "240"), "200", "40", "11.8", true},
	} {
		s, err := c.net.Solve()
		require.NoError(t, err, c.name)
		require.Empty(t, s.CollapsedAt, c.name)
		near(t, c.battery, s.Sources[0].CurrentA, c.name)
		near(t, c.converter, s.Sources[1].CurrentA, c.name)
		near(t, c.atVoltage, s.Loads[0].VoltageV, c.name)
		assert.Equal(t, c.limited, s.Sources[1].AtLimit, c.name)
	}
}

// TestLimitedAlone: a source at its limit lets its loads set the voltage.
func TestLimitedAlone(t *testing.T) {
	n := single(wire.NodeLoad{Ohm: some("0.5")})
	n.Sources[0].LimitA = some("10")
	s, err := n.Solve()
	require.NoError(t, err)
	near(t, "5.000000", s.Loads[0].VoltageV)
	assert.True(t, s.Sources[0].AtLimit)
	l, err := s.Ladder("end")
	require.NoError(t, err)
	workingtest.Guard(t, l.Working)

	n.Loads[0] = wire.NodeLoad{Name: "load", Node: "end", CurrentA: some("11")}
	s, err = n.Solve()
	require.NoError(t, err)
	assert.Equal(t, "end", s.CollapsedAt, "more than the limit")
}

// TestBackupCarriesAlone: without the second source the load would collapse;
// it wakes in time.
func TestBackupCarriesAlone(t *testing.T) {
	s, err := wire.Network{
		Sources: []wire.NodeSource{
			{Name: "weak", Node: "busbar", EMFV: d("12"), Milliohm: d("1000")},
			{Name: "backup", Node: "busbar", EMFV: d("11"), Milliohm: d("10"), LimitA: some("100")},
		},
		Loads: []wire.NodeLoad{{Name: "load", Node: "busbar", PowerW: some("200")}},
	}.Solve()
	require.NoError(t, err)
	require.Empty(t, s.CollapsedAt)
	u := s.Loads[0].VoltageV
	sum := d("12").Sub(u).Add(d("11").Sub(u).Mul(d("100")))
	near(t, "0.0000", sum.Mul(u).Sub(d("200")), "the sources' currents by Ohm's law give the load's power")
}

// TestChassisReturn: two loads share a chassis; each lifts the return of both.
func TestChassisReturn(t *testing.T) {
	s, err := wire.Network{
		Sources: []wire.NodeSource{{Name: "battery", Node: "plus", EMFV: d("12.6"), Milliohm: d("5")}},
		Branches: []wire.Branch{
			{Name: "lamp wire", From: "plus", To: "lamp", Milliohm: d("20")},
			{Name: "pump wire", From: "plus", To: "pump", Milliohm: d("10")},
			{Name: "chassis", From: "rear frame", To: wire.CommonReturn, Milliohm: d("4")},
		},
		Loads: []wire.NodeLoad{
			{Name: "lamp", Node: "lamp", Return: "rear frame", CurrentA: some("5"), TripV: some("12.5")},
			{Name: "pump", Node: "pump", Return: "rear frame", CurrentA: some("15")},
		},
	}.Solve()
	require.NoError(t, err)
	near(t, "12.32", s.Loads[0].VoltageV) // 12.6 − 20 × 0.005 − 5 × 0.020 − 20 × 0.004
	near(t, "12.27", s.Loads[1].VoltageV)
	assert.True(t, s.Loads[0].BelowTrip)
	c, err := s.LoadCheck("lamp")
	require.NoError(t, err)
	assert.Equal(t, working.Fails, c.Verdict())
	near(t, "-0.18", c.Margin())
	workingtest.Guard(t, c.Working)
	c, err = s.LoadCheck("pump")
	require.NoError(t, err)
	assert.Equal(t, working.CannotTell, c.Verdict())
}

// TestSeries: two 12 V blocks in series, and a fault across both.
func TestSeries(t *testing.T) {
	n := wire.Network{
		Sources: []wire.NodeSource{
			{Name: "lower", Node: "middle", EMFV: d("12.6"), Milliohm: d("3")},
			{Name: "upper", Node: "plus", Return: "middle", EMFV: d("12.6"), Milliohm: d("3")},
		},
		Branches: []wire.Branch{{Name: "cable", From: "plus", To: "end", Milliohm: d("4")}},
		Loads:    []wire.NodeLoad{{Name: "winch", Node: "end", CurrentA: some("100")}},
	}
	s, err := n.Solve()
	require.NoError(t, err)
	near(t, "24.2", s.Loads[0].VoltageV)
	l, err := s.Ladder("end")
	require.NoError(t, err)
	workingtest.Guard(t, l.Working)
	f, err := n.Fault("end", d("0"))
	require.NoError(t, err)
	near(t, "2520", f.CurrentA)
	workingtest.Guard(t, f.Working)
}

func TestFault(t *testing.T) {
	n := wire.Network{
		Sources: []wire.NodeSource{
			{Name: "bank", Node: "posts", EMFV: d("13.3"), Milliohm: d("2")},
			{Name: "charger", Node: "busbar", EMFV: d("14.4"), Milliohm: d("10"), LimitA: some("60")},
		},
		Branches: []wire.Branch{{Name: "main", From: "posts", To: "busbar", Milliohm: d("0.5")}},
		Loads:    []wire.NodeLoad{{Name: "inverter", Node: "busbar", PowerW: some("2000")}},
	}
	f, err := n.Fault("posts", d("0")) // 13.3 V ÷ 2 mΩ; beside it the charger's limit
	require.NoError(t, err)
	near(t, "6710", f.CurrentA)
	assert.True(t, f.Sources[1].AtLimit)
	assert.False(t, f.OnlyLimited)
	workingtest.Guard(t, f.Working)

	f, err = n.Fault("busbar", d("0"))
	require.NoError(t, err)
	near(t, "5380", f.CurrentA) // 13.3 V ÷ 2.5 mΩ + 60 A
	near(t, "5320", f.Branches[0].CurrentA)
	workingtest.Guard(t, f.Working)

	f, err = n.Fault("busbar", d("10")) // I = (13.3 − 0.010 I) ÷ 0.0025 + 60
	require.NoError(t, err)
	near(t, "1076.000000", f.CurrentA)

	f, err = wire.Network{Sources: n.Sources[1:]}.Fault("busbar", d("0"))
	require.NoError(t, err)
	assert.True(t, f.OnlyLimited)
	near(t, "60", f.CurrentA)
}

func TestNetworkRefuses(t *testing.T) {
	good := single(wire.NodeLoad{CurrentA: some("1")})
	for _, c := range []struct {
		field string
		spoil func(n *wire.Network)
	}{
		{"sources", func(n *wire.Network) { n.Sources = nil }},
		{"sources[0].emf_v", func(n *wire.Network) { n.Sources[0].EMFV = d("0") }},
		{"sources[0].milliohm", func(n *wire.Network) { n.Sources[0].Milliohm = d("0") }},
		{"sources[0].limit_a", func(n *wire.Network) { n.Sources[0].LimitA = some("0") }},
		{"sources[0].node", func(n *wire.Network) { n.Sources[0].Node, n.Sources[0].Return = wire.CommonReturn, "x" }},
		{"sources[1].name", func(n *wire.Network) { n.Sources = append(n.Sources, n.Sources[0]) }},
		{"branches[0].milliohm", func(n *wire.Network) { n.Branches[0].Milliohm = d("0.0001") }},
		{"branches[0].to_node", func(n *wire.Network) { n.Branches[0].To = "posts" }},
		{"branches[0].from_node", func(n *wire.Network) { n.Branches[0].From = "" }},
		{"loads[0].name", func(n *wire.Network) { n.Loads[0].Name = "" }},
		{"loads[0].current_a", func(n *wire.Network) { n.Loads[0].PowerW = some("1") }},
		{"loads[0].current_a", func(n *wire.Network) { n.Loads[0].CurrentA = decimal.NullDecimal{} }},
		{"loads[0].node", func(n *wire.Network) { n.Loads[0].Node = "nowhere" }},
		{"loads[0].return", func(n *wire.Network) { n.Loads[0].Return = "nowhere" }},
		{"branches[1].from_node", func(n *wire.Network) {
			n.Branches = append(n.Branches, wire.Branch{Name: "b", From: "x", To: "y", Milliohm: d("1")})
		}},
		{"loads[0].current_a", func(n *wire.Network) {
			n.Sources[0].LimitA, n.Loads[0].CurrentA = some("10"), some("-1")
		}},
	} {
		n := wire.Network{
			Sources: append([]wire.NodeSource(nil), good.Sources...), Branches: append([]wire.Branch(nil), good.Branches...),
			Loads: append([]wire.NodeLoad(nil), good.Loads...),
		}
		c.spoil(&n)
		_, err := n.Solve()
		require.Error(t, err, c.field)
		faults := working.Inputs(err)
		require.NotEmpty(t, faults, c.field)
		assert.Equal(t, c.field, faults[0].Field)
	}
	_, err := good.Fault("nowhere", d("0"))
	assert.ErrorContains(t, err, "node is")
	_, err = bank(4, "1", 1, 4).Fault("minus 1", d("0"))
	assert.ErrorContains(t, err, "node is", "a fault from a return to itself")
	_, err = good.Fault("end", d("-1"))
	assert.ErrorContains(t, err, "fault_milliohm")
	_, err = wire.Solution{}.Ladder("end")
	assert.Error(t, err)
}

// random builds a network of any shape: a tree with some loops, several sources
// and loads of every kind.
func random(r *rand.Rand, nodes int) wire.Network {
	var n wire.Network
	name := func(i int) string { return fmt.Sprint("n", i) }
	number := func(low, high float64) decimal.Decimal {
		return decimal.NewFromFloat(low + r.Float64()*(high-low)).Round(3)
	}
	branch := func(from, to int) {
		if from != to {
			n.Branches = append(n.Branches, wire.Branch{Name: fmt.Sprint("b", len(n.Branches)), From: name(from), To: name(to), Milliohm: number(0.01, 5)})
		}
	}
	for i := 1; i < nodes; i++ {
		branch(i, r.IntN(i))
	}
	for range nodes / 4 {
		branch(r.IntN(nodes), r.IntN(nodes))
	}
	for i := range 1 + r.IntN(4) {
		s := wire.NodeSource{Name: fmt.Sprint("s", i), Node: name(r.IntN(nodes)), EMFV: number(12, 14.5), Milliohm: number(0.5, 20)}
		if i > 0 && r.IntN(2) == 0 {
			s.LimitA = decimal.NewNullDecimal(number(5, 100))
		}
		n.Sources = append(n.Sources, s)
	}
	for i := range nodes {
		l := wire.NodeLoad{Name: fmt.Sprint("l", i), Node: name(i)}
		switch r.IntN(5) {
		case 0:
			l.CurrentA = decimal.NewNullDecimal(number(-5, 10))
		case 1:
			l.PowerW = decimal.NewNullDecimal(number(1, 150))
		case 2:
			l.Ohm = decimal.NewNullDecimal(number(1, 50))
		default:
			continue
		}
		n.Loads = append(n.Loads, l)
	}
	return n
}

// TestPowerBalance: what the EMFs give is lost in sources and branches or drawn
// by loads; a current at its limit leaves the rest in the source.
func TestPowerBalance(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	solved := 0
	for i := range 300 {
		n := random(r, 2+i%40)
		s, err := n.Solve()
		require.NoError(t, err)
		if s.CollapsedAt != "" {
			continue
		}
		solved++
		given, drawn := decimal.Zero, decimal.Zero
		for k, src := range s.Sources {
			given = given.Add(src.TerminalV.Mul(src.CurrentA))
			own := n.Sources[k].EMFV.Sub(src.CurrentA.Mul(n.Sources[k].Milliohm).Shift(-3))
			switch {
			case src.AtLimit:
				assert.True(t, src.TerminalV.Sub(own).LessThan(d("0.000001")), "a source at its limit is not above its own line")
			case n.Sources[k].LimitA.Valid && src.CurrentA.IsZero():
				assert.True(t, src.TerminalV.GreaterThan(own.Sub(d("0.000001"))), "an idle source is not below its EMF")
			default:
				near(t, "0.000000", src.TerminalV.Sub(own))
			}
		}
		for k, b := range s.Branches {
			drawn = drawn.Add(b.LossW)
			assert.False(t, b.LossW.IsNegative(), n.Branches[k].Name)
		}
		for k, l := range s.Loads {
			drawn = drawn.Add(l.VoltageV.Mul(l.CurrentA))
			if n.Loads[k].PowerW.Valid {
				near(t, n.Loads[k].PowerW.Decimal.StringFixed(5), l.VoltageV.Mul(l.CurrentA), "power")
			}
			ladder, err := s.LoadLadder(l.Name)
			require.NoError(t, err)
			workingtest.Guard(t, ladder.Working)
		}
		near(t, "0.00000", given.Sub(drawn), "power balance")
	}
	assert.Greater(t, solved, 200)
}

// TestNetworkIsOneAnswer: the order in which a network is written changes
// nothing but the order of the answers.
func TestNetworkIsOneAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		n := random(r, 12)
		a, err := n.Solve()
		require.NoError(t, err)
		again, err := n.Solve()
		require.NoError(t, err)
		first, _ := json.Marshal(a)
		second, _ := json.Marshal(again)
		assert.Equal(t, string(first), string(second))
		r.Shuffle(len(n.Branches), func(i, j int) { n.Branches[i], n.Branches[j] = n.Branches[j], n.Branches[i] })
		b, err := n.Solve()
		require.NoError(t, err)
		require.Equal(t, a.CollapsedAt == "", b.CollapsedAt == "")
		for k := range a.Loads {
			near(t, a.Loads[k].VoltageV.StringFixed(6), b.Loads[k].VoltageV)
		}
	}
}

// TestCollapseIsFinal: as every load grows in step, a network collapses once and
// stays so. With one line for both poles more load can never help.
func TestCollapseIsFinal(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	fell := 0
	for range 60 {
		n := random(r, 15)
		for i := range n.Loads {
			n.Loads[i].CurrentA.Decimal = n.Loads[i].CurrentA.Decimal.Abs()
		}
		var before decimal.Decimal
		collapsed := false
		for _, factor := range []string{"0.5", "1", "2", "4", "8", "12", "16", "24", "32", "64"} {
			more := wire.Network{Sources: n.Sources, Branches: n.Branches, Loads: append([]wire.NodeLoad(nil), n.Loads...)}
			for i := range more.Loads {
				l := &more.Loads[i]
				l.CurrentA.Decimal, l.PowerW.Decimal = l.CurrentA.Decimal.Mul(d(factor)), l.PowerW.Decimal.Mul(d(factor))
			}
			s, err := more.Solve()
			require.NoError(t, err)
			if collapsed {
				assert.NotEmpty(t, s.CollapsedAt, "more load brought it back")
				continue
			}
			if collapsed = s.CollapsedAt != ""; collapsed {
				fell++
				continue
			}
			lowest := s.Nodes[0].VoltageV
			for _, v := range s.Nodes {
				lowest = decimal.Min(lowest, v.VoltageV)
			}
			assert.True(t, factor == "0.5" || lowest.LessThan(before), "more load raises the lowest voltage")
			before = lowest
		}
	}
	assert.Greater(t, fell, 40)
}

// TestWithIsSolve wants the very answer of Solve to the same network with the
// other resistances, also after a collapse and again from that answer.
func TestWithIsSolve(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 300 {
		n := random(r, 3+r.IntN(12))
		s, err := n.Solve()
		require.NoError(t, err)
		for range 3 {
			milliohm := make([]decimal.Decimal, len(n.Branches))
			for i := range milliohm {
				milliohm[i] = decimal.New(1+r.Int64N(1_000_000), -3)
				n.Branches[i].Milliohm = milliohm[i]
			}
			want, err := n.Solve()
			require.NoError(t, err)
			got, err := s.With(milliohm)
			require.NoError(t, err)
			assert.Equal(t, fmt.Sprint(want.CollapsedAt, want.Nodes, want.Branches, want.Sources, want.Loads),
				fmt.Sprint(got.CollapsedAt, got.Nodes, got.Branches, got.Sources, got.Loads))
			s = got
		}
	}
}

// TestWithRefuses wants one resistance a branch, inside the range.
func TestWithRefuses(t *testing.T) {
	s, err := van().Solve()
	require.NoError(t, err)
	milliohm := make([]decimal.Decimal, len(s.Branches))
	_, err = s.With(milliohm)
	assert.Len(t, working.Inputs(err), len(milliohm))
	_, err = s.With(milliohm[1:])
	assert.Len(t, working.Inputs(err), 1)
	_, err = wire.Solution{}.With(nil)
	assert.Len(t, working.Inputs(err), 1)
}

// TestEachLoadAtANodeIsShown: the ladder to a node shows every load there, whatever
// stands before it in the list and between them at other nodes.
func TestEachLoadAtANodeIsShown(t *testing.T) {
	n := van()
	n.Loads = append(n.Loads,
		wire.NodeLoad{Name: "second pump", Node: "pump", Ohm: some("4")},
		wire.NodeLoad{Name: "lamp", Node: "busbar", Ohm: some("10")},
		wire.NodeLoad{Name: "heater", Node: "pump", PowerW: some("30")})
	s, err := n.Solve()
	require.NoError(t, err)
	ladder, err := s.Ladder("pump")
	require.NoError(t, err)
	workingtest.Guard(t, ladder.Working)
	var formulas []string
	for _, step := range ladder.Working {
		if step.Symbol == "I_L" {
			formulas = append(formulas, step.Formula)
		}
	}
	assert.Subset(t, formulas, []string{"U_L ÷ R_L", "P ÷ U_L"}, "the two that stand behind others")
}
