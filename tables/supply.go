package tables

import (
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// SupplyCode is the range of supply voltage in which every function of a unit
// works as designed.
type SupplyCode struct {
	Code     string          `json:"supply_code"`
	NominalV decimal.Decimal `json:"system_v"`
	Least    working.Figure  `json:"least"`    // V
	Greatest working.Figure  `json:"greatest"` // V
}

var supplyCodes = load("supply-voltage-codes", func(r *record) SupplyCode {
	code := "code " + r.text("code")
	return SupplyCode{r.text("code"), r.number("nominal_v"), r.figure("min_v", "V", code), r.figure("max_v", "V", code)}
})

var supplyCodeNames = indexed("supply_code", supplyCodes, func(c SupplyCode) string { return c.Code })

// SupplyCodeOf returns the range of a code of ISO 16750-2: A to D for 12 V
// units, E to H for 24 V units.
func SupplyCodeOf(code string) (SupplyCode, error) { return supplyCodeNames().first(code) }

// TestParameter is one parameter of a voltage test, from its least to its greatest.
type TestParameter struct {
	Name     string         `json:"name"` // Us, Ri, td, tr, U
	Least    working.Figure `json:"least"`
	Greatest working.Figure `json:"greatest"`
}

type transientRow struct {
	test     string
	nominalV decimal.Decimal
	TestParameter
}

var transients = load("transients", func(r *record) transientRow {
	unit := strings.Replace(r.text("unit"), "ohm", "Ω", 1)
	least, most := r.figure("min", unit, r.text("test")), r.figure("max", unit, r.text("test"))
	least.Note, most.Note = r.text("note"), r.text("note")
	return transientRow{r.text("test"), r.number("nominal_v"), TestParameter{r.text("parameter"), least, most}}
})

var voltageTests = indexed("voltage_test", transients, func(r transientRow) string { return r.test })

// VoltageTest returns the parameters of a voltage test of vehicle supplies by
// its name and nominal voltage: "jump start", 12. [VoltageTests] lists the names;
// a voltage that the test has no row for is refused with those that it has.
func VoltageTest(test string, nominalV decimal.Decimal) ([]TestParameter, error) {
	rows, err := voltageTests().of(test)
	if err != nil {
		return nil, err
	}
	var all []TestParameter
	for _, row := range rows {
		if row.nominalV.Equal(nominalV) {
			all = append(all, row.TestParameter)
		}
	}
	if len(all) == 0 {
		return nil, oneOfVolts("nominal_v", nominalV, rows, func(r transientRow) decimal.Decimal { return r.nominalV })
	}
	return all, nil
}

// VoltageTests returns the names of the voltage tests that the tables have.
func VoltageTests() []string { return voltageTests().all() }
