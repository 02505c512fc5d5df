package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

const caution = "Caution: a design aid, not a certificate. The device's times hold from cold, " +
	"and a fuse does not protect against a bad joint. Breaking capacity, place and drop " +
	"are not judged here. Disconnect before work; local codes come first."

// para writes text in lines of the page's width, all but the first indented
// further.
func para(out io.Writer, indent, text string) {
	for i, line := range working.Wrap(text, 80-len(indent)-4) {
		if i > 0 {
			line = "    " + line
		}
		fmt.Fprintln(out, indent+line)
	}
}

// print writes gates, times, verdicts and sources.
func (j judged) print(out io.Writer) {
	fmt.Fprintln(out, "\nGates of the device")
	for _, g := range j.gates {
		para(out, "  ", gate(g))
	}
	fmt.Fprintln(out, "\nTimes")
	j.printTimes(out)
	fmt.Fprintln(out, "\nVerdicts")
	para(out, "  ", "Window: "+j.reason)
	for _, c := range j.checks {
		para(out, "  ", verdict(c))
	}
	fmt.Fprintln(out, "\nSources, and how sure our copy of each is")
	for _, line := range j.sources() {
		para(out, "  ", line)
	}
}

// gate is a gate in words, with any doubt about it.
func gate(g tables.Gate) string {
	text := fmt.Sprintf("%s A:", g.Current.Value)
	if g.LeastS.Valid {
		text += " opens not before " + clock(g.LeastS, down) + ","
	}
	if g.GreatestS.Valid {
		text += " opens by " + clock(g.GreatestS, up) + ","
	}
	text += " " + g.Current.Source.Confidence.String()
	if g.Current.Note != "" {
		text += " (" + g.Current.Note + ")"
	}
	return text
}

// printTimes says in words what the picture shows at each current.
func (j judged) printTimes(out io.Writer) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "  at\tA\topens not before\topens by\tcable at %s °C after\n", j.finalC)
	for _, row := range j.times {
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\n", row.name, row.currentA,
			orElse("not known", clock(row.opens.LeastS, down)),
			orElse("need not", clock(row.lasts, up)),
			orElse("never", clock(row.bears, down)))
	}
	t.Flush()
}

func orElse(word, text string) string {
	if text == "" {
		return word
	}
	return text
}

var down, up = decimal.Decimal.RoundFloor, decimal.Decimal.RoundCeil

// clock writes a time in seconds, minutes or hours, rounded towards the strict
// side; nothing where it is unset.
func clock(v decimal.NullDecimal, round func(decimal.Decimal, int32) decimal.Decimal) string {
	s, minute, hour := v.Decimal, decimal.NewFromInt(60), decimal.NewFromInt(3600)
	switch {
	case !v.Valid:
		return ""
	case s.LessThan(minute):
		return s.String() + " s"
	case s.LessThan(hour):
		return round(s.Div(minute), 1).String() + " min"
	default:
		return round(s.Div(hour), 1).String() + " h"
	}
}

// verdict is a check in words, with the weakest figure that it stands on.
func verdict(c working.Check) string {
	text := fmt.Sprintf("%s %s: %s; ", c.ID, c.Verdict(), c.Title)
	switch c.Verdict() {
	case working.CannotTell:
		return text + c.Missing
	case working.NotApplicable:
		return text + c.Silent
	}
	return text + fmt.Sprintf("%s %s against %s %s (%s)", show(c.Demand), c.Unit, show(c.Limit), c.Unit, c.Working.Confidence())
}

func show(v decimal.Decimal) string {
	text, _ := working.Show(v)
	return text
}

// document names a source and how sure our copy of it is.
func document(s cite.Source) string {
	if s.Key == s.Confidence.String() {
		return s.Key
	}
	return fmt.Sprintf("%s (%s)", s.Key, s.Confidence)
}

// sources lists each document with the figures that the checks took from it, and
// those that the formulas are from.
func (j judged) sources() []string {
	var heads []string
	took := map[string][]string{}
	for _, c := range j.checks {
		for _, s := range c.Working {
			if s.Source.Key == "" || s.Source.Key == cite.Arithmetic.Key {
				continue
			}
			head, what := "Formulas", document(s.Source)
			if s.Kind == working.LookedUp {
				symbol, _, _ := strings.Cut(s.Symbol, ".")
				name, _ := working.Find(symbol)
				head, what = what, name.Meaning
			}
			if took[head] == nil {
				heads = append(heads, head)
			}
			if !slices.Contains(took[head], what) {
				took[head] = append(took[head], what)
			}
		}
	}
	for i, head := range heads {
		heads[i] += ": " + strings.Join(took[head], ", ")
	}
	return heads
}

func (j judged) title() string {
	return fmt.Sprintf("%s, %s A, with %s %s", j.device.Family, j.device.RatingA, j.lay.Size, j.insulation)
}

// remarks stand under the picture.
func (j judged) remarks() []string {
	var verdicts, gates []string
	for _, c := range j.checks {
		verdicts = append(verdicts, c.ID+" "+c.Verdict().String())
	}
	for _, g := range j.gates {
		if from := document(g.Current.Source); !slices.Contains(gates, from) {
			gates = append(gates, from)
		}
	}
	var lines []string
	for _, text := range []string{
		"Grey: the device opens somewhere in here. Discs: gates, " + strings.Join(gates, " and ") + ". Ring: that side is not known further. Thin dashes: what its end gates still bound; above the last a fuse lets through no more than there, so that it opens the sooner.",
		fmt.Sprintf("Cable: from full load, k²S² to 5 s, k by %s, beyond that one thermal time constant of the copper alone (common practice), its resistance rising with the heat: keep a margin there.", document(j.cable.From[0].Source)),
		"Verdicts: " + strings.Join(verdicts, ", ") + ".",
		caution,
	} {
		lines = append(lines, working.Wrap(text, 122)...)
	}
	return lines
}

// no reports whether a check fails or cannot be told.
func (j judged) no() bool {
	return slices.ContainsFunc(j.checks, func(c working.Check) bool {
		return c.Verdict() == working.Fails || c.Verdict() == working.CannotTell
	})
}
