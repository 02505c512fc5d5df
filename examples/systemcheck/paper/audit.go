package paper

import (
	"fmt"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// audit prints what a day takes from the bank, load by load, as a customer reads
// it: what runs, for how long, and what that costs.
func (p *page) audit(r Report) {
	p.title("Load audit: what a day takes from the bank")
	table := auditTable(r.Audit, 24)
	for most := 23; most > 8 && !narrow(table); most-- {
		table = auditTable(r.Audit, most)
	}
	p.WriteString(table)
	p.auditLegend(r.Audit)
}

// auditTable lays the audit out with names of at most so many characters.
func auditTable(a facts.Audit, most int) string {
	var b strings.Builder
	t := tabwriter.NewWriter(&b, 0, 0, 1, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "load\tdraws\th/day\tduty\tWh/day\tshare\tstart\talone\t class")
	for _, l := range a.Loads {
		start := "-"
		if l.SurgeW.Valid {
			start = Meter(l.StartA, "A")
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t %s\n", short(l.Load, most), draws(l), l.HoursADay.Round(2), l.DutyPercent.Round(1),
			l.EnergyWh.StringFixed(0), l.SharePercent.StringFixed(1), start, alone(l), class(l))
	}
	for _, v := range a.Idle {
		fmt.Fprintf(t, "%s\t%s\t%s\t\t%s\t%s\t\t\t \n", short(v.Inverter, most-len(", idle"))+", idle", shown(v.IdleW, "W"), v.OnHours.Round(2),
			v.EnergyWh.StringFixed(0), v.SharePercent.StringFixed(1))
	}
	fmt.Fprintf(t, "sum\t\t\t\t%s\t100.0\t\t\t \n", a.EnergyWh.StringFixed(0))
	t.Flush()
	var lines strings.Builder
	for line := range strings.Lines(b.String()) {
		lines.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	return lines.String()
}

// narrow reports whether every line keeps to the page's width.
func narrow(text string) bool {
	for line := range strings.Lines(text) {
		if utf8.RuneCountInString(strings.TrimSuffix(line, "\n")) > width {
			return false
		}
	}
	return true
}

func (p *page) auditLegend(a facts.Audit) {
	p.para(0, "Duty and share in %. Wh from the bank: with what an inverter loses, and with the standby of a load through the rest of its day. Start: amperes from the bank at its lowest voltage. Alone: how long the usable bank runs this and nothing else, at its duty."+marks(a))
	p.para(0, fmt.Sprintf("A day takes %s, %s at the nominal voltage. %s", Meter(a.EnergyWh, "Wh"), Meter(a.ChargeAh, "Ah"), standing(a)))
	if len(a.Elsewhere) > 0 {
		p.para(0, "Fed by another battery, and not counted: "+strings.Join(a.Elsewhere, ", ")+".")
	}
}

// standing is what is drawn while nothing is used.
func standing(a facts.Audit) string {
	if !a.ParkedW.IsPositive() {
		return "Standing with everything off it draws nothing that the file states."
	}
	return fmt.Sprintf("Standing with everything off it draws %s W (%s A), %s in a day.", a.ParkedW, a.ParkedA, Meter(a.ParkedWh, "Wh"))
}

// marks explains the signs of the table, where it has them.
func marks(a facts.Audit) string {
	must, fast := false, false
	for _, l := range a.Loads {
		must, fast = must || l.MustRun, fast || l.TooFast
	}
	text := ""
	if fast {
		text += " <: fewer, as lead-acid emptied faster than it is rated at gives less."
	}
	if must {
		text += " *: must run to the last."
	}
	return text
}

// draws is a load's power or current as the job states it.
func draws(l facts.LoadAudit) string {
	if l.PowerW.Valid {
		return shown(l.PowerW.Decimal, "W")
	}
	return shown(l.CurrentA.Decimal, "A")
}

// shown is a stated value to five digits, as in the working.
func shown(v decimal.Decimal, unit string) string {
	text, _ := working.Show(v)
	return text + " " + unit
}

// alone is the hours of a load alone, rounded down: minutes count only where
// they are few.
func alone(l facts.LoadAudit) string {
	if !l.AloneH.Valid {
		return "-"
	}
	places := int32(1)
	if l.AloneH.Decimal.GreaterThanOrEqual(decimal.NewFromInt(10)) {
		places = 0
	}
	text := l.AloneH.Decimal.RoundFloor(places).StringFixed(places) + " h"
	if l.TooFast {
		text = "<" + text
	}
	return text
}

func class(l facts.LoadAudit) string {
	if l.MustRun {
		return l.Class + "*"
	}
	return l.Class
}
