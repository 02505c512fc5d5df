package tables

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// RunningVoltage is what one source says of a vehicle's voltage: a voltage
// ("voltage") or a threshold of engine-running detection ("on", "off").
type RunningVoltage struct {
	Condition, Quantity string
	NominalV            decimal.Decimal
	Least, Most         working.Figure // zero where the source gives none
}

var runningVoltages = load("engine-running", func(r *record) RunningVoltage {
	v := RunningVoltage{Condition: r.text("condition"), Quantity: r.text("quantity"), NominalV: r.number("nominal_v")}
	if r.optional("v_min").Valid {
		v.Least = r.figure("v_min", "V", r.text("condition"))
	}
	if r.optional("v_max").Valid {
		v.Most = r.figure("v_max", "V", r.text("condition"))
	}
	return v
})

// RunningVoltages returns what the tables say of the voltage of vehicles of a
// nominal voltage, engine running and standing.
func RunningVoltages(nominalV decimal.Decimal) []RunningVoltage {
	var all []RunningVoltage
	for _, v := range runningVoltages() {
		if v.NominalV.Equal(nominalV) {
			all = append(all, v)
		}
	}
	return all
}

// RunningVoltageOf returns the row of a condition and quantity at a nominal
// voltage: "fixed regulator", "on", 12 V. Another is [ErrNotListed].
func RunningVoltageOf(condition, quantity string, nominalV decimal.Decimal) (RunningVoltage, error) {
	var have []string
	for _, v := range RunningVoltages(nominalV) {
		if v.Condition == condition && v.Quantity == quantity {
			return v, nil
		}
		have = append(have, v.Condition+" ("+v.Quantity+")")
	}
	return RunningVoltage{}, fmt.Errorf("%s (%s) at %s V: %w; it has %s", condition, quantity, nominalV, ErrNotListed, strings.Join(have, "; "))
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
		row.figure = r.figure("value", strings.Replace(r.text("unit"), "min-1", "1/min", 1), label)
		row.figure.Note = r.text("note")
	} else {
		r.source()
	}
	return row
})

// AlternatorDefinition returns what the standards and practice fix of an
// alternator: "test voltage VT", "speed nL for IL", "pulley ratio", "continuous
// output". The first row at the nominal voltage, or tied to none, serves.
func AlternatorDefinition(term string, nominalV decimal.Decimal) (working.Figure, error) {
	for _, r := range alternatorRows() {
		if r.term == term && r.figure.Stated() && (!r.atV.Valid || r.atV.Decimal.Equal(nominalV)) {
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
	PerMin decimal.Decimal // of the alternator
	Output working.Figure  // A
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

// AlternatorOutput returns the points of a machine of the tables ("50 A class,
// 12 V"), "hot" or "cold", by rising speed.
func AlternatorOutput(machine, state string) ([]OutputPoint, error) {
	var all []OutputPoint
	for _, r := range outputRows() {
		if r.machine == machine && r.state == state {
			all = append(all, r.point)
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("output of %q, %s: %w", machine, state, ErrNotListed)
	}
	slices.SortFunc(all, func(a, b OutputPoint) int { return a.PerMin.Cmp(b.PerMin) })
	return all, nil
}

var converterRows = load("converter-efficiency", func(r *record) Span {
	s := Span{Condition: r.text("device"), Note: r.text("note")}
	s.Least, s.Typical, s.Most = r.figure("min", "", r.text("device")), r.figure("typ", "", r.text("device")), r.figure("max", "", r.text("device"))
	return s
})

// ConverterEfficiency returns the typical span of a device's efficiency, output
// by input: "converter, switching", "mains charger, switching", "MPPT
// controller". For a "PWM controller" it is the ratio of the currents.
func ConverterEfficiency(device string) (Span, error) {
	var have []string
	for _, s := range converterRows() {
		if s.Condition == device {
			return s, nil
		}
		have = append(have, s.Condition)
	}
	return Span{}, fmt.Errorf("efficiency of %q: %w; it has %s", device, ErrNotListed, strings.Join(have, "; "))
}
