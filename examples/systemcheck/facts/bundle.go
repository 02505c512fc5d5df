package facts

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// bundle is what a run carries where its rule set derates no cables that lie
// together: with the factors of the strictest set that does, for ampacities of the
// same system of sizes. Copper that others heat is hot under whatever set.
type bundle struct {
	Set string // whose factors they are; "" where the rule set has its own, or nothing lies beside the run

	grouping string // their table
	wire.Ampacity
	One wire.Ampacity // of one cable
}

func (r *Run) bundled(set tables.RuleSet) (bundle, error) {
	var strictest bundle
	if r.NoAmps != nil || set.Ampacity.Grouping != "" || r.conductor.Grouped < 2 {
		return strictest, nil
	}
	for _, other := range derating(set) {
		rule := set.Ampacity
		rule.Grouping = other.Ampacity.Grouping
		one, err := r.conductor.Ampacity(rule)
		if err != nil {
			return strictest, err
		}
		a, err := r.together(one)
		if err != nil {
			return strictest, err
		}
		if strictest.Set == "" || a.AmpacityA.LessThan(strictest.AmpacityA) {
			strictest = bundle{other.Name, rule.Grouping, a, one}
		}
	}
	return strictest, nil
}

// derating lists the sets with factors for grouping on ampacities of the same
// system of sizes.
func derating(set tables.RuleSet) []tables.RuleSet {
	return slices.DeleteFunc(tables.RuleSets(), func(s tables.RuleSet) bool {
		return s.Ampacity.Grouping == "" || (len(s.Ampacity.Gauge) > 0) != (len(set.Ampacity.Gauge) > 0)
	})
}

// Overall is what a run carries, whatever its set says by name.
func (r *Run) Overall() wire.Ampacity {
	if r.Bundle.Set != "" {
		return r.Bundle.Ampacity
	}
	return r.Ampacity
}

// carriedOverall is the lesser of what a run carries by name and overall.
func (r *Run) carriedOverall() decimal.Decimal {
	if r.Bundle.Set == "" {
		return r.Carried()
	}
	return decimal.Max(r.Bundle.AmpacityA, Least)
}
