package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// cost works out what each pack costs, by carrying every charge of the run from step to step down to the packs. Where several things come of
// a pot they share its cost by mass; what is left over carries its own share. Packs of one dish share it by mass or, where the book says so, by
// what they sell for.
func (p *planner) cost() {
	job := p.job()
	built, err := costing.Carry(job)
	p.built = built
	if job.Pools = p.pools(); err == nil && len(job.Pools) > 0 {
		built, err = costing.Carry(job)
	}
	if err != nil {
		p.find(finding.Finding{Code: CodePriceMissing, Severity: finding.Caution, Where: "the cost", Message: "the cost cannot be computed: " + err.Error(), Fix: "check prices, trim and masses"})
	}
	p.built = built
	p.showMoney(job.Pools)
	for _, f := range p.out.Fill {
		show := PackCost{Pack: f.Pack, Name: f.Name, Price: p.book.Packs[kitchen.PackID(f.Pack)].Price, Ingredients: []CostLine{}}
		if i := slices.IndexFunc(built.Packs, func(c costing.PackCost) bool { return c.Name == f.Pack }); i >= 0 {
			p.tellCost(&show, f, built.Packs[i])
		}
		p.out.Cost = append(p.out.Cost, show)
		p.judgeCost(show)
	}
}

// tellCost puts what a pack bears into its line of the plan.
func (p *planner) tellCost(show *PackCost, f PackFill, c costing.PackCost) {
	for _, g := range c.Each {
		switch g.Key {
		case costing.Food, costing.Credit:
			show.Food += g.Total
		case costing.Packaging:
			show.Packaging += g.Total
		case costing.Labour:
			show.Labour += g.Total
		case costing.Energy:
			show.Energy += g.Total
		case costing.Cleaning:
			show.Cleaning += g.Total
		case costing.Overhead:
			show.Overhead += g.Total
		case costing.Waste:
			show.Waste += g.Total
		}
	}
	show.Total, show.OverheadBase = c.PerPack, p.overheadWords()
	show.Ingredients = p.foodLines(f, c.Ledger)
	for _, m := range c.Missing {
		if !slices.Contains(show.Missing, m.Name) {
			show.Missing = append(show.Missing, m.Name)
		}
	}
	if show.Price > 0 {
		show.FoodShare, _ = costing.Ratio(show.Food, show.Price) // fails on a price of 0 only
	}
}

// foodLines are the ingredients of one pack by what they cost, dearest first.
func (p *planner) foodLines(f PackFill, l costing.Ledger) []CostLine {
	masses := map[string]float64{}
	for id, kg := range p.contents(p.dishOf(f.Dish), f).putIn {
		masses[p.book.Ingredients[id].Name] += kg
	}
	food := slices.DeleteFunc(slices.Clone(l), func(c costing.Charge) bool { return costing.KindOf(c) != costing.Food })
	lines := []CostLine{}
	for _, g := range costing.GroupBy(food, func(c costing.Charge) string { return c.Name }) {
		lines = append(lines, CostLine{Name: g.Key, Mass: mass(masses[g.Key]), Cost: g.Total.Times(1, int64(f.Count))})
	}
	slices.SortStableFunc(lines, func(a, b CostLine) int { return cmp.Or(cmp.Compare(b.Cost, a.Cost), cmp.Compare(a.Name, b.Name)) })
	return lines
}

// overheadWords says what overhead is spread over; empty when there is none.
func (p *planner) overheadWords() string {
	money := func(m unit.Money) string { return m.Show(p.out.Currency) }
	switch o := p.book.Kitchen.Overhead; {
	case o.PerHour > 0:
		return money(o.PerHour) + " for each hour of hands on"
	case o.PerKg > 0:
		return money(o.PerKg) + " for each kilogram packed"
	case o.PerPack > 0:
		return money(o.PerPack) + " for each pack"
	case o.OfPrime > 0:
		return o.OfPrime.Show(p.out.Units) + " of ingredients and labour"
	}
	return ""
}

// showMoney tells what every step adds, and what is left over bears.
func (p *planner) showMoney(pools []costing.Pool) {
	m := CostSheet{Rule: costing.ByMass.String(), Spent: p.built.Spent.Total(), Steps: []StepMoney{}, Left: []LeftMoney{}}
	for _, s := range p.built.Steps {
		step := StepMoney{Dish: s.Dish, Step: s.Name, Carried: s.Carried, Own: s.Own, Outputs: []OutputMoney{}}
		for _, part := range s.Joint.Parts {
			step.Outputs = append(step.Outputs, OutputMoney{Output: part.Name, Share: part.Share, Cost: part.Amount})
		}
		m.Steps = append(m.Steps, step)
	}
	slices.SortStableFunc(m.Steps, func(a, b StepMoney) int { return cmp.Compare(p.dishPlace(a.Dish), p.dishPlace(b.Dish)) })
	for _, l := range p.built.Left {
		m.Left = append(m.Left, LeftMoney{Output: l.Output, Mass: l.Mass, Cost: l.Total})
		m.LeftCost += l.Total
	}
	m.Joint = []JointCost{}
	for _, d := range p.dishes {
		m.Joint = append(m.Joint, p.jointRules(d, pools)...)
	}
	p.out.Money = m
}

// dishPlace is where a dish stands in the run.
func (p *planner) dishPlace(id string) int {
	return slices.IndexFunc(p.dishes, func(d *cooked) bool { return string(d.id) == id })
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
