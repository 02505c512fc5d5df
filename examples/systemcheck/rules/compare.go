package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

// ofSets are the rules whose figures a rule set states.
var ofSets = []string{"P02", "W01", "P06", "W03", "P23", "P03", "W02"}

// SetVerdict is how a job fares under one rule set, by its own figures alone.
type SetVerdict struct {
	Set       tables.RuleSet
	Yardstick bool // the set is not written for this craft
	Rules     []RuleVerdict
}

// RuleVerdict is one rule under one set.
type RuleVerdict struct {
	ID, Title             string
	Fails, Passes, Silent int
	Tightest              Finding // zero where the set is silent
}

// Compare judges a job under every rule set, each on its own: figures of one
// never stand in for another's silence.
func Compare(j job.Job) ([]SetVerdict, error) {
	if err := j.Check(); err != nil {
		return nil, err
	}
	var all []SetVerdict
	for _, set := range tables.RuleSets() {
		j.RuleSet = set.Key
		m, err := facts.New(j)
		if err != nil {
			return nil, err
		}
		v := SetVerdict{Set: set, Yardstick: set.Yardstick(j.Craft)}
		for _, id := range ofSets {
			r := Rules[rankOf(id)-1]
			found, err := Judge(m, []Rule{r})
			if err != nil {
				return nil, err
			}
			v.Rules = append(v.Rules, sum(r, found, set.Name))
		}
		all = append(all, v)
	}
	return all, nil
}

func sum(r Rule, found []Finding, set string) RuleVerdict {
	v := RuleVerdict{ID: r.Id, Title: r.title}
	for _, f := range found {
		if f.RuleSet != "" && f.RuleSet != set {
			continue // the verdict overall is not by this set's own figures
		}
		switch f.Verdict() {
		case working.Fails:
			v.Fails++
		case working.Passes:
			v.Passes++
		default:
			v.Silent++
			continue
		}
		if v.Tightest.ID == "" || tighter(f, v.Tightest) {
			v.Tightest = f
		}
	}
	return v
}

// tighter compares two findings of one rule: a failure first, then less margin.
func tighter(a, b Finding) bool {
	i, ok := working.Strictest(b.Check, a.Check)
	return ok && i == 1
}

// StrictestSet names the set that is strictest by a rule: whose tightest finding
// has the least margin. It is not ok where every set is silent.
func StrictestSet(all []SetVerdict, id string) (SetVerdict, RuleVerdict, bool) {
	var checks []working.Check
	rules := make([]RuleVerdict, len(all))
	for i, v := range all {
		k := slices.IndexFunc(v.Rules, func(r RuleVerdict) bool { return r.ID == id })
		rules[i] = v.Rules[k]
		checks = append(checks, rules[i].Tightest.Check)
	}
	i, ok := working.Strictest(checks...)
	return all[i], rules[i], ok
}
