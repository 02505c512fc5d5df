package main

import (
	"flag"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"example.org/extralow/battery"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// entry is one flag with its sample value.
type entry struct{ name, sample, means string }

var entries = []entry{
	{"chemistry", "lead-acid AGM", "a kind of lead-acid"},
	{"slow_ah", "220", "its rating, the whole bank, Ah"},
	{"slow_h", "20", "in so many hours"},
	{"fast_ah", "132", "its other rating, Ah"},
	{"fast_h", "1", "in so many hours"},
	{"depth_percent", "50", "of that charge is used, %"},
	{"lithium_ah", "220", "LiFePO4 beside it, Ah"},
	{"lithium_depth_percent", "80", "of that charge is used, %"},
	{"ageing_percent", "80", "left when either is replaced, %"},
	{"system_v", "12", "nominal voltage, V"},
	{"battery_c", "25,0,-10", "of the battery, up to three, °C"},
	{"current_a", "25", "load to look at, A"},
	{"power_w", "", "the same in W, in place of current_a"},
}

// form is the flags as typed, and every fault found in them.
type form struct {
	*flag.FlagSet
	faults []error
}

func newForm() *form {
	f := &form{FlagSet: flag.NewFlagSet("runtime", flag.ContinueOnError)}
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
	return fmt.Errorf("%q is no flag: want flags only, such as -current_a 25", f.Arg(0))
}

func (f *form) text(name string) string { return f.Lookup(name).Value.String() }

// given reports whether a flag was typed.
func (f *form) given(name string) (typed bool) {
	f.Visit(func(one *flag.Flag) { typed = typed || one.Name == name })
	return typed
}

var plainNumber = regexp.MustCompile(`^[+-]?[0-9]{1,12}(\.[0-9]{1,12})?$`)

type rangeCheck = func(field string, v decimal.Decimal, low, high int64) error

// number reads a flag and checks it against its range.
func (f *form) number(name string, within rangeCheck, low, high int64) decimal.Decimal {
	return f.numberIn(name, f.text(name), within, low, high)
}

func (f *form) numberIn(name, text string, within rangeCheck, low, high int64) decimal.Decimal {
	v, err := decimal.NewFromString(text)
	if err != nil || !plainNumber.MatchString(text) {
		f.refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%q", text), Want: "a number of plain digits, such as 12.5, without a unit"})
		return v
	}
	f.refuse(within(name, v, low, high))
	return v
}

func (f *form) refuse(err error) {
	if err != nil {
		f.faults = append(f.faults, err)
	}
}

// read turns the flags into a question.
func (f *form) read() question {
	above := working.Above
	q := question{chemistry: f.text("chemistry")}
	f.refuse(working.OneOf("chemistry", q.chemistry, leadAcid()...))
	q.ratings.Slow = battery.HourRating{CapacityAh: f.number("slow_ah", above, 0, 5000), RateH: f.number("slow_h", above, 0, 1000)}
	q.ratings.Fast = battery.HourRating{CapacityAh: f.number("fast_ah", above, 0, 5000), RateH: f.number("fast_h", above, 0, 1000)}
	q.depth = f.number("depth_percent", above, 0, 100)
	q.lithiumAh = f.number("lithium_ah", above, 0, 5000)
	q.lithiumDepth = f.number("lithium_depth_percent", above, 0, 100)
	q.ageing = f.number("ageing_percent", working.Between, 20, 100)
	q.systemV = f.number("system_v", above, 0, 60)
	q.temperatures = f.temperatures()
	q.loadA = f.load(q.systemV)
	return q
}

// temperatures reads a list of up to three, the widest that the page takes.
func (f *form) temperatures() []decimal.Decimal {
	const name = "battery_c"
	words := strings.Split(f.text(name), ",")
	if len(words) > 3 {
		f.refuse(&working.InputError{Field: name, Got: fmt.Sprintf("%q", f.text(name)), Want: "up to three temperatures with commas, such as 25,0,-10"})
		return nil
	}
	var all []decimal.Decimal
	for _, word := range words {
		v := f.numberIn(name, strings.TrimSpace(word), working.Between, -40, 80)
		if slices.ContainsFunc(all, v.Equal) {
			f.refuse(&working.InputError{Field: name, Got: v.String() + " twice", Want: "each temperature once"})
		}
		all = append(all, v)
	}
	return all
}

// load reads the load in amperes or, in their place, in watts.
func (f *form) load(systemV decimal.Decimal) decimal.Decimal {
	if f.text("power_w") == "" {
		return f.number("current_a", working.Above, 0, 10_000)
	}
	if f.given("current_a") {
		f.refuse(&working.InputError{Field: "power_w", Got: f.text("power_w") + " beside current_a " + f.text("current_a"), Want: "one of both"})
	}
	watts := f.number("power_w", working.Above, 0, 100_000)
	if len(f.faults) > 0 {
		return decimal.Decimal{}
	}
	amps, rest := watts.QuoRem(systemV, 2)
	if rest.IsPositive() {
		amps = amps.Add(decimal.New(1, -2))
	}
	return amps
}

// print lists what was asked, with a star at what was left at its sample value.
func (f *form) print(out io.Writer) {
	fmt.Fprintln(out, "Asked (* is a sample value of ours: give your own)")
	for _, e := range entries {
		mark, value := "*", f.text(e.name)
		if f.given(e.name) {
			mark = " "
		}
		if e.name == "current_a" && f.given("power_w") || value == "" {
			mark, value = " ", "unset"
		}
		fmt.Fprintf(out, "%s %-22s %-17s %s\n", mark, e.name, value, e.means)
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
