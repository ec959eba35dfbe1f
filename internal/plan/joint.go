package plan

import (
	"fmt"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// pots are the packs of a dish as products of one pot, by the cost sheet so far, and what they share.
func (p *planner) pots(d *cooked) (products []costing.Product, total unit.Money) {
	for _, f := range p.out.Fill {
		i := slices.IndexFunc(p.built.Packs, func(c costing.PackCost) bool { return c.Name == f.Pack })
		if i < 0 || f.Dish != string(d.id) {
			continue
		}
		own := unit.Money(0)
		for _, charge := range p.built.Packs[i].Ledger {
			if charge.Dish == "" {
				own += charge.Cost
			} else {
				total += charge.Cost
			}
		}
		price := p.book.Packs[kitchen.PackID(f.Pack)].Price * unit.Money(f.Count)
		products = append(products, costing.Product{Name: f.Pack, Mass: f.filled() * unit.Mass(f.Count), SplitOff: max(0, price-own), Final: price, Further: own})
	}
	return products, total
}

// pools are the dishes whose packs share their cost by what they sell for, where the book says so. A pack without a price, or that brings no
// more than is spent on it alone, cannot bear any of it by that rule: its dish stays with the mass, and that is found.
func (p *planner) pools() []costing.Pool {
	if p.book.Kitchen.JointCost != kitchen.BySalesValue {
		return nil
	}
	var pools []costing.Pool
	for _, d := range p.dishes {
		products, _ := p.pots(d)
		if len(products) < 2 {
			continue
		}
		if i := slices.IndexFunc(products, func(x costing.Product) bool { return x.Final <= x.Further }); i >= 0 {
			p.find(finding.Finding{Code: CodeJointByMass, Severity: finding.Note, Where: d.where, Path: "packs." + products[i].Name,
				Message: fmt.Sprintf("its packs share its cost by mass, not by what they sell for: %s sells for %s, and %s are spent on it alone", products[i].Name, products[i].Final.Show(p.out.Currency), products[i].Further.Show(p.out.Currency)),
				Fix:     "give the pack a price that covers what is spent on it alone"})
			continue
		}
		pools = append(pools, costing.Pool{Rule: costing.ByNetRealisable, Packs: products})
	}
	return pools
}

// jointRules are what the packs of a dish would bear of it by each rule; nil where there is but one pack.
func (p *planner) jointRules(d *cooked, used []costing.Pool) []JointCost {
	products, total := p.pots(d)
	if len(products) < 2 {
		return nil
	}
	byValue := slices.ContainsFunc(used, func(pool costing.Pool) bool { return pool.Packs[0].Name == products[0].Name })
	var joint []JointCost
	for _, rule := range []costing.Rule{costing.ByMass, costing.ByNetRealisable} {
		a, err := costing.Allocate(total, rule, products)
		if err != nil {
			continue
		}
		j := JointCost{Dish: string(d.id), Rule: rule.String(), Total: total, Parts: []OutputMoney{}, Used: byValue == (rule == costing.ByNetRealisable)}
		for _, part := range a.Parts {
			j.Parts = append(j.Parts, OutputMoney{Output: p.book.Packs[kitchen.PackID(part.Name)].Name, Share: part.Share, Cost: part.Amount})
		}
		joint = append(joint, j)
	}
	return joint
}
