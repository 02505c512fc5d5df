package main

import (
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
)

// The sheet is A4 across, less its margins, in mm.
const sheetWidth, sheetHeight = 277.0, 190.0

// element is one element of an SVG.
type element struct {
	XMLName    xml.Name
	Attributes []xml.Attr `xml:",any,attr"`
	Text       string     `xml:",chardata"`
	Inside     []element
}

// drawing is in mm of paper, from its upper left corner.
type drawing struct{ inside []element }

func (s *drawing) add(e element) { s.inside = append(s.inside, e) }

// mark returns an element; its attributes are names and values in turn.
func mark(name string, attributes ...string) element {
	e := element{XMLName: xml.Name{Local: name}}
	for i := 0; i+1 < len(attributes); i += 2 {
		e.Attributes = append(e.Attributes, xml.Attr{Name: xml.Name{Local: attributes[i]}, Value: attributes[i+1]})
	}
	return e
}

// mm is a length on paper to 0.01 mm.
func mm(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64) // + 0 makes of -0 a 0
}

// pen is how a line is drawn and an area filled.
type pen struct {
	width float64
	fill  string
	dash  string
}

// Pens differ by width and dash, never by colour.
var (
	outline   = pen{0.35, "white", ""}
	strapPen  = pen{0.25, "#dddddd", ""}
	cablePen  = pen{0.25, "#bbbbbb", ""}
	wallPen   = pen{0, "#888888", ""}
	solid     = pen{0, "black", ""}
	hatch     = pen{0.25, "url(#hatch)", ""}
	hair      = pen{0.18, "none", ""}
	keepClear = pen{0.25, "none", "2 1"}
)

func (p pen) attributes() []string {
	all := []string{"fill", p.fill}
	if p.width > 0 {
		all = append(all, "stroke", "black", "stroke-width", mm(p.width))
	}
	if p.dash != "" {
		all = append(all, "stroke-dasharray", p.dash)
	}
	return all
}

// rect draws a box between two corners.
func (s *drawing) rect(p pen, x1, y1, x2, y2 float64) {
	s.add(mark("rect", append([]string{"x", mm(min(x1, x2)), "y", mm(min(y1, y2)), "width", mm(math.Abs(x2 - x1)), "height", mm(math.Abs(y2 - y1))}, p.attributes()...)...))
}

func (s *drawing) line(p pen, x1, y1, x2, y2 float64) {
	s.add(mark("line", append([]string{"x1", mm(x1), "y1", mm(y1), "x2", mm(x2), "y2", mm(y2)}, p.attributes()...)...))
}

func (s *drawing) circle(p pen, x, y, radius float64) {
	s.add(mark("circle", append([]string{"cx", mm(x), "cy", mm(y), "r", mm(radius)}, p.attributes()...)...))
}

// path draws along SVG path data: letters, and numbers in mm.
func (s *drawing) path(p pen, data ...any) {
	var words []string
	for _, part := range data {
		switch part := part.(type) {
		case string:
			words = append(words, part)
		case float64:
			words = append(words, mm(part))
		}
	}
	s.add(mark("path", append([]string{"d", strings.Join(words, " ")}, p.attributes()...)...))
}

// Sizes of letters, and how wide one is at most in the mean, of its size.
const (
	letters, heading = 2.6, 3.4
	letterWidth      = 0.62
)

func widthOf(text string) float64 { return float64(len([]rune(text))) * letters * letterWidth }

// text writes a line; anchor is "start", "middle" or "end" of it at x.
func (s *drawing) text(size float64, anchor string, x, y float64, text string) {
	e := mark("text", "x", mm(x), "y", mm(y), "font-size", mm(size), "text-anchor", anchor)
	e.Text = text
	s.add(e)
}

// upright writes a line upwards, its middle at y.
func (s *drawing) upright(x, y float64, text string) {
	e := mark("text", "x", mm(x), "y", mm(y), "font-size", mm(letters), "text-anchor", "middle", "transform", "rotate(-90 "+mm(x)+" "+mm(y)+")")
	e.Text = text
	s.add(e)
}

// within runs a drawing that is cut off outside a box.
func (s *drawing) within(id string, x1, y1, x2, y2 float64, draw func(*drawing)) {
	var part, box drawing
	draw(&part)
	box.rect(pen{fill: "none"}, x1, y1, x2, y2)
	clip := mark("clipPath", "id", id)
	clip.Inside = box.inside
	group := mark("g", "clip-path", "url(#"+id+")")
	group.Inside = part.inside
	s.add(clip)
	s.add(group)
}

// write writes the sheet as SVG.
func (s *drawing) write(out io.Writer) error {
	size := mm(sheetWidth) + " " + mm(sheetHeight)
	root := mark("svg", "xmlns", "http://www.w3.org/2000/svg", "width", mm(sheetWidth)+"mm", "height", mm(sheetHeight)+"mm",
		"viewBox", "0 0 "+size, "font-family", "sans-serif", "stroke-linecap", "round")
	lines := mark("pattern", "id", "hatch", "width", "1.3", "height", "1.3", "patternUnits", "userSpaceOnUse", "patternTransform", "rotate(45)")
	lines.Inside = []element{mark("rect", "width", "0.3", "height", "1.3", "fill", "black")}
	paper := mark("rect", "width", mm(sheetWidth), "height", mm(sheetHeight), "fill", "white")
	root.Inside = append([]element{lines, paper}, s.inside...)
	if _, err := io.WriteString(out, xml.Header); err != nil {
		return err
	}
	encoder := xml.NewEncoder(out)
	encoder.Indent("", " ")
	return encoder.Encode(root)
}
