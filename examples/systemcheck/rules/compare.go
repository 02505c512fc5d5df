package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
)

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
		for _, r := range ofSets() {
			found, err := Ask(m, r)
			if err != nil {
				return nil, err
			}
			v.Rules = append(v.Rules, sum(r, found, set.Name))
		}
		all = append(all, v)
	}
	return all, nil
}

// ofSets are the rules whose figures a rule set states.
func ofSets() []Rule { return slices.DeleteFunc(Rules(), func(r Rule) bool { return !r.OfSet }) }

func sum(r Rule, found []Finding, set string) RuleVerdict {
	v := RuleVerdict{ID: r.ID, Title: r.Title}
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
// has the least margin. It is not ok where every set is silent, or none was asked.
func StrictestSet(all []SetVerdict, id string) (SetVerdict, RuleVerdict, bool) {
	var checks []working.Check
	var sets []SetVerdict
	var verdicts []RuleVerdict
	for _, v := range all {
		if k := slices.IndexFunc(v.Rules, func(r RuleVerdict) bool { return r.ID == id }); k >= 0 {
			sets, verdicts, checks = append(sets, v), append(verdicts, v.Rules[k]), append(checks, v.Rules[k].Tightest.Check)
		}
	}
	i, ok := working.Strictest(checks...)
	if !ok {
		return SetVerdict{}, RuleVerdict{}, false
	}
	return sets[i], verdicts[i], true
}
