package main

import (
	"fmt"
	"io"
	"slices"
	"text/tabwriter"

	"example.org/extralow/battery"
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
	a.printCurrents(out)
	a.printPaths(out)
	a.printHeat(out)
}

func (a answer) printCurrents(out io.Writer) {
	f := a.question.feed
	fmt.Fprintf(out, "\nCurrent for %s W out, %s W in\n", f.SteadyW, a.cutOut.InputW)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(t, "at rest\t%s V\t%s A\t\n", f.SourceV, amperes(a.rest.CurrentA))
	fmt.Fprintf(t, "at the cut-out\t%s V\t%s A\t\n", f.CutOutV.Decimal, amperes(a.cutOut.CurrentA))
	fmt.Fprintf(t, "through the path\t%s\t\n", a.operating(a.settled.Steady))
	fmt.Fprintf(t, "%s W surge\t%s\t\n", f.SurgeW, a.operating(a.settled.Surge))
	t.Flush()
	para(out, fmt.Sprintf("The path has %s mΩ, of it bank %s mΩ, cables and joints %s mΩ. Cables and fuses must bear the current at the cut-out.",
		show(f.PathMilliohm), show(a.question.bankMilliohm), show(a.drop.LoopMilliohm)))
}

// amperes writes a current in whole amperes, rounded up.
func amperes(v decimal.Decimal) string { return v.RoundUp(0).String() }

// operating is volts, amperes and what comes of them, in columns.
func (a answer) operating(o battery.OperatingPoint) string {
	switch {
	case o.Collapses:
		return "-\t-\tcollapses"
	case a.question.runs(o):
		return fmt.Sprintf("%s V\t%s A\truns", o.VoltageV.Decimal.StringFixed(2), amperes(o.CurrentA.Decimal))
	default:
		return fmt.Sprintf("%s V\t%s A\tswitches off", o.VoltageV.Decimal.StringFixed(2), amperes(o.CurrentA.Decimal))
	}
}

func (a answer) printPaths(out io.Writer) {
	fmt.Fprintln(out, "\nWorse paths: an aged or cold bank, a longer cable, a bad joint")
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "times\tpath\tsteady\t\t\tsurge\t")
	for _, p := range a.worse {
		fmt.Fprintf(t, "%s\t%s mΩ\t%s\t%s\t\n", p.times, p.milliohm.StringFixed(2), a.operating(p.Steady), a.operating(p.Surge))
	}
	t.Flush()
	l := a.limits
	fmt.Fprintln(out)
	t = tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(t, "path at most\tsteady\tsurge\t\n")
	fmt.Fprintf(t, "for it to run\t%s\t%s\t\n", most(l.steadyRuns), most(l.surgeRuns))
	fmt.Fprintf(t, "for any voltage to carry it\t%s\t%s\t\n", most(l.steadyStands), most(l.surgeStands))
	t.Flush()
	para(out, "Beyond the last the supply collapses, and no fuse need open.")
}

// most is a limit of the path, or that the search found none.
func most(milliohm decimal.Decimal) string {
	if milliohm.Equal(decimal.New(mostHundredths, -2)) {
		return "no limit"
	}
	return milliohm.String() + " mΩ"
}

func (a answer) printHeat(out io.Writer) {
	q := a.question
	fmt.Fprintln(out, "\nHeat")
	para(out, fmt.Sprintf("The inverters shed %s W at the steady load. In the closed space that would make %s °C, %s K above the %s °C outside, if the load lasted.",
		show(a.cutOut.LossW), show(a.warmth.InsideC), show(a.warmth.RiseC), q.outsideC))
	para(out, fmt.Sprintf("At %s K the walls let %s W through.%s", q.riseC, show(a.walls.WallW), a.fan()))
	para(out, fmt.Sprintf("Weakest figures of ours: %s for the path, %s for the heat.", a.settled.Working.Confidence(), a.airWorking().Confidence()))
}

// fan is what has to take the rest of the heat.
func (a answer) fan() string {
	if len(a.air.Working) == 0 {
		return " That is all of it: no fan is needed."
	}
	return fmt.Sprintf(" The other %s W take %s m³ of air an hour.", show(a.walls.RestW), show(a.air.FlowM3H))
}

// no reports whether the path as it is does not carry the load, or its start.
func (a answer) no() bool {
	return slices.ContainsFunc([]battery.OperatingPoint{a.settled.Steady, a.settled.Surge}, func(o battery.OperatingPoint) bool {
		return o.Collapses || !a.question.runs(o)
	})
}

func (a answer) printWorking(out io.Writer) {
	fmt.Fprintf(out, "\nWorking of the path and what settles on it\n%s", a.settled.Working)
	fmt.Fprintf(out, "\nWorking of the current at the cut-out, and of the heat\n%s", a.warmth.Working)
	fmt.Fprintf(out, "\nWorking of the air\n%s", a.airWorking())
}
