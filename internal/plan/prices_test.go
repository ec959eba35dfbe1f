package plan_test

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestPricesByHand: a pack of soup at $6 that costs c: $6 - c is left; with food at most 30 % of the price it is food / 0.3, up to the next
// price that ends in .49 or .95; $100 a week are paid by 100 / (6 - c) packs, up.
func TestPricesByHand(t *testing.T) {
	book := soupKitchen(t)
	book.Kitchen.FixedCosts, book.Kitchen.MarginTarget = 100*unit.MoneyUnit, 50*unit.PerCent
	book.Kitchen.PricesEnd = []unit.Money{49 * unit.Cent, 95 * unit.Cent}
	p := makePlan(t, book, soups(20))
	x, c := p.Prices[0], p.Cost[0]
	near(t, "contribution", x.Contribution.Units(), 6-c.Total.Units(), 1e-6)
	near(t, "margin", x.Margin.F(), 1-c.Total.Units()/6, 1e-6)
	near(t, "mark-up", x.MarkUp.F(), 6/c.Total.Units()-1, 1e-5)
	up := func(price float64) float64 { // the next .49 or .95
		for _, whole := range []float64{math.Floor(price), math.Floor(price) + 1} {
			for _, end := range []float64{0.49, 0.95} {
				if whole+end >= price-1e-9 {
					return whole + end
				}
			}
		}
		return math.NaN()
	}
	near(t, "price for food", x.ForFood.Units(), up(c.Food.Units()/0.3), 1e-6)
	near(t, "price for margin", x.ForMargin.Units(), up(c.Total.Units()/0.5), 1e-6)
	if want := int(math.Ceil(100 / (6 - c.Total.Units()))); p.BreakEven.Packs[0].Count != want || p.BreakEven.Sales.Units() != float64(6*want) {
		t.Errorf("break-even at %+v, want %d packs", p.BreakEven, want)
	}
	if len(x.Moves) < 3 || x.Moves[0].Share < x.Moves[1].Share {
		t.Errorf("moves: %+v", x.Moves)
	}
	for _, m := range x.Moves {
		if yield := strings.HasPrefix(m.Input, "yield"); yield != (m.Low > m.High) || m.Base != c.Total && m.Base-c.Total > 2 || c.Total-m.Base > 2 {
			t.Errorf("%s: %v to %v about %v, want about %v, and less for more yield", m.Input, m.Low, m.High, m.Base, c.Total)
		}
	}
}

// TestJointCostByTwoRules: two packs of one soup bear its pot by mass as 2 x 650 g to 1 x 300 g or so, and by what they sell for otherwise;
// either way all of it.
func TestJointCostByTwoRules(t *testing.T) {
	book := twoSizes(t)
	p := makePlan(t, book, kitchen.Request{Name: "test", Want: []kitchen.Want{{Pack: "soup-650", Count: 10}, {Pack: "soup-300", Count: 20}}})
	if len(p.Money.Joint) != 2 {
		t.Fatalf("%+v", p.Money.Joint)
	}
	for _, j := range p.Money.Joint {
		sum := unit.Money(0)
		for _, part := range j.Parts {
			sum += part.Cost
		}
		if sum != j.Total || j.Total <= 0 {
			t.Errorf("%s: the parts add up to %v, not %v", j.Rule, sum, j.Total)
		}
	}
	near(t, "by mass", p.Money.Joint[0].Parts[1].Share.F(), 6.5/12.5, 1e-6)
	if p.Money.Joint[1].Parts[0].Share <= p.Money.Joint[0].Parts[0].Share {
		t.Error("the small pack, which brings more by the kilogram, does not bear more by what it sells for")
	}
}

// TestTheBookChoosesTheJointRule: by what they sell for, the packs' costs are what that rule's comparison says, the run's cost stays the
// same, and a pack without a price leaves its dish with the mass, which is found.
func TestTheBookChoosesTheJointRule(t *testing.T) {
	book := twoSizes(t)
	req := kitchen.Request{Name: "test", Want: []kitchen.Want{{Pack: "soup-650", Count: 10}, {Pack: "soup-300", Count: 20}}}
	byMass := makePlan(t, book, req)
	book.Kitchen.JointCost = kitchen.BySalesValue
	byValue := makePlan(t, book, req)
	if byMass.Money.Spent != byValue.Money.Spent || !byMass.Money.Joint[0].Used || byMass.Money.Joint[1].Used || byValue.Money.Joint[0].Used || !byValue.Money.Joint[1].Used {
		t.Fatalf("by mass %+v\nby value %+v", byMass.Money, byValue.Money)
	}
	sum := unit.Money(0)
	for i, c := range byValue.Cost { // in the order of the parts
		n := byValue.Fill[i].Count
		moved := byValue.Money.Joint[1].Parts[i].Cost - byMass.Money.Joint[0].Parts[i].Cost // what a pack bears of its own stays
		near(t, c.Pack, (c.Total * unit.Money(n)).Units(), (byMass.Cost[i].Total*unit.Money(n) + moved).Units(), 0.001)
		sum += c.Total * unit.Money(n)
	}
	if off := sum + byValue.Money.LeftCost - byValue.Money.Spent; off < 0 || off > 100 { // each pack is told up to the millionth
		t.Errorf("packs and what is left come to %s more than was spent", off)
	}
	small := book.Packs["soup-300"]
	small.Price = 0
	book.Packs["soup-300"] = small
	if p := makePlan(t, book, req); has(p.Findings, plan.CodeJointByMass) == nil || !p.Money.Joint[0].Used {
		t.Errorf("a pack without a price: %+v", p.Money.Joint)
	}
}
