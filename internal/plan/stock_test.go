package plan_test

import (
	"slices"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestOldestStockFirst: of what is on hand the lot that goes off first is used first, what has no date last, what is out of date not at all.
func TestOldestStockFirst(t *testing.T) {
	kg := func(n int) unit.Amount {
		return unit.Amount{Kind: unit.AmountMass, Mass: unit.Mass(n) * unit.Kilogram}
	}
	book := soupKitchen(t)
	edit(book.Ingredients, "carrot", func(c *kitchen.Ingredient) {
		c.Stock = kg(50)
		c.Lots = []kitchen.StockLot{{Lot: "late", Amount: kg(2), Until: "2026-12-20"}, {Lot: "gone", Amount: kg(9), Until: "2026-11-30"}, {Lot: "soon", Amount: kg(1), Until: "2026-12-01"}}
	})
	req := soups(20) // takes 4 kg of trimmed carrots, 5 kg as purchased
	req.Day = "2026-12-01"
	p := makePlan(t, book, req)
	i := slices.IndexFunc(p.Buy.Lines, func(l plan.BuyLine) bool { return l.ID == "carrot" })
	line := p.Buy.Lines[i]
	var lots []string
	for _, l := range line.FromStock {
		lots = append(lots, l.Lot+" "+l.Mass.Show(unit.Metric))
	}
	if want := []string{"soon 1 kg", "late 2 kg", " 2 kg"}; !slices.Equal(lots, want) || line.Stock != 53*unit.Kilogram || line.ToBuy != 0 {
		t.Errorf("takes %q of %s, buys %s; want %q of 53 kg", lots, line.Stock, line.ToBuy, want)
	}
	if f := has(p.Findings, plan.CodeOutOfDate); f == nil || f.Figures[0].Value != 9 {
		t.Errorf("the lot that is out of date is not told: %v", p.Findings)
	}
}
