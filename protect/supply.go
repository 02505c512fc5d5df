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

// Unit is a connected unit and the supply that it hangs on.
type Unit struct {
	SupplyLeastV decimal.Decimal     `json:"supply_least_v"`
	SupplyMostV  decimal.Decimal     `json:"supply_most_v"`
	Code         string              `json:"supply_code"`  // of ISO 16750-2, A to H; empty: the unit's own voltages
	LeastV       decimal.NullDecimal `json:"unit_least_v"` // of its data sheet, in place of the code
	MostV        decimal.NullDecimal `json:"unit_most_v"`
	From         working.Working     `json:"-"` // the lines that gave the supply's voltages
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
// either it cannot be told. Voltages 0 to 100 V, the supply's in order.
// Source: ISO 16750-2 tables 1 and 2.
func (u Unit) Checks() ([]working.Check, error) {
	if err := u.check(); err != nil {
		return nil, err
	}
	least, most, err := u.works()
	if err != nil {
		return nil, err
	}
	low := working.Start(u.From)
	low.Given("U_s1", u.SupplyLeastV)
	high := working.Start(u.From)
	high.Given("U_s2", u.SupplyMostV)
	return []working.Check{
		u.side("P17", lowTitle, "U_u1", "U_s1", "U_u1", least, low),
		u.side("P18", highTitle, "U_s2", "U_u2", "U_u2", most, high),
	}, nil
}

func (u Unit) side(id, title, demand, limit, symbol string, f working.Figure, w working.Working) working.Check {
	if !f.Stated() {
		return cannotTell(id, title, "read the range of supply voltage in the unit's data sheet, or its code of ISO 16750-2", slices.Clip(w))
	}
	w.LookUp(symbol, f)
	return w.Check(id, title, demand, limit)
}

func (u Unit) check() error {
	err := errors.Join(
		working.Between("supply_least_v", u.SupplyLeastV, 0, 100),
		working.Between("supply_most_v", u.SupplyMostV, 0, 100),
		unsetOr(working.Between, "unit_least_v", u.LeastV, 0, 100),
		unsetOr(working.Between, "unit_most_v", u.MostV, 0, 100),
	)
	if err == nil && u.SupplyMostV.LessThan(u.SupplyLeastV) {
		return &working.InputError{Field: "supply_most_v", Got: u.SupplyMostV.String(), Want: "no less than supply_least_v"}
	}
	return err
}

// works returns the range in which the unit works.
func (u Unit) works() (least, most working.Figure, err error) {
	if u.Code != "" {
		code, err := tables.SupplyCodeOf(u.Code)
		if err != nil {
			return least, most, err
		}
		least, most = code.Least, code.Most
	}
	if u.LeastV.Valid {
		least = dataSheet(u.LeastV.Decimal, "V")
	}
	if u.MostV.Valid {
		most = dataSheet(u.MostV.Decimal, "V")
	}
	return least, most, nil
}

// LoadDump is what the supply does when a battery is disconnected while an
// alternator charges it: the voltage leaps until the field has died away.
type LoadDump struct {
	NominalV   decimal.Decimal     `json:"system_v"`        // 12 or 24
	Suppressed bool                `json:"suppressed"`      // the alternator clamps it
	SurvivesV  decimal.NullDecimal `json:"unit_survives_v"` // of the unit's data sheet, as a load dump
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
	err := errors.Join(
		working.Above("system_v", l.NominalV, 0, 100),
		unsetOr(working.Between, "unit_survives_v", l.SurvivesV, 0, 1000),
	)
	if err != nil {
		return working.Check{}, err
	}
	test, parameter := openDump, "Us"
	if l.Suppressed {
		test, parameter = clampDump, "Us*"
	}
	parameters, err := tables.VoltageTest(test, l.NominalV)
	if err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.Given("U_n", l.NominalV)
	for _, p := range parameters {
		if p.Name == parameter {
			w.LookUp("U_ld", p.Most)
		}
	}
	if !l.SurvivesV.Valid {
		volts, _ := w.Value("U_ld")
		return cannotTell("P19", dumpTitle, fmt.Sprintf(
			"ask the maker of the unit whether it survives a load dump of %s V, or keep the battery from being disconnected while it is charged", volts), slices.Clip(w)), nil
	}
	w.LookUp("U_us", dataSheet(l.SurvivesV.Decimal, "V"))
	return w.Check("P19", dumpTitle, "U_ld", "U_us"), nil
}

// Mishap is a supply as somebody gets it wrong: connected the wrong way round,
// helped to start from a lorry, or fed by a regulator that has failed.
type Mishap struct {
	NominalV  decimal.Decimal     `json:"system_v"`        // 12 or 24
	Kind      string              `json:"mishap"`          // of ISO 16750-2: "reversed voltage", "jump start" or "long overvoltage"
	SurvivesV decimal.NullDecimal `json:"unit_survives_v"` // of the unit's data sheet, in that mishap
}

// mishaps are the tests, with the title of their check.
var mishaps = map[string]string{
	"reversed voltage": "the unit survives a reversed supply",
	"jump start":       "the unit survives a jump start",
	"long overvoltage": "the unit survives a failed regulator",
}

// Check judges whether a unit survives the mishap:
//
//	P28  U_mi ≤ U_us
//
// The voltage is the highest of the test: reversed, 14 V at 12 V and 28 V at 24 V
// for a minute; a jump start, 24 V at 12 V for a minute and unknown at 24 V; a
// failed regulator, 18 and 36 V for an hour. A unit whose data sheet says nothing
// cannot be told. Nominal 12 or 24 V, else [tables.ErrNotListed].
// Source: ISO 16750-2, from memory.
func (m Mishap) Check() (working.Check, error) {
	kinds := slices.Sorted(maps.Keys(mishaps))
	err := errors.Join(
		working.Above("system_v", m.NominalV, 0, 100),
		working.OneOf("mishap", m.Kind, kinds...),
		unsetOr(working.Between, "unit_survives_v", m.SurvivesV, 0, 1000),
	)
	if err != nil {
		return working.Check{}, err
	}
	parameters, err := tables.VoltageTest(m.Kind, m.NominalV)
	if err != nil {
		return working.Check{}, err
	}
	var w working.Working
	w.Given("U_n", m.NominalV)
	volts := w.LookUp("U_mi", parameters[0].Most)
	if !m.SurvivesV.Valid {
		return cannotTell("P28", mishaps[m.Kind], fmt.Sprintf("ask the maker of the unit whether it survives %s V: %s", volts, m.Kind), slices.Clip(w)), nil
	}
	w.LookUp("U_us", dataSheet(m.SurvivesV.Decimal, "V"))
	return w.Check("P28", mishaps[m.Kind], "U_mi", "U_us"), nil
}
