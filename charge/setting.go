package charge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Setting is the voltage that a charger, a solar controller or an alternator is
// set to hold.
type Setting struct {
	HeldV      decimal.Decimal     `json:"held_v"`           // the highest of an ordinary charge, at 25 °C
	LeastV     decimal.NullDecimal `json:"held_least_v"`     // of an alternator that varies it; unset: it does not
	EqualiseV  decimal.NullDecimal `json:"held_equalise_v"`  // to which it rises at times by itself; unset: never
	MilliVPerC decimal.NullDecimal `json:"held_mv_per_c"`    // of the whole voltage; unset: it suits the battery's
	ToleranceV decimal.NullDecimal `json:"held_tolerance_v"` // unset: none is stated, and none is added
}

// VoltageWindow is a battery as the voltage of a charger meets it.
type VoltageWindow struct {
	Chemistry tables.Chemistry    `json:"chemistry"`
	Cells     int                 `json:"cells"`             // in series
	LeastV    decimal.NullDecimal `json:"charge_least_v"`    // of its data sheet; unset: the tables serve
	GreatestV decimal.NullDecimal `json:"charge_greatest_v"` // of its data sheet; unset: the tables serve
	CutOutV   decimal.NullDecimal `json:"charge_cut_out_v"`  // its management unit opens; unset: not known
	ColdestC  decimal.NullDecimal `json:"coldest_c"`         // while it is charged; has to be stated
	HottestC  decimal.NullDecimal `json:"hottest_c"`         // while it is charged; has to be stated
	From      working.Working     `json:"from,omitempty"`    // the lines that gave any of it
}

// Checks checks (C11) that a source's voltage suits the battery: the highest,
// the lowest and, where it equalises, that voltage.
//
//	U_h2 = U_h + k_h × (T_b − 25) ÷ 1000 + U_tol   [V], at the coldest
//	U_h1 = U_h + k_h × (T_b − 25) ÷ 1000           [V], at the hottest
//	U_h2 ≤ U_b2 = n_c × U_z2
//	U_h1 > U_fl = n_c × U_zf
//
// U_b2 is the battery's own highest charging voltage, else the highest of the
// tables at 25 °C for the chemistry; a voltage above it drives water out of
// lead-acid and harms lithium. Flooded cells are topped up with water, and may be
// charged with all that is less than equalising: 2.5 V a cell, from memory (NAVEDTRA
// 14113 ends a charge at 2.4 to 2.6 V, IEC 60095-1 recharges at 14.8 V and more). U_h1 is held against the battery's own lowest
// charging voltage (U_b1 ≤ U_h1) where that is given. The tables' lowest
// absorption voltage is no such limit: sources differ by more than a vehicle's
// regulator does, and somewhat less charges too, more slowly. But at the float
// voltage, which only makes good the self-discharge (DIN 41773), a bank that is
// used is never full. A voltage for equalising is held against that of the
// tables, which have one for flooded batteries alone; else against U_b2.
//
// The temperature counts where the source follows it (k_h) and the battery asks
// for no such thing (the tables' coefficient is nought, as for lithium): set for
// lead-acid, a charger raises its voltage in the cold. Between sources and
// lead-acid coefficients differ by three times; there 25 °C decides. The tolerance
// is upwards: it counts at the highest and for equalising.
//
// Cells 1 to 400, voltages above 0 to 1000 V, k_h -4000 to 0 mV/°C, temperatures
// -60 to 100 °C. Source: the tables' charging voltages, common practice in part.
func (v VoltageWindow) Checks(s Setting) ([]working.Check, error) {
	if err := errors.Join(v.check(), s.check()); err != nil {
		return nil, err
	}
	follows, err := v.follows(s)
	if err != nil {
		return nil, err
	}
	high, err := v.checkHigh(s, follows)
	if err != nil {
		return nil, err
	}
	low, err := v.checkLow(s, follows)
	if err != nil || !s.EqualiseV.Valid {
		return []working.Check{high, low}, err
	}
	equalise, err := v.checkEqualise(s, follows)
	return []working.Check{high, low, equalise}, err
}

// follows reports whether the source follows a temperature that the battery does
// not ask it to follow.
func (v VoltageWindow) follows(s Setting) (bool, error) {
	if !s.MilliVPerC.Valid {
		return false, nil
	}
	asked, err := tables.Compensations(v.Chemistry)
	if errors.Is(err, tables.ErrNotListed) {
		return false, nil
	}
	return err == nil && asked[0].Slope.Value.IsZero(), err
}

func (v VoltageWindow) checkHigh(s Setting, follows bool) (working.Check, error) {
	w := working.Start(v.From)
	w.Given("U_h", s.HeldV)
	s.atMost(&w, "U_h", s.HeldV, v.ColdestC.Decimal, follows)
	err := v.most(&w)
	return w.Check("C11", "Highest charging voltage", "U_h2", "U_b2"), err
}

func (v VoltageWindow) checkEqualise(s Setting, follows bool) (working.Check, error) {
	w := working.Start(v.From)
	w.Given("U_eq", s.EqualiseV.Decimal)
	s.atMost(&w, "U_eq", s.EqualiseV.Decimal, v.ColdestC.Decimal, follows)
	row, ok := highestVoltage(v.Chemistry, "equalise")
	if !ok {
		err := v.most(&w)
		w.Note("no source has a voltage for equalising it")
		return w.Check("C11", "Equalising voltage", "U_h2", "U_b2"), err
	}
	n, z := w.Given("n_c", count(v.Cells)), w.LookUp("U_z2", row.Greatest)
	w.Calc("U_b2", "n_c × U_z2", n.Mul(z), sums)
	return w.Check("C11", "Equalising voltage", "U_h2", "U_b2"), nil
}

func (v VoltageWindow) checkLow(s Setting, follows bool) (working.Check, error) {
	w := working.Start(v.From)
	volts := s.HeldV
	if s.LeastV.Valid {
		volts = s.LeastV.Decimal
	}
	w.Given("U_h", volts)
	held := s.at(&w, "U_h1", "U_h", volts, v.HottestC.Decimal, follows)
	if v.LeastV.Valid {
		w.LookUp("U_b1", ofDataSheet(v.LeastV.Decimal, "V"))
		return w.Check("C11", "Lowest charging voltage", "U_b1", "U_h1"), nil
	}
	row, ok := highestVoltage(v.Chemistry, "float")
	if !ok {
		return working.Check{}, v.unlisted("charge_least_v")
	}
	n := count(v.Cells)
	if usual, err := lowestVoltage(v.Chemistry, "absorption"); err == nil && held.LessThan(n.Mul(usual.Least.Value)) {
		w.Note("less than the usual " + n.Mul(usual.Least.Value).String() + " V of absorption: it charges slowly")
	}
	z := w.LookUp("U_zf", row.Greatest)
	w.Calc("U_fl", "n_c × U_zf", w.Given("n_c", n).Mul(z), sums)
	c := w.Check("C11", "Lowest charging voltage", "U_fl", "U_h1")
	c.Below = true
	return c, nil
}

// at adds the lines of the source's voltage at a temperature of the battery, or
// at 25 °C where it does not follow it.
func (s Setting) at(w *working.Working, symbol, of string, volts, batteryC decimal.Decimal, follows bool) decimal.Decimal {
	volts, formula := s.warmed(w, of, volts, batteryC, follows)
	return w.Calc(symbol, formula, volts, sums)
}

// atMost adds the same lines with how far the voltage may stray upwards.
func (s Setting) atMost(w *working.Working, of string, volts, batteryC decimal.Decimal, follows bool) {
	volts, formula := s.warmed(w, of, volts, batteryC, follows)
	if s.ToleranceV.Valid {
		volts, formula = volts.Add(w.Given("U_tol", s.ToleranceV.Decimal)), formula+" + U_tol"
	}
	w.Calc("U_h2", formula, volts, sums)
}

// warmed adds what a temperature of the battery changes of a voltage.
func (s Setting) warmed(w *working.Working, of string, volts, batteryC decimal.Decimal, follows bool) (decimal.Decimal, string) {
	if !follows {
		return volts, of
	}
	k, t := w.Given("k_h", s.MilliVPerC.Decimal), w.Given("T_b", batteryC)
	return volts.Add(k.Mul(t.Sub(roomC)).Shift(-3)), of + " + k_h × (T_b − 25) ÷ 1000"
}

// most adds the lines of the battery's highest charging voltage.
func (v VoltageWindow) most(w *working.Working) error {
	if v.GreatestV.Valid {
		w.LookUp("U_b2", ofDataSheet(v.GreatestV.Decimal, "V"))
		return nil
	}
	row, ok := highestVoltage(v.Chemistry, "limit")
	if !ok {
		row, ok = highestVoltage(v.Chemistry, "absorption")
	}
	if !ok {
		return v.unlisted("charge_greatest_v")
	}
	greatest := row.Greatest
	if least, err := lowestVoltage(v.Chemistry, "equalise"); err == nil && least.Least.Value.GreaterThan(greatest.Value) {
		greatest = least.Least
		greatest.Note = fmt.Sprintf("where equalising begins: above %s V a cell it gasses, and wants water now and then", row.Greatest.Value)
	}
	n, z := w.Given("n_c", count(v.Cells)), w.LookUp("U_z2", greatest)
	w.Calc("U_b2", "n_c × U_z2", n.Mul(z), sums)
	return nil
}

func (v VoltageWindow) unlisted(field string) error {
	return &working.InputError{
		Field: field, Got: "unset", Want: "the data sheet's voltage: the tables have none at 25 °C for " + string(v.Chemistry),
	}
}

// highestVoltage returns the row of the tables with the highest voltage of a
// stage at 25 °C, rows for stationary batteries left out.
func highestVoltage(chemistry tables.Chemistry, stage string) (highest tables.CellVoltage, ok bool) {
	rows, err := tables.CellVoltages(chemistry, stage)
	if err != nil {
		return highest, false
	}
	for _, r := range rows {
		if strings.HasPrefix(r.Condition, "stationary") || !r.ReferenceC.Equal(roomC) {
			continue
		}
		if !ok || r.Greatest.Value.GreaterThan(highest.Greatest.Value) {
			highest, ok = r, true
		}
	}
	return highest, ok
}

// CheckClosed checks (C12) that the battery's management unit stays closed while
// the source charges it: the source's own limit must act first.
//
//	U_h2 = max(U_h, U_eq) + k_h × (T_b − 25) ÷ 1000 + U_tol   [V], at the coldest
//	U_h2 < U_ov
//
// A unit that opens under charge takes the battery from the source, and what else
// hangs there sees the source's voltage leap: a load dump where an alternator
// charges. The unit watches single cells; of cells that are not balanced one
// reaches its limit before the whole does, so that a small margin is none. Without
// U_ov the check does not apply. Ranges as for [VoltageWindow.Checks]. Source:
// common practice.
func (v VoltageWindow) CheckClosed(s Setting) (working.Check, error) {
	if err := errors.Join(v.check(), s.check()); err != nil {
		return working.Check{}, err
	}
	title := "Management unit, voltage"
	if !v.CutOutV.Valid {
		return working.Check{ID: "C12", Title: title, Silent: "the voltage at which a management unit opens under charge is not stated"}, nil
	}
	w := working.Start(v.From)
	s.highest(&w, v.ColdestC.Decimal)
	w.LookUp("U_ov", ofDataSheet(v.CutOutV.Decimal, "V"))
	c := w.Check("C12", title, "U_h2", "U_ov")
	c.Below = true
	return c, nil
}

// Highest returns the highest voltage that the source ever holds, with the battery
// at its coldest:
//
//	U_h2 = max(U_h, U_eq) + k_h × (T_b − 25) ÷ 1000 + U_tol   [V]
//
// Everything that stays connected has to bear it. Terms that the setting does not
// state are left out. Temperature -60 to 100 °C; the other ranges as for
// [VoltageWindow.Checks]. Source: arithmetic.
func (s Setting) Highest(coldestC decimal.Decimal) (Voltage, error) {
	if err := errors.Join(s.check(), working.Between("coldest_c", coldestC, -60, 100)); err != nil {
		return Voltage{}, err
	}
	var w working.Working
	v := Voltage{VoltageV: s.highest(&w, coldestC)}
	v.Working = slices.Clip(w)
	return v, nil
}

// highest adds the lines of the highest voltage.
func (s Setting) highest(w *working.Working, coldestC decimal.Decimal) decimal.Decimal {
	volts, formula := w.Given("U_h", s.HeldV), "U_h"
	if s.EqualiseV.Valid {
		volts, formula = greatest(volts, w.Given("U_eq", s.EqualiseV.Decimal)), "max(U_h, U_eq)"
	}
	if s.MilliVPerC.Valid {
		k, t := w.Given("k_h", s.MilliVPerC.Decimal), w.Given("T_b", coldestC)
		volts, formula = volts.Add(k.Mul(t.Sub(roomC)).Shift(-3)), formula+" + k_h × (T_b − 25) ÷ 1000"
	}
	if s.ToleranceV.Valid {
		volts, formula = volts.Add(w.Given("U_tol", s.ToleranceV.Decimal)), formula+" + U_tol"
	}
	return w.Calc("U_h2", formula, volts, sums)
}

func (s Setting) check() error {
	errs := []error{working.Above("held_v", s.HeldV, 0, 1000)}
	for _, o := range []struct {
		field     string
		v         decimal.NullDecimal
		low, high int64
	}{
		{"held_least_v", s.LeastV, 0, 1000}, {"held_equalise_v", s.EqualiseV, 0, 1000},
		{"held_mv_per_c", s.MilliVPerC, -4000, 0}, {"held_tolerance_v", s.ToleranceV, 0, 100},
	} {
		errs = append(errs, checkOptional(o.field, o.v, o.low, o.high))
	}
	return errors.Join(errs...)
}

func (v VoltageWindow) check() error {
	errs := []error{
		v.Chemistry.Check("chemistry"), working.Between("cells", count(v.Cells), 1, 400),
		checkOptional("charge_least_v", v.LeastV, 0, 1000), checkOptional("charge_greatest_v", v.GreatestV, 0, 1000),
		checkOptional("charge_cut_out_v", v.CutOutV, 0, 1000),
		demanded("coldest_c", v.ColdestC, -60, 100), demanded("hottest_c", v.HottestC, -60, 100),
	}
	if errors.Join(errs...) == nil && v.ColdestC.Decimal.GreaterThan(v.HottestC.Decimal) {
		errs = append(errs, &working.InputError{Field: "coldest_c", Got: v.ColdestC.Decimal.String(), Want: "at most hottest_c, " + v.HottestC.Decimal.String()})
	}
	return errors.Join(errs...)
}
