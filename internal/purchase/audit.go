package purchase

import (
	"fmt"
	"math/big"

	"kettlefrost/internal/unit"
)

// CheckError says where a purchase is not what it says it is, or breaks the terms of its basket.
type CheckError struct{ Where, Reason string }

func (e *CheckError) Error() string { return "purchase: " + e.Where + ": " + e.Reason }

// CheckBasket adds up a purchase with none of the search's code and in numbers of any size: every need covered, every count within
// what is sold, every order on its supplier's terms and in time, and every sum as it is stated. It does not say that the purchase
// is the best. Errors are *CheckError.
func CheckBasket(b Basket, p Purchase) error {
	if len(p.Counts) != len(b.Needs) || len(p.Surplus) != len(b.Needs) {
		return &CheckError{"basket", "the purchase is for another basket"}
	}
	orders := map[int]*tally{}
	all := newTally()
	leftOver := new(big.Int)
	for i, n := range b.Needs {
		surplus, err := checkCover(n, p.Counts[i], len(b.Suppliers), fmt.Sprintf("need %d (%s)", i+1, n.Name), orders, all)
		if err != nil {
			return err
		}
		if !equal(surplus, int64(p.Surplus[i])) {
			return &CheckError{n.Name, fmt.Sprintf("the surplus is %s ng, not %d", surplus, p.Surplus[i])}
		}
		kept := new(big.Int).Set(surplus)
		if limit := big.NewInt(int64(n.Keep.UpTo)); kept.Cmp(limit) > 0 {
			kept = limit
		}
		kept.Mul(kept, big.NewInt(int64(n.Keep.PerKg)))
		leftOver.Add(leftOver, kept.Div(kept, big.NewInt(int64(unit.Kilogram))))
	}
	if err := checkOrders(b, p, orders); err != nil {
		return err
	}
	return checkSums(p, all, leftOver)
}

// tally adds up packs.
type tally struct{ goods, mass, over, packs *big.Int }

func newTally() *tally { return &tally{new(big.Int), new(big.Int), new(big.Int), new(big.Int)} }

func equal(a *big.Int, b int64) bool { return a.IsInt64() && a.Int64() == b }

// checkCover adds the packs for one need to their orders and returns the surplus.
func checkCover(n Need, counts []int, suppliers int, place string, orders map[int]*tally, all *tally) (*big.Int, error) {
	if len(counts) != len(n.Offers) {
		return nil, &CheckError{place, "the counts are for other offers"}
	}
	surplus := big.NewInt(-int64(n.Mass))
	for k, c := range counts {
		o := n.Offers[k]
		if c < 0 || c > 0 && c < o.Min || o.Max >= 0 && c > o.Max {
			return nil, &CheckError{place, fmt.Sprintf("%d packs of offer %d (%s) are not sold", c, k+1, o.Name)}
		}
		if c == 0 {
			continue
		}
		if o.Supplier < 0 || o.Supplier >= suppliers {
			return nil, &CheckError{place, fmt.Sprintf("offer %d (%s) is of no supplier", k+1, o.Name)}
		}
		price := o.Price
		for _, t := range o.Breaks {
			if c >= t.From {
				price = t.Price
			}
		}
		if orders[o.Supplier] == nil {
			orders[o.Supplier] = newTally()
		}
		count := big.NewInt(int64(c))
		mass := new(big.Int).Mul(count, big.NewInt(int64(o.Pack)))
		for _, t := range []*tally{orders[o.Supplier], all} {
			t.goods.Add(t.goods, new(big.Int).Mul(count, big.NewInt(int64(price))))
			t.mass.Add(t.mass, mass)
			t.packs.Add(t.packs, count)
		}
		surplus.Add(surplus, mass)
	}
	if surplus.Sign() < 0 {
		return nil, &CheckError{place, fmt.Sprintf("it is short by %s ng", new(big.Int).Neg(surplus))}
	}
	all.over.Add(all.over, surplus)
	return surplus, nil
}

// checkOrders holds each order to its packs and to its supplier's terms.
func checkOrders(b Basket, p Purchase, orders map[int]*tally) error {
	if len(orders) != len(p.Orders) {
		return &CheckError{"orders", fmt.Sprintf("packs of %d suppliers are bought in %d orders", len(orders), len(p.Orders))}
	}
	if b.AtMost > 0 && len(orders) > b.AtMost {
		return &CheckError{"orders", fmt.Sprintf("%d suppliers, and at most %d are wanted", len(orders), b.AtMost)}
	}
	for _, o := range p.Orders {
		t := orders[o.Supplier]
		if t == nil {
			return &CheckError{"orders", fmt.Sprintf("nothing is bought from supplier %d, or it has two orders", o.Supplier+1)}
		}
		delete(orders, o.Supplier)
		if err := checkOrder(b, o, t); err != nil {
			return err
		}
	}
	return nil
}

func checkOrder(b Basket, o Order, t *tally) error {
	s := b.Suppliers[o.Supplier]
	delivery, toFree := s.Delivery, max(0, s.FreeFrom-o.Goods)
	if s.FreeFrom > 0 && o.Goods >= s.FreeFrom {
		delivery = 0
	}
	if s.Delivery == 0 {
		toFree = 0
	}
	reason := ""
	switch {
	case !equal(t.goods, int64(o.Goods)) || !equal(t.mass, int64(o.Mass)) || !equal(t.packs, int64(o.Packs)):
		reason = fmt.Sprintf("its packs are %s, %s ng, worth %s millionths", t.packs, t.mass, t.goods)
	case o.Goods < s.MinOrder:
		reason = fmt.Sprintf("the order value %s is below the lowest, %s", o.Goods, s.MinOrder)
	case o.Delivery != delivery || o.Handling != s.Handling || o.ToFree != toFree:
		reason = fmt.Sprintf("delivery is %s, handling %s, %s is missing to free delivery", delivery, s.Handling, toFree)
	case b.NeededBy > 0 && b.Today+s.LeadDays > b.NeededBy:
		reason = "it comes too late"
	case s.LastOrder > 0 && b.Today > s.LastOrder:
		reason = "no orders are taken any more"
	}
	if reason != "" {
		return &CheckError{"order from " + s.Name, reason}
	}
	return nil
}

// checkSums holds the totals to their parts.
func checkSums(p Purchase, all *tally, leftOver *big.Int) error {
	var delivery, handling unit.Money
	for _, o := range p.Orders {
		delivery += o.Delivery
		handling += o.Handling
	}
	total := p.Split.Total()
	switch {
	case !equal(all.goods, int64(p.Split.Goods)) || p.Split.Delivery != delivery || p.Split.Handling != handling || !equal(leftOver, int64(p.Split.LeftOver)):
		return &CheckError{"split", fmt.Sprintf("goods %s, delivery %d, handling %d, left over %s in millionths", all.goods, delivery, handling, leftOver)}
	case p.Total != total:
		return &CheckError{"total", fmt.Sprintf("the split comes to %s", total)}
	case !equal(all.over, int64(p.Over)) || !equal(all.packs, int64(p.Packs)):
		return &CheckError{"total", fmt.Sprintf("%s packs with a surplus of %s ng", all.packs, all.over)}
	case p.Proof.AtLeast > p.Total || p.Proof.Optimal != (p.Proof.AtLeast == p.Total) || p.Proof.Settled && !p.Proof.Optimal:
		return &CheckError{"proof", "it contradicts itself"}
	}
	return nil
}
