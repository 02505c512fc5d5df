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
	Size    tables.Size     `json:"size,omitzero"`
	RatingA decimal.Decimal `json:"rating_a"`
	SetName string          `json:"rules"` // of the rule set, to name it where it is silent
}

const smallTitle = "the device is within the cap for a small conductor"

// Check judges the rating against the cap of a rule set:
//
//	P23  I_n ≤ I_cap
//
// A size that the set does not name has no cap, and the rule does not apply.
// Rating above 0 to 10 000 A. Sources: those of [tables.SmallConductors].
func (s SmallWire) Check(r tables.DeviceRule) (working.Check, error) {
	limit, capped := r.Cap(s.Size)
	if err := errors.Join(s.check(), stated("rating_cap_a", limit, 0, 10_000)); err != nil {
		return working.Check{}, err
	}
	switch {
	case len(r.BySize) == 0:
		return notApplicable("P23", smallTitle, silence(s.SetName, "a cap of the device by the size of its conductor")), nil
	case !capped:
		return notApplicable("P23", smallTitle, silence(s.SetName, "a cap of the device on "+s.Size.String())), nil
	}
	var w working.Working
	w.Given("I_n", s.RatingA)
	w.LookUp("I_cap", limit)
	return w.Check("P23", smallTitle, "I_n", "I_cap"), nil
}

func (s SmallWire) check() error {
	var none error
	if s.Size == (tables.Size{}) {
		none = &working.InputError{Field: "size", Got: "unset", Want: "the size of the conductor"}
	}
	return errors.Join(none, working.Above("rating_a", s.RatingA, 0, 10_000))
}
