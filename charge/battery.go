package charge

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// BatteryOnCharge is a bank as a charger meets it. What is unset is taken from the
// tables for the chemistry, and a line says so.
type BatteryOnCharge struct {
	Chemistry     tables.Chemistry    `json:"chemistry"` // a name of [tables.Chemistries]
	CapacityAh    decimal.Decimal     `json:"capacity_ah"`
	BatteryC      decimal.Decimal     `json:"battery_c"`         // its own temperature
	ChargeA       decimal.NullDecimal `json:"charge_limit_a"`    // of its data sheet
	LeastC        decimal.NullDecimal `json:"least_charge_c"`    // charging window of its data sheet; -60 to 100
	GreatestC     decimal.NullDecimal `json:"greatest_charge_c"` // -60 to 100
	AcceptPerHour decimal.NullDecimal `json:"accept_per_hour"`   // A for each Ah missing

	// Of a lead-acid battery needed for a simulation only.
	Cells   int `json:"cells"`   // in series; 1 to 400
	Strings int `json:"strings"` // of such cells in parallel; 1 to 1000

	// Needed for a simulation and for a balance only.
	InternalMilliohm decimal.Decimal  `json:"internal_milliohm"`    // above 0 to 10 000
	EMF              []EMFPoint       `json:"emf,omitempty"`        // from 0 to 100 %, never falling; 2 to 1000
	Efficiency       []EfficiencyStep `json:"efficiency,omitempty"` // coulombic, from 0 % up; 1 to 1000

	From working.Working `json:"from,omitempty"` // the lines that gave any of it
}

// EMFPoint is the voltage at rest at a state of charge, of the whole battery.
type EMFPoint struct {
	SoCPercent decimal.Decimal `json:"soc_percent"`
	EMFV       decimal.Decimal `json:"emf_v"`
}

// EfficiencyStep is the share of the charge that the battery keeps, from a state
// of charge up to the next step.
type EfficiencyStep struct {
	FromPercent decimal.Decimal `json:"from_percent"`         // 0 to 99
	Efficiency  decimal.Decimal `json:"coulombic_efficiency"` // above 0, at most 1
}

func (b BatteryOnCharge) check() error {
	return errors.Join(
		b.Chemistry.Check("chemistry"),
		checkCapacity(b.CapacityAh),
		working.Between("battery_c", b.BatteryC, -60, 100),
		checkOptional("charge_limit_a", b.ChargeA, 0, 100_000),
		checkOptional("accept_per_hour", b.AcceptPerHour, 0, 100),
		b.checkWindow(),
	)
}

// leastCapacityAh is less than that of any battery; below it a second is longer than
// a charge.
var leastCapacityAh = decimal.New(1, -1)

func checkCapacity(v decimal.Decimal) error {
	err := working.Above("capacity_ah", v, 0, 100_000)
	if err == nil && v.LessThan(leastCapacityAh) {
		return &working.InputError{Field: "capacity_ah", Got: "less than 0.1", Want: "0.1 to 100000"}
	}
	return err
}

func (b BatteryOnCharge) checkWindow() error {
	return errors.Join(checkOptional("least_charge_c", b.LeastC, -60, 100), checkOptional("greatest_charge_c", b.GreatestC, -60, 100))
}

// checkModel checks what a simulation needs besides.
func (b BatteryOnCharge) checkModel() error {
	return errors.Join(
		b.check(),
		working.Above("internal_milliohm", b.InternalMilliohm, 0, 10_000),
		b.checkEMF(), b.checkEfficiency(),
	)
}

// greatestPoints is more than any curve has.
const greatestPoints = 1000

func (b BatteryOnCharge) checkEMF() error {
	n := len(b.EMF)
	var errs []error
	for i, p := range b.EMF[:min(n, greatestPoints)] {
		at := fmt.Sprintf("emf[%d]", i)
		errs = append(errs,
			working.In(at, working.Between("soc_percent", p.SoCPercent, 0, 100)),
			working.In(at, working.Above("emf_v", p.EMFV, 0, 1000)))
	}
	if err := errors.Join(append(errs, working.Between("emf", count(n), 2, greatestPoints))...); err != nil {
		return err
	}
	if !b.EMF[0].SoCPercent.IsZero() || !b.EMF[n-1].SoCPercent.Equal(hundred) {
		return &working.InputError{Field: "emf", Got: fmt.Sprintf("%d points", n), Want: "points from soc_percent 0 to 100"}
	}
	for i, p := range b.EMF[1:] {
		if last := b.EMF[i]; p.SoCPercent.LessThanOrEqual(last.SoCPercent) || p.EMFV.LessThan(last.EMFV) {
			errs = append(errs, &working.InputError{
				Field: fmt.Sprintf("emf[%d]", i+1), Got: p.SoCPercent.String() + " %, " + p.EMFV.String() + " V",
				Want: "more charge than the point before, and no less voltage",
			})
		}
	}
	return errors.Join(errs...)
}

func (b BatteryOnCharge) checkEfficiency() error {
	n := len(b.Efficiency)
	var errs []error
	for i, e := range b.Efficiency[:min(n, greatestPoints)] {
		at := fmt.Sprintf("efficiency[%d]", i)
		errs = append(errs,
			working.In(at, working.Between("from_percent", e.FromPercent, 0, 99)),
			working.In(at, working.Above("coulombic_efficiency", e.Efficiency, 0, 1)))
	}
	if err := errors.Join(append(errs, working.Between("efficiency", count(n), 1, greatestPoints))...); err != nil {
		return err
	}
	if !b.Efficiency[0].FromPercent.IsZero() {
		return &working.InputError{Field: "efficiency", Got: fmt.Sprintf("%d steps", len(b.Efficiency)), Want: "steps, the first from 0 %"}
	}
	for i, e := range b.Efficiency[1:] {
		if e.FromPercent.LessThanOrEqual(b.Efficiency[i].FromPercent) {
			errs = append(errs, &working.InputError{
				Field: fmt.Sprintf("efficiency[%d].from_percent", i+1), Got: e.FromPercent.String(), Want: "more than the step before",
			})
		}
	}
	return errors.Join(errs...)
}

// spans cuts the state of charge wherever the EMF bends, the efficiency steps or
// a state is asked for.
func (b BatteryOnCharge) spans(wantedAh []float64) []span {
	capacity := b.CapacityAh.InexactFloat64()
	at := func(percent decimal.Decimal) float64 { return percent.InexactFloat64() / 100 * capacity }
	var cuts []float64
	for _, p := range b.EMF {
		cuts = append(cuts, at(p.SoCPercent))
	}
	for _, e := range b.Efficiency {
		cuts = append(cuts, at(e.FromPercent))
	}
	for _, ah := range wantedAh {
		if !math.IsInf(ah, 1) {
			cuts = append(cuts, ah)
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	spans := make([]span, len(cuts)-1)
	point, step := 0, 0
	for i := range spans {
		for at(b.EMF[point+1].SoCPercent) <= cuts[i] {
			point++
		}
		for step+1 < len(b.Efficiency) && at(b.Efficiency[step+1].FromPercent) <= cuts[i] {
			step++
		}
		low, high := b.EMF[point], b.EMF[point+1]
		slope := high.EMFV.Sub(low.EMFV).InexactFloat64() / (at(high.SoCPercent) - at(low.SoCPercent))
		spans[i] = span{
			fromAh: cuts[i], toAh: cuts[i+1], slope: slope,
			emfV:       low.EMFV.InexactFloat64() + slope*(cuts[i]-at(low.SoCPercent)),
			efficiency: b.Efficiency[step].Efficiency.InexactFloat64(),
		}
	}
	return spans
}

// spanOf returns the span that holds a state of charge, the upper of two.
func spanOf(spans []span, ah float64) int {
	for i := len(spans) - 1; i > 0; i-- {
		if ah >= spans[i].fromAh {
			return i
		}
	}
	return 0
}
