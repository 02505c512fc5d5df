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
// The exit status is 0 where there is an answer, whatever the verdicts, and 2
// where a flag or the file cannot be used, with one line a fault.
package main

import (
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
	f := form.New("timecurrent", entries)
	file := f.File("o", "file to write the picture to, as SVG")
	force := f.Switch("force", "let it replace a file that is there")
	if err := f.Parse(args); err != nil {
		return f.Refused(errs, err)
	}
	c := read(f)
	if err := f.Faults(); err != nil {
		return f.Refused(errs, err)
	}
	j, err := c.judge()
	if err == nil && f.Given("o") {
		err = working.In("o", sheet.WriteWhole(*file, *force, j.draw))
	}
	if err != nil {
		return f.Refused(errs, err)
	}
	f.Print(out, "Circuit")
	j.print(out)
	if f.Given("o") {
		fmt.Fprintf(out, "\nThe picture is in %s.\n", *file)
	} else {
		fmt.Fprintln(out, "\nTo draw it: go run ./examples/timecurrent -o sheet.svg")
	}
	para(out, "", caution)
	return 0
}
