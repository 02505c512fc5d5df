package charge

import (
	"errors"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Module is a photovoltaic module by its data sheet.
type Module struct {
	PowerW           decimal.Decimal     `json:"module_w"`              // above 0 to 100 000
	OpenV            decimal.Decimal     `json:"open_v"`                // above 0 to 1500
	ShortA           decimal.Decimal     `json:"short_circuit_a"`       // above 0 to 100
	WorkingV         decimal.Decimal     `json:"working_v"`             // at its greatest power; above 0 to 1500
	PowerPercentPerC decimal.Decimal     `json:"power_percent_per_c"`   // negative; -1 to 0
	OpenPercentPerC  decimal.NullDecimal `json:"voltage_percent_per_c"` // negative; unset: the table by temperature; -1 to 0
	From             working.Working     `json:"from,omitempty"`        // the lines that gave any of it
}

// ModulePower is what a module gives.
type ModulePower struct {
	PowerW  decimal.Decimal `json:"module_now_w"`
	Working working.Working `json:"working"`
}

// Power returns the module's power:
//
//	P_m = P_stc × G ÷ 1000 × (1 + γ_P ÷ 100 × (T_cell − 25))   [W], to 0.0001
//
// Irradiance 0 to 1500 W/m², cells -60 to 120 °C. Source: PVWatts.
func (m Module) Power(irradianceWPerM2, cellC decimal.Decimal) (ModulePower, error) {
	err := errors.Join(m.checkPower(), working.Between("irradiance_w_per_m2", irradianceWPerM2, 0, 1500), working.Between("cell_c", cellC, -60, 120))
	if err != nil {
		return ModulePower{}, err
	}
	w := working.Start(m.From)
	p, g := w.Given("P_stc", m.PowerW), w.Given("G", irradianceWPerM2)
	γ, t := w.Given("γ_P", m.PowerPercentPerC), w.Given("T_cell", cellC)
	v := p.Mul(g).Shift(-3).Mul(one.Add(γ.Shift(-2).Mul(t.Sub(roomC)))).Round(4)
	w.Calc("P_m", "P_stc × G ÷ 1000 × (1 + γ_P ÷ 100 × (T_cell − 25))", v, cite.PVWatts.At("module model", cite.SecondHand))
	return ModulePower{v, slices.Clip(w)}, nil
}

// ColdString is the voltage of a string of modules in the cold.
type ColdString struct {
	VoltageV decimal.Decimal `json:"cold_v"`
	Working  working.Working `json:"working"`
}

// ColdVoltage returns the open-circuit voltage of modules in series at the
// lowest ambient expected:
//
//	U_cold = n_ser × U_oc × (1 + b_U ÷ 100 × (T_cold − 25))   by the data sheet's coefficient
//	U_cold = n_ser × U_oc × f_oc                              by the table, without one
//
// In series 1 to 50, ambient -60 to 25 °C (-40 by the table). Source: NFPA 70,
// 690.7.
func (m Module) ColdVoltage(lowestC decimal.NullDecimal, inSeries int) (ColdString, error) {
	err := errors.Join(m.checkVoltage(), demanded("least_ambient_c", lowestC, -60, 25), working.Between("in_series", count(inSeries), 1, 50))
	if err != nil {
		return ColdString{}, err
	}
	w := working.Start(m.From)
	n, u, t := w.Given("n_ser", count(inSeries)), w.Given("U_oc", m.OpenV), w.Given("T_cold", lowestC.Decimal)
	if m.OpenPercentPerC.Valid {
		b := w.Given("b_U", m.OpenPercentPerC.Decimal)
		v := n.Mul(u).Mul(one.Add(b.Shift(-2).Mul(t.Sub(roomC))))
		w.Calc("U_cold", "n_ser × U_oc × (1 + b_U ÷ 100 × (T_cold − 25))", v, cite.NFPA70.At("690.7", cite.SecondHand))
		return ColdString{v, slices.Clip(w)}, nil
	}
	factor, err := tables.OpenCircuitFactor(lowestC.Decimal)
	if err != nil {
		return ColdString{}, err
	}
	v := w.Calc("U_cold", "n_ser × U_oc × f_oc", n.Mul(u).Mul(w.LookUp("f_oc", factor)), factor.Source.Document())
	return ColdString{v, slices.Clip(w)}, nil
}

// CheckController checks (C07) that the string's voltage in the cold stays
// within what the controller's input bears: U_cold ≤ U_ctl. A controller once
// overvolted may feed the string's voltage into the battery.
// Voltage of the controller above 0 to 1500 V.
func (c ColdString) CheckController(controllerV decimal.Decimal) (working.Check, error) {
	if err := working.Above("controller_v", controllerV, 0, 1500); err != nil {
		return working.Check{}, err
	}
	if err := stands("cold_v", c.VoltageV, c.Working, "U_cold"); err != nil {
		return working.Check{}, err
	}
	w := working.Start(c.Working)
	w.Given("U_ctl", controllerV)
	return w.Check("C07", "Solar string in the cold", "U_cold", "U_ctl"), nil
}

// SolarCircuit is what the conductors and the device of a solar circuit must
// bear.
type SolarCircuit struct {
	CircuitA decimal.Decimal `json:"solar_circuit_a"`
	DeviceA  decimal.Decimal `json:"solar_device_a"`
	Working  working.Working `json:"working"`
}

// Circuit returns the greatest current of strings in parallel and the least
// rating of conductor and device for it:
//
//	I_pv  = k_sc × n_par × I_sc   [A]
//	I_dev = k_dev × I_pv          [A]
//
// Both factors are 1.25. Strings 1 to 50. Source: NFPA 70, 690.8(A) and (B).
func (m Module) Circuit(strings int) (SolarCircuit, error) {
	err := errors.Join(working.Above("short_circuit_a", m.ShortA, 0, 100), working.Between("strings", count(strings), 1, 50))
	if err != nil {
		return SolarCircuit{}, err
	}
	circuit, err := tables.SolarCurrentFactor("greatest circuit current")
	if err != nil {
		return SolarCircuit{}, err
	}
	device, err := tables.SolarCurrentFactor("conductor and overcurrent device")
	if err != nil {
		return SolarCircuit{}, err
	}
	w := working.Start(m.From)
	i, n := w.Given("I_sc", m.ShortA), w.Given("n_par", count(strings))
	most := w.Calc("I_pv", "k_sc × n_par × I_sc", w.LookUp("k_sc", circuit).Mul(n).Mul(i), circuit.Source)
	least := w.Calc("I_dev", "k_dev × I_pv", w.LookUp("k_dev", device).Mul(most), device.Source)
	return SolarCircuit{most, least, slices.Clip(w)}, nil
}

func (m Module) checkPower() error {
	return errors.Join(working.Above("module_w", m.PowerW, 0, 100_000), checkFalling("power_percent_per_c", m.PowerPercentPerC))
}

// checkFalling checks the change of a module's power with temperature: every module
// gives less when hot.
func checkFalling(field string, v decimal.Decimal) error {
	err := working.Between(field, v, -1, 0)
	if err == nil && v.IsZero() {
		return &working.InputError{Field: field, Got: "0", Want: "-1 to less than 0, off the data sheet"}
	}
	return err
}

func (m Module) checkVoltage() error {
	return errors.Join(working.Above("open_v", m.OpenV, 0, 1500), checkOptional("voltage_percent_per_c", m.OpenPercentPerC, -1, 0))
}
