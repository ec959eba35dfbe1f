package productmix

import "math/big"

// enough is the most lots of one size that any best mix needs because of the other sizes of the same product: where one lot of another
// size does as well as k of this one (holds no more packs, uses no more of anything, earns no less), whoever makes k of this size can make
// that one instead. Two half kettles need never stand for a full one. This changes no optimum and spares the search most of its ties.
func (t *table) enough(i int) int64 {
	limit := int64(most)
	for o, other := range t.lots {
		if o == i || other.product != t.lots[i].product {
			continue
		}
		k := t.standsFor(o, i)
		if k == 0 || (k == 1 && t.standsFor(i, o) == 1 && o > i) { // of two that stand for each other, the first stays
			continue
		}
		limit = min(limit, t.lot(t.lots[i]).Least+k-1)
	}
	return limit
}

// standsFor is the fewest lots of size b that one of size a does as well as, 0 if it is as good as no number of them.
func (t *table) standsFor(a, b int) int64 {
	la, lb := t.lot(t.lots[a]), t.lot(t.lots[b])
	if la.Contribution <= 0 { // no more of it is made than must be
		return 0
	}
	k := max(1, ceil(la.Packs, lb.Packs))
	for r, u := range la.Uses {
		if u == 0 {
			continue
		}
		if lb.Uses[r] == 0 {
			return 0
		}
		k = max(k, ceil(u, lb.Uses[r]))
	}
	times := func(v *big.Int) *big.Int { return v.Mul(v, big.NewInt(k)) }
	earnsLess := big.NewInt(int64(la.Contribution)).Cmp(times(big.NewInt(int64(lb.Contribution)))) < 0
	lessThrifty := t.thrift(a).Cmp(times(t.thrift(b))) > 0 // by the rounding of thrift alone, but what is told of it is to hold
	if earnsLess || lessThrifty {
		return 0
	}
	return k
}

// ceil is a over b, up; b is above 0.
func ceil(a, b int64) int64 {
	if a%b > 0 {
		return a/b + 1
	}
	return a / b
}
