// Runtime shows how long one bank lasts, against the load: lead-acid by its two
// ratings, what its label promises, and LiFePO4 beside it, in the warm and in
// the cold.
//
//	go run ./examples/runtime
//	go run ./examples/runtime -power_w 600 -battery_c 20,-5
//	go run ./examples/runtime -o hours.svg
//
// It prints where the hours of one load go (age, cold, rate, depth) and a table
// of loads from a trickle to the most that the bank gives. With -working it
// prints every line of the sum at the first temperature. With -o it also draws
// all hours over all loads on logarithmic axes, as SVG for a sheet of A4, whole
// or not at all. The picture does without colour: each line bears its name.
//
// Lead-acid follows Peukert's law between its two ratings, in the form referred
// to the slow one; slower it gives no more than that rating, and faster nothing
// is known. A bank that is old or cold counts as a smaller one, as in the sizing
// of stationary batteries, so that a current weighs more on it. LiFePO4 is taken
// to give the same charge at any rate up to one capacity an hour, which its
// electronics usually allow. Capacities are those of the whole bank: batteries
// in parallel add up. Watts are amperes times the nominal voltage; a load of
// constant power draws more amperes as the volts fall.
//
// The exit status is 0 where there is an answer, and 2 where a flag or the file
// cannot be used, with one line a fault.
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
	return form.Program{Name: "runtime", Entries: entries, Heading: "Asked", Sums: true, Picture: "hours.svg", Caution: caution}.Run(args, out, errs, reply)
}

// reply answers what the flags ask.
func reply(f *form.Form) (form.Answer, error) {
	q := read(f)
	if err := f.Faults(); err != nil {
		return form.Answer{}, err
	}
	a, err := q.answer()
	return form.Answer{Print: a.print, Working: a.printWorking, Save: func(file string, force bool) error { return sheet.WriteWhole(file, force, a.draw) }}, err
}
