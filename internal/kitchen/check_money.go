package kitchen

import (
	"fmt"
	"slices"

	"kettlefrost/internal/unit"
)

// overhead checks what packs carry beside their own cost: on one base.
func (c *checker) overhead(at spot, o Overhead) {
	at = at.key("overhead")
	c.within(at, "per-hour", o.PerHour.Units(), money)
	c.within(at, "per-kg", o.PerKg.Units(), money)
	c.within(at, "per-pack", o.PerPack.Units(), money)
	c.within(at, "of-prime", inPerCent(o.OfPrime), overPrime)
	given := 0
	for _, is := range []bool{o.PerHour != 0, o.PerKg != 0, o.PerPack != 0, o.OfPrime != 0} {
		if is {
			given++
		}
	}
	if given > 1 {
		c.stop(OverheadTwice, at, "overhead is given on more than one base: some of it would be counted twice", "keep one of per-hour, per-kg, per-pack and of-prime")
	}
}

// terms checks on what terms a supplier delivers.
func (c *checker) terms(at spot, s Supplier) {
	c.within(at, "minimum", s.Minimum.Units(), money)
	c.within(at, "delivery", s.Delivery.Units(), money)
	c.within(at, "free-from", s.FreeFrom.Units(), money)
	c.within(at, "lead-days", float64(s.Lead), leadDays)
}

// offer checks how many packs can be had, and at what price when there are more.
func (c *checker) offer(at spot, o Offer) {
	c.within(at, "at-least", float64(o.AtLeast), number)
	c.within(at, "at-most", float64(o.AtMost), number)
	if o.AtMost > 0 && o.AtLeast > o.AtMost {
		c.stop(RangeBackwards, at.key("at-most"), fmt.Sprintf("at least %d are sold, but at most %d can be had", o.AtLeast, o.AtMost), "correct one of them")
	}
	before := PriceBreak{From: 1, Price: o.Price}
	for i, b := range o.Breaks {
		here := at.item("breaks", i, "")
		c.within(here, "price", b.Price.Units(), money)
		switch {
		case b.From <= before.From:
			c.stop(RangeBackwards, here.key("from"), fmt.Sprintf("this price counts from %d packs on, the one before from %d", b.From, before.From), "write the breaks by rising numbers of packs, from 2 on")
		case b.Price > before.Price:
			c.caution(BreakDearer, here.key("price"), fmt.Sprintf("from %d packs on each costs more, %s in place of %s", b.From, b.Price, before.Price), "check the price: it should be that of one pack")
		}
		before = b
	}
}

// stockLots checks what is on hand by lot.
func (c *checker) stockLots(at spot, g Ingredient) {
	for i, l := range g.Lots {
		here := at.item("lots", i, l.Lot)
		c.weighable(here.key("amount"), g, l.Amount)
		if l.Until != "" {
			c.date(here.key("until"), l.Until)
		}
	}
}

// insteads checks what may take an ingredient's place.
func (c *checker) insteads(at spot, u Use) {
	for i, id := range u.Instead {
		here := spot{path: PathAt(at.key("instead").path, i), where: at.where}
		c.refers(here, "ingredient", string(id), names(c.book.Ingredients))
		own, other := c.book.Ingredients[u.Of], c.book.Ingredients[id]
		switch {
		case u.Of == "" || id == u.Of:
			c.stop(InsteadOfItself, here, fmt.Sprintf("%s cannot take the place of what stands here", orNothing(string(id))), "name another ingredient, on a line that begins with of:")
		case !slices.ContainsFunc(other.Allergens.Names, func(a string) bool { return !slices.Contains(own.Allergens.Names, a) }):
		default:
			c.caution(InsteadAddsAllergen, here, fmt.Sprintf("%s has %v, which %s has not: the label would have to say so", id, other.Allergens.Names, u.Of), "keep it only if the packs get another label on that day")
		}
	}
}

// sold checks what is said of a pack's stock and sale.
func (c *checker) sold(at spot, p Pack) {
	for _, n := range []struct {
		key   string
		count int
	}{{"labels", p.Labels}, {"frozen", p.Frozen}, {"keep", p.Keep}, {"batch", p.Batch}, {"sells", p.Sells}} {
		c.within(at, n.key, float64(n.count), number)
	}
	c.within(at, "waste", inPerCent(p.Waste), notAll)
	if p.Tax != "" {
		c.refers(at.key("tax"), "tax rate", string(p.Tax), names(c.book.TaxRates))
	}
	sauce := at.key("sauce")
	c.within(sauce, "least", p.Sauce.Least, sauceParts)
	c.within(sauce, "most", p.Sauce.Most, sauceParts)
	if p.Sauce.Most > 0 && p.Sauce.Least > p.Sauce.Most {
		c.stop(RangeBackwards, sauce.key("most"), fmt.Sprintf("at most %g parts of sauce is less than at least %g", p.Sauce.Most, p.Sauce.Least), "write parts of sauce to one of solids: the smaller after least:")
	}
	if (p.Sauce != SauceRange{}) && len(p.Fill) < 2 {
		c.stop(SauceWithoutSolids, sauce, "only one thing goes into this pack, so that there is no sauce beside solids", "take sauce: out, or write what else goes in")
	}
}

// leastTares is how many empty bags are weighed at least: what one of them weighs is no mean.
const leastTares = 2

// weighings checks check-weights.
func (c *checker) weighings(at spot, p Pack) {
	for i, w := range p.Checks {
		here := at.item("checks", i, "")
		c.date(here.key("date"), w.Date)
		c.within(here, "lot", float64(w.Lot), number)
		if len(w.Tare) < leastTares {
			c.stop(CountTooSmall, here.key("tare"), fmt.Sprintf("%d empty bags were weighed, but at least %d should be", len(w.Tare), leastTares), "weigh empty bags with their labels and write each")
		}
		if len(w.Gross) == 0 {
			c.stop(CountTooSmall, here.key("gross"), "no filled pack was weighed", "write what each filled pack weighs, in the order of filling")
		}
		heaviest := unit.Mass(0)
		for k, m := range w.Tare {
			heaviest = max(heaviest, m)
			c.limit(spot{path: PathAt(here.key("tare").path, k), where: here.where}, "tare", m.Kg(), packMass)
		}
		for k, m := range w.Gross {
			g := spot{path: PathAt(here.key("gross").path, k), where: here.where}
			c.limit(g, "gross", m.Kg(), packMass)
			if m <= heaviest {
				c.stop(GrossIsTare, g, fmt.Sprintf("a filled pack of %s is no heavier than an empty bag of %s", m, heaviest), "check the figure and its unit")
			}
		}
	}
}
