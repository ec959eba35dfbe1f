package draw

import "slices"

// Tornado shows by how much a figure moves when one input after another goes to its low and its high end: the widest on top.
type Tornado struct {
	Title string
	Desc  string
	Base  string // the figure as planned, in words
	At    float64
	Rows  []TornadoRow // in the order drawn
}

// TornadoRow is one input.
type TornadoRow struct {
	Name              string  // what is moved, and how far
	Low, High         float64 // the figure at the input's low and high end; either may be the greater
	LowText, HighText string
}

const (
	tornadoRow = 52.0
	tornadoBar = 20.0
	tornadoTop = 34.0
)

// Picture draws it. The side of an input's low end is dotted, that of its high end solid.
func (t Tornado) Picture() Picture {
	p := Picture{Width: chartWidth, Height: tornadoTop + tornadoRow*float64(len(t.Rows)) + stripRow + 12, Title: t.Title, Desc: t.Desc}
	p.Draw = func(c Canvas) { t.draw(c, p) }
	return p
}

func (t Tornado) draw(c Canvas, p Picture) {
	span := noReach()
	span.add(t.At)
	room := 0.0
	for _, r := range t.Rows {
		span.add(r.Low)
		span.add(r.High)
		room = max(room, textWidth(r.LowText, tickType), textWidth(r.HighText, tickType))
	}
	if span.high == span.low {
		span = span.atLeast(1)
	}
	left, right := room+8, p.Width-room-8
	x := func(v float64) float64 { return left + (v-span.low)/(span.high-span.low)*(right-left) }
	bottom := tornadoTop + tornadoRow*float64(len(t.Rows))
	head := limitType
	head.Anchor = Middle
	half := textWidth(t.Base, head) / 2
	c.Text(Point{max(half+2, min(x(t.At), p.Width-half-2)), 20}, t.Base, head)
	for i, r := range t.Rows {
		c.Group(r.Name+": "+r.LowText+" to "+r.HighText, func(c Canvas) { r.draw(c, tornadoTop+tornadoRow*float64(i), t.At, x, p.Width) })
	}
	t.key(c, p, bottom)
}

func (r TornadoRow) draw(c Canvas, top, base float64, x func(float64) float64, wide float64) {
	c.Text(Point{4, top + 16}, fit(r.Name, wide-8, tickType), tickType)
	y := top + 24
	ends := []struct {
		at      float64
		text    string
		pattern Pattern
	}{{r.Low, r.LowText, Dots}, {r.High, r.HighText, Solid}}
	slices.SortStableFunc(ends, func(a, b struct {
		at      float64
		text    string
		pattern Pattern
	}) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	for k, e := range ends {
		from, to := min(x(base), x(e.at)), max(x(base), x(e.at))
		if to > from {
			c.Rect(Box{from, y, to - from, tornadoBar}, Style{Pattern: e.pattern, Stroke: Ink, Width: 1})
		}
		word := tickType
		at := min(x(e.at), x(base)) - tickGap
		if word.Anchor = End; k == 1 {
			word.Anchor, at = Start, max(x(e.at), x(base))+tickGap
		}
		c.Text(Point{at, y + 16}, e.text, word)
	}
	c.Line(Point{x(base), y - 4}, Point{x(base), y + tornadoBar + 4}, Style{Stroke: Ink, Width: 2})
}

func (t Tornado) key(c Canvas, p Picture, bottom float64) {
	s := strip{wide: p.Width}
	sign := func(pattern Pattern) func(Canvas, Point) {
		return func(c Canvas, at Point) {
			c.Rect(Box{at.X - signWide/2, at.Y - 7, signWide, 14}, Style{Pattern: pattern, Stroke: Ink, Width: 1})
		}
	}
	s.add(item{sign: sign(Dots), text: "low end"})
	s.add(item{sign: sign(Solid), text: "high end"})
	s.draw(c, bottom)
}
