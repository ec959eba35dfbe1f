package purchase

import (
	"cmp"
	"slices"
)

// draft is a choice for one need with some of its offers decided.
type draft struct {
	score  score   // cost as it is, mass and packs
	points []int64 // goods by dims, held at the value to be reached; last the mass, held at all that is worth anything
	bound  int64   // nothing that begins with it costs less, weighted
	rest   int64   // what is not covered yet
	before int32   // draft at the offer before
	count  int64   // packs of this offer
}

// ways are the choices for need i that cost at most slack more, weighted, than the least; none of them is replaced by another. They
// are built offer by offer: of two drafts, one that costs no more and has as much of everything replaces the other. Of suppliers in
// dims any number of packs is a choice; of the others only what covers the need, or is worth keeping.
func (x *mixer) ways(i int, slack int64) []way {
	w := make(weights, len(x.terms))
	for j := range w {
		w[j] = x.scale - x.dual.price[j]
	}
	sh := x.shelf(i, x.node.open, x.scale, w)
	limit := x.dual.picks[i].least.cost + slack
	levels := make([][]draft, 0, len(sh.packs))
	drafts := []draft{{rest: sh.need, points: make([]int64, len(x.dims)+1)}}
	for k := range sh.packs {
		drafts = x.drafted(sh, k, drafts, limit)
		levels = append(levels, drafts)
	}
	ways := make([]way, 0, len(drafts))
	for at, d := range drafts {
		if d.rest > 0 {
			continue
		}
		d.score.cost -= sh.worth(-d.rest)
		d.score.over = -d.rest
		ways = append(ways, way{score: d.score, weighted: x.weigh(d.score.cost, d.points), goods: d.points[:len(x.dims)],
			counts: sh.listed(counted(levels, at), len(x.wants[i].packs))})
	}
	return x.bestWays(ways)
}

// counted are the packs of each offer that lead to a draft of the last level.
func counted(levels [][]draft, at int) []int64 {
	counts := make([]int64, len(levels))
	for k := len(levels) - 1; k >= 0; k-- {
		counts[k] = levels[k][at].count
		at = int(levels[k][at].before)
	}
	return counts
}

// weigh is a cost less what it is worth, by the prices, to have goods in the orders.
func (x *mixer) weigh(cost int64, goods []int64) int64 {
	weighted := cost * x.scale
	for d, j := range x.dims {
		weighted -= x.dual.price[j] * goods[d]
	}
	return weighted
}

// drafted decides on pack k.
func (x *mixer) drafted(sh *shelf, k int, before []draft, limit int64) []draft {
	p := &sh.packs[k]
	dim := slices.Index(x.dims, p.supplier)
	var drafts []draft
	for b := range before {
		cover := ceilDiv(before[b].rest+sh.keep, p.mass)
		if dim >= 0 {
			cover = x.affordable(sh, p, &before[b], limit)
		}
		for c := p.top(cover); ; c = p.lower(c, cover) {
			x.steps++
			if d, ok := x.with(sh, k, dim, &before[b], c, limit); ok {
				d.before, d.count = int32(b), c
				drafts = append(drafts, d)
			}
			if len(drafts) > 4*x.room {
				drafts = x.bestDrafts(drafts)
			}
			if c == 0 {
				break
			}
			if x.steps >= x.most {
				x.whole = false
				return drafts
			}
		}
	}
	return x.bestDrafts(drafts)
}

// affordable is the most packs with which a draft does not cost more than limit, whatever else is bought.
func (x *mixer) affordable(sh *shelf, p *pack, d *draft, limit int64) int64 {
	each := p.low * p.weight
	if each == 0 {
		return p.most
	}
	return max(0, min(p.most, (limit-x.weigh(d.score.cost, d.points)+sh.scale*sh.worth(sh.keep))/each))
}

// with is a draft with count packs more, or false if it cannot become a way within limit.
func (x *mixer) with(sh *shelf, k, dim int, d *draft, count, limit int64) (draft, bool) {
	p := &sh.packs[k]
	cost := p.cost(count)
	next := draft{score: d.score.plus(score{cost, count * p.mass, count}), rest: d.rest - count*p.mass}
	last := len(x.dims)
	goods := int64(0)
	if dim >= 0 {
		goods = min(d.points[dim]+cost, x.dual.goal[p.supplier]) - d.points[dim]
	}
	weighted := x.weigh(next.score.cost, d.points[:last])
	if dim >= 0 {
		weighted -= x.dual.price[p.supplier] * goods
	}
	rest := sh.restCost(k+1, next.rest)
	if next.bound = weighted + rest; rest >= never || next.bound > limit {
		return draft{}, false
	}
	next.points = slices.Clone(d.points)
	if dim >= 0 {
		next.points[dim] += goods
	}
	next.points[last] = min(next.score.over, sh.need+sh.keep)
	return next, true
}

// bestDrafts puts the least cost first and leaves out what another replaces; no more than there is room for are kept.
func (x *mixer) bestDrafts(drafts []draft) []draft {
	slices.SortStableFunc(drafts, func(a, b draft) int { return a.score.compare(b.score) })
	drafts = front(drafts, func(d draft) []int64 { return d.points }, &x.steps)
	if len(drafts) <= x.room {
		return drafts
	}
	x.whole = false
	slices.SortStableFunc(drafts, func(a, b draft) int { return cmp.Compare(a.bound, b.bound) })
	return drafts[:x.room]
}
