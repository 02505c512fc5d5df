// Timecurrent draws one circuit on time-current paper: when its device opens,
// how long its cable bears a fault, and where load, surge and faults lie.
//
//	go run ./examples/timecurrent
//	go run ./examples/timecurrent -o sheet.svg
//	go run ./examples/timecurrent -family "ISO 8820-3 C" -rating 20 -size "4 mm2" -load 14 -o sheet.svg
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
// what a gate still bounds is drawn in thin dashes. The cable bears k²S² up to 5
// s, counted from full load; beyond that the heating law of package wire holds.
//
// A flag left out has the value of our sample. -insulation is a name of the
// table of constants k, whose temperature also picks the ampacity. -fault-least
// is the fault at the far end with everything hot and the source weak,
// -fault-most the one at the device with the source full. The rules are those of
// the European set, and the load counts as one that lasts.
//
// The exit status is 0 where there is an answer, whatever the verdicts, and 2
// where a flag or the file cannot be used, with one line a fault.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"syscall"

	"example.org/extralow/tables/working"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := newForm()
	file := f.String("o", "", "file to write the picture to, as SVG")
	if err := f.parse(args); err != nil {
		return f.refused(errs, err)
	}
	c := read(f)
	if err := errors.Join(f.faults...); err != nil {
		return f.refused(errs, err)
	}
	j, err := c.judge()
	if err == nil && f.given("o") {
		err = write(*file, j)
	}
	if err != nil {
		return f.refused(errs, err)
	}
	f.print(out)
	j.print(out)
	if f.given("o") {
		fmt.Fprintf(out, "\nThe picture is in %s.\n", *file)
	} else {
		fmt.Fprintln(out, "\nTo draw it: go run ./examples/timecurrent -o sheet.svg")
	}
	para(out, "", caution)
	return 0
}

// write writes the picture to a file, whole or not at all.
func write(name string, j judged) error {
	if old, err := os.Lstat(name); name == "" || err == nil && !old.Mode().IsRegular() {
		return &working.InputError{Field: "o", Got: fmt.Sprintf("%q", name), Want: "the name of a file, new or to be replaced"}
	}
	temp, err := os.CreateTemp(filepath.Dir(name), ".timecurrent-*")
	if err != nil {
		return unwritten(name, err)
	}
	defer os.Remove(temp.Name()) // gone already where all went well
	err = errors.Join(j.draw(temp), temp.Chmod(0o644), temp.Close())
	if err == nil {
		err = os.Rename(temp.Name(), name)
	}
	return unwritten(name, err)
}

// unwritten says in one line why a file could not be written.
func unwritten(name string, err error) error {
	if err == nil {
		return nil
	}
	if plain, ok := errors.AsType[syscall.Errno](err); ok {
		err = plain
	}
	return fmt.Errorf("o: cannot write %q: %w", name, err)
}

// refused prints every fault and returns the exit status.
func (f *form) refused(errs io.Writer, err error) int {
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(errs, "timecurrent [flags], each with its sample value:")
		f.SetOutput(errs)
		f.PrintDefaults()
		return 0
	}
	for _, line := range lines(err) {
		fmt.Fprintln(errs, "timecurrent: "+line)
	}
	return 2
}
