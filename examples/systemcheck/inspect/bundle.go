package inspect

import (
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// bundle is what a run carries where its rule set derates no cables that lie
// together: with the factors of the strictest set that does, for ampacities of the
// same system of sizes. Copper that others heat is hot under whatever set.
type bundle struct {
	set string // whose factors they are; "" where the rule set has its own, or nothing lies beside the run
	wire.Ampacity
	one wire.Ampacity // of one cable
}

func (r *run) bundled(set tables.RuleSet) (bundle, error) {
	var strictest bundle
	if r.noAmps != nil || set.Ampacity.Grouping != "" || r.conductor.Grouped < 2 {
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
		if strictest.set == "" || a.AmpacityA.LessThan(strictest.AmpacityA) {
			strictest = bundle{other.Name, a, one}
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

// overall is what a run carries, whatever its set says by name.
func (r *run) overall() wire.Ampacity {
	if r.bundle.set != "" {
		return r.bundle.Ampacity
	}
	return r.ampacity
}

// carriesBundled compares the current of a run among others with what it carries
// overall.
func (r *run) carriesBundled() Finding {
	w := working.Start(r.bundle.Working)
	w.Given("I", r.designA)
	return Finding{Check: w.Check("W01", "", "I", "I_z"), Where: r.Name + ", overall", Path: r.path, RuleSet: r.bundle.set, Source: w[0].Source, Corner: r.worst}
}

// carriedOverall is the lesser of what a run carries by name and overall.
func (r *run) carriedOverall() decimal.Decimal {
	if r.bundle.set == "" {
		return r.carried()
	}
	return decimal.Max(r.bundle.AmpacityA, least)
}
