package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// entry is one flag. Its name is the library's own key, so that an error of the
// library names what was typed.
type entry struct{ name, sample, means string }

// form is the flags as typed, and every fault found in them.
type form struct {
	*flag.FlagSet
	entries []entry
	faults  []error
}

func newForm(program string, entries []entry) *form {
	f := &form{FlagSet: flag.NewFlagSet(program, flag.ContinueOnError), entries: entries}
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	for _, e := range entries {
		f.String(e.name, e.sample, e.means)
	}
	return f
}

// parse reads the arguments. A word that is no flag is a fault.
func (f *form) parse(args []string) error {
	if err := f.Parse(args); err != nil || f.NArg() == 0 {
		return err
	}
	return fmt.Errorf("%q is no flag: want flags only, such as -%s %s", f.Arg(0), f.entries[0].name, f.entries[0].sample)
}

func (f *form) text(name string) string { return f.Lookup(name).Value.String() }

var plainNumber = regexp.MustCompile(`^[+-]?[0-9]{1,12}(\.[0-9]{1,12})?$`)

func (f *form) number(name string) decimal.Decimal {
	text := f.text(name)
	v, err := decimal.NewFromString(text)
	if err != nil || !plainNumber.MatchString(text) {
		f.refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%q", text), Want: "a number of plain digits, such as 12.5, without a unit"})
	}
	return v
}

// optional is a number that may be left out.
func (f *form) optional(name string) decimal.NullDecimal {
	if f.text(name) == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(f.number(name))
}

// whole is a number of things.
func (f *form) whole(name string) int {
	v := f.number(name)
	if !v.IsInteger() {
		f.refuse(&working.InputError{Field: name, Got: v.String(), Want: "a whole number"})
	}
	return int(v.IntPart())
}

func (f *form) refuse(err error) {
	if err != nil {
		f.faults = append(f.faults, err)
	}
}

// print lists what was asked, with a star at what was left at its sample value.
func (f *form) print(out io.Writer) {
	given := map[string]bool{}
	f.Visit(func(one *flag.Flag) { given[one.Name] = true })
	fmt.Fprintln(out, "Asked (* is a sample value of ours: give your own)")
	for _, e := range f.entries {
		mark := "*"
		if given[e.name] {
			mark = " "
		}
		value := f.text(e.name)
		if value == "" {
			value = "unset"
		}
		fmt.Fprintf(out, "%s %-22s %-18s %s\n", mark, e.name, value, e.means)
	}
}

// lines returns one line a fault, without the path that leads to its flag.
func lines(err error) []string {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []string
		for _, one := range joined.Unwrap() {
			all = append(all, lines(one)...)
		}
		return all
	}
	if bad, ok := errors.AsType[*working.InputError](err); ok {
		flat := *bad
		flat.Field = flat.Field[strings.LastIndex(flat.Field, ".")+1:]
		return []string{flat.Error()}
	}
	return []string{err.Error()}
}

// refused prints every fault once and returns the exit status.
func (f *form) refused(errs io.Writer, err error) int {
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprintf(errs, "%s [flags], each with its sample value:\n", f.Name())
		f.SetOutput(errs)
		f.PrintDefaults()
		return 0
	}
	all := lines(err)
	for i, line := range all {
		if !slices.Contains(all[:i], line) {
			fmt.Fprintf(errs, "%s: %s\n", f.Name(), line)
		}
	}
	return 2
}
