package freezing

import (
	"cmp"
	"math"
	"slices"
)

// planner makes one schedule.
type planner struct {
	want   Want
	places []Place
	shares [][]float64 // of each freezer, of each kind
	least  int         // bound on the days
	suits  [][]bool    // of each freezer, of each kind: whether it is the right one for it, by worth
	cap    [][]float64 // of each day and place: what share of it may be given; 1 unless the check said less
	known  map[string]Loaded
}

// draft is an assignment before it is simulated.
type draft struct {
	counts [][][]int   // of each day, place, kind
	left   []int       // of each kind
	roomKg []float64   // of each place
	used   [][]float64 // of each day and place: the share of it that was given
	days   int         // loadings used
}

const almost = 1e-9

// rule is how a pack chooses among the places that can take it.
type rule int

const (
	emptiest rule = iota // the place that it leaves with the smallest share used: even loads
	fullest              // with the largest: what is left of a day stays whole for a thick pack
)

// assign fills the days with at most fill times each place's cap.
func (p *planner) assign(fill float64, by rule) draft {
	w := p.want
	d := draft{counts: make([][][]int, w.Days), used: make([][]float64, w.Days)}
	for _, k := range w.Kinds {
		d.left = append(d.left, k.Count)
	}
	for _, at := range p.places {
		d.roomKg = append(d.roomKg, w.Freezers[at.Freezer].RoomKg)
	}
	for day := range w.Days {
		d.counts[day] = make([][]int, len(p.places))
		for i := range p.places {
			d.counts[day][i] = make([]int, len(w.Kinds))
		}
		d.used[day] = make([]float64, len(p.places))
		queue := p.queue(day)
		for _, anywhere := range []bool{false, true} { // what suits first; then what is left of the day
			for _, k := range queue {
				for d.left[k] > 0 && p.putOne(&d, day, k, fill, by, anywhere) {
					d.days = day + 1
				}
			}
		}
	}
	return d
}

// putOne puts one pack into the place that the rule chooses; false if none takes it.
func (p *planner) putOne(d *draft, day, k int, fill float64, by rule, anywhere bool) bool {
	used := d.used[day]
	best, bestUsed, sign := -1, math.Inf(1), 1.0
	if by == fullest {
		sign = -1
	}
	massKg := p.want.Kinds[k].Pack.MassKg
	for i, at := range p.places {
		if !anywhere && !p.suits[at.Freezer][k] {
			continue
		}
		after := used[i] + p.shares[at.Freezer][k]
		if after <= fill*p.cap[day][i]+almost && d.roomKg[i] >= massKg-almost && sign*after < bestUsed-almost {
			best, bestUsed = i, sign*after
		}
	}
	if best < 0 {
		return false
	}
	used[best] = sign * bestUsed
	d.roomKg[best] -= massKg
	d.counts[day][best][k]++
	d.left[k]--
	return true
}

// inS is when packs of a kind go in on a day: at its loading, or when they are ready later that day.
func (w Want) inS(day, k int) (float64, bool) {
	ready := w.Kinds[k].ReadyS
	in := max(float64(day)*daySeconds, ready)
	return in, ready < float64(day+1)*daySeconds && in <= ready+w.WaitS+almost
}

// queue is which kinds may go in on a day: those ready first, which may wait the least; of those, what the fewest freezers take; then the
// largest.
func (p *planner) queue(day int) []int {
	var out []int
	for k := range p.want.Kinds {
		if _, may := p.want.inS(day, k); may {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(
			cmp.Compare(p.want.Kinds[a].ReadyS, p.want.Kinds[b].ReadyS),
			cmp.Compare(p.takers(a), p.takers(b)),
			cmp.Compare(p.smallest(b), p.smallest(a)),
		)
	})
	return out
}

// takers is how many places take a kind, and smallest the smallest share that one pack uses.
func (p *planner) takers(k int) int {
	n := 0
	for _, at := range p.places {
		if !math.IsInf(p.shares[at.Freezer][k], 1) {
			n++
		}
	}
	return n
}

func (p *planner) smallest(k int) float64 {
	least := math.Inf(1)
	for f := range p.shares {
		least = min(least, p.shares[f][k])
	}
	return least
}

func (d draft) leftOver() int {
	n := 0
	for _, l := range d.left {
		n += l
	}
	return n
}

// even is the assignment that leaves nothing more over and uses no more days than a full one, at the smallest fill that does: it spreads
// the load over the days as it already is over the cabinets.
func (p *planner) even() draft {
	by := emptiest
	full := p.assign(1, by)
	if full.leftOver() > 0 || full.days > p.least {
		if tight := p.assign(1, fullest); tight.better(full) {
			full, by = tight, fullest
		}
	}
	low, high, best := 0.0, 1.0, full
	for range 8 {
		fill := (low + high) / 2
		if d := p.assign(fill, by); !full.better(d) {
			best, high = d, fill
		} else {
			low = fill
		}
	}
	return best
}

// better is fewer packs left over; of the same number, fewer days.
func (d draft) better(than draft) bool {
	a, b := d.leftOver(), than.leftOver()
	return a < b || a == b && d.days < than.days
}
