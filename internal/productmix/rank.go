package productmix

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"kettlefrost/internal/unit"
)

// Ranked is a lot in the order of what it earns for each unit of one resource.
type Ranked struct {
	Product, Lot int
	// PerStep is what it earns for each step of the resource, to the nearest millionth, a half up; 0 and without meaning when it UsesNone.
	PerStep  unit.Money
	UsesNone bool
	AtMost   bool // the contribution was an upper bound, and so is this
}

// Rank orders all lots by contribution over use of one resource, compared exactly; of equal ones the first named stands first. What uses
// none of it and earns something stands before all others. With one short resource, making lots in this order is the best there is but for
// what a last part of a lot would earn; with several, see Best.
func Rank(p Problem, resource int) ([]Ranked, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if resource < 0 || resource >= len(p.Resources) || p.Resources[resource].Step == 0 {
		return nil, &InputError{fmt.Sprintf("resource %d", resource), "is not there, or has no step", "name one of the resources, and the step to tell its worth by"}
	}
	r := ranker{p, resource}
	var list []Ranked
	for i, x := range p.Products {
		for j, l := range x.Lots {
			one := Ranked{Product: i, Lot: j, UsesNone: l.Uses[resource] == 0, AtMost: l.AtMost}
			if !one.UsesNone {
				per, ok := perStep(l.Contribution, p.Resources[resource].Step, l.Uses[resource])
				if !ok {
					return nil, &InputError{place(x, l), "what it earns for a step is too large", "check the contribution, the step and the use"}
				}
				one.PerStep = per
			}
			list = append(list, one)
		}
	}
	slices.SortStableFunc(list, r.compare)
	return list, nil
}

// perStep is money x step / use, half up.
func perStep(m unit.Money, step, use int64) (unit.Money, bool) {
	x := big.NewRat(int64(m), use)
	x.Mul(x, new(big.Rat).SetInt64(step))
	x.Add(x, big.NewRat(1, 2))
	whole := new(big.Int).Div(x.Num(), x.Denom())
	return unit.Money(whole.Int64()), whole.IsInt64()
}

type ranker struct {
	p        Problem
	resource int
}

// compare puts more for each unit first, by cross multiplication: nothing is divided.
func (r ranker) compare(a, b Ranked) int {
	la, lb := r.p.Products[a.Product].Lots[a.Lot], r.p.Products[b.Product].Lots[b.Lot]
	if a.UsesNone && b.UsesNone {
		return cmp.Compare(sign(lb.Contribution), sign(la.Contribution))
	}
	left := new(big.Int).Mul(big.NewInt(int64(lb.Contribution)), big.NewInt(r.use(la)))
	return left.Cmp(new(big.Int).Mul(big.NewInt(int64(la.Contribution)), big.NewInt(r.use(lb))))
}

// use is what a lot takes of the resource. One that takes none and earns nothing stands where nothing for a unit does; with a use of 0 the
// cross product puts it before or behind all that do use some, by what it earns.
func (r ranker) use(l Lot) int64 {
	if l.Contribution == 0 {
		return 1
	}
	return l.Uses[r.resource]
}

func sign(m unit.Money) int { return cmp.Compare(m, 0) }

// Load is what the whole demand would take of a resource.
type Load struct {
	Resource   int
	Need, Have int64
	// Short says that no mix of lots serves the whole demand with what there is of this resource.
	Short bool
	// Open says that some product that uses it sells without limit, which Need leaves out.
	Open bool
}

// Loads says for each resource what the whole demand would take at the least: every product in the size of lot that uses the least for
// a pack, and lots in parts, so that Short is certain.
func Loads(p Problem) ([]Load, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	loads := make([]Load, len(p.Resources))
	for k, r := range p.Resources {
		need := new(big.Rat)
		loads[k] = Load{Resource: k, Have: r.Have}
		for _, x := range p.Products {
			least := x.leastUse(k)
			if x.Demand < 0 {
				loads[k].Open = loads[k].Open || least.Sign() > 0
				continue
			}
			need.Add(need, least.Mul(least, new(big.Rat).SetInt64(x.Demand)))
		}
		up := new(big.Int).Add(need.Num(), new(big.Int).Sub(need.Denom(), big.NewInt(1)))
		if up.Div(up, need.Denom()); !up.IsInt64() {
			return nil, &InputError{"resource " + r.Name, "the whole demand takes more of it than can be counted", "count it in a larger unit"}
		}
		loads[k].Need = up.Int64()
		loads[k].Short = loads[k].Need > r.Have
	}
	return loads, nil
}

// leastUse is the least that a pack takes of a resource.
func (x Product) leastUse(resource int) *big.Rat {
	var least *big.Rat
	for _, l := range x.Lots {
		if use := big.NewRat(l.Uses[resource], l.Packs); least == nil || use.Cmp(least) < 0 {
			least = use
		}
	}
	return least
}
