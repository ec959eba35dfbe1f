package purchase

import "cmp"

const kilogram = 1_000_000_000_000 // nanograms

// shelf is one need and the offers open to it, the cheapest per mass first. Slices with one member more than there are packs hold
// what is true of pack k and all after it.
//
// The search is branch and bound over the offers: the rest of the need can't cost less than at the price per mass of the cheapest
// offer that is still open, nor be covered more closely than to the next multiple of the greatest common divisor of the packs
// still open.
type shelf struct {
	need  int64
	keep  int64 // how much more than the need is worth something
	perKg int64 // money for a kilogram of it
	scale int64 // what a unit of that money counts for
	packs []pack

	reach   []int64 // mass of all packs still open
	unit    []int64 // greatest common divisor of the packs still open
	biggest []int64 // largest pack still open
	money   []int64 // greatest common divisor of the weighted prices still open

	counts, best []int64
	bestScore    score
	found        bool
	steps, most  int64
}

// score is what choices for one need are compared by.
type score struct{ cost, over, packs int64 }

func (a score) compare(b score) int {
	return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.over, b.over), cmp.Compare(a.packs, b.packs))
}

func (a score) plus(b score) score { return score{a.cost + b.cost, a.over + b.over, a.packs + b.packs} }

// newShelf sorts packs in place.
func newShelf(need, keep, perKg, scale int64, packs []pack) *shelf {
	n := len(packs)
	sortByRate(packs)
	block := make([]int64, 6*n+4)
	cut := func(size int) []int64 {
		s := block[:size:size]
		block = block[size:]
		return s
	}
	s := &shelf{need: need, keep: keep, perKg: perKg, scale: scale, packs: packs, reach: cut(n + 1), unit: cut(n + 1), biggest: cut(n + 1), money: cut(n + 1),
		counts: cut(n), best: cut(n)}
	for k := n - 1; k >= 0; k-- {
		p := &packs[k]
		s.reach[k] = s.reach[k+1] + p.most*p.mass
		s.unit[k] = gcd(p.mass, s.unit[k+1])
		s.biggest[k] = max(p.mass, s.biggest[k+1])
		s.money[k] = s.money[k+1]
		for _, t := range p.tiers {
			s.money[k] = gcd(t.price*p.weight, s.money[k])
		}
	}
	return s
}

// cheapest finds the best choice in at most most steps. Nothing scores less than least, which is the best choice's score if the
// search came to its end. The shelf must be able to cover the need.
func (s *shelf) cheapest(most int64) (least score) {
	s.most, s.steps, s.found = most, 0, false
	least = s.bound(0, s.need, score{})
	s.visit(0, s.need, score{})
	if s.steps < most {
		return s.bestScore
	}
	return least
}

// visit decides on pack k: rest is what is not covered yet (negative when more than covered), far is what was chosen.
func (s *shelf) visit(k int, rest int64, far score) {
	if k == len(s.packs) || rest <= -s.keep {
		if rest <= 0 {
			clear(s.counts[k:])
			s.offer(s.closed(rest, far))
		}
		return
	}
	if s.reach[k] < rest {
		return
	}
	p := &s.packs[k]
	cover := ceilDiv(rest+s.keep, p.mass)
	for c := p.top(cover); ; c = p.lower(c, cover) {
		if s.steps++; s.steps >= s.most && s.found {
			return
		}
		left := rest - c*p.mass
		if s.found && left >= 0 && far.cost+c*p.low*p.weight+s.restCost(k+1, left) > s.bestScore.cost {
			return // with nothing bought too much yet, fewer of this offer only make the rest dearer
		}
		next := score{cost: far.cost + p.cost(c)*p.weight, packs: far.packs + c}
		if !s.found || s.bound(k+1, left, next).compare(s.bestScore) < 0 {
			s.counts[k] = c
			s.visit(k+1, left, next)
		}
		if c == 0 {
			return
		}
	}
}

// closed is the score when nothing more is bought.
func (s *shelf) closed(rest int64, far score) score {
	far.cost -= s.scale * s.worth(-rest)
	far.over = -rest
	return far
}

// worth is the money that a surplus is worth, rounded down, not scaled.
func (s *shelf) worth(surplus int64) int64 { return worth(surplus, s.keep, s.perKg) }

func worth(surplus, keep, perKg int64) int64 {
	return floorMulDiv(perKg, min(surplus, keep), kilogram)
}

// restCost is the least that rest could cost from pack k on, less what the left-over is worth, if packs could be cut.
func (s *shelf) restCost(k int, rest int64) int64 {
	if k == len(s.packs) {
		if rest > 0 {
			return never
		}
		return -s.scale * s.worth(-rest)
	}
	if s.reach[k] < rest {
		return never
	}
	just := s.cut(k, rest)
	if s.keep == 0 {
		return just
	}
	// Between covering the need and filling up what is kept, cost is a straight line: one of the ends is the least. What is worth
	// something is rounded down at the end only, and may gain up to one unit of money in between.
	just -= s.scale * s.worth(max(0, -rest))
	full := s.cut(k, rest+s.keep) - s.scale*s.worth(s.keep)
	return min(just, full) - s.scale
}

// cut is what mass costs at the price per mass of pack k.
func (s *shelf) cut(k int, mass int64) int64 {
	p := &s.packs[k]
	if mass <= 0 || p.low == 0 {
		return 0
	}
	return ceilMulDiv(mass, p.low*p.weight, p.mass)
}

// bound is a score that no choice beats which covers rest from pack k on.
func (s *shelf) bound(k int, rest int64, far score) score {
	cost := s.restCost(k, rest)
	if cost >= never {
		return score{cost: never}
	}
	if g := s.money[k]; g > 0 && s.keep == 0 {
		cost = ceilDiv(cost, g) * g
	}
	far.cost += cost
	if rest <= 0 {
		far.over = -rest
		return far
	}
	far.over = ceilDiv(rest, s.unit[k])*s.unit[k] - rest
	far.packs += ceilDiv(rest, s.biggest[k])
	return far
}

// offer keeps a choice that is better. Of equals the first one met stays: it has more of the offers that come first.
func (s *shelf) offer(sc score) {
	if s.found && sc.compare(s.bestScore) >= 0 {
		return
	}
	s.found, s.bestScore = true, sc
	copy(s.best, s.counts)
}
