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
	SetName   string          `json:"rules"` // of the rule set, to name it where it is silent
	From      working.Working `json:"-"`     // the lines that gave the ampacity
}

const parallelTitle = "one device protects the cables in parallel"

// Check judges one device for all of the cables:
//
//	P24  I_n ≤ k_n × n_cb × I_z    of identical cables
//	     I_n ≤ k_n × I_z          of others
//
// Cables that are not identical do not share evenly, and the device must
// protect each by itself, or each needs its own. A broken leg leaves its load to
// the others, which the device then no longer protects: have each leg tested, or
// guard each. 2 to 10 cables, ampacity and rating above 0 to 10 000 A.
// Source: IEC 60364-4-43 clause 433.4, from memory.
func (p Parallel) Check(r tables.DeviceRule) (working.Check, error) {
	err := errors.Join(
		working.Between("cables", decimal.NewFromInt(int64(p.Cables)), 2, 10),
		working.Above("ampacity_a", p.AmpacityA, 0, 10_000),
		working.Above("rating_a", p.RatingA, 0, 10_000),
	)
	switch {
	case err != nil:
		return working.Check{}, err
	case !r.OfAmpacity.Stated():
		return notApplicable("P24", parallelTitle, silence(p.SetName, "the rating of a device against its conductor")), nil
	}
	w := working.Start(p.From)
	w.Given("I_n", p.RatingA)
	ampacity := w.Given("I_z", p.AmpacityA)
	limit := w.LookUp("k_n", r.OfAmpacity).Mul(ampacity)
	formula := "k_n × I_z"
	if p.Identical {
		limit = limit.Mul(w.Given("n_cb", decimal.NewFromInt(int64(p.Cables))))
		formula = "k_n × n_cb × I_z"
	}
	w.Calc("I_nz", formula, limit, cite.IEC6036443.At("433.4", cite.FromMemory))
	return w.Check("P24", parallelTitle, "I_n", "I_nz"), nil
}
