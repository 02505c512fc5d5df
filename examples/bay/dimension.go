package main

import (
	"cmp"
	"slices"
)

// view turns mm of the bay into mm of paper. Of a plan v is the width, of a
// front view the height.
type view struct {
	left, origin float64 // on paper
	scale        float64 // mm of the bay to one of paper
	up           bool    // v grows upwards
}

func (v view) x(length float64) float64 { return v.left + length/v.scale }

func (v view) y(across float64) float64 {
	if v.up {
		return v.origin - across/v.scale
	}
	return v.origin + across/v.scale
}

// edges are where the stretches of a chain begin and end, in mm of the bay. One
// that is too little goes back from the end of the others.
func edges(spans []span) []float64 {
	all := []float64{0}
	for _, s := range spans {
		all = append(all, all[len(all)-1]+s.mm.InexactFloat64())
	}
	return all
}

// label is the text of one stretch and the middle of the stretch on paper.
type label struct {
	middle, place float64
	text          string
}

// tick is half of an oblique stroke, each way.
const tick = 0.65

// across draws a chain of dimensions under a view, at y: what is too narrow for
// its text has it below, at the end of a hairline.
func (s *drawing) across(v view, y float64, spans []span) {
	at := edges(spans)
	s.line(hair, v.x(slices.Min(at)), y, v.x(slices.Max(at)), y)
	for _, edge := range at {
		s.line(hair, v.x(edge), y-2.5, v.x(edge), y+1)
		s.line(pen{0.35, "none", ""}, v.x(edge)-tick, y+tick, v.x(edge)+tick, y-tick)
	}
	var narrow []label
	for i, one := range spans {
		middle := v.x((at[i] + at[i+1]) / 2)
		if widthOf(one.text)+1 < (at[i+1]-at[i])/v.scale {
			s.text(letters, "middle", middle, y-0.9, one.text)
			continue
		}
		narrow = append(narrow, label{middle, middle, one.text})
	}
	rising(narrow)
	s.below(y, narrow, v.x(slices.Max(at))-v.x(0))
}

// below writes texts side by side, or upright where that wants more than wide.
func (s *drawing) below(y float64, narrow []label, wide float64) {
	lying := func(a, b label) float64 { return (widthOf(a.text)+widthOf(b.text))/2 + 2.5 }
	sum := 0.0
	for i := 1; i < len(narrow); i++ {
		sum += lying(narrow[i-1], narrow[i])
	}
	lie := sum < wide
	if lie {
		apart(narrow, lying)
	} else {
		apart(narrow, stacked)
	}
	for _, l := range narrow {
		s.line(hair, l.middle, y, l.place, y+2.5)
		if lie {
			s.text(letters, "middle", l.place, y+5, l.text)
		} else {
			s.upright(l.place+0.9, y+3.2+widthOf(l.text)/2, l.text)
		}
	}
}

// stacked is how close two lines of text may come.
func stacked(_, _ label) float64 { return letters + 0.6 }

// down draws a chain beside a view, at x, its texts at the right.
func (s *drawing) down(v view, x float64, spans []span) {
	at := edges(spans)
	s.line(hair, x, v.y(slices.Min(at)), x, v.y(slices.Max(at)))
	for _, edge := range at {
		s.line(hair, x-2.5, v.y(edge), x+1, v.y(edge))
		s.line(pen{0.35, "none", ""}, x-tick, v.y(edge)+tick, x+tick, v.y(edge)-tick)
	}
	var all []label
	for i, one := range spans {
		middle := v.y((at[i] + at[i+1]) / 2)
		all = append(all, label{middle, middle, one.text})
	}
	rising(all)
	apart(all, stacked)
	for _, l := range all {
		s.line(hair, x, l.middle, x+2.5, l.place)
		s.text(letters, "start", x+3, l.place+0.9, l.text)
	}
}

// rising sorts labels by where their stretches lie.
func rising(all []label) {
	slices.SortStableFunc(all, func(a, b label) int { return cmp.Compare(a.middle, b.middle) })
}

// apart moves labels, in rising order, until no two are closer than they may,
// each group around its own middle.
func apart(all []label, least func(a, b label) float64) {
	for range 8 * len(all) {
		for i := 1; i < len(all); i++ {
			if short := least(all[i-1], all[i]) - (all[i].place - all[i-1].place); short > 0 {
				all[i-1].place -= short / 2
				all[i].place += short / 2
			}
		}
	}
}

// overAbove draws one dimension over a view, overLeft one at its left.
func (s *drawing) overAbove(v view, y, to float64, text string) {
	s.line(hair, v.x(0), y, v.x(to), y)
	for _, edge := range []float64{0, to} {
		s.line(hair, v.x(edge), y-1, v.x(edge), y+2.5)
		s.line(pen{0.35, "none", ""}, v.x(edge)-tick, y+tick, v.x(edge)+tick, y-tick)
	}
	s.text(letters, "middle", v.x(to/2), y-0.9, text)
}

func (s *drawing) overLeft(v view, x, to float64, text string) {
	s.line(hair, x, v.y(0), x, v.y(to))
	for _, edge := range []float64{0, to} {
		s.line(hair, x-1, v.y(edge), x+2.5, v.y(edge))
		s.line(pen{0.35, "none", ""}, x-tick, v.y(edge)+tick, x+tick, v.y(edge)-tick)
	}
	s.upright(x-0.9, v.y(to/2), text)
}
