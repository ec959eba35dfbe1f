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
	known  map[string]Loaded
	// courses is how long the cabinets were followed in all simulations, in days.
	courses float64
}

// course is who goes in where and when, as far as it is decided.
type course struct {
	counts [][][]int   // of each day, place, kind
	left   []int       // of each kind
	roomKg []float64   // of each place
	used   [][]float64 // of each day and place: the share of it that was given
	turns  [][]int     // of each place: the kinds that went in on the day that is being filled, in this order
}

const (
	almost = 1e-9
	// mostShare is how much of a cabinet's day is ever given, by shares, and mostOfOne how much to one kind, which is as well as its daily
	// intake is known. LeastDays is measured by them.
	mostShare, mostOfOne = 1.1, 1.02
	// handful is how many packs of a kind are worth a way to another cabinet: fewer go there only if no more are left, or if a handful would
	// cost a day. A judgement.
	handful = 5
)

func (p *planner) empty() *course {
	w := p.want
	c := &course{turns: make([][]int, len(p.places))}
	for _, k := range w.Kinds {
		c.left = append(c.left, k.Count)
	}
	for _, at := range p.places {
		c.roomKg = append(c.roomKg, w.Freezers[at.Freezer].RoomKg)
	}
	for range w.Days {
		day := make([][]int, len(p.places))
		for i := range day {
			day[i] = make([]int, len(w.Kinds))
		}
		c.counts = append(c.counts, day)
		c.used = append(c.used, make([]float64, len(p.places)))
	}
	return c
}

// move puts n packs of a kind into a place on a day, or takes -n out.
func (p *planner) move(c *course, day, place, k, n int) {
	if n == 0 { // also where a share is infinite
		return
	}
	counts := c.counts[day][place]
	if counts[k] == 0 {
		c.turns[place] = append(c.turns[place], k)
	}
	counts[k] += n
	c.left[k] -= n
	c.roomKg[place] -= float64(n) * p.want.Kinds[k].Pack.MassKg
	c.used[day][place] += float64(n) * p.shares[p.places[place].Freezer][k]
	if counts[k] == 0 {
		c.turns[place] = slices.DeleteFunc(c.turns[place], func(other int) bool { return other == k })
	}
}

// takeOut takes all out of a place that went in on a day.
func (p *planner) takeOut(c *course, day, place int) {
	for _, k := range slices.Clone(c.turns[place]) {
		p.move(c, day, place, k, -c.counts[day][place][k])
	}
	c.used[day][place] = 0
}

// takes is how many packs of a kind a place takes so that the share of it that is given stays within fill. To a kind that is new there,
// it is nothing if it is less than a lot.
func (p *planner) takes(c *course, day, place, k int, fill float64, lot int) int {
	share, massKg := p.shares[p.places[place].Freezer][k], p.want.Kinds[k].Pack.MassKg
	if math.IsInf(share, 1) {
		return 0
	}
	have := c.counts[day][place][k]
	byShare := min((fill-c.used[day][place])/share, mostOfOne/share-float64(have))
	n := int(min(byShare, c.roomKg[place]/massKg, float64(c.left[k])) + almost)
	if n < 0 || have == 0 && n < min(lot, c.left[k]) {
		return 0
	}
	return n
}

// fill puts what may go in on a day into the open places, kind after kind in the order of the queue, by shares: what suits first; then what
// is left of the day.
func (p *planner) fill(c *course, day int, queue []int, fill []float64, open []bool, by way) {
	for _, anywhere := range []bool{false, true} {
		for _, k := range queue {
			for c.left[k] > 0 {
				place, n := p.choose(c, day, k, fill, open, by, anywhere)
				if n == 0 {
					break
				}
				p.move(c, day, place, k, n)
			}
		}
	}
}

// choose is the place for the most of a kind, of those that take as many the one with the least to spare after it. Where kinds lie apart it
// is the one with the least to spare at all. A rest that would be less than a lot is made up to one.
func (p *planner) choose(c *course, day, k int, fill []float64, open []bool, by way, anywhere bool) (best, most int) {
	spare := math.Inf(1)
	for i, at := range p.places {
		if !open[i] || !anywhere && !p.suits[at.Freezer][k] {
			continue
		}
		n := p.takes(c, day, i, k, fill[i], by.lot)
		after := fill[i] - c.used[day][i] - float64(n)*p.shares[at.Freezer][k]
		more := n > most || n == most && after < spare-almost
		if by.apart {
			more = after < spare-almost
		}
		if n > 0 && more {
			best, most, spare = i, n, after
		}
	}
	return best, most - p.short(day, k, c.left[k]-most, most, by.lot)
}

// short is how many of n packs of a kind should stay out when a rest of them does, so that a lot is left for another place or day.
func (p *planner) short(day, k, rest, n, lot int) int {
	if !p.another(day, k) || rest <= 0 || rest >= lot || n < 2*lot {
		return 0
	}
	return lot - rest
}

// another is whether there is another day for what is left of a kind.
func (p *planner) another(day, k int) bool {
	_, may := p.want.inS(day+1, k)
	return may && day+1 < p.want.Days
}

// inS is when packs of a kind go in on a day: at its loading, or when they are ready later that day.
func (w Want) inS(day, k int) (float64, bool) {
	ready := w.Kinds[k].ReadyS
	in := max(float64(day)*daySeconds, ready)
	return in, ready < float64(day+1)*daySeconds && in <= ready+w.WaitS+almost
}

// order is in which order kinds go in that are ready at the same time.
type order func(p *planner, a, b int) int

// way is a way to fill the days.
type way struct {
	order
	apart bool // a kind fills a cabinet that it fills, rather than a part of one that takes more of it
	lot   int
}

// light is most packs for a share of the day first: it leaves the fewest waiting. scarce is what the fewest cabinets take first, and of that
// what needs the most of a day: it may save a day.
func light(p *planner, a, b int) int {
	mass := func(k int) float64 { return p.want.Kinds[k].Pack.MassKg }
	return cmp.Or(cmp.Compare(p.smallest(a), p.smallest(b)), cmp.Compare(mass(b), mass(a)))
}

func scarce(p *planner, a, b int) int {
	return cmp.Or(cmp.Compare(p.takers(a), p.takers(b)), light(p, b, a))
}

// queue is which kinds may go in on a day: those ready first, which may wait the least; then as the order says.
func (p *planner) queue(day int, by way) []int {
	var out []int
	for k := range p.want.Kinds {
		if _, may := p.want.inS(day, k); may {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(cmp.Compare(p.want.Kinds[a].ReadyS, p.want.Kinds[b].ReadyS), by.order(p, a, b))
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

// draft fills the days by shares alone.
func (p *planner) draft(by way) *course {
	c := p.empty()
	fill, open := slices.Repeat([]float64{1}, len(p.places)), slices.Repeat([]bool{true}, len(p.places))
	for day := range p.want.Days {
		clear(c.turns)
		p.fill(c, day, p.queue(day, by), fill, open, by)
	}
	return c
}

func (c *course) leftOver() int {
	n := 0
	for _, l := range c.left {
		n += l
	}
	return n
}

// packsOn is how many packs go in on a day, and days how many loadings there are up to the last one.
func (c *course) packsOn(day int) int {
	n := 0
	for _, counts := range c.counts[day] {
		for _, k := range counts {
			n += k
		}
	}
	return n
}

func (c *course) days() int {
	for day := len(c.counts) - 1; day >= 0; day-- {
		if c.packsOn(day) > 0 {
			return day + 1
		}
	}
	return 0
}

// compare is below 0 for fewer packs left over; of the same number, for fewer days.
func (c *course) compare(with *course) int {
	return cmp.Or(cmp.Compare(c.leftOver(), with.leftOver()), cmp.Compare(c.days(), with.days()))
}
