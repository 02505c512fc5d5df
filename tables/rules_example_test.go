package tables_test

import (
	"fmt"

	"example.org/extralow/tables"
)

func ExampleRuleSets() {
	for _, r := range tables.RuleSets() {
		fmt.Printf("%-19s %s\n", r.Key, r.Applies)
	}
	// Output:
	// european            caravans, motor caravans and work vehicles
	// iso-craft           boats up to 24 m
	// us-boat             boats with petrol engines for propulsion or power
	// us-voluntary-craft  boats
	// us-rv               recreational vehicles and park trailers
	// au-nz               caravans and other connectable vehicles
}

func ExampleRuleSetOf() {
	r, err := tables.RuleSetOf("us-boat")
	fmt.Println(r.Name, r.Device.OfAmpacity.Value, r.Drop.Critical.Stated(), err)
	_, err = tables.RuleSetOf("moon")
	fmt.Println(err)
	// Output:
	// US boats with petrol engines (33 CFR 183) 1.5 false <nil>
	// rules is "moon": want one of european, iso-craft, us-boat, us-voluntary-craft, us-rv, au-nz
}

// The limit of 0.2 V for a charge line is one at 12 V; at 24 V the set is silent.
func ExampleRuleSet_At() {
	for _, volts := range []string{"12", "24"} {
		limit := european().At(number(volts)).Drop.Charge
		fmt.Println(volts, "V:", limit.Value, limit.Unit, limit.Stated())
	}
	// Output:
	// 12 V: 0.2 V true
	// 24 V: 0  false
}

// A boat judged by the rules of caravans sees a yardstick, no law.
func ExampleRuleSet_Yardstick() {
	fmt.Println(european().Yardstick("boat"), european().Yardstick("trailer"))
	// Output:
	// true false
}
