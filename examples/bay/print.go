package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"example.org/extralow/battery"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

const caution = "Caution: a design aid, not a certificate. No code gives these clearances. Brackets, floor and seats " +
	"are for a structural engineer or an approved kit, weights for a weighbridge. Disconnect before work; local codes come first."

// para writes text in lines of the page's width, all but the first indented
// further.
func para(out io.Writer, indent, text string) {
	for i, line := range working.Wrap(text, 80-len(indent)-2) {
		if i > 0 && indent != "" {
			line = "  " + line
		}
		fmt.Fprintln(out, indent+line)
	}
}

func show(v decimal.Decimal) string {
	text, _ := working.Show(v)
	return text
}

func (a answer) print(out io.Writer) {
	fmt.Fprintln(out, "\nAnswer")
	for _, l := range a.laid {
		para(out, "  ", l.headline())
	}
	fmt.Fprintln(out, "\nRoom in mm, cases bigger and space smaller by their tolerances")
	a.printRoom(out)
	fmt.Fprintln(out, "\nHeat")
	para(out, "  ", a.heatText())
	fmt.Fprintln(out, "\nGas")
	para(out, "  ", a.gasText())
	fmt.Fprintln(out, "\nHold-down")
	for _, text := range a.holdTexts() {
		para(out, "  ", text)
	}
	fmt.Fprintln(out, "\nMass")
	a.printAxles(out)
	fmt.Fprintln(out)
	para(out, "", a.doubt())
}

// headline is the answer of one case in one or two sentences.
func (l layout) headline() string {
	return fmt.Sprintf("As %s, %s mm long: %s.", l.name, l.Case.LengthMM, l.verdict())
}

// verdict says what fails and by how much, what is left, and what space would
// do.
func (l layout) verdict() string {
	var fails, left, wants []string
	for _, x := range l.axes() {
		if x.check.Verdict() == working.Fails {
			fails = append(fails, fmt.Sprintf("fails by %s mm in the %s", x.leftMM.Neg(), x.name))
			wants = append(wants, fmt.Sprintf("%s mm of %s", x.check.Demand.Add(l.Space.ToleranceMM.Decimal), x.name))
			continue
		}
		left = append(left, fmt.Sprintf("%s mm left in the %s", x.leftMM, x.name))
	}
	if len(fails) == 0 {
		return "fits, with " + listed(left)
	}
	text := listed(fails)
	if len(left) > 0 {
		text += "; " + listed(left)
	}
	return text + ". It wants a space of " + listed(wants)
}

func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func (a answer) printRoom(out io.Writer) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(t, "\tthere is\t")
	for _, l := range a.laid {
		fmt.Fprintf(t, "wanted as %s\tmargin\t", l.name)
	}
	fmt.Fprintln(t)
	for i, x := range a.laid[0].axes() {
		fmt.Fprintf(t, "  %s\t%s\t", x.name, x.check.Limit)
		for _, l := range a.laid {
			fmt.Fprintf(t, "%s\t%s\t", l.Checks[i].Demand, l.Checks[i].Margin())
		}
		fmt.Fprintln(t)
	}
	t.Flush()
}

func verdict(c working.Check) string {
	switch c.Verdict() {
	case working.NotApplicable:
		return "not applicable: " + c.Silent
	case working.CannotTell:
		return "cannot tell: ask " + c.Missing
	default:
		return fmt.Sprintf("%s %s against %s %s: %s", show(c.Demand), c.Unit, show(c.Limit), c.Unit, c.Verdict())
	}
}

func (a answer) heatText() string {
	text := fmt.Sprintf("%s W in the closed bay raise it by %s K. %s: %s.", a.lossW, show(a.warmth.RiseC), a.warm.Title, verdict(a.warm))
	if a.fan != nil {
		text += fmt.Sprintf(" Air of %s m³/h would take what the walls do not.", a.fan.FlowM3H)
	}
	return text
}

func (a answer) gasText() string {
	if a.vent.Silent != "" {
		return a.opening.Title + ": " + verdict(a.opening) + "."
	}
	return fmt.Sprintf("%s m³/h of air%s. %s, low and high each: %s.", show(a.vent.FlowM3H.Decimal), round(a.vent.OpeningCM2.Decimal), a.opening.Title, verdict(a.opening))
}

// round is the hole that an opening may be.
func round(areaCM2 decimal.Decimal) string {
	hole, err := battery.RoundOpening(areaCM2)
	if err != nil {
		return ""
	}
	return fmt.Sprintf(" through two round holes of %s cm", hole.DiameterCM)
}

func (a answer) holdTexts() []string {
	f, h := a.forces, a.holds
	return []string{
		fmt.Sprintf("%s kg at %s g across the bay: %s N on %d fixings, each %s N of shear, %s N of lift, %s N together.", h.MassKg, h.Times, show(f.ForceN), h.Fixings, show(f.ShearN), show(f.LiftN), show(f.EachN)),
		"Along the bay, stops at the ends of the rows have to bear the whole of it.",
		a.held.Title + ": " + verdict(a.held) + ".",
		fmt.Sprintf("Small craft: a pull of %s N on each battery, in any direction, moves it by %s mm at most.", show(a.pull.ForceN), a.pull.MovementMM),
	}
}

func (a answer) printAxles(out io.Writer) {
	v := a.vehicle
	fmt.Fprintf(out, "  Batteries of %s kg, %s m behind the front axle\n", v.Items[0].MassKg, v.Items[0].BehindM.Decimal)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "  kg\tas weighed\tshare\tthen\tplate\tmargin\tverdict\t")
	for i, before := range []decimal.Decimal{v.FrontKg, v.RearKg, v.FrontKg.Add(v.RearKg)} {
		c := a.axles.Checks[i]
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\t%s\t%s\t\n", c.Title, before, c.Demand.Sub(before), c.Demand, c.Limit, c.Margin(), c.Verdict())
	}
	t.Flush()
}

// workings are the sums behind the answer, each under a heading.
func (a answer) workings() []struct {
	title string
	working.Working
} {
	type part = struct {
		title string
		working.Working
	}
	var all []part
	for _, l := range a.laid {
		all = append(all, part{"fit as " + l.name, l.Working})
	}
	all = append(all, part{"heat", a.warm.Working})
	if a.fan != nil {
		all = append(all, part{"air against heat", a.fan.Working})
	}
	if a.vent.Silent == "" {
		all = append(all, part{"gas", a.opening.Working})
	}
	return append(all, part{"hold-down", a.held.Working}, part{"pull of small craft", a.pull.Working}, part{"axles", a.axles.Working})
}

func (a answer) printWorking(out io.Writer) {
	for _, part := range a.workings() {
		fmt.Fprintf(out, "\nWorking: %s\n%s", part.title, part.Working)
	}
}

// doubt names the weakest figures that the answers stand on.
func (a answer) doubt() string {
	var names []string
	for _, part := range a.workings() {
		if c := part.Confidence(); c != cite.Published && c != cite.Unstated {
			names = append(names, part.title+" "+c.String())
		}
	}
	return "Weakest figures: " + strings.Join(names, ", ") + "."
}

// no reports whether a case that is asked about does not fit, or what it asks of the
// bay, of its fixings or of the axles fails.
func (a answer) no() bool {
	checks := append([]working.Check{a.warm, a.opening, a.held}, a.axles.Checks...)
	for _, l := range a.laid {
		for _, x := range l.axes() {
			checks = append(checks, x.check)
		}
	}
	return slices.ContainsFunc(checks, func(c working.Check) bool { return c.Verdict() == working.Fails })
}
