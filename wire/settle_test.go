package wire_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dice draws networks that nobody would build, to find those that a solver
// stumbles over: most sources limited, batteries and chargers in series and
// against each other, loops, loads between any two nodes.
type dice struct {
	*rand.Rand
	oneLine bool
	ohms    [2]float64 // the least and the greatest resistance of sources and branches, mΩ
	nodes   int
}

// between draws a number evenly, spread one whose logarithm is even.
func (r *dice) between(low, high float64) decimal.Decimal {
	return decimal.NewFromFloat(low + r.Float64()*(high-low)).Round(3)
}

func (r *dice) spread(low, high float64) decimal.Decimal {
	return decimal.NewFromFloat(low * math.Pow(high/low, r.Float64())).Round(3)
}

func (r *dice) milliohm() decimal.Decimal { return r.spread(r.ohms[0], r.ohms[1]) }

// node draws a live node.
func (r *dice) node() string { return fmt.Sprint("n", 1+r.IntN(r.nodes)) }

// back draws a return for what stands at a node.
func (r *dice) back(node string) string {
	if far := r.node(); !r.oneLine && far != node && r.IntN(2) == 0 {
		return far
	}
	return wire.CommonReturn
}

// network draws one. It may be one that is refused.
func (r *dice) network() wire.Network {
	r.nodes, r.oneLine = 2+r.IntN(7), r.IntN(3) == 0
	var n wire.Network
	branch := func(from, to string) {
		if from != to {
			n.Branches = append(n.Branches, wire.Branch{Name: fmt.Sprint("b", len(n.Branches)), From: from, To: to, Milliohm: r.milliohm()})
		}
	}
	for i := 2; i <= r.nodes; i++ {
		if r.IntN(5) > 0 {
			branch(fmt.Sprint("n", i), fmt.Sprint("n", 1+r.IntN(i-1)))
		}
	}
	for range r.IntN(3) {
		branch(r.node(), r.node())
	}
	if !r.oneLine && r.IntN(2) == 0 {
		branch(r.node(), wire.CommonReturn)
	}
	for i := range 1 + r.IntN(5) {
		n.Sources = append(n.Sources, r.source(fmt.Sprint("s", i)))
	}
	for i := range r.IntN(6) {
		n.Loads = append(n.Loads, r.load(fmt.Sprint("l", i)))
	}
	return n
}

func (r *dice) source(name string) wire.NodeSource {
	s := wire.NodeSource{Name: name, Node: r.node(), EMFV: d("12"), Milliohm: r.milliohm()}
	s.Return = r.back(s.Node)
	if r.IntN(3) > 0 {
		s.EMFV = r.between(5, 30)
	}
	if r.IntN(3) > 0 {
		s.LimitA = decimal.NewNullDecimal(r.spread(0.5, 200))
	}
	return s
}

func (r *dice) load(name string) wire.NodeLoad {
	l := wire.NodeLoad{Name: name, Node: r.node()}
	l.Return = r.back(l.Node)
	switch r.IntN(6) {
	case 0:
		l.CurrentA = decimal.NewNullDecimal(r.between(-5, 30))
	case 1:
		l.Ohm = decimal.NewNullDecimal(r.spread(0.1, 1000))
	default:
		l.PowerW = decimal.NewNullDecimal(r.spread(1, 2000))
	}
	return l
}

// TestAnyNetworkSettles: whatever the network, the answer is one in which
// Kirchhoff's and Ohm's laws hold to a millionth of an ampere and of a volt, or
// that there is none. The solver never gives up.
func TestAnyNetworkSettles(t *testing.T) {
	for _, ohms := range [][2]float64{{0.1, 100}, {0.001, 100_000}} {
		r := &dice{Rand: rand.New(rand.NewPCG(21, 22)), ohms: ohms}
		solved, collapsed := 0, 0
		for i := range 4000 {
			n := r.network()
			s, err := n.Solve()
			switch {
			case refused(err):
			case !assert.NoError(t, err, "network %d: %+v", i, n):
			case s.CollapsedAt != "":
				collapsed++
			default:
				solved++
				require.Empty(t, broken(n, s), "network %d: %+v", i, n)
			}
		}
		assert.Greater(t, solved, 1000)
		assert.Greater(t, collapsed, 500)
	}
}

// refused reports whether a network drawn blindly is no network.
func refused(err error) bool { return len(working.Inputs(err)) > 0 }

// law is what a source, a branch or a load does: the current from one node to
// another at the voltage between them. It is the test's own account of it.
type law struct {
	from, to string
	current  func(u float64) float64
}

// laws lists those of a network: sources, branches, loads.
func laws(n wire.Network) []law {
	var all []law
	for _, s := range n.Sources {
		emf, ohm, limit := s.EMFV.InexactFloat64(), s.Milliohm.InexactFloat64()/1000, s.LimitA.Decimal.InexactFloat64()
		all = append(all, law{s.Node, s.Return, func(u float64) float64 {
			gives := (emf - u) / ohm
			if s.LimitA.Valid {
				gives = math.Max(0, math.Min(limit, gives))
			}
			return -gives
		}})
	}
	for _, b := range n.Branches {
		all = append(all, law{b.From, b.To, func(u float64) float64 { return u * 1000 / b.Milliohm.InexactFloat64() }})
	}
	for _, l := range n.Loads {
		all = append(all, law{l.Node, l.Return, func(u float64) float64 {
			switch {
			case l.PowerW.Valid:
				return l.PowerW.Decimal.InexactFloat64() / u
			case l.Ohm.Valid:
				return u / l.Ohm.Decimal.InexactFloat64()
			default:
				return l.CurrentA.Decimal.InexactFloat64()
			}
		}})
	}
	return all
}

// broken lists where a solution breaks a law by more than a millionth of a volt
// and of an ampere.
func broken(n wire.Network, s wire.Solution) []string {
	const slack = 1e-6
	var all []string
	volts, sum := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
	for _, node := range s.Nodes {
		volts[node.Node] = node.VoltageV
	}
	elements := laws(n)
	for k, i := range currents(s) {
		e := elements[k]
		u := volts[e.from].Sub(volts[e.to]).InexactFloat64()
		a, b := e.current(u-slack), e.current(u+slack)
		if got := i.InexactFloat64(); got < math.Min(a, b)-slack || got > math.Max(a, b)+slack {
			all = append(all, fmt.Sprintf("element %d at %g V: %g A, not %g", k, u, got, e.current(u)))
		}
		sum[e.from], sum[e.to] = sum[e.from].Add(i), sum[e.to].Sub(i)
	}
	for node, left := range sum {
		if left.Abs().InexactFloat64() > slack {
			all = append(all, fmt.Sprintf("%s A are left at %s", left, node))
		}
	}
	for k, l := range s.Loads {
		if draws := n.Loads[k].PowerW.Decimal.Add(n.Loads[k].CurrentA.Decimal); draws.IsPositive() && !l.VoltageV.IsPositive() {
			all = append(all, l.Name+" has no voltage")
		}
	}
	return all
}

// currents lists those of a solution in the order of its network's laws.
func currents(s wire.Solution) []decimal.Decimal {
	var all []decimal.Decimal
	for _, src := range s.Sources {
		all = append(all, src.CurrentA.Neg())
	}
	for _, b := range s.Branches {
		all = append(all, b.CurrentA)
	}
	for _, l := range s.Loads {
		all = append(all, l.CurrentA)
	}
	return all
}

// TestOperatingPointIsFound: voltages are drawn first, and then constant currents
// that make them an operating point. With one line for both poles it must be
// found, or one that leaves the constant powers more voltage.
func TestOperatingPointIsFound(t *testing.T) {
	r := &dice{Rand: rand.New(rand.NewPCG(23, 24)), ohms: [2]float64{0.1, 100}}
	found := 0
	for i := range 10_000 {
		n := r.network()
		if !r.oneLine {
			continue
		}
		volts := r.balance(&n)
		s, err := n.Solve()
		if refused(err) {
			continue
		}
		require.NoError(t, err, "network %d: %+v", i, n)
		require.Empty(t, s.CollapsedAt, "network %d: %+v", i, n)
		require.Empty(t, broken(n, s), "network %d: %+v", i, n)
		for k, l := range s.Loads {
			if n.Loads[k].PowerW.Valid {
				found++
				assert.Greater(t, l.VoltageV.InexactFloat64(), volts[n.Loads[k].Node]-1e-6, "network %d: %+v", i, n)
			}
		}
	}
	assert.Greater(t, found, 500)
}

// balance draws a voltage for each node and adds the constant currents, rounded
// to what draws less, at which Kirchhoff's law holds there.
func (r *dice) balance(n *wire.Network) map[string]float64 {
	volts, drawn := map[string]float64{}, map[string]float64{}
	for i := range r.nodes {
		volts[fmt.Sprint("n", i+1)] = []float64{5 + 20*r.Float64(), 11 + r.Float64()}[r.IntN(2)]
	}
	for _, e := range laws(*n) {
		i := e.current(volts[e.from] - volts[e.to])
		drawn[e.from] += i
		drawn[e.to] -= i
	}
	for i := range r.nodes {
		node := fmt.Sprint("n", i+1)
		if left := drawn[node]; left != 0 {
			n.Loads = append(n.Loads, wire.NodeLoad{Name: "at " + node, Node: node, Return: wire.CommonReturn, CurrentA: decimal.NewNullDecimal(decimal.NewFromFloat(-left).RoundFloor(9))})
		}
	}
	return volts
}

// TestLimitsThatJustSuffice: limited sources together give exactly what constant
// currents draw: 20 A + 30 A, and four limits that sum to 269.096 A. A microampere
// more is too much.
func TestLimitsThatJustSuffice(t *testing.T) {
	two := drawing{}.limited("a", "bar", "14.4", "10", "20").limited("b", "bar", "14.4", "10", "30")
	four := drawing{}.limited("a", "bar", "13.995", "64.998", "126.702").limited("b", "bar", "12", "1.362", "44.803").
		limited("c", "bar", "12", "89.803", "64.798").limited("d", "bar", "12.551", "0.209", "32.793")
	for _, c := range []struct {
		net            drawing
		just, too, bar string // the highest voltage at which all give their limits: the least of EMF − R × limit
	}{
		{two, "50", "50.000001", "14.1"},
		{four, "269.096", "269.096001", "5.759623"},
	} {
		s, err := wire.Network(c.net.amperes("load", "bar", c.just)).Solve()
		require.NoError(t, err)
		require.Empty(t, s.CollapsedAt)
		near(t, c.bar, s.Loads[0].VoltageV)
		for i, src := range s.Sources {
			near(t, c.net.Sources[i].LimitA.Decimal.StringFixed(6), src.CurrentA, src.Name)
		}
		s, err = wire.Network(c.net.amperes("load", "bar", c.too)).Solve()
		require.NoError(t, err)
		assert.Equal(t, "bar", s.CollapsedAt)
	}
}

// TestThinBesideThick: 1 kΩ beside 1 µΩ changes nothing that can be measured.
// By Ohm's law 61.3 A × 1 µΩ = 61.3 µV, and 61.3 µV ÷ 1 kΩ = 61.3 nA. The thin one
// is drawn first, and a second pair leads on.
func TestThinBesideThick(t *testing.T) {
	s, err := wire.Network(drawing{}.battery("bank", "posts", "26.41", "2").
		cable("sense", "posts", "bar", "1000000").cable("link", "posts", "bar", "0.001").
		cable("sense on", "bar", "far", "1000000").cable("link on", "bar", "far", "0.001").
		amperes("inverter", "far", "61.3")).Solve()
	require.NoError(t, err)
	near(t, "26.2874000", s.Nodes[0].VoltageV)
	near(t, "26.2873387", s.Nodes[1].VoltageV)
	near(t, "26.2872774", s.Loads[0].VoltageV)
	near(t, "0.00000006", s.Branches[0].CurrentA)
}

// TestSwitchedOnLittleByLittle: a network of the dice, one of a hundred thousand,
// that loses a load where all its constant powers come on at once: two of them
// in series, the lower held up by what the upper draws.
func TestSwitchedOnLittleByLittle(t *testing.T) {
	n := wire.Network(drawing{}.limited("a", "n3/return", "7.492", "48.526", "34.434").
		cable("b", "n2", "n1", "252.239").cable("c", "n4", "n2", "3976.012").cable("d", "n5", "n4", "0.001").
		cable("e", "n6", "n2", "0.001").cable("f", "n2", "n6", "332.31").cable("g", "return", "n6", "811305.462").
		cable("h", "n3", "n4", "1.997").
		ohms("heater", "n2/return", "0.192").watts("lower", "n6/return", "1.648").watts("upper", "n4/n2", "47.409"))
	s, err := n.Solve()
	require.NoError(t, err)
	require.Empty(t, s.CollapsedAt)
	assert.Empty(t, broken(n, s))
}
