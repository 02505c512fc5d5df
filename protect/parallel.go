package protect

import (
	"errors"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Parallel is a run of cables in parallel behind one device.
type Parallel struct {
	Cables    int             `json:"cables"`
	AmpacityA decimal.Decimal `json:"ampacity_a"` // of the weakest cable
	Identical bool            `json:"identical"`  // same size, length, route and joints, no branch on the way
	RatingA   decimal.Decimal `json:"rating_a"`
	SetName   string          `json:"rules"`          // of the rule set, to name it where it is silent
	From      working.Working `json:"from,omitempty"` // the lines that gave the ampacity
}

const (
	parallelTitle        = "one device protects the cables in parallel"
	parallelOverallTitle = "one device protects the cables in parallel, whatever the rule set allows"
)

// Checks judges one device for all of the cables:
//
//	P24  I_n ≤ k_n × n_cb × I_z    of identical cables, by the rule set
//	     I_n ≤ k_n × I_z           of others
//	P24  the same with k_n = 1, whatever the set allows
//
// in this order; the second stands there where the rule set alone would allow more
// than the ampacity, or names no upper side. Cables that are not identical do not
// share evenly, and the device must protect each by itself, or each needs its own. A
// broken leg leaves its load to the others, which the device then no longer protects:
// have each leg tested, or guard each. 2 to 10 cables, ampacity and rating above 0 to
// 10 000 A. Sources: IEC 60364-4-43 clause 433.4, from memory, where the rule set is
// one of IEC; that identical cables share evenly is a deduction for the others.
func (p Parallel) Checks(r tables.DeviceRule) ([]working.Check, error) {
	err := errors.Join(
		working.Between("cables", decimal.NewFromInt(int64(p.Cables)), 2, 10),
		working.Above("ampacity_a", p.AmpacityA, 0, 10_000),
		working.Above("rating_a", p.RatingA, 0, 10_000),
		checkRule(r),
	)
	if err != nil {
		return nil, err
	}
	bySet := notApplicable("P24", parallelTitle, silence(p.SetName, "the rating of a device against its conductor"))
	if r.OfAmpacity.Stated() {
		bySet = p.by(parallelTitle, r.OfAmpacity)
	}
	if lax(r) {
		return []working.Check{bySet, p.by(parallelOverallTitle, overall())}, nil
	}
	return []working.Check{bySet}, nil
}

// by judges the device by one ratio to the ampacity.
func (p Parallel) by(title string, of working.Figure) working.Check {
	w := working.Start(p.From)
	w.Given("I_n", p.RatingA)
	limit := w.LookUp("k_n", of).Mul(w.Given("I_z", p.AmpacityA))
	if p.Identical {
		limit = limit.Mul(w.Given("n_cb", decimal.NewFromInt(int64(p.Cables))))
		w.Calc("I_nz", "k_n × n_cb × I_z", limit, together(of))
	} else {
		w.Calc("I_nz", "k_n × I_z", limit, of.Source.Document())
	}
	return w.Check("P24", title, "I_n", "I_nz")
}

// together is the source of the rule that identical cables count as one.
func together(of working.Figure) cite.Source {
	if law := cite.IEC6036443.At("433.4", cite.FromMemory); law.Key == of.Source.Key {
		return law
	}
	return cite.Practice.At("identical cables in parallel share evenly: deduced, no clause of the rule set", cite.CommonPractice)
}
