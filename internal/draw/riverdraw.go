package draw

import (
	"math"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

var (
	foodStyle  = Style{Fill: Wash, Stroke: Quiet, Width: 1}
	freshStyle = Style{Fill: Paper, Stroke: Ink, Width: 1}
	lostStyle  = Style{Pattern: Hatched, Stroke: Ink, Width: 1}
	potStyle   = Style{Stroke: Ink, Width: 3}
)

// picture draws one step.
func (b bend) picture(do string, scale float64, units unit.System) Picture {
	return Picture{Width: riverWidth, Height: riverHeight, Title: do, Desc: "What flows into and out of this step, widths by mass.", Stretch: true,
		Draw: func(c Canvas) { b.draw(c, scale, units) }}
}

func (b bend) draw(c Canvas, scale float64, units unit.System) {
	above, below := lay(b.before, scale), lay(b.after, scale)
	beside, pot := b.potLevel(scale)
	x := pot.from
	used := make([]float64, len(b.before)) // of the width of each, what is taken from its left
	for _, t := range b.taken {
		i, w := indexOf(b.before, t.line.ID), wide(t.line.Mass, scale)
		top := extent{above[i].from, above[i].from + min(w, above[i].width())}
		used[i] = top.width()
		t.flow(c, top, 0, extent{x, x + w}, potTop, units)
		x += w
	}
	for i, s := range b.left {
		k := indexOf(b.before, s.line.ID)
		top := extent{min(above[k].from+used[k], above[k].to-leastStream), above[k].to}
		s.flow(c, top, 0, beside[i], potTop, units)
		s.flow(c, beside[i], potTop, beside[i], potFoot, units)
		s.flow(c, beside[i], potFoot, below[indexOf(b.after, s.line.ID)], riverHeight, units)
	}
	for _, l := range b.fresh {
		w := wide(l.Mass, scale)
		block(c, extent{x, x + w}, pourTop, potTop, freshStyle, l.Name, l.Mass, units)
		x += w
	}
	x = pot.from
	for _, o := range b.out {
		w := wide(o.line.Mass, scale)
		o.flow(c, extent{x, x + w}, potFoot, below[indexOf(b.after, o.line.ID)], riverHeight, units)
		x += w
	}
	for _, l := range b.lost {
		w := wide(l.Mass, scale)
		block(c, extent{x, x + w}, potFoot, lossFoot, lostStyle, l.Cause, l.Mass, units)
		x += w
	}
	c.Rect(Box{pot.from, potTop, pot.width(), potFoot - potTop}, Style{Fill: Wash})
	c.Rect(Box{pot.from, potTop, pot.width(), potFoot - potTop}, potStyle)
}

// potLevel is where what waits stands beside the pot, and the pot.
func (b bend) potLevel(scale float64) (beside []extent, pot extent) {
	in, out := 0.0, 0.0
	for _, t := range b.taken {
		in += wide(t.line.Mass, scale)
	}
	for _, l := range b.fresh {
		in += wide(l.Mass, scale)
	}
	for _, o := range b.out {
		out += wide(o.line.Mass, scale)
	}
	for _, l := range b.lost {
		out += wide(l.Mass, scale)
	}
	x := 2.0
	for i, s := range b.left {
		if i == b.at {
			pot = extent{x, x + max(in, out)}
			x = pot.to + riverGap
		}
		w := wide(s.line.Mass, scale)
		beside = append(beside, extent{x, x + w})
		x += w + riverGap
	}
	if b.at >= len(b.left) {
		pot = extent{x, x + max(in, out)}
	}
	return beside, pot
}

// flow draws a stream as a band that bends from one height to another.
func (s stream) flow(c Canvas, from extent, top float64, to extent, foot float64, units unit.System) {
	const parts = 10
	var left, right []Point
	for i := range parts + 1 {
		t := float64(i) / parts
		bend := (1 - math.Cos(math.Pi*t)) / 2
		y := top + t*(foot-top)
		left = append(left, Point{from.from + bend*(to.from-from.from), y})
		right = append(right, Point{from.to + bend*(to.to-from.to), y})
	}
	for i := len(right) - 1; i >= 0; i-- {
		left = append(left, right[i])
	}
	style := foodStyle
	if s.kind == plan.ByProduct {
		style.Fill = Faint
	}
	c.Group(s.line.Name+", "+s.line.Mass.Show(units), func(c Canvas) {
		sides := style
		style.Stroke = NoTone
		c.Polyline(left, style)
		sides.Fill = NoTone // a band is open at its ends: it goes on
		c.Polyline(left[:parts+1], sides)
		c.Polyline(left[parts+1:], sides)
		if s.kind == plan.ByProduct { // dotted along its middle
			var mid []Point
			for i := range parts + 1 {
				mid = append(mid, Point{(left[i].X + left[len(left)-1-i].X) / 2, left[i].Y})
			}
			c.Polyline(mid, Style{Stroke: Ink, Width: 2, Dash: Dotted})
		}
	})
}

// block is something that falls in or is lost.
func block(c Canvas, x extent, top, foot float64, style Style, name string, m unit.Mass, units unit.System) {
	c.Group(name+", "+m.Show(units), func(c Canvas) { c.Rect(Box{x.from, top, x.width(), foot - top}, style) })
}

// mouth is where what is left at the end flows out.
func mouth(now []stream, scale float64, units unit.System) Picture {
	return Picture{Width: riverWidth, Height: riverHeight / 4, Title: "What comes out", Desc: "What is there at the end, widths by mass.", Stretch: true, Draw: func(c Canvas) {
		for i, r := range lay(now, scale) {
			now[i].flow(c, r, 0, r, riverHeight/4, units)
		}
	}}
}
