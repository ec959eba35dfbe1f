package draw

import (
	"fmt"
	"strings"
)

// curveChart is a chart laid out: everything has its place before anything is drawn.
type curveChart struct {
	Curves
	frame
	lines   [][]Point // of each line, thinned
	band    []Point
	shaped  []int // of each line its shape, -1 for none
	judged  []Verdict
	labels  []label
	beneath strip
}

// mostPoints are those of all lines together: more would be a big file and not be seen.
const mostPoints = 360

func newCurveChart(c Curves) curveChart {
	times, temps := c.reaches()
	width := size(c.Width, chartWidth)
	tall := plotHeight
	h := curveChart{Curves: c, judged: c.verdicts(), shaped: shapesOf(c.Lines)}
	h.beneath = h.words(width)
	if c.Height > 0 && c.Height <= mostChart {
		tall = max(leastPlot, c.Height-abovePlot-belowPlot-h.beneath.height())
	}
	var limitsC []float64
	for _, l := range c.Limits {
		limitsC = append(limitsC, l.TempC)
	}
	h.frame = newFrame(width, tall, temps, c.Units, limitsC)
	h.left, h.right = times.low, times.high
	h.across = timeTicks(h.left, h.right, int(h.plot.W/timeRoom))
	share := mostPoints / (len(c.Lines) + 2)
	for _, l := range c.Lines {
		h.lines = append(h.lines, h.drawn(l.Points, share))
	}
	if len(c.Band.Low) > 0 {
		h.band = h.drawn(c.Band.Low, share)
		high := h.drawn(c.Band.High, share)
		for i := range high {
			h.band = append(h.band, high[len(high)-1-i])
		}
	}
	h.name()
	return h
}

func (h curveChart) drawn(points []At, most int) []Point {
	places := make([]Point, len(points))
	for i, p := range points {
		places[i] = h.point(p.TimeS, p.TempC)
	}
	return thin(places, most)
}

// reaches is how far time and temperature go; time from 0 on, or earlier.
func (c Curves) reaches() (times, temps reach) {
	times, temps = noReach(), noReach()
	times.add(0)
	add := func(points []At) {
		for _, p := range points {
			times.add(p.TimeS)
			temps.add(p.TempC)
		}
	}
	for _, l := range c.Lines {
		add(l.Points)
	}
	add(c.Band.Low)
	add(c.Band.High)
	for _, m := range c.Marks {
		add([]At{{m.TimeS, m.TempC}})
	}
	for _, l := range c.Limits {
		temps.add(l.TempC)
		times.add(l.ByS * 1.03) // the gate stands clear of the frame
	}
	times.high = max(times.high, times.low+60)
	return times, temps
}

// shapesOf gives a shape to each line that shares its kind with another.
func shapesOf(lines []Line) []int {
	count := map[LineKind]int{}
	for _, l := range lines {
		count[l.Kind]++
	}
	next := 0
	shaped := make([]int, len(lines))
	for i, l := range lines {
		shaped[i] = -1
		if count[l.Kind] > 1 {
			shaped[i] = next
			next++
		}
	}
	return shaped
}

// name puts the words into the chart; what finds no room goes beneath.
func (h *curveChart) name() {
	h.beneath.close()
	crowd := h.crowd()
	for _, m := range h.Marks {
		l := label{text: fit(m.Text, h.plot.W/2, tickType), typ: tickType, line: -1, most: 3 * hidesOther, spots: []spot{{at: h.point(m.TimeS, m.TempC), gap: 8}}}
		h.put(&crowd, l, item{sign: dot, text: m.Text})
	}
	for i, limit := range h.Limits {
		l := label{text: fit(limit.Name, h.plot.W/2, limitType), typ: limitType, line: h.limitLine(i), most: tooMuch, spots: h.limitSpots(limit)}
		h.put(&crowd, l, item{})
	}
	for i, line := range h.Lines {
		l := label{text: fit(line.Name, h.plot.W/2, lineType), typ: lineType, line: i, most: bearable, spots: along(h.lines[i], 0.6), on: line.Kind == Medium}
		if h.shaped[i] >= 0 {
			l.lead = 22
		}
		h.put(&crowd, l, item{sign: h.sample(i), wide: 40, text: line.Name})
	}
}

// put places a label, or else sets its words beneath.
func (h *curveChart) put(w *crowd, l label, otherwise item) {
	switch {
	case l.text == "":
	case w.put(&l):
		h.labels = append(h.labels, l)
	case otherwise.text != "":
		h.beneath.add(otherwise)
	}
}

// limitLine is the number by which a limit's line is known among the lines.
func (h curveChart) limitLine(i int) int { return len(h.Lines) + i }

// crowd is what words must keep clear of.
func (h curveChart) crowd() crowd {
	w := crowd{within: h.plot}
	for i, points := range h.lines {
		w.addLine(points, i)
	}
	w.addLine(h.band, -1)
	for i, l := range h.Limits {
		w.addLine(h.gate(l), h.limitLine(i))
	}
	for _, m := range h.Marks {
		p := h.point(m.TimeS, m.TempC)
		w.boxes = append(w.boxes, Box{p.X - 5, p.Y - 5, 10, 10})
	}
	for _, v := range h.judged {
		p := h.point(v.TimeS, v.TempC)
		w.boxes = append(w.boxes, Box{p.X - 7, p.Y - 7, 14, 14})
	}
	return w
}

// gateTall is the height of the tick at the end of a limit.
const gateTall = 36.0

// gate is the line of a limit: at its temperature up to its time, and there a tick towards where the core must not be any more.
// Without a time it runs through.
func (h curveChart) gate(l Limit) []Point {
	from := Point{h.plot.X, h.y(l.TempC)}
	if l.ByS == 0 {
		return []Point{from, {h.plot.X + h.plot.W, from.Y}}
	}
	end := max(h.plot.Y, from.Y-gateTall)
	if h.Warming {
		end = min(h.plot.Y+h.plot.H, from.Y+gateTall)
	}
	return []Point{from, {h.x(l.ByS), from.Y}, {h.x(l.ByS), end}}
}

// limitSpots are those about the corner of a gate, then those along its line.
func (h curveChart) limitSpots(l Limit) []spot {
	gate := h.gate(l)
	var spots []spot
	if l.ByS > 0 {
		middle := Point{gate[1].X, (gate[1].Y + gate[2].Y) / 2}
		spots = append(spots, spot{at: middle, gap: 8, close: true}, spot{at: gate[2], gap: 3, cost: 5, close: true}, spot{at: gate[1], gap: 5, cost: 5, close: true})
	}
	for _, s := range along(gate[:2], 0.8) {
		s.gap, s.cost, s.close = 3, s.cost+10, true
		spots = append(spots, s)
	}
	return spots
}

// said is the chart in words: what the caller says of it, its lines, and what became of the limits.
func (h curveChart) said() string {
	var all []string
	if h.Desc != "" {
		all = append(all, h.Desc)
	}
	for _, l := range h.Lines {
		all = append(all, h.spoken(l)+".")
	}
	for _, v := range h.judged {
		all = append(all, v.spoken(h.cores() > 1)+".")
	}
	return strings.Join(all, " ")
}

// spoken is a line in few words.
func (h curveChart) spoken(l Line) string {
	first, last := l.Points[0], l.Points[len(l.Points)-1]
	return fmt.Sprintf("%s: %s at %s, %s at %s", l.Name, degrees(first.TempC, h.Units), lasting(first.TimeS), degrees(last.TempC, h.Units), lasting(last.TimeS))
}

func (v Verdict) spoken(lines bool) string {
	if lines {
		return fmt.Sprintf("%s: %s %s", v.Limit, v.Line, v.Words)
	}
	return v.Limit + ": " + v.Words
}

func (c Curves) cores() int {
	n := 0
	for _, l := range c.Lines {
		if l.Kind == Core {
			n++
		}
	}
	return n
}

// inside tells whether a place lies in the band, by counting its edges to the right.
func (h curveChart) inside(p Point) bool {
	in := false
	for i, a := range h.band {
		b := h.band[(i+1)%len(h.band)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
