package draw

import (
	"cmp"
	"math"
	"slices"
)

// A label is words that belong to a place of a chart and are put where they hide nothing.
type label struct {
	text  string
	typ   Type
	lead  float64 // room before the text, for a sign
	spots []spot  // the places it belongs to
	line  int     // the line it names, which it may come close to; -1 for none
	on    bool    // it may stand on its line, which then breaks off for it
	most  float64 // what its place may cost, or else it finds none

	box Box   // where it was put
	at  Point // the place it was put for
	far bool  // so far from it that a thin line leads there
}

// spot is a place and what it costs, in units of length, not to take the best.
type spot struct {
	at    Point
	gap   float64 // from the place to the words
	cost  float64
	close bool // words are not led to it from afar
}

// crowd is what labels must not hide: lines, small signs, other labels. Lines are known by number, -1 being none's.
type crowd struct {
	within Box
	pieces []piece
	boxes  []Box // signs
	words  []Box // other labels
}

type piece struct {
	from, to Point
	line     int
}

// addLine adds a line, as coarse as words need it.
func (w *crowd) addLine(points []Point, line int) {
	points = within(points, 1.5)
	for i := 1; i < len(points); i++ {
		w.pieces = append(w.pieces, piece{points[i-1], points[i], line})
	}
}

// What it costs to hide something, or to be taken for another line's. A label on a label cannot be read and is not taken at all.
const (
	hidesOther = 120.0
	hidesOwn   = 60.0
	doubtful   = 90.0
	nearOther  = 2.0 // per unit nearer than roomy
	roomy      = 16.0
	nearWords  = 12.0
	crosses    = 25.0 // what leads to the place, over another line
	tooMuch    = 1000.0
	bearable   = 125.0 // for what can as well be said beneath: one line hidden
)

// ways are the sides of a place on which words can stand.
var ways = [...]struct{ x, y, cost float64 }{{1, -1, 0}, {1, 1, 0}, {-1, -1, 1}, {-1, 1, 1}, {1, 0, 2}, {-1, 0, 3}, {0, -1, 4}, {0, 1, 4}}

// farther is how much farther from its place than it should a label may be, and what that costs.
var farther = [...]struct{ by, cost float64 }{{0, 0}, {6, 6}, {18, 22}, {34, 32}, {52, 44}}

// put finds a place for a label and keeps others from it. It is false when there is none.
func (w *crowd) put(l *label) bool {
	best, wide := min(l.most, tooMuch), l.lead+4+1.04*textWidth(l.text, l.typ) // faces differ
	try := func(s spot, x, y, gap, cost float64, far bool) {
		if cost >= best {
			return
		}
		b := Box{s.at.X + x*gap + (x-1)*wide/2, s.at.Y + y*gap + (y-1)*labelHeight/2, wide, labelHeight}
		if cost += w.cost(b, l.line, l.on && gap == 0, far, best-cost); cost < best && far {
			cost += w.crossed(s.at, b.nearest(s.at), l.line)
		}
		if cost < best {
			best, l.box, l.at, l.far = cost, b, s.at, far
		}
	}
	slices.SortStableFunc(l.spots, func(a, b spot) int { return cmp.Compare(a.cost, b.cost) })
	for _, s := range l.spots {
		if l.on {
			try(s, 0, 0, 0, s.cost, false)
		}
		for _, way := range ways {
			for _, f := range s.distances() {
				try(s, way.x, way.y, s.gap+f.by, s.cost+way.cost+f.cost, f.by > 6)
			}
		}
	}
	if l.box.W == 0 {
		return false
	}
	w.words = append(w.words, l.box)
	if l.far {
		w.addLine([]Point{l.at, l.box.nearest(l.at)}, -1)
	}
	return true
}

func (s spot) distances() []struct{ by, cost float64 } {
	if s.close {
		return farther[:2]
	}
	return farther[:]
}

// cost of words standing in a box, on their own line or led to it or beside it; it need not be right beyond most.
func (w *crowd) cost(b Box, line int, on, led bool, most float64) float64 {
	if b.X < w.within.X+3 || b.Y < w.within.Y+2 || b.X+b.W > w.within.X+w.within.W-3 || b.Y+b.H > w.within.Y+w.within.H-3 {
		return tooMuch
	}
	sum, near, own := 0.0, roomy, math.Inf(1)
	for _, o := range w.boxes {
		if b.meets(o, 2) {
			return tooMuch
		}
	}
	for _, o := range w.words {
		switch {
		case b.meets(o, 2):
			return tooMuch
		case b.meets(o, 8):
			sum += nearWords
		}
	}
	for _, p := range w.pieces {
		if p.beyond(b, roomy) {
			continue
		}
		if sum > most {
			return sum
		}
		d := p.apart(b)
		switch {
		case p.line == line && line >= 0:
			own = min(own, d)
		case d == 0:
			sum += hidesOther
		default:
			near = min(near, d)
		}
	}
	if own == 0 && !on {
		sum += hidesOwn
	}
	if line >= 0 && !led && !on && near < roomy && near < own+3 {
		sum += doubtful
	}
	return sum + nearOther*(roomy-near)
}

// crossed is what it costs to lead from a place to words over other lines.
func (w *crowd) crossed(from, to Point, line int) (sum float64) {
	led := piece{from: from, to: to}
	for _, p := range w.pieces {
		if p.line != line && p.crosses(led) {
			sum += crosses
		}
	}
	for _, o := range slices.Concat(w.boxes, w.words) {
		if led.enters(o) {
			sum += hidesOther
		}
	}
	return sum
}

// crosses tells whether two pieces cut each other: the ends of each lie on both sides of the other.
func (p piece) crosses(q piece) bool {
	side := func(a, b, c Point) bool { return (b.X-a.X)*(c.Y-a.Y) > (b.Y-a.Y)*(c.X-a.X) }
	return side(p.from, p.to, q.from) != side(p.from, p.to, q.to) && side(q.from, q.to, p.from) != side(q.from, q.to, p.to)
}

// meets tells whether two boxes come closer than a gap.
func (b Box) meets(o Box, gap float64) bool {
	return b.X < o.X+o.W+gap && o.X < b.X+b.W+gap && b.Y < o.Y+o.H+gap && o.Y < b.Y+b.H+gap
}

// nearest is the point of a box that is nearest to a place.
func (b Box) nearest(p Point) Point {
	return Point{min(max(p.X, b.X), b.X+b.W), min(max(p.Y, b.Y), b.Y+b.H)}
}

// middle of a box.
func (b Box) middle() Point { return Point{b.X + b.W/2, b.Y + b.H/2} }

// beyond tells at little cost that a piece is farther than a gap from a box.
func (p piece) beyond(b Box, gap float64) bool {
	return max(p.from.X, p.to.X) < b.X-gap || min(p.from.X, p.to.X) > b.X+b.W+gap ||
		max(p.from.Y, p.to.Y) < b.Y-gap || min(p.from.Y, p.to.Y) > b.Y+b.H+gap
}

// apart is how far a piece is from a box, 0 if it touches.
func (p piece) apart(b Box) float64 {
	if p.enters(b) {
		return 0
	}
	least := math.Inf(1)
	for _, corner := range [...]Point{{b.X, b.Y}, {b.X + b.W, b.Y}, {b.X, b.Y + b.H}, {b.X + b.W, b.Y + b.H}} {
		least = min(least, distance(corner, p.from, p.to))
	}
	for _, end := range [...]Point{p.from, p.to} {
		dx := max(b.X-end.X, 0, end.X-b.X-b.W)
		dy := max(b.Y-end.Y, 0, end.Y-b.Y-b.H)
		least = min(least, math.Hypot(dx, dy))
	}
	return least
}

// enters clips the piece to the box, one side after the other (Liang and Barsky, 1984), and tells whether something is left.
func (p piece) enters(b Box) bool {
	from, to := 0.0, 1.0
	dx, dy := p.to.X-p.from.X, p.to.Y-p.from.Y
	for _, side := range [...]struct{ along, room float64 }{
		{-dx, p.from.X - b.X}, {dx, b.X + b.W - p.from.X}, {-dy, p.from.Y - b.Y}, {dy, b.Y + b.H - p.from.Y},
	} {
		switch {
		case side.along == 0 && side.room < 0:
			return false
		case side.along < 0:
			from = max(from, side.room/side.along)
		case side.along > 0:
			to = min(to, side.room/side.along)
		}
	}
	return from <= to
}

// along is spots on a line, evenly apart, the best at a share of its way.
func along(points []Point, best float64) []spot {
	long := 0.0
	for i := 1; i < len(points); i++ {
		long += math.Hypot(points[i].X-points[i-1].X, points[i].Y-points[i-1].Y)
	}
	if len(points) == 0 {
		return nil
	}
	const parts = 20
	spots := []spot{}
	for n := 0; n <= parts; n++ {
		share := float64(n) / parts
		spots = append(spots, spot{at: onWay(points, share*long), gap: 6, cost: 40 * math.Abs(share-best)})
	}
	return spots
}

// onWay is the point so far along a line.
func onWay(points []Point, far float64) Point {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		step := math.Hypot(b.X-a.X, b.Y-a.Y)
		if far <= step && step > 0 {
			return Point{a.X + (b.X-a.X)*far/step, a.Y + (b.Y-a.Y)*far/step}
		}
		far -= step
	}
	return points[len(points)-1]
}

// draw sets the words, on a ground where they would stand on something.
func (l label) draw(c Canvas, ground Tone) {
	if l.far {
		c.Line(l.at, l.box.nearest(l.at), Style{Stroke: Quiet, Width: 1})
	}
	if ground != NoTone {
		c.Rect(l.box, Style{Fill: ground})
	}
	t := l.typ
	t.Anchor = Middle
	c.Text(Point{l.box.X + l.lead + (l.box.W-l.lead)/2, l.box.Y + 15.5}, l.text, t)
}
