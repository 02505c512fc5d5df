package main

import (
	"fmt"

	"example.org/extralow/tables"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// dropOfLoop is got wrong by whoever forgets the way back.
func dropOfLoop(r dice) (question, error) {
	load := r.word("water pump", "roof fan", "heater blower")
	run := wire.Run{
		CurrentA: r.between(8, 30, 0), LengthM: r.between(30, 90, 1),
		MilliohmPerM: r.number("8.9", "5.5", "3.7"), JointsMilliohm: r.between(6, 24, 1),
	}
	right, err := run.Drop()
	if err != nil {
		return question{}, err
	}
	forgot := run
	forgot.ReturnMilliohm = decimal.NewNullDecimal(decimal.Zero)
	wrong, err := forgot.Drop()
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "voltage drop",
		asks: fmt.Sprintf("A %s draws %s A at the end of a two-core cable %s m long. Each core has %s mΩ/m when warm; all joints of the loop together have %s mΩ. How many volts are lost?",
			load, run.CurrentA, run.LengthM, run.MilliohmPerM, run.JointsMilliohm),
		name: "voltage drop", unit: "V", answer: right.DropV, lines: right.Working,
		mistake: "the way back is forgotten",
		wrong:   wrong.DropV,
		harm:    fmt.Sprintf("The %s is given a cable that loses %s V more than was reckoned: it runs slow, and what holds its power draws more current for it.", load, show(right.DropV.Sub(wrong.DropV))),
	}, nil
}

// coldC is the temperature that tables of resistance hold at.
var coldC = decimal.NewFromInt(20)

// dropHot is got wrong by whoever takes the resistance from the table as it
// stands.
func dropHot(r dice) (question, error) {
	size, err := tables.ParseSize(r.word("6 mm2", "10 mm2", "16 mm2"))
	if err != nil {
		return question{}, err
	}
	c := wire.Conductor{Size: size, Class: tables.Flexible, PlainCopper: true}
	run := wire.Run{CurrentA: r.between(25, 60, 0), LengthM: r.between(20, 60, 1)}
	at := r.number("60", "65", "70", "75", "80")
	right, err := dropAt(c, run, at)
	if err != nil {
		return question{}, err
	}
	wrong, err := dropAt(c, run, coldC)
	if err != nil {
		return question{}, err
	}
	return question{
		subject: "voltage drop",
		asks: fmt.Sprintf("A feeder of %s, flexible (class 5), is %s m long one way, out and back in the same cable. It carries %s A and works at %s °C. How many volts does it lose, joints left out?",
			size, run.LengthM, run.CurrentA, at),
		name: "voltage drop", unit: "V", answer: right.DropV, lines: right.Working,
		mistake: "the resistance is taken at 20 °C, as the table prints it",
		wrong:   wrong.DropV,
		harm:    fmt.Sprintf("On the cold bench the feeder measures well. At work it loses %s V more, just when the bank is low and the load is on.", show(right.DropV.Sub(wrong.DropV))),
	}, nil
}

// dropAt is the drop with the conductor at a temperature.
func dropAt(c wire.Conductor, run wire.Run, atC decimal.Decimal) (wire.Drop, error) {
	r, err := c.Resistance(atC)
	if err != nil {
		return wire.Drop{}, err
	}
	run.MilliohmPerM, run.From = r.MilliohmPerM, r.Working
	return run.Drop()
}
