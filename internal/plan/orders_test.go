package plan_test

import (
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestOrders: 5 kg of carrots are three packs of 2 kg for $9, or one of 10 kg for $11. Delivery is on top, unless the order is large enough;
// an order below the minimum is told; it is placed three days before.
func TestOrders(t *testing.T) {
	for _, c := range []struct {
		name            string
		terms           kitchen.Supplier
		delivery, short unit.Money
		code            string
	}{
		{"nothing said", kitchen.Supplier{}, 0, 0, ""},
		{"delivery", kitchen.Supplier{Delivery: 6 * unit.MoneyUnit, FreeFrom: 100 * unit.MoneyUnit}, 6 * unit.MoneyUnit, 0, ""},
		{"delivered free", kitchen.Supplier{Delivery: 6 * unit.MoneyUnit, FreeFrom: 9 * unit.MoneyUnit}, 0, 0, ""},
		{"too small an order", kitchen.Supplier{Minimum: 20 * unit.MoneyUnit}, 0, 11 * unit.MoneyUnit, plan.CodeUnderMinimum},
	} {
		book, req := soupKitchen(t), soups(20)
		c.terms.Name, c.terms.Lead = "the farm", 3
		book.Suppliers["farm"], req.Day = c.terms, "2026-12-01"
		p := makePlan(t, book, req)
		o := p.Buy.Orders[0]
		if o.Goods != 9*unit.MoneyUnit || o.Delivery != c.delivery || p.Buy.Total != o.Goods+c.delivery || o.Short != c.short || o.OrderBy != "2026-11-28" {
			t.Errorf("%s: %+v, %s in all", c.name, o, p.Buy.Total)
		}
		if f := has(p.Findings, plan.CodeUnderMinimum); (f != nil) != (c.code != "") {
			t.Errorf("%s: %v", c.name, p.Findings)
		}
	}
}
