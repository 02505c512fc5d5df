// Package rules judges a job. A rule stands in the file of its subject: everything
// that is known about it in one [Rule], and its clause, a short function of the facts
// that returns findings.
//
// The id of a rule is permanent. It is that of the package which judges; B17 to B19,
// B21, B22, B23, C10, C14, P26, P27, P30 to P36 and W07 to W10 are of these rules alone.
package rules

import (
	"cmp"
	"slices"
)

// every rule, in order of danger.
var every = inOrder(slices.Concat(
	ofBank,
	ofBay,
	ofCharging,
	ofClearing,
	ofCollapse,
	ofContacts,
	ofDevices,
	ofDrain,
	ofEngine,
	ofIgnition,
	ofIsolator,
	ofJoints,
	ofLeads,
	ofLink,
	ofLost,
	ofOrder,
	ofParallel,
	ofParked,
	ofRatings,
	ofReturns,
	ofSafeguards,
	ofSelectivity,
	ofSetting,
	ofStall,
	ofSun,
	ofSupply,
	ofWiring,
))

func inOrder(all []Rule) []Rule {
	slices.SortFunc(all, func(a, b Rule) int { return cmp.Compare(a.Rank, b.Rank) })
	return all
}

// rankOf is the place of a rule in the order of danger, 1 first.
func rankOf(r Rule) int {
	return 1 + slices.IndexFunc(every, func(x Rule) bool { return x.ID == r.ID })
}

// Rules returns every rule, in order of danger: what burns, what trips, what starves.
func Rules() []Rule { return slices.Clone(every) }

// Find returns the rule with an id, or that answers under it; of two the one with
// the greater danger.
func Find(id string) (Rule, bool) {
	i := slices.IndexFunc(every, func(r Rule) bool { return r.ID == id })
	if i < 0 {
		i = slices.IndexFunc(every, func(r Rule) bool { return slices.Contains(r.Also, id) })
	}
	if i < 0 {
		return Rule{}, false
	}
	return every[i], true
}
