package labelmaker

import "slices"

// group is parts that stay together in a column.
type group struct {
	part part
	bars bool // may stand in a strip of its own, as wide as the label
	// tall is how it may stand at the side of a label with such a height; nil where it may not.
	tall func(high float64) part
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
	head    float64 // the ease of the head
	strip   bool    // the bars have a strip of their own above the foot
	side    float64 // how wide what stands at the left is, as high as the label; 0 for nothing
	aside   int     // which group that is
	columns []float64
	in      []int // the column of each group that is not at the side; -1 for the strip
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

// headEase is below what the head is shrunk only when nothing else helps: the name is what people look for.
const headEase = 0.6

// arrange finds the plan with the largest type, and of those the one that reads best. False when there is none.
func (p parts) arrange(f frame) (plan, bool) {
	for _, least := range []float64{headEase, 0} {
		for _, ease := range eases {
			for _, at := range []func(frame, float64, float64) (plan, bool){p.at, p.beside} {
				if best, found := at(f, ease, max(ease, least)); found {
					return p.headed(best, f, at), true
				}
			}
		}
	}
	return plan{}, false
}

// again plans at eases that are given.
func (p parts) again(f frame, ease, head float64) (plan, bool) {
	if same, found := p.at(f, ease, head); found {
		return same, true
	}
	return p.beside(f, ease, head)
}

// headed is the plan with the largest head that there is room for.
func (p parts) headed(best plan, f frame, at func(frame, float64, float64) (plan, bool)) plan {
	if p.head == nil {
		return best
	}
	for _, head := range eases {
		if head <= best.head {
			break
		}
		if better, found := at(f, best.ease, head); found {
			return better
		}
	}
	return best
}

// sides are the shares of the width that what stands at the side may have.
var sides = []float64{0.2, 0.3, 0.36, 0.42, 0.5, 0.58, 0.64}

// beside finds a plan with a group at the left, as high as the label, and everything else beside it.
func (p parts) beside(f frame, ease, head float64) (plan, bool) {
	for i, g := range p.body {
		if g.tall == nil {
			continue
		}
		for _, share := range sides {
			side, fits := g.tall(f.high).set(share*f.wide, ease)
			if !fits || side.high > f.high {
				continue
			}
			other := f
			other.wide -= side.wide + gutter
			if best, found := p.without(i).at(other, ease, head); found {
				best.side, best.aside = side.wide, i
				return best, true
			}
		}
	}
	return plan{}, false
}

// without is the parts but for a group that stands at the left of them.
func (p parts) without(i int) parts {
	p.body = slices.Concat(p.body[:i], p.body[i+1:])
	if p.foot != nil {
		foot := *p.foot
		foot.inset = true
		p.foot = &foot
	}
	return p
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
