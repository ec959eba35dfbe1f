package plan

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/fill"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/scatter"
	"kettlefrost/internal/unit"
)

// draws is how many times a run is drawn to see how it may turn out: a tenth lies within a fifth of its rank then.
const draws = 2_000

// Spreads that count until a kitchen has measured its own: common practice.
const (
	usualYields = 3 * unit.PerCent
	usualTimes  = 10 * unit.PerCent
	usualPrices = 5 * unit.PerCent
)

// drawnDish is a dish as it is drawn: what comes out of its pots, and what it costs whatever comes out.
type drawnDish struct {
	table   table
	spreads []unit.Share  // of each output
	food    []drawnAmount // of each ingredient: what the whole dish costs
	labour  unit.Money    // before filling
	energy  unit.Money
	packs   []drawnPack
}

type drawnAmount struct {
	ingredient int // index into the run's
	cost       unit.Money
}

type drawnPack struct {
	at      int // index into the plan's fills
	parts   []drawnPart
	net     unit.Mass
	filling unit.Money // labour
	sure    unit.Money // packaging
	price   unit.Money
}

// drawnPart is what a pack has of one output, and what that costs when as much comes out of the pot as planned.
type drawnPart struct {
	output int
	food   []drawnAmount
}

// ranges draws the run again and again, with other yields, times and prices, and tells between what limits packs and cost come out.
func (p *planner) ranges() {
	if p.trial || len(p.out.Fill) == 0 {
		return
	}
	if p.was == nil || p.outlook == nil { // what was drawn before the day still counts while it is under way
		drawn := p.rangesOf(draws)
		p.outlook = &drawn
	}
	p.out.Ranges = p.outlook
	for at := range p.out.Fill {
		f := &p.out.Fill[at] // with less in the pot a smaller pack may be made more often than planned
		f.Low, f.High = min(f.Count, p.outlook.Packs[at].Low), max(f.Count, p.outlook.Packs[at].High)
	}
}

// rangesOf draws so many times.
func (p *planner) rangesOf(draws int) Ranges {
	r := p.drawing()
	counts, costs := make([][]int64, len(p.out.Fill)), make([][]int64, len(p.out.Fill))
	var earned []int64
	for i := range uint64(draws) {
		s := scatter.New(seed, i)
		earned = append(earned, int64(r.draw(s, func(at, count int, each unit.Money) {
			counts[at] = append(counts[at], int64(count))
			if count > 0 {
				costs[at] = append(costs[at], int64(each))
			}
		})))
	}
	out := Ranges{Draws: draws, Seed: seed, Yields: r.yields, Times: r.times, Prices: r.prices, Packs: []PackRange{}, Earned: moneyRange(scatter.RangeOf(earned))}
	for at, f := range p.out.Fill {
		n := scatter.RangeOf(counts[at])
		out.Packs = append(out.Packs, PackRange{Pack: f.Pack, Low: int(n.Low), Middle: int(n.Middle), High: int(n.High), Cost: moneyRange(scatter.RangeOf(costs[at]))})
	}
	return out
}

func moneyRange(r scatter.Range) MoneyRange {
	return MoneyRange{Low: unit.Money(r.Low), Middle: unit.Money(r.Middle), High: unit.Money(r.High)}
}

// drawing is a run ready to be drawn.
type drawing struct {
	dishes                []drawnDish
	ingredients           int
	yields, times, prices unit.Share
}

func (p *planner) drawing() drawing {
	own := p.book.Kitchen.Spreads
	r := drawing{yields: cmp.Or(own.Yields, usualYields), times: cmp.Or(own.Times, usualTimes), prices: cmp.Or(own.Prices, usualPrices)}
	index := map[kitchen.IngredientID]int{}
	for _, t := range p.tables {
		d := drawnDish{table: t}
		for _, id := range t.outputs {
			d.spreads = append(d.spreads, cmp.Or(p.output(t.dish, id).Spread, r.yields))
		}
		bought := map[kitchen.IngredientID]float64{}
		for i, kg := range t.dish.flow.Bought {
			bought[t.dish.ingredients[i]] += kg
		}
		d.food = p.foodCost(bought, index)
		for _, id := range t.packs {
			for at, f := range p.out.Fill {
				if f.Pack == string(id) {
					d.packs = append(d.packs, p.drawnPack(&d, at, f, index))
				}
			}
		}
		r.dishes = append(r.dishes, d)
	}
	r.ingredients = len(index)
	return r
}

// drawnPack adds a pack's part of the dish's labour and energy to the dish, and is what of it scatters.
func (p *planner) drawnPack(d *drawnDish, at int, f PackFill, index map[kitchen.IngredientID]int) drawnPack {
	pack := p.book.Packs[kitchen.PackID(f.Pack)]
	x := drawnPack{at: at, net: f.Net, price: pack.Price, sure: p.book.Bags[pack.Bag].Price + pack.Label}
	wage := p.meanWage()
	x.filling, _ = costing.WorkCost(wage, pack.Pace)
	cooking, _ := costing.WorkCost(wage, p.cookingTime(f))
	d.labour += cooking
	for fuel, joules := range p.dishEnergyJ(d.table.dish) {
		d.energy += p.tariff(fuel).Of(joules * p.shareOfDish(f))
	}
	for _, e := range f.Each {
		for o, id := range d.table.outputs {
			if string(id) == e.ID {
				ref := d.table.dish.outputs[id]
				c := contentsOf(d.table.dish, d.table.dish.flow.Steps[ref.Step].Out[ref.Output], e.Mass.Kg())
				x.parts = append(x.parts, drawnPart{output: o, food: p.foodCost(c.putIn, index)})
			}
		}
	}
	return x
}

// foodCost is what edible portions cost, of each ingredient whose price is known.
func (p *planner) foodCost(kg map[kitchen.IngredientID]float64, index map[kitchen.IngredientID]int) []drawnAmount {
	var list []drawnAmount
	for _, id := range slices.Sorted(maps.Keys(kg)) {
		price := p.priceOf(id)
		if !price.Known() || kg[id] <= 0 {
			continue
		}
		cost, err := costing.AtYield(unit.Whole-p.book.Ingredients[id].Trim).EPCost(price, mass(kg[id]))
		if err != nil {
			continue
		}
		i, known := index[id]
		if !known {
			i = len(index)
			index[id] = i
		}
		list = append(list, drawnAmount{i, cost})
	}
	return list
}

// draw is one way in which the run may turn out. It tells how many of each pack there are and what each costs, and returns what the run
// earns when all of them are sold, less all that was put in.
func (r drawing) draw(s *scatter.Source, tell func(at, count int, each unit.Money)) unit.Money {
	prices := make([]scatter.Factor, r.ingredients)
	for i := range prices {
		prices[i] = s.Factor(r.prices)
	}
	earned := unit.Money(0)
	for _, d := range r.dishes {
		earned += d.draw(s, prices, s.Factor(r.times), tell)
	}
	return earned
}

func (d drawnDish) draw(s *scatter.Source, prices []scatter.Factor, time scatter.Factor, tell func(at, count int, each unit.Money)) unit.Money {
	yields := make([]scatter.Factor, len(d.spreads))
	stock := make([]unit.Mass, len(d.spreads))
	for o := range yields {
		yields[o] = s.Factor(d.spreads[o])
		stock[o] = yields[o].Mass(d.table.problem.Stock[o])
	}
	counts := d.table.from(stock)
	filled := unit.Mass(0)
	for i, x := range d.packs {
		filled += x.net * unit.Mass(counts[i])
	}
	earned := -time.Money(d.labour) - d.energy
	for _, a := range d.food {
		earned -= prices[a.ingredient].Money(a.cost)
	}
	shared := time.Money(d.labour) + d.energy
	for i, x := range d.packs {
		own := x.sure + time.Money(x.filling)
		earned += (x.price - own) * unit.Money(counts[i])
		each := own
		if filled > 0 {
			each += shared.Times(int64(x.net), int64(filled))
		}
		for _, part := range x.parts {
			for _, a := range part.food {
				each += yields[part.output].Less(prices[a.ingredient].Money(a.cost))
			}
		}
		tell(x.at, counts[i], each)
	}
	return earned
}

// from is how many of each pack so much stock gives: what is wanted first, then what more can be made of the rest.
func (t table) from(stock []unit.Mass) []int {
	q := t.problem
	q.Stock = stock
	first, err := fill.Solve(q)
	if err != nil {
		return make([]int, len(t.packs))
	}
	counts := t.counts(first)
	if t.dish.counts == nil {
		return counts
	}
	q.Stock, q.Packs = first.Left, append([]fill.Pack(nil), q.Packs...)
	for i := range q.Packs {
		q.Packs[i].Max, q.Packs[i].Min = -1, 0
	}
	if more, err := fill.Solve(q); err == nil {
		for i, n := range more.Count {
			counts[i] += n
		}
	}
	return counts
}

// Drawn is how the run may turn out by so many draws.
func (r Run) Drawn(draws int) Ranges {
	p := *r.planner
	p.out = r.plan
	return p.rangesOf(draws)
}
