package tables

import (
	"errors"
	"fmt"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Adiabatic is the constant k of the adiabatic equation for one conductor and
// insulation, and the temperatures that it holds between.
type Adiabatic struct {
	K        working.Figure  `json:"adiabatic_constant"` // A√s/mm²
	InitialC decimal.Decimal `json:"initial_c"`
	FinalC   decimal.Decimal `json:"final_c"`
}

type adiabaticRow struct {
	conductor, use, insulation string
	over, to                   decimal.NullDecimal // area in mm²
	adiabatic                  Adiabatic
}

func (a adiabaticRow) holdsFor(areaMM2 decimal.Decimal) bool {
	return (!a.over.Valid || areaMM2.GreaterThan(a.over.Decimal)) && (!a.to.Valid || areaMM2.LessThanOrEqual(a.to.Decimal))
}

var adiabaticRows = load("adiabatic-k", func(r *record) adiabaticRow {
	return adiabaticRow{
		r.text("conductor"), r.text("use"), r.text("insulation"), r.optional("area_over_mm2"), r.optional("area_to_mm2"),
		Adiabatic{
			r.figure("k_a_sqrt_s_per_mm2", "A√s/mm²", r.text("conductor"), r.text("insulation")),
			r.number("initial_c"), r.number("final_c"),
		},
	}
})

var adiabaticLive = indexed("conductor", where(adiabaticRows, func(a adiabaticRow) bool { return a.use == "live" }),
	func(a adiabaticRow) string { return a.conductor })

var _ = also("insulation", where(adiabaticRows, func(a adiabaticRow) bool { return a.use == "live" }),
	func(a adiabaticRow) string { return a.insulation })

// AdiabaticOf returns the constant of a live conductor: "copper", "PVC 70 C".
// [Names] lists both kinds, "conductor" and "insulation". An insulation without a
// row for the conductor or its area is [ErrNotListed]: it has no verdict. Area
// above 0 to 10 000 mm².
func AdiabaticOf(conductor, insulation string, areaMM2 decimal.Decimal) (Adiabatic, error) {
	rows, err := adiabaticLive().of(conductor)
	if err := errors.Join(err, working.Above("area_mm2", areaMM2, 0, 10_000)); err != nil {
		return Adiabatic{}, err
	}
	if rows, err = named(rows, "insulation", insulation, func(a adiabaticRow) string { return a.insulation }); err != nil {
		return Adiabatic{}, err
	}
	for _, a := range rows {
		if a.holdsFor(areaMM2) {
			return a.adiabatic, nil
		}
	}
	return Adiabatic{}, fmt.Errorf("constant k of %s in %s with %s mm2: %w", conductor, insulation, areaMM2, ErrNotListed)
}
