package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Span is what a table says of one quantity under one condition. A figure that
// the table leaves out is the zero [working.Figure].
type Span struct {
	Condition string         `json:"condition"`
	Least     working.Figure `json:"least,omitzero"`
	Typical   working.Figure `json:"typical,omitzero"`
	Greatest  working.Figure `json:"greatest,omitzero"`
	Note      string         `json:"note,omitempty"`
}

type limitRow struct {
	chemistry, parameter string
	span                 Span
}

var batteryLimits = load("battery-limits", func(r *record) limitRow {
	kind, condition := r.text("chemistry"), r.text("condition")
	figure := func(column string) working.Figure {
		if !r.optional(column).Valid {
			return working.Figure{}
		}
		return r.figure(column, batteryUnit(r.text("unit")), strings.TrimSuffix(kind+", "+condition, ", "))
	}
	return limitRow{kind, r.text("parameter"), Span{condition, figure("value_min"), figure("value_typ"), figure("value_max"), r.text("note")}}
})

var limitParameters = indexed("limit", batteryLimits, func(r limitRow) string { return r.parameter })

// BatteryLimits returns what the tables say of a parameter of a chemistry
// ("depth_of_discharge_design", "charge_temperature"; [Names] "limit"), one span a condition.
// Where they say nothing of the very chemistry, the next more general kind
// stands in; where they say nothing at all it is [ErrNotListed].
func BatteryLimits(chemistry Chemistry, parameter string) ([]Span, error) {
	if _, err := limitParameters().of(parameter); err != nil {
		return nil, errors.Join(chemistry.Check("chemistry"), err)
	}
	rows, err := chemistryRows(batteryLimits(), chemistry, func(r limitRow, name string) bool {
		return r.chemistry == name && r.parameter == parameter
	})
	if err != nil {
		return nil, fmt.Errorf("%s of %s: %w", parameter, chemistry, err)
	}
	spans := make([]Span, len(rows))
	for i, r := range rows {
		spans[i] = r.span
	}
	return spans, nil
}

// batteryUnit turns the unit of a data file into the one of the vocabulary.
func batteryUnit(text string) string {
	switch text {
	case "percent":
		return "%"
	case "C":
		return "°C"
	case "ratio":
		return ""
	}
	return text
}

type resistanceRow struct {
	chemistry, form string
	fromAh, toAh    decimal.Decimal
	low, high       working.Figure
}

var internalResistances = load("internal-resistance", func(r *record) resistanceRow {
	row := strings.Join([]string{r.text("chemistry"), r.text("form"), r.text("capacity_from_ah") + " to " + r.text("capacity_to_ah") + " Ah"}, ", ")
	low, high := r.figure("min_mohm", "mΩ", row), r.figure("max_mohm", "mΩ", row)
	low.Note, high.Note = r.text("note"), r.text("note")
	return resistanceRow{r.text("chemistry"), r.text("form"), r.number("capacity_from_ah"), r.number("capacity_to_ah"), low, high}
})

// InternalResistance returns the lowest and the highest typical resistance of a
// whole battery: from memory, of a full one near 25 °C, over every form listed
// (starter, deep cycle) whose capacities hold the one asked for. Nothing is
// scaled: another voltage or capacity is [ErrNotListed].
func InternalResistance(chemistry Chemistry, nominalV, capacityAh decimal.Decimal) (low, high working.Figure, err error) {
	err = errors.Join(chemistry.Check("chemistry"), working.Above("nominal_v", nominalV, 0, 100), working.Above("capacity_ah", capacityAh, 0, 100_000))
	if err != nil {
		return low, high, err
	}
	volts := nominalV.String() + " V"
	rows, err := chemistryRows(internalResistances(), chemistry, func(r resistanceRow, name string) bool {
		return r.chemistry == name && slices.Contains(strings.Split(r.form, ", "), volts) &&
			capacityAh.GreaterThanOrEqual(r.fromAh) && capacityAh.LessThanOrEqual(r.toAh)
	})
	if err != nil {
		return low, high, fmt.Errorf("resistance of a %s battery of %s and %s Ah: %w", chemistry, volts, capacityAh, err)
	}
	low, high = rows[0].low, rows[0].high
	for _, r := range rows[1:] {
		if r.low.Value.LessThan(low.Value) {
			low = r.low
		}
		if r.high.Value.GreaterThan(high.Value) {
			high = r.high
		}
	}
	return low, high, nil
}
