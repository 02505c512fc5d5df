package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

func show(v decimal.Decimal) string {
	text, _ := working.Show(v)
	return text
}

// para writes text in lines of the page's width.
func para(out io.Writer, text string) {
	for _, line := range working.Wrap(text, 80) {
		fmt.Fprintln(out, line)
	}
}

func (a answer) print(out io.Writer) {
	fmt.Fprintf(out, "\nAnswer\n")
	para(out, a.headline())
	j := a.judged
	for _, c := range j.checks {
		para(out, "  "+verdict(c))
	}
	if j.tooThin(a.question.Least) {
		para(out, fmt.Sprintf("  Smallest size of the set: %s: fails", a.question.Least.Size))
	}
	para(out, fmt.Sprintf("  Conductor temperature at %s A: %s °C", a.question.CurrentA, j.temperature.ConductorC))
	if len(j.left.Working) > 0 {
		para(out, fmt.Sprintf("  Volts left: %s V of %s V (%s %% lost)", show(j.left.LeftV), a.question.supplyV, show(j.left.DropPercent)))
	}
	a.printLimits(out)
	if c := a.lines().Confidence(); c != cite.Published {
		para(out, "  Weakest figure of ours that this stands on: "+c.String())
	}
	a.printSets(out)
}

func verdict(c working.Check) string {
	if c.Silent != "" {
		return c.Title + ": " + c.Silent
	}
	return fmt.Sprintf("%s: %s %s against %s %s: %s", c.Title, show(c.Demand), c.Unit, show(c.Limit), c.Unit, c.Verdict())
}

// headline is the answer in one sentence or two.
func (a answer) headline() string {
	if !a.question.inHand() {
		return a.smallest()
	}
	verdict := "fails"
	if a.judged.passes(a.question.Least) {
		verdict = "passes"
	}
	return fmt.Sprintf("%s %s. %s", a.judged.lay.Size, verdict, a.smallest())
}

func (a answer) smallest() string {
	c, governs := a.choice, strings.Join(a.choice.Governs, " and ")
	switch {
	case c.Found && governs != "":
		return fmt.Sprintf("%s is the smallest size that passes; the next smaller fails by %s.", c.Size, governs)
	case c.Found:
		return fmt.Sprintf("%s, the smallest size there is, passes.", c.Size)
	default:
		return fmt.Sprintf("No size exists: the largest there is, %s, fails by %s. Shorten the run, lay cables side by side, or raise the voltage.", c.Size, governs)
	}
}

func (a answer) printLimits(out io.Writer) {
	if len(a.longest.Working) == 0 {
		return
	}
	length := "no length will do"
	if a.longest.LengthM.IsPositive() {
		length = fmt.Sprintf("it may be %s m long", a.longest.LengthM)
	}
	para(out, fmt.Sprintf("  With this load %s; at %s m it may carry %s A", length, a.question.LengthM, a.most.CurrentA))
}

// printSets puts the sets side by side.
func (a answer) printSets(out io.Writer) {
	fmt.Fprintf(out, "\nEach rule set by itself (%s circuit)\n", a.question.circuit)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "  rules\tsmallest\tdrop allowed\t%s\n", a.judged.lay.Size)
	for _, o := range a.sets {
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\n", o.key, o.smallest, o.allowed, o.verdict)
	}
	t.Flush()
	for _, o := range a.sets {
		if o.trouble != nil {
			para(out, "  "+o.key+": "+o.trouble.Error())
		}
	}
	para(out, a.strictest()+" A set derates by its own factors; beyond its temperatures the heating law caps it.")
	for _, o := range a.sets {
		para(out, fmt.Sprintf("  %s: for %s", o.key, o.applies))
	}
}

// strictest names the sets that want most copper.
func (a answer) strictest() string {
	var keys, none []string
	var most opinion
	for _, o := range a.sets {
		switch {
		case o.smallest == "none":
			none = append(none, o.key)
		case o.area.GreaterThan(most.area):
			most, keys = o, []string{o.key}
		case o.area.IsPositive() && o.area.Equal(most.area):
			keys = append(keys, o.key)
		}
	}
	if len(none) > 0 {
		return "Strictest: " + strings.Join(none, ", ") + ", where no size exists."
	}
	return fmt.Sprintf("Strictest: %s, with %s.", strings.Join(keys, ", "), most.smallest)
}

// no reports whether no size exists or the cable in hand fails.
func (a answer) no() bool {
	return !a.choice.Found || a.question.inHand() && !a.judged.passes(a.question.Least)
}

func (a answer) printWorking(out io.Writer) { fmt.Fprintf(out, "\nWorking\n%s", a.lines()) }
