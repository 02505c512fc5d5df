package main

import (
	"cmp"
	"image/color"
	"io"
	"slices"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// The sheet is A4 laid across.
const sheetWidth, sheetHeight, margin = 297 * vg.Millimeter, 210 * vg.Millimeter, 15 * vg.Millimeter

// Lines differ by width and dash, never by colour.
var (
	worstStyle   = stroke(1.8)
	askedStyle   = stroke(1.4, 1.5, 2.5)
	bestStyle    = stroke(1.4, 7, 3)
	levelStyle   = stroke(0.8, 14, 3, 2, 3)
	uprightStyle = draw.LineStyle{Color: color.Gray{Y: 120}, Width: 0.4}
	gridStyle    = draw.LineStyle{Color: color.Gray{Y: 170}, Width: 0.3}
	duskGrey     = color.Gray{Y: 238}
	nightGrey    = color.Gray{Y: 215}
	sourceGrey   = color.Gray{Y: 0}
	loadGrey     = color.Gray{Y: 140}
)

func stroke(width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: color.Black, Width: width, Dashes: dashes}
}

func lettering(size vg.Length, x draw.XAlignment, y draw.YAlignment) draw.TextStyle {
	face := font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, size)
	return draw.TextStyle{Color: color.Black, Font: face, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// Under 0 % each use has a row of so many percent; the names of the curves need
// room at the right.
const (
	rowPercent = 6
	nameRoom   = 31 * vg.Millimeter
)

// draw writes the picture as SVG, its letters included.
func (c chart) draw(out io.Writer) error {
	canvas := vgsvg.NewWith(vgsvg.UseWH(sheetWidth, sheetHeight), vgsvg.EmbedFonts(true))
	sheet := draw.New(canvas)
	blank(sheet, sheet.Rectangle)
	page := draw.Crop(sheet, margin, -margin, margin, -margin)
	foot := c.drawRemarks(page)
	c.plot().Draw(draw.Crop(page, 0, -nameRoom, foot, 0))
	_, err := canvas.WriteTo(out)
	return err
}

// blank paints a rectangle white.
func blank(c draw.Canvas, r vg.Rectangle) {
	c.FillPolygon(color.White, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}})
}

// drawRemarks writes the lines at the foot of the page and returns their height.
func (c chart) drawRemarks(page draw.Canvas) vg.Length {
	const leading = 11
	height := vg.Length(len(c.remarks)) * leading
	for i, text := range c.remarks {
		page.FillText(lettering(8.5, draw.XLeft, draw.YTop), vg.Point{X: page.Min.X, Y: page.Min.Y + height - vg.Length(i)*leading}, text)
	}
	return height + leading
}

func (c chart) plot() *plot.Plot {
	p := plot.New()
	p.Title.Text, p.Title.TextStyle, p.Title.Padding = c.title, lettering(12, draw.XCenter, draw.YTop), 4*vg.Millimeter
	axis(&p.X, c.across, 0, c.endH, c.names)
	axis(&p.Y, "State of charge, %", -float64(rowPercent*len(c.uses)), 100, c.percents())
	p.X.Tick.Length = 0
	s := paper{p}
	for _, n := range c.nights {
		s.box(n.fromH, n.toH, 0, 100, n.grey)
	}
	s.grid(c)
	s.rows(c.uses)
	for _, l := range c.levels {
		s.curve(levelStyle, plotter.XYs{{X: 0, Y: l.percent}, {X: c.endH, Y: l.percent}})
	}
	for _, one := range c.curves {
		s.curve(one.style, one.points)
	}
	s.labels(c)
	return p
}

func axis(a *plot.Axis, name string, low, high float64, ticks plot.ConstantTicks) {
	a.Min, a.Max = low, high
	a.Label.Text, a.Label.TextStyle.Font = name, lettering(10, 0, 0).Font
	a.Tick.Marker, a.Tick.Label.Font = ticks, lettering(9, 0, 0).Font
	a.Padding = 0
}

// percents are the marks of the upright axis, the rows' names among them.
func (c chart) percents() plot.ConstantTicks {
	var all []plot.Tick
	for v := 0; v <= 100; v += 20 {
		all = append(all, plot.Tick{Value: float64(v), Label: strconv.Itoa(v)})
	}
	for i, u := range c.uses {
		all = append(all, plot.Tick{Value: rowMiddle(i), Label: u.name})
	}
	return all
}

func rowMiddle(i int) float64 { return -rowPercent * (float64(i) + 0.5) }

// paper adds to a plot whose axes stay as they are.
type paper struct{ *plot.Plot }

func (s paper) add(ps ...plot.Plotter) {
	x, y := s.X, s.Y
	s.Add(ps...)
	s.X, s.Y = x, y
}

func (s paper) curve(style draw.LineStyle, points plotter.XYs) {
	s.add(&plotter.Line{XYs: points, LineStyle: style})
}

func (s paper) box(left, right, low, high float64, grey color.Gray) {
	s.add(&plotter.Polygon{
		XYs:   []plotter.XYs{{{X: left, Y: low}, {X: right, Y: low}, {X: right, Y: high}, {X: left, Y: high}}},
		Color: grey,
	})
}

func (s paper) grid(c chart) {
	for v := 0.0; v <= 100; v += 20 {
		s.curve(gridStyle, plotter.XYs{{X: 0, Y: v}, {X: c.endH, Y: v}})
	}
	for _, x := range append(c.uprights, c.endH) {
		s.curve(uprightStyle, plotter.XYs{{X: x, Y: s.Y.Min}, {X: x, Y: 100}})
	}
}

// rows draws when each thing is in use.
func (s paper) rows(uses []use) {
	const half = rowPercent * 0.3
	for i, u := range uses {
		for _, h := range u.hours {
			s.box(h[0], h[1], rowMiddle(i)-half, rowMiddle(i)+half, u.grey)
		}
	}
}

// label is a text on white, beside a point.
type label struct {
	at    plotter.XY
	gap   vg.Point
	text  string
	style draw.TextStyle
}

// Plot draws the label.
func (l label) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	at := vg.Point{X: x(l.at.X), Y: y(l.at.Y)}.Add(l.gap)
	blank(c, l.style.Rectangle(l.text).Add(at))
	c.FillText(l.style, at, l.text)
}

const labelSize, labelGap = 9, 2 * vg.Millimeter

// labels names levels and curves at the right, and puts a disc on each lowest
// point.
func (s paper) labels(c chart) {
	for _, e := range c.ends() {
		s.add(label{plotter.XY{X: c.endH, Y: e.percent}, vg.Point{X: labelGap}, e.name, lettering(labelSize, draw.XLeft, draw.YCenter)})
	}
	for _, one := range c.curves {
		s.add(&plotter.Scatter{XYs: one.lowest, GlyphStyle: draw.GlyphStyle{Color: color.Black, Radius: 3, Shape: draw.CircleGlyph{}}})
	}
}

// ends are the names at the right by rising height, pushed up where two would
// touch.
func (c chart) ends() []level {
	all := slices.Clone(c.levels)
	for _, one := range c.curves {
		all = append(all, level{one.points[len(one.points)-1].Y, one.name})
	}
	slices.SortStableFunc(all, func(a, b level) int { return cmp.Compare(a.percent, b.percent) })
	room := float64(100+rowPercent*len(c.uses)) / 28
	for i := range all[1:] {
		all[i+1].percent = max(all[i+1].percent, all[i].percent+room)
	}
	return all
}
