package rules

import (
	"errors"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofParallel = []Rule{
	{
		ID: "P24", Title: "One device protects cables in parallel",
		Danger:  "one of the cables takes more than its share and burns, and no device opens",
		Why:     "cables that are not alike do not share evenly, and a broken one leaves its load to the others",
		Sources: []string{"IEC 60364-4-43"},
		Grade:   Dangerous, Rank: 50,
		Changes: Cables | Devices,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Advice:  "guard each cable by itself, or run cables of one length and route",
		Worse: []Growth{
			{"circuits.size", "thinner"}, {"circuits.ambient_c", "+15"}, {"circuits.grouped", "×3"},
			{"circuits.device.rating_a", "×1.6"}, {"circuits.far_device.rating_a", "×1.6"},
		},
		Judge: guardsAll,
	},
}

const parallelText = "its cables lie in parallel: see P24"

// guardsAll asks of each device on cables in parallel whether it protects every
// one of them.
func guardsAll(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, e := range m.Ends() {
		if e.Fitted == nil || e.Cables == nil {
			continue
		}
		c, err := guardsEach(m, e)
		if err != nil {
			return nil, working.In(e.Path, err)
		}
		all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path, RuleSet: m.Set.Name})
	}
	if len(all) == 0 {
		all = notHere("P24", "the circuits", "circuits", "no cables lie in parallel behind a device")
	}
	return all, nil
}

func guardsEach(m *facts.Facts, e facts.End) (working.Check, error) {
	switch {
	case errors.Is(e.NoAmps, tables.ErrOutside):
		return working.Check{ID: "P24", Silent: "the air is too hot for the cable: see W01"}, nil
	case e.NoAmps != nil:
		return working.Check{ID: "P24", Missing: noAmpacityText}, nil
	}
	one := e.One
	if e.Bundle.Set != "" { // they lie together, whatever the set says of that
		one = e.Bundle.One
	}
	checks, err := protect.Parallel{
		Cables: e.Count(), AmpacityA: decimal.Max(one.AmpacityA, facts.Least), Identical: e.Cables.Identical,
		RatingA: e.Fitted.RatingA, SetName: m.Set.Name, From: one.Working,
	}.Checks(m.Set.Device)
	if err != nil {
		return working.Check{}, err
	}
	return checks[len(checks)-1], nil // overall, where the set alone is the laxer
}

// notHere is the one finding of a rule that has nothing to judge in this job.
func notHere(id, where, path, why string) []Finding {
	return []Finding{{Where: where, Path: path, Check: working.Check{ID: id, Silent: why}}}
}
