package plan

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/purchase"
	"kettlefrost/internal/unit"
)

// shopper buys everything of a run together: whole packs, from whom it costs least with orders and deliveries.
type shopper struct {
	p         *planner
	lines     []int // of the list, by need
	suppliers []kitchen.SupplierID
	basket    purchase.Basket
}

// shop chooses packs for all lines that have something to buy.
func (p *planner) shop() {
	s := shopper{p: p}
	s.days()
	for i := range p.out.Buy.Lines {
		if l := &p.out.Buy.Lines[i]; l.ToBuy > 0 && l.Missing == "" {
			s.need(i, l)
		}
	}
	if len(s.basket.Needs) == 0 {
		return
	}
	best, err := purchase.Best(s.basket, purchase.Options{Steps: basketSteps})
	var unmet *purchase.UnmetError
	if errors.As(err, &unmet) {
		for _, u := range unmet.Unmet {
			l := &p.out.Buy.Lines[s.lines[u.Need]]
			l.Missing, l.Late = u.Err().Error(), s.soonest(u.Without)
			if l.Late != nil {
				l.Missing = s.lateWords(u, *l.Late)
			}
			s.basket.Needs[u.Need].Mass = 0
		}
		best, err = purchase.Best(s.basket, purchase.Options{Steps: basketSteps})
	}
	s.tellLate()
	if err != nil {
		for _, i := range s.lines {
			p.out.Buy.Lines[i].Missing = err.Error()
		}
		return
	}
	s.tell(best)
	if !p.trial {
		s.alternatives(best)
	}
}

// basketSteps bounds the search for the whole basket: a fraction of a second.
const basketSteps = 3_000_000

// laterRuns is how many times what a run buys is worth keeping for later ones, as a small run needs little of a large pack; what is
// beyond that is worth nothing, however cheap it is in large numbers.
const laterRuns = 20

func (s *shopper) need(i int, l *BuyLine) {
	id := kitchen.IngredientID(l.ID)
	ing := s.p.book.Ingredients[id]
	n := purchase.Need{Name: l.Name, Mass: l.ToBuy}
	least := unit.Money(0) // the lowest price of a kilogram: what is left over is never worth more than it costs
	for _, o := range ing.Buy {
		kg, err := s.p.weigh(id, o.Pack)
		if err != nil {
			l.Missing = err.Error()
			return
		}
		if o.Price == 0 {
			continue // a price that was forgotten; the book's check says so
		}
		x := purchase.Listing{Name: s.p.offerName(o), Supplier: s.supplier(o.Supplier), Pack: mass(kg), Price: o.Price, Min: o.AtLeast, Max: -1}
		if o.AtMost > 0 {
			x.Max = o.AtMost
		}
		lowest := o.Price
		for _, b := range o.Breaks {
			x.Breaks = append(x.Breaks, purchase.Break{From: b.From, Price: b.Price})
			lowest = b.Price
		}
		if per := unit.PriceOf(lowest, x.Pack, unit.Kilogram); least == 0 || per < least {
			least = per
		}
		n.Offers = append(n.Offers, x)
	}
	if ing.Keeps > 0 {
		n.Keep = purchase.Keep{PerKg: least.Times(int64(ing.Keeps), int64(unit.Whole)), UpTo: laterRuns * l.ToBuy}
	}
	s.lines, s.basket.Needs = append(s.lines, i), append(s.basket.Needs, n)
}

// supplier is the place of a supplier in the basket.
func (s *shopper) supplier(id kitchen.SupplierID) int {
	if at := slices.Index(s.suppliers, id); at >= 0 {
		return at
	}
	x := s.p.book.Suppliers[id]
	s.suppliers = append(s.suppliers, id)
	s.basket.Suppliers = append(s.basket.Suppliers, purchase.Supplier{Name: x.Name, MinOrder: x.Minimum, Delivery: x.Delivery, FreeFrom: x.FreeFrom, LeadDays: x.Lead})
	return len(s.suppliers) - 1
}

// tell puts what is bought into the list and the orders.
func (s *shopper) tell(b purchase.Purchase) {
	p := s.p
	for k, counts := range b.Counts {
		l := &p.out.Buy.Lines[s.lines[k]]
		for o, n := range counts {
			if n == 0 {
				continue
			}
			x := s.basket.Needs[k].Offers[o]
			price := x.Price
			for _, tier := range x.Breaks {
				if n >= tier.From {
					price = tier.Price
				}
			}
			l.Packs = append(l.Packs, BuyPack{Supplier: s.basket.Suppliers[x.Supplier].Name, SupplierID: string(s.suppliers[x.Supplier]), Name: x.Name, Count: n, Price: price})
			l.Total += price * unit.Money(n)
		}
		l.Over = b.Surplus[k]
		l.OverWorth = s.basket.Needs[k].Keep.Worth(l.Over)
	}
	for _, o := range b.Orders {
		p.out.Buy.Orders = append(p.out.Buy.Orders, s.order(o))
	}
	slices.SortFunc(p.out.Buy.Orders, func(a, b BuyOrder) int { return cmp.Compare(a.Supplier, b.Supplier) })
	p.out.Buy.Goods, p.out.Buy.Delivery, p.out.Buy.Total = b.Split.Goods, b.Split.Delivery, b.Split.Goods+b.Split.Delivery
	p.out.Buy.LeftOver = b.Split.LeftOver
	p.out.Buy.Proof = "optimal"
	if !b.Proof.Optimal {
		p.out.Buy.Proof = "within " + b.Gap().Show(p.out.Currency) + " of the best"
	}
}

func (s *shopper) order(o purchase.Order) BuyOrder {
	id := s.suppliers[o.Supplier]
	x := s.p.book.Suppliers[id]
	order := BuyOrder{Supplier: string(id), Name: s.basket.Suppliers[o.Supplier].Name, Note: x.Note, Goods: o.Goods, Delivery: o.Delivery, Minimum: x.Minimum, ToFree: o.ToFree}
	if order.ToFree > o.Goods/4 { // so far off nobody fills up for it
		order.ToFree = 0
	}
	if s.p.req.Day != "" && id != "" {
		order.OrderBy = kitchen.DaysBefore(s.p.req.Day, x.Lead)
	}
	return order
}

// alternatives are the best lists without one supplier, and with fewer; and what meeting the least orders costs.
func (s *shopper) alternatives(best purchase.Purchase) {
	p := s.p
	p.out.Buy.Alternatives = []BuyAlternative{}
	others, err := purchase.Alternatives(s.basket, best, purchase.Options{Steps: basketSteps / 10})
	if err == nil {
		for _, a := range others {
			if a.Err == nil {
				p.out.Buy.Alternatives = append(p.out.Buy.Alternatives, BuyAlternative{Is: s.alternativeName(a), Total: a.Purchase.Split.Goods + a.Purchase.Split.Delivery, Extra: a.Extra, Suppliers: len(a.Purchase.Orders)})
			}
		}
	}
	free := s.basket
	free.Suppliers = slices.Clone(free.Suppliers)
	for i := range free.Suppliers {
		free.Suppliers[i].MinOrder = 0
	}
	if b, err := purchase.Best(free, purchase.Options{Steps: basketSteps / 10}); err == nil {
		if extra := best.Total - b.Total; extra > 0 {
			p.findFilledUp(extra)
		}
	}
}

func (s *shopper) alternativeName(a purchase.Alternative) string {
	if a.Without >= 0 {
		return "without " + s.basket.Suppliers[a.Without].Name
	}
	if a.AtMost == 1 {
		return "from one supplier"
	}
	return fmt.Sprintf("from %d suppliers at most", a.AtMost)
}

// findFilledUp says that more is bought, or dearer, because suppliers take no smaller orders.
func (p *planner) findFilledUp(extra unit.Money) {
	p.find(finding.Finding{Code: CodeUnderMinimum, Severity: finding.Caution, Where: "the shopping list", Message: fmt.Sprintf("%s more is spent than the run needs, so that orders come up to what suppliers take at least", extra.Show(p.out.Currency)),
		Figures: []finding.Figure{{Name: "more", Value: extra.Units(), Unit: p.out.Currency, Text: extra.Show(p.out.Currency)}}, Fix: "order what another run needs with it, and say what keeps (keeps)"})
}
