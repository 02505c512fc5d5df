package main

import (
	"image/color"
	"io"
	"math"

	"example.org/extralow/examples/sheet"
	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines differ by width and dash, never by colour.
var (
	limitStyle     = sheet.Stroke(1.5)
	boundStyle     = sheet.Stroke(0.8, 2, 2)
	adiabaticStyle = sheet.Stroke(2.2, 14, 3)
	heatingStyle   = sheet.Stroke(2.2, 4, 3)
	loadStyle      = sheet.Stroke(1.2, 1, 3)
	ampacityStyle  = sheet.Stroke(1, 8, 3)
	leastStyle     = sheet.Stroke(1, 10, 3, 1.5, 3)
	mostStyle      = sheet.Stroke(1, 10, 3, 1.5, 3, 1.5, 3)
	bandGrey       = color.Gray{Y: 222}
)

// draw writes the picture as SVG.
func (j judged) draw(out io.Writer) error {
	c, err := j.curves()
	if err != nil {
		return err
	}
	return sheet.Page{Plot: j.plot(c), Remarks: j.remarks()}.WriteSVG(out)
}

// plot is time-current paper with the circuit on it.
func (j judged) plot(c curves) *plot.Plot {
	low, high := j.frame(c)
	s := paper{sheet.NewPaper(j.title())}
	lowA, highA := span(low.currentA, high.currentA)
	lowS, highS := span(low.timeS, high.timeS)
	sheet.SetLogAxis(&s.X, "Current, A", lowA.InexactFloat64(), highA.InexactFloat64(), sheet.Ticks(lowA, highA))
	sheet.SetLogAxis(&s.Y, "Time", lowS.InexactFloat64(), highS.InexactFloat64(), sheet.TimeTicks(1))
	s.Add(&plotter.Polygon{XYs: []plotter.XYs{xys(c.band)}, Color: bandGrey})
	s.Grid()
	s.currents(j)
	s.names(j, c) // under the curves: a name on white may hide the grid, never a curve
	s.cable(c)
	s.device(c)
	s.Dots(draw.PyramidGlyph{}, color.Black, 3.5, j.surgePoint())
	return s.Plot
}

// span is an axis that begins and ends at 1, 2 or 5 of a decade, with some
// room beyond what it must show.
func span(low, high decimal.Decimal) (from, to decimal.Decimal) {
	room := decimal.RequireFromString("1.5")
	return sheet.MarkBelow(low.Div(room)), sheet.MarkAbove(high.Mul(room))
}

// paper is time-current paper.
type paper struct{ sheet.Paper }

func xys(points []point) plotter.XYs {
	all := make(plotter.XYs, len(points))
	for i, p := range points {
		all[i] = plotter.XY{X: p.currentA.InexactFloat64(), Y: p.timeS.InexactFloat64()}
	}
	return all
}

// left puts a name under a falling curve, right one over it.
func (s paper) left(at plotter.XY, text string)  { s.Name(at, text, draw.XRight, draw.YTop) }
func (s paper) right(at plotter.XY, text string) { s.Name(at, text, draw.XLeft, draw.YBottom) }

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
	s.Curve(adiabaticStyle, xys(c.adiabatic))
	s.Curve(heatingStyle, xys(c.heating))
}

// device draws both sides of the band: solid from gate to gate, and in thin
// dashes what the end gates still bound. A ring ends a side that is not known
// further.
func (s paper) device(c curves) {
	if least := xys(c.least); len(least) > 0 {
		first, last := least[0], least[len(least)-1]
		s.Curve(boundStyle, plotter.XYs{{X: s.X.Min, Y: first.Y}, first})
		s.side(least, last)
	}
	if most := xys(c.most); len(most) > 0 {
		s.Curve(boundStyle, xys(c.beyond))
		s.side(most, most[0])
	}
}

// side draws one side with a disc at each gate, and a ring at the open end.
func (s paper) side(gates plotter.XYs, open plotter.XY) {
	s.Curve(limitStyle, gates)
	s.Dots(draw.CircleGlyph{}, color.Black, 2.2, gates...)
	s.Dots(draw.CircleGlyph{}, color.Black, 3, open)
	s.Dots(draw.CircleGlyph{}, color.White, 1.8, open)
}

// currents draws the steady currents and the faults as upright lines. The names
// of a pair are turned away from each other, those of the faults stand lower.
func (s paper) currents(j judged) {
	loadSide, cableSide := draw.YBottom, draw.YTop
	if j.loadA.GreaterThan(j.ampacity.AmpacityA) {
		loadSide, cableSide = cableSide, loadSide
	}
	const lower = 32 * vg.Millimeter
	s.upright(loadStyle, "load", j.loadA, loadSide, sheet.NameGap)
	s.upright(ampacityStyle, "ampacity", j.ampacity.AmpacityA, cableSide, sheet.NameGap)
	s.upright(leastStyle, "smallest fault", j.leastA, draw.YBottom, lower)
	s.upright(mostStyle, "largest fault", j.mostA, draw.YTop, lower)
}

func (s paper) upright(style draw.LineStyle, name string, currentA decimal.Decimal, side draw.YAlignment, down vg.Length) {
	s.Upright(style, currentA.InexactFloat64(), name+" "+currentA.String()+" A", side, down)
}
