package draw

import (
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Curves is a chart of temperature against time. Points may come in any order and number; those that are not finite, or absurd
// (beyond 10 000 °C or some 30 years), are left out.
//
// The reader's scale, °F or °C by Units, is at the left, the other one lightly at the right; temperatures of limits are printed on
// both. Lines are named where they run; what finds no room there, the band and what became of the limits stand beneath.
type Curves struct {
	Title, Desc string
	Units       unit.System
	Lines       []Line
	Band        Band
	Limits      []Limit
	Marks       []Mark
	Warming     bool // limits are to be reached from below

	// Size of the picture in drawing units, about 600 by 400 if 0. It is higher where the words beneath need it.
	Width, Height float64
}

// At is a temperature, °C, at a time, s.
type At struct{ TimeS, TempC float64 }

// LineKind says what a line is of, and so how it is drawn.
type LineKind int

// The kinds of lines.
const (
	Core    LineKind = iota // the slowest place: strong; it is held to the limits
	Surface                 // dashed
	Mean                    // dotted
	Medium                  // what cools or heats: thin, long dashes
	kindCount
)

// Line is one line of a chart. Of several lines of one kind each carries a shape, and its name the same shape.
type Line struct {
	Name   string
	Points []At
	Kind   LineKind
}

// Band is what lies between two lines, washed. Its name says what it stands for: "if the film is 30 % better or worse".
type Band struct {
	Name      string
	Low, High []At
}

// Limit is a temperature, °C, that the core is to be at or beyond by a time, s; without one (0 or less) at some time. Its name
// should have both figures, "70 °F by 2 h"; without a name it is made of them.
type Limit struct {
	TempC, ByS float64
	Name       string
}

// Mark is a place, °C and s, with a dot and words: "1 h 12 min".
type Mark struct {
	TimeS, TempC float64
	Text         string
}

// lineStyles are those of the kinds.
var lineStyles = [kindCount]Style{
	Core:    {Stroke: Ink, Width: 3},
	Surface: {Stroke: Ink, Width: 2, Dash: Dashed},
	Mean:    {Stroke: Ink, Width: 3, Dash: Dotted},
	Medium:  {Stroke: Quiet, Width: 1.5, Dash: LongDashed},
}

// style of a kind that nobody knows is that of a mean: it is held to no limit.
func (k LineKind) style() Style {
	if k < 0 || k >= kindCount {
		return lineStyles[Mean]
	}
	return lineStyles[k]
}

const (
	mostTempC = 1e4
	mostTimeS = 1e9
)

func (a At) fit() bool { // false for NaN, too
	return math.Abs(a.TimeS) <= mostTimeS && math.Abs(a.TempC) <= mostTempC
}

// inTime is the points that can be drawn, in the order of time.
func inTime(points []At) []At {
	var kept []At
	for _, p := range points {
		if p.fit() {
			kept = append(kept, p)
		}
	}
	slices.SortStableFunc(kept, func(a, b At) int {
		switch {
		case a.TimeS < b.TimeS:
			return -1
		case a.TimeS > b.TimeS:
			return 1
		}
		return 0
	})
	return kept
}

// cleaned is a copy of the chart with only what can be drawn, in order, and named.
func (c Curves) cleaned() Curves {
	var lines []Line
	for _, l := range c.Lines {
		if l.Points = inTime(l.Points); len(l.Points) > 0 {
			lines = append(lines, l)
		}
	}
	var limits []Limit
	for _, l := range c.Limits {
		if !(l.ByS > 0 && l.ByS <= mostTimeS) {
			l.ByS = 0
		}
		if (At{TempC: l.TempC}).fit() {
			l.Name = l.name(c.Units)
			limits = append(limits, l)
		}
	}
	var marks []Mark
	for _, m := range c.Marks {
		if (At{m.TimeS, m.TempC}).fit() {
			marks = append(marks, m)
		}
	}
	c.Lines, c.Limits, c.Marks = lines, limits, marks
	c.Band.Low, c.Band.High = inTime(c.Band.Low), inTime(c.Band.High)
	if len(c.Band.Low) == 0 || len(c.Band.High) == 0 {
		c.Band = Band{}
	}
	return c
}

func (l Limit) name(units unit.System) string {
	switch {
	case strings.TrimSpace(l.Name) != "":
		return l.Name
	case l.ByS > 0:
		return degrees(l.TempC, units) + " by " + lasting(l.ByS)
	}
	return degrees(l.TempC, units)
}

// Picture draws the chart. Without a single point it is an empty frame with words.
func (c Curves) Picture() Picture {
	c = c.cleaned()
	if len(c.Lines) == 0 && len(c.Marks) == 0 && len(c.Band.Low) == 0 {
		return nothing(c.Title, c.Desc, "No temperatures to show.", c.Width, c.Height)
	}
	return newCurveChart(c).picture()
}

// nothing is a picture that says that there is none.
func nothing(title, desc, words string, width, height float64) Picture {
	w, h := size(width, chartWidth), size(height, leastPlot)
	return Picture{Width: w, Height: h, Title: title, Desc: strings.TrimSpace(desc + " " + words), Draw: func(c Canvas) {
		c.Rect(Box{1, 1, w - 2, h - 2}, Style{Fill: Paper, Stroke: Quiet, Width: 1, Dash: Dashed})
		c.Text(Point{w / 2, h/2 + 5}, words, Type{Size: 17, Tone: Ink, Anchor: Middle})
	}}
}

// size is a length as asked for, if that can be drawn.
func size(asked, otherwise float64) float64 {
	if asked > 0 && asked <= mostChart {
		return max(asked, min(otherwise, leastChart))
	}
	return otherwise
}

// tempAt is the temperature between two points, which are in the order of time; false before the first and after the last.
func tempAt(points []At, timeS float64) (float64, bool) {
	for i, p := range points {
		switch {
		case p.TimeS == timeS:
			return p.TempC, true
		case p.TimeS > timeS && i > 0:
			a := points[i-1]
			return a.TempC + (p.TempC-a.TempC)*(timeS-a.TimeS)/(p.TimeS-a.TimeS), true
		case p.TimeS > timeS:
			return 0, false
		}
	}
	return 0, false
}
