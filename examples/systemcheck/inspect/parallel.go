package inspect

import (
	"errors"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// count is how many cables lie side by side in a run.
func (r *run) count() int {
	if r.Cables == nil {
		return 1
	}
	return whole(r.Cables.Count)
}

// sharing is how many of them share the current evenly. Of cables that are not
// alike one alone is counted on, for amperes as for volts.
func (r *run) sharing() int {
	if r.Cables == nil || !r.Cables.Identical {
		return 1
	}
	return r.count()
}

// together is the ampacity of the cables that share the current, as if they
// were one.
func (r *run) together(one wire.Ampacity) (wire.Ampacity, error) {
	if r.noAmps != nil || r.sharing() == 1 {
		return one, nil
	}
	return one.InParallel(r.sharing())
}

const parallelText = "its cables lie in parallel: see P24"

// guardsAll asks of each device on cables in parallel whether it protects every
// one of them.
func guardsAll(m *model) ([]Finding, error) {
	var all []Finding
	for _, e := range m.ends() {
		if e.device == nil || e.Cables == nil {
			continue
		}
		c, err := m.guardsEach(e)
		if err != nil {
			return nil, working.In(e.path, err)
		}
		all = append(all, Finding{Check: c, Where: e.where(), Path: e.path, RuleSet: m.set.Name})
	}
	if len(all) == 0 {
		all = notHere("P24", "the circuits", "circuits", "no cables lie in parallel behind a device")
	}
	return all, nil
}

func (m *model) guardsEach(e end) (working.Check, error) {
	switch {
	case errors.Is(e.noAmps, tables.ErrOutside):
		return working.Check{ID: "P24", Silent: "the air is too hot for the cable: see W01"}, nil
	case e.noAmps != nil:
		return working.Check{ID: "P24", Missing: noAmpacityText}, nil
	}
	one := e.one
	if e.bundle.set != "" { // they lie together, whatever the set says of that
		one = e.bundle.one
	}
	checks, err := protect.Parallel{
		Cables: e.count(), AmpacityA: decimal.Max(one.AmpacityA, least), Identical: e.Cables.Identical,
		RatingA: e.device.RatingA, SetName: m.set.Name, From: one.Working,
	}.Checks(m.set.Device)
	if err != nil {
		return working.Check{}, err
	}
	return checks[len(checks)-1], nil // overall, where the set alone is the laxer
}

// notHere is the one finding of a rule that has nothing to judge in this job.
func notHere(id, where, path, why string) []Finding {
	return []Finding{{Where: where, Path: path, Check: working.Check{ID: id, Silent: why}}}
}
