package draw

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Weekly is a chart of a figure of several variants over the weeks in which packs were opened: what was seen, and lines with their intervals.
type Weekly struct {
	Title     string
	Unit      string // "%", "g", "points"
	Across    string // what goes across: "weeks in the freezer"
	Lines     []WeeklyLine
	Weeks     []float64 // that are to be opened: the chart reaches over all of them, whatever is open
	Bound     *float64  // beyond it a pack is no longer good
	BoundName string
	Width     float64 // 0 for the usual one
}

// WeeklyLine is one variant.
type WeeklyLine struct {
	Name   string
	Seen   []WeekValue // each value
	Points []WeekMean  // the line, in the order of weeks
}

// WeekValue is a value in a week.
type WeekValue struct{ Week, Value float64 }

// WeekMean is a place of a line; without an interval Low and High are the mean.
type WeekMean struct{ Week, Mean, Low, High float64 }

// aside is how far the marks of variants stand beside each other in one week.
const aside = 12.0

// Picture draws it. Variants differ by the break of their line and the shape on it.
func (w Weekly) Picture() Picture {
	h := w.lay()
	p := Picture{Width: h.wide, Height: h.plot.Y + h.plot.H + belowPlot + 24 + h.keys.height(), Title: w.Title, Desc: w.said()}
	p.Draw = func(c Canvas) {
		h.axes(c)
		for i, l := range w.Lines {
			c.Group(l.said(w.Unit), func(c Canvas) { h.line(c, i) })
		}
		h.keys.draw(c, h.plot.Y+h.plot.H+belowPlot+24)
	}
	return p
}

// weekly is the chart laid out.
type weekly struct {
	Weekly
	wide       float64
	plot       Box
	low, high  float64 // up
	from, till float64 // weeks
	up         []float64
	keys       strip
}

func (w Weekly) lay() weekly {
	up, across := noReach(), noReach()
	for _, l := range w.Lines {
		for _, s := range l.Seen {
			up.add(s.Value)
			across.add(s.Week)
		}
		for _, p := range l.Points {
			up.add(p.Low)
			up.add(p.High)
			across.add(p.Week)
		}
	}
	for _, week := range w.Weeks {
		across.add(week)
	}
	if w.Bound != nil {
		up.add(*w.Bound)
	}
	if up.empty() {
		up.add(0)
	}
	if across.empty() {
		across.add(0)
	}
	up = up.atLeast(1e-9 + 0.02*math.Abs(up.high))
	air := (up.high - up.low) * 0.08
	h := weekly{Weekly: w, wide: size(w.Width, chartWidth), low: up.low - air, high: up.high + air, from: across.low, till: max(across.high, across.low+1)}
	if up.low >= 0 && up.low < up.high/2 {
		h.low = 0 // near enough to be seen with it
	} else if up.low >= 0 {
		h.low = max(h.low, 0)
	}
	h.up = even(h.low, h.high, h.step())
	left := 0.0
	for _, v := range h.up {
		left = max(left, textWidth(h.tickText(v), tickType))
	}
	left += tickGap + 8
	h.plot = Box{left, abovePlot, h.wide - left - 24, 260}
	h.keys = h.strip()
	return h
}

// fineStep is roundStep for ranges that may be below 1.
func fineStep(wide float64, most int) float64 {
	scale := math.Pow(10, math.Floor(math.Log10(wide))-1)
	return roundStep(wide/scale, most) * scale
}

// mostTicks of the scale at the left.
const mostTicks = 6

func (h weekly) step() float64 { return fineStep(h.high-h.low, mostTicks) }

func (h weekly) tickText(v float64) string {
	return minus(strconv.FormatFloat(v, 'f', max(0, int(math.Ceil(-math.Log10(h.step())-1e-9))), 64))
}

func (h weekly) x(week float64, line int) float64 {
	inner := h.plot.W - 2*h.air()
	off := (float64(line) - float64(len(h.Lines)-1)/2) * h.beside()
	return h.plot.X + h.air() + (week-h.from)/(h.till-h.from)*inner + off
}

// beside is how far variants stand apart in a week, and air what is left for that beside the first and the last week.
func (h weekly) beside() float64 { return min(aside, 60/float64(max(1, len(h.Lines)))) }
func (h weekly) air() float64    { return h.beside()*float64(len(h.Lines))/2 + 8 }

func (h weekly) y(v float64) float64 {
	return h.plot.Y + (h.high-v)/(h.high-h.low)*h.plot.H
}

func (h weekly) axes(c Canvas) {
	bottom, right := h.plot.Y+h.plot.H, h.plot.X+h.plot.W
	upAxis(c, h.plot, h.up, h.y, h.tickText, h.Unit)
	middle := tickType
	middle.Anchor = Middle
	free := math.Inf(-1)
	for _, week := range h.weeks() {
		at := h.x(week, 0) + float64(len(h.Lines)-1)/2*h.beside()
		text := strconv.FormatFloat(week, 'f', -1, 64)
		if half := textWidth(text, middle) / 2; at-half > free+8 {
			c.Line(Point{at, bottom}, Point{at, bottom + 5}, Style{Stroke: Quiet, Width: 1.5})
			c.Text(Point{at, bottom + 23}, text, middle)
			free = at + half
		}
	}
	c.Text(Point{h.plot.X + h.plot.W/2, bottom + 46}, fit(h.Across, h.plot.W, middle), middle)
	if h.Bound != nil {
		c.Group(h.BoundName, func(c Canvas) {
			c.Line(Point{h.plot.X, h.y(*h.Bound)}, Point{right, h.y(*h.Bound)}, Style{Stroke: Ink, Width: 2.5, Dash: Dotted})
		})
	}
}

// weeks are all that the axis names, in order.
func (h weekly) weeks() []float64 {
	all := slices.Clone(h.Weeks)
	for _, l := range h.Lines {
		for _, s := range l.Seen {
			all = append(all, s.Week)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// style of a line, by its place: solid, dashed, dotted ...
func lineStyle(i int) Style {
	return Style{Stroke: Ink, Width: 2, Dash: Dash(i % int(dashCount))}
}

func (h weekly) line(c Canvas, i int) {
	l := h.Lines[i]
	for _, s := range l.Seen {
		at := Point{h.x(s.Week, i), h.y(s.Value)}
		disc(c, at, 2.5, Style{Fill: Quiet})
	}
	var line []Point
	for _, p := range l.Points {
		line = append(line, Point{h.x(p.Week, i), h.y(p.Mean)})
	}
	if len(line) > 1 {
		c.Polyline(line, lineStyle(i))
	}
	for k, p := range l.Points {
		x := line[k].X
		if p.Low < p.High {
			whisker := Style{Stroke: Ink, Width: 1.5}
			c.Line(Point{x, h.y(p.Low)}, Point{x, h.y(p.High)}, whisker)
			for _, v := range [...]float64{p.Low, p.High} {
				c.Line(Point{x - 4, h.y(v)}, Point{x + 4, h.y(v)}, whisker)
			}
		}
		shape(c, i, line[k])
	}
}

// strip says which line is which, and what the bound and the bars are.
func (h weekly) strip() strip {
	s := strip{wide: h.wide}
	bars := false
	for i, l := range h.Lines {
		s.add(item{text: l.Name, wide: 40, sign: func(c Canvas, p Point) {
			c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, lineStyle(i))
			shape(c, i, p)
		}})
		bars = bars || slices.ContainsFunc(l.Points, func(p WeekMean) bool { return p.Low < p.High })
	}
	if h.Bound != nil {
		s.add(item{text: h.BoundName, wide: 40, fresh: true, sign: func(c Canvas, p Point) {
			c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, Style{Stroke: Ink, Width: 2.5, Dash: Dotted})
		}})
	}
	s.add(item{text: "each value", fresh: true, sign: func(c Canvas, p Point) { disc(c, p, 2.5, Style{Fill: Quiet}) }})
	if bars {
		s.add(item{text: "where the mean may lie (95 %)", sign: func(c Canvas, p Point) {
			c.Line(Point{p.X, p.Y - 9}, Point{p.X, p.Y + 9}, Style{Stroke: Ink, Width: 1.5})
			c.Line(Point{p.X - 4, p.Y - 9}, Point{p.X + 4, p.Y - 9}, Style{Stroke: Ink, Width: 1.5})
			c.Line(Point{p.X - 4, p.Y + 9}, Point{p.X + 4, p.Y + 9}, Style{Stroke: Ink, Width: 1.5})
		}})
	}
	return s
}

// said is the chart in words.
func (w Weekly) said() string {
	var all []string
	for _, l := range w.Lines {
		all = append(all, l.said(w.Unit)+".")
	}
	return strings.Join(all, " ")
}

func (l WeeklyLine) said(unit string) string {
	if len(l.Points) == 0 {
		return l.Name + ": nothing seen"
	}
	var words []string
	for _, p := range l.Points {
		text := fmt.Sprintf("week %g %.3g %s", p.Week, p.Mean, unit)
		if p.Low < p.High {
			text += fmt.Sprintf(" (%.3g to %.3g)", p.Low, p.High)
		}
		words = append(words, text)
	}
	return l.Name + ": " + strings.Join(words, ", ")
}
