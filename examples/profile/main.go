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
// The exit status is 0 where there is an answer, also where that is that the
// battery may not be charged, and 2 where a flag or the file cannot be used, with
// one line a fault.
package main

import (
	"bytes"
	"fmt"
	"io"
	"os"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/sheet"
	"example.org/extralow/tables/working"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := form.New("profile", entries)
	file := f.File("o", "file to write the picture to, as SVG")
	force := f.Switch("force", "let it replace a file that is there")
	withWorking := f.Switch("working", "print every line of the sum")
	if err := f.Parse(args); err != nil {
		return f.Refused(errs, err)
	}
	q := read(f)
	if err := f.Faults(); err != nil {
		return f.Refused(errs, err)
	}
	a, err := q.answer()
	if err == nil && f.Given("o") {
		err = a.write(*file, *force)
	}
	if err != nil {
		return f.Refused(errs, err)
	}
	var page bytes.Buffer
	f.Print(&page, "Asked")
	a.print(&page)
	if *withWorking {
		a.printWorking(&page)
	}
	a.printEnd(&page, *file)
	if _, err := page.WriteTo(out); err != nil {
		return f.Refused(errs, err)
	}
	return 0
}

// write draws the picture into a file. Of a battery that may not be charged there
// is none.
func (a answer) write(file string, force bool) error {
	if a.barred != "" {
		return &working.InputError{Field: "battery_c", Got: a.battery.BatteryC.String(), Want: "a temperature at which there is a charge to draw: " + a.barred}
	}
	return working.In("o", sheet.WriteWhole(file, force, a.draw))
}

// printEnd says where the picture is, or how to get it, and the cautions.
func (a answer) printEnd(out io.Writer, file string) {
	switch {
	case file != "":
		fmt.Fprintf(out, "\nThe picture is in %s.\n", file)
	case a.barred == "":
		fmt.Fprintln(out, "\nTo draw it: go run ./examples/profile -o curve.svg")
	default:
		fmt.Fprintln(out)
	}
	para(out, "", caution)
}
