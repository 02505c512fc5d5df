package installation_test

import (
	"encoding/json"
	"slices"
	"sync"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// near asserts a figure to half a unit of its last digit.
func near(t *testing.T, want string, got decimal.Decimal, message ...any) {
	t.Helper()
	slack := decimal.New(5, d(want).Exponent()-1)
	assert.Truef(t, got.Sub(d(want)).Abs().LessThanOrEqual(slack), "%v: want %s, got %s", message, want, got)
}

// bar joins two nodes by a stated resistance.
func bar(from, to, milliohm string) installation.Circuit {
	return installation.Circuit{Name: from + " to " + to, From: from, To: to, ReturnMilliohm: some(milliohm)}
}

func cell(name, bank, full, empty, least, low, high string) installation.Battery {
	return installation.Battery{Name: name, Bank: bank, FullV: d(full), EmptyV: d(empty), LeastV: d(least), LowMilliohm: d(low), HighMilliohm: d(high)}
}

func load(name, node string, takes installation.Demand) installation.Load {
	return installation.Load{Name: name, Node: node, Takes: takes}
}

func ampere(a string) installation.Demand { return installation.Demand{CurrentA: some(a)} }
func watt(w string) installation.Demand   { return installation.Demand{PowerW: some(w)} }

// parked is a state that runs loads, and sources where named.
func state(name string, loads []string, sources ...string) installation.State {
	s := installation.State{Name: name}
	for _, l := range loads {
		s.Loads = append(s.Loads, installation.LoadUse{Load: l})
	}
	for _, x := range sources {
		s.Sources = append(s.Sources, installation.Supply{Source: x})
	}
	return s
}

func european() tables.AmpacityRule { return must(tablesRule()) }

// volts is the voltage of a node in the case of a name.
func volts(t *testing.T, s *installation.Solved, node, name string) decimal.NullDecimal {
	t.Helper()
	all, err := s.Volts(node)
	require.NoError(t, err)
	for _, v := range all {
		if s.Cases()[v.Case].Name == name {
			return v.VoltageV
		}
	}
	t.Fatalf("no case %q reaches %s", name, node)
	return decimal.NullDecimal{}
}

// TestSharedFeederByHand: 10 A and 5 A behind one feeder of 10 mΩ, a battery of 12 V
// behind 8 mΩ, 20 mΩ on to the second.
//
//	post   12 − 15 × 0.008 = 11.88 V
//	panel  11.88 − 15 × 0.010 = 11.73 V
//	second 11.73 − 5 × 0.020 = 11.63 V
//	greatest fault there (13 V, 2 mΩ): 13 ÷ 32 mΩ = 406.25 A
//	least (11.5 V, 8 mΩ): 11.5 ÷ 38 mΩ = 302.63 A
func TestSharedFeederByHand(t *testing.T) {
	in := installation.Installation{Rule: european(),
		Circuits:  []installation.Circuit{bar("A", "panel", "10"), bar("panel", "second", "20")},
		Batteries: []installation.Battery{cell("A", "house", "13", "12", "11.5", "2", "8")},
		Loads:     []installation.Load{load("first", "panel", ampere("10")), load("second", "second", ampere("5"))},
		States:    []installation.State{state("use", []string{"first", "second"})},
	}
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("A to panel"))
	near(t, "15.000000", x.DesignA.Decimal)
	near(t, "0.150000", x.DropV.Decimal)
	assert.False(t, x.AmpacityA.Valid)
	assert.Contains(t, x.Missing, "no cable")
	for node, want := range map[string]string{"A": "11.880000", "panel": "11.730000", "second": "11.630000"} {
		near(t, want, volts(t, s, node, "use, on the batteries alone").Decimal, node)
	}
	near(t, "406.250", must(s.GreatestFault("second")).FaultA)
	near(t, "302.632", must(s.LeastFault(installation.End{Circuit: "A to panel", Node: "A"}, "second")).FaultA.Decimal)
	l, err := must(s.Case(0)).Ladder("second")
	require.NoError(t, err)
	workingtest.Guard(t, l.Working)
	near(t, "0.250000", l.DropV, "from the posts, without the battery's own resistance")
}

// TestChassisByHand: two lamps of 10 A return through a chassis of 5 mΩ; each has a
// cable of 10 mΩ out.
//
//	chassis 20 × 0.005 = 0.1 V above the common return
//	lamp    12 − 20 × 0.008 − 10 × 0.010 = 11.74 V, 11.64 V across it
//	least fault at a lamp, to the chassis: 11.5 ÷ (8 + 10 + 5) mΩ = 500 A
func TestChassisByHand(t *testing.T) {
	lamp := func(name string) installation.Load {
		l := load(name, name, ampere("10"))
		l.Return = "frame"
		return l
	}
	in := installation.Installation{Rule: european(),
		Circuits:  []installation.Circuit{bar("A", "left", "10"), bar("A", "right", "10"), bar("frame", wire.CommonReturn, "5")},
		Batteries: []installation.Battery{cell("A", "house", "13", "12", "11.5", "2", "8")},
		Loads:     []installation.Load{lamp("left"), lamp("right")},
		States:    []installation.State{state("night", []string{"left", "right"})},
	}
	s, err := in.Solve()
	require.NoError(t, err)
	near(t, "0.100000", volts(t, s, "frame", "night, on the batteries alone").Decimal)
	near(t, "11.740000", volts(t, s, "left", "night, on the batteries alone").Decimal)
	near(t, "20.000000", must(s.Circuit("frame to return")).DesignA.Decimal)
	near(t, "500.000", must(s.LeastFault(installation.End{Circuit: "A to left", Node: "A"}, "left")).FaultA.Decimal)
	near(t, "1083.333", must(s.GreatestFault("left")).FaultA, "13 ÷ 12 mΩ, the chassis left out")
	_, err = s.GreatestFault("frame")
	assert.ErrorContains(t, err, "a live node")
}

// TestCentreTapByHand: two blocks of 12 V behind 10 mΩ in series; 20 A from the whole,
// 10 A from the middle.
//
//	middle 12 − 30 × 0.010 = 11.7 V
//	plus   11.7 + 12 − 20 × 0.010 = 23.5 V
//	greatest fault at plus: (12.8 + 12.8) ÷ 4 mΩ = 6400 A
func TestCentreTapByHand(t *testing.T) {
	upper := cell("plus", "upper", "12.8", "12", "11.8", "2", "10")
	upper.Return = "middle"
	in := installation.Installation{Rule: european(),
		Circuits:  []installation.Circuit{bar("plus", "winch", "1"), bar("middle", "radio", "1")},
		Batteries: []installation.Battery{cell("middle", "lower", "12.8", "12", "11.8", "2", "10"), upper},
		Loads:     []installation.Load{load("winch", "winch", ampere("20")), load("radio", "radio", ampere("10"))},
		States:    []installation.State{state("use", []string{"winch", "radio"})},
	}
	s, err := in.Solve()
	require.NoError(t, err)
	near(t, "11.700000", volts(t, s, "middle", "use, on the batteries alone").Decimal)
	near(t, "23.500000", volts(t, s, "plus", "use, on the batteries alone").Decimal)
	near(t, "6400.000", must(s.GreatestFault("plus")).FaultA)
	workingtest.Guard(t, must(s.GreatestFault("middle")).Working)
	near(t, "6400.000", must(s.GreatestFault("middle")).FaultA, "the lower block alone: the upper one's loop is open")
}

// supplied is a house of 24 V with a converter of 12 V, 20 A and 280 W at full output
// that feeds a radio and a lamp.
func supplied(lampA string) installation.Installation {
	return installation.Installation{Rule: european(),
		Circuits:  []installation.Circuit{bar("A", "input", "10"), bar("converter", "radio", "20"), bar("radio", "lamp", "10")},
		Batteries: []installation.Battery{cell("A", "house", "26", "24", "23.5", "2", "10")},
		Sources:   []installation.Source{{Name: "converter", HeldV: d("12"), GreatestA: d("20"), LimitsItself: true, FedAt: "input", InputW: some("280")}},
		Loads:     []installation.Load{load("radio", "radio", ampere("3")), load("lamp", "lamp", ampere(lampA))},
		States:    []installation.State{state("use", []string{"radio", "lamp"})},
	}
}

// TestConverterAloneByHand: 3 A and 5 A behind the converter.
//
//	at its posts 12 − 8 × 0.001 = 11.992 V, 95.936 W of 240 W
//	its input    280 × 95.936 ÷ 240 = 111.9253 W
//	U² − 24 U + 0.020 × 111.9253 = 0: U = 23.90636 V
//	at full output 280 W: U = 23.76435 V, 11.78235 A
func TestConverterAloneByHand(t *testing.T) {
	s, err := supplied("5").Solve()
	require.NoError(t, err)
	near(t, "23.90636", volts(t, s, "input", "use, on the batteries alone").Decimal)
	near(t, "11.832000", volts(t, s, "radio", "use, on the batteries alone").Decimal, "11.992 − 8 × 0.020")
	x := must(s.Circuit("A to input"))
	near(t, "11.78235", x.DesignA.Decimal)
	assert.Equal(t, "the input of converter at its limit", x.DesignCase)
	assert.True(t, must(s.FedFrom(installation.End{Circuit: "radio to lamp", Node: "radio"}, nil)).LimitA.Decimal.Equal(d("20")))
	f := must(s.GreatestFault("lamp"))
	assert.True(t, f.OnlyLimited)
	near(t, "20.000000", f.FaultA)
	none := must(s.LeastFault(installation.End{Circuit: "radio to lamp", Node: "radio"}, "lamp"))
	assert.False(t, none.FaultA.Valid, "no battery drives any")
}

// TestMainsAlone: a power unit that feeds a fridge and no battery: nothing runs there
// but with it, and the fridge's cable carries what the fridge can draw: 90 W at 11 V.
func TestMainsAlone(t *testing.T) {
	in := supplied("5")
	unit := installation.Source{Name: "unit", HeldV: d("13.8"), GreatestA: d("15"), LimitsItself: true}
	in.Sources, in.Circuits = append(in.Sources, unit), append(in.Circuits, bar("unit", "fridge", "20"))
	fridge := load("fridge", "fridge", ampere("4"))
	fridge.Full, fridge.LeastV = watt("90"), some("11")
	in.Loads = append(in.Loads, fridge)
	in.States = append(in.States, state("ashore", []string{"fridge"}, "unit"))
	s, err := in.Solve()
	require.NoError(t, err)
	near(t, "8.181818", must(s.Circuit("unit to fridge")).DesignA.Decimal)
	near(t, "13.716000", volts(t, s, "fridge", "ashore, with its sources").Decimal, "13.8 − 4 × 0.021")
	for _, v := range must(s.Volts("fridge")) {
		assert.NotEqual(t, "ashore, on the batteries alone", s.Cases()[v.Case].Name)
	}
}

// TestConverterOverloaded: 3 A and 18 A are more than 20 A. What the converter feeds
// has no answer; what feeds it has one, at full output.
func TestConverterOverloaded(t *testing.T) {
	s, err := supplied("18").Solve()
	require.NoError(t, err)
	x := must(s.Circuit("converter to radio"))
	assert.False(t, x.DesignA.Valid)
	assert.Contains(t, x.Missing, "no operating point exists")
	assert.False(t, volts(t, s, "lamp", "use, on the batteries alone").Valid)
	_, err = must(s.Case(0)).Ladder("lamp")
	assert.ErrorIs(t, err, wire.ErrNoOperatingPoint)
	near(t, "23.76435", volts(t, s, "input", "use, on the batteries alone").Decimal)
	assert.True(t, must(s.Circuit("A to input")).DesignA.Valid)
}

// TestWithReachesUpstream: a cable behind a converter that feeds a part alone changes
// what its input draws.
func TestWithReachesUpstream(t *testing.T) {
	in := supplied("5")
	in.Loads[0].Takes, in.Loads[1].Takes = watt("60"), watt("80")
	s, err := in.Solve()
	require.NoError(t, err)
	c := bar("converter", "radio", "45")
	with, err := s.With(c)
	require.NoError(t, err)
	in.Circuits[1] = c
	whole, err := in.Solve()
	require.NoError(t, err)
	const name = "use, on the batteries alone"
	assert.Equal(t, volts(t, whole, "input", name), volts(t, with, "input", name))
	assert.NotEqual(t, volts(t, s, "input", name), volts(t, with, "input", name))
	_, err = with.With(installation.Circuit{Name: "converter to radio", From: "converter", To: "lamp", ReturnMilliohm: some("1")})
	assert.ErrorContains(t, err, "to_node")
}

// linked is a house and a starter battery with a link between them.
func linked(s installation.Switch) installation.Installation {
	link := bar("S", "A", "7")
	link.Switch = s
	in := installation.Installation{Rule: european(),
		Circuits:  []installation.Circuit{link, bar("A", "fridge", "20"), bar("S", "engine", "1")},
		Batteries: []installation.Battery{cell("A", "house", "13.4", "12.4", "12", "3", "8"), cell("S", "starter", "12.7", "12.1", "11.8", "4", "9")},
		Sources:   []installation.Source{{Name: "charger", HeldV: d("14.4"), GreatestA: d("30"), LimitsItself: true}},
		Loads:     []installation.Load{load("fridge", "fridge", ampere("6")), {Name: "engine", Node: "engine", Cranks: true, Starts: ampere("250")}},
		States:    []installation.State{state("use", []string{"fridge"})},
	}
	in.Circuits = append(in.Circuits, bar("charger", "A", "5"))
	return in
}

// TestClosingByHand: the house full and charged with 30 A against the starter battery
// nearly empty, and the other way round without a charger.
//
//	EMF behind 3 mΩ and 30 A: 13.4 + 30 × 0.003 = 13.49 V
//	(13.49 − 12.1) ÷ (3 + 7 + 4) mΩ = 99.286 A
//	(12.7 − 12.4) ÷ 14 mΩ = 21.429 A
func TestClosingByHand(t *testing.T) {
	s, err := linked(installation.UsuallyOpen).Solve()
	require.NoError(t, err)
	ways, err := s.Closing("S to A")
	require.NoError(t, err)
	require.Len(t, ways, 2)
	near(t, "99.286", ways[0].CurrentA)
	assert.Equal(t, "A", ways[0].Full)
	near(t, "21.429", ways[1].CurrentA)
	none, err := s.Closing("A to fridge")
	require.NoError(t, err)
	assert.Empty(t, none, "no switch")
}

// TestOneBankClosing: batteries of one bank are joined within 0.1 V: 0.1 ÷ 13 mΩ.
func TestOneBankClosing(t *testing.T) {
	isolator := bar("B", "A", "7")
	isolator.Switch = installation.UsuallyClosed
	in := linked(installation.UsuallyOpen)
	in.Circuits, in.Batteries = append(in.Circuits, isolator), append(in.Batteries, cell("B", "house", "13.4", "12.4", "12", "3", "8"))
	s, err := in.Solve()
	require.NoError(t, err)
	ways, err := s.Closing("B to A")
	require.NoError(t, err)
	require.NotEmpty(t, ways)
	i := slices.IndexFunc(ways, func(x installation.Closing) bool { return x.OneBank })
	require.GreaterOrEqual(t, i, 0)
	near(t, "7.692", ways[i].CurrentA)
	for _, c := range s.Cases() {
		assert.NotEqual(t, "B to A", c.Open, "a battery's own isolator is no link")
	}
}

// TestLinksByHand: an open link carries nothing, not what 1 kΩ would; a closed one
// shares the fridge's 6 A: (12.4 − 12.1 − 6 × 8 mΩ) ÷ 24 mΩ = 10.5 A to the starter
// battery.
func TestLinksByHand(t *testing.T) {
	s, err := linked(installation.UsuallyOpen).Solve()
	require.NoError(t, err)
	x := must(s.Circuit("S to A"))
	near(t, "10.500000", x.DesignA.Decimal)
	assert.Equal(t, "use, S to A closed", x.DesignCase)
	near(t, "12.100000", volts(t, s, "S", "use, on the batteries alone").Decimal)
	s, err = linked(installation.UsuallyClosed).Solve()
	require.NoError(t, err)
	near(t, "12.352000", volts(t, s, "A", "use, S to A open").Decimal, "12.4 − 6 × 0.008")
}

// TestCrankingByHand: 250 A on its own battery alone, and on the house's through the
// link: 12.4 − 250 × (8 + 7 + 1) mΩ; every lead on the way carries all of it.
func TestCrankingByHand(t *testing.T) {
	s, err := linked(installation.UsuallyOpen).Solve()
	require.NoError(t, err)
	for circuit, want := range map[string]string{"S to engine": "250.000000", "S to A": "250.000000"} {
		near(t, want, must(s.Circuit(circuit)).CrankingA.Decimal, circuit)
	}
	assert.False(t, must(s.Circuit("A to fridge")).CrankingA.Valid)
	near(t, "9.600000", volts(t, s, "engine", "cranking engine").Decimal, "12.1 − 250 × 0.010")
	near(t, "8.400000", volts(t, s, "engine", "cranking engine on A alone, every switch closed").Decimal)
}

// TestBehindAnOpenLink: what no battery is joined to is not answered for, and gets no
// voltage, least of all 0 V.
func TestBehindAnOpenLink(t *testing.T) {
	in := linked(installation.UsuallyOpen)
	far := bar("A", "shed", "5")
	far.Switch = installation.UsuallyOpen
	in.Circuits = append(in.Circuits, far, bar("shed", "lamp", "5"), bar("wall", "shed", "5"))
	in.Loads = append(in.Loads, load("lamp", "lamp", ampere("2")))
	in.Sources = append(in.Sources, installation.Source{Name: "wall", HeldV: d("14"), GreatestA: d("9"), LimitsItself: true})
	s, err := in.Solve()
	require.NoError(t, err)
	for _, v := range must(s.Volts("lamp")) {
		c := s.Cases()[v.Case]
		assert.True(t, c.Closed != "" || c.AllClosed, c.Name)
	}
	assert.True(t, must(s.Circuit("shed to lamp")).DesignA.Decimal.IsZero())
	assert.True(t, must(s.Circuit("wall to shed")).DesignA.Decimal.IsZero())
}

// TestSelector: an engine on a ring of two ways with a switch in each: either carries
// all where the other is open.
func TestSelector(t *testing.T) {
	one, two := bar("S", "engine", "2"), bar("S", "post", "1")
	one.Switch, two.Switch = installation.UsuallyClosed, installation.UsuallyClosed
	in := linked(installation.UsuallyOpen)
	in.Circuits = slices.Concat(in.Circuits[:2], in.Circuits[3:], []installation.Circuit{one, two, bar("post", "engine", "1")})
	s, err := in.Solve()
	require.NoError(t, err)
	for _, circuit := range []string{"S to engine", "S to post", "post to engine"} {
		near(t, "250.000000", must(s.Circuit(circuit)).CrankingA.Decimal, circuit)
	}
}

// TestFlatBatteryCranks: a battery that cannot crank alone leaves no voltage, and its
// leads carry the starter's current all the same.
func TestFlatBatteryCranks(t *testing.T) {
	in := linked(installation.UsuallyOpen)
	in.Loads[1].Starts = ampere("1300")
	s, err := in.Solve()
	require.NoError(t, err)
	assert.False(t, volts(t, s, "engine", "cranking engine").Valid)
	near(t, "1300.000000", must(s.Circuit("S to engine")).CrankingA.Decimal)
	assert.True(t, must(s.Circuit("S to engine")).DesignA.Valid, "a start unsets nothing else")
}

// TestLowerBatteryIsLeftOut: a battery of 12 V on the bar of one of 24 V would take
// current: the fault at its end is that of the other alone.
//
//	26 ÷ (2 + 50) mΩ = 500 A at the end: the low battery's bus stands at 25 V
func TestLowerBatteryIsLeftOut(t *testing.T) {
	in := installation.Installation{Rule: european(),
		Circuits:  []installation.Circuit{bar("high", "low", "1"), bar("low", "end", "49")},
		Batteries: []installation.Battery{cell("high", "a", "26", "24", "23", "2", "8"), cell("low", "b", "13", "12", "11", "2", "8")},
	}
	s, err := in.Solve()
	require.NoError(t, err)
	f := must(s.GreatestFault("end"))
	near(t, "500.000", f.FaultA)
	assert.True(t, f.Sources[1].CurrentA.IsZero())
}

// TestUnlimitedSource: an alternator that does not limit itself drives ten times its
// output into a fault (tables: from memory), and the answer is no surer than that.
func TestUnlimitedSource(t *testing.T) {
	in := linked(installation.UsuallyOpen)
	in.Sources[0].LimitsItself = false
	s, err := in.Solve()
	require.NoError(t, err)
	f := must(s.GreatestFault("charger"))
	assert.True(t, f.Working.Confidence() < must(must(linked(1).Solve()).GreatestFault("charger")).Working.Confidence())
	i := slices.IndexFunc(f.Sources, func(x wire.SourceShare) bool { return x.Name == "charger" })
	near(t, "300", f.Sources[i].CurrentA)
	feed := must(s.FedFrom(installation.End{Circuit: "charger to A", Node: "charger"}, nil))
	near(t, "300", feed.LimitA.Decimal)
}

// TestFedFrom: batteries behind devices limit, one without a device does not; a device
// that two ways share counts once.
func TestFedFrom(t *testing.T) {
	s, err := van().Solve()
	require.NoError(t, err)
	open := must(s.FedFrom(atBus, fuses()[:1]))
	assert.False(t, open.LimitA.Valid, "B has no device")
	assert.True(t, open.Battery)
	both := must(s.FedFrom(atBus, []installation.Device{fuses()[0], fuses()[1]}))
	near(t, "150", both.LimitA.Decimal, "60 + 60 + 30")
	near(t, "30", both.SourceA)
	assert.Len(t, both.Devices, 2)
	shared := must(s.FedFrom(installation.End{Circuit: "bus to fridge", Node: "fridge"}, nil))
	assert.False(t, shared.Fed, "nothing stands behind the fridge")
	assert.True(t, shared.LimitA.Valid && shared.LimitA.Decimal.IsZero(), "and that is known: no limit would be something else")
	_, err = s.FedFrom(atBus, []installation.Device{{End: installation.End{Circuit: "A to bus", Node: "A"}}, {End: installation.End{Circuit: "A to buss", Node: "A"}, RatingA: d("10")}})
	faults := working.Inputs(err)
	require.Len(t, faults, 2)
	assert.Equal(t, "devices[0].rating_a", faults[0].Field)
	assert.Equal(t, "devices[1].end.circuit", faults[1].Field)
	assert.Contains(t, faults[1].Want, "nearest: A to bus")
}

// TestEverySourceIsJudged: a charger that no state lists has a line that carries it.
func TestEverySourceIsJudged(t *testing.T) {
	s, err := linked(installation.UsuallyOpen).Solve()
	require.NoError(t, err)
	x := must(s.Circuit("charger to A"))
	near(t, "30.000000", x.DesignA.Decimal)
	assert.Equal(t, "charger at its limit", x.DesignCase)
}

// TestLimitOfALoad: 100 W at the lowest voltage at which it works, 10 V, is 10 A,
// though a state takes less of it and the bus never sinks so low.
func TestLimitOfALoad(t *testing.T) {
	in := linked(installation.UsuallyOpen)
	in.Loads[0].Full, in.Loads[0].LeastV = watt("100"), some("10")
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("A to fridge"))
	near(t, "10.000000", x.DesignA.Decimal)
	assert.Equal(t, "fridge at its limit", x.DesignCase)
}

// TestShortDuty: a winch of 80 A whose heat is that of 20 A makes the design current
// 20 A, and its peak the brief one.
func TestShortDuty(t *testing.T) {
	in := linked(installation.UsuallyOpen)
	in.Loads[0].Takes, in.Loads[0].EquivalentA = ampere("80"), some("20")
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("A to fridge"))
	near(t, "20.000000", x.DesignA.Decimal)
	near(t, "80.000000", x.BriefA.Decimal)
	assert.Equal(t, "use, short loads at their peak", x.BriefCase)
}

// TestCoveredStates: of a state whose loads another takes as well, neither starts nor
// lost batteries are solved.
func TestCoveredStates(t *testing.T) {
	in := van()
	in.Loads[0].Takes = watt("60")
	s, err := in.Solve()
	require.NoError(t, err)
	for _, c := range s.Cases() {
		if c.State == 1 {
			assert.False(t, c.Loads && c.Kind != installation.Normal, c.Name)
		}
	}
	in.States[1].Loads[0].Takes = watt("90") // more than the other state takes
	s, err = in.Solve()
	require.NoError(t, err)
	assert.True(t, slices.ContainsFunc(s.Cases(), func(c installation.Case) bool { return c.State == 1 && c.Kind == installation.Brief }))
}

// TestCollapseUnsetsItsPart: a load of 3 kW behind 20 mΩ has no operating point at
// 12 V; the other part is answered.
func TestCollapseUnsetsItsPart(t *testing.T) {
	in := linked(installation.UsuallyOpen)
	in.Loads[0].Takes = watt("3000")
	in.Circuits, in.Batteries = append(in.Circuits, bar("C", "lamp", "10")), append(in.Batteries, cell("C", "other", "13", "12", "11.5", "2", "8"))
	in.Loads = append(in.Loads, load("lamp", "lamp", ampere("1")))
	in.States[0].Loads = append(in.States[0].Loads, installation.LoadUse{Load: "lamp"})
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("A to fridge"))
	assert.False(t, x.DesignA.Valid)
	assert.False(t, x.DropV.Valid)
	assert.False(t, x.ConductorC.Valid)
	assert.Contains(t, x.Missing, "no operating point exists")
	near(t, "1.000000", must(s.Circuit("C to lamp")).DesignA.Decimal)
}

// TestOneBatteryOfThree: what the two that are left carry.
func TestOneBatteryOfThree(t *testing.T) {
	in := installation.Installation{Rule: european(),
		Circuits: []installation.Circuit{bar("A", "bus", "2"), bar("B", "bus", "2"), bar("C", "bus", "2"), bar("bus", "lamp", "10")},
		Batteries: []installation.Battery{cell("A", "h", "13", "12", "11.5", "2", "8"), cell("B", "h", "13", "12", "11.5", "2", "8"),
			cell("C", "h", "13", "12", "11.5", "2", "8")},
		Loads:  []installation.Load{load("lamp", "lamp", ampere("30"))},
		States: []installation.State{state("use", []string{"lamp"})},
	}
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("A to bus"))
	near(t, "15.000000", x.LostA.Decimal, "30 ÷ 2")
	near(t, "16.666667", x.DesignA.Decimal, "new among aged: 30 × (1 ÷ 4) ÷ (1 ÷ 4 + 2 ÷ 10) ")
	assert.Equal(t, "use, A new among aged", x.DesignCase)
	near(t, "766.667", must(s.LeastFault(installation.End{Circuit: "bus to lamp", Node: "bus"}, "lamp")).FaultA.Decimal, "11.5 ÷ (5 + 10) mΩ, one of three missing")
}

// TestSections: two sections of one circuit; the weaker decides the ampacity, the
// hotter the temperature, both the resistance. By package wire: a route.
func TestSections(t *testing.T) {
	in := van()
	c := &in.Circuits[3]
	c.Sections = append(slices.Clone(c.Sections), c.Sections[0])
	c.Sections[1].Conductor.AmbientC, c.Sections[1].LengthM = some("60"), d("1")
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit(c.Name))
	workingtest.Guard(t, x.Working)
	heat := decimal.Max(x.DesignA.Decimal, x.LostA.Decimal)
	route := wire.Route{Sections: c.Sections, CurrentA: heat, JointsMilliohm: c.JointsMilliohm}
	loop := must(route.Loop(in.Rule))
	assert.Equal(t, must(route.Ampacity(in.Rule)).AmpacityA.String(), x.AmpacityA.Decimal.String())
	assert.Equal(t, loop.LoopMilliohm.Mul(x.DesignA.Decimal).Shift(-3).String(), x.DropV.Decimal.String())
	assert.True(t, x.ConductorC.Decimal.GreaterThan(d("60")))
}

// TestParallelCables: two cables carry half each; of unlike ones a single one is
// counted on, and all of them for the greatest fault.
func TestParallelCables(t *testing.T) {
	in := van()
	c := &in.Circuits[3]
	c.Cables = 2
	_, err := in.Solve()
	require.ErrorContains(t, err, "circuits[3].sections[0].conductor.grouped")
	c.Sections[0].Conductor.Grouped = 2
	s, err := in.Solve()
	require.NoError(t, err)
	alike := must(s.Circuit(c.Name))
	workingtest.Guard(t, alike.Working)
	cable := wire.Cable{Conductor: c.Sections[0].Conductor, LengthM: c.Sections[0].LengthM, JointsMilliohm: c.JointsMilliohm, Cables: 2,
		CurrentA: decimal.Max(alike.DesignA.Decimal, alike.LostA.Decimal)}
	assert.Equal(t, must(cable.Ampacity(in.Rule)).AmpacityA.String(), alike.AmpacityA.Decimal.String())
	near(t, must(cable.Loop(in.Rule)).LoopMilliohm.Mul(alike.DesignA.Decimal).Shift(-3).StringFixed(6), alike.DropV.Decimal)
	c.Unlike = true
	other, err := in.Solve()
	require.NoError(t, err)
	assert.True(t, must(other.Circuit(c.Name)).AmpacityA.Decimal.LessThan(alike.AmpacityA.Decimal))
	assert.Equal(t, must(s.GreatestFault("fridge")).FaultA, must(other.GreatestFault("fridge")).FaultA)
	least := func(s *installation.Solved) decimal.Decimal {
		return must(s.LeastFault(atBus, "fridge")).FaultA.Decimal
	}
	assert.True(t, least(other).LessThan(least(s)))
}

// TestNoAmpacity: a cable in air hotter than its insulation bears has no ampacity; it
// says so, and its resistance is that of its insulation's temperature.
func TestNoAmpacity(t *testing.T) {
	in := van()
	in.Circuits[3].Sections[0].Conductor.AmbientC = some("95")
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("bus to fridge"))
	assert.False(t, x.AmpacityA.Valid)
	assert.False(t, x.ConductorC.Valid)
	assert.Contains(t, x.Missing, "no ampacity")
	assert.True(t, x.DesignA.Valid)
	workingtest.Guard(t, x.Working)
}

// TestOverloadedCable: hotter than copper is reckoned, its drop is not known.
func TestOverloadedCable(t *testing.T) {
	in := van()
	in.Loads[0].Takes = ampere("120")
	s, err := in.Solve()
	require.NoError(t, err)
	x := must(s.Circuit("bus to fridge"))
	assert.True(t, x.ConductorC.Decimal.GreaterThan(d("250")) || !x.ConductorC.Valid)
	assert.False(t, x.DropV.Valid)
	assert.Contains(t, x.Missing, "250 °C")
	workingtest.Guard(t, x.Working)
}

// TestRefusals: every fault at once, each with its path; names that there are not are
// refused, and the nearest is offered.
func TestRefusals(t *testing.T) {
	in := craft()
	in.Circuits[0].From = ""
	in.Circuits[3].Sections[0].LengthM = d("0")
	in.Circuits[4].Sections[0].Conductor.Method = "Q"
	in.Batteries[0].HighMilliohm = d("1")
	in.Batteries[1].LeastV = d("0")
	in.Sources[0].GreatestA = d("0")
	in.Sources[2].FedAt = "convertor input"
	in.Loads[0].Takes = installation.Demand{}
	in.Loads[1].Return = "fram"
	in.States[0].Loads[0].Load = "frigde"
	in.States[1].Sources[0].CurrentA = some("31")
	_, err := in.Solve()
	got := map[string]string{}
	for _, f := range working.Inputs(err) {
		got[f.Field] = f.Want
	}
	for field, want := range map[string]string{
		"circuits[0].from_node": "name of a node", "circuits[3].sections[0].length_m": "above 0", "circuits[4].sections[0].conductor.method": "method",
		"batteries[0].low_milliohm": "at most", "batteries[1].least_rested_v": "above 0", "sources[0].limit_a": "above 0",
		"sources[2].fed_at": "nearest: converter input", "loads[0].takes.current_a": "exactly one", "loads[1].return": "name of a node",
		"states[0].loads[0].load": "nearest: fridge",
	} {
		assert.Contains(t, got[field], want, field)
	}
	for _, bad := range []struct {
		field string
		spoil func(*installation.Installation)
	}{
		{"states[1].sources[0].current_a", func(in *installation.Installation) { in.States[1].Sources[0].CurrentA = some("31") }},
		{"states[0].loads[0].load", func(in *installation.Installation) { in.States[0].Loads[0].Load = "starter" }},
		{"states[0].loads[1].load", func(in *installation.Installation) { in.States[0].Loads[1].Load = "fridge" }},
		{"circuits[1].name", func(in *installation.Installation) { in.Circuits[1].Name = "A to bus" }},
		{"sources[0].name", func(in *installation.Installation) { in.Sources[0].Name = "A" }},
		{"circuits[0].switch", func(in *installation.Installation) { in.Circuits[0].Switch = 9 }},
		{"sources[0].fed_at", func(in *installation.Installation) { in.Sources[0].InputW = some("300") }},
		{"sources[2].rated_input_w", func(in *installation.Installation) { in.Sources[2].InputW = decimal.NullDecimal{} }},
		{"sources[2].fed_at", func(in *installation.Installation) { in.Sources[2].FedAt = "radio" }},
		{"sources[2].fed_at", func(in *installation.Installation) { in.Sources[2].FedAt = wire.CommonReturn }},
		{"circuits[10].from_node", func(in *installation.Installation) { in.Circuits = append(in.Circuits, bar("x", "y", "1")) }},
		{"circuits[0].sections", func(in *installation.Installation) { in.Circuits[0].Sections = nil }},
		{"circuits[0].sections", func(in *installation.Installation) { in.Circuits[0].Sections[0].LengthM = d("0.0001") }},
		{"batteries", func(in *installation.Installation) { in.Batteries, in.Sources = nil, nil }},
	} {
		in := craft()
		bad.spoil(&in)
		_, err := in.Solve()
		fields := []string{}
		for _, f := range working.Inputs(err) {
			fields = append(fields, f.Field)
		}
		assert.Contains(t, fields, bad.field)
	}
}

// TestNothingSolved: a handle that nothing solved says so.
func TestNothingSolved(t *testing.T) {
	for _, s := range []*installation.Solved{nil, {}} {
		_, errs := s.Circuit("x")
		_, with := s.With(installation.Circuit{})
		_, live := s.Live()
		for _, err := range []error{errs, with, live} {
			assert.ErrorContains(t, err, "solved is empty")
		}
		assert.Empty(t, s.Cases())
		text, err := s.MarshalJSON()
		assert.NoError(t, err)
		assert.NotEmpty(t, text)
	}
}

// TestSolvedAsJSON: cases and circuits go out.
func TestSolvedAsJSON(t *testing.T) {
	text, err := json.Marshal(must(van().Solve()))
	require.NoError(t, err)
	var out struct {
		Cases    []installation.Case          `json:"cases"`
		Circuits []installation.CircuitResult `json:"circuits"`
	}
	require.NoError(t, json.Unmarshal(text, &out))
	assert.Len(t, out.Circuits, 5)
	near(t, "16.66", out.Circuits[0].DesignA.Decimal)
	assert.Equal(t, installation.BatteryLost, out.Cases[5].Kind)
}

// TestSeveralAtOnce asks one solved installation from many goroutines.
func TestSeveralAtOnce(t *testing.T) {
	in := craft()
	s, err := in.Solve()
	require.NoError(t, err)
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			assert.NotEmpty(t, answers(t, in, s))
			_, err := s.With(thicker())
			assert.NoError(t, err)
		})
	}
	wg.Wait()
}

// TestWorkingKeepsItsFrom: what an answer rests on is in its working, and it is no
// surer than that.
func TestWorkingKeepsItsFrom(t *testing.T) {
	in := van()
	figure, err := tables.FaultSource("alternator-unlimited") // some figure from memory
	require.NoError(t, err)
	var from working.Working
	from.LookUp("k_ul", figure)
	for i, spoil := range []func(){
		func() { in.Batteries[1].From = from }, func() { in.Sources[0].From = from }, func() { in.Loads[1].Takes.From = from },
		func() { in.Circuits[0].Basis = from },
	} {
		in = van()
		spoil()
		s, err := in.Solve()
		require.NoError(t, err)
		name := []string{"A to bus", "charger to bus", "bus to heater", "A to bus"}[i]
		x := must(s.Circuit(name))
		workingtest.Guard(t, x.Working)
		assert.Equal(t, figure.Source.Confidence, x.Working.Confidence(), name)
	}
	in = van()
	in.Batteries[1].From = from
	s := must(in.Solve())
	assert.Equal(t, figure.Source.Confidence, must(s.GreatestFault("bus")).Working.Confidence())
	assert.Equal(t, figure.Source.Confidence, must(s.LeastFault(atBus, "fridge")).Working.Confidence())
}

// TestThickerIsCooler: for a radial run with loads of constant current or power a
// thicker cable raises neither its own drop nor its own temperature. Beside a
// resistive load a feeder's drop may rise: the law is not claimed there.
func TestThickerIsCooler(t *testing.T) {
	in := van()
	in.Loads, in.States[0].Loads = in.Loads[:1], in.States[0].Loads[:1]
	s, err := in.Solve()
	require.NoError(t, err)
	before := must(s.Circuit("bus to fridge"))
	for _, size := range []string{"6 mm2", "10 mm2", "16 mm2", "25 mm2"} {
		with, err := s.With(run("bus", "fridge", "4", size))
		require.NoError(t, err)
		x := must(with.Circuit("bus to fridge"))
		assert.True(t, x.DropV.Decimal.LessThanOrEqual(before.DropV.Decimal), size)
		assert.True(t, x.ConductorC.Decimal.LessThanOrEqual(before.ConductorC.Decimal), size)
		before = x
	}
}

// TestMoreSourcesMoreFault: a further source never lowers a greatest fault, as those
// that would absorb are left out.
func TestMoreSourcesMoreFault(t *testing.T) {
	for seed := range uint64(6) {
		r := newDice(400 + seed)
		in := r.installation(1)
		s, err := in.Solve()
		require.NoError(t, err)
		more := in
		more.Batteries = append(slices.Clone(in.Batteries), r.battery("extra", "other"))
		more.Circuits = append(slices.Clone(in.Circuits), run("extra", nodes(in)[r.IntN(3)], "1", "16 mm2"))
		with, err := more.Solve()
		require.NoError(t, err)
		for _, node := range nodes(in) {
			assert.True(t, must(with.GreatestFault(node)).FaultA.Add(d("0.0001")).GreaterThanOrEqual(must(s.GreatestFault(node)).FaultA), "seed %d, %s", seed, node)
		}
	}
}

// twoBanks is a house battery of 12 V behind 10 mΩ and a starter battery of the same,
// joined by 5 mΩ, an alternator at the starter battery and a load at the house.
func twoBanks() installation.Installation {
	cell := installation.Battery{FullV: d("13"), EmptyV: d("12"), LeastV: d("12"), LowMilliohm: d("10"), HighMilliohm: d("10")}
	house, starter := cell, cell
	house.Name, house.Bank, starter.Name, starter.Bank = "H", "house", "S", "starter"
	joint := func(name, from, to, milliohm string, sw installation.Switch) installation.Circuit {
		return installation.Circuit{Name: name, From: from, To: to, ReturnMilliohm: some(milliohm), Switch: sw}
	}
	return installation.Installation{
		Circuits: []installation.Circuit{
			joint("link", "S", "H", "5", installation.UsuallyClosed), joint("line", "G", "S", "1", installation.AlwaysClosed), joint("run", "H", "pump", "10", installation.AlwaysClosed),
		},
		Batteries: []installation.Battery{house, starter},
		Sources:   []installation.Source{{Name: "G", HeldV: d("14"), GreatestA: d("50"), OwnLoadsA: some("8")}},
		Loads: []installation.Load{
			{Name: "pump", Node: "pump", Takes: installation.Demand{CurrentA: some("10")}, Starts: installation.Demand{CurrentA: some("40")}},
			{Name: "lamp", Node: "S", Takes: installation.Demand{CurrentA: some("2")}},
		},
		States: []installation.State{{
			Name: "use", Sources: []installation.Supply{{Source: "G", CurrentA: some("0")}}, Loads: []installation.LoadUse{{Load: "pump"}, {Load: "lamp"}},
		}},
	}
}

func inCase(t *testing.T, s *installation.Solved, name string) *installation.CaseResult {
	t.Helper()
	for i, c := range s.Cases() {
		if c.Name == name {
			return must(s.Case(i))
		}
	}
	require.Fail(t, "no such case", name)
	return nil
}

// TestFullBankFeedsAnEmptyOne: of 13 V and 12 V behind 10 mΩ each and 5 mΩ between, the
// difference drives 40 A, and of 10 A at the lower one 15/25 come over the link.
func TestFullBankFeedsAnEmptyOne(t *testing.T) {
	s := must(twoBanks().Solve())
	x := inCase(t, s, "use, the bank of S full and the others nearly empty")
	assert.Equal(t, installation.Unequal, x.Kind)
	// H: 12 − 10 mΩ × I_H, S: 13 − 10 mΩ × I_S; I_S = 2 + I_l, I_H + I_l = 10, S − H = 5 mΩ × I_l:
	// 13 − 0.02 − 0.01 × I_l − 12 + 0.1 − 0.01 × I_l = 0.005 × I_l
	near(t, "43.2", must(x.Current("link")).Decimal)
	near(t, "-33.2", must(x.Given("H")).Decimal)
	near(t, "43.2", must(s.Circuit("link")).UnequalA.Decimal, "greater than the other way round")
	assert.Equal(t, x.Name, must(s.Circuit("link")).UnequalCase)
	near(t, "3.2", must(inCase(t, s, "use, on the batteries alone").Current("link")).Decimal)
	near(t, "3.2", must(s.Circuit("link")).DesignA.Decimal, "no unequal case in it, and the alternator at its limit counts for its own line")
	near(t, "50", must(s.Circuit("line")).DesignA.Decimal)

	in := twoBanks()
	in.States[0].Sources = nil // now no state says what the alternator does
	near(t, "20", must(must(in.Solve()).Circuit("link")).DesignA.Decimal, "50 A into both banks, 10 mΩ beside 15 mΩ")
}

// TestIdleAlternator: one that gives nothing leaves what the vehicle draws to the
// batteries.
func TestIdleAlternator(t *testing.T) {
	s := must(twoBanks().Solve())
	x := inCase(t, s, "use, with its sources")
	near(t, "0", must(x.Given("G")).Decimal)
	near(t, "20", must(x.Given("H")).Decimal.Add(must(x.Given("S")).Decimal), "pump, lamp and the vehicle's 8 A")
	near(t, "12", must(inCase(t, s, "use, on the batteries alone").Given("H")).Decimal.Add(must(inCase(t, s, "use, on the batteries alone").Given("S")).Decimal))
}

// TestShortOfASource: what a data sheet says of a short circuit stands in place of the
// tabled multiple, in a fault and behind an end.
func TestShortOfASource(t *testing.T) {
	in := twoBanks()
	given := func() decimal.Decimal {
		f := must(must(in.Solve()).GreatestFault("S"))
		workingtest.Guard(t, f.Working)
		i := slices.IndexFunc(f.Sources, func(x wire.SourceShare) bool { return x.Name == "G" })
		return f.Sources[i].CurrentA
	}
	near(t, "500", given(), "ten times 50 A")
	in.Sources[0].ShortA = some("120")
	near(t, "120", given())
	infeed := must(must(in.Solve()).FedFrom(installation.End{Circuit: "line", Node: "G"}, nil))
	workingtest.Guard(t, infeed.Working)
	near(t, "120", infeed.LimitA.Decimal)
	in.Sources[0].ShortA = some("49")
	_, err := in.Solve()
	assert.EqualError(t, err, "sources[0].short_a is 49: want at least limit_a, 50")
}

// TestLongStart: a start that lasts heats as what runs does.
func TestLongStart(t *testing.T) {
	in := twoBanks()
	near(t, "10", must(must(in.Solve()).Circuit("run")).DesignA.Decimal)
	in.Loads[0].StartLasts = true
	s := must(in.Solve())
	assert.Equal(t, installation.Normal, inCase(t, s, "use, pump starting").Kind)
	near(t, "40", must(s.Circuit("run")).DesignA.Decimal)
}

// TestAskedCases: a case that is listed is answered alike when it is asked for, and one
// of the caller's own is that of an installation with that state.
func TestAskedCases(t *testing.T) {
	in := craft()
	s := must(in.Solve())
	for i, c := range s.Cases() {
		if c.State < 0 {
			continue
		}
		listed, asked := must(s.Case(i)), must(s.Ask(c, in.States[c.State]))
		for _, x := range in.Circuits {
			assert.Equal(t, must(listed.Current(x.Name)), must(asked.Current(x.Name)), "%s, %s", c.Name, x.Name)
			assert.Equal(t, must(listed.Voltage(x.To)), must(asked.Voltage(x.To)), "%s, %s", c.Name, x.To)
		}
		for _, b := range in.Batteries {
			assert.Equal(t, must(listed.Given(b.Name)), must(asked.Given(b.Name)), "%s, %s", c.Name, b.Name)
		}
	}
	_, err := s.Ask(installation.Case{BatteryMissing: "C", Open: "bus to fridge", AtLimitOf: ""}, installation.State{Loads: []installation.LoadUse{{Load: "frige"}}})
	for _, want := range []string{"state.loads[0].load", "battery_missing is \"C\"", "open is \"bus to fridge\""} {
		assert.ErrorContains(t, err, want)
	}
}

// TestBetween: a bridge is on every way, both sides of a ring are, and a stub beside the
// way is not; over the common return there is none.
func TestBetween(t *testing.T) {
	in := installation.Installation{
		Batteries: []installation.Battery{{Name: "B", FullV: d("13"), EmptyV: d("12"), LeastV: d("12"), LowMilliohm: d("10"), HighMilliohm: d("10")}},
		Circuits: []installation.Circuit{
			bar("B", "bus", "1"), bar("bus", "left", "1"), bar("bus", "right", "1"), bar("left", "far", "1"), bar("right", "far", "1"),
			bar("left", "stub", "1"), bar("far", "lamp", "1"),
		},
		Loads: []installation.Load{{Name: "lamp", Node: "lamp", Takes: installation.Demand{CurrentA: some("1")}}},
	}
	s := must(in.Solve())
	for _, ends := range [][2]string{{"lamp", "B"}, {"B", "lamp"}} {
		assert.Equal(t, []string{"B to bus", "bus to left", "bus to right", "left to far", "right to far", "far to lamp"}, must(s.Between(ends[0], ends[1])))
	}
	assert.Equal(t, []string{"left to stub"}, must(s.Between("stub", "left")))
	_, err := s.Between("lamp", "lamp")
	assert.ErrorContains(t, err, "two nodes")
	apart := craft() // the radio hangs behind a converter
	assert.Empty(t, must(must(apart.Solve()).Between("radio", "A")))
}
