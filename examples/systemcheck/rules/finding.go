package rules

import (
	"cmp"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
)

// Finding is one rule's answer about one thing of the job.
type Finding struct {
	working.Check
	Rule    string // the id of the rule that was asked; the check may have a further one of it
	Where   string // the thing, and which end of it: "fridge, at panel"
	Circuit string // the run that it is about, "" where it is about none
	Node    string // the end of that, or where the thing stands
	Month   int    // of the year, where it is about one
	Path    string // its place in the job file: "circuits[4]"
	RuleSet string // whose rule it is; "" where it is physics or the article's own limit
	Source  cite.Source
	Case    string // the state and case in which it is at its worst
	Danger  string // what a failure would do
	Grade   Grade  // what it would come to: that of the rule, and danger where it stops what safety hangs on
	Forbids Act    // what that forbids, where it is a danger
	Advice  string // in place of the rule's
	Remedy  string // the smallest change that passes
	Rank    int    // order of danger among those of its grade, 1 first
}

// sortFindings puts failures first, then what cannot be told, each by its
// grade and by danger.
func sortFindings(all []Finding) {
	order := map[working.Verdict]int{working.Fails: 1, working.CannotTell: 2, working.Passes: 3, working.NotApplicable: 4}
	slices.SortStableFunc(all, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(order[a.Verdict()], order[b.Verdict()]), cmp.Compare(b.Grade, a.Grade), cmp.Compare(a.Rank, b.Rank), cmp.Compare(a.Path, b.Path))
	})
}
