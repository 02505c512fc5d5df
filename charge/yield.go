package charge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// SolarCharge is what a controller gives a battery.
type SolarCharge struct {
	CurrentA decimal.Decimal `json:"charge_a"`
	Working  working.Working `json:"working"`
}

// Tracking returns the charging current through a controller that seeks the
// module's greatest power:
//
//	I_mppt = η_s × P_m ÷ U_bat   [A], to 0.0001
//
// Power 0 to 100 000 W, battery above 0 to 100 V, efficiency above 0 to 1. The
// definition of efficiency.
func Tracking(powerW, batteryV, efficiency decimal.Decimal) (SolarCharge, error) {
	err := errors.Join(
		working.Between("module_now_w", powerW, 0, 100_000), working.Above("charging_v", batteryV, 0, 100),
		working.Above("source_efficiency", efficiency, 0, 1),
	)
	if err != nil {
		return SolarCharge{}, err
	}
	var w working.Working
	p, u, η := w.Given("P_m", powerW), w.Given("U_bat", batteryV), w.Given("η_s", efficiency)
	i := w.Calc("I_mppt", "η_s × P_m ÷ U_bat", η.Mul(p).DivRound(u, 4), definition)
	return SolarCharge{i, slices.Clip(w)}, nil
}

// Series returns the charging current through a controller that only switches
// the module on to the battery (pulse width): the module's own at its greatest
// power, whatever the battery's voltage:
//
//	I_pwm = P_m ÷ U_mp   [A], to 0.0001
//
// A battery above the module's working voltage is an error: little or nothing
// flows. Bounds as for [Tracking]. Common practice.
func (m Module) Series(powerW, batteryV decimal.Decimal) (SolarCharge, error) {
	err := errors.Join(
		working.Between("module_now_w", powerW, 0, 100_000), working.Above("working_v", m.WorkingV, 0, 1500),
		working.Above("charging_v", batteryV, 0, 100),
	)
	if err == nil && batteryV.GreaterThan(m.WorkingV) {
		err = &working.InputError{Field: "charging_v", Got: batteryV.String(), Want: "at most working_v, " + m.WorkingV.String() + ", behind a series controller"}
	}
	if err != nil {
		return SolarCharge{}, err
	}
	w := working.Start(m.From)
	p, u := w.Given("P_m", powerW), w.Given("U_mp", m.WorkingV)
	i := w.Calc("I_pwm", "P_m ÷ U_mp", p.DivRound(u, 4), cite.Practice.At("series controller", cite.CommonPractice))
	return SolarCharge{i, slices.Clip(w)}, nil
}

// Losses are the losses of a system together.
type Losses struct {
	Percent decimal.Decimal `json:"losses_percent"`
	Working working.Working `json:"working"`
}

// CombinedLosses returns losses together, each taken of what the ones before
// leave:
//
//	l_sys = 100 × (1 − (1 − l.1 ÷ 100) × (1 − l.2 ÷ 100) ...)   [%], to 0.0001
//
// [tables.SystemLosses] has the usual ones. At most 50 losses, each 0 to 100 %.
// Source: PVWatts.
func CombinedLosses(percent ...decimal.Decimal) (Losses, error) {
	errs := []error{working.Between("losses", count(len(percent)), 1, 50)}
	for i, p := range percent[:min(len(percent), 50)] {
		errs = append(errs, working.Between(fmt.Sprintf("losses[%d]", i), p, 0, 100))
	}
	if err := errors.Join(errs...); err != nil {
		return Losses{}, err
	}
	var w working.Working
	var factors []string
	left := one
	for i, p := range percent {
		symbol := fmt.Sprintf("l.%d", i+1)
		left = left.Mul(one.Sub(w.Given(symbol, p).Shift(-2)))
		factors = append(factors, "(1 − "+symbol+" ÷ 100)")
	}
	v := w.Calc("l_sys", "100 × (1 − "+strings.Join(factors, " × ")+")", hundred.Mul(one.Sub(left)).Round(4), cite.PVWatts.At("system losses", cite.SecondHand))
	return Losses{v, slices.Clip(w)}, nil
}

// SolarYield is a module and what stands between it and the battery, on a mean day.
type SolarYield struct {
	Module        Module              `json:"module"`
	SunKWhPerM2   decimal.Decimal     `json:"sun_kwh_per_m2"` // on the module; kWh/m² is hours at 1000 W/m²
	DayCellC      decimal.Decimal     `json:"day_cell_c"`
	LossesPercent decimal.NullDecimal `json:"losses_percent"`    // shading, dirt, wires; [CombinedLosses]; has to be stated
	Efficiency    decimal.Decimal     `json:"source_efficiency"` // of the controller
	Tracking      bool                `json:"tracking"`          // the controller seeks the module's greatest power; else it is a series one, which wastes the voltage above the battery's
	BatteryV      decimal.NullDecimal `json:"charging_v"`        // behind a series controller
	From          working.Working     `json:"from,omitempty"`    // the lines that gave any of it
}

// SolarDay is what the sun gives in a day.
type SolarDay struct {
	EnergyWh decimal.Decimal `json:"solar_wh"`
	Working  working.Working `json:"working"`
}

// Day returns the energy of a mean day at the battery:
//
//	E_pv = P_stc × H_d × (1 + γ_P ÷ 100 × (T_day − 25)) × (1 − l_sys ÷ 100) × η_s × k_pwm   [Wh], to 0.1
//
// k_pwm = U_bat ÷ U_mp for a series controller, with U_bat what the battery leaves each
// of several modules in series; else it is left out. It is what
// the sun offers: a full battery takes less. Radiation 0 to 15 kWh/m², cells -60
// to 120 °C, losses 0 to 100 %, stated where they are nought too. Source: PVWatts.
func (y SolarYield) Day() (SolarDay, error) {
	if err := y.check(); err != nil {
		return SolarDay{}, err
	}
	w := working.Start(y.From)
	p, h := w.Given("P_stc", y.Module.PowerW), w.Given("H_d", y.SunKWhPerM2)
	γ, t := w.Given("γ_P", y.Module.PowerPercentPerC), w.Given("T_day", y.DayCellC)
	l, η := w.Given("l_sys", y.LossesPercent.Decimal), w.Given("η_s", y.Efficiency)
	formula := "P_stc × H_d × (1 + γ_P ÷ 100 × (T_day − 25)) × (1 − l_sys ÷ 100) × η_s"
	e := p.Mul(h).Mul(one.Add(γ.Shift(-2).Mul(t.Sub(roomC)))).Mul(one.Sub(l.Shift(-2))).Mul(η)
	if !y.Tracking {
		b, u := w.Given("U_bat", y.BatteryV.Decimal), w.Given("U_mp", y.Module.WorkingV)
		share := w.Calc("k_pwm", "U_bat ÷ U_mp", b.DivRound(u, 4), cite.Practice.At("series controller", cite.CommonPractice))
		e, formula = e.Mul(share), formula+" × k_pwm"
	}
	w.Calc("E_pv", formula, e.Round(1), cite.PVWatts.At("module model", cite.SecondHand))
	return SolarDay{e.Round(1), slices.Clip(w)}, nil
}

func (y SolarYield) check() error {
	errs := []error{
		y.Module.checkPower(),
		working.Between("sun_kwh_per_m2", y.SunKWhPerM2, 0, 15), working.Between("day_cell_c", y.DayCellC, -60, 120),
		demanded("losses_percent", y.LossesPercent, 0, 100), working.Above("source_efficiency", y.Efficiency, 0, 1),
	}
	if !y.Tracking {
		errs = append(errs, working.Above("charging_v", y.BatteryV.Decimal, 0, 100), working.Above("working_v", y.Module.WorkingV, 0, 1500))
		if errors.Join(errs...) == nil && y.BatteryV.Decimal.GreaterThan(y.Module.WorkingV) {
			errs = append(errs, &working.InputError{Field: "charging_v", Got: y.BatteryV.Decimal.String(), Want: "at most working_v, " + y.Module.WorkingV.String()})
		}
	}
	return errors.Join(errs...)
}
