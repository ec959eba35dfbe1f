package draw

import (
	"math"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/unit"
)

// TempChart is temperatures as they were read, over time, with the limits they are held to. Nothing of what was read is smoothed: where nothing
// was read there is no line, readings with flags are marked, and of many readings the highest and the lowest always stay.
//
// The reader's scale, °F or °C by Units, is at the left, the other one at the right. Times are seconds from any beginning, Zero; with it the
// chart shows the clock on the wall of Zero's zone, without it (the zero time) hours from the beginning. Points may come in any order; those that
// are not finite, or absurd (beyond 10 000 °C or some 30 years), are counted and not drawn.
type TempChart struct {
	Title, Desc string
	Units       unit.System
	Zero        time.Time // the instant of 0 s

	From, Until float64  // s: what the chart spans; both 0: as far as there is something to show
	Now         *float64 // s: nothing can have been read later, so that nothing is missing there; nil: all of it is past

	Traces  []Trace
	Bands   []Band // computed, such as a forecast
	Limits  []TempLimit
	Stages  []TempStage
	Marks   []TempMark
	Moments []TempMoment

	// Size of the picture in drawing units, about 600 by 400 if 0. It is higher where the words beneath need it.
	Width, Height float64
}

// Trace is what one probe read, or a line that was computed.
type Trace struct {
	Name     string
	Kind     LineKind // of several of one kind each carries a shape
	Computed bool     // nothing was read: it has no gaps and no flags
	Points   []Read
	GapS     float64 // two readings farther apart are not joined; 0: three times what is usual between them, at least 5 min
}

// Read is one reading.
type Read struct {
	TimeS, TempC float64
	Blank        bool     // there is no temperature, such as text where a number should be; it is shown at the foot of the chart
	Apart        bool     // so odd that it is not joined to others and does not widen the scale: beyond it, it is shown at the edge
	Flags        []string // what is odd about it, in words
}

// TempLimit is a temperature, °C, that what was read is held to, from one time to another; both 0: all the time. Its name says on which side
// it is to be, and has the figures: "41 °F (5 °C) or colder".
type TempLimit struct {
	Name          string
	TempC         float64
	FromS, UntilS float64
	Gate, Warming bool // Gate: to be reached by UntilS, where a tick stands; Warming: from below
}

// ended tells whether a limit holds for a part of the time only.
func (l TempLimit) ended() bool { return l.UntilS > l.FromS }

// TempStage is a time that has a name, such as cooling.
type TempStage struct {
	Name          string
	FromS, UntilS float64
}

// TempMark is a place on a curve with words, such as the reading that decides.
type TempMark struct {
	TimeS, TempC float64
	Text         string
	Sign         TempSign
}

// TempSign is the shape of a mark.
type TempSign int

// The signs of marks.
const (
	Dot    TempSign = iota
	Met             // ringed: here a limit is met
	Missed          // crossed: here it is not
)

// TempMoment is an upright line: when something was done.
type TempMoment struct {
	TimeS float64
	Text  string
}

// leastGapS is the least time without a reading that is shown as a gap when nobody says otherwise.
const leastGapS = 300.0

// Picture draws the chart. Without a single reading it is an empty frame with words.
func (t TempChart) Picture() Picture {
	lay := newTempLayout(t.cleaned())
	if lay.empty() {
		return nothing(t.Title, strings.TrimSpace(t.Desc+" "+lay.unread()), "No readings to show.", t.Width, t.Height)
	}
	return lay.picture()
}

// fitS tells whether a time can be drawn; false for NaN, too.
func fitS(timeS float64) bool { return math.Abs(timeS) <= mostTimeS }

// cleaned is a copy with only what can be drawn, in the order of time.
func (t TempChart) cleaned() tempChart {
	c := tempChart{TempChart: t}
	c.Bands, c.Limits, c.Stages, c.Marks, c.Moments = nil, nil, nil, nil, nil
	for _, trace := range t.Traces {
		c.traces = append(c.traces, newTempTrace(trace, c.From, c.Until))
	}
	for _, b := range t.Bands {
		if b.Low, b.High = inTime(b.Low), inTime(b.High); len(b.Low) > 0 && len(b.High) > 0 {
			c.Bands = append(c.Bands, b)
		}
	}
	for _, l := range t.Limits {
		if (At{l.FromS, l.TempC}).fit() && fitS(l.UntilS) {
			l.Name = c.limitName(l)
			c.Limits = append(c.Limits, l)
		}
	}
	for _, s := range t.Stages {
		if fitS(s.FromS) && fitS(s.UntilS) && s.UntilS > s.FromS {
			c.Stages = append(c.Stages, s)
		}
	}
	slices.SortStableFunc(c.Stages, func(a, b TempStage) int { return ascending(a.FromS, b.FromS) })
	for _, m := range t.Marks {
		if (At{m.TimeS, m.TempC}).fit() {
			c.Marks = append(c.Marks, m)
		}
	}
	for _, m := range t.Moments {
		if fitS(m.TimeS) {
			c.Moments = append(c.Moments, m)
		}
	}
	if t.Now != nil && !fitS(*t.Now) {
		c.Now = nil
	}
	c.span()
	c.Marks = slices.DeleteFunc(c.Marks, func(m TempMark) bool { return m.TimeS < c.From || m.TimeS > c.Until })
	return c
}

func ascending(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// tempChart is a chart with only what can be drawn.
type tempChart struct {
	TempChart
	traces []tempTrace
}

// span settles what the chart spans.
func (c *tempChart) span() {
	if c.Until > c.From && fitS(c.From) && fitS(c.Until) {
		return
	}
	times := noReach()
	for _, t := range c.traces {
		for _, p := range t.all {
			times.add(p.TimeS)
		}
	}
	for _, b := range c.Bands {
		for _, p := range slices.Concat(b.Low, b.High) {
			times.add(p.TimeS)
		}
	}
	for _, l := range c.Limits {
		if l.ended() {
			times.add(l.FromS)
			times.add(l.UntilS)
		}
	}
	for _, s := range c.Stages {
		times.add(s.FromS)
		times.add(s.UntilS)
	}
	for _, m := range c.Marks {
		times.add(m.TimeS)
	}
	if c.Now != nil {
		times.add(*c.Now)
	}
	if times.empty() {
		times = reach{0, hourS}
	}
	times = times.atLeast(minuteS)
	air := (times.high - times.low) * 0.02 // so that nothing stands on the frame
	c.From, c.Until = times.low, times.high+air
}

// limitName is what a limit is called: its own name, or one made of its figures.
func (c *tempChart) limitName(l TempLimit) string {
	if strings.TrimSpace(l.Name) != "" {
		return l.Name
	}
	text := bothDegrees(l.TempC, c.Units)
	switch {
	case l.Gate && l.ended():
		return text + " by " + c.clock(l.UntilS)
	case l.Warming:
		return text + " or warmer"
	}
	return text + " or colder"
}
