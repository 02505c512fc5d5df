package installation_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dice draws installations: a bank of one to three batteries on a bus, a starter
// battery behind a link, chargers, a converter to a part of its own, panels with
// loads of every kind, now and then a second way to a panel.
type dice struct{ *rand.Rand }

func newDice(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 7))} }

func (r dice) between(low, high float64) decimal.Decimal {
	return decimal.NewFromFloat(low + r.Float64()*(high-low)).Round(2)
}

func (r dice) maybe(v decimal.Decimal) decimal.NullDecimal {
	return decimal.NullDecimal{Decimal: v, Valid: r.IntN(2) == 0}
}

func (r dice) size() string {
	return []string{"2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2"}[r.IntN(5)]
}

func (r dice) battery(name, bank string) installation.Battery {
	b := installation.Battery{Name: name, Bank: bank, FullV: r.between(12.7, 13.5), EmptyV: r.between(11.6, 12.4), LowMilliohm: r.between(2, 6)}
	b.LeastV, b.HighMilliohm = b.EmptyV.Sub(d("0.3")), b.LowMilliohm.Mul(d("2.5"))
	return b
}

func (r dice) demand() installation.Demand {
	switch r.IntN(3) {
	case 0:
		return installation.Demand{CurrentA: decimal.NewNullDecimal(r.between(0.5, 8))}
	case 1:
		return installation.Demand{PowerW: decimal.NewNullDecimal(r.between(5, 120))}
	default:
		return installation.Demand{Ohm: decimal.NewNullDecimal(r.between(1, 20))}
	}
}

func (r dice) load(name, node string) installation.Load {
	l := installation.Load{Name: name, Node: node, Takes: r.demand()}
	switch r.IntN(5) {
	case 0:
		l.Starts = installation.Demand{PowerW: decimal.NewNullDecimal(r.between(100, 300))}
	case 1:
		l.EquivalentA = decimal.NewNullDecimal(r.between(0.5, 4))
	case 2:
		l.Full, l.LeastV = installation.Demand{PowerW: decimal.NewNullDecimal(r.between(50, 200))}, some("10.5")
	}
	return l
}

// installation draws one that is accepted.
func (r dice) installation(panels int) installation.Installation {
	in := installation.Installation{Rule: must(tablesRule())}
	add := func(c installation.Circuit) { in.Circuits = append(in.Circuits, c) }
	for i := range 1 + r.IntN(3) {
		name := fmt.Sprint("B", i)
		in.Batteries = append(in.Batteries, r.battery(name, "house"))
		add(run(name, "bus", r.between(0.4, 1.5).String(), "35 mm2"))
	}
	in.Batteries = append(in.Batteries, r.battery("S", "starter"))
	link := run("S", "bus", r.between(1, 4).String(), "25 mm2")
	link.Switch = installation.Switch(1 + r.IntN(2))
	add(link)
	in.Sources = append(in.Sources,
		installation.Source{Name: "mains", HeldV: r.between(13.8, 14.6), GreatestA: r.between(10, 60), LimitsItself: true},
		installation.Source{Name: "sun", HeldV: d("14.4"), LeastHeldV: some("13.6"), GreatestA: r.between(5, 30), LimitsItself: true, Always: r.IntN(2) == 0},
		installation.Source{Name: "supply", HeldV: d("12.2"), GreatestA: r.between(10, 20), LimitsItself: true, FedAt: "bus", InputW: some("300"), InputA: r.maybe(d("28"))},
	)
	add(run("mains", "bus", "2", "16 mm2"))
	add(run("sun", "bus", "3", "10 mm2"))
	add(run("supply", "radio", "2", "4 mm2"))
	in.Loads = append(in.Loads, installation.Load{Name: "radio", Node: "radio", Takes: installation.Demand{PowerW: decimal.NewNullDecimal(r.between(5, 60))}},
		installation.Load{Name: "starter", Node: "S", Cranks: true, Starts: installation.Demand{CurrentA: some("180")}},
		installation.Load{Name: "horn", Node: "S", Takes: installation.Demand{CurrentA: some("4")}})
	for i := range panels {
		panel := fmt.Sprint("panel ", i)
		add(run("bus", panel, r.between(1, 4).String(), "16 mm2"))
		if r.IntN(4) == 0 {
			second := run("bus", panel, r.between(1, 4).String(), "10 mm2")
			second.Name += ", second"
			add(second)
		}
		for k := range 1 + r.IntN(4) {
			name := fmt.Sprintf("load %d.%d", i, k)
			add(run(panel, name, r.between(0.5, 5).String(), r.size()))
			in.Loads = append(in.Loads, r.load(name, name))
		}
	}
	for i := range 1 + r.IntN(3) {
		s := installation.State{Name: fmt.Sprint("state ", i)}
		for _, l := range in.Loads {
			if !l.Cranks && r.IntN(3) > 0 {
				s.Loads = append(s.Loads, installation.LoadUse{Load: l.Name})
			}
		}
		if r.IntN(2) == 0 {
			s.Sources = append(s.Sources, installation.Supply{Source: "mains", CurrentA: r.maybe(d("9"))})
		}
		in.States = append(in.States, s)
	}
	return in
}

// TestNoNormalCaseExceedsTheDesignCurrent: the stated invariant, checked by solving
// each normal case of a state again with package wire alone, cables at ambient, as
// hot as they get and as hot as their insulation bears.
func TestNoNormalCaseExceedsTheDesignCurrent(t *testing.T) {
	checked := 0
	for seed := range uint64(12) {
		in := newDice(seed).installation(2)
		s, err := in.Solve()
		require.NoError(t, err)
		results := map[string]installation.CircuitResult{}
		for _, c := range in.Circuits {
			r, err := s.Circuit(c.Name)
			require.NoError(t, err)
			results[c.Name] = r
		}
		for _, c := range s.Cases() {
			if c.State < 0 {
				continue
			}
			for _, heat := range []string{"ambient", "own", "rated"} {
				n := drawn(in, c, func(x installation.Circuit) decimal.Decimal { return resistance(x, heat, results[x.Name]) })
				n.Loads = append(n.Loads, inputOf(t, in, c, results["supply to radio"])...)
				x, err := n.Solve()
				require.NoError(t, err)
				if x.CollapsedAt != "" {
					continue
				}
				for _, b := range x.Branches {
					limit := map[installation.CaseKind]decimal.NullDecimal{installation.Normal: results[b.Name].DesignA,
						installation.BatteryLost: results[b.Name].LostA, installation.Brief: results[b.Name].BriefA, installation.Unequal: results[b.Name].UnequalA}[c.Kind]
					if c.Kind == installation.Brief && heat == "rated" || !limit.Valid {
						continue
					}
					checked++
					assert.True(t, b.CurrentA.Abs().LessThanOrEqual(limit.Decimal.Add(d("0.00001"))), "seed %d, %s, %s, %s: %s A > %s", seed, c.Name, heat, b.Name, b.CurrentA, limit.Decimal)
				}
			}
		}
	}
	assert.Greater(t, checked, 10_000)
}

// resistance is that of a circuit, worked out by package wire.
func resistance(c installation.Circuit, heat string, r installation.CircuitResult) decimal.Decimal {
	total := c.JointsMilliohm
	for _, s := range c.Sections {
		at := map[string]decimal.Decimal{"ambient": s.Conductor.AmbientC.Decimal, "rated": s.Conductor.InsulationC, "own": r.ConductorC.Decimal}[heat]
		x := must(s.Conductor.Resistance(decimal.Min(at, d("250"))))
		total = total.Add(s.LengthM.Mul(x.MilliohmPerM).Mul(d("2")))
	}
	return total
}

// inputOf is what the converter's input draws in a case that runs the radio behind
// it: of 300 W the share that it gives of what it can.
func inputOf(t *testing.T, in installation.Installation, c installation.Case, line installation.CircuitResult) []wire.NodeLoad {
	t.Helper()
	supply := in.Sources[2]
	if !c.Loads || !slices.ContainsFunc(in.States[c.State].Loads, func(u installation.LoadUse) bool { return u.Load == "radio" }) {
		return nil
	}
	of := in.Circuits[slices.IndexFunc(in.Circuits, func(x installation.Circuit) bool { return x.From == "supply" })]
	s, err := wire.Network{
		Sources:  []wire.NodeSource{{Name: "supply", Node: "supply", EMFV: supply.HeldV, Milliohm: d("1"), LimitA: decimal.NewNullDecimal(supply.GreatestA)}},
		Branches: []wire.Branch{{Name: "line", From: "supply", To: "radio", Milliohm: resistance(of, "own", line)}},
		Loads:    []wire.NodeLoad{{Name: "radio", Node: "radio", PowerW: in.Loads[0].Takes.PowerW}},
	}.Solve()
	require.NoError(t, err)
	require.Empty(t, s.CollapsedAt)
	gives := s.Sources[0].CurrentA.Mul(s.Sources[0].TerminalV)
	return []wire.NodeLoad{{Name: "input", Node: supply.FedAt, PowerW: decimal.NewNullDecimal(gives.Mul(supply.InputW.Decimal).DivRound(supply.HeldV.Mul(supply.GreatestA), 9))}}
}

// drawn is a case of a state as a network of package wire, by the test's own account
// of what a case says, without the part behind the converter.
func drawn(in installation.Installation, c installation.Case, milliohm func(installation.Circuit) decimal.Decimal) wire.Network {
	var n wire.Network
	for _, x := range in.Circuits {
		if x.From == "supply" || x.Switch == installation.UsuallyOpen && c.Closed != x.Name && !c.AllClosed || c.Open == x.Name {
			continue
		}
		n.Branches = append(n.Branches, wire.Branch{Name: x.Name, From: x.From, To: x.To, Milliohm: milliohm(x)})
	}
	for _, b := range in.Batteries {
		if b.Name == c.BatteryMissing {
			continue
		}
		x := wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.EmptyV, Milliohm: b.HighMilliohm}
		full := c.Full || c.Fuller != "" && (c.Fuller == "S") == (b.Name == "S") // a link parts the starter battery from the others
		if full {
			x.EMFV = b.FullV
		}
		if full || c.NewBattery == b.Name || c.NewBattery == "every battery" {
			x.Milliohm = b.LowMilliohm
		}
		n.Sources = append(n.Sources, x)
	}
	state := in.States[c.State]
	for _, x := range in.Sources {
		i := slices.IndexFunc(state.Sources, func(u installation.Supply) bool { return u.Source == x.Name })
		if !c.Sources || x.FedAt != "" || i < 0 && !(x.Always && c.Always) {
			continue
		}
		y := wire.NodeSource{Name: x.Name, Node: x.Name, EMFV: x.HeldV, Milliohm: d("1"), LimitA: decimal.NewNullDecimal(x.GreatestA)}
		if c.Loads && !c.Full && x.LeastHeldV.Valid {
			y.EMFV = x.LeastHeldV.Decimal
		}
		if i >= 0 && state.Sources[i].CurrentA.Valid {
			y.LimitA = state.Sources[i].CurrentA
		}
		n.Sources = append(n.Sources, y)
	}
	for _, u := range state.Loads {
		if !c.Loads {
			break
		}
		l := in.Loads[slices.IndexFunc(in.Loads, func(l installation.Load) bool { return l.Name == u.Load })]
		takes := l.Takes
		switch {
		case c.Starting == l.Name:
			takes = l.Starts
		case c.Kind != installation.Brief && l.EquivalentA.Valid:
			takes = installation.Demand{CurrentA: l.EquivalentA}
		}
		if l.Node == "radio" {
			continue
		}
		n.Loads = append(n.Loads, wire.NodeLoad{Name: l.Name, Node: l.Node, CurrentA: takes.CurrentA, PowerW: takes.PowerW, Ohm: takes.Ohm})
	}
	return n
}

// TestWorkingsOfRandomInstallations holds every working to the drift guard.
func TestWorkingsOfRandomInstallations(t *testing.T) {
	for seed := range uint64(4) {
		in := newDice(100 + seed).installation(2)
		s, err := in.Solve()
		require.NoError(t, err)
		for _, c := range in.Circuits {
			r := must(s.Circuit(c.Name))
			workingtest.Guard(t, r.Working)
			for _, node := range []string{c.From, c.To} {
				e := installation.End{Circuit: c.Name, Node: node}
				workingtest.Guard(t, must(s.ThroughEnd(e)).Working)
				workingtest.Guard(t, must(s.GreatestFault(node)).Working)
				if l := must(s.LeastFault(e, c.To)); l.FaultA.Valid {
					workingtest.Guard(t, l.Working)
				}
				if f := must(s.FedFrom(e, devices(in))); f.LimitA.Valid {
					workingtest.Guard(t, f.Working)
				}
				for _, v := range must(s.Volts(node)) {
					l, err := must(s.Case(v.Case)).Ladder(node)
					if !v.VoltageV.Valid {
						assert.ErrorIs(t, err, wire.ErrNoOperatingPoint)
						continue
					}
					require.NoError(t, err)
					workingtest.Guard(t, l.Working)
					assert.True(t, l.VoltageV.Sub(v.VoltageV.Decimal).Abs().LessThan(d("0.000002")), "%s: %s, ladder %s", node, v.VoltageV.Decimal, l.VoltageV)
				}
			}
			for _, x := range must(s.Closing(c.Name)) {
				workingtest.Guard(t, x.Working)
			}
		}
	}
}

// devices protects every circuit at its From, but for the sources' lines.
func devices(in installation.Installation) []installation.Device {
	var all []installation.Device
	for _, c := range in.Circuits {
		if c.From != "mains" {
			all = append(all, installation.Device{End: installation.End{Circuit: c.Name, Node: c.From}, RatingA: d("40")})
		}
	}
	return all
}

// TestWithIsAWholeSolve: one circuit replaced, the answers are those of the whole
// solved anew, figure by figure.
func TestWithIsAWholeSolve(t *testing.T) {
	for seed := range uint64(8) {
		r := newDice(200 + seed)
		in := r.installation(2)
		s, err := in.Solve()
		require.NoError(t, err)
		at := r.IntN(len(in.Circuits))
		other := run(in.Circuits[at].From, in.Circuits[at].To, "2.2", "25 mm2")
		other.Name, other.Switch = in.Circuits[at].Name, in.Circuits[at].Switch
		with, err := s.With(other)
		require.NoError(t, err)
		anew := in
		anew.Circuits = slices.Clone(in.Circuits)
		anew.Circuits[at] = other
		whole, err := anew.Solve()
		require.NoError(t, err)
		assert.Equal(t, answers(t, anew, whole), answers(t, anew, with), "seed %d", seed)
		again, err := with.With(in.Circuits[at])
		require.NoError(t, err)
		assert.Equal(t, answers(t, in, s), answers(t, in, again), "and back, seed %d", seed)
	}
}

// answers writes everything that can be asked.
func answers(t *testing.T, in installation.Installation, s *installation.Solved) (all []string) {
	t.Helper()
	say := func(v any, err error) {
		require.NoError(t, err)
		all = append(all, fmt.Sprint(v))
	}
	for _, c := range in.Circuits {
		r, err := s.Circuit(c.Name)
		require.NoError(t, err)
		say([]any{r.Name, r.DesignA, r.DesignCase, r.LostA, r.LostCase, r.BriefA, r.BriefCase, r.CrankingA, r.AmpacityA, r.ConductorC, r.DropV, r.Missing}, nil)
		for _, node := range []string{c.From, c.To} {
			e := installation.End{Circuit: c.Name, Node: node}
			through, err := s.ThroughEnd(e)
			say(through.FaultA, err)
			least, err := s.LeastFault(e, c.To)
			say([]any{least.FaultA, least.Case}, err)
			feed, err := s.FedFrom(e, devices(in))
			say([]any{feed.LimitA, feed.Fed, feed.Battery, feed.Devices, feed.SourceA}, err)
			say(s.Volts(node))
		}
	}
	return all
}

// TestFaultsAreThoseOfPackageWire: the greatest fault at every node is that of
// package wire on the same network, the batteries that would take current left out;
// the least one is the least of those that package wire finds with batteries missing
// and the link either way.
func TestFaultsAreThoseOfPackageWire(t *testing.T) {
	for seed := range uint64(10) {
		in := newDice(300 + seed).installation(2)
		s, err := in.Solve()
		require.NoError(t, err)
		for _, node := range nodes(in) {
			f, err := s.GreatestFault(node)
			require.NoError(t, err)
			other := greatest(t, in, node)
			want := other.CurrentA
			for _, b := range other.Branches {
				if b.From != node && b.To != node {
					continue
				}
				x := must(s.ThroughEnd(installation.End{Circuit: b.Name, Node: node})).FaultA
				through := decimal.Max(b.CurrentA.Abs(), want.Sub(b.CurrentA.Abs()))
				assert.True(t, x.Sub(through).Abs().LessThan(d("0.0001")), "seed %d, %s at %s: %s, package wire %s", seed, b.Name, node, x, through)
			}
			assert.True(t, f.FaultA.Sub(want).Abs().LessThan(d("0.0001")), "seed %d, %s: %s, package wire %s", seed, node, f.FaultA, want)
		}
		for _, c := range in.Circuits {
			l, err := s.LeastFault(installation.End{Circuit: c.Name, Node: c.From}, c.To)
			require.NoError(t, err)
			want := least(t, in, c)
			assert.Equal(t, want.Valid, l.FaultA.Valid, "seed %d, %s", seed, c.Name)
			assert.True(t, l.FaultA.Decimal.Sub(want.Decimal).Abs().LessThan(d("0.0001")), "seed %d, %s: %s, package wire %s", seed, c.Name, l.FaultA.Decimal, want.Decimal)
		}
	}
}

func nodes(in installation.Installation) []string {
	var all []string
	for _, c := range in.Circuits {
		all = append(all, c.From, c.To)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// greatest is the greatest fault at a node by package wire.
func greatest(t *testing.T, in installation.Installation, node string) wire.NetworkFault {
	t.Helper()
	f, err := strongest(in).Fault(node, decimal.Zero)
	require.NoError(t, err)
	return f
}

// strongest is an installation as it feeds the greatest fault. A battery takes no
// current there: for the solver it is a source with a limit that it never reaches.
func strongest(in installation.Installation) wire.Network {
	var n wire.Network
	for _, b := range in.Batteries {
		n.Sources = append(n.Sources, wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.FullV, Milliohm: b.LowMilliohm, LimitA: some("10000")})
	}
	for _, x := range in.Sources {
		n.Sources = append(n.Sources, wire.NodeSource{Name: x.Name, Node: x.Name, EMFV: x.HeldV, Milliohm: d("1"), LimitA: decimal.NewNullDecimal(x.GreatestA)})
	}
	for _, c := range in.Circuits {
		c.JointsMilliohm = decimal.Zero
		cold := installation.CircuitResult{ConductorC: some("20")}
		n.Branches = append(n.Branches, wire.Branch{Name: c.Name, From: c.From, To: c.To, Milliohm: resistance(c, "own", cold)})
	}
	return n
}

func least(t *testing.T, in installation.Installation, of installation.Circuit) (found decimal.NullDecimal) {
	t.Helper()
	house := slices.DeleteFunc(slices.Clone(in.Batteries), func(b installation.Battery) bool { return b.Bank != "house" })
	missing := []string{""}
	for _, b := range house {
		if len(house) > 1 {
			missing = append(missing, b.Name)
		}
	}
	for _, gone := range missing {
		for _, linked := range []bool{false, true} {
			var n wire.Network
			for _, b := range in.Batteries {
				if b.Name != gone {
					n.Sources = append(n.Sources, wire.NodeSource{Name: b.Name, Node: b.Name, EMFV: b.LeastV, Milliohm: b.HighMilliohm})
				}
			}
			for _, c := range in.Circuits {
				if c.Switch == 0 && c.From != "supply" || c.Switch != 0 && linked {
					n.Branches = append(n.Branches, wire.Branch{Name: c.Name, From: c.From, To: c.To, Milliohm: resistance(c, "rated", installation.CircuitResult{})})
				}
			}
			f, err := n.Fault(of.To, decimal.Zero)
			if len(working.Inputs(err)) > 0 {
				continue
			}
			require.NoError(t, err)
			for _, b := range f.Branches {
				a := b.CurrentA.Abs()
				if b.Name == of.Name && a.GreaterThan(d("0.001")) && (!found.Valid || a.LessThan(found.Decimal)) {
					found = decimal.NewNullDecimal(a)
				}
			}
		}
	}
	return found
}

// TestStepwise: where columns should find no end, the solver finds the same fault.
func TestStepwise(t *testing.T) {
	for seed := range uint64(6) {
		in := newDice(500 + seed).installation(2)
		s, err := in.Solve()
		require.NoError(t, err)
		for _, node := range nodes(in) {
			assert.InDelta(t, must(s.GreatestFault(node)).FaultA.InexactFloat64(), s.Stepwise(node), 1e-4, "seed %d, %s", seed, node)
		}
	}
}
