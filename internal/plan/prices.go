package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/pricing"
	"kettlefrost/internal/unit"
)

// Targets of a price that count until the book has its own: common practice.
const usualFoodShare = 30 * unit.PerCent

// prices works out what each pack leaves, what its price would be for the kitchen's targets, and what moves its cost the most. While a day is
// under way it stays as it was.
func (p *planner) prices() {
	if p.trial {
		return
	}
	if p.was == nil || p.priced == nil {
		p.priced = []PackPrice{}
		r := p.drawing()
		for _, c := range p.out.Cost {
			if c.Total > 0 {
				p.priced = append(p.priced, p.packPrice(r, c))
			}
		}
	}
	p.out.Prices = p.priced
	p.breakEven()
}

func (p *planner) packPrice(r drawing, c PackCost) PackPrice {
	x := PackPrice{Pack: c.Pack, Name: c.Name, Price: c.Price, Variable: c.Total - c.Overhead, FoodTarget: cmp.Or(p.book.Kitchen.FoodTarget, usualFoodShare), MarginTarget: p.book.Kitchen.MarginTarget, AtMost: len(c.Missing) > 0,
		Moves: p.moves(r, c)}
	if c.Price > 0 {
		if f, err := pricing.Of(pricing.Sale{Price: c.Price, Cost: x.Variable, Food: c.Food, AtLeast: x.AtMost}); err == nil {
			x.Contribution, x.Margin, x.MarkUp, x.FoodShare = f.Contribution, f.Margin, f.MarkUp, f.FoodShare
		}
	}
	if q, err := p.endings().ForFoodShare(c.Food, x.FoodTarget); err == nil {
		x.ForFood = q.Price
	}
	if x.MarginTarget > 0 {
		if q, err := p.endings().ForMargin(c.Total, x.MarginTarget); err == nil {
			x.ForMargin = q.Price
		}
	}
	return x
}

// endings is how the kitchen's prices end: at five cents when it does not say.
func (p *planner) endings() pricing.Endings {
	if ends := p.book.Kitchen.PricesEnd; len(ends) > 0 {
		return pricing.Endings{Step: unit.MoneyUnit, At: ends}
	}
	return pricing.Endings{Step: 5 * unit.Cent, At: []unit.Money{0}}
}

// swing is how many standard deviations an input is moved to see what that does.
const swing = 2

// moves are the inputs of a pack's cost, each moved alone by two standard deviations either way, the one that moves it most in front.
func (p *planner) moves(r drawing, c PackCost) []CostMove {
	for _, d := range r.dishes {
		for i, id := range d.table.packs {
			if string(id) == c.Pack && d.packs[i].count > 0 {
				return p.movesOf(r, d, d.packs[i])
			}
		}
	}
	return nil
}

// ppm is what the inputs of a cost are counted in: millionths of what is planned.
const ppm = 1_000_000

func (p *planner) movesOf(r drawing, d drawnDish, x drawnPack) []CostMove {
	var inputs []pricing.Input
	add := func(name string, spread unit.Share) int {
		by := swing * int64(spread) * ppm / int64(unit.Whole)
		inputs = append(inputs, pricing.Input{Name: fmt.Sprintf("%s, %s either way", name, unit.Share(int64(unit.Whole)*by/ppm).Show(p.out.Units)), Low: ppm - by, Base: ppm, High: ppm + by})
		return len(inputs) - 1
	}
	hands := add("hands", r.times)
	food := make([]int, len(x.shared.food))
	for i, a := range x.shared.food {
		food[i] = add("price of "+r.names[a.ingredient], r.prices)
	}
	yields := make([]int, len(x.parts))
	for i, part := range x.parts {
		yields[i] = add("yield of "+p.outLine(d.table.dish, d.table.outputs[part.output], 0).Name, d.spreads[part.output])
	}
	each := func(m unit.Money) unit.Money { return m.Times(1, int64(x.count)) }
	tornado, err := pricing.Sensitivity(inputs, func(v []int64) (unit.Money, error) {
		shared := x.shared.sure + x.shared.labour.Times(v[hands], ppm)
		for i, a := range x.shared.food {
			shared += a.cost.Times(v[food[i]], ppm)
		}
		came := int64(0)
		for i, part := range x.parts {
			came += int64(part.mass) / int64(unit.Milligram) * v[yields[i]] / ppm
		}
		own := x.own.sure + x.own.labour.Times(v[hands], ppm)
		for _, a := range x.own.food {
			own += a.cost
		}
		return each(shared.Times(int64(x.net)/int64(unit.Milligram), max(1, came)) + own), nil
	})
	if err != nil {
		return nil
	}
	var moves []CostMove
	for _, b := range tornado.Bars {
		if b.Width > 0 {
			moves = append(moves, CostMove{Input: b.Name, Low: b.AtLow, High: b.AtHigh, Base: tornado.Base, Share: b.Share})
		}
	}
	return moves
}

// breakEven is how much must be sold in a week, in the proportions of this run, to pay what a week costs anyway.
func (p *planner) breakEven() {
	fixed := p.book.Kitchen.FixedCosts
	if fixed == 0 {
		return
	}
	var products []pricing.Selling
	even := BreakEven{Fixed: fixed, Packs: []PackCount{}}
	for _, x := range p.out.Prices {
		i := slices.IndexFunc(p.out.Fill, func(f PackFill) bool { return f.Pack == x.Pack })
		if x.Price <= 0 || i < 0 || p.out.Fill[i].Count == 0 {
			continue
		}
		products = append(products, pricing.Selling{Name: x.Name, Price: x.Price, Variable: x.Variable, Parts: int64(p.out.Fill[i].Count)})
		even.Packs = append(even.Packs, PackCount{Pack: x.Pack, Name: x.Name})
	}
	if len(products) == 0 {
		return
	}
	divide(products)
	point, err := pricing.ToEarn(fixed, 0, products)
	if err != nil {
		even.Why = err.Error()
	} else {
		even.Sales = point.Sales
		for i, n := range point.Packs {
			even.Packs[i].Count = int(n)
		}
	}
	p.out.BreakEven = &even
}

// divide makes the parts as small as they can be.
func divide(products []pricing.Selling) {
	common := int64(0)
	for _, x := range products {
		a, b := common, x.Parts
		for b != 0 {
			a, b = b, a%b
		}
		common = a
	}
	for i := range products {
		products[i].Parts /= max(1, common)
	}
}
