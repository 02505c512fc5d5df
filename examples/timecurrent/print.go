package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

const caution = "Caution: a design aid, not a certificate. The band holds from cold; " +
	"a bad joint opens no fuse. Breaking capacity, place and drop are judged elsewhere. " +
	"Local codes and competent people decide."

// para writes text in lines of the page's width.
func para(out io.Writer, text string) {
	for _, line := range working.Wrap(text, 80) {
		fmt.Fprintln(out, line)
	}
}

func (j judged) title() string {
	return fmt.Sprintf("%s, %s A, with %s %s", j.device.Family, j.device.RatingA, j.lay.Size, j.insulation)
}

// print writes times, verdicts and sources.
func (j judged) print(out io.Writer) {
	fmt.Fprintln(out, "\nTimes")
	j.printTimes(out)
	fmt.Fprintln(out, "\nVerdicts")
	para(out, "  Window: "+j.reason)
	for _, c := range j.checks {
		for i, line := range working.Wrap(verdict(c), 74) {
			indent := "  "
			if i > 0 {
				indent = "      "
			}
			fmt.Fprintln(out, indent+line)
		}
	}
	fmt.Fprintln(out, "\nSources")
	for _, s := range j.sources() {
		para(out, "  "+s)
	}
}

// verdict is a check in words, with what it stands on.
func verdict(c working.Check) string {
	text := fmt.Sprintf("%s %s: %s", c.ID, c.Verdict(), c.Title)
	switch c.Verdict() {
	case working.CannotTell:
		return text + "; " + c.Missing
	case working.NotApplicable:
		return text + "; " + c.Silent
	}
	return fmt.Sprintf("%s; %s %s against %s %s (%s)", text, show(c.Demand), c.Unit, show(c.Limit), c.Unit, c.Working.Confidence())
}

func show(v decimal.Decimal) string {
	text, _ := working.Show(v)
	return text
}

// printTimes says in words what the picture shows at each of its currents.
func (j judged) printTimes(out io.Writer) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "  at\tA\topens not before\topens by\tcable at %s °C after\n", j.finalC)
	for _, row := range j.times {
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\n", row.name, row.currentA,
			clock(row.opens.LeastS, "not known", decimal.Decimal.RoundFloor),
			clock(row.opens.MostS, "need not open", decimal.Decimal.RoundCeil),
			clock(row.bears, "never", decimal.Decimal.RoundFloor))
	}
	t.Flush()
}

// clock writes a time as time-current paper does, rounded towards the strict
// side.
func clock(v decimal.NullDecimal, unset string, round func(decimal.Decimal, int32) decimal.Decimal) string {
	const minute, hour = 60, 3600
	s := v.Decimal
	switch {
	case !v.Valid:
		return unset
	case s.LessThan(decimal.NewFromInt(minute)):
		return s.String() + " s"
	case s.LessThan(decimal.NewFromInt(hour)):
		return round(s.Div(decimal.NewFromInt(minute)), 1).String() + " min"
	default:
		return round(s.Div(decimal.NewFromInt(hour)), 1).String() + " h"
	}
}

// sources lists what was looked up and where, and the laws, each once.
func (j judged) sources() []string {
	var all []string
	for _, c := range j.checks {
		for _, s := range c.Working {
			text := s.Source.Document().String()
			if s.Kind == working.LookedUp {
				text = s.Name + ": " + text
			}
			if s.Source.Key != "" && !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	return all
}

// remarks stand under the picture.
func (j judged) remarks() []string {
	return []string{
		"Grey: the device opens somewhere in here, from cold.",
	}
}

var _ = strings.Join
var _ = cite.Arithmetic
