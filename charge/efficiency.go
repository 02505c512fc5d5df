package charge

import (
	"errors"
	"math"
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// ChargeEfficiency is the share of a charging current that a battery keeps.
type ChargeEfficiency struct {
	Efficiency decimal.Decimal `json:"coulombic_efficiency"`
	Working    working.Working `json:"working"`
}

// LeadAcidEfficiency returns the coulombic efficiency of a lead-acid battery at a
// state of charge and a charging current:
//
//	η_q = 1 − exp(20.73 × (s ÷ 100 − 1) ÷ (I ÷ I_10 + 0.55))   to 0.00001
//
// I_10 is a tenth of the ten-hour capacity. Near full the charge goes into gas:
// the efficiency falls to nought. State of charge 0 to 100 %, currents 0 and
// above 0 to 10 000 A. Source: Copetti 1993.
func LeadAcidEfficiency(socPercent, currentA, tenHourA decimal.Decimal) (ChargeEfficiency, error) {
	err := errors.Join(
		working.Between("soc_percent", socPercent, 0, 100), working.Between("current_a", currentA, 0, 10_000),
		working.Above("ten_hour_a", tenHourA, 0, 10_000),
	)
	if err != nil {
		return ChargeEfficiency{}, err
	}
	var w working.Working
	s, i, ten := w.Given("s", socPercent), w.Given("I", currentA), w.Given("I_10", tenHourA)
	var out exit
	exponent := 20.73 * (s.InexactFloat64()/100 - 1) / (i.InexactFloat64()/ten.InexactFloat64() + 0.55)
	v := w.Calc("η_q", "1 − exp(20.73 × (s ÷ 100 − 1) ÷ (I ÷ I_10 + 0.55))", out.fixed(1-math.Exp(exponent), 5), cite.Copetti.At("charge efficiency", cite.SecondHand))
	return ChargeEfficiency{v, slices.Clip(w)}, out.err
}

// LeadAcidSteps returns that efficiency as steps for a [Simulation] at a steady
// current: ten below 80 %, one for each percent above, each with the efficiency
// in its middle.
// Current 0 to 10 000 A, ten-hour current above 0 to 10 000 A.
func LeadAcidSteps(currentA, tenHourA decimal.Decimal) ([]EfficiencyStep, error) {
	var steps []EfficiencyStep
	from := decimal.Zero
	for from.LessThan(hundred) {
		width := decimal.NewFromInt(8)
		if from.GreaterThanOrEqual(decimal.NewFromInt(80)) {
			width = one
		}
		k, err := LeadAcidEfficiency(from.Add(width.Mul(decimal.New(5, -1))), currentA, tenHourA)
		if err != nil {
			return nil, err
		}
		steps = append(steps, EfficiencyStep{FromPercent: from, Efficiency: k.Efficiency})
		from = from.Add(width)
	}
	return steps, nil
}
