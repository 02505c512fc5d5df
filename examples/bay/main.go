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
// SVG for a sheet of A4, whole or not at all, and over an older file only with
// -force. The cable's bend is counted from
// the end of the case, as if its post stood there. Straps are drawn 25 mm wide.
//
// The flags bear the names of the library's own fields, unit included; one left
// out has the value of our sample. The exit status is 0 where there is an answer, 1 where a case does
// not fit or a check fails, and 2 where a flag or the file cannot be
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
	return form.Program{Name: "bay", Entries: entries, Heading: "Asked", Sums: true, Picture: "bay.svg", Caution: caution}.Run(args, out, errs, reply)
}

// reply answers what the flags ask.
func reply(f *form.Form) (form.Answer, error) {
	q := read(f)
	a, err := q.answer(f.Faults())
	return form.Answer{Print: a.print, Working: a.printWorking, Save: func(file string, force bool) error { return sheet.WriteWhole(file, force, a.draw) }, No: a.no()}, err
}
