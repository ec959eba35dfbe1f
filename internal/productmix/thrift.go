package productmix

import (
	"math"
	"math/big"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/unit"
)

// beThrifty turns round how package fill tells apart plans of the same value. Fill prefers the plan that uses the most of all stocks
// together, which is right for what would be left over in a pot and wrong for hours. So it is given one more stock, of which there is
// always enough, and of which a lot takes
//
//	turn x contribution - thrift - all that it takes of the other stocks
//
// with turn so large that this is never below 0. All that a lot takes is then turn x contribution - thrift, and among plans that earn
// the same the one that takes most is the one with the least thrift: the sum over resources of the use as a share of what there is. It
// reports whether the figures stay inside the range; if not, f is left as it was.
func (t *table) beThrifty(f *fill.Problem) bool {
	takes := make([]*big.Int, len(t.lots))
	turn := new(big.Int)
	for i, at := range t.lots {
		takes[i] = t.thrift(i)
		for _, r := range t.rows {
			takes[i].Add(takes[i], big.NewInt(r.uses[i]))
		}
		if m := int64(t.lot(at).Contribution); m > 0 {
			if up := new(big.Int).Add(takes[i], big.NewInt(m-1)); turn.Cmp(up.Div(up, big.NewInt(m))) < 0 {
				turn = up
			}
		}
	}
	stock := new(big.Int)
	for i, at := range t.lots {
		m := int64(t.lot(at).Contribution)
		if m <= 0 {
			takes[i].SetInt64(0) // its count is settled
			continue
		}
		takes[i].Sub(new(big.Int).Mul(turn, big.NewInt(m)), takes[i])
		stock.Add(stock, new(big.Int).Mul(takes[i], big.NewInt(t.limit(i))))
	}
	all := new(big.Int).Set(stock)
	for _, s := range f.Stock {
		all.Add(all, big.NewInt(int64(s)))
	}
	if all.Cmp(big.NewInt(math.MaxInt64/8)) > 0 {
		return false
	}
	f.Stock = append(f.Stock, unit.Mass(stock.Int64()))
	for i, take := range takes {
		if take.Sign() > 0 {
			f.Packs[i].Needs = append(f.Packs[i].Needs, fill.Need{Output: len(f.Stock) - 1, Mass: unit.Mass(take.Int64())})
		}
	}
	return true
}

// thrift is what a lot uses of all resources, each in millionths of what there is of it, rounded down.
func (t *table) thrift(i int) *big.Int {
	sum := new(big.Int)
	for k, u := range t.lot(t.lots[i]).Uses {
		if have := t.p.Resources[k].Have; have > 0 {
			part := new(big.Int).Mul(big.NewInt(u), big.NewInt(1_000_000))
			sum.Add(sum, part.Div(part, big.NewInt(have)))
		}
	}
	return sum
}
