package installation_test

import (
	"testing"

	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire/installation"
)

const (
	aName    = "a name is whatever the caller calls it"
	aHandle  = "a solved installation remembers what it needs"
	stands   = "empty is the common return"
	firstOne = "0 is the first case"
	ordinary = "empty is as it usually stands"
)

var (
	solved = must(craft().Solve())
	first  = must(solved.Case(0))
	atBus  = installation.End{Circuit: "bus to fridge", Node: "bus"}
)

var questions = []workingtest.Question{
	{Ask: installation.Installation.Solve, With: []any{craft()}, Unset: workingtest.Keys{
		"circuits.joints_milliohm": "a run may have no contacts worth counting", "circuits.parallel_cables": "0 is one cable, the side that loses more",
		"circuits.switch": "none is always closed", "circuits.sections.conductor.grouped_conductors": "0 is two conductors a circuit",
		"batteries.return": stands, "sources.return": stands, "loads.return": stands,
		"sources.fed_at": "empty is fed from outside", "ampacity_rule": "a set may list no ampacities: each circuit says so in Missing", "states": "each thing is judged at its own limit", "states.loads": "a state may charge alone", "states.sources": "a state may live off batteries", "batteries": "sources alone feed as well",
	}, Any: workingtest.Keys{"circuits.name": aName, "circuits.from_node": aName, "circuits.to_node": aName, "batteries.name": aName, "sources.name": aName, "loads.name": aName, "states.name": aName}},
	{Ask: (*installation.Solved).Cases, With: []any{solved}, Unset: workingtest.Keys{"receiver": "what nothing solved has no cases"}},
	{Ask: (*installation.Solved).Circuit, With: []any{solved, "bus to fridge"}},
	{Ask: (*installation.Solved).Currents, With: []any{solved, "bus to fridge"}},
	{Ask: (*installation.Solved).Volts, With: []any{solved, "fridge"}},
	{Ask: (*installation.Solved).Case, With: []any{solved, 0}, Unset: workingtest.Keys{"index": firstOne}},
	{Ask: (*installation.Solved).Ask, With: []any{solved, asked(), surge()}, Unset: workingtest.Keys{
		"kind": "0 is a normal case", "sources": "a state may live off batteries", "loads": "a state may charge alone", "name": "it is said of what fails alone",
		"fuller": ordinary, "battery_missing": ordinary, "new_battery": ordinary, "starting": ordinary, "alone": ordinary, "open": ordinary, "closed": ordinary, "at_limit_of": ordinary,
	}, Any: workingtest.Keys{"name": aName}},
	{Ask: (*installation.CaseResult).CollapsedAt, With: []any{first}},
	{Ask: (*installation.CaseResult).Voltage, With: []any{first, "fridge"}},
	{Ask: (*installation.CaseResult).Current, With: []any{first, "bus to fridge"}},
	{Ask: (*installation.CaseResult).Given, With: []any{first, "A"}},
	{Ask: (*installation.CaseResult).Drawn, With: []any{first, "fridge"}},
	{Ask: (*installation.CaseResult).CheckVoltage, With: []any{first, "fridge", some("10.5")}},
	{Ask: (*installation.CaseResult).Ladder, With: []any{first, "fridge"}},
	{Ask: (*installation.Solved).GreatestFault, With: []any{solved, "bus"}},
	{Ask: (*installation.Solved).ThroughEnd, With: []any{solved, atBus}},
	{Ask: (*installation.Solved).LeastFault, With: []any{solved, atBus, "fridge"}},
	{Ask: (*installation.Solved).FedFrom, With: []any{solved, atBus, fuses()}, Unset: workingtest.Keys{"devices": "there may be none"}},
	{Ask: (*installation.Solved).Closing, With: []any{solved, "starter battery to bus"}},
	{Ask: (*installation.Solved).Between, With: []any{solved, "fridge", "A"}},
	{Ask: (*installation.Solved).Live, With: []any{solved, []string{"starter battery to bus"}}, Unset: workingtest.Keys{"open": "with every switch closed"}},
	{Ask: (*installation.Solved).With, With: []any{solved, thicker()}, Unset: workingtest.Keys{
		"joints_milliohm": "a run may have no contacts worth counting", "parallel_cables": "0 is one cable, the side that loses more",
		"sections.conductor.grouped_conductors": "0 is two conductors a circuit", "switch": "none is always closed",
	}},
}

// TestLaws holds every function of the package to the laws of the library.
func TestLaws(t *testing.T) { workingtest.Laws(t, questions) }

// TestIndex holds the package comment to its index of questions.
func TestIndex(t *testing.T) { workingtest.Index(t) }
