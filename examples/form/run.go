package form

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"example.org/extralow/tables/working"
)

// Program is a program that asks one question.
type Program struct {
	Name    string
	Entries []Entry
	Heading string // over what was asked
	Sums    bool   // it prints its working on request
	Picture string // a name for the file of its picture, such as hours.svg; "" where it draws none
	Caution string // ends each page; a line of it is a paragraph
}

// Answer is what a program found, and how it is shown.
type Answer struct {
	Print   func(io.Writer)
	Working func(io.Writer)                     // the lines that led to it, where it has any
	Save    func(file string, force bool) error // writes its picture, whole or not at all; nil where there is none
	Undrawn error                               // why there is none
	No      bool                                // what was asked for cannot be, or must not: nothing fits, a check fails
}

// Run answers what the arguments ask and returns the exit status: 0, 1 where the
// answer is no, and 2 where a flag or the file cannot be used, with one line a fault.
// A picture is written before the page, so that a page tells of none that is not
// there.
func (p Program) Run(args []string, out, errs io.Writer, ask func(*Form) (Answer, error)) int {
	f := New(p.Name, p.Entries)
	file, force, withWorking := new(string), new(bool), new(bool)
	if p.Picture != "" {
		file, force = f.File("o", "file to write the picture to, as SVG"), f.Switch("force", "let it replace a file that is there")
	}
	if p.Sums {
		withWorking = f.Switch("working", "print every line of the sums")
	}
	if err := f.Parse(args); err != nil {
		return f.Refused(errs, err)
	}
	a, err := ask(f)
	if err == nil && f.Given("o") {
		err = a.save(*file, *force)
	}
	if err != nil {
		return f.Refused(errs, err)
	}
	var page bytes.Buffer
	f.Print(&page, p.Heading)
	a.Print(&page)
	if *withWorking && a.Working != nil {
		a.Working(&page)
	}
	p.end(&page, a, *file)
	if _, err := page.WriteTo(out); err != nil {
		return f.Refused(errs, err)
	}
	if a.No {
		return 1
	}
	return 0
}

func (a Answer) save(file string, force bool) error {
	if a.Save == nil {
		return a.Undrawn
	}
	return working.In("o", a.Save(file, force))
}

// end says where the picture is, or how to get it, and the cautions.
func (p Program) end(out io.Writer, a Answer, file string) {
	fmt.Fprintln(out)
	switch {
	case file != "":
		fmt.Fprintf(out, "The picture is in %s.\n", file)
	case a.Save != nil:
		fmt.Fprintf(out, "To draw it: go run ./examples/%s -o %s\n", p.Name, p.Picture)
	}
	for _, paragraph := range strings.Split(p.Caution, "\n") {
		for _, line := range working.Wrap(paragraph, pageWidth) {
			fmt.Fprintln(out, line)
		}
	}
}
