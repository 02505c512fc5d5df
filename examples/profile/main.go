// Profile shows how a battery is charged: the stages of a charging characteristic
// for so many cells at a temperature, their volts over a range of temperatures,
// and how one charge goes, as a table and as a curve.
//
//	go run ./examples/profile
//	go run ./examples/profile -chemistry LiFePO4 -cells 4 -capacity_ah 200 -limit_a 60 -battery_c 5
//	go run ./examples/profile -battery_c 30 -remote_sensing yes -o curve.svg
//
// It prints the stages with their volts, amperes and ends; the volts of each
// stage, and the most current, from cold to hot, with the source of every figure;
// and a charge from -start_percent through a cable, the voltage held at the
// source and, beside it, held at the battery by sense wires. Where the battery may
// not be charged it says so in place of a voltage. With -working it prints every
// line of the sum. With -o it also draws volts, amperes and state of charge over
// the hours, as SVG for a sheet of A4, whole or not at all. The picture does
// without colour.
//
// The letters are those of DIN 41772: I constant current, U constant voltage, o
// change-over, a end. What a flag leaves unset comes from the tables for the
// chemistry; what they do not have, the program asks for. Times are rounded up to
// the minute. The charge is that of charge.Simulation: an EMF behind a resistance,
// and of lead-acid the voltage that climbs under charge by the model of CIEMAT.
//
// The exit status is 0 where there is an answer, 1 where the battery
// may not be charged, and 2 where a flag or the file cannot be
// used, with one line a fault.
package main

import (
	"io"
	"os"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/sheet"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	return form.Program{Name: "profile", Entries: entries, Heading: "Asked", Sums: true, Picture: "curve.svg", Caution: caution}.Run(args, out, errs, reply)
}

// reply answers what the flags ask.
func reply(f *form.Form) (form.Answer, error) {
	q := read(f)
	if err := f.Faults(); err != nil {
		return form.Answer{}, err
	}
	a, err := q.answer()
	if err == nil && a.barred != "" {
		return a.without(), nil
	}
	return form.Answer{Print: a.print, Working: a.printWorking, Save: func(file string, force bool) error { return sheet.WriteWhole(file, force, a.draw) }}, err
}
