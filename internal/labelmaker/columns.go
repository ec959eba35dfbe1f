package labelmaker

import (
	"math"
	"slices"
)

// inStrip is the column of what stands in the strip.
const inStrip = -1

type key struct {
	group int
	wide  float64
}

// tries puts groups into columns, one after another, in every way that fits.
type tries struct {
	parts   parts
	ease    float64
	head    float64
	gap     float64
	columns []float64
	room    float64
	strip   bool
	in      []int
	filled  []float64
	high    map[key]float64
	best    plan
	found   bool
}

// height of a group in a width; more than there ever is when it is too wide.
func (t *tries) height(i int, wide float64) float64 {
	k := key{i, wide}
	if h, known := t.high[k]; known {
		return h
	}
	h := math.Inf(1)
	if s, fits := t.parts.body[i].part.set(wide, t.ease); fits {
		h = s.high
	}
	t.high[k] = h
	return h
}

// from puts the group and all behind it.
func (t *tries) from(i int) {
	if i == len(t.in) {
		t.keep()
		return
	}
	if t.in[i] == inStrip {
		t.from(i + 1)
		return
	}
	for c, wide := range t.columns {
		h := t.height(i, wide)
		if t.filled[c] > 0 {
			h += t.gap
		}
		before := t.filled[c]
		if before+h > t.room {
			continue
		}
		t.filled[c], t.in[i] = before+h, c
		t.from(i + 1)
		t.filled[c] = before
	}
	t.in[i] = 0
}

// keep takes the plan if it reads better than the best so far.
func (t *tries) keep() {
	score := t.score()
	if t.found && score >= t.best.score {
		return
	}
	t.found = true
	t.best = plan{ease: t.ease, head: t.head, strip: t.strip, columns: slices.Clone(t.columns), in: slices.Clone(t.in), score: score}
}

// Reads best: in order from column to column, columns evenly filled and about as wide as lines of text are read easily.
const (
	outOfOrder = 1.0
	unevenly   = 1.5
	offWidth   = 0.8
	emptied    = 5.0
	easyWide   = 185.0 // points: 45 to 60 letters of small type. Common practice.
)

func (t *tries) score() float64 {
	sum := 0.0
	for i, a := range t.in {
		for _, b := range t.in[i+1:] {
			if b != inStrip && a > b {
				sum += outOfOrder
			}
		}
	}
	lowest, highest := math.Inf(1), 0.0
	for c, filled := range t.filled {
		if filled == 0 {
			sum += emptied
		}
		lowest, highest = min(lowest, filled), max(highest, filled)
		sum += offWidth * math.Abs(math.Log(t.columns[c]/easyWide)) / float64(len(t.columns))
	}
	if t.room > 0 {
		sum += unevenly * (highest - lowest) / t.room
	}
	return sum
}
