package main

import (
	"cmp"
	"image/color"
	"io"
	"slices"
	"strconv"

	"example.org/extralow/examples/sheet"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines differ by width and dash, never by colour.
var (
	worstStyle   = sheet.Stroke(1.8)
	askedStyle   = sheet.Stroke(1.4, 1.5, 2.5)
	bestStyle    = sheet.Stroke(1.4, 7, 3)
	levelStyle   = sheet.Stroke(0.8, 14, 3, 2, 3)
	uprightStyle = draw.LineStyle{Color: color.Gray{Y: 120}, Width: 0.4}
	gridStyle    = draw.LineStyle{Color: color.Gray{Y: 170}, Width: 0.3}
	duskGrey     = color.Gray{Y: 238}
	nightGrey    = color.Gray{Y: 215}
	sourceGrey   = color.Gray{Y: 0}
	loadGrey     = color.Gray{Y: 140}
)

// Under 0 % each use has a row of so many percent; the names of the curves need
// room at the right.
const (
	rowPercent = 6
	nameRoom   = 31 * vg.Millimeter
)

// draw writes the picture as SVG.
func (c chart) draw(out io.Writer) error {
	return sheet.Page{Plot: c.plot(), Across: true, Beside: nameRoom, Remarks: c.remarks}.WriteSVG(out)
}

func (c chart) plot() *plot.Plot {
	s := paper{sheet.NewPaper(c.title)}
	sheet.SetAxis(&s.X, c.across, 0, c.endH, c.names)
	sheet.SetAxis(&s.Y, "State of charge, %", -float64(rowPercent*len(c.uses)), 100, c.percents())
	s.X.Tick.Length = 0
	for _, n := range c.nights {
		s.box(n.fromH, n.toH, 0, 100, n.grey)
	}
	s.grid(c)
	s.rows(c.uses)
	for _, l := range c.levels {
		s.Curve(levelStyle, plotter.XYs{{X: 0, Y: l.percent}, {X: c.endH, Y: l.percent}})
	}
	for _, one := range c.curves {
		s.Curve(one.style, one.points)
	}
	s.labels(c)
	return s.Plot
}

// percents are the marks of the upright axis, the rows' names among them.
func (c chart) percents() []plot.Tick {
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

// paper shows charge over time.
type paper struct{ sheet.Paper }

func (s paper) box(left, right, low, high float64, grey color.Gray) {
	s.Add(&plotter.Polygon{
		XYs:   []plotter.XYs{{{X: left, Y: low}, {X: right, Y: low}, {X: right, Y: high}, {X: left, Y: high}}},
		Color: grey,
	})
}

func (s paper) grid(c chart) {
	for v := 0.0; v <= 100; v += 20 {
		s.Curve(gridStyle, plotter.XYs{{X: 0, Y: v}, {X: c.endH, Y: v}})
	}
	for _, x := range append(c.uprights, c.endH) {
		s.Curve(uprightStyle, plotter.XYs{{X: x, Y: s.Y.Min}, {X: x, Y: 100}})
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

// labels names levels and curves at the right, and puts a disc on each lowest
// point.
func (s paper) labels(c chart) {
	for _, e := range c.ends() {
		s.Name(plotter.XY{X: c.endH, Y: e.percent}, e.name, draw.XLeft, draw.YCenter)
	}
	for _, one := range c.curves {
		s.Dots(draw.CircleGlyph{}, color.Black, 3, one.lowest...)
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
