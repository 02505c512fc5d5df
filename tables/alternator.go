package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// RunningVoltage is what one source says of a vehicle's voltage: a voltage
// ("voltage") or a threshold of engine-running detection ("on", "off").
type RunningVoltage struct {
	Condition string          `json:"condition"`
	Quantity  string          `json:"quantity"`
	NominalV  decimal.Decimal `json:"system_v"`
	Least     working.Figure  `json:"least,omitzero"`    // zero where the source gives none
	Greatest  working.Figure  `json:"greatest,omitzero"` // zero where the source gives none
}

var runningVoltages = load("engine-running", func(r *record) RunningVoltage {
	v := RunningVoltage{Condition: r.text("condition"), Quantity: r.text("quantity"), NominalV: r.number("nominal_v")}
	if r.optional("v_min").Valid {
		v.Least = r.figure("v_min", "V", r.text("condition"))
	}
	if r.optional("v_max").Valid {
		v.Greatest = r.figure("v_max", "V", r.text("condition"))
	}
	return v
})

// RunningVoltages returns what the tables say of the voltage of vehicles of a
// nominal voltage, engine running and standing: of 12 and 24 V.
func RunningVoltages(nominalV decimal.Decimal) ([]RunningVoltage, error) {
	var all []RunningVoltage
	for _, v := range runningVoltages() {
		if v.NominalV.Equal(nominalV) {
			all = append(all, v)
		}
	}
	if len(all) == 0 {
		return nil, oneOfVolts("nominal_v", nominalV, runningVoltages(), func(v RunningVoltage) decimal.Decimal { return v.NominalV })
	}
	return all, nil
}

var _ = also("condition", runningVoltages, func(v RunningVoltage) string { return v.Condition })
var _ = also("quantity", runningVoltages, func(v RunningVoltage) string { return v.Quantity })

// RunningVoltageOf returns the row of a condition and quantity at a nominal
// voltage: "fixed regulator", "on", 12 V. Another voltage, condition or quantity
// is refused with those that there are.
func RunningVoltageOf(condition, quantity string, nominalV decimal.Decimal) (RunningVoltage, error) {
	rows, err := RunningVoltages(nominalV)
	if err != nil {
		return RunningVoltage{}, err
	}
	if rows, err = named(rows, "condition", condition, func(v RunningVoltage) string { return v.Condition }); err != nil {
		return RunningVoltage{}, err
	}
	if rows, err = named(rows, "quantity", quantity, func(v RunningVoltage) string { return v.Quantity }); err != nil {
		return RunningVoltage{}, err
	}
	return rows[0], nil
}

// oneOfVolts refuses a voltage that no row of a table has.
func oneOfVolts[T any](field string, got decimal.Decimal, rows []T, volts func(T) decimal.Decimal) error {
	if err := inVolts(field, got); err != nil {
		return err
	}
	var names []string
	for _, r := range rows {
		names = append(names, volts(r).String())
	}
	return unlisted(field, got.String(), unique(names))
}

type definitionRow struct {
	term   string
	atV    decimal.NullDecimal
	figure working.Figure
}

var alternatorRows = load("alternator-definitions", func(r *record) definitionRow {
	row := definitionRow{term: r.text("term"), atV: r.optional("nominal_v")}
	label := strings.TrimSuffix(r.text("term")+", "+r.text("condition"), ", ")
	if r.optional("value").Valid {
		row.figure = r.figure("value", strings.ReplaceAll(r.text("unit"), "min-1", "1/min"), label)
		row.figure.Note = r.text("note")
	} else {
		r.source()
	}
	return row
})

var alternatorTerms = indexed("alternator_term", where(alternatorRows, func(r definitionRow) bool { return r.figure.Stated() }),
	func(r definitionRow) string { return r.term })

// AlternatorDefinition returns what the standards and practice fix of an
// alternator: "test voltage VT", "speed nL for IL", "pulley ratio" and the other
// terms of [Names] "alternator_term". The first row at the nominal voltage, or
// tied to none, serves; where there is no such row it is [ErrNotListed].
func AlternatorDefinition(term string, nominalV decimal.Decimal) (working.Figure, error) {
	rows, err := alternatorTerms().of(term)
	if err := errors.Join(err, working.Above("nominal_v", nominalV, 0, 60)); err != nil {
		return working.Figure{}, err
	}
	for _, r := range rows {
		if !r.atV.Valid || r.atV.Decimal.Equal(nominalV) {
			return r.figure, nil
		}
	}
	return working.Figure{}, fmt.Errorf("%s of an alternator of %s V: %w", term, nominalV, ErrNotListed)
}

// HotOutputs returns the shares of its marked output that the trade reckons with
// for a hot alternator of which nothing more is known. They conflict, and both
// stand: for ordinary duty, and for long bulk charging.
func HotOutputs() []working.Figure {
	var all []working.Figure
	for _, r := range alternatorRows() {
		if r.term == "hot output" {
			f := r.figure
			f.Unit = ""
			all = append(all, f)
		}
	}
	return all
}

// OutputPoint is one measured point of an alternator.
type OutputPoint struct {
	PerMin decimal.Decimal `json:"alternator_per_min"` // of the alternator
	Output working.Figure  `json:"output"`             // A
}

type outputRow struct {
	machine, state string
	point          OutputPoint
}

var outputRows = load("alternator-output", func(r *record) outputRow {
	return outputRow{r.text("machine"), r.text("state"), OutputPoint{
		r.number("alternator_per_min"), r.figure("current_a", "A", r.text("machine"), r.text("state"), r.text("alternator_per_min")+" 1/min"),
	}}
})

var alternatorOutputs = indexed("machine", outputRows, func(r outputRow) string { return r.machine })

var _ = also("alternator_state", outputRows, func(r outputRow) string { return r.state })

// AlternatorOutput returns the points of a machine of the tables ("50 A class,
// 12 V", [Names] "machine"), "hot" or "cold", by rising speed.
func AlternatorOutput(machine, state string) ([]OutputPoint, error) {
	rows, err := alternatorOutputs().of(machine)
	if err != nil {
		return nil, err
	}
	if rows, err = named(rows, "alternator_state", state, func(r outputRow) string { return r.state }); err != nil {
		return nil, err
	}
	var all []OutputPoint
	for _, r := range rows {
		all = append(all, r.point)
	}
	slices.SortFunc(all, func(a, b OutputPoint) int { return a.PerMin.Cmp(b.PerMin) })
	return all, nil
}

var converterRows = load("converter-efficiency", func(r *record) Span {
	s := Span{Condition: r.text("device"), Note: r.text("note")}
	s.Least, s.Typical, s.Greatest = r.figure("min", "", r.text("device")), r.figure("typ", "", r.text("device")), r.figure("max", "", r.text("device"))
	return s
})

var convertersByName = indexed("converter", converterRows, func(s Span) string { return s.Condition })

// ConverterEfficiency returns the typical span of a device's efficiency, output
// by input: "converter, switching", "mains charger, switching", "MPPT
// controller" ([Names] "converter"). For a "PWM controller" it is the ratio of the
// currents.
func ConverterEfficiency(device string) (Span, error) { return convertersByName().first(device) }
