package main

import (
	"fmt"
	"image/color"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/tables/working"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// chart is what the picture shows, in hours from the start and percent of charge.
type chart struct {
	title, across string
	endH          float64
	uprights      []float64 // where days or months begin
	names         []plot.Tick
	nights        []band // the longer ones first
	levels        []level
	curves        []curve
	uses          []use // rows under the curves
	remarks       []string
}

// band is a stretch of hours in a shade of grey.
type band struct {
	fromH, toH float64
	grey       color.Gray
}

// level is a state of charge that matters.
type level struct {
	percent float64
	name    string
}

// curve is a state of charge through the run, named at its end, with its lowest
// point where that is to be marked.
type curve struct {
	name           string
	style          draw.LineStyle
	points, lowest plotter.XYs
}

// use is a row that shows when something runs.
type use struct {
	name  string
	hours [][2]float64
	grey  color.Gray
}

func (a answer) chart() chart {
	c := chart{
		title: fmt.Sprintf("State of charge: %s Ah at %s, %s of driving a day, %s W of modules", a.battery.CapacityAh, a.sun.name, clock(a.drivingMin), a.sun.module.Module.PowerW),
		endH:  float64(24 * a.days),
	}
	c.levels = []level{{a.limitPercent.InexactFloat64(), "limit " + a.limitPercent.String() + " %"}}
	if a.cutOut.Valid {
		c.levels = append(c.levels, level{a.cutOut.Decimal.InexactFloat64(), "loads shed at " + a.cutOut.Decimal.String() + " %"})
	}
	if a.long() {
		a.chartMonths(&c)
	} else {
		a.chartDays(&c)
	}
	c.remark(a.verdicts())
	c.remark(caution)
	return c
}

// remark adds text under the picture, in lines of its width.
func (c *chart) remark(text string) { c.remarks = append(c.remarks, working.Wrap(text, 180)...) }

// verdicts says of each run where its disc lies and what the check makes of it.
func (a answer) verdicts() string {
	var all []string
	for _, o := range a.runs {
		all = append(all, fmt.Sprintf("from 1 %s %s %% on %s, C08 %s", monthName(o.month), o.LeastPercent.RoundFloor(1), a.when(o, o.LeastAtH), o.check.Verdict()))
	}
	return "Discs, the lowest charge: " + strings.Join(all, "; ") + ". C08: never below " + a.limitPercent.String() + " %; its weakest figures are " + a.weakest().String() + "."
}

// lowest is the lowest point of a run.
func (o outcome) lowest() plotter.XYs {
	return plotter.XYs{{X: o.LeastAtH.InexactFloat64(), Y: o.LeastPercent.InexactFloat64()}}
}

// chartDays fills in a week or two: each run by its hours, nights and uses.
func (a answer) chartDays(c *chart) {
	c.across = "Day of the week"
	for day := range a.days {
		c.uprights = append(c.uprights, float64(24*day))
		c.names = append(c.names, plot.Tick{Value: float64(24*day + 12), Label: weekdayName(day)})
	}
	styles := []draw.LineStyle{worstStyle, bestStyle}
	if len(a.runs) == 3 {
		styles = []draw.LineStyle{worstStyle, askedStyle, bestStyle}
	}
	for i, o := range a.runs {
		c.curves = append(c.curves, curve{monthName(o.month), styles[i], a.hourly(o), o.lowest()})
	}
	a.chartNights(c)
	for _, s := range slices.Concat(a.driving(), a.mains) {
		c.use(s, a.days, sourceGrey)
	}
	for _, s := range a.loads {
		c.use(s, a.days, loadGrey)
	}
}

// hourly is a run's trace with its end.
func (a answer) hourly(o outcome) plotter.XYs {
	var all plotter.XYs
	for _, line := range o.Trace {
		all = append(all, plotter.XY{X: line.TimeH.InexactFloat64(), Y: line.SoCPercent.InexactFloat64()})
	}
	return append(all, plotter.XY{X: float64(24 * a.days), Y: o.EndPercent.InexactFloat64()})
}

// chartNights shades from sunset to sunrise, in the month of longer nights and,
// darker, in that of shorter ones too.
func (a answer) chartNights(c *chart) {
	longer, shorter := a.worst, a.best
	if a.sun.months[longer-1].upMin > a.sun.months[shorter-1].upMin {
		longer, shorter = shorter, longer
	}
	for _, n := range []struct {
		month int
		grey  color.Gray
	}{{longer, duskGrey}, {shorter, nightGrey}} {
		up := a.sun.months[n.month-1]
		for day := range a.days {
			begin := float64(24 * day)
			c.nights = append(c.nights,
				band{begin, begin + float64(up.rises())/60, n.grey},
				band{begin + float64(up.sets())/60, begin + 24, n.grey})
		}
	}
	c.remark(fmt.Sprintf("Solid: least sun. Dashed: most sun. Grey: night in %s; light grey: night in %s only. Bars: black where something charges, grey where it draws.", monthName(shorter), monthName(longer)))
}

// use adds a spell to the row of its name.
func (c *chart) use(s charge.DutyPeriod, days int, grey color.Gray) {
	name := s.Name + " " + s.CurrentA.String() + " A"
	i := slices.IndexFunc(c.uses, func(u use) bool { return u.name == name && u.grey == grey })
	if i < 0 {
		i = len(c.uses)
		c.uses = append(c.uses, use{name: name, grey: grey})
	}
	for day := range days {
		if begin := float64(24 * day); len(s.Weekdays) == 0 || slices.Contains(s.Weekdays, day%7+1) {
			c.uses[i].hours = append(c.uses[i].hours, [2]float64{begin + s.FromH.InexactFloat64(), begin + s.ToH.InexactFloat64()})
		}
	}
}

// chartMonths fills in a long run: the least and the greatest charge of each day.
func (a answer) chartMonths(c *chart) {
	o := a.runs[0]
	c.across = "Month"
	for day := range a.days {
		if d := date(o.month, day); day == 0 || d.Day() == 1 {
			c.uprights = append(c.uprights, float64(24*day))
			if a.days-day > 14 {
				c.names = append(c.names, plot.Tick{Value: float64(24 * (day + 15)), Label: d.Month().String()[:3]})
			}
		}
	}
	least := curve{name: "least of a day", style: worstStyle, lowest: o.lowest()}
	most := curve{name: "most of a day", style: bestStyle}
	for lines := range slices.Chunk(o.Trace, 24) {
		byCharge := func(x, y charge.LedgerLine) int { return x.SoCPercent.Cmp(y.SoCPercent) }
		at := lines[0].TimeH.InexactFloat64() + 12
		least.points = append(least.points, plotter.XY{X: at, Y: slices.MinFunc(lines, byCharge).SoCPercent.InexactFloat64()})
		most.points = append(most.points, plotter.XY{X: at, Y: slices.MaxFunc(lines, byCharge).SoCPercent.InexactFloat64()})
	}
	c.curves = []curve{least, most}
}
