package main

import (
	"image/color"
	"io"
	"math"

	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// The sheet is A4.
const sheetWidth, sheetHeight, margin = 210 * vg.Millimeter, 297 * vg.Millimeter, 15 * vg.Millimeter

// Lines differ by width and dash, never by colour.
var (
	limitStyle     = stroke(1.5)
	boundStyle     = stroke(0.8, 2, 2)
	adiabaticStyle = stroke(2.2, 14, 3)
	heatingStyle   = stroke(2.2, 4, 3)
	loadStyle      = stroke(1.2, 1, 3)
	ampacityStyle  = stroke(1, 8, 3)
	leastStyle     = stroke(1, 10, 3, 1.5, 3)
	mostStyle      = stroke(1, 10, 3, 1.5, 3, 1.5, 3)
	gridStyle      = draw.LineStyle{Color: color.Gray{Y: 190}, Width: 0.3}
	bandGrey       = color.Gray{Y: 222}
)

func stroke(width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: color.Black, Width: width, Dashes: dashes}
}

func lettering(size vg.Length, x draw.XAlignment, y draw.YAlignment) draw.TextStyle {
	face := font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, size)
	return draw.TextStyle{Color: color.Black, Font: face, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// draw writes the picture as SVG, its letters included.
func (j judged) draw(out io.Writer) error {
	c, err := j.curves()
	if err != nil {
		return err
	}
	canvas := vgsvg.NewWith(vgsvg.UseWH(sheetWidth, sheetHeight), vgsvg.EmbedFonts(true))
	sheet := draw.New(canvas)
	blank(sheet, sheet.Rectangle)
	page := draw.Crop(sheet, margin, -margin, margin, -margin)
	foot := remarks(page, j.remarks())
	j.plot(c).Draw(draw.Crop(page, 0, 0, foot, 0))
	_, err = canvas.WriteTo(out)
	return err
}

// blank paints a rectangle white.
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

// plot is time-current paper with the circuit on it.
func (j judged) plot(c curves) *plot.Plot {
	low, high := j.frame(c)
	p := plot.New()
	p.Title.Text, p.Title.TextStyle, p.Title.Padding = j.title(), lettering(12, draw.XCenter, draw.YTop), 4*vg.Millimeter
	axis(&p.X, "Current, A", low.currentA, high.currentA)
	axis(&p.Y, "Time", low.timeS, high.timeS)
	p.X.Tick.Marker, p.Y.Tick.Marker = currentTicks(p.X.Min, p.X.Max), timeTicks()
	s := paper{p}
	s.add(&plotter.Polygon{XYs: []plotter.XYs{xys(c.band)}, Color: bandGrey})
	s.add(&plotter.Grid{Vertical: gridStyle, Horizontal: gridStyle})
	s.currents(j)
	s.names(j, c) // under the curves: a name on white may hide the grid, never a curve
	s.cable(c)
	s.device(c)
	s.mark(draw.PyramidGlyph{}, color.Black, 3.5, j.surgePoint())
	return p
}

func axis(a *plot.Axis, name string, low, high decimal.Decimal) {
	a.Scale = plot.LogScale{}
	a.Min, a.Max = span(low.InexactFloat64(), high.InexactFloat64())
	a.Label.Text, a.Label.TextStyle.Font = name, lettering(10, 0, 0).Font
	a.Tick.Label.Font = lettering(8.5, 0, 0).Font
	a.Padding = 0
}

// paper adds to a plot whose axes stay as they are.
type paper struct{ *plot.Plot }

func (s paper) add(ps ...plot.Plotter) {
	x, y := s.X, s.Y
	s.Add(ps...)
	s.X, s.Y = x, y
}

func xys(points []point) plotter.XYs {
	all := make(plotter.XYs, len(points))
	for i, p := range points {
		all[i] = plotter.XY{X: p.currentA.InexactFloat64(), Y: p.timeS.InexactFloat64()}
	}
	return all
}

func (s paper) curve(style draw.LineStyle, points plotter.XYs) {
	s.add(&plotter.Line{XYs: points, LineStyle: style})
}

func (s paper) mark(shape draw.GlyphDrawer, ink color.Color, radius vg.Length, at ...plotter.XY) {
	s.add(&plotter.Scatter{XYs: at, GlyphStyle: draw.GlyphStyle{Color: ink, Radius: radius, Shape: shape}})
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

// left puts a name under a falling curve, right one over it.
func (s paper) left(at plotter.XY, text string) {
	s.add(label{at, vg.Point{X: -labelGap}, text, lettering(labelSize, draw.XRight, draw.YTop)})
}

func (s paper) right(at plotter.XY, text string) {
	s.add(label{at, vg.Point{X: labelGap}, text, lettering(labelSize, draw.XLeft, draw.YBottom)})
}

// names writes what each curve is beside it.
func (s paper) names(j judged, c curves) {
	s.left(j.surgePoint(), "surge "+j.surge.CurrentA.String()+" A, "+j.surge.DurationS.String()+" s")
	if least := xys(c.least); len(least) > 0 {
		s.left(least[len(least)-1], "opens not before")
	}
	if most := xys(c.most); len(most) > 0 {
		s.right(most[0], "opens by")
	}
	fiveS := xys(c.adiabatic)[0]
	s.right(plotter.XY{X: fiveS.X * math.Sqrt2, Y: fiveS.Y / 2}, "cable: k²S²") // further down the same line
	if heating := xys(c.heating); len(heating) > 0 {
		s.right(heating[len(heating)/2], "cable: heats to "+j.finalC.String()+" °C")
	}
}

func (j judged) surgePoint() plotter.XY {
	return xys([]point{{j.surge.CurrentA, j.surge.DurationS}})[0]
}

// cable draws how long the cable bears a current.
func (s paper) cable(c curves) {
	s.curve(adiabaticStyle, xys(c.adiabatic))
	s.curve(heatingStyle, xys(c.heating))
}

// device draws both sides of the band: solid from gate to gate, and in thin
// dashes what the end gates still bound. A ring ends a side that is not known
// further.
func (s paper) device(c curves) {
	if least := xys(c.least); len(least) > 0 {
		first, last := least[0], least[len(least)-1]
		s.curve(boundStyle, plotter.XYs{{X: s.X.Min, Y: first.Y}, first})
		s.side(least, last)
	}
	if most := xys(c.most); len(most) > 0 {
		first, last := most[0], most[len(most)-1]
		s.curve(boundStyle, plotter.XYs{last, {X: s.X.Max, Y: last.Y}})
		s.side(most, first)
	}
}

// side draws one side with a disc at each gate, and a ring at the open end.
func (s paper) side(gates plotter.XYs, open plotter.XY) {
	s.curve(limitStyle, gates)
	s.mark(draw.CircleGlyph{}, color.Black, 2.2, gates...)
	s.mark(draw.CircleGlyph{}, color.Black, 3, open)
	s.mark(draw.CircleGlyph{}, color.White, 1.8, open)
}

// currents draws the steady currents and the faults as upright lines. The names
// of a pair are turned away from each other, those of the faults stand lower.
func (s paper) currents(j judged) {
	loadSide, cableSide := draw.YBottom, draw.YTop
	if j.loadA.GreaterThan(j.ampacity.AmpacityA) {
		loadSide, cableSide = cableSide, loadSide
	}
	const lower = 32 * vg.Millimeter
	s.upright(loadStyle, j.loadA, "load", loadSide, labelGap)
	s.upright(ampacityStyle, j.ampacity.AmpacityA, "ampacity", cableSide, labelGap)
	s.upright(leastStyle, j.leastA, "smallest fault", draw.YBottom, lower)
	s.upright(mostStyle, j.mostA, "largest fault", draw.YTop, lower)
}

// upright draws a line and its name along it, some way down from the top.
func (s paper) upright(style draw.LineStyle, currentA decimal.Decimal, name string, side draw.YAlignment, down vg.Length) {
	top := plotter.XY{X: currentA.InexactFloat64(), Y: s.Y.Max}
	s.curve(style, plotter.XYs{{X: top.X, Y: s.Y.Min}, top})
	letters := lettering(labelSize, draw.XRight, side)
	letters.Rotation = math.Pi / 2
	beside := vg.Length(-3) // the left of the line
	if side == draw.YTop {
		beside = 3
	}
	s.add(label{top, vg.Point{X: beside, Y: -down}, name + " " + currentA.String() + " A", letters})
}
