package main

import (
	"fmt"
	"io"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

const caution = "Caution: a design aid, not a certificate. The data sheet of your battery comes first. " +
	"A lead-acid battery that stands empty in the frost freezes, and LiFePO4 must not be charged below 0 °C. " +
	"Disconnect before work; local codes and competent people decide."

// para writes text in lines of the page's width.
func para(out io.Writer, text string) {
	for _, line := range working.Wrap(text, 78) {
		fmt.Fprintln(out, line)
	}
}

// show prints hours, rounded down to 0.01.
func show(v decimal.Decimal) string { return v.RoundDown(2).String() }

func (a answer) print(out io.Writer) {
	fmt.Fprintln(out, "\nAnswer")
	para(out, a.headline())
	para(out, fmt.Sprintf("Exponent of the two ratings: %s, from %s A to %s A of the new bank.", a.exponent.Exponent.Round(4), a.exponent.SlowA.Round(2), a.exponent.FastA.Round(2)))
	fmt.Fprintf(out, "\nWhere the hours go at %s\n", a.amount())
	a.printShares(out)
	fmt.Fprintln(out, "\nHours against the load")
	a.printLoads(out)
	para(out, "Label: all ampere-hours of the slow rating at any load, new, used to the end. A dash: more than that battery gives, or than is known of it. Each hour is rounded down.")
	for _, l := range []int{0, len(a.temperatures)} {
		if w := a.load().lines[l].Working; len(w) > 0 {
			para(out, fmt.Sprintf("Weakest figure behind %s: %s.", a.lines[l].kind, w.Confidence()))
		}
	}
	para(out, "That LiFePO4 gives the same charge at any rate up to its limit is "+cite.CommonPractice.String()+".")
}

// amount is the load to look at in amperes and watts.
func (a answer) amount() string {
	return fmt.Sprintf("%s A (%s W at %s V)", a.loadA, a.watts(a.loadA), a.systemV)
}

func (a answer) watts(currentA decimal.Decimal) string {
	return currentA.Mul(a.systemV).Round(1).String()
}

// headline is the answer at the first temperature.
func (a answer) headline() string {
	n, load := len(a.temperatures), a.load()
	return fmt.Sprintf("At %s and %s °C the %s bank %s, LiFePO4 of %s Ah %s. The label of the first reads %s h.",
		a.amount(), a.temperatures[0], a.chemistry, lasts(load.lines[0]), a.lithiumAh, lasts(load.lines[n]), load.label.timeH)
}

func lasts(l lasting) string {
	if len(l.Working) == 0 {
		return "is not known to give that much"
	}
	return "lasts " + show(l.timeH) + " h"
}

const groupWidth = 24

// head prints the names of the batteries and their temperatures over columns.
func (a answer) head(out io.Writer, first string) {
	fmt.Fprintf(out, "  %-24s%*s%*s\n  %-24s", "", groupWidth, a.chemistry, groupWidth, lithium, first)
	a.columns(out, func(i int) string { return a.lines[i].atC.Decimal.String() + " °C" })
}

// columns prints one cell a line, those of a battery together as wide as its
// name needs.
func (a answer) columns(out io.Writer, cell func(i int) string) {
	for i := range a.lines {
		fmt.Fprintf(out, "%*s", groupWidth/len(a.temperatures), cell(i))
	}
	fmt.Fprintln(out)
}

// printShares follows the label to the hours, share by share.
func (a answer) printShares(out io.Writer) {
	load := a.load()
	a.head(out, "")
	for _, r := range []struct {
		name string
		cell func(i int) string
	}{
		{"label, h", func(i int) string { return show(a.chargeOf(i).DivRound(a.loadA, 6)) }},
		{"kept by age, %", load.share(func(l lasting) decimal.Decimal { return l.age })},
		{"there when so cold, %", load.share(func(l lasting) decimal.Decimal { return l.cold })},
		{"given at this rate, %", load.share(func(l lasting) decimal.Decimal { return l.given.RoundDown(1) })},
		{"used of it, %", load.share(func(l lasting) decimal.Decimal { return l.used })},
		{"lasts, h", load.hours},
	} {
		fmt.Fprintf(out, "  %-24s", r.name)
		a.columns(out, r.cell)
	}
}

func (a answer) chargeOf(i int) decimal.Decimal {
	if i < len(a.temperatures) {
		return a.ratings.Slow.CapacityAh
	}
	return a.lithiumAh
}

// share is one of the shares, a dash where the battery gives no answer.
func (r row) share(of func(lasting) decimal.Decimal) func(i int) string {
	return func(i int) string {
		if len(r.lines[i].Working) == 0 {
			return "-"
		}
		return of(r.lines[i]).String()
	}
}

func (r row) hours(i int) string {
	if len(r.lines[i].Working) == 0 {
		return "-"
	}
	return show(r.lines[i].timeH)
}

// printLoads is the table of loads; an arrow points at the one asked.
func (a answer) printLoads(out io.Writer) {
	a.head(out, fmt.Sprintf("%7s%9s%8s", "A", "W", "label"))
	for _, r := range a.rows {
		mark := " "
		if r.currentA.Equal(a.loadA) {
			mark = ">"
		}
		fmt.Fprintf(out, "%s %7s%9s%8s", mark, r.currentA, a.watts(r.currentA), show(r.label.timeH))
		a.columns(out, r.hours)
	}
}

// printWorking prints the sum of each battery at the first temperature.
func (a answer) printWorking(out io.Writer) {
	for _, i := range []int{0, len(a.temperatures)} {
		fmt.Fprintf(out, "\nWorking of %s at %s °C\n", a.lines[i].kind, a.temperatures[0])
		w := a.load().lines[i].Working
		if len(w) == 0 {
			fmt.Fprintf(out, "none: the battery is only known up to %s A\n", a.lines[i].most())
		}
		fmt.Fprint(out, w)
	}
}
