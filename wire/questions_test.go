package wire_test

import (
	"maps"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Reasons that several questions share.
var (
	lies = workingtest.Keys{"grouped_conductors": "0 is two conductors a circuit, as where each has its return beside it"}
	run  = workingtest.Keys{
		"joints_milliohm": "a run may have no contacts worth counting",
		"parallel_cables": "0 is one cable, the side that loses more",
	}
	drawn = workingtest.Keys{ // a network is drawn with names of its own
		"sources.return": "empty is the common return", "loads.return": "empty is the common return",
		"loads": "what stands without loads is at rest",
	}
	named = workingtest.Keys{"sources.name": aName, "branches.name": aName, "loads.name": aName,
		"sources.node": aName, "sources.return": aName, "branches.from_node": aName, "branches.to_node": aName}
)

const (
	aName       = "a name is whatever the caller calls it"
	atNought    = "0 °C is a temperature, and an argument is always stated"
	withoutLoad = "what a network finds may be nought, and an argument is always stated"
	silent      = "a set may be silent on it, and then allows any"
)

// under puts keys below another.
func under(key string, keys workingtest.Keys) workingtest.Keys {
	all := workingtest.Keys{}
	for k, why := range keys {
		all[key+"."+k] = why
	}
	return all
}

// both puts lists of exceptions together.
func both(lists ...workingtest.Keys) workingtest.Keys {
	all := workingtest.Keys{}
	for _, list := range lists {
		maps.Copy(all, list)
	}
	return all
}

var (
	euRule     = european().Ampacity
	stated     = wire.Cable{Conductor: feeder(), CurrentA: d("30"), LengthM: d("4"), JointsMilliohm: d("0.6")}
	aRun       = wire.Run{CurrentA: d("18"), LengthM: d("6.5"), MilliohmPerM: d("5.5"), JointsMilliohm: d("1.2")}
	aDrop      = must(aRun.Drop())
	aLoop      = must(aRun.Loop())
	anAmpacity = must(feeder().Ampacity(euRule))
	solution   = must(van().Solve())
)

var questions = []workingtest.Question{
	{Ask: wire.Conductor.Ampacity, With: []any{feeder(), euRule}, Unset: lies},
	{Ask: wire.Conductor.Resistance, With: []any{feeder(), d("60")}, Unset: workingtest.Keys{"conductor_c": atNought}},
	{Ask: wire.Cable.Ampacity, With: []any{stated, euRule}, Unset: both(run, under("conductor", lies))},
	{Ask: wire.Cable.Loop, With: []any{stated, euRule}, Unset: both(run, under("conductor", lies))},
	{Ask: wire.Cable.Drop, With: []any{stated, euRule}, Unset: both(run, under("conductor", lies))},
	{Ask: wire.Route.Ampacity, With: []any{route(), euRule}, Unset: under("sections.conductor", lies)},
	{Ask: wire.Route.Loop, With: []any{route(), euRule}, Unset: both(workingtest.Keys{"joints_milliohm": run["joints_milliohm"]}, under("sections.conductor", lies))},
	{Ask: wire.Route.Drop, With: []any{route(), euRule}, Unset: both(workingtest.Keys{"joints_milliohm": run["joints_milliohm"]}, under("sections.conductor", lies))},
	{Ask: wire.Ampacity.Temperature, With: []any{anAmpacity, d("30")}, Unset: workingtest.Keys{"current_a": withoutLoad}},
	{Ask: wire.Ampacity.InParallel, With: []any{anAmpacity, 2}},
	{Ask: wire.Ampacity.Check, With: []any{anAmpacity, d("30")}, Unset: workingtest.Keys{"terminal_ampacity_a": "ampacity_a is what is judged, and holds it"}},
	{Ask: wire.CheckLeastSize, With: []any{must(tables.RuleSetOf("iso-craft")).Size.Single, feeder().Size}},
	{Ask: wire.Run.Loop, With: []any{aRun}, Unset: run},
	{Ask: wire.Run.Drop, With: []any{aRun}, Unset: run},
	{Ask: wire.Run.GreatestLength, With: []any{aRun, d("0.8")}, Unset: run},
	{Ask: wire.Loop.Drop, With: []any{aLoop, d("18")}, Unset: workingtest.Keys{"current_a": withoutLoad}},
	{Ask: wire.Drop.VoltageLeft, With: []any{aDrop, d("12.4")}},
	{Ask: wire.Drop.Loss, With: []any{aDrop}},
	{Ask: wire.Drop.Check, With: []any{must(wire.Run{CurrentA: d("9"), LengthM: d("3"), MilliohmPerM: d("5.5")}.Drop()), must(tables.RuleSetOf("iso-craft")).Drop.Critical, d("24")}},
	{Ask: wire.AlongPath, With: []any{[]wire.PathRun{{Name: "feeder", Drop: aDrop}}}, Unset: workingtest.Keys{"runs": "a load at the posts has none", "runs.name": "a heading"}, Any: workingtest.Keys{"runs.name": "a heading"}},
	{Ask: wire.PathDrop.Check, With: []any{must(wire.AlongPath([]wire.PathRun{{Name: "feeder", Drop: must(wire.Run{CurrentA: d("9"), LengthM: d("3"), MilliohmPerM: d("5.5")}.Drop())}})), must(tables.RuleSetOf("iso-craft")).Drop.Critical, d("24")}},
	{Ask: wire.CodeDrop.Drop, With: []any{aCode()}},
	{Ask: wire.CodeDrop.LeastArea, With: []any{aCode(), d("0.8")}},
	{Ask: wire.CodeDrop.GreatestCurrent, With: []any{aCode(), d("0.8")}},
	{Ask: wire.LeastArea.LeastSize, With: []any{must(aCode().LeastArea(d("0.8"))), tables.Metric}},
	{Ask: wire.Sizing.LeastSize, With: []any{fridge()}, Unset: both(workingtest.Keys{"joints_milliohm": run["joints_milliohm"], "drop_limit": silent}, under("lay", lies))},
	{Ask: wire.Sizing.GreatestLength, With: []any{inHand()}, Unset: both(workingtest.Keys{"joints_milliohm": run["joints_milliohm"]}, under("lay", lies))},
	{Ask: wire.Sizing.GreatestCurrent, With: []any{inHand()}, Unset: both(workingtest.Keys{"joints_milliohm": run["joints_milliohm"], "drop_limit": silent}, under("lay", lies))},
	{Ask: wire.KnownResistance.Resistance, With: []any{wire.KnownResistance{Metal: "copper", MilliohmPerM: d("1.21"), KnownC: some("20"), ConductorC: some("60")}}},
	{Ask: wire.SolidConductor.Resistance, With: []any{wire.SolidConductor{Metal: "copper", AreaMM2: d("60"), ConductorC: some("50")}}},
	{Ask: wire.AWG, With: []any{must(tables.ParseSize("AWG 6"))}},
	{Ask: wire.Strands.Geometry, With: []any{wire.Strands{Wires: 19, DiameterMM: d("0.5")}}},
	{Ask: wire.CopperMass, With: []any{feeder().Size, d("12")}},
	{Ask: wire.Duty.Equivalent, With: []any{wire.Duty{Pulses: []wire.Pulse{{CurrentA: d("30"), TimeS: d("50")}}, PeriodS: d("100")}}},
	{Ask: wire.Overload.Temperature, With: []any{winch(), d("60")}, Unset: workingtest.Keys{"time_s": "0 s is the start, and an argument is always stated"}},
	{Ask: wire.Overload.TimeTo, With: []any{winch(), d("90")}, Unset: workingtest.Keys{"limit_c": atNought}},
	{Ask: wire.MeltingPreece, With: []any{"copper", d("1")}},
	{Ask: wire.Melting.Onderdonk, With: []any{wire.Melting{AreaMM2: d("4"), AmbientC: some("30"), TimeS: d("1")}}},
	{Ask: wire.Joint.Reading, With: []any{wire.Joint{MilliV: d("3"), CurrentA: d("90")}}},
	{Ask: wire.Joint.AgainstTwins, With: []any{wire.Joint{MilliV: d("3"), CurrentA: d("90")}, []wire.Joint{{MilliV: d("4"), CurrentA: d("80")}}}},
	{Ask: wire.ExpectedReading.MilliVolts, With: []any{wire.ExpectedReading{Milliohm: d("0.2"), CurrentA: d("90")}}},
	{Ask: wire.HotJoint.Rise, With: []any{hotJoint()}},
	{Ask: wire.HotJoint.Check, With: []any{hotJoint()}, Unset: heatOfJoint},
	{Ask: wire.Bend.LeastRadius, With: []any{wire.Bend{Cable: "armoured", DiameterMM: d("20")}}},
	{Ask: wire.Bend.Check, With: []any{wire.Bend{Cable: "armoured", DiameterMM: d("20")}, d("150")}},
	{Ask: wire.Busbar.Guess, With: []any{wire.Busbar{WidthMM: d("20"), ThicknessMM: d("5")}}},
	{Ask: wire.AircraftBundle.GreatestCurrent, With: []any{wire.AircraftBundle{FreeAirA: d("40"), Wires: 7, LoadingPercent: d("50"), AltitudeM: some("9000")}}},
	{Ask: wire.HarnessCurrent, With: []any{d("20"), []wire.HarnessWires{{Wires: 5, CurrentA: d("10")}}}},
	{Ask: wire.AircraftWire.Temperature, With: []any{wire.AircraftWire{AmbientC: some("50"), InsulationC: d("150"), CurrentA: d("10"), GreatestA: d("30")}}},
	{Ask: wire.ParallelBank.TakeOff, With: []any{inARow(3, "0.1"), 1, 3}},
	{Ask: wire.ParallelBank.EvenTakeOff, With: []any{inARow(3, "0.1")}},
	{Ask: wire.Network.Solve, With: []any{van()}, Unset: drawn, Any: named},
	{Ask: wire.Network.Fault, With: []any{van(), "busbar", d("5")}, Any: both(named, workingtest.Keys{"loads.node": "a fault leaves the loads out"}), Unset: workingtest.Keys{
		"fault_milliohm": "0 is a bolted fault, the greatest there is", "sources.return": drawn["sources.return"],
		"loads": "a fault leaves the loads out", "branches": "a source's own post needs none",
	}},
	{Ask: wire.Solution.With, With: []any{solution, branchesOf(van())}},
	{Ask: wire.Solution.Ladder, With: []any{solution, "inverter"}},
	{Ask: wire.Solution.LoadLadder, With: []any{solution, "inverter"}},
	{Ask: wire.Solution.LoadCheck, With: []any{solution, "inverter"}, Unset: workingtest.Keys{
		"sources.at_limit": "a copy: the solution remembers what was found", "loads.below_trip": "a copy: the solution remembers what was found",
	}},
}

var heatOfJoint = workingtest.Keys{"ampacity.terminal_ampacity_a": "heat flows along the whole cable"}

func hotJoint() wire.HotJoint {
	return wire.HotJoint{Milliohm: d("0.2"), CurrentA: d("90"), Ampacity: anAmpacity, AreaMM2: d("16"), TimeS: some("30")}
}

func aCode() wire.CodeDrop {
	return wire.CodeDrop{CurrentA: d("18"), LengthM: d("6.5"), AreaMM2: d("10"), Constant: european().Drop.Constant}
}

// inHand is a cable whose length or current is wanted.
func inHand() wire.Sizing {
	s := fridge()
	s.Lay.Size = feeder().Size
	return s
}

func branchesOf(n wire.Network) (milliohm []decimal.Decimal) {
	for _, b := range n.Branches {
		milliohm = append(milliohm, b.Milliohm)
	}
	return milliohm
}

// TestLaws holds every function of the package to the laws of the library.
func TestLaws(t *testing.T) { workingtest.Laws(t, questions) }
