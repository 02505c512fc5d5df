package form

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/extralow/tables/working"
)

const pageWidth, valueWidth = 80, 18

// Print lists what was asked under a heading, with a star at what was left at
// its sample value.
func (f *Form) Print(out io.Writer, heading string) {
	fmt.Fprintf(out, "%s (* is a sample value of ours: give your own)\n", heading)
	for _, e := range f.entries {
		value, mark := f.Text(e.Name), "* "
		if value == "" || f.Given(e.Name) {
			mark = "  "
		}
		f.row(out, mark, Entry{Name: e.Name, Sample: cmp.Or(value, "unset"), Means: e.Means})
	}
}

// row prints one flag in columns. A value of several parts, and one that is too
// long for the page, stands on lines of its own.
func (f *Form) row(out io.Writer, mark string, e Entry) {
	line := func(value string) string {
		return fmt.Sprintf("%s%-*s  %-*s %s", mark, f.nameWidth(), e.Name, valueWidth, value, e.Means)
	}
	parts := strings.Split(e.Sample, ";")
	if whole := line(e.Sample); len(parts) == 1 && utf8.RuneCountInString(whole) <= pageWidth {
		fmt.Fprintln(out, whole)
		return
	}
	fmt.Fprintln(out, line(""))
	for _, part := range parts {
		fmt.Fprintf(out, "    %s\n", strings.TrimSpace(part))
	}
}

// nameWidth is the length of the longest name of what is asked.
func (f *Form) nameWidth() (longest int) {
	for _, e := range f.entries {
		longest = max(longest, utf8.RuneCountInString(e.Name))
	}
	return longest
}

// Refused prints why there is no answer, one line a fault and none twice, and
// returns the exit status 2. A call for help gets the list of flags, and 0.
func (f *Form) Refused(errs io.Writer, err error) int {
	if errors.Is(err, flag.ErrHelp) {
		f.help(errs)
		return 0
	}
	var said []string
	for _, line := range f.lines(err) {
		if !slices.Contains(said, line) {
			fmt.Fprintf(errs, "%s: %s\n", f.flags.Name(), line)
			said = append(said, line)
		}
	}
	return 2
}

func (f *Form) help(out io.Writer) {
	fmt.Fprintf(out, "%s [flags], each with its sample value:\n", f.flags.Name())
	for _, e := range f.entries {
		f.row(out, " -", Entry{Name: e.Name, Sample: cmp.Or(e.Sample, "unset"), Means: e.Means})
	}
	for _, e := range f.others {
		f.row(out, " -", e)
	}
	for _, e := range f.entries {
		if e.Words != nil {
			fmt.Fprintf(out, "\n-%s takes one of\n", e.Name)
			for _, line := range working.Wrap(strings.Join(e.Words(), "; "), pageWidth-2) {
				fmt.Fprintln(out, "  "+line)
			}
		}
	}
}

// lines returns one line a fault.
func (f *Form) lines(err error) []string {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []string{Printable(strings.ReplaceAll(f.line(err), "\n", " "))}
	}
	var all []string
	for _, one := range joined.Unwrap() {
		all = append(all, f.lines(one)...)
	}
	return all
}

// line is a fault with the flag in place of the library's key and its path.
func (f *Form) line(err error) string {
	bad, ok := errors.AsType[*working.InputError](err)
	if !ok {
		return err.Error()
	}
	named := *bad
	key := bad.Field[strings.LastIndex(bad.Field, ".")+1:]
	for _, name := range []string{strings.ReplaceAll(key, "_", "-"), key} {
		if f.flags.Lookup(name) != nil {
			named.Field = name
		}
	}
	return named.Error()
}
