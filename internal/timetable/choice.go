package timetable

import (
	"math"
	"slices"
)

// A choice is between so many ways; gaps and holds can hang on one of them. How long something takes and what it uses depends on the way
// too when it is written with them: a hold from its start, and a task without length that is so far behind it.

// If is a way of a choice, counted from 1. Way 0 stands for whatever is taken, so that the zero value holds always.
type If struct{ Choice, Way int }

// left stands for a way that is not taken.
var left = If{Way: -1}

// under is the condition once the ways are known.
func (c If) under(ways []int) If {
	if c.Way == 0 || c.Way > 0 && ways[c.Choice] == c.Way {
		return If{}
	}
	return left
}

// Taking is the problem with one way, counted from 1, taken of each choice, so that nothing is left to choose. Lags and holds keep their
// places.
func (p Problem) Taking(ways []int) Problem {
	if len(p.Choices) == 0 {
		return p
	}
	return p.with(func(l Lag) Lag { l.If = l.If.under(ways); return l }, func(h Hold) Hold { h.If = h.If.under(ways); return h })
}

// relaxed is a problem without choices that any schedule of p keeps: what some way asks for counts as far as all ways ask for it.
func (p Problem) relaxed() Problem {
	if len(p.Choices) == 0 {
		return p
	}
	return p.with(p.anyWay, func(h Hold) Hold {
		if h.If.Way > 0 {
			h.If = left
		}
		return h
	})
}

func (p Problem) with(lag func(Lag) Lag, hold func(Hold) Hold) Problem {
	p.Choices, p.Lags, p.Holds = nil, slices.Clone(p.Lags), slices.Clone(p.Holds)
	for l := range p.Lags {
		p.Lags[l] = lag(p.Lags[l])
	}
	for h := range p.Holds {
		p.Holds[h] = hold(p.Holds[h])
	}
	return p
}

// anyWay is what a lag and its fellows between the same tasks demand whichever way is taken.
func (p Problem) anyWay(lag Lag) Lag {
	if lag.If.Way <= 0 {
		return lag
	}
	least := make([]int, p.Choices[lag.If.Choice])
	for w := range least {
		least[w] = -MaxMinutes
	}
	for _, other := range p.Lags {
		if other.From == lag.From && other.To == lag.To && other.If.Way > 0 && other.If.Choice == lag.If.Choice {
			least[other.If.Way-1] = max(least[other.If.Way-1], other.Min)
		}
	}
	if lag.Min, lag.If = slices.Min(least), (If{}); lag.Min == -MaxMinutes {
		lag.If = left
	}
	return lag
}

// variant is the problem with one way taken of each choice, ready for schedules.
type variant struct {
	ways  []int
	root  root
	forms []form
	dead  bool // nothing goes this way
}

// mostVariants is how many variants of a problem with n tasks are kept ready.
func mostVariants(n int) int { return max(8, min(256, 40_000/max(1, n))) }

// take makes the schedules that follow go these ways; false when nothing does.
func (s *search) take(ways []int) bool {
	if len(ways) == 0 {
		return true
	}
	key := keyOf(ways)
	v, ok := s.variants[key]
	if !ok {
		r, core := newRoot(s.root.given.Taking(ways))
		if v = (&variant{ways: slices.Clone(ways), root: r, dead: core.Kind != NoClash}); !v.dead {
			v.forms = r.forms()
		}
		if len(s.variants) >= mostVariants(len(s.floor)) {
			clear(s.variants)
		}
		s.variants[key] = v
	}
	if v.dead {
		return false
	}
	s.variant = v
	return true
}

func keyOf(ways []int) string {
	key := make([]rune, len(ways))
	for k, w := range ways {
		key[k] = rune(w)
	}
	return string(key)
}

// mostAstray is how many ways are tried, one away from another, for one that anything goes.
const mostAstray = 50

// ready takes ways to begin with, if anything goes that way. False when none are found.
func (s *search) ready() bool {
	if s.variant.ways != nil || len(s.root.given.Choices) == 0 {
		return true
	}
	if s.res.Ways != nil {
		return s.take(s.res.Ways)
	}
	ways := s.root.spread()
	for range mostAstray {
		if s.take(ways) {
			return true
		}
		ways = s.strayed(ways)
	}
	return false
}

// spread takes of one choice after another the way that adds least to the busiest resource it needs; of equals the first.
func (r root) spread() []int {
	holds := make([][]Hold, len(r.given.Choices))
	for _, h := range r.given.Holds {
		if h.If.Way > 0 {
			holds[h.If.Choice] = append(holds[h.If.Choice], h)
		}
	}
	busy := make([]float64, len(r.fwd.caps)) // minutes, of all units together
	ways := make([]int, len(holds))
	for k, n := range r.given.Choices {
		best, least := 1, math.Inf(1)
		for w := 1; w <= n; w++ {
			most := 0.0
			for _, h := range holds[k] {
				if h.If.Way == w {
					most = max(most, busy[h.Resource]+r.share(h))
				}
			}
			if most < least {
				best, least = w, most
			}
		}
		ways[k] = best
		for _, h := range holds[k] {
			if h.If.Way == best {
				busy[h.Resource] += r.share(h)
			}
		}
	}
	return ways
}

// share is for how many minutes a hold takes all of its resource, at least.
func (r root) share(h Hold) float64 {
	minutes := r.given.Tasks[h.From.Task].Duration
	if h.From.Task == h.To.Task {
		minutes = h.To.Minute - h.From.Minute
	}
	return float64(max(0, minutes)*h.Amount) / float64(max(1, r.fwd.peak[h.Resource]))
}

// strayed goes another way in one choice, sometimes in more.
func (s *search) strayed(ways []int) []int {
	ways = slices.Clone(ways)
	for more := len(ways) > 0; more; more = s.rng.IntN(3) == 0 {
		k := s.rng.IntN(len(ways))
		ways[k] = 1 + s.rng.IntN(s.root.given.Choices[k])
	}
	return ways
}

// takeChild takes ways of two plans, now and then with another.
func (s *search) takeChild(a, b []int) bool {
	ways := s.crossed(a, b)
	if len(ways) > 0 && s.rng.IntN(2) == 0 {
		ways = s.strayed(ways)
	}
	return s.take(ways)
}

// crossed takes each way from one of two.
func (s *search) crossed(a, b []int) []int {
	ways := slices.Clone(a)
	for k := range ways {
		if s.rng.IntN(2) == 0 {
			ways[k] = b[k]
		}
	}
	return ways
}
