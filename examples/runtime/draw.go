package main

import (
	"cmp"
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"

	"example.org/extralow/examples/sheet"
	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines differ by width, grey and dash, never by colour: the first two say
// which battery, so that both are seen where they lie on each other, the dash
// how cold.
var (
	labelStyle = sheet.Stroke(0.8, 1, 2)
	loadStyle  = sheet.Stroke(1, 6, 3, 1.5, 3)
	hairline   = sheet.Stroke(0.4)
	dashes     = [][]vg.Length{nil, {9, 3}, {3, 2.5}}
	leadGrey   = color.Gray{Y: 120}
)

const leadWidth, lithiumWidth = 2.6, 1

// draw writes the picture as SVG.
func (a answer) draw(out io.Writer) error {
	all, err := a.curves()
	if err != nil {
		return err
	}
	return sheet.Page{Plot: a.plot(all), Remarks: a.remarks()}.WriteSVG(out)
}

func (a answer) remarks() []string {
	return []string{
		fmt.Sprintf("%s: %s Ah in %s h and %s Ah in %s h, Peukert's exponent %s between the rings; %s %% is used.", a.chemistry,
			a.ratings.Slow.CapacityAh, a.ratings.Slow.RateH, a.ratings.Fast.CapacityAh, a.ratings.Fast.RateH, a.exponent.Exponent.Round(4), a.depth),
		fmt.Sprintf("LiFePO4: %s Ah at any rate up to one capacity an hour; %s %% is used. Both at the end of their life, %s %%.", a.lithiumAh, a.lithiumDepth, a.ageing),
		fmt.Sprintf("The label: all of the %s Ah, new, warm, used to the end. Watts at %s V; they are more amperes as the volts fall.", a.ratings.Slow.CapacityAh, a.systemV),
		"A design aid, not a certificate: the data sheet of your battery comes first. Do not charge LiFePO4 below 0 °C.",
	}
}

// curve is a line at its corners.
type curve struct {
	line
	name   string
	style  draw.LineStyle
	points []point
	rings  []point // where the ratings lie
}

// point is a current and its hours.
type point struct{ currentA, timeH decimal.Decimal }

func (a answer) curves() ([]curve, error) {
	label := curve{line: a.label, style: labelStyle, name: fmt.Sprintf("label, %s Ah ÷ A", a.ratings.Slow.CapacityAh)}
	all := []curve{label}
	for i, l := range a.lines {
		style := sheet.Stroke(lithiumWidth, dashes[i%len(a.temperatures)]...)
		if l.kind != lithium {
			style.Color, style.Width = leadGrey, leadWidth
		}
		all = append(all, curve{line: l, style: style, name: fmt.Sprintf("%s, %s °C", l.kind, l.atC.Decimal)})
	}
	for i := range all {
		if err := all[i].trace(); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// trace asks the line at its corners.
func (c *curve) trace() error {
	for _, currentA := range c.corners {
		l, err := c.at(currentA)
		if err != nil {
			return err
		}
		c.points = append(c.points, point{currentA, l.timeH})
	}
	if len(c.points) > 2 {
		c.rings = c.points[1:]
	}
	return nil
}

// plot is logarithmic paper with the lines on it, and room for their names at
// the left and for the watts at the top.
func (a answer) plot(all []curve) *plot.Plot {
	p := sheet.NewPaper("How long the bank lasts, against the load")
	p.Title.Padding = 16 * vg.Millimeter
	low, high := hours(all)
	left, right := a.low.InexactFloat64(), a.high.InexactFloat64()
	sheet.SetLogAxis(&p.X, "Steady load, A", left/math.Pow(right/left, 0.4), right, sheet.Ticks(a.low, a.high))
	sheet.SetLogAxis(&p.Y, "Time until empty", low.InexactFloat64(), high.InexactFloat64(), sheet.TimeTicks(3600))
	p.Grid()
	p.Add(watts{a.systemV, sheet.Ticks(a.low.Mul(a.systemV), a.high.Mul(a.systemV))})
	a.drawLoad(p)
	var names names
	for _, c := range all {
		c.draw(p)
		names = append(names, name{xy(c.points[0]), c.name})
	}
	p.Add(names)
	return p.Plot
}

// hours is the height of the paper: from 1, 2 or 5 of a decade to another.
func hours(all []curve) (low, high decimal.Decimal) {
	for _, c := range all {
		for _, p := range c.points {
			if low.IsZero() || p.timeH.LessThan(low) {
				low = p.timeH
			}
			high = decimal.Max(high, p.timeH)
		}
	}
	return sheet.MarkBelow(low), sheet.MarkAbove(high)
}

func xy(p point) plotter.XY {
	return plotter.XY{X: p.currentA.InexactFloat64(), Y: p.timeH.InexactFloat64()}
}

func xys(points []point) plotter.XYs {
	var all plotter.XYs
	for _, p := range points {
		all = append(all, xy(p))
	}
	return all
}

func (c curve) draw(p sheet.Paper) {
	p.Curve(c.style, xys(c.points))
	p.Dots(draw.CircleGlyph{}, color.White, 2.4, xys(c.rings)...)
	p.Dots(draw.RingGlyph{}, color.Black, 2.4, xys(c.rings)...)
}

// watts is a second scale of the load, over the paper.
type watts struct {
	systemV decimal.Decimal
	ticks   []plot.Tick
}

// Plot draws the scale.
func (s watts) Plot(c draw.Canvas, p *plot.Plot) {
	x, _ := p.Transforms(&c)
	c.StrokeLine2(hairline, x(p.X.Min), c.Max.Y, x(p.X.Max), c.Max.Y)
	for _, t := range s.ticks {
		at := vg.Point{X: x(t.Value / s.systemV.InexactFloat64()), Y: c.Max.Y}
		length := 1.5 * vg.Millimeter
		if t.Label != "" {
			length *= 2
		}
		c.StrokeLine2(hairline, at.X, at.Y, at.X, at.Y+length)
		c.FillText(sheet.Lettering(8.5, draw.XCenter, draw.YBottom), at.Add(vg.Point{Y: length + 1}), t.Label)
	}
	middle := vg.Point{X: (x(p.X.Min) + x(p.X.Max)) / 2, Y: c.Max.Y + 9*vg.Millimeter}
	c.FillText(sheet.Lettering(10, draw.XCenter, draw.YBottom), middle, "Steady load, W at "+s.systemV.String()+" V")
}

// drawLoad draws the load to look at, its name on the side towards the middle of
// the paper.
func (a answer) drawLoad(p sheet.Paper) {
	x := a.loadA.InexactFloat64()
	if x < p.X.Min || x > p.X.Max {
		return
	}
	side := draw.YTop
	if p.X.Norm(x) > 0.7 {
		side = draw.YBottom
	}
	p.Upright(loadStyle, x, a.amount(), side, sheet.NameGap)
}

// name belongs to the left end of a line.
type name struct {
	at   plotter.XY
	text string
}

// names stand in a column left of the lines, each with a hairline to its own,
// as high as the line begins but never on each other.
type names []name

// Plot draws the names.
func (n names) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	sorted := slices.Clone(n)
	slices.SortStableFunc(sorted, func(a, b name) int { return cmp.Compare(b.at.Y, a.at.Y) })
	heights := make([]vg.Length, len(sorted))
	for i, one := range sorted {
		heights[i] = y(one.at.Y)
	}
	apart(heights, 4.2*vg.Millimeter)
	style := sheet.Lettering(sheet.NameSize, draw.XRight, draw.YCenter)
	for i, one := range sorted {
		end := vg.Point{X: x(one.at.X), Y: y(one.at.Y)}
		at := vg.Point{X: end.X - 6*vg.Millimeter, Y: heights[i]}
		c.StrokeLine2(hairline, at.X+vg.Millimeter, at.Y, end.X, end.Y)
		sheet.WriteOnWhite(c, style, at, one.text)
	}
}

// apart moves falling heights until no two are closer than gap, each group
// around its own middle.
func apart(heights []vg.Length, gap vg.Length) {
	for range heights {
		for i := 1; i < len(heights); i++ {
			if short := gap - (heights[i-1] - heights[i]); short > 0 {
				heights[i-1] += short / 2
				heights[i] -= short / 2
			}
		}
	}
}
