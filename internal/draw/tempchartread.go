package draw

import (
	"cmp"
	"math"
	"slices"
)

// tempTrace is a trace in the order of time, and cut where nothing was read.
type tempTrace struct {
	Trace
	all     []Read   // within what the chart spans
	pieces  [][]Read // joined by a line
	gapS    float64
	odd     []Read // those that get a sign
	flagged int
	blank   int
	undrawn int            // cannot be drawn at all
	flags   map[string]int // how often each was given
}

func newTempTrace(t Trace, from, until float64) tempTrace {
	trace := tempTrace{Trace: t, flags: map[string]int{}, gapS: t.GapS}
	spans := until > from
	for _, p := range t.Points {
		switch {
		case p.Blank && fitS(p.TimeS):
			p.TempC = 0
		case !(At{p.TimeS, p.TempC}).fit():
			trace.undrawn++
			continue
		}
		if spans && (p.TimeS < from || p.TimeS > until) {
			continue
		}
		trace.all = append(trace.all, p)
	}
	slices.SortStableFunc(trace.all, func(a, b Read) int { return cmp.Compare(a.TimeS, b.TimeS) })
	if trace.gapS <= 0 {
		trace.gapS = max(leastGapS, 3*typicalS(trace.all))
	}
	trace.cut()
	return trace
}

// cut makes the pieces, and counts what is odd. A line passes by what has no temperature or stands apart.
func (t *tempTrace) cut() {
	lastS := math.Inf(-1)
	for _, p := range t.all {
		t.note(p)
		if p.Blank || p.Apart {
			continue
		}
		if len(t.pieces) == 0 || !t.Computed && p.TimeS-lastS > t.gapS {
			t.pieces = append(t.pieces, nil)
		}
		last := len(t.pieces) - 1
		t.pieces[last] = append(t.pieces[last], p)
		lastS = p.TimeS
	}
}

// note counts what is odd about a reading. One without a temperature or apart from the others is shown as odd though nobody says why.
func (t *tempTrace) note(p Read) {
	if p.Blank {
		t.blank++
	}
	if t.Computed || !p.Blank && !p.Apart && len(p.Flags) == 0 {
		return
	}
	t.odd = append(t.odd, p)
	for _, f := range p.Flags {
		t.flags[f]++
	}
	if p.Apart && len(p.Flags) == 0 {
		t.flags["odd"]++
	}
	if p.Apart || len(p.Flags) > 0 {
		t.flagged++
	}
}

// typicalS is the median time between readings that follow each other.
func typicalS(points []Read) float64 {
	var gaps []float64
	for i := 1; i < len(points); i++ {
		if d := points[i].TimeS - points[i-1].TimeS; d > 0 {
			gaps = append(gaps, d)
		}
	}
	if len(gaps) == 0 {
		return 0
	}
	slices.Sort(gaps)
	return gaps[len(gaps)/2]
}

// extremes are the lowest and the highest reading with a temperature; false when there is none.
func (t tempTrace) extremes() (low, high Read, ok bool) {
	for _, p := range t.all {
		if p.Blank {
			continue
		}
		if !ok || p.TempC < low.TempC {
			low = p
		}
		if !ok || p.TempC > high.TempC {
			high = p
		}
		ok = true
	}
	return low, high, ok
}

// absent are the times at which nothing was read by any trace, of those in which something could have been.
func (c tempChart) absent() []reach {
	until, gapS := c.Until, 0.0
	if c.Now != nil {
		until = min(until, *c.Now)
	}
	var read []reach
	for _, t := range c.traces {
		if t.Computed {
			continue
		}
		read = append(read, t.spans()...)
		gapS = max(gapS, t.gapS)
	}
	if len(read) == 0 {
		return nil
	}
	slices.SortFunc(read, func(a, b reach) int { return cmp.Compare(a.low, b.low) })
	var none []reach
	from := c.From
	for _, r := range read {
		if low := min(r.low, until); low-from > gapS {
			none = append(none, reach{from, low})
		}
		from = max(from, r.high)
	}
	if until-from > gapS {
		none = append(none, reach{from, until})
	}
	return none
}

// spans are the times through which a trace has readings, with a temperature or without, each no farther from the next than its gap.
func (t tempTrace) spans() []reach {
	var spans []reach
	for _, p := range t.all {
		if n := len(spans); n > 0 && p.TimeS-spans[n-1].high <= t.gapS {
			spans[n-1].high = p.TimeS
			continue
		}
		spans = append(spans, reach{p.TimeS, p.TimeS})
	}
	return spans
}
