package plan

import (
	"cmp"
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

// drawnDish is a dish as it is drawn: what comes out of its pots, and what its packs bear.
type drawnDish struct {
	table   table
	spreads []unit.Share // of each output
	packs   []drawnPack
}

// drawnPack is a pack and what all of its kind bear as planned: what was spent before filling, which more or fewer packs share, and its own.
type drawnPack struct {
	at     int // index into the plan's fills
	parts  []drawnPart
	net    unit.Mass
	count  int
	shared drawnCost
	own    drawnCost
	price  unit.Money
}

type drawnPart struct {
	output int
	mass   unit.Mass
}

// drawnCost is a cost by how it scatters.
type drawnCost struct {
	food   []drawnAmount
	labour unit.Money
	sure   unit.Money
}

type drawnAmount struct {
	ingredient int // index into the run's
	cost       unit.Money
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
	spent                 drawnCost // before filling, all dishes
	names                 []string  // of the ingredients
	yields, times, prices unit.Share
}

func (p *planner) drawing() drawing {
	own := p.book.Kitchen.Spreads
	r := drawing{yields: cmp.Or(own.Yields, usualYields), times: cmp.Or(own.Times, usualTimes), prices: cmp.Or(own.Prices, usualPrices)}
	for _, t := range p.tables {
		d := drawnDish{table: t}
		for _, id := range t.outputs {
			d.spreads = append(d.spreads, cmp.Or(p.output(t.dish, id).Spread, r.yields))
		}
		for _, id := range t.packs {
			d.packs = append(d.packs, p.drawnPack(&r, t, id))
		}
		r.dishes = append(r.dishes, d)
	}
	for _, c := range p.built.Spent {
		if c.Dish != "" {
			r.add(&r.spent, c)
		}
	}
	return r
}

// drawnPack reads what a pack bears out of the cost sheet.
func (p *planner) drawnPack(r *drawing, t table, id kitchen.PackID) drawnPack {
	x := drawnPack{price: p.book.Packs[id].Price}
	for at, f := range p.out.Fill {
		if f.Pack != string(id) {
			continue
		}
		x.at, x.net, x.count = at, f.filled(), f.Count
		for _, e := range f.Each {
			x.parts = append(x.parts, drawnPart{slices.Index(t.outputs, kitchen.OutputID(e.ID)), e.Mass})
		}
	}
	for _, c := range p.built.Packs {
		if c.Name != string(id) {
			continue
		}
		for _, charge := range c.Ledger {
			if charge.Dish == "" {
				r.add(&x.own, charge)
			} else {
				r.add(&x.shared, charge)
			}
		}
	}
	return x
}

// add puts a charge where it scatters.
func (r *drawing) add(to *drawnCost, c costing.Charge) {
	switch costing.KindOf(c) {
	case costing.Food, costing.Credit:
		i := slices.Index(r.names, c.Name)
		if i < 0 {
			i, r.names = len(r.names), append(r.names, c.Name)
		}
		if k := slices.IndexFunc(to.food, func(a drawnAmount) bool { return a.ingredient == i }); k >= 0 {
			to.food[k].cost += c.Cost
		} else {
			to.food = append(to.food, drawnAmount{i, c.Cost})
		}
	case costing.Labour, costing.Cleaning, costing.Overhead:
		to.labour += c.Cost
	default:
		to.sure += c.Cost
	}
}

// at is what a cost comes to with the prices and the time of a draw.
func (c drawnCost) at(prices []scatter.Factor, time scatter.Factor) unit.Money {
	sum := c.sure + time.Money(c.labour)
	for _, a := range c.food {
		sum += prices[a.ingredient].Money(a.cost)
	}
	return sum
}

// draw is one way in which the run may turn out. It tells how many of each pack there are and what each costs, and returns what the run
// earns when all of them are sold, less all that was spent.
func (r drawing) draw(s *scatter.Source, tell func(at, count int, each unit.Money)) unit.Money {
	prices := make([]scatter.Factor, len(r.names))
	for i := range prices {
		prices[i] = s.Factor(r.prices)
	}
	time := s.Factor(r.times)
	earned := -r.spent.at(prices, time)
	for _, d := range r.dishes {
		earned += d.draw(s, prices, time, tell)
	}
	return earned
}

// draw is what the packs of a dish earn, less what is spent on filling them.
func (d drawnDish) draw(s *scatter.Source, prices []scatter.Factor, time scatter.Factor, tell func(at, count int, each unit.Money)) unit.Money {
	yields := make([]scatter.Factor, len(d.spreads))
	stock := make([]unit.Mass, len(d.spreads))
	for o := range yields {
		yields[o] = s.Factor(d.spreads[o])
		stock[o] = yields[o].Mass(d.table.problem.Stock[o])
	}
	earned := unit.Money(0)
	for i, n := range d.table.from(stock) {
		x := d.packs[i]
		if x.count == 0 {
			tell(x.at, n, 0)
			continue
		}
		came := unit.Mass(0) // what there is now for each pack that was planned
		for _, part := range x.parts {
			came += yields[part.output].Mass(part.mass)
		}
		shared := x.shared.at(prices, time).Times(int64(x.net)/int64(unit.Milligram), int64(came)/int64(unit.Milligram))
		own := x.own.at(prices, time)
		tell(x.at, n, (shared+own).Times(1, int64(x.count)))
		earned += x.price*unit.Money(n) - own.Times(int64(n), int64(x.count))
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
