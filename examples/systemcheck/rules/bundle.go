package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working"
)

// carriesBundled compares the current of a run among others with what it carries
// overall.
func carriesBundled(r *facts.Run) Finding {
	w := working.Start(r.Bundle.Working)
	w.Given("I", r.DesignA)
	return Finding{Check: w.Check("W01", "", "I", "I_z"), Where: r.Name + ", overall", Path: r.Path, RuleSet: r.Bundle.Set, Source: w[0].Source, Corner: r.Worst}
}
