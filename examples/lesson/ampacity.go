package main

import (
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// installed is a cable of 90 °C insulation in a duct, by the European set.
func installed(size string, ambientC decimal.Decimal, grouped int, terminalC int64) (wire.Ampacity, error) {
	s, err := tables.ParseSize(size)
	if err != nil {
		return wire.Ampacity{}, err
	}
	set, err := tables.RuleSetOf("european")
	if err != nil {
		return wire.Ampacity{}, err
	}
	return wire.Conductor{
		Size: s, Class: tables.Flexible, PlainCopper: true, OutsideEngineSpace: true, Method: "B", InsulationC: decimal.NewFromInt(90),
		AmbientC: decimal.NewNullDecimal(ambientC), Grouped: grouped, TerminalC: decimal.NewNullDecimal(decimal.NewFromInt(terminalC)),
	}.Ampacity(set.Ampacity)
}

// ampacityGrouped is got wrong by whoever counts only the own circuit.
func ampacityGrouped(r dice) (question, error) {
	size := r.word("4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2")
	ambient, grouped := r.number("35", "40", "45", "50"), 2+r.IntN(5)
	right, err := installed(size, ambient, grouped, 90)
	if err != nil {
		return question{}, err
	}
	wrong, err := installed(size, ambient, 1, 90)
	if err != nil {
		return question{}, err
	}
	hot, err := right.Temperature(wrong.AmpacityA)
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "ampacity",
		asks: fmt.Sprintf("A cable of %s with 90 °C insulation lies in a duct (method B) with others, %d circuits in all, in a space of %s °C. Its terminals bear 90 °C. What may it carry by the European rule set?",
			size, grouped, ambient),
		name: "ampacity as installed", unit: "A", answer: right.AmpacityA, lines: right.Working,
		mistake: "the other circuits in the duct are forgotten",
		wrong:   wrong.AmpacityA,
		harm:    fmt.Sprintf("With all of them loaded so, the conductor reaches %s °C. The insulation bears 90 °C: it softens, ages fast and may burn.", hot.ConductorC),
	}, nil
}

// ampacityAtTerminals is got wrong by whoever looks at the cable alone.
func ampacityAtTerminals(r dice) (question, error) {
	size := r.word("6 mm2", "10 mm2", "16 mm2", "25 mm2", "35 mm2")
	ambient, terminal := r.number("30", "35", "40", "45"), int64(60+5*r.IntN(4))
	right, err := installed(size, ambient, 1, terminal)
	if err != nil {
		return question{}, err
	}
	wrong, err := installed(size, ambient, 1, 90)
	if err != nil {
		return question{}, err
	}
	hot, err := right.Temperature(wrong.AmpacityA)
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "ampacity",
		asks: fmt.Sprintf("A cable of %s with 90 °C insulation lies alone in a duct (method B) in a space of %s °C. It ends on an isolator whose terminals bear %d °C. What may it carry by the European rule set?",
			size, ambient, terminal),
		name: "ampacity as installed", unit: "A", answer: right.AmpacityA, lines: right.Working,
		mistake: "the terminals are forgotten",
		wrong:   wrong.AmpacityA,
		harm:    fmt.Sprintf("The cable bears it, at %s °C. The terminals bear %d °C: they loosen, their resistance grows, and the joint burns.", hot.ConductorC, terminal),
	}, nil
}
