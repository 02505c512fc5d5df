// Package form reads the flags of a program that asks one question: every flag
// has a sample value, so that the program answers without any, and all faults of
// what was typed are found before it answers.
//
// A flag bears the name of the library's own key, unit included, with its
// underscores or with hyphens in their place ("length_m", "length-m"): so an
// error of the library names what was typed.
package form

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Entry is one flag: its name, the value it has where it is left out, and what
// it means. A flag that may stay unset has no sample value.
type Entry struct {
	Name, Sample, Means string
	Words               func() []string // those that it takes, where it takes no others; the help lists them
}

// Names lists the words of a kind that the tables know, such as "family".
func Names(kind string) func() []string {
	return func() []string {
		names, _ := tables.Names(kind) // of no kind there are none
		return names
	}
}

// Form is the flags of a program as typed, with every fault found in them.
type Form struct {
	flags   *flag.FlagSet
	entries []Entry // what is asked
	others  []Entry // how the answer is given
	faults  []error
}

// New returns the form of a program. No two flags may have one name: package
// flag panics where they do.
func New(program string, entries []Entry) *Form {
	f := &Form{flags: flag.NewFlagSet(program, flag.ContinueOnError), entries: entries}
	f.flags.SetOutput(io.Discard)
	for _, e := range entries {
		f.flags.String(e.Name, e.Sample, e.Means)
	}
	return f
}

// Switch adds a flag that is off unless typed. It asks nothing, and is not
// printed with what was asked.
func (f *Form) Switch(name, means string) *bool {
	f.others = append(f.others, Entry{Name: name, Means: means})
	return f.flags.Bool(name, false, means)
}

// File adds a flag that takes the name of a file. [Form.Given] tells an empty
// name from none.
func (f *Form) File(name, means string) *string {
	f.others = append(f.others, Entry{Name: name, Sample: "FILE", Means: means})
	return f.flags.String(name, "", means)
}

// Parse reads the arguments. A flag that there is not, a word that is no flag and
// a value that a terminal would not show as it stands are errors, and so is a call
// for help, which [Form.Refused] answers.
func (f *Form) Parse(args []string) error {
	if err := f.flags.Parse(args); err != nil {
		return err
	}
	if f.flags.NArg() > 0 {
		return fmt.Errorf("%q is no flag: want flags only%s", f.flags.Arg(0), f.instance())
	}
	var all []error
	f.flags.Visit(func(one *flag.Flag) {
		if text := one.Value.String(); Printable(text) != text {
			all = append(all, &working.InputError{Field: one.Name, Got: strconv.Quote(text), Want: "one line of letters that can be printed"})
		}
	})
	return errors.Join(all...)
}

// Printable writes out what a terminal would obey or hide in place of showing it:
// control characters, line ends, marks that turn the direction of reading.
func Printable(text string) string {
	var b strings.Builder
	for _, r := range text {
		shown := string(r)
		if !unicode.IsPrint(r) {
			shown = strings.Trim(strconv.QuoteRune(r), "'")
		}
		b.WriteString(shown)
	}
	return b.String()
}

// instance is a flag as one types it, in quotes where the shell wants them.
func (f *Form) instance() string {
	if len(f.entries) == 0 {
		return ""
	}
	first := f.entries[0]
	if strings.ContainsAny(first.Sample, " ;") {
		first.Sample = strconv.Quote(first.Sample)
	}
	return fmt.Sprintf(", such as -%s %s", first.Name, first.Sample)
}

// Text returns a flag as typed, or its sample value; nothing where there is no
// such flag.
func (f *Form) Text(name string) string {
	if one := f.flags.Lookup(name); one != nil {
		return one.Value.String()
	}
	return ""
}

// Given reports whether a flag was typed.
func (f *Form) Given(name string) (typed bool) {
	f.flags.Visit(func(one *flag.Flag) { typed = typed || one.Name == name })
	return typed
}

// Unset empties a flag whose sample value does not count, because another flag
// was given in its stead.
func (f *Form) Unset(name string) {
	if one := f.flags.Lookup(name); one != nil {
		one.Value.Set("")
	}
}

// Number reads a flag as a number and puts it to the checks. A fault is kept;
// the flag then counts as left at its sample value, so that the others can still
// be judged by it.
func (f *Form) Number(name string, checks ...Check) decimal.Decimal {
	v, err := ReadNumber(name, f.Text(name), checks...)
	if err == nil {
		return v
	}
	f.Refuse(err)
	return f.sample(name)
}

// sample is a flag's sample value as a number; nought where it has none.
func (f *Form) sample(name string) decimal.Decimal {
	one := f.flags.Lookup(name)
	if one == nil {
		return decimal.Zero
	}
	v, _ := ReadNumber(name, one.DefValue)
	return v
}

// Optional is a number that may be left empty. It is unset where it is, and
// where it is at fault.
func (f *Form) Optional(name string, checks ...Check) decimal.NullDecimal {
	if f.Text(name) == "" {
		return decimal.NullDecimal{}
	}
	v, err := ReadNumber(name, f.Text(name), checks...)
	f.Refuse(err)
	return decimal.NullDecimal{Decimal: v, Valid: err == nil}
}

// Whole is a number of things.
func (f *Form) Whole(name string, checks ...Check) int {
	return int(f.Number(name, append([]Check{whole}, checks...)...).IntPart())
}

// Refuse keeps a fault. A nil error is none.
func (f *Form) Refuse(err error) {
	if err != nil {
		f.faults = append(f.faults, err)
	}
}

// Faults returns every fault so far as one error, or nil.
func (f *Form) Faults() error { return errors.Join(f.faults...) }
