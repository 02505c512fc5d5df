// Package inspect judges a job: it turns the job's model into findings by the
// rules of rules.go. All physics stands in the packages wire, protect, battery
// and charge; here it is only asked for.
package inspect

import (
	"cmp"
	"slices"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
)

// Finding is one rule's answer about one thing of the job.
type Finding struct {
	working.Check
	Where   string // the thing, and which end of it: "fridge, at panel"
	Path    string // its place in the job file: "circuits[4]"
	RuleSet string // whose rule it is; "" where it is physics or the article's own limit
	Source  cite.Source
	Corner  string // the state and case in which it is at its worst
	Danger  string // what a failure would do
	Remedy  string // the smallest change that passes
	Rank    int    // order of danger, 1 first
}

// Report is what an inspection found, most dangerous first.
type Report struct {
	Job      job.Job
	Set      string // the rule set that judged
	Findings []Finding
	Circuits []Circuit // in the order of the job
	Volts    []LoadVolts
	Audit    Audit
	Bank     Bank
	Sizing   Sizing   // the capacity that the published worksheet asks for
	Charging Charging // a day's use put back by each source alone, and by rules of thumb
	Months   []Month  // the worst and the best for the sun
	Assumed  []string // values that the job does not state
	Unjudged []string // what no rule judged, because the job says nothing of it
}

// Count returns how many findings have that verdict.
func (r Report) Count(v working.Verdict) int {
	n := 0
	for _, f := range r.Findings {
		if f.Verdict() == v {
			n++
		}
	}
	return n
}

// Passes reports whether every rule that applies passes.
func (r Report) Passes() bool {
	return r.Count(working.Fails) == 0 && r.Count(working.CannotTell) == 0
}

// sortFindings puts failures first, then what cannot be told, each by danger.
func sortFindings(all []Finding) {
	order := map[working.Verdict]int{working.Fails: 1, working.CannotTell: 2, working.Passes: 3, working.NotApplicable: 4}
	slices.SortStableFunc(all, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(order[a.Verdict()], order[b.Verdict()]), cmp.Compare(a.Rank, b.Rank), cmp.Compare(a.Path, b.Path))
	})
}
