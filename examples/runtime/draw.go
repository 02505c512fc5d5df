package main

import (
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"

	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// The sheet is A4 less its margins.
const sheetWidth, sheetHeight = 180 * vg.Millimeter, 250 * vg.Millimeter

// Lines differ by width, grey and dash, never by colour: the first two say
// which battery, so that both are seen where they lie on each other, the dash
// how cold.
var (
	labelStyle = stroke(0.8, 1, 2)
	loadStyle  = stroke(1, 6, 3, 1.5, 3)
	gridStyle  = draw.LineStyle{Color: color.Gray{Y: 190}, Width: 0.3}
	hairline   = stroke(0.4)
	dashes     = [][]vg.Length{nil, {9, 3}, {3, 2.5}}
	leadGrey   = color.Gray{Y: 120}
)

const leadWidth, lithiumWidth = 2.6, 1

func stroke(width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: color.Black, Width: width, Dashes: dashes}
}

func lettering(size vg.Length, x draw.XAlignment, y draw.YAlignment) draw.TextStyle {
	face := font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, size)
	return draw.TextStyle{Color: color.Black, Font: face, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// draw writes the picture as SVG, its letters included.
func (a answer) draw(out io.Writer) error {
	all, err := a.curves()
	if err != nil {
		return err
	}
	canvas := vgsvg.NewWith(vgsvg.UseWH(sheetWidth, sheetHeight), vgsvg.EmbedFonts(true))
	page := draw.New(canvas)
	blank(page, page.Rectangle)
	foot := remarks(page, a.remarks())
	a.plot(all).Draw(draw.Crop(page, vg.Millimeter, -2*vg.Millimeter, foot, -2*vg.Millimeter))
	_, err = canvas.WriteTo(out)
	return err
}

func blank(c draw.Canvas, r vg.Rectangle) {
	c.FillPolygon(color.White, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}})
}

// remarks writes lines at the foot of a page and returns their height.
func remarks(page draw.Canvas, lines []string) vg.Length {
	const leading = 11
	style := lettering(8.5, draw.XLeft, draw.YTop)
	height := vg.Length(len(lines)) * leading
	for i, text := range lines {
		page.FillText(style, vg.Point{X: page.Min.X, Y: page.Min.Y + height - vg.Length(i)*leading}, text)
	}
	return height + leading
}

func (a answer) remarks() []string {
	return []string{
		fmt.Sprintf("%s: %s Ah in %s h and %s Ah in %s h, Peukert's exponent %s between the rings; %s %% is used.", a.chemistry,
			a.ratings.Slow.CapacityAh, a.ratings.Slow.RateH, a.ratings.Fast.CapacityAh, a.ratings.Fast.RateH, a.exponent.Exponent, a.depth),
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
		style := stroke(lithiumWidth, dashes[i%len(a.temperatures)]...)
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
// the left.
func (a answer) plot(all []curve) *plot.Plot {
	p := plot.New()
	p.Title.Text, p.Title.TextStyle, p.Title.Padding = "How long the bank lasts, against the load", lettering(12, draw.XCenter, draw.YTop), 16*vg.Millimeter // with the watts in it
	low, high := hours(all)
	left, right := a.low.InexactFloat64(), a.high.InexactFloat64()
	axis(&p.X, "Steady load, A", left/math.Pow(right/left, 0.4), right)
	axis(&p.Y, "Time until empty", low.InexactFloat64(), high.InexactFloat64())
	p.X.Tick.Marker, p.Y.Tick.Marker = loadTicks(a.low, a.high), timeTicks(low, high)
	s := paper{p}
	s.add(&plotter.Grid{Vertical: gridStyle, Horizontal: gridStyle})
	s.add(watts{a.systemV, loadTicks(a.low.Mul(a.systemV), a.high.Mul(a.systemV))})
	s.load(a)
	var names names
	for _, c := range all {
		s.curve(c)
		names = append(names, name{xy(c.points[0]), c.name})
	}
	s.add(names)
	return p
}

func axis(a *plot.Axis, name string, low, high float64) {
	a.Scale = plot.LogScale{}
	a.Min, a.Max = low, high
	a.Label.Text, a.Label.TextStyle.Font = name, lettering(10, 0, 0).Font
	a.Tick.Label.Font = lettering(8.5, 0, 0).Font
	a.Padding = 0
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
	return roundDown(low), roundUp(high)
}

// paper adds to a plot whose axes stay as they are.
type paper struct{ *plot.Plot }

func (s paper) add(ps ...plot.Plotter) {
	x, y := s.X, s.Y
	s.Add(ps...)
	s.X, s.Y = x, y
}

func xy(p point) plotter.XY {
	return plotter.XY{X: p.currentA.InexactFloat64(), Y: p.timeH.InexactFloat64()}
}

func (s paper) curve(c curve) {
	var points, rings plotter.XYs
	for _, p := range c.points {
		points = append(points, xy(p))
	}
	for _, p := range c.rings {
		rings = append(rings, xy(p))
	}
	s.add(&plotter.Line{XYs: points, LineStyle: c.style})
	s.add(&plotter.Scatter{XYs: rings, GlyphStyle: draw.GlyphStyle{Color: color.White, Radius: 2.4, Shape: draw.CircleGlyph{}}})
	s.add(&plotter.Scatter{XYs: rings, GlyphStyle: draw.GlyphStyle{Color: color.Black, Radius: 2.4, Shape: draw.RingGlyph{}}})
}

// watts is a second scale of the load, over the paper.
type watts struct {
	systemV decimal.Decimal
	ticks   plot.ConstantTicks
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
		c.FillText(lettering(8.5, draw.XCenter, draw.YBottom), at.Add(vg.Point{Y: length + 1}), t.Label)
	}
	middle := vg.Point{X: (x(p.X.Min) + x(p.X.Max)) / 2, Y: c.Max.Y + 9*vg.Millimeter}
	c.FillText(lettering(10, draw.XCenter, draw.YBottom), middle, "Steady load, W at "+s.systemV.String()+" V")
}

// load draws the load to look at as an upright line.
func (s paper) load(a answer) {
	x := a.loadA.InexactFloat64()
	if x < s.X.Min || x > s.X.Max {
		return
	}
	s.add(&plotter.Line{XYs: plotter.XYs{{X: x, Y: s.Y.Min}, {X: x, Y: s.Y.Max}}, LineStyle: loadStyle})
	s.add(upright{plotter.XY{X: x, Y: s.Y.Max}, a.amount()})
}

// upright is a text along an upright line, under its upper end, on the side
// towards the middle of the paper.
type upright struct {
	at   plotter.XY
	text string
}

// Plot draws the text.
func (u upright) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	style, gap := lettering(9, draw.XRight, draw.YTop), 1.5*vg.Millimeter
	if p.X.Norm(u.at.X) > 0.7 {
		style.YAlign, gap = draw.YBottom, -gap
	}
	style.Rotation = math.Pi / 2
	at := vg.Point{X: x(u.at.X) + gap, Y: y(u.at.Y) - 2*vg.Millimeter}
	blank(c, style.Rectangle(u.text).Add(at))
	c.FillText(style, at, u.text)
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
	slices.SortStableFunc(sorted, func(a, b name) int { return -compare(a.at.Y, b.at.Y) })
	heights := make([]vg.Length, len(sorted))
	for i, one := range sorted {
		heights[i] = y(one.at.Y)
	}
	apart(heights, 4.2*vg.Millimeter)
	style := lettering(9, draw.XRight, draw.YCenter)
	for i, one := range sorted {
		end := vg.Point{X: x(one.at.X), Y: y(one.at.Y)}
		at := vg.Point{X: end.X - 6*vg.Millimeter, Y: heights[i]}
		c.StrokeLine2(hairline, at.X+vg.Millimeter, at.Y, end.X, end.Y)
		blank(c, style.Rectangle(one.text).Add(at))
		c.FillText(style, at, one.text)
	}
}

func compare(a, b float64) int {
	return decimal.NewFromFloat(a).Compare(decimal.NewFromFloat(b))
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
