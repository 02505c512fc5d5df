package main

import (
	"fmt"

	"example.org/extralow/battery"
	"github.com/shopspring/decimal"
)

// inverterAtCutOut is got wrong by whoever divides by the nominal voltage.
func inverterAtCutOut(r dice) (question, error) {
	nominal := r.number("12", "24")
	cutOut := nominal.Mul(decimal.New(r.Int64N(6)+85, -2))
	inverter := battery.Inverter{EfficiencyPercent: decimal.NewNullDecimal(r.number("88", "90", "92")), IdleW: decimal.NewNullDecimal(r.between(8, 25, 0))}
	output := r.number("1200", "1500", "2000", "2500", "3000")
	right, err := inverter.Draw(output, cutOut)
	if err != nil {
		return question{}, err
	}
	wrong, err := inverter.Draw(output, nominal)
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "inverter",
		asks: fmt.Sprintf("An inverter on a %s V bank gives %s W at an efficiency of %s %%, draws %s W besides for itself, and switches off below %s V at its terminals. Which steady current must its cables bear?",
			nominal, output, inverter.EfficiencyPercent.Decimal, inverter.IdleW.Decimal, cutOut),
		name: "greatest steady current", unit: "A", answer: right.CurrentA, lines: leading(right.Working, "I_i"),
		mistake: "the nominal voltage is taken in place of the cut-out",
		wrong:   wrong.CurrentA,
		harm:    fmt.Sprintf("With the bank nearly empty, cables and fuse carry %s A more than they were chosen for, for as long as the load lasts.", show(right.CurrentA.Sub(wrong.CurrentA))),
	}, nil
}
