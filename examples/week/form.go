package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// entry is one flag. Its name is the library's own key with hyphens, so that an
// error of the library names what was typed.
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

// given reports whether a flag was typed.
func (f *form) given(name string) (typed bool) {
	f.Visit(func(one *flag.Flag) { typed = typed || one.Name == name })
	return typed
}

var plainNumber = regexp.MustCompile(`^[+-]?[0-9]{1,12}(\.[0-9]{1,12})?$`)

// plain reads a number as people write it.
func plain(field, text string) (decimal.Decimal, error) {
	v, err := decimal.NewFromString(text)
	if err != nil || !plainNumber.MatchString(text) {
		return v, &working.InputError{Field: field, Got: fmt.Sprintf("%q", text), Want: "a number of plain digits, such as 12.5, without a unit"}
	}
	return v, nil
}

// number reads a flag and checks it against its range.
func (f *form) number(name string, within func(string, decimal.Decimal, int64, int64) error, low, high int64) decimal.Decimal {
	v, err := plain(name, f.text(name))
	if err == nil {
		err = within(name, v, low, high)
	}
	f.refuse(err)
	return v
}

// optional is a number that may be left out.
func (f *form) optional(name string, low, high int64) decimal.NullDecimal {
	if f.text(name) == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(f.number(name, working.Between, low, high))
}

// whole is a number of things.
func (f *form) whole(name string, low, high int64) int {
	v := f.number(name, working.Between, low, high)
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
	fmt.Fprintln(out, "Asked (* is a sample value of ours: give your own)")
	for _, e := range f.entries {
		mark, value := "*", f.text(e.name)
		if f.given(e.name) {
			mark = " "
		}
		if value == "" {
			mark, value = " ", "unset"
		}
		items := strings.Split(value, ";")
		if len(items) > 1 || len(value) > 17 {
			value = ""
		}
		fmt.Fprintf(out, "%s %-17s  %-17s %s\n", mark, e.name, value, e.means)
		for _, item := range items {
			if value == "" {
				fmt.Fprintf(out, "    %s\n", strings.TrimSpace(item))
			}
		}
	}
}

// lines returns one line a fault, with the flag's name for the library's key.
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
		flat.Field = strings.ReplaceAll(strings.TrimPrefix(flat.Field, "battery."), "_", "-")
		return []string{flat.Error()}
	}
	return []string{err.Error()}
}

// refused prints every fault and returns the exit status.
func (f *form) refused(errs io.Writer, err error) int {
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprintf(errs, "%s [flags]; -o FILE writes the picture as SVG\n\n", f.Name())
		f.print(errs)
		return 0
	}
	for _, line := range lines(err) {
		fmt.Fprintf(errs, "%s: %s\n", f.Name(), line)
	}
	return 2
}
