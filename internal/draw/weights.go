package draw

import (
	"slices"
	"strconv"
	"strings"
)

// Weights is a control chart of what was weighed over a filling, in grams.
type Weights struct {
	Title        string
	Desc         string
	Points       []float64 // in the order of filling
	Centre       float64
	Lower, Upper float64 // control limits
	Label        float64 // what the label says; 0 for none
	Signals      []WeightSignal
	Across       string // what the points are: "groups of 4 packs, in the order of filling"
	Decimals     int
	Width        float64 // 0 for the usual one; a narrow chart leaves the words of the signals to the page around it
}

// WeightSignal is a run rule that some points break.
type WeightSignal struct {
	Rule   string
	Points []int // counted from 0
}

// numberRoom is what the number of a point takes at least, beneath the chart.
const numberRoom = 30.0

// Picture draws it. Points that break a rule are ringed and numbered beneath.
func (w Weights) Picture() Picture {
	span := noReach()
	for _, v := range append(slices.Clone(w.Points), w.Centre, w.Lower, w.Upper) {
		span.add(v)
	}
	if w.Label > 0 {
		span.add(w.Label)
	}
	span = span.atLeast(0.1)
	air := (span.high - span.low) * 0.08
	width := size(w.Width, chartWidth)
	plot := Box{84, abovePlot, width - 84 - min(150, 0.29*width), 220}
	keys := w.strip()
	p := Picture{Width: width, Height: plot.Y + plot.H + belowPlot + 20 + keys.height(), Title: w.Title, Desc: w.Desc}
	low, high := span.low-air, span.high+air
	y := func(v float64) float64 { return plot.Y + (high-v)/(high-low)*plot.H }
	x := func(i int) float64 {
		return plot.X + (float64(i)+0.5)/float64(max(1, len(w.Points)))*plot.W
	}
	p.Draw = func(c Canvas) {
		w.lines(c, plot, y)
		w.points(c, x, y)
		c.Line(Point{plot.X, plot.Y}, Point{plot.X, plot.Y + plot.H}, Style{Stroke: Quiet, Width: 1.5})
		below := tickType
		below.Anchor = Middle
		numbers := max(1, int(plot.W/numberRoom))
		every := max(1, (len(w.Points)+numbers-1)/numbers)
		for i := 0; i < len(w.Points); i += every {
			c.Text(Point{x(i), plot.Y + plot.H + 23}, strconv.Itoa(i+1), below)
		}
		c.Text(Point{plot.X + plot.W/2, plot.Y + plot.H + 44}, fit(w.Across, plot.W+2*min(plot.X, width-plot.X-plot.W)-10, below), below)
		keys.draw(c, plot.Y+plot.H+belowPlot+20)
	}
	return p
}

func (w Weights) grams(v float64) string { return strconv.FormatFloat(v, 'f', w.Decimals, 64) + " g" }

// lines are the centre, the limits and the label, each with its words at the right and its figure at the left.
func (w Weights) lines(c Canvas, plot Box, y func(float64) float64) {
	type level struct {
		at    float64
		name  string
		style Style
	}
	levels := []level{{w.Upper, "upper limit", Style{Stroke: Ink, Width: 1.5, Dash: Dashed}}, {w.Centre, "centre", Style{Stroke: Ink, Width: 1.5}}, {w.Lower, "lower limit", Style{Stroke: Ink, Width: 1.5, Dash: Dashed}}}
	if w.Label > 0 {
		levels = append(levels, level{w.Label, "label", Style{Stroke: Ink, Width: 2.5, Dash: Dotted}})
	}
	slices.SortStableFunc(levels, func(a, b level) int {
		switch {
		case a.at > b.at:
			return -1
		case a.at < b.at:
			return 1
		}
		return 0
	})
	free := plot.Y - labelHeight
	for _, l := range levels {
		c.Line(Point{plot.X, y(l.at)}, Point{plot.X + plot.W, y(l.at)}, l.style)
		at := max(y(l.at)+6, free+labelHeight)
		free = at
		c.Text(Point{plot.X - tickGap, at}, w.grams(l.at), Type{Size: 16, Tone: Ink, Anchor: End})
		c.Text(Point{plot.X + plot.W + tickGap, at}, l.name, tickType)
	}
}

func (w Weights) points(c Canvas, x func(int) float64, y func(float64) float64) {
	var line []Point
	for i, v := range w.Points {
		line = append(line, Point{x(i), y(v)})
	}
	c.Polyline(line, Style{Stroke: Quiet, Width: 1.5})
	for i, at := range line {
		c.Rect(Box{at.X - 4, at.Y - 4, 8, 8}, Style{Fill: Ink, Round: 4})
		if slices.ContainsFunc(w.Signals, func(s WeightSignal) bool { return slices.Contains(s.Points, i) }) {
			c.Rect(Box{at.X - 9, at.Y - 9, 18, 18}, Style{Stroke: Ink, Width: 2, Round: 9})
		}
	}
}

// strip says which rule each ringed point breaks.
func (w Weights) strip() strip {
	s := strip{wide: chartWidth}
	if size(w.Width, chartWidth) < chartWidth {
		return s
	}
	for _, g := range w.Signals {
		numbers := make([]int, len(g.Points))
		for k, i := range g.Points {
			numbers[k] = i + 1
		}
		s.add(item{text: g.Rule + ": " + Numbers(numbers), fresh: true, sign: func(c Canvas, at Point) {
			c.Rect(Box{at.X - 9, at.Y - 9, 18, 18}, Style{Stroke: Ink, Width: 2, Round: 9})
		}})
	}
	return s
}

// Numbers lists rising numbers, those that follow each other in short: "2, 5 to 9".
func Numbers(of []int) string {
	var words []string
	for i := 0; i < len(of); {
		j := i
		for j+1 < len(of) && of[j+1] == of[j]+1 {
			j++
		}
		if j-i < 2 { // two in a row are no shorter as a range
			words = append(words, strconv.Itoa(of[i]))
			i++
			continue
		}
		words = append(words, strconv.Itoa(of[i])+" to "+strconv.Itoa(of[j]))
		i = j + 1
	}
	return strings.Join(words, ", ")
}
