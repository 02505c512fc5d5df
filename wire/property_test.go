package wire_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// laid returns the feeder in a size, an ambient and a group.
func laid(size tables.Size, ambient, grouped int64) wire.Conductor {
	c := feeder()
	c.Size, c.AmbientC, c.Grouped = size, decimal.NewNullDecimal(decimal.NewFromInt(ambient)), int(grouped)
	return c
}

// TestThickerCarriesMore: at every size of the set's tables, more copper never
// carries less, a hotter place or a larger group never more.
func TestThickerCarriesMore(t *testing.T) {
	for _, set := range []string{"european", "iso-craft", "us-boat", "us-voluntary-craft"} {
		rules := must(tables.RuleSetOf(set)).Ampacity
		for _, system := range []tables.System{tables.Metric, tables.AWG} {
			before := decimal.Zero
			for _, size := range tables.Sizes(system) {
				a, err := laid(size, 40, 2).Ampacity(rules)
				if err != nil {
					continue // not in the set's tables
				}
				assert.True(t, a.AmpacityA.GreaterThanOrEqual(before), "%s %s", set, size)
				before = a.AmpacityA
				for _, worse := range []wire.Conductor{laid(size, 50, 2), laid(size, 40, 6), laid(size, 69, 2)} {
					b, err := worse.Ampacity(rules)
					if err == nil {
						assert.True(t, b.AmpacityA.LessThanOrEqual(a.AmpacityA), "%s %s", set, size)
					}
				}
			}
			assert.True(t, before.IsPositive() || set == "european" && system == tables.AWG, "%s %s lists nothing", set, system)
		}
	}
}

// TestDropGrows: a longer, hotter, thinner or more loaded run never loses less.
func TestDropGrows(t *testing.T) {
	drop := func(size string, at, length, current string) decimal.Decimal {
		r := must(wire.Conductor{Size: must(tables.ParseSize(size)), Class: tables.Flexible, PlainCopper: true}.Resistance(d(at)))
		return must(wire.Run{CurrentA: d(current), LengthM: d(length), MilliohmPerM: r.MilliohmPerM, From: r.Working}.Drop()).DropV
	}
	base := drop("6 mm2", "50", "5", "20")
	for name, more := range map[string]decimal.Decimal{
		"longer": drop("6 mm2", "50", "5.01", "20"), "hotter": drop("6 mm2", "51", "5", "20"),
		"thinner": drop("4 mm2", "50", "5", "20"), "more current": drop("6 mm2", "50", "5", "20.01"),
	} {
		assert.True(t, more.GreaterThan(base), name)
	}
}

// passes judges one size as the sizing should, from the separate questions.
func passes(s wire.Sizing, size tables.Size) bool {
	c := s.Lay
	c.Size = size
	a, err := c.Ampacity(s.Ampacity)
	if err != nil || s.CurrentA.GreaterThan(a.AmpacityA) {
		return false
	}
	r := must(c.Resistance(must(a.Temperature(s.CurrentA)).ConductorC))
	run := wire.Run{CurrentA: s.CurrentA, LengthM: s.LengthM, MilliohmPerM: r.MilliohmPerM, JointsMilliohm: s.JointsMilliohm}
	limit := d("0.8")
	if must(run.Drop()).DropV.GreaterThan(limit) {
		return false
	}
	run.CurrentA = s.SurgeA.Decimal
	return must(run.Drop()).DropV.LessThanOrEqual(limit)
}

// TestSmallestIsSmallest: the size chosen passes every question by itself, and
// no smaller one does.
func TestSmallestIsSmallest(t *testing.T) {
	for _, current := range []string{"2", "9", "25", "60", "140"} {
		for _, length := range []string{"0.5", "3", "12"} {
			s := fridge()
			s.CurrentA, s.LengthM = d(current), d(length)
			s.SurgeA = decimal.NewNullDecimal(s.CurrentA.Mul(d("1.5")))
			c, err := s.LeastSize()
			require.NoError(t, err)
			workingtest.Guard(t, c.Working)
			if c.Found {
				assert.True(t, passes(s, c.Size), "%s A, %s m: %s", current, length, c.Size)
			}
			for size := c.Size; ; {
				smaller, ok := size.Previous()
				if !ok {
					break
				}
				assert.False(t, passes(s, smaller), "%s A, %s m: %s would do", current, length, smaller)
				size = smaller
			}
		}
	}
}

// TestLongestAndMostCurrentMeet: at the longest length and at the most current
// the drop passes, and a step beyond it does not.
func TestLongestAndMostCurrentMeet(t *testing.T) {
	s := fridge()
	s.SurgeA = decimal.NullDecimal{}
	s.Lay.Size = must(tables.ParseSize("4 mm2"))
	l := must(s.GreatestLength())
	workingtest.Guard(t, l.Working)
	s.LengthM = l.LengthM
	i := must(s.GreatestCurrent())
	workingtest.Guard(t, i.Working)
	assert.True(t, i.CurrentA.GreaterThanOrEqual(s.CurrentA), "the current that gave the length still passes")
	s.LengthM = l.LengthM.Add(d("0.01"))
	assert.True(t, must(s.GreatestCurrent()).CurrentA.LessThan(s.CurrentA), "a step longer it does not")

	s.LengthM = d("0.1") // so short that the ampacity decides
	a := must(s.Lay.Ampacity(s.Ampacity))
	assert.Equal(t, a.AmpacityA.RoundFloor(2).String(), must(s.GreatestCurrent()).CurrentA.String())
}

// TestSurgeShortensTheRun: a surge beyond the steady current.
func TestSurgeShortensTheRun(t *testing.T) {
	s := fridge()
	s.Lay.Size = must(tables.ParseSize("4 mm2"))
	with := must(s.GreatestLength())
	workingtest.Guard(t, with.Working)
	s.SurgeA = decimal.NullDecimal{}
	assert.True(t, with.LengthM.LessThan(must(s.GreatestLength()).LengthM))
	s.CurrentA = d("500")
	none := must(s.GreatestLength())
	workingtest.Guard(t, none.Working)
	assert.True(t, none.LengthM.IsZero())
}

// TestEquivalentIsExact: 30 A half of the time heat as 30 ÷ √2 = 21.2132 A; a
// steady current is its own equivalent.
func TestEquivalentIsExact(t *testing.T) {
	half := wire.Duty{Pulses: []wire.Pulse{{CurrentA: d("30"), TimeS: d("50")}}, PeriodS: d("100")}
	assert.Equal(t, "21.22", must(half.Equivalent()).CurrentA.String())
	half.PeriodS = d("50")
	assert.Equal(t, "30", must(half.Equivalent()).CurrentA.String())
}

// TestWorkings holds every question's working to the drift guard.
func TestWorkings(t *testing.T) {
	set := european().At(d("12"))
	a := must(feeder().Ampacity(set.Ampacity))
	drop := must(wire.Run{CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5"), Cables: 3, ReturnMilliohm: some("7")}.Drop())
	workingtest.Guard(t, drop.Working)
	workingtest.Guard(t, must(drop.VoltageLeft(d("12.5"))).Working)
	workingtest.Guard(t, must(drop.Loss()).Working)
	workingtest.Guard(t, must(wire.Run{CurrentA: d("18"), MilliohmPerM: d("5.5"), Cables: 3, ReturnMilliohm: some("7")}.GreatestLength(d("0.7"))).Working)
	workingtest.Guard(t, must(a.Temperature(d("30"))).Working)
	workingtest.Guard(t, must(a.InParallel(3)).Working)
	workingtest.Guard(t, must(a.Check(d("30"))).Working)
	workingtest.Guard(t, must(route().Ampacity(set.Ampacity)).Working)
	workingtest.Guard(t, must(route().Drop(set.Ampacity)).Working)
	workingtest.Guard(t, must(winch().Temperature(d("60"))).Working)
	workingtest.Guard(t, must(winch().TimeTo(d("90"))).Working)
	workingtest.Guard(t, must(winch().TimeTo(d("-10"))).Working)
	slow := winch()
	slow.TimeConstantS, slow.CurrentA, slow.StartC = some("600"), d("20"), some("45")
	workingtest.Guard(t, must(slow.Temperature(d("30"))).Working)
	workingtest.Guard(t, must(slow.TimeTo(d("90"))).Working)
	workingtest.Guard(t, must(drop.Check(set.Drop.Other, d("12"))).Working)
	workingtest.Guard(t, must(drop.Check(must(tables.RuleSetOf("iso-craft")).Drop.Critical, d("24"))).Working)
	workingtest.Guard(t, must(wire.CheckLeastSize(must(tables.RuleSetOf("iso-craft")).Size.Single, feeder().Size)).Working)
	workingtest.Guard(t, must(wire.Bend{Cable: "armoured", DiameterMM: d("20")}.Check(d("150"))).Working)
	workingtest.Guard(t, must(wire.Busbar{WidthMM: d("20"), ThicknessMM: d("5")}.Guess()).Working)
	workingtest.Guard(t, must(wire.CopperMass(feeder().Size, d("12"))).Working)
	workingtest.Guard(t, must(wire.ExpectedReading{Milliohm: d("0.2"), CurrentA: d("90")}.MilliVolts()).Working)
	workingtest.Guard(t, must(wire.Joint{MilliV: d("3"), CurrentA: d("90")}.AgainstTwins(wire.Joint{MilliV: d("4"), CurrentA: d("80")})).Working)
	workingtest.Guard(t, must(wire.AircraftBundle{FreeAirA: d("40"), Wires: 7, LoadingPercent: d("50"), AltitudeM: some("9000")}.GreatestCurrent()).Working)
}

// TestHeatingJoinsTheAdiabaticLaw: for short times the heating law is k²S² of
// IEC 60949, and it never falls below it.
func TestHeatingJoinsTheAdiabaticLaw(t *testing.T) {
	size, err := tables.ParseSize("16 mm2")
	require.NoError(t, err)
	set, err := tables.RuleSetOf("european")
	require.NoError(t, err)
	a, err := wire.Conductor{Size: size, Class: tables.Flexible, PlainCopper: true, Method: "C", InsulationC: d("90"), Grouped: 1}.Ampacity(set.Ampacity)
	require.NoError(t, err)
	k := 226 * math.Sqrt(math.Log((234.5+250)/(234.5+90)))
	for _, amps := range []float64{300, 500, 1000, 3000, 9000} {
		o := wire.Overload{Ampacity: a, AreaMM2: d("16"), CurrentA: decimal.NewFromFloat(amps), StartC: decimal.NewNullDecimal(d("90"))}
		got, err := o.TimeTo(d("250"))
		require.NoError(t, err)
		require.True(t, got.Reached)
		adiabatic := k * k * 16 * 16 / (amps * amps)
		at := got.TimeS.Decimal.InexactFloat64()
		require.GreaterOrEqual(t, at, math.Floor(adiabatic*0.99*10)/10, "%g A", amps)
		if amps >= 1000 {
			require.InDelta(t, adiabatic, at, 0.05*adiabatic+0.1, "%g A", amps)
		}
	}
}

// TestFaultFollowsResistance is Rayleigh's law of networks with one driving
// voltage (Maxwell, A Treatise on Electricity and Magnetism, 1873, article 306,
// from memory): with batteries of one EMF a longer cable anywhere never raises
// the fault current, and a further battery anywhere never lowers it.
func TestFaultFollowsResistance(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	fault := func(n wire.Network, node string) decimal.Decimal {
		f, err := n.Fault(node, decimal.Zero)
		require.NoError(t, err)
		return f.CurrentA
	}
	slack := d("0.001") // of the solver
	for range 200 {
		var n wire.Network
		const nodes = 8
		name := func(i int) string { return fmt.Sprintf("n%d", i) }
		battery := func(label string, i int) wire.NodeSource {
			return wire.NodeSource{Name: label, Node: name(i), EMFV: d("12.7"), Milliohm: decimal.New(1+r.Int64N(200), -1)}
		}
		n.Sources = append(n.Sources, battery("first", 0), battery("second", 1+r.IntN(nodes-1)))
		for i := 1; i < nodes; i++ {
			n.Branches = append(n.Branches, wire.Branch{Name: fmt.Sprintf("c%d", i), From: name(r.IntN(i)), To: name(i), Milliohm: decimal.New(1+r.Int64N(500), -1)})
		}
		n.Branches = append(n.Branches, wire.Branch{Name: "ring", From: name(nodes - 1), To: name(1 + r.IntN(nodes-2)), Milliohm: decimal.New(1+r.Int64N(500), -1)})
		at := name(r.IntN(nodes))
		before := fault(n, at)

		longer := n
		longer.Branches = slices.Clone(n.Branches)
		b := &longer.Branches[r.IntN(len(n.Branches))]
		b.Milliohm = b.Milliohm.Mul(d("1.5"))
		assert.True(t, fault(longer, at).LessThanOrEqual(before.Add(slack)), "a longer cable raises the fault")

		more := n
		more.Sources = append(slices.Clone(n.Sources), battery("third", r.IntN(nodes)))
		assert.True(t, fault(more, at).GreaterThanOrEqual(before.Sub(slack)), "a further battery lowers the fault")
	}
}
