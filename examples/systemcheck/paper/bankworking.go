package paper

import (
	"example.org/extralow/tables/working"
)

// bankWorking prints the working of what the report tells of loads, size and
// charging besides its checks.
func (p *page) bankWorking(r Report) {
	p.part("Load audit", r.Audit.Working)
	for _, l := range r.Audit.Loads {
		p.part("Hours that the usable bank runs nothing but "+l.Load, l.Working)
	}
	for _, x := range r.Sizing.Worksheets {
		title := "Bank size, filled no faster than the worksheet has it"
		if x.OwnRate {
			title = "Bank size, filled as fast as the batteries allow"
		}
		p.part(title, x.Working)
	}
	for _, s := range r.Charging.Sources {
		p.part("Refill by nothing but "+s.Source, s.Working)
	}
	for _, s := range r.Charging.Sun {
		p.part("The sun on "+s.Array+" in "+s.Month, s.Working)
	}
	for _, t := range r.Charging.Rules {
		p.part("Refill "+r.Charging.State+", by "+t.Rule, t.Working)
	}
}

// part prints one working under a title; nothing where there is none.
func (p *page) part(title string, w working.Working) {
	if len(w) == 0 {
		return
	}
	p.WriteString("\n")
	p.para(0, title)
	p.lines(w)
}
