// Package sheet draws a plot on a sheet of A4 as SVG: its page, its logarithmic
// paper in the units of the trade, and the strokes, letters and labels on it.
// Lines differ by width, grey and dash, never by colour, and the file holds its
// own letters. The same plot gives the same bytes.
package sheet

import (
	"image/color"
	"io"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// A4 by ISO 216, and its margin.
const long, short, margin = 297 * vg.Millimeter, 210 * vg.Millimeter, 15 * vg.Millimeter

// Page is a plot on a sheet of A4 with remarks under it.
type Page struct {
	Plot    *plot.Plot
	Across  bool      // the sheet lies on its long side
	Beside  vg.Length // room at the right of the plot, for names of its curves
	Remarks []string  // one line each
}

// WriteSVG writes the page as SVG.
func (p Page) WriteSVG(out io.Writer) error {
	width, height := short, long
	if p.Across {
		width, height = long, short
	}
	canvas := vgsvg.NewWith(vgsvg.UseWH(width, height), vgsvg.EmbedFonts(true))
	paper := draw.New(canvas)
	blank(paper, paper.Rectangle)
	inside := draw.Crop(paper, margin, -margin, margin, -margin)
	foot := remark(inside, p.Remarks)
	p.Plot.Draw(draw.Crop(inside, 0, -p.Beside, foot, 0))
	_, err := canvas.WriteTo(out)
	return err
}

// remark writes lines at the foot of a page and returns the height they take.
func remark(page draw.Canvas, lines []string) vg.Length {
	const leading = 11
	style := Lettering(8.5, draw.XLeft, draw.YTop)
	height := vg.Length(len(lines)) * leading
	for i, text := range lines {
		page.FillText(style, vg.Point{X: page.Min.X, Y: page.Min.Y + height - vg.Length(i)*leading}, text)
	}
	return height + leading
}

// blank paints a rectangle white.
func blank(c draw.Canvas, r vg.Rectangle) {
	c.FillPolygon(color.White, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}})
}

// Stroke is a black line so many points wide, with lengths of dash and gap in
// turn; solid without.
func Stroke(width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: color.Black, Width: width, Dashes: dashes}
}

// Lettering is black letters of a size in points, and where their text lies from
// its point.
func Lettering(size vg.Length, x draw.XAlignment, y draw.YAlignment) draw.TextStyle {
	face := font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, size)
	return draw.TextStyle{Color: color.Black, Font: face, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// WriteOnWhite writes a text and paints out what lies under it.
func WriteOnWhite(c draw.Canvas, style draw.TextStyle, at vg.Point, text string) {
	blank(c, style.Rectangle(text).Add(at))
	c.FillText(style, at, text)
}
