package labelmaker

import "math"

// group is parts that stay together in a column.
type group struct {
	part part
	bars bool // may stand in a strip of its own, as wide as the label
}

// parts are what a label is made of, in the order in which they are read: a head as wide as the label, groups in columns, a foot as wide as the label.
type parts struct {
	head *stack // nil for none
	body []group
	foot *foot // nil for none
}

// frame is what is to be filled, in points.
type frame struct {
	wide, high float64 // printable
	netMost    float64 // the net quantity may stand no higher above the lower edge; 0 for anywhere
}

// plan is one way to put parts on a label.
type plan struct {
	ease    float64
	head    float64 // the ease of the head, which is larger where there is room: the name is what people look for
	strip   bool    // the bars have a strip of their own above the foot
	columns []float64
	in      []int // the column of each group; -1 for the strip
	score   float64
}

const (
	gutter  = 7.0 // between columns
	between = 4.5 // between groups, where there is ease
)

// eases from large type down to the least.
var eases = []float64{2, 1.5, 1.2, 1, 0.8, 0.6, 0.4, 0.2, 0}

// splits are the shares of the width that columns have.
var splits = [][]float64{{1}, {0.5, 0.5}, {0.42, 0.58}, {0.58, 0.42}, {0.36, 0.64}, {0.64, 0.36}, {1. / 3, 1. / 3, 1. / 3}, {0.4, 0.3, 0.3}, {0.3, 0.4, 0.3}, {0.3, 0.3, 0.4}}

// arrange finds the plan with the largest type, and of those the one that reads best. False when there is none.
func (p parts) arrange(f frame, eases []float64) (plan, bool) {
	for _, ease := range eases {
		best, found := p.at(f, ease, ease)
		if !found {
			continue
		}
		for _, head := range eases {
			if head <= ease || p.head == nil {
				break
			}
			if better, found := p.at(f, ease, head); found {
				return better, true
			}
		}
		return best, true
	}
	return plan{}, false
}

// at finds the best plan at one ease of the head and one of everything else.
func (p parts) at(f frame, ease, head float64) (best plan, found bool) {
	gap := gapAt(ease)
	room, fits := p.roomFor(f, ease, head)
	if !fits {
		return plan{}, false
	}
	if len(p.body) == 0 {
		return plan{ease: ease, head: head}, true
	}
	tries := &tries{parts: p, ease: ease, head: head, gap: gap, high: map[key]float64{}}
	for _, strip := range []bool{false, true} {
		left, in := room, make([]int, len(p.body))
		if strip {
			taken := 0.0
			for i, g := range p.body {
				if g.bars {
					in[i] = inStrip
					taken += tries.height(i, f.wide) + gap
				}
			}
			if left -= taken; taken == 0 || left < -gap {
				continue
			}
		}
		for _, shares := range splits {
			tries.columns = columnsOf(shares, f.wide)
			tries.room, tries.strip, tries.in, tries.filled = left, strip, in, make([]float64, len(shares))
			tries.from(0)
		}
	}
	return tries.best, tries.found
}

// roomFor is how much height the head and the foot leave; false when they do not fit.
func (p parts) roomFor(f frame, ease, head float64) (float64, bool) {
	room, gap := f.high, gapAt(ease)
	if p.head != nil {
		s, fits := p.head.set(f.wide, head)
		if !fits {
			return 0, false
		}
		room -= s.high + gap
	}
	if p.foot != nil {
		s, fits := p.foot.set(f.wide, ease)
		if !fits || f.netMost > 0 && p.foot.netHigh(f.wide, ease) > f.netMost {
			return 0, false
		}
		room -= s.high + gap
	}
	return room, room >= -gap && (room >= 0 || len(p.body) == 0)
}

func gapAt(ease float64) float64 { return between * min(1.5, 0.4+0.6*ease) }

func columnsOf(shares []float64, wide float64) []float64 {
	columns := make([]float64, len(shares))
	for i, s := range shares {
		columns[i] = s * (wide - gutter*float64(len(shares)-1))
	}
	return columns
}

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
	t.best = plan{t.ease, t.head, t.strip, append([]float64(nil), t.columns...), append([]int(nil), t.in...), score}
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
