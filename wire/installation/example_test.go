package installation_test

import (
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"example.org/extralow/wire/installation"
	"github.com/shopspring/decimal"
)

var (
	d    = decimal.RequireFromString
	some = func(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }
)

// must keeps the examples short: a program handles the error.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// run is a circuit of flexible 90 °C cable, clipped in 40 °C, with 1 mΩ of contacts.
func run(from, to, lengthM, size string) installation.Circuit {
	return installation.Circuit{
		Name: from + " to " + to, From: from, To: to, JointsMilliohm: d("1"),
		Sections: []wire.Section{{LengthM: d(lengthM), Conductor: wire.Conductor{
			Size: must(tables.ParseSize(size)), Class: tables.Flexible, PlainCopper: true, Method: "C", InsulationC: d("90"), AmbientC: some("40"), Grouped: 1,
		}}},
	}
}

// van is two batteries, a charger, a fridge and a heater on one bus.
func van() installation.Installation {
	a := installation.Battery{Name: "A", Bank: "house", FullV: d("13.4"), EmptyV: d("12.4"), LeastV: d("12.4"), LowMilliohm: d("3"), HighMilliohm: d("8")}
	b := a
	b.Name = "B"
	return installation.Installation{
		Rule: must(tables.RuleSetOf("european")).Ampacity,
		Circuits: []installation.Circuit{
			run("A", "bus", "0.6", "35 mm2"), run("B", "bus", "0.6", "35 mm2"), run("charger", "bus", "1.5", "10 mm2"),
			run("bus", "fridge", "4", "4 mm2"), run("bus", "heater", "3", "6 mm2"),
		},
		Batteries: []installation.Battery{a, b},
		Sources:   []installation.Source{{Name: "charger", HeldV: d("14.4"), GreatestA: d("30"), LimitsItself: true}},
		Loads: []installation.Load{
			{Name: "fridge", Node: "fridge", Takes: installation.Demand{PowerW: some("60")}, Starts: installation.Demand{PowerW: some("180")}},
			{Name: "heater", Node: "heater", Takes: installation.Demand{Ohm: some("0.6")}},
		},
		States: []installation.State{
			{Name: "parked", Loads: []installation.LoadUse{{Load: "fridge"}, {Load: "heater"}}},
			{Name: "mains", Sources: []installation.Supply{{Source: "charger"}}, Loads: []installation.LoadUse{{Load: "fridge"}}},
		},
	}
}

// amps prints a current, or none.
func amps(a decimal.NullDecimal, places int32) string {
	if !a.Valid {
		return "none"
	}
	return a.Decimal.StringFixed(places) + " A"
}

// What flows in each circuit, how hot it gets and what its device still sees.
func Example() {
	solved, err := van().Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range van().Circuits {
		x := must(solved.Circuit(c.Name))
		least := must(solved.LeastFault(installation.End{Circuit: c.Name, Node: c.From}, c.To))
		fmt.Printf("%s: %s (%s), %s °C; one lost %s; least fault %s\n", c.Name, amps(x.DesignA, 2), x.DesignCase,
			x.ConductorC.Decimal, amps(x.LostA, 2), amps(least.FaultA, 0))
	}
	// Output:
	// A to bus: 16.66 A (parked, A new among aged), 41.8 °C; one lost 30.00 A; least fault 1259 A
	// B to bus: 16.66 A (parked, B new among aged), 41.8 °C; one lost 30.00 A; least fault 1259 A
	// charger to bus: 30.00 A (mains, with its sources), 48.3 °C; one lost 30.00 A; least fault none
	// bus to fridge: 4.99 A (parked, on the batteries alone), 40.7 °C; one lost 5.04 A; least fault 202 A
	// bus to heater: 21.43 A (parked, on full batteries), 48 °C; one lost 19.54 A; least fault 344 A
}

// tablesRule is the ampacity rule of these examples.
func tablesRule() (tables.AmpacityRule, error) {
	set, err := tables.RuleSetOf("european")
	return set.Ampacity, err
}
