package purchase

import (
	"cmp"
	"slices"

	"kettlefrost/internal/unit"
)

const mostBasketSteps = 13_500_000

// Best is the purchase that covers every need at the least cost: goods, delivery and handling, less what the left-over is worth.
//
// Of purchases that cost the same it prefers the one from fewer suppliers, then the one with less surplus (all masses together),
// then the one with fewer packs; of those that are still equal it returns the one it meets first, for the same basket always the
// same. Errors are *InputError, *UnmetError and *TermsError.
//
// The method is branch and bound over whom to order from and who delivers free; for a set of suppliers without an order value to
// be reached each need is on its own, otherwise order values are priced (Lagrangian relaxation, in whole numbers) and the choices
// that may still be the best are put together need by need.
func Best(b Basket, opt Options) (Purchase, error) {
	if e := checkBasket(b); e != nil {
		return Purchase{}, e
	}
	return best(b, 0, opt)
}

func best(b Basket, excluded uint64, opt Options) (Purchase, error) {
	m := newModel(b, excluded)
	if unmet := m.unmet(); len(unmet) > 0 {
		return Purchase{}, &UnmetError{Unmet: unmet, LeftOut: m.leftOut}
	}
	s := &searcher{model: m, most: cmp.Or(opt.Steps, mostBasketSteps)}
	atLeast, settled := s.run()
	if !s.found() {
		return Purchase{}, &TermsError{AtMost: b.AtMost, Proven: settled, Steps: s.steps}
	}
	return s.purchase(atLeast, settled), nil
}

// begin sets out the search.
func (s *searcher) begin() {
	s.known = map[plainKey]pick{}
	s.ones = s.flat()
	for j := range s.terms {
		if s.usable>>j&1 == 1 {
			s.order = append(s.order, j)
		}
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		x, y := s.terms[a], s.terms[b]
		return cmp.Or(cmp.Compare(y.handling+y.delivery, x.handling+x.delivery), cmp.Compare(y.minOrder, x.minOrder))
	})
}

// purchase turns what was found back into the caller's words.
func (s *searcher) purchase(atLeast int64, settled bool) Purchase {
	p := Purchase{Total: unit.Money(s.best.cost), Over: unit.Mass(s.best.over), Packs: int(s.best.packs), LeftOut: s.leftOut,
		Proof: Proof{Optimal: atLeast >= s.best.cost, Settled: settled, AtLeast: unit.Money(atLeast), Steps: s.steps}}
	orders := make([]Order, len(s.terms))
	for i, w := range s.wants {
		counts, got := make([]int, len(w.packs)), int64(0)
		for k, c := range s.bestCounts[i] {
			counts[k] = int(c)
			e := &w.packs[k]
			got += c * e.mass
			o := &orders[e.supplier]
			o.Goods += unit.Money(e.cost(c))
			o.Mass += unit.Mass(c * e.mass)
			o.Packs += int(c)
		}
		p.Counts = append(p.Counts, counts)
		p.Surplus = append(p.Surplus, unit.Mass(got-w.need))
		p.Split.LeftOver += unit.Money(worth(got-w.need, w.keep, w.perKg))
	}
	for j := range orders {
		if orders[j].Packs > 0 {
			p.add(s.onTerms(j, orders[j]))
		} else if s.usable>>j&1 == 1 {
			p.LeftOut = append(p.LeftOut, LeftOut{Supplier: j, Why: Dearer})
		}
	}
	slices.SortFunc(p.LeftOut, func(a, b LeftOut) int { return cmp.Compare(a.Supplier, b.Supplier) })
	return p
}

func (p *Purchase) add(o Order) {
	p.Orders = append(p.Orders, o)
	p.Split.Goods += o.Goods
	p.Split.Delivery += o.Delivery
	p.Split.Handling += o.Handling
}

// onTerms is an order with the terms of its supplier.
func (s *searcher) onTerms(j int, o Order) Order {
	t := s.basket.Suppliers[j]
	o.Supplier, o.Handling = j, t.Handling
	if t.FreeFrom == 0 || o.Goods < t.FreeFrom {
		o.Delivery = t.Delivery
		if t.Delivery > 0 {
			o.ToFree = max(0, t.FreeFrom-o.Goods)
		}
	}
	if s.basket.Today > 0 {
		o.Arrives = s.basket.Today + t.LeadDays
	}
	return o
}
