package costing

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Rule is how the cost of one pot is shared out between what comes of it.
type Rule int

const (
	ByMass          Rule = iota // by what each weighs
	BySplitOff                  // by what each would sell for as it leaves the pot
	ByNetRealisable             // by what each sells for at the end, less what is still spent on it alone
)

var ruleNames = [...]string{ByMass: "by mass", BySplitOff: "by sales value at split-off", ByNetRealisable: "by net realisable value"}

// String is the rule in words.
func (r Rule) String() string {
	if r < ByMass || r > ByNetRealisable {
		return fmt.Sprintf("rule(%d)", int(r))
	}
	return ruleNames[r]
}

// Product is one of the things that come of a pot. Only what the rule asks for need be given.
type Product struct {
	Name     string
	Mass     unit.Mass
	SplitOff unit.Money // what all of it would sell for as it leaves the pot
	Final    unit.Money // what all of it sells for at the end
	Further  unit.Money // what is spent on it alone from the pot to the end
}

// Allocation is a cost shared out, with the reason.
type Allocation struct {
	Rule  Rule
	Total unit.Money
	Parts []Part // in the order of the products
}

// Part is what one product bears.
type Part struct {
	Name   string
	Base   int64      // ng under ByMass, else millionths of money
	Share  unit.Share // of the sum of the bases; the shares add up to the whole
	Amount unit.Money // the amounts add up to the total
}

// Allocate shares total out by a rule, to the millionth: what the millionths leave over goes one each to the largest remainders,
// of equal ones to the first. Methods: any text on joint products, such as OpenStax, Principles of Accounting 2. An error says
// which product has no base, or one below 0.
func Allocate(total unit.Money, rule Rule, products []Product) (Allocation, error) {
	bases := make([]int64, len(products))
	for i, p := range products {
		b, err := p.base(rule)
		if err != nil {
			return Allocation{}, at(p.Name, err)
		}
		bases[i] = b
	}
	amounts, err := total.Split(bases...)
	if err != nil {
		return Allocation{}, &RangeError{"joint cost", err.Error(), "give at least one product a base above 0 " + rule.String()}
	}
	shares, err := unit.Money(unit.Whole).Split(bases...)
	if err != nil {
		return Allocation{}, &RangeError{"joint cost", err.Error(), "check the bases"}
	}
	a := Allocation{Rule: rule, Total: total}
	for i, p := range products {
		a.Parts = append(a.Parts, Part{Name: p.Name, Base: bases[i], Share: unit.Share(shares[i]), Amount: amounts[i]})
	}
	return a, nil
}

func (p Product) base(rule Rule) (int64, error) {
	base := int64(0)
	switch rule {
	case ByMass:
		base = int64(p.Mass)
	case BySplitOff:
		base = int64(p.SplitOff)
	case ByNetRealisable:
		if p.Final < 0 || p.Further < 0 {
			return 0, &RangeError{"net realisable value", "the sales value or the further cost is negative", "give both as 0 or more"}
		}
		base = int64(p.Final - p.Further)
	default:
		return 0, &RangeError{"joint cost", "no such rule", "choose mass, sales value at split-off or net realisable value"}
	}
	if base < 0 {
		return 0, &RangeError{"joint cost", rule.String() + " it has less than nothing to bear it with", "check the figures; what costs more than it brings is no product but a cost of the others"}
	}
	return base, nil
}

// JointCost shares the cost of one pot out between what comes of it, by mass; see Allocate.
func JointCost(total unit.Money, outputs []unit.Mass) ([]unit.Money, error) {
	products := make([]Product, len(outputs))
	for i, m := range outputs {
		products[i].Mass = m
	}
	a, err := Allocate(total, ByMass, products)
	if err != nil {
		return nil, err
	}
	amounts := make([]unit.Money, len(outputs))
	for i, p := range a.Parts {
		amounts[i] = p.Amount
	}
	return amounts, nil
}
