package draw

import (
	"fmt"
	"math"
)

// picture draws what was laid out.
func (h tempLayout) picture() Picture {
	foot := h.plot.Y + h.plot.H + belowPlot
	height := foot + h.beneath.height()
	if h.Height <= mostChart {
		height = max(height, h.Height)
	}
	return Picture{Width: size(h.Width, chartWidth), Height: height, Title: h.Title, Desc: h.said(), Draw: func(c Canvas) {
		h.drawStages(c)
		h.drawGaps(c)
		for i, b := range h.bands {
			c.Group(h.Bands[i].Name, func(c Canvas) { c.Polyline(b, bandStyle) })
		}
		h.grid(c)
		h.frame.words(c)
		for _, l := range h.Limits {
			c.Group(l.Name, func(c Canvas) { c.Polyline(h.limit(l), limitStyle) })
		}
		for _, m := range h.moments() {
			c.Group(fmt.Sprintf("%s at %s", m.Text, h.clock(m.TimeS)), func(c Canvas) {
				line := h.upright(m.TimeS)
				c.Line(line[0], line[1], momentStyle)
			})
		}
		for i, t := range h.traces {
			c.Group(h.spoken(t), func(c Canvas) { h.drawTrace(c, i) })
		}
		h.drawSigns(c)
		for _, l := range h.stages {
			l.draw(c, NoTone)
		}
		for _, l := range h.labels {
			h.setLabel(c, l, Paper)
			if l.line >= 0 && l.line < len(h.traces) && h.shaped[l.line] >= 0 {
				shape(c, h.shaped[l.line], Point{l.box.X + 9, l.box.Y + 10})
			}
		}
		h.beneath.draw(c, foot)
	}}
}

var (
	limitStyle  = Style{Stroke: Ink, Width: 2, Dash: LongDashed}
	momentStyle = Style{Stroke: Ink, Width: 1.5, Dash: Dotted}
	edgeStyle   = Style{Stroke: Quiet, Width: 1}
)

// inside is a time's place across, within the plot.
func (h tempLayout) inside(timeS float64) float64 {
	return min(max(h.x(timeS), h.plot.X), h.plot.X+h.plot.W)
}

// limit is the line of a limit, with a tick at its end where it is to be reached by a time.
func (h tempLayout) limit(l TempLimit) []Point {
	y := h.y(l.TempC)
	if !l.ended() {
		return []Point{{h.plot.X, y}, {h.plot.X + h.plot.W, y}}
	}
	line := []Point{{h.inside(l.FromS), y}, {h.inside(l.UntilS), y}}
	if l.Gate && l.UntilS <= h.Until {
		end := max(h.plot.Y, y-gateTall)
		if l.Warming {
			end = min(h.plot.Y+h.plot.H, y+gateTall)
		}
		line = append(line, Point{line[1].X, end})
	}
	return line
}

// upright is the line of a moment.
func (h tempLayout) upright(timeS float64) []Point {
	x := h.inside(timeS)
	return []Point{{x, h.plot.Y}, {x, h.plot.Y + h.plot.H}}
}

// moments are those within the chart, and now.
func (h tempLayout) moments() []TempMoment {
	var all []TempMoment
	for _, m := range h.Moments {
		if m.TimeS >= h.From && m.TimeS <= h.Until {
			all = append(all, m)
		}
	}
	if h.Now != nil && *h.Now >= h.From && *h.Now <= h.Until {
		all = append(all, TempMoment{*h.Now, "now"})
	}
	return all
}

func (h tempLayout) stageBox(s TempStage) Box {
	from, to := h.inside(s.FromS), h.inside(s.UntilS)
	return Box{from, h.plot.Y, to - from, h.plot.H}
}

// drawStages washes every other stage, and draws the edges of all.
func (h tempLayout) drawStages(c Canvas) {
	for i, s := range h.Stages {
		b := h.stageBox(s)
		if b.W <= 0 {
			continue
		}
		c.Group(fmt.Sprintf("%s: %s to %s", s.Name, h.clock(s.FromS), h.clock(s.UntilS)), func(c Canvas) {
			if i%2 == 0 {
				c.Rect(b, Style{Fill: Wash})
			}
			for _, x := range [...]float64{b.X, b.X + b.W} {
				c.Line(Point{x, b.Y - stageRow}, Point{x, b.Y + b.H}, edgeStyle)
			}
		})
	}
}

func (h tempLayout) gapBox(g reach) Box {
	from, to := h.inside(g.low), h.inside(g.high)
	return Box{from, h.plot.Y, to - from, h.plot.H}
}

// drawGaps hatches the times without a reading.
func (h tempLayout) drawGaps(c Canvas) {
	for _, g := range h.gaps {
		if b := h.gapBox(g); b.W >= 1 {
			c.Group(fmt.Sprintf("nothing read from %s to %s", h.clock(g.low), h.clock(g.high)), func(c Canvas) { c.Rect(b, Style{Pattern: Hatched}) })
		}
	}
}

// drawTrace draws the pieces of a trace, a reading alone as a dot, and the shapes that tell it from others of its kind.
func (h tempLayout) drawTrace(c Canvas, i int) {
	longest := []Point(nil)
	for _, piece := range h.lines[i] {
		if len(piece) == 1 {
			disc(c, piece[0], 3, Style{Fill: Ink})
		} else {
			c.Polyline(piece, h.traces[i].Kind.style())
		}
		if len(piece) > len(longest) {
			longest = piece
		}
	}
	if len(h.traces[i].all) <= readingDots && !h.traces[i].Computed {
		for _, p := range h.traces[i].all {
			if !p.Blank && !p.Apart {
				disc(c, h.point(p.TimeS, p.TempC), 3, Style{Fill: Ink})
			}
		}
	}
	if h.shaped[i] >= 0 && len(longest) > 0 {
		long := 0.0
		for n := 1; n < len(longest); n++ {
			long += math.Hypot(longest[n].X-longest[n-1].X, longest[n].Y-longest[n-1].Y)
		}
		for _, share := range [...]float64{0.3, 0.75} {
			shape(c, h.shaped[i], onWay(longest, long*(share+float64(i%3)*0.07)))
		}
	}
}

// readingDots are so few readings that each is shown as what it is: a line between two of them was not read.
const readingDots = 40

// drawSigns draws what is marked: readings with flags first, then what the caller marks.
func (h tempLayout) drawSigns(c Canvas) {
	for _, s := range h.signs {
		c.Group(h.signWords(s), func(c Canvas) { s.draw(c) })
	}
	for _, m := range h.Marks {
		c.Group(fmt.Sprintf("%s: %s at %s", m.Text, bothTenths(m.TempC, h.Units), h.clock(m.TimeS)), func(c Canvas) { m.Sign.draw(c, h.point(m.TimeS, m.TempC)) })
	}
}

func (h tempLayout) signWords(s flagSign) string {
	if s.blank {
		return "no temperature at " + h.clock(s.timeS)
	}
	return fmt.Sprintf("flagged: %s at %s", bothTenths(s.tempC, h.Units), h.clock(s.timeS))
}

// draw is a flag at a reading; an arrow out of the chart for one beyond it; a square for one without a temperature.
func (s flagSign) draw(c Canvas) {
	switch {
	case s.blank:
		blankSign(c, s.at)
	case s.way != 0:
		beyondSign(c, s.at, s.way)
	default:
		flagAt(c, s.at)
	}
}

// beyondSign points up or down.
func beyondSign(c Canvas, p Point, way float64) {
	c.Polyline([]Point{{p.X, p.Y + 7*way}, {p.X - 6.5, p.Y - 5*way}, {p.X + 6.5, p.Y - 5*way}}, Style{Fill: Ink, Stroke: Paper, Width: 1})
}

// flagAt stands with the foot of its pole at p.
func flagAt(c Canvas, p Point) {
	disc(c, p, 3, Style{Fill: Ink})
	c.Polyline([]Point{{p.X, p.Y - 17}, {p.X + 12, p.Y - 12.5}, {p.X, p.Y - 8}}, Style{Fill: Paper, Stroke: Ink, Width: 2})
	c.Line(p, Point{p.X, p.Y - 18}, Style{Stroke: Ink, Width: 2})
}

func flagSample(c Canvas, p Point)   { flagAt(c, Point{p.X - 5, p.Y + 8}) }
func beyondSample(c Canvas, p Point) { beyondSign(c, p, -1) }

func blankSign(c Canvas, p Point) {
	c.Rect(Box{p.X - 5, p.Y - 5, 10, 10}, Style{Fill: Paper, Stroke: Ink, Width: 2})
}

func (s TempSign) draw(c Canvas, p Point) {
	switch s {
	case Met:
		ringed(c, p)
	case Missed:
		crossed(c, p)
	default:
		dot(c, p)
	}
}

func limitSample(c Canvas, p Point)  { c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, limitStyle) }
func momentSample(c Canvas, p Point) { c.Line(Point{p.X, p.Y - 9}, Point{p.X, p.Y + 9}, momentStyle) }

func hatchSample(c Canvas, p Point) {
	c.Rect(Box{p.X - 18, p.Y - 9, 36, 18}, Style{Pattern: Hatched, Stroke: Quiet})
}

// sample is a piece of a trace for the words beneath.
func (h tempLayout) sample(i int) func(Canvas, Point) {
	return func(c Canvas, p Point) {
		c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, h.traces[i].Kind.style())
		if h.shaped[i] >= 0 {
			shape(c, h.shaped[i], p)
		}
	}
}
