package plan

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// cost works out what each pack costs: ingredients by what was put in for it, packaging, and the hands-on time of the timetable. What
// is left over in the pot carries its own share. Cleaning, overhead and the packs that are never sold come on top.
func (p *planner) cost() {
	for _, f := range p.out.Fill {
		show, err := p.packCost(f)
		if err != nil {
			p.find(finding.Finding{Code: CodePriceMissing, Severity: finding.Caution, Where: "pack " + f.Pack, Message: "its cost cannot be computed: " + err.Error(), Fix: "check prices, trim and masses"})
		}
		p.out.Cost = append(p.out.Cost, show)
		p.judgeCost(show)
	}
}

func (p *planner) packCost(f PackFill) (PackCost, error) {
	pack := p.book.Packs[kitchen.PackID(f.Pack)]
	show := PackCost{Pack: f.Pack, Name: f.Name, Price: pack.Price, Ingredients: []CostLine{}}
	if f.Count == 0 {
		return show, nil
	}
	d := p.dishOf(f.Dish)
	c := p.contents(d, f)
	batch := costing.Batch{Packs: f.Count}
	ids := slices.Sorted(maps.Keys(c.putIn))
	for _, id := range ids {
		ing := p.book.Ingredients[id]
		batch.Components = append(batch.Components, costing.Component{Name: ing.Name, Mass: mass(c.putIn[id] * float64(f.Count)), Yield: costing.AtYield(unit.Whole - ing.Trim), Price: p.priceOf(id)})
	}
	bag := p.book.Bags[pack.Bag]
	batch.Packaging = []costing.Item{{Name: bag.Name, Count: f.Count, Each: bag.Price}, {Name: "label", Count: f.Count, Each: pack.Label}}
	wage := p.meanWage() // 0 is not known, and then the cost is a lower bound
	batch.Labour = []costing.Work{{Name: "cooking and chilling", Time: p.cookingTime(f), Rate: wage}, {Name: "filling", Time: pack.Pace * unit.Span(f.Count), Rate: wage}}
	joules := p.dishEnergyJ(d)
	for _, fuel := range slices.Sorted(maps.Keys(joules)) {
		batch.Energy = append(batch.Energy, costing.Heat{Name: cmp.Or(string(fuel), "the burners' energy"), EnergyJ: joules[fuel] * p.shareOfDish(f), Price: p.tariff(fuel)})
	}
	sheet, err := costing.Cost(batch)
	if err != nil {
		return show, err
	}
	return p.tellCost(show, f, sheet, c, ids)
}

func (p *planner) tellCost(show PackCost, f PackFill, sheet costing.Sheet, c contents, ids []kitchen.IngredientID) (PackCost, error) {
	each := func(total unit.Money) unit.Money { return total.Times(1, int64(f.Count)) }
	for i, id := range ids {
		show.Ingredients = append(show.Ingredients, CostLine{Name: p.book.Ingredients[id].Name, Mass: mass(c.putIn[id]), Cost: each(sheet.Lines[i].Cost)})
	}
	slices.SortStableFunc(show.Ingredients, func(a, b CostLine) int { return cmp.Compare(b.Cost, a.Cost) })
	show.Packaging, show.Labour, show.Energy = each(sheet.Packing), each(sheet.Labour), each(sheet.Energy)
	show.Food = sheet.PerPack - show.Packaging - show.Labour - show.Energy // so that the parts add up
	show.Cleaning, show.Overhead, show.OverheadBase = each(p.cleaningOf(f)), p.overhead(f, sheet.PerPack), p.overheadBase()
	show.Waste = p.waste(f, sheet.PerPack+show.Cleaning+show.Overhead)
	show.Total = sheet.PerPack + show.Cleaning + show.Overhead + show.Waste
	for _, m := range sheet.Missing {
		show.Missing = append(show.Missing, m.Name)
	}
	if show.Price > 0 {
		share, err := costing.Ratio(show.Food, show.Price)
		if err != nil {
			return show, err
		}
		show.FoodShare = share
	}
	return show, nil
}

// cleaningOf is a pack kind's part, by mass of all that is packed, of the materials for washing between dishes.
func (p *planner) cleaningOf(f PackFill) unit.Money {
	washes, all := int64(0), unit.Mass(0)
	for _, t := range p.day.tasks {
		if t.kind == Washing {
			washes++
		}
	}
	for _, other := range p.out.Fill {
		all += other.Net * unit.Mass(other.Count)
	}
	if all == 0 {
		return 0
	}
	return (p.book.Kitchen.Cleaning * unit.Money(washes)).Times(int64(f.Net)*int64(f.Count)/gramsOnly, int64(all)/gramsOnly)
}

// gramsOnly keeps products of masses small enough to multiply.
const gramsOnly = int64(unit.Gram)

// overhead is what one pack carries of it, on the kitchen's base; prime is what it costs without.
func (p *planner) overhead(f PackFill, prime unit.Money) unit.Money {
	switch o := p.book.Kitchen.Overhead; {
	case o.PerHour > 0:
		hands := p.cookingTime(f) + p.book.Packs[kitchen.PackID(f.Pack)].Pace*unit.Span(f.Count)
		return o.PerHour.Times(int64(hands), int64(unit.Hour)*int64(f.Count))
	case o.PerKg > 0:
		return o.PerKg.Times(int64(f.Net), int64(unit.Kilogram))
	case o.PerPack > 0:
		return o.PerPack
	default:
		return prime.Times(int64(o.OfPrime), int64(unit.Whole))
	}
}

// overheadBase says what overhead is spread over; empty when there is none.
func (p *planner) overheadBase() string {
	o := p.book.Kitchen.Overhead
	money := func(m unit.Money) string { return m.Show(p.out.Currency) }
	switch {
	case o.PerHour > 0:
		return money(o.PerHour) + " for each hour of hands on"
	case o.PerKg > 0:
		return money(o.PerKg) + " for each kilogram packed"
	case o.PerPack > 0:
		return money(o.PerPack) + " for each pack"
	case o.OfPrime > 0:
		return o.OfPrime.Show(p.out.Units) + " of what the pack costs before it"
	}
	return ""
}

// waste is what a pack that is sold must bear of those that never are.
func (p *planner) waste(f PackFill, cost unit.Money) unit.Money {
	w := p.book.Packs[kitchen.PackID(f.Pack)].Waste
	return cost.Times(int64(w), int64(unit.Whole-w))
}

// cookingTime is a pack kind's part, by mass, of its dish's hands-on time before filling. Washing and appointments are nobody's.
func (p *planner) cookingTime(f PackFill) unit.Span {
	hands := 0
	for _, t := range p.day.tasks {
		if t.dish != nil && string(t.dish.id) == f.Dish && t.kind != Filling {
			for _, h := range t.hands {
				hands += (h.to - h.from) * h.people
			}
		}
	}
	return unit.Span(math.Round(float64(hands) * 60 * p.shareOfDish(f)))
}

// shareOfDish is a pack kind's part, by mass, of all that is packed of its dish.
func (p *planner) shareOfDish(f PackFill) float64 {
	var all, mine unit.Mass
	for _, other := range p.out.Fill {
		if other.Dish == f.Dish {
			all += other.Net * unit.Mass(other.Count)
		}
		if other.Pack == f.Pack {
			mine = other.Net * unit.Mass(other.Count)
		}
	}
	if all == 0 {
		return 0
	}
	return float64(mine) / float64(all)
}

// meanWage is the crew's, each counted once.
func (p *planner) meanWage() unit.Wage {
	if len(p.book.People) == 0 {
		return 0
	}
	sum := unit.Wage(0)
	for _, who := range p.book.People {
		sum += who.Wage
	}
	return sum / unit.Wage(len(p.book.People))
}

func (p *planner) judgeCost(c PackCost) {
	if len(c.Missing) > 0 {
		p.find(finding.Finding{Code: CodePriceMissing, Severity: finding.Caution, Where: "pack " + c.Pack, Message: fmt.Sprintf("the price of %v is not known: its cost is at least %s", c.Missing, c.Total.Show(p.out.Currency)),
			Fix: "give the ingredient an offer with a price, or say that it is free"})
	}
	if c.Price > 0 && c.Total > c.Price {
		p.find(finding.Finding{Code: CodeSoldBelowCost, Severity: finding.Caution, Where: "pack " + c.Pack, Message: fmt.Sprintf("it costs %s and sells for %s", c.Total.Show(p.out.Currency), c.Price.Show(p.out.Currency)),
			Figures: []finding.Figure{{Name: "cost", Value: c.Total.Units(), Unit: p.out.Currency, Text: c.Total.Show(p.out.Currency)}, {Name: "price", Value: c.Price.Units(), Unit: p.out.Currency, Text: c.Price.Show(p.out.Currency)}},
			Fix:     "raise the price, or look at its dearest ingredients and the time it takes"})
	}
}
