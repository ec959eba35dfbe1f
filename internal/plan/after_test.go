package plan_test

import (
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestAfterByHand: 18 packs of 20 were filled. They should have taken 4.5 kg of carrots at $1.50 (three packs of 2 kg for $9) and 18 min of
// hands at $18. 5 kg were used that cost $8.00, and 24 min were taken at $20: price 8.00 - 5 x 1.50 = 0.50, usage 0.5 x 1.50 = 0.75, rate
// 24/60 x 2 = 0.80, efficiency 6/60 x 18 = 1.80, in all 3.85.
func TestAfterByHand(t *testing.T) {
	run := plan.Open(t.Context(), soupKitchen(t), table(t), soups(20))
	a := run.After(kitchen.Actual{
		Made:  map[kitchen.PackID]int{"soup-650": 18},
		Used:  []kitchen.ActualUse{{Of: "carrot", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 5 * unit.Kilogram}, Paid: 8 * unit.MoneyUnit}},
		Hands: []kitchen.ActualHands{{Dish: "soup", Time: 24 * unit.Minute, Wage: unit.Wage(20 * unit.MoneyUnit)}},
	})
	near(t, "price", a.Price.Units(), 0.50, 1e-4)
	near(t, "usage", (a.Mix + a.Yield).Units(), 0.75, 1e-4)
	near(t, "rate", a.Rate.Units(), 0.80, 1e-4)
	near(t, "efficiency", a.Efficiency.Units(), 1.80, 1e-4)
	near(t, "in all", a.Total.Units(), 3.85, 1e-4)
	if a.Price+a.Mix+a.Yield+a.Rate+a.Efficiency != a.Total {
		t.Errorf("%v + %v + %v + %v + %v is not %v", a.Price, a.Mix, a.Yield, a.Rate, a.Efficiency, a.Total)
	}
	as := run.After(kitchen.Actual{Made: map[kitchen.PackID]int{"soup-650": 20}})
	if as.Total != 0 || len(as.Findings) > 0 || as.Packs[0].Made != 20 {
		t.Errorf("as planned, yet %+v", as)
	}
}
