package wire_test

import (
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// number reads a fuzzed number; what is none ends the case.
func number(t *testing.T, s string) decimal.Decimal {
	v, err := decimal.NewFromString(s)
	if err != nil || len(s) > 40 || v.Exponent() > 40 || v.Exponent() < -200 {
		t.Skip() // TestAbsurdNumbers has those
	}
	return v
}

// guarded holds the working of an answer to the drift guard.
func guarded(t *testing.T, w working.Working, err error) {
	if err == nil {
		workingtest.Guard(t, w)
	}
}

func FuzzConductor(f *testing.F) {
	f.Add("16 mm2", "B", "90", "40", "38", 4, true)
	f.Add("AWG 6", "", "105", "-3", "1e3", 2, false)
	f.Fuzz(func(t *testing.T, size, method, insulation, ambient, current string, grouped int, engine bool) {
		s, err := tables.ParseSize(size)
		if err != nil {
			t.Skip()
		}
		i := number(t, current)
		c := wire.Conductor{Size: s, Class: tables.Flexible, Method: method, InsulationC: number(t, insulation),
			AmbientC: decimal.NewNullDecimal(number(t, ambient)), Grouped: grouped, OutsideEngineSpace: !engine}
		for _, set := range tables.RuleSets() {
			a, err := c.Ampacity(set.Ampacity)
			guarded(t, a.Working, err)
			hot, err := a.Temperature(i)
			guarded(t, hot.Working, err)
			r, err := c.Resistance(i)
			guarded(t, r.Working, err)
			over := wire.Overload{Ampacity: a, AreaMM2: i, CurrentA: i}
			when, err := over.TimeTo(c.InsulationC)
			guarded(t, when.Working, err)
			then, err := over.Temperature(i)
			guarded(t, then.Working, err)
			route, err := wire.Route{Sections: []wire.Section{{Conductor: c, LengthM: i}, {Conductor: c, LengthM: i}, {Conductor: c, LengthM: i}}, CurrentA: i}.Drop(set.Ampacity)
			guarded(t, route.Working, err)
			own := c
			own.TerminalC, own.OwnAmpacityA, own.OwnAmbientC, own.ConvertAmbient = decimal.NewNullDecimal(i), decimal.NewNullDecimal(i), c.AmbientC, engine
			drop, err := wire.Cable{Conductor: own, CurrentA: i, LengthM: i, Cables: grouped}.Drop(set.Ampacity)
			guarded(t, drop.Working, err)
		}
	})
}

func FuzzRun(f *testing.F) {
	f.Add("18", "6.5", "5.5", "1.2", "7", "0.8", 2)
	f.Add("0", "1e-9", "1e-30", "0", "0", "12", 0)
	f.Fuzz(func(t *testing.T, current, length, resistance, joints, back, limit string, cables int) {
		r := wire.Run{CurrentA: number(t, current), LengthM: number(t, length), MilliohmPerM: number(t, resistance),
			JointsMilliohm: number(t, joints), Cables: cables, ReturnMilliohm: decimal.NewNullDecimal(number(t, back))}
		u := number(t, limit)
		drop, err := r.Drop()
		guarded(t, drop.Working, err)
		longest, err := r.GreatestLength(u)
		guarded(t, longest.Working, err)
		left, err := drop.VoltageLeft(u)
		guarded(t, left.Working, err)
		for _, set := range tables.RuleSets() {
			check, err := drop.Check(set.Drop.Critical, u)
			if err == nil && check.Verdict() != working.NotApplicable {
				workingtest.Guard(t, check.Working)
			}
			code := wire.CodeDrop{CurrentA: r.CurrentA, LengthM: r.LengthM, AreaMM2: r.MilliohmPerM, Constant: set.Drop.Constant}
			d, err := code.Drop()
			guarded(t, d.Working, err)
			most, err := code.GreatestCurrent(u)
			guarded(t, most.Working, err)
			area, err := code.LeastArea(u)
			guarded(t, area.Working, err)
			size, err := area.LeastSize(tables.AWG)
			guarded(t, size.Working, err)
		}
	})
}

func FuzzSizing(f *testing.F) {
	f.Add("9", "25", "6", "2", "12", "40", "90")
	f.Fuzz(func(t *testing.T, current, surge, length, joints, system, ambient, insulation string) {
		lay := feeder()
		lay.AmbientC, lay.InsulationC = decimal.NewNullDecimal(number(t, ambient)), number(t, insulation)
		for _, set := range tables.RuleSets() {
			s := wire.Sizing{Lay: lay, System: tables.Metric, CurrentA: number(t, current), SurgeA: decimal.NewNullDecimal(number(t, surge)),
				LengthM: number(t, length), JointsMilliohm: number(t, joints), SystemV: number(t, system),
				Ampacity: set.Ampacity, Drop: set.Drop.Critical, Least: set.Size.Single}
			c, err := s.LeastSize()
			guarded(t, c.Working, err)
			l, err := s.GreatestLength()
			guarded(t, l.Working, err)
			i, err := s.GreatestCurrent()
			guarded(t, i.Working, err)
		}
	})
}

func FuzzSmall(f *testing.F) {
	f.Add("12", "250", "14.5", 3, "copper")
	f.Fuzz(func(t *testing.T, a, b, c string, n int, word string) {
		x, y, z := number(t, a), number(t, b), number(t, c)
		joint, err := wire.Joint{MilliV: x, CurrentA: y}.Reading()
		guarded(t, joint.Working, err)
		check, err := wire.Joint{MilliV: x, CurrentA: y}.AgainstTwins(wire.Joint{MilliV: z, CurrentA: y})
		guarded(t, check.Working, err)
		mv, err := wire.ExpectedReading{Milliohm: x, CurrentA: y}.MilliVolts()
		guarded(t, mv.Working, err)
		bend, err := wire.Bend{Cable: word, DiameterMM: z}.LeastRadius()
		guarded(t, bend.Working, err)
		bar, err := wire.Busbar{WidthMM: x, ThicknessMM: y}.Guess()
		guarded(t, bar.Working, err)
		mass, err := wire.CopperMass(feeder().Size, x)
		guarded(t, mass.Working, err)
		warm, err := wire.KnownResistance{Metal: word, MilliohmPerM: x, KnownC: decimal.NewNullDecimal(y), ConductorC: decimal.NewNullDecimal(z)}.Resistance()
		guarded(t, warm.Working, err)
		solid, err := wire.SolidConductor{Metal: word, AreaMM2: x, ConductorC: decimal.NewNullDecimal(z)}.Resistance()
		guarded(t, solid.Working, err)
		strands, err := wire.Strands{Wires: n, DiameterMM: z}.Geometry()
		guarded(t, strands.Working, err)
		melts, err := wire.MeltingPreece(word, z)
		guarded(t, melts.Working, err)
		short, err := wire.Melting{AreaMM2: x, AmbientC: decimal.NewNullDecimal(y), TimeS: z}.Onderdonk()
		guarded(t, short.Working, err)
		bundle, err := wire.AircraftBundle{FreeAirA: x, Wires: n, LoadingPercent: y, AltitudeM: decimal.NewNullDecimal(z)}.GreatestCurrent()
		guarded(t, bundle.Working, err)
		harness, err := wire.HarnessCurrent(y, wire.HarnessWires{Wires: n, CurrentA: x})
		guarded(t, harness.Working, err)
		hot, err := wire.AircraftWire{AmbientC: decimal.NewNullDecimal(x), InsulationC: y, CurrentA: z, GreatestA: y}.Temperature()
		guarded(t, hot.Working, err)
		duty, err := wire.Duty{Pulses: []wire.Pulse{{CurrentA: x, TimeS: y}}, PeriodS: z}.Equivalent()
		guarded(t, duty.Working, err)
	})
}

func FuzzNetwork(f *testing.F) {
	f.Add("12.8", "3", "1.6", "100", "2000", "0.5", "30", uint8(3))
	f.Add("14.4", "0.001", "1000000", "-40", "1", "1000", "1", uint8(200))
	f.Fuzz(func(t *testing.T, emf, own, branch, current, power, ohms, limit string, shape uint8) {
		e, r, b := number(t, emf), number(t, own), number(t, branch)
		n := wire.Network{
			Sources: []wire.NodeSource{
				{Name: "first", Node: "a", EMFV: e, Milliohm: r},
				{Name: "second", Node: "b", EMFV: e.Add(d("0.7")), Milliohm: r, LimitA: decimal.NewNullDecimal(number(t, limit))},
			},
			Branches: []wire.Branch{
				{Name: "one", From: "a", To: "b", Milliohm: b}, {Name: "two", From: "b", To: "c", Milliohm: r},
				{Name: "three", From: "c", To: "a", Milliohm: b}, {Name: "four", From: "c", To: "d", Milliohm: b},
			},
			Loads: []wire.NodeLoad{
				{Name: "constant", Node: "b", CurrentA: decimal.NewNullDecimal(number(t, current))},
				{Name: "inverter", Node: "d", PowerW: decimal.NewNullDecimal(number(t, power)), TripV: some("11")},
				{Name: "heater", Node: "c", Ohm: decimal.NewNullDecimal(number(t, ohms))},
			},
		}
		n.Sources = n.Sources[shape%2:]
		n.Branches = n.Branches[:4-shape/4%3]
		n.Loads = n.Loads[shape/16%4*3/4:]
		if shape&128 != 0 && len(n.Loads) > 0 {
			n.Loads[0].Return = "a"
		}
		s, err := n.Solve()
		if err == nil && s.CollapsedAt == "" {
			for _, l := range n.Loads {
				ladder, err := s.LoadLadder(l.Name)
				guarded(t, ladder.Working, err)
			}
		}
		for _, at := range []decimal.Decimal{decimal.Zero, b} {
			fault, err := n.Fault("c", at)
			guarded(t, fault.Working, err)
		}
	})
}
