package plan_test

import (
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestOrders: 5 kg of carrots are three packs of 2 kg for $9, or one of 10 kg for $11. Delivery is on top, unless the order is large enough; an
// order that must come to $10 is filled up to it, and that is told; it is placed three days before; another shop may be cheaper with its delivery.
func TestOrders(t *testing.T) {
	dollars := func(n int) unit.Money { return unit.Money(n) * unit.MoneyUnit }
	for _, c := range []struct {
		name            string
		terms           kitchen.Supplier
		edit            func(b *kitchen.Book)
		from            string
		goods, delivery unit.Money
		told            bool
	}{
		{"nothing said", kitchen.Supplier{}, nil, "farm", dollars(9), 0, false},
		{"delivery", kitchen.Supplier{Delivery: dollars(6), FreeFrom: dollars(100)}, nil, "farm", dollars(9), dollars(6), false},
		{"two dollars more are brought free", kitchen.Supplier{Delivery: dollars(6), FreeFrom: dollars(11)}, nil, "farm", dollars(11), 0, false},
		{"the least order", kitchen.Supplier{Minimum: dollars(10)}, nil, "farm", dollars(11), 0, true},
		{"cheaper when three are taken", kitchen.Supplier{}, func(b *kitchen.Book) {
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) { i.Buy[0].Breaks = []kitchen.PriceBreak{{From: 3, Price: 250 * unit.Cent}} })
		}, "farm", 750 * unit.Cent, 0, false},
		{"another shop for $10, without delivery", kitchen.Supplier{Delivery: dollars(6)}, func(b *kitchen.Book) {
			b.Suppliers["shop"] = kitchen.Supplier{Name: "the shop"}
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) {
				i.Buy = append(i.Buy, kitchen.Offer{Supplier: "shop", Pack: unit.Amount{Kind: unit.AmountMass, Mass: 5 * unit.Kilogram}, Price: dollars(10)})
			})
		}, "shop", dollars(10), 0, false},
	} {
		book, req := soupKitchen(t), soups(20)
		c.terms.Name, c.terms.Lead = "the farm", 3
		book.Suppliers["farm"], req.Day = c.terms, "2026-12-01"
		if c.edit != nil {
			c.edit(&book)
		}
		p := makePlan(t, book, req)
		o := p.Buy.Orders[0]
		if len(p.Buy.Orders) != 1 || o.Supplier != c.from || o.Goods != c.goods || o.Delivery != c.delivery || p.Buy.Total != c.goods+c.delivery || p.Buy.Proof != "optimal" {
			t.Errorf("%s: %+v, %s in all, %s", c.name, p.Buy.Orders, p.Buy.Total, p.Buy.Proof)
		}
		if c.from == "farm" && o.OrderBy != "2026-11-28" {
			t.Errorf("%s: ordered by %s", c.name, o.OrderBy)
		}
		if f := has(p.Findings, plan.CodeUnderMinimum); (f != nil) != c.told {
			t.Errorf("%s: %v", c.name, p.Findings)
		}
	}
}
