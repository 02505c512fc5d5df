package paper

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// charging prints how a day's use comes back: in each state, by each source by
// itself, from the sun, and by published rules of thumb.
func (p *page) charging(r Report) {
	what := "A day's use is put back"
	if r.Charging.Whole {
		what = "Empty and aged, the bank is filled"
		p.para(0, "The bank holds less than a day's use: these are the times of the whole of it.")
	}
	for _, f := range r.Bank.Refills {
		p.para(0, fmt.Sprintf("%s %s: %s.", what, took(f.TimeH), f.State))
	}
	var alone []string
	for _, s := range r.Charging.Sources {
		alone = append(alone, s.Source+" "+took(s.TimeH))
	}
	if len(alone) > 0 {
		p.para(0, "By each source alone, with no load on: "+strings.Join(alone, "; ")+".")
	}
	for _, array := range r.Job.Solar {
		var gives []string
		for _, s := range r.Charging.Sun {
			if s.Array == array.Name {
				gives = append(gives, fmt.Sprintf("%s in %s", ah(s.ChargeAh.RoundFloor(1)), s.Month))
			}
		}
		if len(gives) > 0 {
			p.para(0, fmt.Sprintf("The sun on %s gives, on a mean day, %s; a day's use is %s.", array.Name, strings.Join(gives, " and "), ah(r.Audit.ChargeAh.RoundCeil(1))))
		}
	}
	p.rulesOfThumb(r)
}

// rulesOfThumb prints the range of the published recharge factors beside the
// time that was stepped.
func (p *page) rulesOfThumb(r Report) {
	c := r.Charging
	if len(c.Rules) == 0 {
		return
	}
	stepped := ""
	for _, f := range r.Bank.Refills {
		if f.State == c.State && f.TimeH.Valid {
			stepped = "; stepped to " + f.ToPercent.RoundFloor(0).String() + " %: " + hours(f.TimeH.Decimal)
		}
	}
	least, most := c.Rules[0].TimeH, c.Rules[len(c.Rules)-1].TimeH
	span := hours(least)
	if !least.Equal(most) {
		span = least.RoundCeil(1).StringFixed(1) + " to " + hours(most)
	}
	p.para(0, fmt.Sprintf("The quickest, %s, by published rules of thumb: %s%s. The rules:", c.State, span, stepped))
	for _, t := range c.Rules {
		p.hang(4, fmt.Sprintf("  %s: %s", hours(t.TimeH), t.Rule))
	}
}

func took(h decimal.NullDecimal) string {
	if !h.Valid {
		return "never"
	}
	return "in " + hours(h.Decimal)
}

// hours writes a time that somebody waits for, rounded up.
func hours(h decimal.Decimal) string { return Meter(h.RoundCeil(1), "h") }

// ah writes ampere-hours with a decimal: a meter for a battery has one.
func ah(v decimal.Decimal) string { return v.StringFixed(1) + " Ah" }

// months prints how the bank fares through the worst and the best month.
func (p *page) months(r Report) {
	for _, m := range r.Months {
		in := "Through four weeks"
		if m.Weeks != 4 {
			in = fmt.Sprintf("Through %d weeks of days", m.Weeks)
		}
		if m.Month != "" {
			in += " of " + m.Month
		}
		text := fmt.Sprintf("%s the bank falls to %s %% at the least, and has %s %% left at the end", in, m.LowestPercent.RoundFloor(1).StringFixed(1), m.EndPercent.RoundFloor(1).StringFixed(1))
		if m.ShedH.IsPositive() {
			text += fmt.Sprintf("; the loads go short for %s", hours(m.ShedH))
		}
		p.para(0, text+" (rule C08, aged, full at the start).")
	}
}
