package rules

import (
	"cmp"
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
)

// Judge asks the rules, and sorts the findings by danger.
func Judge(m *facts.Facts, asked []Rule) ([]Finding, error) {
	var all []Finding
	for _, r := range asked {
		found, err := r.judge(m)
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			f.Check = tellable(m, f.Check)
			f.Title = r.title
			f.Danger, f.Rank = cmp.Or(f.Danger, r.danger), rankOf(r.Id)
			all = append(all, f)
		}
	}
	sortFindings(all)
	return all, nil
}

// rankOf is the place of a rule in the order of danger, 1 first.
func rankOf(id string) int {
	return 1 + slices.IndexFunc(Rules, func(r Rule) bool { return r.Id == id })
}
