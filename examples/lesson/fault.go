package main

import (
	"fmt"

	"example.org/extralow/battery"
	"github.com/shopspring/decimal"
)

// nought is stated where a question has no leads and no other source.
var nought = decimal.NewNullDecimal(decimal.Zero)

// faultOfBank is got wrong by whoever counts one battery.
func faultOfBank(r dice) (question, error) {
	count := 2 + r.IntN(3)
	one := battery.BankBattery{
		Name: "house", Chemistry: "LiFePO4", NominalV: decimal.RequireFromString("12.8"), CapacityAh: decimal.NewFromInt(100),
		FullV: r.between(133, 136, 1), EmptyV: decimal.RequireFromString("12.8"),
		LowMilliohm: decimal.NewNullDecimal(r.between(30, 60, 1)), HighMilliohm: decimal.NewNullDecimal(decimal.NewFromInt(20)), LeadMilliohm: nought,
	}
	path := battery.FaultPath{LowMilliohm: r.between(5, 15, 1), HighMilliohm: decimal.NewNullDecimal(decimal.NewFromInt(2)), LimitedA: nought}
	right, err := bankOf(count, one).Fault(path)
	if err != nil {
		return question{}, err
	}
	wrong, err := bankOf(1, one).Fault(path)
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "fault current",
		asks: fmt.Sprintf("%d lithium batteries stand side by side, each of %s V full and %s mΩ when new. From the bank to the main fuse and back there are %s mΩ, cold. Which current must the fuse be able to break?",
			count, one.FullV, one.LowMilliohm.Decimal, path.LowMilliohm),
		name: "greatest fault current", unit: "A", answer: right.GreatestA.Decimal, lines: leading(right.Working, "I_k"),
		mistake: "one battery is counted and not the whole bank",
		wrong:   wrong.GreatestA.Decimal,
		harm:    fmt.Sprintf("A fuse with a breaking capacity between the two passes on paper. In a short circuit it meets %s A more than was reckoned, keeps arcing, and bursts.", show(right.GreatestA.Decimal.Sub(wrong.GreatestA.Decimal))),
	}, nil
}

// bankOf is a bank of like batteries side by side.
func bankOf(count int, one battery.BankBattery) battery.Bank {
	bank := battery.Bank{Series: 1}
	for range count {
		bank.Batteries = append(bank.Batteries, one)
	}
	return bank
}
