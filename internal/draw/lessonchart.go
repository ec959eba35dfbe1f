package draw

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Lesson is a chart of a figure as the book has it, as single runs gave it, and as it is proposed.
type Lesson struct {
	Title    string
	Unit     string // of the values: "%", "min/lb"
	Book     LessonMark
	Runs     []LessonRun // in the order in which they were made
	Proposed *LessonMark // nil while there are too few runs
	Width    float64     // 0 for the usual one
}

// LessonMark is a value and where it may truly be.
type LessonMark struct {
	Name             string // "the book", "proposed"
	Value, Low, High float64
}

// LessonRun is what one run gave.
type LessonRun struct {
	Name    string
	Value   float64
	LeftOut bool
	Asked   bool
}

// lesson is the chart laid out.
type lesson struct {
	Lesson
	wide      float64
	plot      Box
	low, high float64
	up        []float64
	keys      strip
}

func (l Lesson) lay() lesson {
	span := noReach()
	for _, v := range []float64{l.Book.Value, l.Book.Low, l.Book.High} {
		span.add(v)
	}
	for _, r := range l.Runs {
		span.add(r.Value)
	}
	if l.Proposed != nil {
		span.add(l.Proposed.Low)
		span.add(l.Proposed.High)
	}
	span = span.atLeast(1e-9 + 0.02*math.Abs(span.high))
	air := (span.high - span.low) * 0.08
	h := lesson{Lesson: l, wide: size(l.Width, chartWidth), low: span.low - air, high: span.high + air}
	if span.low >= 0 {
		h.low = max(0, h.low)
	}
	h.up = even(h.low, h.high, h.step())
	left := 0.0
	for _, v := range h.up {
		left = max(left, textWidth(h.text(v), tickType))
	}
	left += tickGap + 8
	h.plot = Box{left, abovePlot, h.wide - left - 12, 260}
	h.keys = h.strip()
	return h
}

func (h lesson) step() float64 { return fineStep(h.high-h.low, mostTicks) }

func (h lesson) text(v float64) string {
	return minus(strconv.FormatFloat(v, 'f', max(0, int(math.Ceil(-math.Log10(h.step())-1e-9))), 64))
}

func (h lesson) y(v float64) float64 { return h.plot.Y + (h.high-v)/(h.high-h.low)*h.plot.H }

// columns: the book, the runs, what is proposed.
func (h lesson) x(column int) float64 {
	return h.plot.X + (float64(column)+0.5)/float64(len(h.Runs)+2)*h.plot.W
}

// Picture draws it. What differs, differs by shape: a run is a dot, one that is asked about is ringed, one that is left out is crossed.
func (l Lesson) Picture() Picture {
	h := l.lay()
	p := Picture{Width: h.wide, Height: h.plot.Y + h.plot.H + belowPlot + 24 + h.keys.height(), Title: l.Title, Desc: h.said()}
	p.Draw = func(c Canvas) {
		h.ground(c)
		h.axes(c)
		for i, r := range h.Runs {
			h.run(c, Point{h.x(i + 1), h.y(r.Value)}, r)
		}
		h.mark(c, h.x(0), h.Book, false)
		if h.Proposed != nil {
			h.mark(c, h.x(len(h.Runs)+1), *h.Proposed, true)
		}
		h.below(c)
		h.keys.draw(c, h.plot.Y+h.plot.H+belowPlot+24)
	}
	return p
}

// ground is where the figure truly is, as a band behind the runs, and the book's value as a line through them.
func (h lesson) ground(c Canvas) {
	right := h.plot.X + h.plot.W
	if h.Proposed != nil {
		top := h.y(h.Proposed.High)
		c.Rect(Box{h.plot.X, top, h.plot.W, h.y(h.Proposed.Low) - top}, Style{Fill: Wash})
		c.Line(Point{h.plot.X, h.y(h.Proposed.Value)}, Point{right, h.y(h.Proposed.Value)}, Style{Stroke: Ink, Width: 2})
	}
	c.Line(Point{h.plot.X, h.y(h.Book.Value)}, Point{right, h.y(h.Book.Value)}, Style{Stroke: Ink, Width: 1.5, Dash: Dashed})
}

func (h lesson) axes(c Canvas) { upAxis(c, h.plot, h.up, h.y, h.text, h.Unit) }

func (h lesson) run(c Canvas, at Point, r LessonRun) {
	if r.LeftOut {
		c.Line(Point{at.X - 6, at.Y - 6}, Point{at.X + 6, at.Y + 6}, Style{Stroke: Ink, Width: 2})
		c.Line(Point{at.X - 6, at.Y + 6}, Point{at.X + 6, at.Y - 6}, Style{Stroke: Ink, Width: 2})
		return
	}
	c.Rect(Box{at.X - 5, at.Y - 5, 10, 10}, Style{Fill: Ink, Round: 5})
	if r.Asked {
		c.Rect(Box{at.X - 10, at.Y - 10, 20, 20}, Style{Stroke: Ink, Width: 2, Round: 10})
	}
}

// mark is a value with its interval: a square, filled when it is proposed.
func (h lesson) mark(c Canvas, x float64, m LessonMark, filled bool) {
	strong := Style{Stroke: Ink, Width: 2}
	c.Line(Point{x, h.y(m.Low)}, Point{x, h.y(m.High)}, strong)
	for _, v := range []float64{m.Low, m.High} {
		c.Line(Point{x - 8, h.y(v)}, Point{x + 8, h.y(v)}, strong)
	}
	box := Style{Fill: Paper, Stroke: Ink, Width: 2}
	if filled {
		box.Fill = Ink
	}
	c.Rect(Box{x - 7, h.y(m.Value) - 7, 14, 14}, box)
}

// below are the words under the columns: the runs by their numbers, as many as there is room for.
func (h lesson) below(c Canvas) {
	y := h.plot.Y + h.plot.H + 23
	t := tickType
	t.Anchor = Middle
	book, proposed := "book", "new"
	c.Text(Point{max(textWidth(book, t)/2, h.x(0)), y}, book, t)
	if h.Proposed != nil {
		c.Text(Point{min(h.wide-textWidth(proposed, t)/2, h.x(len(h.Runs)+1)), y}, proposed, t)
	}
	apart := h.plot.W / float64(len(h.Runs)+2)
	every := max(1, int(math.Ceil(numberRoom/apart)))
	for i := range h.Runs {
		if i%every == 0 && h.x(i+1)-h.x(0) > 36 && h.x(len(h.Runs)+1)-h.x(i+1) > 36 {
			c.Text(Point{h.x(i + 1), y}, strconv.Itoa(i+1), t)
		}
	}
	t.Anchor = Middle
	c.Text(Point{h.plot.X + h.plot.W/2, y + 21}, fit("runs, the first at the left", h.plot.W, t), t)
}

// strip is the key, of what there is.
func (h lesson) strip() strip {
	s := strip{wide: h.wide}
	s.add(item{text: "the book, and how far runs lie from it", sign: func(c Canvas, at Point) {
		c.Rect(Box{at.X - 7, at.Y - 7, 14, 14}, Style{Fill: Paper, Stroke: Ink, Width: 2})
	}})
	if h.Proposed != nil {
		s.add(item{text: "proposed, and where it truly is", fresh: true, sign: func(c Canvas, at Point) {
			c.Rect(Box{at.X - 7, at.Y - 7, 14, 14}, Style{Fill: Ink})
		}})
	}
	asked, left := false, false
	for _, r := range h.Runs {
		asked, left = asked || r.Asked && !r.LeftOut, left || r.LeftOut
	}
	if asked {
		s.add(item{text: "far off: asked about", fresh: true, sign: func(c Canvas, at Point) {
			c.Rect(Box{at.X - 5, at.Y - 5, 10, 10}, Style{Fill: Ink, Round: 5})
			c.Rect(Box{at.X - 10, at.Y - 10, 20, 20}, Style{Stroke: Ink, Width: 2, Round: 10})
		}})
	}
	if left {
		s.add(item{text: "left out by somebody", fresh: true, sign: func(c Canvas, at Point) {
			h.run(c, at, LessonRun{LeftOut: true})
		}})
	}
	return s
}

// said is the chart in words.
func (h lesson) said() string {
	var words strings.Builder
	fmt.Fprintf(&words, "%s: the book has %s %s.", h.Title, h.text(h.Book.Value), h.Unit)
	for i, r := range h.Runs {
		fmt.Fprintf(&words, " Run %d, %s: %s", i+1, r.Name, h.text(r.Value))
		if r.LeftOut {
			words.WriteString(", left out")
		}
		words.WriteString(".")
	}
	if h.Proposed != nil {
		fmt.Fprintf(&words, " Proposed is %s, truly between %s and %s.", h.text(h.Proposed.Value), h.text(h.Proposed.Low), h.text(h.Proposed.High))
	}
	return words.String()
}
