// Timecurrent draws one circuit on time-current paper: when its device opens,
// how long its cable bears a fault, and where load, surge and faults lie.
//
//	go run ./examples/timecurrent
//	go run ./examples/timecurrent -o sheet.svg
//	go run ./examples/timecurrent -family "ISO 8820-3 C" -rating_a 20 -size "4 mm2" -load_a 14 -o sheet.svg
//
// Without -o it prints the circuit, the times at each of its currents and the
// verdicts of the packages: the window of ratings (P01 to P03), whether the
// device rides through the surge (P08) and whether it clears the fault at the
// far end before the cable is hurt (P09, for a breaker P11 too). With -o it
// also writes the picture as SVG, whole or not at all, for a sheet of A4. The
// picture does without colour: each line bears its name and has a dash of its
// own.
//
// The device's band runs from gate to gate of its standard. Beyond the gates
// nothing is carried on: a side that ends in a ring is not known past it, and
// what a gate still bounds is drawn in thin dashes. Above the last gate that opens it a
// fuse lets through no more than there, since what it lets through falls as the current
// rises: its dashes fall with the square of the current, and that is what P09 judges. The cable bears k²S² up to 5
// s, counted from full load; beyond that the heating law of package wire holds.
//
// A flag left out has the value of our sample. -insulation is a name of the
// table of constants k, whose temperature also picks the ampacity. -fault_least_a
// is the fault at the far end with everything hot and the source weak,
// -fault_most_a the one at the device with the source full. The rules are those of
// the European set, and the load counts as one that lasts.
//
// The exit status is 0 where there is an answer, 1 where a check
// fails or cannot be told, and 2 where a flag or the file cannot be
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
	return form.Program{Name: "timecurrent", Entries: entries, Heading: "Circuit", Picture: "sheet.svg", Caution: caution}.Run(args, out, errs, reply)
}

// reply answers what the flags ask.
func reply(f *form.Form) (form.Answer, error) {
	c := read(f)
	if err := f.Faults(); err != nil {
		return form.Answer{}, err
	}
	j, err := c.judge()
	return form.Answer{Print: j.print, Save: func(file string, force bool) error { return sheet.WriteWhole(file, force, j.draw) }, No: j.no()}, err
}
