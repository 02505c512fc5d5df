// Lesson sets a drill of ten questions on 12 V and 24 V installations, with
// numbers of its own for every seed.
//
//	go run ./examples/lesson                      the sheet for the class
//	go run ./examples/lesson -answers             the same sheet with the answers
//	go run ./examples/lesson -seed 7 -answers
//
// Two questions each ask for a voltage drop, an ampacity, a fuse and the time to
// refill a bank, one for a fault current and one for the current of an inverter.
// One seed gives one sheet, so that the class can have different sheets and the
// teacher the answers to each.
//
// An answer is the library's own working, with the source of each figure. Under
// it stands the usual mistake, the number it leads to, and what that number does
// to the installation.
//
// The exit status is 0, or 2 where a flag cannot be used, with one line a fault.
package main

import (
	"fmt"
	"io"
	"os"
	"strconv"

	"example.org/extralow/examples/form"
	"example.org/extralow/tables/working"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	f := form.New("lesson", []form.Entry{{Name: "seed", Sample: "1", Means: "number of the sheet"}})
	answers := f.Switch("answers", "print the answers and the usual mistakes")
	err := f.Parse(args)
	if err == nil {
		err = lesson(out, f.Text("seed"), *answers)
	}
	if err != nil {
		return f.Refused(errs, err)
	}
	return 0
}

// lesson prints the sheet of a seed.
func lesson(out io.Writer, text string, answers bool) error {
	seed, err := strconv.ParseUint(text, 10, 32)
	if err != nil {
		return &working.InputError{Field: "seed", Got: fmt.Sprintf("%q", text), Want: "a whole number from 0 to 4294967295"}
	}
	questions, err := drill(seed)
	if err != nil {
		return err
	}
	sheet(out, seed, questions, answers)
	return nil
}
