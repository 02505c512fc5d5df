package main

import (
	"cmp"
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/examples/sheet"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines differ by width and dash, never by colour.
var (
	curveStyle = sheet.Stroke(1.8)
	levelStyle = sheet.Stroke(0.7, 7, 3)
	stageStyle = sheet.Stroke(0.9, 10, 2.5, 2, 2.5)
	gridStyle  = draw.LineStyle{Color: color.Gray{Y: 170}, Width: 0.3}
	edgeStyle  = sheet.Stroke(0.6)
)

// nameRoom is at the right of the curves, for the names of the levels.
const nameRoom = 36 * vg.Millimeter

// draw writes the picture as SVG.
func (a answer) draw(out io.Writer) error {
	return sheet.Page{Plot: a.plot(), Beside: nameRoom, Remarks: a.foot()}.WriteSVG(out)
}

// band is one of three scales above each other on the sheet, each a unit high: its
// quantity runs from low to high below a strip for its name.
type band struct {
	name      string
	low, high float64
	step      float64
	foot      float64 // where it stands on the sheet
	of        func(charge.Sample) decimal.Decimal
	levels    []level
}

// level is a value that matters, named at the right.
type level struct {
	value float64
	name  string
}

// strip is the share of a band that its name takes.
const strip = 0.1

// at is a value's height on the sheet.
func (b band) at(v float64) float64 { return b.foot + (1-strip)*(v-b.low)/(b.high-b.low) }

// ticks marks the band's own scale.
func (b band) ticks() []plot.Tick {
	var all []plot.Tick
	for i := range int(math.Round((b.high-b.low)/b.step)) + 1 {
		v := b.low + float64(i)*b.step
		all = append(all, plot.Tick{Value: b.at(v), Label: decimal.NewFromFloat(v).Round(2).String()})
	}
	return all
}

// fit sets the scale so that it holds both values, with at most seven marks.
func (b *band) fit(low, high float64) {
	b.step = stepOf(high-low, 6)
	b.low, b.high = b.step*math.Floor(low/b.step+1e-9), b.step*math.Ceil(high/b.step-1e-9)
	if b.high <= b.low {
		b.high = b.low + b.step
	}
}

// stepOf is a 1, 2 or 5 of a decade that goes at most so many times into a length.
func stepOf(length float64, times int64) float64 {
	step := decimal.NewFromFloat(max(length, 0.001)).Round(6).DivRound(decimal.NewFromInt(times), 9)
	return sheet.MarkAbove(step).InexactFloat64()
}

// bands are the three scales, the first on top.
func (a answer) bands(trace []charge.Sample) []band {
	v := band{name: "Volts at the battery", foot: 2, of: func(s charge.Sample) decimal.Decimal { return s.BatteryV }}
	i := band{name: "Amperes into the battery", foot: 1, of: func(s charge.Sample) decimal.Decimal { return s.BatteryA }}
	c := band{name: "State of charge, %", low: 0, high: 100, step: 20, of: func(s charge.Sample) decimal.Decimal { return s.SoCPercent }}
	for _, s := range held(a.own.profile.Stages) {
		v.levels = append(v.levels, level{s.VoltageV.Decimal.InexactFloat64(), s.Name + " " + volts(s.VoltageV.Decimal)})
	}
	for _, s := range a.own.profile.Stages {
		if s.TailA.Valid {
			i.levels = append(i.levels, level{s.TailA.Decimal.InexactFloat64(), "tail " + s.TailA.Decimal.String() + " A"})
		}
	}
	v.fit(v.reach(trace))
	_, high := i.reach(trace)
	i.fit(0, high)
	return []band{v, i, c}
}

// reach is from the lowest to the highest of the curve and its levels.
func (b band) reach(trace []charge.Sample) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, s := range trace {
		low, high = min(low, b.of(s).InexactFloat64()), max(high, b.of(s).InexactFloat64())
	}
	for _, l := range b.levels {
		low, high = min(low, l.value), max(high, l.value)
	}
	return low, high
}

// shown are the lines of the trace that the picture shows: to a fifth beyond the
// last end of a stage and the last mark.
func (a answer) shown() (trace []charge.Sample, endH float64) {
	c := a.runs[0]
	last := decimal.Zero
	for _, s := range c.stages {
		if !s.ended && s.begun && last.IsZero() {
			last = s.toH // nothing has ended before: the whole of it
		}
		if s.ended {
			last = decimal.Max(last, s.toH)
		}
	}
	for _, m := range c.Marks {
		if m.TimeH.Valid {
			last = decimal.Max(last, m.TimeH.Decimal)
		}
	}
	last = decimal.Min(decimal.Max(last.Mul(decimal.New(12, -1)), decimal.New(5, -1)), c.TimeH)
	for _, s := range c.Trace {
		if s.TimeH.LessThanOrEqual(last) {
			trace = append(trace, s)
		}
	}
	return trace, last.InexactFloat64()
}

func (a answer) plot() *plot.Plot {
	trace, endH := a.shown()
	bands := a.bands(trace)
	s := paper{sheet.NewPaper(fmt.Sprintf("%s on %s, from %s %%", a.characteristic.Letters, a.subject(), a.startPercent))}
	s.Title.Padding = 8 * vg.Millimeter
	var marks []plot.Tick
	for _, b := range bands {
		marks = append(marks, b.ticks()...)
	}
	sheet.SetAxis(&s.X, "Hours from the start", 0, endH, hours(endH))
	sheet.SetAxis(&s.Y, "", 0, float64(len(bands)), marks)
	s.rule(bands)
	s.stages(a.runs[0].stages)
	s.marks(bands[len(bands)-1], a.runs[0].Marks)
	for _, b := range bands { // last, so that no name hides a curve
		s.band(b, trace)
	}
	return s.Plot
}

// hours marks the hours.
func hours(endH float64) []plot.Tick {
	var all []plot.Tick
	step := stepOf(endH, 10)
	for i := 0; float64(i)*step <= endH+1e-9; i++ {
		v := float64(i) * step
		all = append(all, plot.Tick{Value: v, Label: decimal.NewFromFloat(v).Round(3).String()})
	}
	return all
}

// paper shows the bands over time.
type paper struct{ sheet.Paper }

// across draws a level line.
func (s paper) across(style draw.LineStyle, y float64) {
	s.Curve(style, plotter.XYs{{X: s.X.Min, Y: y}, {X: s.X.Max, Y: y}})
}

// rule draws the grid of each band and the edges between them.
func (s paper) rule(bands []band) {
	for _, t := range hours(s.X.Max) {
		s.Curve(gridStyle, plotter.XYs{{X: t.Value, Y: s.Y.Min}, {X: t.Value, Y: s.Y.Max}})
	}
	for _, b := range bands {
		for _, t := range b.ticks() {
			s.across(gridStyle, t.Value)
		}
		s.across(edgeStyle, b.foot+1)
	}
	s.Curve(edgeStyle, plotter.XYs{{X: s.X.Max, Y: s.Y.Min}, {X: s.X.Max, Y: s.Y.Max}})
}

// band draws a curve, its levels and its name.
func (s paper) band(b band, trace []charge.Sample) {
	for _, l := range b.levels {
		s.across(levelStyle, b.at(l.value))
	}
	var points plotter.XYs
	for _, line := range trace {
		points = append(points, plotter.XY{X: line.TimeH.InexactFloat64(), Y: b.at(b.of(line).InexactFloat64())})
	}
	s.Curve(curveStyle, points)
	for _, l := range apart(b.levels, (b.high-b.low)/16) {
		s.Name(plotter.XY{X: s.X.Max, Y: b.at(l.value)}, l.name, draw.XLeft, draw.YCenter)
	}
	s.Name(plotter.XY{X: s.X.Min, Y: b.foot + 1 - strip/2}, b.name, draw.XLeft, draw.YCenter)
}

// apart pushes names up until no two are closer than room.
func apart(levels []level, room float64) []level {
	all := slices.Clone(levels)
	slices.SortStableFunc(all, func(x, y level) int { return cmp.Compare(x.value, y.value) })
	for i := 1; i < len(all); i++ {
		all[i].value = max(all[i].value, all[i-1].value+room)
	}
	return all
}

// marks puts a disc on each state of charge asked for, and its time where the curve
// leaves room: under it on its right or, late, above it on its left.
func (s paper) marks(b band, all []charge.Mark) {
	for _, m := range all {
		if !m.TimeH.Valid || m.TimeH.Decimal.IsZero() {
			continue
		}
		at := plotter.XY{X: m.TimeH.Decimal.InexactFloat64(), Y: b.at(m.SoCPercent.InexactFloat64())}
		s.Dots(draw.CircleGlyph{}, color.Black, 2.6, at)
		x, y := draw.XAlignment(draw.XLeft), draw.YAlignment(draw.YTop)
		if s.X.Norm(at.X) > 0.72 {
			x, y = draw.XRight, draw.YBottom
		}
		s.Name(at, m.SoCPercent.String()+" %, "+clock(m.TimeH.Decimal), x, y)
	}
}

// stages draws a line where each stage ends, the first named on its left and the
// next on its right, so that two close ones keep both names. The names stand at the
// foot, where the state of charge seldom comes.
func (s paper) stages(all []span) {
	right := false
	for _, one := range all {
		if !one.ended {
			continue
		}
		x := one.toH.InexactFloat64()
		right = right || s.X.Norm(x) < 0.04
		s.Curve(stageStyle, plotter.XYs{{X: x, Y: s.Y.Min}, {X: x, Y: s.Y.Max}})
		s.Add(alongside{x, shortName(one.Name) + " " + one.Letter + " ends, " + clock(one.toH), right})
		right = true
	}
}

// shortName is the last word of a stage's name.
func shortName(stage string) string {
	words := strings.Fields(stage)
	return words[len(words)-1]
}

// alongside is a name along an upright line, from its foot.
type alongside struct {
	x     float64
	text  string
	right bool
}

// Plot writes the name.
func (n alongside) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	style, beside := sheet.Lettering(sheet.NameSize, draw.XLeft, draw.YBottom), vg.Length(-3)
	if n.right {
		style.YAlign, beside = draw.YTop, 3
	}
	style.Rotation = math.Pi / 2
	sheet.WriteOnWhite(c, style, vg.Point{X: x(n.x) + beside, Y: y(p.Y.Min) + sheet.NameGap}, n.text)
}

// foot is what stands under the picture.
func (a answer) foot() []string {
	c := a.runs[0]
	text := []string{
		fmt.Sprintf("Source up to %s A through %s mΩ, voltage %s; battery %s mΩ. In %s: %s Wh in, %s Wh stored, %s Wh lost.",
			a.offered(), a.source.CableMilliohm, c.end(), a.battery.InternalMilliohm, clock(c.TimeH), c.InWh.StringFixed(0), c.StoredWh.StringFixed(0), c.LostWh.StringFixed(0)),
		fmt.Sprintf("Dashed: what the stages hold and end at. The weakest figure is %s. A model, not a measurement.", a.weakest()),
		caution,
	}
	return working.Wrap(strings.Join(text, " "), 114)
}
