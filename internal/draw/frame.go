package draw

import (
	"math"
	"slices"

	"kettlefrost/internal/unit"
)

// Sizes of a chart. Type is never below 16.
const (
	chartWidth  = 600.0
	plotHeight  = 300.0 // of the area within the axes
	leastChart  = 320.0
	leastPlot   = 200.0
	mostChart   = 4000.0
	abovePlot   = 30.0 // the names of the scales
	belowPlot   = 32.0 // the words of the axis below
	tickGap     = 6.0
	labelHeight = 20.0 // of one line of type
	timeRoom    = 70.0 // of the words of one tick below
	depthRoom   = 84.0
)

var (
	tickType  = Type{Size: 16, Tone: Ink}
	limitType = Type{Size: 16, Tone: Ink, Bold: true}
	otherType = Type{Size: 16, Tone: Quiet}
	lineType  = Type{Size: 17, Tone: Ink, Bold: true}
)

// frame is the area within the axes: across is time or depth, up is temperature.
type frame struct {
	wide                 float64 // of the picture
	plot                 Box
	left, right          float64 // seconds or metres
	lowC, highC          float64
	units                unit.System
	across, first, other []tick // below; at the left in the reader's scale; at the right in the other scale
}

func (f frame) x(v float64) float64 {
	return f.plot.X + (v-f.left)/(f.right-f.left)*f.plot.W
}

func (f frame) y(tempC float64) float64 {
	return f.plot.Y + (f.highC-tempC)/(f.highC-f.lowC)*f.plot.H
}

func (f frame) point(v, tempC float64) Point { return Point{f.x(v), f.y(tempC)} }

// reach is the least and most of some values.
type reach struct{ low, high float64 }

func noReach() reach { return reach{math.Inf(1), math.Inf(-1)} }

func (r *reach) add(v float64) { r.low, r.high = min(r.low, v), max(r.high, v) }

func (r reach) empty() bool { return r.low > r.high }

// atLeast widens a reach about its middle.
func (r reach) atLeast(wide float64) reach {
	if short := wide - (r.high - r.low); short > 0 {
		r.low, r.high = r.low-short/2, r.high+short/2
	}
	return r
}

// newFrame lays out axes for a picture that is wide units wide and has an area of tall within them. What is across is laid out by
// the caller, who knows its unit.
func newFrame(wide, tall float64, temps reach, units unit.System, limitsC []float64) frame {
	temps = temps.atLeast(4)
	air := (temps.high - temps.low) * 0.06 // so that no line runs on the frame
	f := frame{wide: wide, lowC: temps.low - air, highC: temps.high + air, units: units}
	apartC := (f.highC - f.lowC) / tall * labelHeight
	otherUnits := unit.US
	if units == unit.US {
		otherUnits = unit.Metric
	}
	f.first = tempTicks(f.lowC, f.highC, apartC, units, limitsC)
	f.other = tempTicks(f.lowC, f.highC, apartC, otherUnits, limitsC)
	left := widest(f.first, limitType) + tickGap + 4
	right := widest(f.other, limitType) + tickGap + 4
	f.plot = Box{left, abovePlot, wide - left - right, tall}
	return f
}

func widest(ticks []tick, t Type) float64 {
	wide := textWidth("°C", t)
	for _, k := range ticks {
		wide = max(wide, textWidth(k.text, t))
	}
	return wide
}

// grid draws the lines on which the eye finds a value, below everything else.
func (f frame) grid(c Canvas) {
	faint := Style{Stroke: Faint, Width: 1}
	bottom, right := f.plot.Y+f.plot.H, f.plot.X+f.plot.W
	for _, k := range f.first {
		if !k.bold {
			c.Line(Point{f.plot.X, f.y(k.at)}, Point{right, f.y(k.at)}, faint)
		}
	}
	for _, k := range f.across {
		c.Line(Point{f.x(k.at), f.plot.Y}, Point{f.x(k.at), bottom + 5}, faint)
	}
	c.Line(Point{f.plot.X, f.plot.Y}, Point{f.plot.X, bottom}, Style{Stroke: Quiet, Width: 1.5})
	c.Line(Point{f.plot.X, bottom}, Point{right, bottom}, Style{Stroke: Quiet, Width: 1.5})
}

// words of the axes: the reader's scale at the left, the other one, lightly, at the right.
func (f frame) words(c Canvas) {
	names := map[unit.System]string{unit.Metric: "°C", unit.US: "°F"}
	f.scale(c, f.first, f.plot.X-tickGap, End, limitType, tickType)
	f.scale(c, f.other, f.plot.X+f.plot.W+tickGap, Start, otherType, otherType)
	first := limitType
	first.Anchor = End
	c.Text(Point{f.plot.X - tickGap, 18}, names[f.units], first)
	other := unit.US
	if f.units == unit.US {
		other = unit.Metric
	}
	c.Text(Point{f.plot.X + f.plot.W + tickGap, 18}, names[other], otherType)
	for _, k := range f.across {
		t := tickType
		t.Anchor = Middle
		half := textWidth(k.text, t) / 2
		c.Text(Point{max(half, min(f.x(k.at), f.wide-half)), f.plot.Y + f.plot.H + 23}, k.text, t)
	}
}

// scale sets the words of a temperature axis, moved apart where limits lie too close.
func (f frame) scale(c Canvas, ticks []tick, x float64, anchor Anchor, bold, plain Type) {
	ticks = slices.Clone(ticks)
	slices.SortStableFunc(ticks, func(a, b tick) int { // from above to below
		switch {
		case a.at > b.at:
			return -1
		case a.at < b.at:
			return 1
		}
		return 0
	})
	free := f.plot.Y - labelHeight/2
	for i, k := range ticks {
		if i > 0 && ticks[i-1].text == k.text && k.bold {
			continue // one temperature, two times
		}
		y := max(f.y(k.at), free)
		free = y + labelHeight - 3
		t := plain
		if k.bold {
			t = bold
		}
		t.Anchor = anchor
		c.Text(Point{x, min(y, f.plot.Y+f.plot.H+4) + 6}, k.text, t)
	}
}

// gridIn tells whether the grid runs through a box.
func (f frame) gridIn(b Box) bool {
	for _, k := range f.first {
		if y := f.y(k.at); y > b.Y && y < b.Y+b.H {
			return true
		}
	}
	return slices.ContainsFunc(f.across, func(k tick) bool { return f.x(k.at) > b.X && f.x(k.at) < b.X+b.W })
}

// setLabel draws a label that was given its place, on a ground of its own if the grid or its own line runs through it.
func (f frame) setLabel(c Canvas, l label, ground Tone) {
	if !l.on && !f.gridIn(l.box) {
		ground = NoTone
	}
	l.draw(c, ground)
}
