package battery

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Gassing is a battery that is charged in a box or a compartment.
type Gassing struct {
	Chemistry  tables.Chemistry    `json:"chemistry"`
	Cells      int                 `json:"cells"` // in series; 1 to 200
	CapacityAh decimal.Decimal     `json:"capacity_ah"`
	Charge     string              `json:"charge"`  // "float" or "boost": the highest stage that the charger has
	Charger    string              `json:"charger"` // in place of Charge: a traction charger, [tables.TractionGasCurrent]
	GasA       decimal.NullDecimal `json:"gas_a"`   // current that makes gas, where the charger's is known and higher; 0 to 1000
	From       working.Working     `json:"from,omitempty"`
}

// Ventilation is the air that keeps hydrogen harmless. It is for lead-acid and
// nickel-cadmium; a sealed lithium battery makes no gas in service, and what it
// vents in failure is no matter of air flow: Silent says so.
type Ventilation struct {
	FlowM3H    decimal.NullDecimal `json:"flow_m3_per_h"`
	OpeningCM2 decimal.NullDecimal `json:"opening_cm2"` // each of inlet and outlet
	Silent     string              `json:"silent,omitempty"`
	Working    working.Working     `json:"working"`
}

// Ventilation returns the air flow and the natural openings:
//
//	Q_v = k_v × n_c × I_gas × C ÷ 1000   [m³/h], I_gas in mA for each Ah
//	Q_v = k_v × n_c × I_gas × C ÷ 100    [m³/h], I_gas in A for each 100 Ah
//	A_v = k_A × Q_v                      [cm²], for inlet and outlet each
//
// k_v is 0.05 m³ for each ampere-hour, which dilutes hydrogen to 4 % with five
// times that in reserve; a newer copy of IEC 62485-3 has 0.055, for gas at 25 °C.
// k_A is 28 cm² for each m³/h and wants the inlet low, the outlet high, both to
// the open. Where GasA is given, n_c × GasA stands in place of n_c × I_gas × C
// if it is more. Cells 1 to 200, capacity above 0 to 10 000 Ah. Sources: IEC
// 62485-2 clause 8.2 and 8.3, IEC 62485-3.
func (g Gassing) Ventilation() (Ventilation, error) {
	if err := g.check(); err != nil {
		return Ventilation{}, err
	}
	f, per, err := g.gasCurrent()
	if errors.Is(err, tables.ErrNotListed) {
		return Ventilation{Silent: "no gas in service is known of " + string(g.Chemistry) + ": its maker says what its vents need"}, nil
	}
	if err != nil {
		return Ventilation{}, err
	}
	constant, err := flowConstant()
	if err != nil {
		return Ventilation{}, err
	}
	w := working.Start(g.From)
	n, c := w.Given("n_c", whole(g.Cells)), w.Given("C", g.CapacityAh)
	symbol := "I_gas"
	if per == "100" {
		symbol = "I_g100"
	}
	i := w.LookUp(symbol, f)
	amps := w.Calc("I_gs", symbol+" × C ÷ "+per, i.Mul(c).Shift(map[string]int32{"1000": -3, "100": -2}[per]), constant.Source)
	if g.GasA.Valid {
		real := w.Given("I_gr", g.GasA.Decimal)
		amps = w.Calc("I_gs", "max(I_gs, I_gr)", decimal.Max(amps, real), constant.Source)
	}
	k := w.LookUp("k_v", constant)
	flow := w.Calc("Q_v", "k_v × n_c × I_gs", k.Mul(n).Mul(amps), constant.Source)
	return opened(w, flow)
}

// flowConstant is the air for each ampere-hour of gassing in one cell.
func flowConstant() (working.Figure, error) {
	all, err := tables.GasConstants("flow_constant")
	if err != nil {
		return working.Figure{}, err
	}
	return all[0], nil
}

// opened goes on from the air flow to the openings.
func opened(w working.Working, flow decimal.Decimal) (Ventilation, error) {
	areas, err := tables.GasConstants("opening_area_per_flow")
	if err != nil {
		return Ventilation{}, err
	}
	area := w.Calc("A_v", "k_A × Q_v", w.LookUp("k_A", areas[0]).Mul(flow), areas[0].Source)
	return Ventilation{FlowM3H: decimal.NewNullDecimal(flow), OpeningCM2: decimal.NewNullDecimal(area), Working: slices.Clip(w)}, nil
}

// gasCurrent returns the figure of the table and what it is divided by.
func (g Gassing) gasCurrent() (f working.Figure, per string, err error) {
	if g.Charger != "" {
		f, err = tables.TractionGasCurrent(g.Chemistry, g.Charger)
		return f, "100", err
	}
	f, err = tables.GasCurrent(g.Chemistry, g.Charge)
	return f, "1000", err
}

// CheckOpening judges the free area of the smaller of both openings: B08.
// Opening fitted 0 to 100 000 cm².
func (g Gassing) CheckOpening(fittedCM2 decimal.Decimal) (working.Check, error) {
	v, err := g.Ventilation()
	return checkOpening(v, err, fittedCM2)
}

func checkOpening(v Ventilation, err error, fittedCM2 decimal.Decimal) (working.Check, error) {
	if err = errors.Join(err, working.Between("fitted_cm2", fittedCM2, 0, 100_000)); err != nil {
		return working.Check{}, err
	}
	const id, title = "B08", "Opening for ventilation"
	if v.Silent != "" {
		return working.Check{ID: id, Title: title, Silent: v.Silent}, nil
	}
	w := working.Start(v.Working)
	w.Given("A_vf", fittedCM2)
	return w.Check(id, title, "A_v", "A_vf"), nil
}

func (g Gassing) check() error {
	faults := []error{
		g.Chemistry.Check("chemistry"),
		working.Between("cells", whole(g.Cells), 1, 200),
		fromTo("capacity_ah", g.CapacityAh, "0.1", 10_000),
		betweenIf("gas_a", g.GasA, 0, 1000),
	}
	switch {
	case (g.Charge == "") == (g.Charger == ""):
		faults = append(faults, &working.InputError{Field: "charge", Got: fmt.Sprintf("%q beside charger %q", short60(g.Charge), short60(g.Charger)), Want: "one of both"})
	case g.Charge != "":
		faults = append(faults, working.OneOf("charge", g.Charge, "float", "boost"))
	}
	if g.Charger != "" {
		_, err := tables.TractionGasCurrent("lead-acid flooded", g.Charger)
		faults = append(faults, err)
	}
	return errors.Join(faults...)
}

func short60(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "..."
	}
	return s
}

// VentOpening is a round hole of an area.
type VentOpening struct {
	DiameterCM decimal.Decimal `json:"diameter_cm"`
	Working    working.Working `json:"working"`
}

// RoundOpening returns the diameter of a round hole with that free area:
//
//	d_o = sqrt(4 × A_v ÷ π)   [cm], rounded up to 0.01
//
// Area 0.01 to 100 000 cm². A grille or a mesh takes part of it: allow for
// its free share. Source: geometry.
func RoundOpening(areaCM2 decimal.Decimal) (VentOpening, error) {
	if err := fromTo("opening_cm2", areaCM2, "0.01", 100_000); err != nil {
		return VentOpening{}, err
	}
	var w working.Working
	a := w.Given("A_v", areaCM2)
	x, err := fixed("opening_cm2", math.Sqrt(4*a.InexactFloat64()/math.Pi), 12)
	if err != nil {
		return VentOpening{}, err
	}
	d := w.CalcUp("d_o", "sqrt(4 × A_v ÷ pi)", x, one, 2, arithmetic)
	return VentOpening{DiameterCM: d, Working: slices.Clip(w)}, nil
}

// HydrogenRoom is a room with batteries on float charge, by the manual of the
// US Department of Defense.
type HydrogenRoom struct {
	FloatAPer100Ah    decimal.Decimal `json:"float_a_per_100ah"`
	TemperatureFactor decimal.Decimal `json:"float_factor"` // of the float current: 2 for each 15 °F above 77 °F
	CapacityAh        decimal.Decimal `json:"capacity_ah"`
	Cells             int             `json:"cells"`                  // 1 to 500
	LimitPercent      decimal.Decimal `json:"hydrogen_limit_percent"` // of the volume: 1 to 4
	RoomM3            decimal.Decimal `json:"room_m3"`
	From              working.Working `json:"from,omitempty"`
}

// HydrogenAir is the air that keeps such a room below its limit.
type HydrogenAir struct {
	HydrogenM3H decimal.Decimal `json:"hydrogen_m3_per_h"`
	FlowM3H     decimal.Decimal `json:"flow_m3_per_h"`
	ChangesPerH decimal.Decimal `json:"air_changes_per_h"`
	Working     working.Working `json:"working"`
}

// cubicFoot in m³.
var cubicFoot = decimal.RequireFromString("0.028316846592")

// Air returns hydrogen, air flow and air changes of the room:
//
//	H_v = I_100 × k_fl ÷ 100 × C × k_H × n_c   [m³/h], to 0.000001
//	Q_v = H_v × 100 ÷ p_H                      [m³/h], rounded up to 0.0001
//	n_v = Q_v ÷ V_r                            [1/h], to 0.0001
//
// k_H is the hydrogen of an ampere-hour in one cell, 0.016 ft³. Float current above 0
// to 10 A for each 100 Ah, factor above 0 to 20, limit 0.1 to 4 %,
// room 0.01 to 10 000 m³. Source: UFC 3-410-04N, 8-3.1.
func (r HydrogenRoom) Air() (HydrogenAir, error) {
	if err := errors.Join(
		working.Above("float_a_per_100ah", r.FloatAPer100Ah, 0, 10),
		working.Above("float_factor", r.TemperatureFactor, 0, 20),
		working.Above("capacity_ah", r.CapacityAh, 0, 10_000),
		working.Between("cells", whole(r.Cells), 1, 500),
		fromTo("hydrogen_limit_percent", r.LimitPercent, "0.1", 4),
		fromTo("room_m3", r.RoomM3, "0.01", 10_000),
	); err != nil {
		return HydrogenAir{}, err
	}
	all, err := tables.GasConstants("hydrogen_per_ah")
	if err != nil {
		return HydrogenAir{}, err
	}
	feet := all[len(all)-1]
	feet.Value, feet.Note = feet.Value.Mul(cubicFoot), "printed as "+feet.Value.String()+" ft³"
	w := working.Start(r.From)
	law := cite.UFC341004.At("8-3.1", cite.Published)
	i, k := w.Given("I_100", r.FloatAPer100Ah), w.Given("k_fl", r.TemperatureFactor)
	c, n := w.Given("C", r.CapacityAh), w.Given("n_c", whole(r.Cells))
	per := w.LookUp("k_H", feet)
	var a HydrogenAir
	a.HydrogenM3H = w.Calc("H_v", "I_100 × k_fl ÷ 100 × C × k_H × n_c", i.Mul(k).Mul(c).Mul(per).Mul(n).Shift(-2).Round(6), law)
	limit, room := w.Given("p_H", r.LimitPercent), w.Given("V_r", r.RoomM3)
	a.FlowM3H = w.CalcUp("Q_v", "H_v × 100 ÷ p_H", a.HydrogenM3H.Mul(hundred), limit, 4, law)
	a.ChangesPerH = w.Calc("n_v", "Q_v ÷ V_r", a.FlowM3H.DivRound(room, 4), law)
	a.Working = slices.Clip(w)
	return a, nil
}

// Hydrogen is the gas of an overcharge.
type Hydrogen struct {
	M3PerAh decimal.Decimal `json:"hydrogen_m3_per_ah"`
	Working working.Working `json:"working"`
}

// HydrogenPerAh returns the hydrogen that one ampere-hour of overcharge sets
// free in one cell, at a gas temperature and sea-level pressure:
//
//	k_H = 3600 × 8.314462618 × (T_b + 273.15) ÷ (2 × 96485.33212 × 101325)   [m³]
//
// to 0.00000001. It is the whole of the gas when the battery is full. Gas
// temperature -40 to 80 °C. Source: Faraday's law with the ideal gas.
func HydrogenPerAh(atC decimal.Decimal) (Hydrogen, error) {
	if err := working.Between("battery_c", atC, -40, 80); err != nil {
		return Hydrogen{}, err
	}
	var w working.Working
	t := w.Given("T_b", atC)
	above := decimal.RequireFromString("8.314462618").Mul(t.Add(decimal.RequireFromString("273.15"))).Mul(decimal.NewFromInt(3600))
	below := decimal.RequireFromString("96485.33212").Mul(decimal.NewFromInt(2 * 101325))
	v := w.Calc("k_H", "3600 × 8.314462618 × (T_b + 273.15) ÷ (2 × 96485.33212 × 101325)", above.DivRound(below, 8), cite.Faraday.At("", cite.Published))
	return Hydrogen{M3PerAh: v, Working: slices.Clip(w)}, nil
}

// Dilution is what the flow constant of a code is made of.
type Dilution struct {
	LimitPercent    decimal.Decimal `json:"hydrogen_limit_percent"` // hydrogen in air that must not be reached
	HydrogenM3PerAh decimal.Decimal `json:"hydrogen_m3_per_ah"`
	SafetyFactor    decimal.Decimal `json:"dilution_safety"`
}

// FlowConstant is the air for each ampere-hour of gassing in one cell.
type FlowConstant struct {
	Dilution decimal.Decimal `json:"dilution"` // parts of air to one of hydrogen
	M3PerAh  decimal.Decimal `json:"flow_m3_per_ah"`
	Working  working.Working `json:"working"`
}

// Constant returns the parts of air to one of hydrogen and the flow constant:
//
//	v   = (100 − p_H) ÷ p_H
//	k_v = v × k_H × k_sf   [m³]
//
// v to 0.0001. IEC 62485-2 takes 4 %, 0.00042 m³ and 5 and rounds 0.0504 to 0.05.
// Limit 0.1 to 4 %, hydrogen above 0 to 1 m³, factor above 0 to 20. Source:
// IEC 62485-2 clause 8.2.
func (d Dilution) Constant() (FlowConstant, error) {
	if err := errors.Join(
		fromTo("hydrogen_limit_percent", d.LimitPercent, "0.1", 4),
		working.Above("hydrogen_m3_per_ah", d.HydrogenM3PerAh, 0, 1),
		working.Above("dilution_safety", d.SafetyFactor, 0, 20),
	); err != nil {
		return FlowConstant{}, err
	}
	var w working.Working
	law := cite.IEC624852.At("8.2", cite.Published)
	p, h, s := w.Given("p_H", d.LimitPercent), w.Given("k_H", d.HydrogenM3PerAh), w.Given("k_sf", d.SafetyFactor)
	v := w.Calc("v", "(100 − p_H) ÷ p_H", hundred.Sub(p).DivRound(p, 4), law)
	k := w.Calc("k_v", "v × k_H × k_sf", v.Mul(h).Mul(s), law)
	return FlowConstant{Dilution: v, M3PerAh: k, Working: slices.Clip(w)}, nil
}
