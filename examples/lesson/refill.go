package main

import (
	"fmt"

	"example.org/extralow/charge"
	"github.com/shopspring/decimal"
)

// longest is the longest time by the published factors.
func longest(refill charge.Refill) (charge.RefillTime, error) {
	times, err := refill.Times()
	if err != nil {
		return charge.RefillTime{}, err
	}
	slowest := times[0]
	for _, t := range times[1:] {
		if t.TimeH.GreaterThan(slowest.TimeH) {
			slowest = t
		}
	}
	return slowest, nil
}

// refillWithLoads is got wrong by whoever forgets what runs meanwhile.
func refillWithLoads(r dice) (question, error) {
	refill := charge.Refill{
		Chemistry: "LiFePO4", MissingAh: r.between(50, 160, 0),
		CurrentA: r.number("25", "30", "40", "50"), LoadA: decimal.NewNullDecimal(r.between(40, 120, 1)),
	}
	right, err := longest(refill)
	if err != nil {
		return question{}, err
	}
	forgot := refill
	forgot.LoadA = decimal.NewNullDecimal(decimal.Zero)
	wrong, err := longest(forgot)
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "time to refill",
		asks: fmt.Sprintf("A bank of %s lacks %s Ah. The charger gives %s A, and loads of %s A run meanwhile. How long does it take to refill, by the recharge factor of the tables, %s?",
			refill.Chemistry, refill.MissingAh, refill.CurrentA, refill.LoadA.Decimal, right.Factor),
		name: "time to refill", unit: "h", answer: right.TimeH, lines: right.Working,
		mistake: "the loads that run meanwhile are forgotten",
		wrong:   wrong.TimeH,
		harm:    fmt.Sprintf("The van leaves %s h too soon, and the bank is never full again: each day begins lower than the last.", show(right.TimeH.Sub(wrong.TimeH))),
	}, nil
}

// refillByFactor is got wrong by whoever divides ampere-hours by amperes.
func refillByFactor(r dice) (question, error) {
	refill := charge.Refill{
		Chemistry: "lead-acid flooded", MissingAh: r.between(40, 110, 0), CurrentA: r.number("10", "12", "15", "20"), LoadA: decimal.NewNullDecimal(decimal.Zero),
	}
	right, err := longest(refill)
	if err != nil {
		return question{}, err
	}
	wrong := refill.MissingAh.DivRound(refill.CurrentA, 4)
	return question{
		subject: "time to refill",
		asks: fmt.Sprintf("A bank of %s lacks %s Ah. The charger gives %s A and no load runs. How long does it take to refill, by the largest recharge factor of the tables, %s?",
			refill.Chemistry, refill.MissingAh, refill.CurrentA, right.Factor),
		name: "time to refill", unit: "h", answer: right.TimeH, lines: right.Working,
		mistake: "ampere-hours are divided by amperes, as if every one of them stayed in",
		wrong:   wrong,
		harm:    fmt.Sprintf("The charger is taken off %s h too soon, day after day. Plates that are never full sulphate, and the bank loses its capacity within months.", show(right.TimeH.Sub(wrong))),
	}, nil
}
