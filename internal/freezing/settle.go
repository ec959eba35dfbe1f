package freezing

import "slices"

const (
	// mostTries are the loads of one cabinet and day that are simulated to find how much goes in.
	mostTries = 5
	// aim is the excess that is aimed at: a little within the limits. From nearEnough on, no more is tried; after the first exactDays, which
	// are what a kitchen acts on and quick to simulate, from nearLater.
	aim, nearEnough, nearLater = -0.008, -0.02, -0.1
	exactDays                  = 3
	// No further way is tried when more than one pack in farOff is too late for the fewest days, which another would not mend,
	// or when so many days of cabinets have been simulated.
	farOff, mostCourses = 8, 120
)

// solve makes the schedule in one way after the other, until one places all on the fewest days there can be: else the best of them.
func (p *planner) solve() (*course, error) {
	var best *course
	for _, by := range p.ways() {
		c, err := p.build(by)
		if err != nil {
			return nil, err
		}
		if best == nil || c.compare(best) < 0 {
			best = c
		}
		if late := p.late(best); late == 0 || late > p.packs()/farOff || p.courses > mostCourses {
			break
		}
	}
	return best, nil
}

// late is how many packs do not go in on the fewest days there can be; all of them where no way can place all.
func (p *planner) late(c *course) int {
	if p.least == 0 || p.least > p.want.Days {
		return p.packs()
	}
	n := c.leftOver()
	for day := p.least; day < p.want.Days; day++ {
		n += c.packsOn(day)
	}
	return n
}

func (p *planner) packs() int {
	n := 0
	for _, k := range p.want.Kinds {
		n += k.Count
	}
	return n
}

// ways are those that differ by shares alone, the best by these first, else the tidiest.
func (p *planner) ways() []way {
	var out []way
	var drafts []*course
	for _, by := range []way{{light, false, handful}, {scarce, false, handful}, {light, true, 1}} {
		d := p.draft(by)
		if slices.ContainsFunc(drafts, func(other *course) bool { return slices.EqualFunc(d.counts, other.counts, sameDay) }) {
			continue
		}
		i := len(out)
		for i > 0 && d.compare(drafts[i-1]) < 0 {
			i--
		}
		out, drafts = slices.Insert(out, i, by), slices.Insert(drafts, i, d)
	}
	return out
}

func sameDay(a, b [][]int) bool { return slices.EqualFunc(a, b, slices.Equal[[]int]) }

// build fills day after day. What has its last day may go in by ones and twos.
func (p *planner) build(by way) (*course, error) {
	c := p.empty()
	fill := slices.Repeat([]float64{1}, len(p.places))
	for day := 0; day < p.want.Days && c.leftOver() > 0; day++ {
		clear(c.turns)
		if err := p.fillDay(c, day, fill, by); err != nil {
			return nil, err
		}
		last := slices.DeleteFunc(p.queue(day, by), func(k int) bool { return c.left[k] == 0 || p.another(day, k) })
		for place := 0; place < len(p.places) && len(last) > 0; place++ {
			s := settling{planner: p, c: c, day: day, place: place, queue: last, lot: 1}
			if _, err := s.settle(); err != nil {
				return nil, err
			}
		}
	}
	return c, nil
}

// fillDay fills one cabinet after the other: as the shares say first, then as the simulation of all that has gone into it so far says. What
// does not go in after all is there for the next. fill is the share that each might be given, and then might be of the next day.
func (p *planner) fillDay(c *course, day int, fill []float64, by way) error {
	queue := p.queue(day, by)
	open := slices.Repeat([]bool{true}, len(p.places))
	for {
		p.fill(c, day, queue, fill, open, by)
		place := p.fullest(c, day, queue, open)
		if place < 0 {
			return nil
		}
		open[place] = false
		for i := range open {
			if open[i] {
				p.takeOut(c, day, i)
			}
		}
		s := settling{planner: p, c: c, day: day, place: place, queue: queue, lot: by.lot}
		share, err := s.settle()
		if err != nil {
			return err
		}
		fill[place] = share
	}
}

// fullest is the open place that got the most of the first kind of the queue that went into any; -1 if none did.
func (p *planner) fullest(c *course, day int, queue []int, open []bool) int {
	for _, k := range queue {
		best, most := -1, 0
		for i := range open {
			if n := c.counts[day][i][k]; open[i] && n > most {
				best, most = i, n
			}
		}
		if best >= 0 {
			return best
		}
	}
	return -1
}

// settling finds how much of the queue a place takes on a day.
type settling struct {
	*planner
	c          *course
	day, place int
	queue      []int
	lot        int
	low, high  trial
	best       []int // counts of low
}

// trial is a load that was simulated.
type trial struct {
	share, excess float64
	done          bool
}

// settle simulates the load that is there, and then larger or smaller ones, and leaves the largest that was seen to keep the limits. It is
// the share that the place might be given of the next day.
func (s *settling) settle() (share float64, err error) {
	s.low = trial{excess: -1}
	s.best = make([]int, len(s.want.Kinds))
	for range mostTries {
		now := trial{share: s.share(), done: true}
		if now.excess, err = s.excess(s.c, s.day, s.place); err != nil {
			return 0, err
		}
		if now.excess > 0 {
			s.high = now
		} else {
			s.low, s.best = now, slices.Clone(s.counts())
		}
		if s.low.excess > s.near() || !s.resize(s.next()) {
			break
		}
	}
	s.put(s.best)
	share = 1
	if s.high.done || s.low.excess > s.near() {
		share = min(1, max(s.low.share, smallestFill))
	}
	return share, s.leaveALot()
}

// smallestFill is what a place that took less on a day is tried with on the next.
const smallestFill = 0.3

// near is the excess that is near enough to the limits.
func (s *settling) near() float64 {
	if s.day < exactDays {
		return nearEnough
	}
	return nearLater
}

func (s *settling) counts() []int  { return s.c.counts[s.day][s.place] }
func (s *settling) share() float64 { return s.c.used[s.day][s.place] }

// next is the share to try.
func (s *settling) next() float64 {
	switch {
	case s.high.done && s.low.done:
		return s.low.share + (s.high.share-s.low.share)*(aim-s.low.excess)/(s.high.excess-s.low.excess)
	case s.high.done:
		return s.high.share * max(0.4, 1-(s.high.excess-aim)/steepness)
	}
	return min(mostShare, s.low.share+(aim-s.low.excess)/steepness)
}

// resize takes out what went in last, or puts in more, so that the place is given about so much of its day; false if that comes to a load
// no larger than one that keeps the limits, or no smaller than one that does not.
func (s *settling) resize(share float64) bool {
	turns := s.c.turns[s.place]
	for i := len(turns) - 1; i >= 0 && s.share() > share; i-- {
		k := turns[i]
		n := int((s.share()-share)/s.shares[s.places[s.place].Freezer][k]) + 1
		s.move(s.c, s.day, s.place, k, -min(n, s.counts()[k]))
	}
	more := s.queue
	if turns = s.c.turns[s.place]; len(turns) > 0 {
		more = append([]int{turns[len(turns)-1]}, more...)
	}
	for _, k := range more {
		s.move(s.c, s.day, s.place, k, s.takes(s.c, s.day, s.place, k, share, s.lot))
	}
	return s.share() > s.low.share+almost && (!s.high.done || s.share() < s.high.share-almost)
}

// put makes the load these counts.
func (s *settling) put(counts []int) {
	for k, n := range counts {
		if change := n - s.counts()[k]; change != 0 {
			s.move(s.c, s.day, s.place, k, change)
		}
	}
}

// leaveALot takes out a few packs of a kind of which else less than a lot would be left.
func (s *settling) leaveALot() error {
	before := slices.Clone(s.counts())
	for k, n := range before {
		if out := s.short(s.day, k, s.c.left[k], n, s.lot); out > 0 {
			s.move(s.c, s.day, s.place, k, -out)
		}
	}
	if slices.Equal(before, s.counts()) {
		return nil
	}
	excess, err := s.excess(s.c, s.day, s.place)
	if excess > 0 {
		s.put(before)
	}
	return err
}
