// Bay asks whether batteries go into a measured space, and draws them in it:
// plan and front view with terminals, clearances, cable bends, straps and
// openings, each dimension in mm.
//
//	go run ./examples/bay
//	go run ./examples/bay -case delivered -o bay.svg
//	go run ./examples/bay -space_length_mm 800 -chemistry "lead-acid AGM" -cells 6
//
// The case that arrives is often longer than the one on the drawing: by its
// handles, its feet, or because the maker changed it (common practice: measure
// the article before the space is built). So every question is asked twice, of
// the case as drawn and of the case as delivered, longer by -longer_mm. -case
// picks one of them. Everything is taken at its worst: cases bigger and space
// smaller by their tolerances.
//
// It also prints the warmth of the closed bay, the openings that the gas of a
// charge asks for, the forces on the fixings and what the axles bear. With
// -working it prints every line of the sums. With -o it writes the drawing as
// SVG for a sheet of A4, whole or not at all. The cable's bend is counted from
// the end of the case, as if its post stood there. Straps are drawn 25 mm wide.
//
// The flags bear the names of the library's own fields, unit included; one left
// out has the value of our sample. The exit status is 0 where there is an
// answer, also that it does not fit, and 2 where a flag or the file cannot be
// used, with one line a fault.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"example.org/extralow/tables/working"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := newForm()
	file := f.String("o", "", "file to write the drawing to, as SVG")
	withWorking := f.Bool("working", false, "print every line of the sums")
	if err := f.parse(args); err != nil {
		return f.refused(errs, err)
	}
	q := f.read()
	if f.given("o") && *file == "" {
		f.refuse(&working.InputError{Field: "o", Got: `""`, Want: "a file name, such as bay.svg"})
	}
	a, err := q.answer(f.faults)
	if err == nil && f.given("o") {
		err = write(*file, a)
	}
	if err != nil {
		return f.refused(errs, err)
	}
	f.print(out)
	a.print(out)
	if *withWorking {
		a.printWorking(out)
	}
	printEnd(out, *file)
	return 0
}

// printEnd says where the drawing is, or how to get it, and the cautions.
func printEnd(out io.Writer, file string) {
	if file == "" {
		fmt.Fprintln(out, "\nTo draw it: go run ./examples/bay -o bay.svg")
	} else {
		fmt.Fprintf(out, "\nThe drawing is in %s.\n", file)
	}
	para(out, "", caution)
}

// write writes the drawing to a file, whole or not at all.
func write(name string, a answer) error {
	temp, err := os.CreateTemp(filepath.Dir(name), ".bay-*")
	if err != nil {
		return unwritten(name, err)
	}
	defer os.Remove(temp.Name()) // no longer there once it has its name
	if err := errors.Join(a.draw(temp), temp.Chmod(0o644), temp.Close()); err != nil {
		return unwritten(name, err)
	}
	if err := os.Rename(temp.Name(), name); err != nil {
		return unwritten(name, err)
	}
	return nil
}

// unwritten names the file as typed in place of the temporary one.
func unwritten(name string, err error) error {
	for errors.Unwrap(err) != nil {
		err = errors.Unwrap(err)
	}
	return fmt.Errorf("o: %s: %w", name, err)
}

// refused prints every fault and returns the exit status.
func (f *form) refused(errs io.Writer, err error) int {
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(errs, "bay [flags], each with its sample value:")
		f.SetOutput(errs)
		f.PrintDefaults()
		return 0
	}
	for _, line := range lines(err) {
		fmt.Fprintln(errs, "bay: "+line)
	}
	return 2
}
