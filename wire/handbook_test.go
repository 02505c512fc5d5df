package wire_test

import (
	"testing"

	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
)

// asks ties each question of testdata/handbook.csv to the function that answers
// it, in the book's own units.
var asks = workingtest.Asks{
	"Run.Drop loop": func(r workingtest.Row) (workingtest.Answers, error) {
		metre := d("0.3048") // of a foot
		drop, err := wire.Run{
			CurrentA:     r.D("current"),
			LengthM:      r.D("run_length").Mul(metre).Div(d("2")), // the book's length is one conductor's
			MilliohmPerM: r.D("resistance").Shift(3).DivRound(metre, 9),
		}.Drop()
		return workingtest.Answer("voltage_drop", drop.DropV, drop.Working), err
	},
}

func TestHandbook(t *testing.T) { workingtest.Handbook(t, asks, 1) }

// TestPages checks the arithmetic printed in the Examples.
func TestPages(t *testing.T) { workingtest.Pages(t) }
