package clause

import (
	"context"
	"slices"
)

// Search is a search under way. It may be asked again and again; what it has learned stays.
type Search struct {
	bounds
	clauses
	links     [][]link
	resources []resource
	sums      []sum
	gaps      []gap
	touches   [][]int32 // of each variable: resources, and sums and then gaps with a flag counted on from them
	waiting   []bool
	queue     []int32
	done      int // steps of the trail that have been followed
	end       int32
	rank      rank
	asked     []int32 // questions taken out of rank
	askedAt   []int   // how many of them before each level
	near      []int   // values to try first, nil
	dead      bool    // nothing more to find

	clash, reasons, learnt []lit
	lower, met, top        []int32
	stamps                 []int64
	stamp                  int64
	limit                  int // learnt clauses before some are forgotten

	Conflicts int // so far
}

// New begins a search. The problem must be well formed: windows not empty, indices in range, p.Size() at most MaxMinutesOpen.
func New(p Problem) *Search {
	s := &Search{bounds: newBounds(p), links: linksOf(p), gaps: gapsOf(p), touches: make([][]int32, len(p.Lo)),
		end: int32(p.End), top: make([]int32, 2*len(p.Lo)), limit: 4000}
	s.watches = make([][]watch, len(s.of))
	s.rank = newRank(len(s.of))
	s.stamps = make([]int64, len(s.of)+2)
	for _, given := range p.Resources {
		s.resources = append(s.resources, newResource(given))
		for _, u := range given.Uses {
			s.touch(u.Var, u.Until, u.If-1)
		}
		s.watched()
	}
	for _, given := range p.Sums {
		s.sums = append(s.sums, newSum(given))
		s.touch(given.Total)
		for _, t := range given.Terms {
			s.touch(t.From, t.To)
		}
		s.watched()
	}
	for _, g := range s.gaps {
		s.touch(int(g.from), int(g.to), int(g.flag))
		s.watched()
	}
	for side := range s.links {
		for _, l := range s.links[side] {
			if v := s.at[side] + l.min; v > s.at[l.side] && !s.dead {
				s.dead = !s.conclude(l.side, v, byArc, int32(side), l.min)
			}
		}
	}
	for _, flags := range p.Choices {
		s.choose(flags)
	}
	s.ground()
	return s
}

// touch has the resource, sum or gap that comes next looked at whenever one of some variables moves; below 0 is none.
func (s *Search) touch(variables ...int) {
	for _, x := range variables {
		if next := int32(len(s.waiting)); x >= 0 && !slices.Contains(s.touches[x], next) {
			s.touches[x] = append(s.touches[x], next)
		}
	}
}

// watched ends what touch says of one resource, sum or gap, and has it looked at a first time.
func (s *Search) watched() {
	s.waiting = append(s.waiting, false)
	s.call(int32(len(s.waiting) - 1))
}

// choose demands that of some flags one is 1.
func (s *Search) choose(flags []int) {
	var open []lit
	for _, x := range flags {
		if s.root[2*x] >= 1 {
			return
		}
		if s.root[2*x+1] < 0 {
			open = append(open, s.lit(int32(2*x), 1))
		}
	}
	switch len(open) {
	case 0:
		s.dead = true
	case 1:
		side, v := s.value(open[0])
		s.dead = s.dead || !s.conclude(side, v, byReasons, 0, 0)
	default:
		s.attach(&s.bounds, s.write(open, 0))
	}
}

// ground draws all conclusions at level 0.
func (s *Search) ground() {
	if s.dead = s.dead || !s.propagate(); s.dead {
		return
	}
	s.settle()
	s.done = 0
}

// Bound is the least end that is not excluded.
func (s *Search) Bound() int { return int(s.root[2*s.end]) }

// Done tells that no schedule is left within the windows that is better than those found.
func (s *Search) Done() bool { return s.dead }

// Near makes the search try these values first, those of a schedule known from elsewhere.
func (s *Search) Near(values []int) { s.near = values }

// hopeEvery is how many conflicts pass between looks at the context.
const hopeEvery = 64

// Run looks for a schedule that ends by minute most, until it has one, knows that there is none, or conflicts are used up. It
// returns its values or nil; that there is none shows in Bound or Done. After a schedule only better ones are looked for.
func (s *Search) Run(ctx context.Context, most, conflicts int) (values []int) {
	last := s.Conflicts + conflicts
	for !s.dead {
		if s.propagate() {
			if s.level() == 0 {
				s.settle()
				s.done = 0
				if int(s.root[2*s.end]) > most {
					return nil
				}
			}
			if s.Conflicts >= last || s.Conflicts%hopeEvery == 0 && ctx.Err() != nil {
				s.retreat()
				return nil
			}
			if !s.decide(most) {
				return s.keep()
			}
			continue
		}
		s.Conflicts++
		if s.level() == 0 {
			s.dead = true
			break
		}
		s.turn()
	}
	return nil
}

// turn learns from the clash and goes back.
func (s *Search) turn() {
	learnt, to := s.study(s.clash)
	spans := s.span(learnt)
	s.ascend(to)
	s.rank.unit *= cooling
	side, v := s.value(learnt[0])
	if len(learnt) == 1 {
		s.raise(side, v, decided, 0, 0)
		return
	}
	s.raise(side, v, byClause, s.add(&s.bounds, learnt, spans), 0)
}

// retreat goes back to level 0.
func (s *Search) retreat() {
	if s.level() > 0 {
		s.ascend(0)
	}
	if len(s.clauses.learnt) > s.limit {
		s.forget(&s.bounds)
		s.limit += s.limit / 10
	}
}

func (s *Search) descend() {
	s.open()
	s.askedAt = append(s.askedAt, len(s.asked))
}

// ascend goes back to level to; what was asked since is open again.
func (s *Search) ascend(to int32) {
	s.back(to)
	s.clearQueue()
	for _, q := range s.asked[s.askedAt[to]:] {
		s.rank.put(q)
	}
	s.asked, s.askedAt = s.asked[:s.askedAt[to]], s.askedAt[:to]
}

// question is the literal of the pair that says "at least".
func (s *Search) question(l lit) int32 {
	if s.of[l].side%2 == 0 {
		return l
	}
	return s.not(l)
}

// keep takes the values of a full schedule and asks for a better one from here on.
func (s *Search) keep() []int {
	values := make([]int, len(s.at)/2)
	for x := range values {
		values[x] = int(s.at[2*x])
	}
	s.near = values
	s.retreat()
	s.Cut(values[s.end] - 1)
	return values
}

// Cut demands an end by minute most from here on; only between runs.
func (s *Search) Cut(most int) {
	side := 2*s.end + 1
	if v := int32(-most); v > s.at[side] {
		if s.at[side^1] > -v {
			s.dead = true
			return
		}
		s.raise(side, v, decided, 0, 0)
		s.ground()
	}
}

// decide takes the next step by choice; false when all is decided.
func (s *Search) decide(most int) bool {
	if s.level() == 0 {
		if v := int32(-most); v > s.at[2*s.end+1] {
			s.descend()
			s.raise(2*s.end+1, v, decided, 0, 0)
			return true
		}
	}
	for q := s.rank.pop(); q >= 0; q = s.rank.pop() {
		side, v := s.value(q)
		if s.at[side] >= v || s.at[side^1] >= 1-v {
			s.asked = append(s.asked, q)
			continue
		}
		s.descend()
		s.asked = append(s.asked, q)
		if s.near != nil && int32(s.near[side/2]) >= v {
			s.raise(side, v, decided, 0, 0)
		} else {
			s.raise(side^1, 1-v, decided, 0, 0)
		}
		return true
	}
	return s.early()
}

// early starts the variable that can start first, and of those the one with the least room. With sums, earlier is not always better: then
// the variables go where they were in the schedule that is known, and what is to be made small comes last.
func (s *Search) early() bool {
	x, lo, hi := -1, int32(0), int32(0)
	for k := range len(s.at) / 2 {
		l, h := s.at[2*k], -s.at[2*k+1]
		if l < h && (x < 0 || l < lo || l == lo && h < hi) && (len(s.sums) == 0 || int32(k) != s.end) {
			x, lo, hi = k, l, h
		}
	}
	if x < 0 && s.at[2*s.end] < -s.at[2*s.end+1] {
		x, lo = int(s.end), s.at[2*s.end]
	}
	if x < 0 {
		return false
	}
	s.descend()
	if len(s.sums) > 0 && s.near != nil && int32(s.near[x]) > lo && x != int(s.end) {
		s.raise(int32(2*x), min(hi, int32(s.near[x])), decided, 0, 0)
		return true
	}
	s.raise(int32(2*x+1), -lo, decided, 0, 0)
	return true
}
