package main

import (
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// The sheet is A4 less its margins; below the picture stand the remarks.
const (
	sheetWidth  = 180 * vg.Millimeter
	sheetHeight = 262 * vg.Millimeter
	remarkSize  = 8
)

var sans = font.Font{Typeface: "Liberation", Variant: "Sans"}

// Each line differs by dash and width, never by colour.
var (
	limitStyle     = line(1.5)
	boundStyle     = line(0.8, 2, 2)
	adiabaticStyle = line(2.2, 12, 3)
	heatingStyle   = line(2.2, 4, 3)
	loadStyle      = line(1, 1, 3)
	ampacityStyle  = line(1, 8, 3)
	leastStyle     = line(1, 8, 3, 1.5, 3)
	mostStyle      = line(1, 8, 3, 1.5, 3, 1.5, 3)
	gridStyle      = draw.LineStyle{Color: color.Gray{Y: 200}, Width: 0.3}
)

func line(width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: color.Black, Width: width, Dashes: dashes}
}

func style(size float64, rotation float64, x draw.XAlignment, y draw.YAlignment) text.Style {
	return text.Style{Color: color.Black, Font: font.From(sans, vg.Points(size)), Rotation: rotation, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// draw writes the picture as SVG.
func (j judged) draw(out io.Writer) error {
	c, err := j.curves()
	if err != nil {
		return err
	}
	s := j.sheet(c)
	s.band(c)
	s.grid()
	...
}
