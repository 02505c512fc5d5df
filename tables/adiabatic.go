package tables

import (
	"fmt"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Adiabatic is the constant k of the adiabatic equation for one conductor and
// insulation, and the temperatures that it holds between.
type Adiabatic struct {
	K        working.Figure // A√s/mm²
	InitialC decimal.Decimal
	FinalC   decimal.Decimal
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

// AdiabaticOf returns the constant of a live conductor: "copper", "PVC 70 C".
// An insulation without a row is [ErrNotListed]: it has no verdict.
func AdiabaticOf(conductor, insulation string, areaMM2 decimal.Decimal) (Adiabatic, error) {
	var have []string
	for _, a := range adiabaticRows() {
		if a.use != "live" || a.conductor != conductor {
			continue
		}
		if a.insulation == insulation && a.holdsFor(areaMM2) {
			return a.adiabatic, nil
		}
		have = append(have, a.insulation)
	}
	return Adiabatic{}, fmt.Errorf("constant k of %s in %q: %w; it has %s", conductor, insulation, ErrNotListed, strings.Join(have, ", "))
}
