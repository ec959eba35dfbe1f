package draw

import (
	"math"
	"slices"
)

// tempLayout is a chart laid out: everything has its place before anything is drawn.
type tempLayout struct {
	tempChart
	frame
	lines   [][][]Point // of each trace its pieces, thinned
	bands   [][]Point
	shaped  []int // of each trace its shape, -1 for none
	signs   []flagSign
	gaps    []reach
	labels  []label
	stages  []label
	beneath strip
}

// flagSign is where a reading with flags is shown. Beyond the scale it stands at the edge, and points there.
type flagSign struct {
	at           Point
	way          float64 // -1: beyond the upper edge; 1: beyond the lower; 0: where it was read
	timeS, tempC float64
	blank        bool
}

const (
	mostTempPoints = 1000 // of all traces: a day of readings every minute stays a few kilobytes
	stageRow       = 26.0 // of the names of stages above the plot
	signApart      = 13.0 // signs of flags nearer than that are one
	mostSigns      = 200
)

func newTempLayout(c tempChart) tempLayout {
	h := tempLayout{tempChart: c}
	temps := h.temps()
	if h.empty() {
		return h
	}
	width, tall := size(c.Width, chartWidth), plotHeight
	h.beneath = strip{wide: width}
	above := 0.0
	if len(c.Stages) > 0 {
		above = stageRow
	}
	h.gaps = c.absent()
	h.wordsBeneath()
	if c.Height > 0 && c.Height <= mostChart {
		tall = max(leastPlot, c.Height-abovePlot-above-belowPlot-h.beneath.height())
	}
	var limitsC []float64
	for _, l := range c.Limits {
		limitsC = append(limitsC, l.TempC)
	}
	h.frame = newFrame(width, tall, temps, c.Units, limitsC)
	h.plot.Y += above
	h.left, h.right = c.From, c.Until
	h.across = h.timeTicks(int(h.plot.W / timeRoom))
	h.place()
	h.beyond()
	h.name()
	return h
}

func (h tempLayout) timeTicks(most int) []tick {
	if h.clocked() {
		return h.clockTicks(most)
	}
	return timeTicks(h.From, h.Until, most)
}

// empty tells that there is nothing to show a scale for.
func (h tempLayout) empty() bool { return h.temps().empty() }

// temps is how far temperatures go. What is odd does not widen the scale, unless there is nothing else.
func (h tempLayout) temps() reach {
	plain, odd := noReach(), noReach()
	for _, t := range h.traces {
		for _, p := range t.all {
			switch {
			case p.Blank:
			case p.Apart:
				odd.add(p.TempC)
			default:
				plain.add(p.TempC)
			}
		}
	}
	for _, b := range h.Bands {
		for _, p := range slices.Concat(b.Low, b.High) {
			plain.add(p.TempC)
		}
	}
	for _, m := range h.Marks {
		plain.add(m.TempC)
	}
	if plain.empty() {
		plain = odd
	}
	if !plain.empty() {
		for _, l := range h.Limits {
			plain.add(l.TempC)
		}
	}
	return plain
}

// place works out where everything that was read stands.
func (h *tempLayout) place() {
	var kinds []Line
	total := 1
	for _, t := range h.traces {
		kinds = append(kinds, Line{Kind: t.Kind})
		total += len(t.all) - t.blank
	}
	h.shaped = shapesOf(kinds)
	for _, t := range h.traces {
		var lines [][]Point
		for _, p := range t.pieces {
			share := max(4, mostTempPoints*len(p)/total)
			lines = append(lines, h.thinned(p, share))
		}
		h.lines = append(h.lines, lines)
		h.addSigns(t)
	}
	for _, b := range h.Bands {
		h.bands = append(h.bands, h.bandOf(b))
	}
}

// thinned is a piece with few enough points, of which the highest and the lowest are always two.
func (h *tempLayout) thinned(piece []Read, most int) []Point {
	places := make([]Point, len(piece))
	low, high := 0, 0
	for i, p := range piece {
		places[i] = h.point(p.TimeS, p.TempC)
		if p.TempC < piece[low].TempC {
			low = i
		}
		if p.TempC > piece[high].TempC {
			high = i
		}
	}
	kept, from := []Point{places[0]}, 0
	for _, to := range [...]int{min(low, high), max(low, high), len(places) - 1} {
		if to > from {
			share := max(2, most*(to-from)/len(places))
			kept = append(kept, thin(places[from:to+1], share)[1:]...)
			from = to
		}
	}
	return kept
}

func (h *tempLayout) bandOf(b Band) []Point {
	line := func(points []At) []Point {
		var places []Point
		for _, p := range points {
			if p.TimeS >= h.From && p.TimeS <= h.Until {
				places = append(places, h.point(p.TimeS, p.TempC))
			}
		}
		if len(places) == 0 {
			return nil
		}
		return thin(places, 100)
	}
	band, high := line(b.Low), line(b.High)
	slices.Reverse(high)
	return append(band, high...)
}

// addSigns marks the readings with flags. Of those that would lie on each other one is marked; the words beneath have their number.
func (h *tempLayout) addSigns(t tempTrace) {
	bottom := h.plot.Y + h.plot.H
	var own []flagSign
	for _, p := range t.odd {
		s := flagSign{at: h.point(p.TimeS, p.TempC), timeS: p.TimeS, tempC: p.TempC, blank: p.Blank}
		switch {
		case p.Blank:
			s.at.Y = bottom - 9
		case s.at.Y < h.plot.Y:
			s.at.Y, s.way = h.plot.Y+9, -1
		case s.at.Y > bottom:
			s.at.Y, s.way = bottom-9, 1
		}
		near := func(o flagSign) bool {
			return o.way == s.way && o.blank == s.blank && math.Hypot(o.at.X-s.at.X, o.at.Y-s.at.Y) < signApart
		}
		if !slices.ContainsFunc(own, near) && len(own) < mostSigns {
			own = append(own, s)
		}
	}
	h.signs = append(h.signs, own...)
}
