package fill

import (
	"cmp"
	"slices"
)

// exchange looks for better plans a few packs away from the best one. Where packs are worth nearly what they weigh, plans that fit
// to the last gram are many and hard to come by: the relaxed corners miss them all by a little.
//
// A move makes some more of up to three groups and some fewer. Two moves together change up to six groups; those that come to
// the wanted change of the goals are found by looking up, for each move, the one that it lacks.
type exchange struct {
	s      *search
	held   []int // linear goals that must not change
	moves  []int64
	n      int
	keys   []keyed // sorted
	checks int
}

type keyed struct {
	key  uint64
	move int
}

// The most moves that are looked at, and the most pairs of them in one exchange.
const (
	mostMoves  = 14_000
	mostChecks = 150_000
)

// exchange improves the best plan as far as it finds a way. It does nothing in a pass for a goal that has caps.
func (s *search) exchange() {
	x := exchange{s: s, n: len(s.best), checks: mostChecks}
	for k := range s.goals[:s.pass] {
		if s.goals[k].linear() {
			x.held = append(x.held, k)
		}
	}
	ties := s.pass == len(s.goals)
	if !ties && !s.goals[s.pass].linear() || !x.list() {
		return
	}
	if ties {
		x.level()
		return
	}
	for x.raise() && x.checks > 0 {
	}
}

// linear reports whether every pack of a group counts the same.
func (o *goal) linear() bool {
	return !slices.ContainsFunc(o.cap, func(c int64) bool { return c != noCap })
}

// list makes all moves of up to three groups with as many packs each as there is room for; false when there are too many groups.
func (x *exchange) list() bool {
	reach := int64(0)
	for n := x.n; reach < 6 && movesOf(n, 2*(reach+1)) <= mostMoves; reach++ {
	}
	if reach == 0 || x.n < 2 {
		return false
	}
	d := make([]int64, x.n)
	var put func(from, groups int)
	put = func(from, groups int) {
		x.add(d)
		if groups == 0 {
			return
		}
		for g := from; g < x.n; g++ {
			for c := -reach; c <= reach; c++ {
				if d[g] = c; c != 0 {
					put(g+1, groups-1)
				}
			}
			d[g] = 0
		}
	}
	put(0, 3)
	slices.SortFunc(x.keys, func(a, b keyed) int { return cmp.Or(cmp.Compare(a.key, b.key), cmp.Compare(a.move, b.move)) })
	return true
}

// movesOf is how many moves of up to three of n groups there are with so many steps each.
func movesOf(n int, steps int64) int64 {
	k := int64(n)
	return k*steps + k*(k-1)/2*steps*steps + k*(k-1)*(k-2)/6*steps*steps*steps
}

func (x *exchange) add(d []int64) {
	x.keys = append(x.keys, keyed{x.key(d, 0), len(x.moves)})
	x.moves = append(x.moves, d...)
}

// key is what a move does to the goals that must not change and to the one that is raised, in one number: moves that do the same
// have the same, and sums of moves sums of keys. Few others share one by chance; offer finds them out.
func (x *exchange) key(d []int64, raised int64) uint64 {
	var sum uint64
	odd := uint64(1)
	for _, k := range x.held {
		odd *= 0x9e3779b97f4a7c15
		for g, c := range d {
			sum += odd * uint64(x.s.goals[k].w[g]*c)
		}
	}
	if x.s.pass < len(x.s.goals) {
		for g, c := range d {
			raised += x.s.goals[x.s.pass].w[g] * c
		}
		sum += uint64(raised)
	}
	return sum
}

// raise looks for a pair of moves that adds something to the goal of the pass.
func (x *exchange) raise() bool {
	s := x.s
	gap := int64(0)
	for _, n := range s.stack {
		gap = max(gap, n.bound-s.reached[s.pass])
	}
	for add := min(gap, 8); add > 0; add-- {
		for _, a := range x.keys {
			at, _ := slices.BinarySearchFunc(x.keys, a.key-uint64(add), func(k keyed, key uint64) int { return cmp.Compare(k.key, key) })
			for ; at < len(x.keys) && x.keys[at].key == a.key-uint64(add); at++ {
				if x.checks--; x.checks < 0 {
					return false
				}
				before := s.reached[s.pass]
				if x.try(a.move, x.keys[at].move, 0) && s.reached[s.pass] > before {
					return true
				}
			}
		}
	}
	return false
}

// level goes through the pairs that change no goal, from one plan to a more even one, until none is.
func (x *exchange) level() {
	for since, at := 0, 0; since <= len(x.keys) && x.checks > 0; since, at = since+1, at+1 {
		if at >= len(x.keys) {
			at = 0
		}
		least := slices.Min(x.s.best)
		for b := at + 1; b < len(x.keys) && x.keys[b].key == x.keys[at].key; b++ {
			x.checks--
			if x.try(x.keys[at].move, x.keys[b].move, least) || x.try(x.keys[b].move, x.keys[at].move, least) {
				since, least = 0, slices.Min(x.s.best)
			}
		}
	}
}

// try offers the best plan plus one move less another if it fits, and no group has fewer than least, and reports whether it is better.
func (x *exchange) try(plus, minus int, least int64) bool {
	s := x.s
	total := s.moved[:0]
	for g, c := range s.best {
		c += x.moves[plus+g] - x.moves[minus+g]
		if c < max(s.t.lo[g], least) || c > s.t.hi[g] {
			return false
		}
		total = append(total, c)
	}
	s.moved = total
	for j, left := range s.t.stock {
		for g, c := range total {
			left -= s.t.take[g][j] * c
		}
		if left < 0 {
			return false
		}
	}
	was := s.best
	s.offer(total)
	return &s.best[0] != &was[0]
}
