package charge

import (
	"errors"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ArrayDay is a mean day of one module, and the array of such modules behind
// one controller.
type ArrayDay struct {
	EnergyWh  decimal.Decimal `json:"solar_wh"` // of one module: [SolarYield.Day]
	InSeries  int             `json:"in_series"`
	Strings   int             `json:"strings"`
	ChargingV decimal.Decimal `json:"charging_v"`     // that the controller holds: the battery takes no more amperes than at this
	LimitA    decimal.Decimal `json:"limit_a"`        // greatest output of the controller
	From      working.Working `json:"from,omitempty"` // the lines that gave the energy
}

// ArrayCharge is what an array puts into a battery in a day.
type ArrayCharge struct {
	ChargeAh decimal.Decimal `json:"solar_ah"`
	Working  working.Working `json:"working"`
}

// sineHours are the hours at its peak that hold as much as half a sine of twelve
// hours, 24 ÷ π, rounded down.
var sineHours = decimal.RequireFromString("7.639")

// Charge returns the charge of the day:
//
//	Q_pv = min(E_pv × n_ser × n_par, 7.639 × I_max × U_bat) ÷ U_bat   [Ah], rounded down to 0.01
//
// The day is taken as half a sine of twelve hours, which holds 24 ÷ π hours of
// its peak; a controller that is too small holds the whole of it down, not the
// top alone, which is on the safe side. It is what the sun offers: a full
// battery takes less. Energy 0 to 100 000 Wh, modules 1 to 100 each way, battery
// above 0 to 100 V, controller 0 to 10 000 A. Source: arithmetic, and for the
// limit the integral of the sine.
func (d ArrayDay) Charge() (ArrayCharge, error) {
	if err := errors.Join(
		working.Between("solar_wh", d.EnergyWh, 0, 100_000),
		working.Between("in_series", count(d.InSeries), 1, 100), working.Between("strings", count(d.Strings), 1, 100),
		working.Above("charging_v", d.ChargingV, 0, 100), working.Between("limit_a", d.LimitA, 0, 10_000),
	); err != nil {
		return ArrayCharge{}, err
	}
	w := working.Start(d.From)
	e, u, limit := w.Given("E_pv", d.EnergyWh), w.Given("U_bat", d.ChargingV), w.Given("I_max", d.LimitA)
	modules := w.Given("n_ser", count(d.InSeries)).Mul(w.Given("n_par", count(d.Strings)))
	energy := least(e.Mul(modules), sineHours.Mul(limit).Mul(u)) // both over U_bat
	q := w.CalcDown("Q_pv", "min(E_pv × n_ser × n_par, 7.639 × I_max × U_bat) ÷ U_bat", energy, u, 2, cite.Arithmetic.At("half a sine of twelve hours", cite.Published))
	return ArrayCharge{ChargeAh: q, Working: slices.Clip(w)}, nil
}
