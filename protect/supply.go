package protect

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ConnectedUnit is a connected unit and the supply that it hangs on.
type ConnectedUnit struct {
	LeastSupplyV    decimal.NullDecimal `json:"least_supply_v"`
	GreatestSupplyV decimal.Decimal     `json:"greatest_supply_v"`
	Code            string              `json:"supply_code"`  // of ISO 16750-2, A to H; empty: the unit's own voltages
	LeastV          decimal.NullDecimal `json:"least_unit_v"` // of its data sheet, in place of the code
	GreatestV       decimal.NullDecimal `json:"greatest_unit_v"`
	From            working.Working     `json:"from,omitempty"` // the lines that gave the supply's voltages
}

const (
	lowTitle  = "the unit works at the lowest supply voltage"
	highTitle = "the unit works at the highest supply voltage"
	dumpTitle = "the unit survives a load dump"
)

// Checks judges the range of the supply against that in which the unit works:
//
//	P17  U_u1 ≤ U_s1
//	P18  U_s2 ≤ U_u2
//
// The range is that of the data sheet, else of the supply-voltage code; without
// either it cannot be told. Voltages 0 to 100 V, those of
// the supply stated, in order, and the highest above 0.
// Source: ISO 16750-2 tables 1 and 2.
func (u ConnectedUnit) Checks() ([]working.Check, error) {
	least, greatest, err := u.works()
	if err = errors.Join(u.check(), err); err != nil {
		return nil, err
	}
	low := working.Start(u.From)
	low.Given("U_s1", u.LeastSupplyV.Decimal)
	high := working.Start(u.From)
	high.Given("U_s2", u.GreatestSupplyV)
	return []working.Check{
		u.side("P17", lowTitle, "U_u1", "U_s1", "U_u1", least, low),
		u.side("P18", highTitle, "U_s2", "U_u2", "U_u2", greatest, high),
	}, nil
}

func (u ConnectedUnit) side(id, title, demand, limit, symbol string, f working.Figure, w working.Working) working.Check {
	if !f.Stated() {
		return cannotTell(id, title, "read the range of supply voltage in the unit's data sheet, or its code of ISO 16750-2", slices.Clip(w))
	}
	w.LookUp(symbol, f)
	return w.Check(id, title, demand, limit)
}

func (u ConnectedUnit) check() error {
	err := errors.Join(
		u.checkLeast(),
		working.Above("greatest_supply_v", u.GreatestSupplyV, 0, 100),
		unsetOr(working.Between, "least_unit_v", u.LeastV, 0, 100),
		unsetOr(working.Between, "greatest_unit_v", u.GreatestV, 0, 100),
	)
	if err == nil && u.GreatestSupplyV.LessThan(u.LeastSupplyV.Decimal) {
		return &working.InputError{Field: "greatest_supply_v", Got: u.GreatestSupplyV.String(), Want: "no less than least_supply_v"}
	}
	return err
}

// checkLeast wants a voltage: nought is that of a supply that collapses.
func (u ConnectedUnit) checkLeast() error {
	if !u.LeastSupplyV.Valid {
		return &working.InputError{Field: "least_supply_v", Got: "unset", Want: "the lowest voltage of the supply, 0 to 100"}
	}
	return working.Between("least_supply_v", u.LeastSupplyV.Decimal, 0, 100)
}

// works returns the range in which the unit works.
func (u ConnectedUnit) works() (least, greatest working.Figure, err error) {
	if u.Code != "" {
		code, err := tables.SupplyCodeOf(u.Code)
		if err != nil {
			return least, greatest, err
		}
		least, greatest = code.Least, code.Greatest
	}
	if u.LeastV.Valid {
		least = dataSheet(u.LeastV.Decimal, "V")
	}
	if u.GreatestV.Valid {
		greatest = dataSheet(u.GreatestV.Decimal, "V")
	}
	return least, greatest, nil
}

// LoadDump is what the supply does when a battery is disconnected while an
// alternator charges it: the voltage leaps until the field has died away.
type LoadDump struct {
	NominalV   decimal.Decimal     `json:"system_v"`        // 12 or 24; above 0 to 100
	Suppressed bool                `json:"suppressed"`      // the alternator clamps it
	SurvivesV  decimal.NullDecimal `json:"unit_survives_v"` // of the unit's data sheet, as a load dump; 0 to 1000
}

const (
	openDump  = "load dump without central suppression, test A"
	clampDump = "load dump with central suppression, test B"
)

// Check judges whether a unit survives the load dump of its supply:
//
//	P19  U_ld ≤ U_us
//
// The transient is the highest of the test: 101 V at 12 V and 202 V at 24 V for
// 40 to 400 ms, or 35 and 58 V where the alternator clamps it. A unit whose data
// sheet says nothing cannot be told. Never open a battery switch while an
// alternator charges, unless its field is switched off first. Nominal 12 or 24
// V, else [tables.ErrNotListed]. Source: ISO 16750-2, load dump.
func (l LoadDump) Check() (working.Check, error) {
	test, parameter := openDump, "Us"
	if l.Suppressed {
		test, parameter = clampDump, "Us*"
	}
	parameters, err := testAt(test, l.NominalV)
	if err = errors.Join(err, unsetOr(working.Between, "unit_survives_v", l.SurvivesV, 0, 1000)); err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.Given("U_n", l.NominalV)
	var volts decimal.Decimal
	for _, p := range parameters {
		if p.Name == parameter {
			volts = w.LookUp("U_ld", p.Greatest)
		}
	}
	if !l.SurvivesV.Valid {
		return cannotTell("P19", dumpTitle, fmt.Sprintf(
			"ask the maker of the unit whether it survives a load dump of %s V, or keep the battery from being disconnected while it is charged", volts), slices.Clip(w)), nil
	}
	w.LookUp("U_us", dataSheet(l.SurvivesV.Decimal, "V"))
	return w.Check("P19", dumpTitle, "U_ld", "U_us"), nil
}

// testAt returns the parameters of a test of ISO 16750-2 at a nominal voltage.
func testAt(test string, nominalV decimal.Decimal) ([]tables.TestParameter, error) {
	if err := working.Above("system_v", nominalV, 0, 100); err != nil {
		return nil, err
	}
	return tables.VoltageTest(test, nominalV)
}

// SupplyTest is a supply as somebody gets it wrong: connected the wrong way round,
// helped to start from a lorry, or fed by a regulator that has failed.
type SupplyTest struct {
	NominalV  decimal.Decimal     `json:"system_v"`        // 12 or 24; above 0 to 100
	Kind      string              `json:"supply_test"`     // of ISO 16750-2: "reversed voltage", "jump start" or "long overvoltage"
	SurvivesV decimal.NullDecimal `json:"unit_survives_v"` // of the unit's data sheet, in that test; 0 to 1000
}

// supplyTests are the tests, with the title of their check.
var supplyTests = map[string]string{
	"reversed voltage": "the unit survives a reversed supply",
	"jump start":       "the unit survives a jump start",
	"long overvoltage": "the unit survives a failed regulator",
}

// Check judges whether a unit survives the test:
//
//	P28  U_mi ≤ U_us
//
// The voltage is the highest of the test: reversed, 14 V at 12 V and 28 V at 24 V
// for a minute; a jump start, 24 V at 12 V for a minute and unknown at 24 V; a
// failed regulator, 18 and 36 V for an hour. A unit whose data sheet says nothing
// cannot be told. Nominal 12 or 24 V, else [tables.ErrNotListed].
// Source: ISO 16750-2, from memory.
func (s SupplyTest) Check() (working.Check, error) {
	kind := working.OneOf("supply_test", s.Kind, slices.Sorted(maps.Keys(supplyTests))...)
	var parameters []tables.TestParameter
	var nominal error
	if kind == nil {
		parameters, nominal = testAt(s.Kind, s.NominalV)
	} else {
		nominal = working.Above("system_v", s.NominalV, 0, 100)
	}
	if err := errors.Join(nominal, kind, unsetOr(working.Between, "unit_survives_v", s.SurvivesV, 0, 1000)); err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.Given("U_n", s.NominalV)
	volts := w.LookUp("U_mi", parameters[0].Greatest)
	if !s.SurvivesV.Valid {
		return cannotTell("P28", supplyTests[s.Kind], fmt.Sprintf("ask the maker of the unit whether it survives %s V: %s", volts, s.Kind), slices.Clip(w)), nil
	}
	w.LookUp("U_us", dataSheet(s.SurvivesV.Decimal, "V"))
	return w.Check("P28", supplyTests[s.Kind], "U_mi", "U_us"), nil
}
