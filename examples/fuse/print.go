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

func show(v decimal.Decimal) string {
	text, _ := working.Show(v)
	return text
}

// para writes text in lines of the page's width.
func para(out io.Writer, indent int, text string) {
	for _, line := range working.Wrap(text, 80-indent) {
		fmt.Fprintln(out, strings.Repeat(" ", indent)+line)
	}
}

func (a answer) print(out io.Writer) {
	fmt.Fprintln(out, "\nWindow")
	a.printWindow(out)
	a.printRatings(out)
	a.printInHand(out)
	fmt.Fprintln(out, "\nShort circuit")
	a.printFault(out)
}

func (a answer) printWindow(out io.Writer) {
	w, q := a.window, a.question
	if q.ampacityA.Valid {
		para(out, 0, fmt.Sprintf("The conductor as installed carries %s A.", q.ampacityA.Decimal))
	} else {
		para(out, 0, fmt.Sprintf("%s laid so carries %s A.", q.lay.Size, a.ampacity.AmpacityA))
	}
	para(out, 0, fmt.Sprintf("The rating must be at least %s A and at most %s A.", show(w.LeastA), show(w.GreatestA)))
	a.printAllowed(out)
	a.printChoice(out)
	if w.Missing != "" {
		para(out, 0, "Not judged yet: "+w.Missing+".")
	}
	if c := w.Working.Confidence(); c != cite.Published {
		para(out, 0, "Weakest figure of ours that this stands on: "+c.String()+".")
	}
}

// printAllowed says what the rule set alone has for an upper side, where that is not
// what holds overall.
func (a answer) printAllowed(out io.Writer) {
	switch w := a.window; {
	case !w.GreatestAllowedA.Valid:
		para(out, 0, "The rule set has no upper side; what the conductor carries is one all the same.")
	case w.GreatestAllowedA.Decimal.GreaterThan(w.GreatestA):
		para(out, 0, fmt.Sprintf("The rule set alone allows %s A; what the conductor carries is less, and holds all the same.", show(w.GreatestAllowedA.Decimal)))
	}
}

// printChoice names the rating.
func (a answer) printChoice(out io.Writer) {
	if w := a.window; w.BestA.Valid {
		para(out, 0, "FITS: "+w.Reason+".")
		return
	}
	para(out, 0, "NONE EXISTS: "+strings.TrimPrefix(a.window.Reason, "none exists: ")+".")
	para(out, 0, "Smallest change: "+a.change())
}

// change is the smallest change of the conductor that makes a rating exist.
func (a answer) change() string {
	switch {
	case a.question.ampacityA.Valid && a.window.WantsAmpacityA.Valid:
		return fmt.Sprintf("a conductor that carries %s A as installed, with a device of %s A.", a.window.WantsAmpacityA.Decimal, a.window.CarriesA.Decimal)
	case !a.larger.found:
		return "no larger conductor of this kind helps: divide the load, or take another family."
	}
	return fmt.Sprintf("%s laid alike (%s A) with a device of %s A.", a.larger.size, a.larger.ampacityA, a.larger.ratingA)
}

// printRatings shows the rules one by one. The columns are what a rating
// carries, the ratio to the ampacity, and the current that opens it.
func (a answer) printRatings(out io.Writer) {
	opens := "opens in time?"
	ratio := a.question.set.Device.OperatingCurrent
	if ratio.Stated() {
		opens = fmt.Sprintf("I_2 ≤ %s × I_z?", ratio.Value)
	}
	fmt.Fprintln(out)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "  I_n\tcarries %s A?\tprotects?\t%s\n", a.question.need.DesignA, opens)
	for _, r := range a.ratings {
		fmt.Fprintf(t, "  %s A\t%s\t%s\t%s\n", r.ratingA, cell(r.checks[0]), cell(r.protects()), cell(r.checks[2]))
	}
	t.Flush()
	if k2 := a.window.OperatingRatio; k2.Valid {
		para(out, 0, fmt.Sprintf("The last rule: a device of this kind opens in its conventional time at I_2 = %s × I_n, which may be at most %s × I_z.", k2.Decimal, ratio.Value))
	}
}

// protects is the stricter of what the rule set says of a rating against its
// conductor and what holds overall.
func (r row) protects() working.Check {
	both := append([]working.Check{r.checks[1]}, r.checks[3:]...)
	i, _ := working.Strictest(both...)
	return both[i]
}

// cell is a check in a few words.
func cell(c working.Check) string {
	switch c.Verdict() {
	case working.NotApplicable:
		return "no rule"
	case working.CannotTell:
		return "ask the maker"
	case working.Passes:
		return fmt.Sprintf("yes: %s ≤ %s", show(c.Demand), show(c.Limit))
	default:
		return fmt.Sprintf("NO: %s > %s", show(c.Demand), show(c.Limit))
	}
}

// printInHand judges the device that is fitted.
func (a answer) printInHand(out io.Writer) {
	if !a.question.ratingA.Valid {
		return
	}
	fmt.Fprintf(out, "\nThe device of %s A in hand\n", a.question.ratingA.Decimal)
	for _, c := range a.window.Checks(a.question.ratingA.Decimal) {
		para(out, 2, sentence(c))
	}
	if a.question.ratingA.Decimal.GreaterThan(a.window.GreatestA) {
		para(out, 2, "DO NOT FIT it: its rating is more than protects the conductor")
	}
}

// sentence is a check in full.
func sentence(c working.Check) string {
	text := c.Title + ": " + strings.ToUpper(c.Verdict().String())
	switch c.Verdict() {
	case working.NotApplicable:
		return text + ": " + c.Silent
	case working.CannotTell:
		return text + ": " + c.Missing
	default:
		return fmt.Sprintf("%s: %s %s against %s %s", text, show(c.Demand), c.Unit, show(c.Limit), c.Unit)
	}
}

func (a answer) printFault(out io.Writer) {
	if a.fault.Missing != "" {
		para(out, 0, "CANNOT TELL: measure or ask first: "+a.fault.Missing+".")
		return
	}
	para(out, 0, fmt.Sprintf("Greatest at the device: %s A (full, new, no contacts). Smallest: %s A (empty, aged, hot).", a.fault.GreatestA.Decimal, a.fault.LeastA.Decimal))
	for _, c := range a.breaks {
		para(out, 2, sentence(c))
	}
	switch a.worstBreak() {
	case working.Fails:
		para(out, 0, "DO NOT FIT a device of this kind here, of whatever rating: a short circuit bursts it.")
	case working.CannotTell:
		para(out, 0, "DO NOT FIT a device of this kind before that is known.")
	}
	if c := a.fault.Working.Confidence(); c == cite.FromMemory {
		para(out, 0, "The resistances of the batteries are typical ones, from memory: measure yours.")
	}
}

// worstBreak is the worst verdict on breaking.
func (a answer) worstBreak() working.Verdict {
	i, _ := working.Strictest(a.breaks...)
	return a.breaks[i].Verdict()
}

// no reports whether anything is not passed: no rating, the device in hand, or what
// it has to break.
func (a answer) no() bool {
	failing := func(c working.Check) bool {
		return c.Verdict() == working.Fails || c.Verdict() == working.CannotTell
	}
	inHand := a.question.ratingA
	return !a.window.BestA.Valid || a.fault.Missing != "" || slices.ContainsFunc(a.breaks, failing) ||
		inHand.Valid && slices.ContainsFunc(a.window.Checks(inHand.Decimal), failing)
}

func (a answer) printWorking(out io.Writer) {
	fmt.Fprintf(out, "\nWorking of the window\n%s", a.window.Working)
	fmt.Fprintf(out, "\nWorking of the fault current\n%s", a.fault.Working)
}
