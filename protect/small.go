package protect

import (
	"errors"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// SmallWire is a small conductor and its device, under a code that caps the
// rating by the size whatever the ampacity.
type SmallWire struct {
	Size    tables.Size     `json:"size"`
	RatingA decimal.Decimal `json:"rating_a"`
}

const smallTitle = "the device is within the cap for a small conductor"

// Check judges the rating against the cap of one code:
//
//	P23  I_n ≤ I_cap
//
// The code is "nec-small" (NFPA 70 clause 240.4(D): AWG 14, 12 and 10) or
// "nec-rv" (articles 551 and 552 at 12 V: AWG 18 to 10). A size that it does
// not name has no cap, and the rule does not apply. Rating above 0 to 10 000 A.
func (s SmallWire) Check(code string) (working.Check, error) {
	err := errors.Join(
		working.Above("rating_a", s.RatingA, 0, 10_000),
		working.OneOf("code", code, "nec-small", "nec-rv"),
	)
	if err != nil {
		return working.Check{}, err
	}
	limit, err := tables.SmallConductorCap(code, s.Size)
	if errors.Is(err, tables.ErrNotListed) {
		return notApplicable("P23", smallTitle, "the code caps no device for this size"), nil
	}
	if err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.Given("I_n", s.RatingA)
	w.LookUp("I_cap", limit)
	return w.Check("P23", smallTitle, "I_n", "I_cap"), nil
}
