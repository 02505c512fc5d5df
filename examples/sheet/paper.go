package sheet

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes of letters in points, and how far a name stands from its curve.
const (
	NameSize  = 9
	NameGap   = 2 * vg.Millimeter
	titleSize = 12
	axisSize  = 10
	tickSize  = 8.5
)

// Paper is a plot whose axes stay as they are, whatever is drawn on it.
type Paper struct{ *plot.Plot }

// NewPaper is an empty plot under a title.
func NewPaper(title string) Paper {
	p := Paper{plot.New()}
	p.Title.Text, p.Title.TextStyle, p.Title.Padding = title, Lettering(titleSize, draw.XCenter, draw.YTop), 4*vg.Millimeter
	return p
}

// SetAxis names an axis and gives it its ends and its marks.
func SetAxis(a *plot.Axis, name string, low, high float64, ticks []plot.Tick) {
	a.Min, a.Max, a.Padding = low, high, 0
	a.Label.Text, a.Label.TextStyle.Font = name, Lettering(axisSize, 0, 0).Font
	a.Tick.Marker, a.Tick.Label.Font = plot.ConstantTicks(ticks), Lettering(tickSize, 0, 0).Font
}

// SetLogAxis is [SetAxis] with a logarithmic scale. Both ends are above nought.
func SetLogAxis(a *plot.Axis, name string, low, high float64, ticks []plot.Tick) {
	SetAxis(a, name, low, high, ticks)
	a.Scale = plot.LogScale{}
}

// Add draws on the paper.
func (p Paper) Add(all ...plot.Plotter) {
	x, y := p.X, p.Y
	p.Plot.Add(all...)
	p.X, p.Y = x, y
}

// Grid rules the paper at every named mark of its axes.
func (p Paper) Grid() {
	style := draw.LineStyle{Color: color.Gray{Y: 190}, Width: 0.3}
	p.Add(&plotter.Grid{Vertical: style, Horizontal: style})
}

// Curve draws straight from point to point.
func (p Paper) Curve(style draw.LineStyle, points plotter.XYs) {
	p.Add(&plotter.Line{XYs: points, LineStyle: style})
}

// Dots puts a shape on each point.
func (p Paper) Dots(shape draw.GlyphDrawer, ink color.Color, radius vg.Length, at ...plotter.XY) {
	p.Add(&plotter.Scatter{XYs: at, GlyphStyle: draw.GlyphStyle{Color: ink, Radius: radius, Shape: shape}})
}

// Upright draws a line over the whole height and its name along it, so far down
// from the top. The name stands left of the line with [draw.YBottom], right of it
// with [draw.YTop].
func (p Paper) Upright(style draw.LineStyle, x float64, name string, side draw.YAlignment, down vg.Length) {
	top := plotter.XY{X: x, Y: p.Y.Max}
	p.Curve(style, plotter.XYs{{X: x, Y: p.Y.Min}, top})
	letters := Lettering(NameSize, draw.XRight, side)
	letters.Rotation = math.Pi / 2
	beside := vg.Length(-3)
	if side == draw.YTop {
		beside = 3
	}
	p.Add(label{top, vg.Point{X: beside, Y: -down}, name, letters})
}

// Name writes a text on white beside a point: left of it with [draw.XRight],
// right of it with [draw.XLeft]; under it with [draw.YTop].
func (p Paper) Name(at plotter.XY, text string, x draw.XAlignment, y draw.YAlignment) {
	beside := NameGap
	if x == draw.XRight {
		beside = -beside
	}
	p.Add(label{at, vg.Point{X: beside}, text, Lettering(NameSize, x, y)})
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
	WriteOnWhite(c, l.style, vg.Point{X: x(l.at.X), Y: y(l.at.Y)}.Add(l.gap), l.text)
}
