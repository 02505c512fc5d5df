package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Where things stand on the sheet, in mm.
const (
	between     = 8.0  // panels
	leftOf      = 14.0 // a view: overall dimension, opening
	rightOf     = 18.0 // a view: chain of dimensions
	titles      = 21.0 // title of the sheet and of a panel
	abovePlan   = 6.0
	belowPlan   = 22.0 // chain and the name of the front view
	foot        = 24.0 // key
	wall        = 1.4
	strapMM     = 25.0
	postMM      = 8.0  // radius
	postInMM    = 18.0 // from the end of the case
	strapsUpTo  = 0.85 // of the case's length, clear of the posts
	ballRadius  = 1.9
	largestPart = 0.4 // of the height, for one opening
)

// scales that a view may be drawn to; ISO 5455 prefers 1, 2, 5 and their decades.
var scales = []float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 500, 1000, 2000, 5000, 10_000}

// draw writes the drawing as SVG.
func (a answer) draw(out io.Writer) error {
	var s drawing
	scale := a.scale()
	s.text(4, "start", 0, 5, fmt.Sprintf("Battery bay, mm. Cases drawn bigger, space smaller, by their tolerances. Scale 1 : %s on A4.", mm(scale)))
	panel := a.panelWidth()
	for i, l := range a.laid {
		p := part{&s, a.question, l, fmt.Sprintf("clip%d", i+1)}
		p.panel(float64(i)*(panel+between), scale)
	}
	a.key(&s)
	return s.write(out)
}

func (a answer) panelWidth() float64 {
	n := float64(len(a.laid))
	return (sheetWidth - between*(n-1)) / n
}

// scale is the largest by which every panel finds room.
func (a answer) scale() float64 {
	var length, depth float64
	for _, l := range a.laid {
		length = max(length, reach(l.Checks[0]))
		depth = max(depth, reach(l.Checks[1])+reach(l.Checks[2]))
	}
	wide, high := a.panelWidth()-leftOf-rightOf, sheetHeight-titles-abovePlan-belowPlan-foot
	for _, s := range scales {
		if length <= wide*s && depth <= high*s {
			return s
		}
	}
	return scales[len(scales)-1]
}

// reach is the greater of what is wanted and what there is.
func reach(c working.Check) float64 { return decimal.Max(c.Demand, c.Limit).InexactFloat64() }

// part draws one case in the space.
type part struct {
	*drawing
	question
	layout
	id string
}

func (p part) panel(left, scale float64) {
	p.text(heading, "start", left, 12.5, fmt.Sprintf("As %s: case %s × %s × %s", p.name, show(p.Case.LengthMM), show(p.Case.WidthMM), show(p.Case.HeightMM)))
	p.text(heading, "start", left, 17.5, p.short())
	plan := view{left + leftOf, titles + abovePlan, scale, false}
	p.text(letters, "start", left, plan.y(0)-3, "plan")
	p.plan(plan)
	top := plan.y(reach(p.Checks[1])) + belowPlan
	p.text(letters, "start", left, top-3, "front")
	p.front(view{left + leftOf, top + reach(p.Checks[2])/scale, scale, true})
}

// short is the verdict in one line.
func (p part) short() string {
	var fails, left []string
	for _, x := range p.axes() {
		if x.check.Verdict() == working.Fails {
			fails = append(fails, x.name+" by "+show(x.leftMM.Neg())+" mm")
			continue
		}
		left = append(left, x.name+" "+show(x.leftMM))
	}
	switch {
	case len(fails) == 0:
		return "Fits. Left: " + strings.Join(left, ", ")
	case len(left) == 0:
		return "FAILS: " + strings.Join(fails, ", ")
	default:
		return "FAILS: " + strings.Join(fails, ", ") + ". Left: " + strings.Join(left, ", ")
	}
}

// there is what the space measures along an axis; wanted what the cases ask for.
func (p part) there(i int) float64  { return p.Checks[i].Limit.InexactFloat64() }
func (p part) wanted(i int) float64 { return p.Checks[i].Demand.InexactFloat64() }

// measured is the text of an overall dimension.
func (p part) measured(side decimal.Decimal) string {
	if p.Space.ToleranceMM.Decimal.IsZero() {
		return show(side)
	}
	return show(side) + " − " + show(p.Space.ToleranceMM.Decimal)
}

// box is the walls round a view of the space.
func (p part) box(v view, across float64) {
	x1, x2, y1, y2 := v.x(0), v.x(p.there(0)), v.y(0), v.y(across)
	low, high := min(y1, y2), max(y1, y2)
	p.rect(wallPen, x1-wall, low-wall, x2+wall, high+wall)
	p.rect(pen{fill: "white"}, x1, low, x2, high)
}

// over hatches what reaches into the wall, on both axes of a view.
func (p part) over(v view, i int) {
	if p.wanted(0) > p.there(0) {
		p.rect(hatch, v.x(p.there(0)), v.y(0), v.x(p.wanted(0)), v.y(p.there(i)))
	}
	if p.wanted(i) > p.there(i) {
		p.rect(hatch, v.x(0), v.y(p.there(i)), v.x(p.there(0)), v.y(p.wanted(i)))
	}
}

// starts are where the cases of a chain begin.
func (p part) starts(spans []span) []float64 {
	var all []float64
	at := edges(spans)
	for i, s := range spans {
		if s.kind == "case" {
			all = append(all, at[i])
		}
	}
	return all
}

func number(v decimal.Decimal) float64 { return v.InexactFloat64() }

func (p part) length() float64 { return number(p.Case.LengthMM.Add(p.Case.ToleranceMM.Decimal)) }
func (p part) width() float64  { return number(p.Case.WidthMM.Add(p.Case.ToleranceMM.Decimal)) }
func (p part) height() float64 { return number(p.Case.HeightMM.Add(p.Case.ToleranceMM.Decimal)) }

// strapMiddles are where straps cross a case, from its end.
func (p part) strapMiddles() []float64 {
	var all []float64
	for i := range p.straps {
		all = append(all, p.length()*strapsUpTo*(float64(i)+0.5)/float64(p.straps))
	}
	return all
}

// plan looks down into the bay.
func (p part) plan(v view) {
	p.box(v, p.there(1))
	p.vents(v.x(0), (v.y(0)+v.y(p.there(1)))/2, p.ventSide(p.there(1))/v.scale)
	columns, rows := p.starts(p.lengths()), p.starts(p.widths())
	for _, x := range columns {
		for _, y := range rows {
			p.rect(outline, v.x(x), v.y(y), v.x(x+p.length()), v.y(y+p.width()))
		}
		p.strapsOver(v, x, rows)
	}
	last := columns[len(columns)-1]
	for _, y := range rows {
		p.leaving(v, last, y)
		for _, x := range columns {
			p.posts(v, x, y)
		}
	}
	p.over(v, 1)
	p.ball(1, v.x(columns[0]+p.clearOfStraps()), v.y(rows[0]+p.width()*0.2))
	p.ball(2, v.x(columns[0]+p.strapMiddles()[0]), v.y(rows[0]+p.width()*0.8))
	p.overAbove(v, v.y(0)-4, p.there(0), "space "+p.measured(p.Space.LengthMM))
	p.overLeft(v, v.x(0)-9, p.there(1), p.measured(p.Space.WidthMM))
	p.across(v, v.y(reach(p.Checks[1]))+5, p.lengths())
	p.down(v, v.x(reach(p.Checks[0]))+5, p.widths())
}

// clearOfStraps is a place on a case beside its straps.
func (p part) clearOfStraps() float64 {
	if p.straps == 1 {
		return p.length() * strapsUpTo / 4
	}
	return p.length() * strapsUpTo / float64(p.straps)
}

// strapsOver draws the straps over all cases of one column, from fixing to
// fixing.
func (p part) strapsOver(v view, column float64, rows []float64) {
	from, to := rows[0], rows[len(rows)-1]+p.width()
	for _, middle := range p.strapMiddles() {
		x := column + middle
		p.rect(strapPen, v.x(x-strapMM/2), v.y(from), v.x(x+strapMM/2), v.y(to))
		for _, edge := range []float64{from - number(p.WallMM.Decimal)/2, to + number(p.WallMM.Decimal)/2} {
			p.circle(solid, v.x(x), v.y(edge), 0.6)
		}
	}
}

// posts draws both terminals of a case with their signs.
func (p part) posts(v view, x, y float64) {
	for i, sign := range []string{"+", "−"} {
		at := y + p.width()*(0.22+0.56*float64(i))
		p.circle(outline, v.x(x+p.length()-postInMM), v.y(at), min(postMM, p.width()/8)/v.scale)
		p.text(letters, "end", v.x(x+p.length()-postInMM-postMM)-0.6, v.y(at)+0.9, sign)
	}
}

// bend is the room that the cable takes beyond the case.
func (p part) bend() float64 {
	return number(p.BendMM)
}

// leaving draws the cables of a case from above: straight over lug and bend.
func (p part) leaving(v view, x, y float64) {
	if p.CableMM.Decimal.IsZero() {
		return
	}
	half, end := number(p.CableMM.Decimal)/2, x+p.length()
	for _, share := range []float64{0.22, 0.78} {
		at := y + p.width()*share
		p.rect(cablePen, v.x(end-postInMM), v.y(at-half), v.x(end+p.bend()), v.y(at+half))
		p.line(hair, v.x(end+number(p.LugMM.Decimal)), v.y(at-half), v.x(end+number(p.LugMM.Decimal)), v.y(at+half))
	}
}

// front looks along the width at the first row.
func (p part) front(v view) {
	p.box(v, p.there(2))
	p.frontVents(v)
	columns := p.starts(p.lengths())
	for _, x := range columns {
		p.standing(v, x)
	}
	end := columns[len(columns)-1] + p.length()
	p.within(p.id, v.x(0), v.y(0), v.x(reach(p.Checks[0])), v.y(reach(p.Checks[2])), func(s *drawing) { p.falling(s, v, end) })
	clear := p.height() + number(p.AboveMM.Decimal)
	p.line(keepClear, v.x(0), v.y(clear), v.x(p.there(0)), v.y(clear))
	p.over(v, 2)
	if !p.CableMM.Decimal.IsZero() {
		p.ball(3, v.x(end+p.bend()*0.4), v.y(p.body()*0.35))
	}
	if p.openingCM2.IsPositive() {
		p.ball(4, v.x(0)-5, v.y(p.there(2)/2))
	}
	p.ball(5, v.x(columns[0]+p.length()/2), v.y(p.height()+number(p.AboveMM.Decimal)/2))
	p.overLeft(v, v.x(0)-9, p.there(2), p.measured(p.Space.HeightMM))
	p.down(v, v.x(reach(p.Checks[0]))+5, p.heights())
}

// body is the height of a case without its terminals.
func (p part) body() float64 { return p.height() - number(p.terminalMM) }

// standing draws one case from the side, its straps and its terminals.
func (p part) standing(v view, x float64) {
	p.rect(outline, v.x(x), v.y(0), v.x(x+p.length()), v.y(p.body()))
	for _, middle := range p.strapMiddles() {
		p.rect(strapPen, v.x(x+middle-strapMM/2), v.y(0), v.x(x+middle+strapMM/2), v.y(p.body()))
		p.circle(solid, v.x(x+middle), v.y(0)-0.6, 0.6)
	}
	post := x + p.length() - postInMM
	p.rect(outline, v.x(post-postMM), v.y(p.body()), v.x(post+postMM), v.y(p.height()))
}

// frontVents draws the low and the high opening, as far from floor and ceiling.
func (p part) frontVents(v view) {
	high := p.there(2)
	side := p.ventSide(high)
	middle := side/2 + (high-2*side)/10
	for _, at := range []float64{middle, high - middle} {
		p.vents(v.x(0), v.y(at), side/v.scale)
	}
}

// falling draws the cable from the side: straight over the lug, then down by
// its least radius.
func (p part) falling(s *drawing, v view, end float64) {
	if p.CableMM.Decimal.IsZero() {
		return
	}
	d := number(p.CableMM.Decimal)
	inner := d * number(p.BendTimes)
	z, x := p.body()+number(p.terminalMM)/2, end+number(p.LugMM.Decimal)
	s.path(cablePen,
		"M", v.x(end-postInMM), v.y(z+d/2), "H", v.x(x),
		"A", (inner+d)/v.scale, (inner+d)/v.scale, "0 0 1", v.x(x+inner+d), v.y(z-d/2-inner), "V", v.y(-d),
		"H", v.x(x+inner), "V", v.y(z-d/2-inner),
		"A", inner/v.scale, inner/v.scale, "0 0 0", v.x(x), v.y(z-d/2), "H", v.x(end-postInMM), "Z")
}

// ventSide is the side of a square opening of the free area, in mm, no more
// than its part of the wall.
func (p part) ventSide(wallMM float64) float64 {
	return min(10*math.Sqrt(number(p.openingCM2)), largestPart*wallMM)
}

// vents draws an opening in the left wall, with its louvres.
func (p part) vents(x, y, side float64) {
	if side == 0 {
		return
	}
	p.rect(pen{0.25, "white", ""}, x-wall, y-side/2, x, y+side/2)
	for at := y - side/2 + 1.2; at < y+side/2; at += 1.2 {
		p.line(hair, x-wall, at, x, at-0.8)
	}
}

// ball is a number of the key.
func (s *drawing) ball(n int, x, y float64) {
	s.circle(pen{0.25, "white", ""}, x, y, ballRadius)
	s.text(letters, "middle", x, y+0.9, fmt.Sprint(n))
}

// key explains the numbers at the foot of the sheet.
func (a answer) key(s *drawing) {
	for i, text := range a.keys() {
		s.text(letters, "start", float64(i%3)*sheetWidth/3, sheetHeight-14+4*float64(i/3), text)
	}
	s.text(letters, "start", 0, sheetHeight-3.5, "Common practice: no code gives these clearances. A design aid, not a certificate. Measure the delivered case first.")
}

func (a answer) keys() []string {
	c := a.fit
	all := []string{
		fmt.Sprintf("1 case, %d of %s kg", c.Along*c.Across, show(a.eachKg)),
		fmt.Sprintf("2 strap; each fixing bears %s N at %s g", show(a.forces.EachN), show(a.times)),
	}
	if !c.CableMM.Decimal.IsZero() {
		all = append(all, fmt.Sprintf("3 cable %s, straight for %s, radius %s inside", show(c.CableMM.Decimal), show(c.LugMM.Decimal), show(c.CableMM.Decimal.Mul(c.BendTimes))))
	}
	if a.openingCM2.IsPositive() {
		all = append(all, fmt.Sprintf("4 opening, low and high, %s cm² free", show(a.openingCM2)))
	}
	return append(all, "5 free over the terminals, "+show(c.AboveMM.Decimal), "hatched: reaches into the wall")
}
