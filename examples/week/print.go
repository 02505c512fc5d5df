package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

const caution = "Caution: a model on mean days, not a promise: real weeks are darker, banks age and " +
	"lose capacity in the cold. Keep a reserve for what must not go out. The alternator must spare " +
	"what the converter takes. Disconnect before work; mains work is for licensed people, local codes come first."

// para writes text in lines of the page's width, all but the first indented
// further.
func para(out io.Writer, indent, text string) {
	for i, line := range working.Wrap(text, 80-len(indent)-4) {
		if i > 0 && indent != "" {
			line = "    " + line
		}
		fmt.Fprintln(out, indent+line)
	}
}

// print writes the runs side by side, what they were counted with and the
// sources.
func (a answer) print(out io.Writer) {
	fmt.Fprintf(out, "\n%s, at minute steps from %s %%\n", a.heading(), a.startPercent)
	for _, r := range a.rows() {
		line := fmt.Sprintf("%-29s", r.name)
		for _, o := range a.runs {
			line += fmt.Sprintf("%17s", r.of(o))
		}
		fmt.Fprintln(out, line)
	}
	if a.long() {
		a.printMonths(out)
	}
	fmt.Fprintln(out)
	para(out, "", "Autonomy, from full to "+a.limitPercent.String()+" % with no source at all: "+a.reserve()+".")
	para(out, "", "Driving that holds it: found by bisection on the same balance without its cut-out. "+a.meansHeld()+" The loads keep their hours.")
	fmt.Fprintln(out, "\nCounted with")
	for _, text := range a.counted() {
		para(out, "  ", text)
	}
	para(out, "  ", "Sources: "+strings.Join(a.sources(), "; ")+".")
	para(out, "  ", "The weakest figures that C08 rests on are "+a.weakest().String()+".")
}

func (a answer) heading() string {
	if a.long() {
		return fmt.Sprintf("Balance of %d days at %s from 1 %s", a.days, a.sun.name, monthName(a.runs[0].month))
	}
	return fmt.Sprintf("Balance of %d days at %s", a.days, a.sun.name)
}

func monthName(month int) string { return time.Month(month).String() }

// row is one line of the runs side by side.
type row struct {
	name string
	of   func(outcome) string
}

func (a answer) rows() []row {
	below := "below " + a.limitPercent.String() + " %"
	bank := []row{
		{"Sources gave, kWh", func(o outcome) string { return kilo(o.InWh) }},
		{"Loads took, kWh", func(o outcome) string { return kilo(o.LoadWh) }},
		{"Loads went without, kWh", func(o outcome) string { return without(o.UnmetWh) }},
		{"  hours", func(o outcome) string { return o.ShedH.StringFixed(1) }},
		{"Lost in the bank, kWh", func(o outcome) string { return kilo(o.LostWh) }},
		{"Lowest charge, %", func(o outcome) string { return o.LeastPercent.RoundFloor(1).StringFixed(1) }},
		{"  at", func(o outcome) string { return a.when(o, o.LeastAtH) }},
		{"Hours " + below, func(o outcome) string { return fmt.Sprint(o.belowH) }},
		{"C08, never " + below, func(o outcome) string { return o.check.Verdict().String() }},
		{"Charge at the end, %", func(o outcome) string { return o.EndPercent.StringFixed(1) }},
		{"Driving a day that holds it", a.holding},
	}
	if a.long() {
		return bank
	}
	return append([]row{
		{"", a.place},
		{"", func(o outcome) string { return monthName(o.month) }},
		{"Sun on level ground, kWh/m²", func(o outcome) string { return a.sun.months[o.month-1].groundKWh.StringFixed(2) }},
		{"Sun offers, Wh a day", func(o outcome) string { return a.sun.months[o.month-1].offeredWh.StringFixed(0) }},
	}, bank...)
}

// kilo writes thousands; the figure behind them is rounded half up.
func kilo(wattHours decimal.Decimal) string { return wattHours.Shift(-3).StringFixed(2) }

// without writes what the loads went without, rounded up.
func without(wattHours decimal.Decimal) string {
	if wattHours.IsZero() {
		return "nothing"
	}
	return wattHours.Shift(-3).RoundCeil(2).StringFixed(2)
}

// place says what a run stands for.
func (a answer) place(o outcome) string {
	switch o.month {
	case a.worst:
		return "least sun"
	case a.best:
		return "most sun"
	}
	return "asked for"
}

// holding is how long to drive a day.
func (a answer) holding(o outcome) string {
	switch {
	case o.holdMin < 0:
		return "over " + clock(a.mostDriving())
	case o.holdMin == 0:
		return "none"
	}
	return clock(o.holdMin)
}

// when says when something was, by the day of the week or the date.
func (a answer) when(o outcome, h decimal.Decimal) string {
	all := int(h.Mul(decimal.NewFromInt(60)).Round(0).IntPart())
	day, at := all/(24*60), fmt.Sprintf("%02d:%02d", all/60%24, all%60)
	if a.long() {
		return date(o.month, day).Format("2 Jan ") + at
	}
	text := weekdayName(day) + " " + at
	if a.days > 7 {
		text = fmt.Sprintf("week %d %s", day/7+1, text)
	}
	return text
}

// weekdayName names a day of a run, which begins on a Monday.
func weekdayName(day int) string { return time.Weekday((day + 1) % 7).String()[:3] }

// date is a day of a run from the first of a month, in a year of 365 days.
func date(firstMonth, day int) time.Time {
	first := time.Date(2023, time.Month(firstMonth), 1, 0, 0, 0, 0, time.UTC)
	return time.Date(2023, time.January, 1+(first.YearDay()-1+day)%365, 0, 0, 0, 0, time.UTC)
}

func (a answer) reserve() string {
	if a.autonomyH < 0 {
		return fmt.Sprintf("more than %d days", reserveDays)
	}
	days := decimal.NewFromInt(int64(a.autonomyH)).DivRound(decimal.NewFromInt(24), 3).RoundFloor(1)
	return fmt.Sprintf("%s days (%d h, from a Monday)", days.StringFixed(1), a.autonomyH)
}

// meansHeld says when the balance is held.
func (p plan) meansHeld() string {
	if p.long() {
		return "In these days the bank never falls below the limit."
	}
	return "In two weeks from the first of the month the bank never falls below the limit, and the second ends no lower than the first."
}

// printMonths lists the months of a long run by its hourly trace.
func (a answer) printMonths(out io.Writer) {
	fmt.Fprintf(out, "\n%-10s%14s%14s%14s%14s\n", "Month", "sun, kWh/m²", "offers, Wh", "lowest, %", "h below "+a.limitPercent.String()+" %")
	for _, m := range a.byMonth() {
		fmt.Fprintf(out, "%-10s%14s%14s%14s%14d\n", m.name, m.sun.groundKWh.StringFixed(2), m.sun.offeredWh.StringFixed(0), m.lowest.RoundFloor(1).StringFixed(1), m.belowH)
	}
}

// stretch is a month of a long run.
type stretch struct {
	name   string
	sun    sunDay
	lowest decimal.Decimal
	belowH int
}

func (a answer) byMonth() []stretch {
	var all []stretch
	o := a.runs[0]
	for h, line := range o.Trace {
		day := date(o.month, h/24)
		if h == 0 || h%24 == 0 && day.Day() == 1 {
			all = append(all, stretch{name: day.Month().String(), sun: a.sun.months[day.Month()-1], lowest: line.SoCPercent})
		}
		m := &all[len(all)-1]
		m.lowest = decimal.Min(m.lowest, line.SoCPercent)
		if line.SoCPercent.LessThan(a.limitPercent) {
			m.belowH++
		}
	}
	return all
}

// counted says what stands behind the numbers that no flag gives.
func (a answer) counted() []string {
	return []string{
		fmt.Sprintf("Bank: voltage at rest by the rows %q of table %s; of the charge put in it keeps %s.", restRows, restTable, a.battery.Efficiency[0].Efficiency),
		fmt.Sprintf("Sun: modules flat, cells at %s °C by day and %s %%/°C, losses %s %%, controller %s; half a sine about 12 h, at the voltage held.", dayCellC, percentPerC, a.sun.module.LossesPercent.Decimal, a.sun.module.Efficiency),
		fmt.Sprintf("Driving: %s a day, shared out among the drives.", clock(a.drivingMin)),
	}
}

// workings are the lines that the answer rests on.
func (a answer) workings() []working.Working {
	all := []working.Working{a.battery.From}
	for _, o := range a.runs {
		all = append(all, o.check.Working, a.sun.months[o.month-1].working)
	}
	return all
}

// sources names each document and how sure our copy of it is.
func (a answer) sources() []string {
	var all []string
	for _, s := range slices.Concat(a.workings()...) {
		name := fmt.Sprintf("%s (%s)", s.Source.Key, s.Source.Confidence)
		if s.Source.Key == s.Source.Confidence.String() {
			name = s.Source.Key
		}
		if s.Source.Key != "" && s.Source.Key != cite.Arithmetic.Key && !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return all
}

func (a answer) weakest() cite.Confidence {
	weakest := cite.Unstated
	for _, w := range a.workings() {
		weakest = cite.Weakest(weakest, w.Confidence())
	}
	return weakest
}
