package main

import (
	"flag"
	"fmt"
	"io"
	"regexp"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// entry is one flag with its sample value.
type entry struct{ name, sample, means string }

var entries = []entry{
	{"family", "ISO 8820-3 E", "of the device, by its standard"},
	{"rating", "40", "of the device, A"},
	{"size", "10 mm2", "of the cable, such as 6 mm2 or AWG 8"},
	{"insulation", "PVC 70 C", "of the cable"},
	{"method", "B", "of laying, IEC 60364-5-52"},
	{"ambient", "35", "air round the cable, °C"},
	{"grouped", "1", "circuits together, itself too"},
	{"load", "31", "steady current, A"},
	{"surge-a", "110", "current while the load starts, A"},
	{"surge-s", "0.3", "how long that lasts, s"},
	{"fault-least", "320", "at the far end, all hot, source weak, A"},
	{"fault-most", "900", "at the device, source full, A"},
}

// form is the flags as typed, and every fault found in them.
type form struct {
	*flag.FlagSet
	faults []error
}

func newForm() *form {
	f := &form{FlagSet: flag.NewFlagSet("timecurrent", flag.ContinueOnError)}
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
	return fmt.Errorf("%q is no flag: want flags only, such as -rating 40", f.Arg(0))
}

func (f *form) text(name string) string { return f.Lookup(name).Value.String() }

// given reports whether a flag was typed.
func (f *form) given(name string) (typed bool) {
	f.Visit(func(one *flag.Flag) { typed = typed || one.Name == name })
	return typed
}

var plainNumber = regexp.MustCompile(`^[+-]?[0-9]{1,12}(\.[0-9]{1,12})?$`)

// number reads a flag and checks it against its range.
func (f *form) number(name, low, high string) decimal.Decimal {
	text, wants := f.text(name), low+" to "+high
	v, err := decimal.NewFromString(text)
	from, to := decimal.RequireFromString(low), decimal.RequireFromString(high)
	switch {
	case err != nil || !plainNumber.MatchString(text):
		f.refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%q", text), Want: wants + " in plain digits, without a unit"})
	case v.LessThan(from) || v.GreaterThan(to):
		f.refuse(&working.InputError{Field: name, Got: text, Want: wants})
	}
	return v
}

func (f *form) refuse(err error) {
	if err != nil {
		f.faults = append(f.faults, err)
	}
}

// read turns the flags into a circuit.
func read(f *form) circuit {
	c := circuit{insulation: f.text("insulation")}
	c.device.Family = f.text("family")
	c.device.RatingA = f.number("rating", "0.1", "10000")
	grouped := f.number("grouped", "1", "60")
	c.lay = wire.Conductor{
		Class: tables.Flexible, Method: f.text("method"), Grouped: int(grouped.IntPart()),
		AmbientC: decimal.NewNullDecimal(f.number("ambient", "-40", "120")),
	}
	c.loadA = f.number("load", "0.1", "10000")
	c.surge.CurrentA = f.number("surge-a", "0.1", "10000")
	c.surge.DurationS = f.number("surge-s", "0.001", "3600")
	c.leastA = f.number("fault-least", "0.1", "10000")
	c.mostA = f.number("fault-most", "0.1", "10000")
	if !grouped.IsInteger() {
		f.refuse(&working.InputError{Field: "grouped", Got: f.text("grouped"), Want: "a whole number"})
	}
	if len(f.faults) == 0 && c.mostA.LessThan(c.leastA) {
		f.refuse(&working.InputError{Field: "fault-most", Got: f.text("fault-most"), Want: "no less than fault-least, " + f.text("fault-least")})
	}
	_, err := tables.FamilyOf(c.device.Family)
	f.refuse(err)
	c.lay.Size, err = tables.ParseSize(f.text("size"))
	f.refuse(err)
	return c
}

// print lists the circuit, with a star at what was left at its sample value.
func (f *form) print(out io.Writer) {
	fmt.Fprintln(out, "Circuit (* is a sample value of ours: give your own)")
	for _, e := range entries {
		mark := "*"
		if f.given(e.name) {
			mark = " "
		}
		fmt.Fprintf(out, "%s %-12s %-18s %s\n", mark, e.name, f.text(e.name), e.means)
	}
}

// lines returns one line a fault.
func lines(err error) []string {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []string
		for _, one := range joined.Unwrap() {
			all = append(all, lines(one)...)
		}
		return all
	}
	return []string{err.Error()}
}
