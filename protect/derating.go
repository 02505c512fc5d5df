package protect

import (
	"cmp"
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// DeratedCurrent is the current that a device may carry in an ambient.
type DeratedCurrent struct {
	CurrentA decimal.Decimal `json:"carries_a"`
	Working  working.Working `json:"working,omitempty"`
}

// Carries returns what the device may carry in its own ambient:
//
//	I_d = C_d × I_n   [A]
//
// C_d takes the next hotter row of the family's table, or the slope that it
// states. Few families have one: without it the answer is
// [tables.ErrNotListed], and the maker must be asked. Ambient -40 to 150 °C,
// rating above 0 to 10 000 A. Sources: the table named in the line; most are
// practice and no clause of a standard.
func (d Device) Carries(ambientC decimal.Decimal) (DeratedCurrent, error) {
	err := errors.Join(
		working.Above("rating_a", d.RatingA, 0, 10_000),
		working.Between("device_ambient_c", ambientC, -40, 150),
	)
	if err != nil {
		return DeratedCurrent{}, err
	}
	factor, err := tables.DeviceDerating(d.Family, d.RatingA, ambientC)
	if errors.Is(err, tables.ErrNotListed) {
		_, unlisted := tables.FamilyOf(d.Family)
		err = cmp.Or(unlisted, err)
	}
	if err != nil {
		return DeratedCurrent{}, err
	}
	var w working.Working
	rating := w.Given("I_n", d.RatingA)
	w.Given("T_d", ambientC)
	a := DeratedCurrent{CurrentA: w.Calc("I_d", "C_d × I_n", w.LookUp("C_d", factor).Mul(rating), sum)}
	a.Working = slices.Clip(w)
	return a, nil
}
