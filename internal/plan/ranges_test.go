package plan_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// TestRangesByHand: 13 kg of soup, give or take 3 %, in packs of 650 g: a tenth of a normal distribution lies below 1 - 1.2816 σ (tables of
// the normal distribution), so that there are 13 x 0.96155 / 0.65 = 19.2, and above 13 x 1.03845 / 0.65 = 20.8: 19 to 20 packs.
func TestRangesByHand(t *testing.T) {
	p := makePlan(t, soupKitchen(t), soups(20))
	r := p.Ranges
	if r == nil || r.Packs[0].Low != 19 || r.Packs[0].High != 20 || p.Fill[0].Low != 19 || p.Fill[0].High != 20 {
		t.Fatalf("ranges %+v, fill %d to %d; want 19 to 20", r, p.Fill[0].Low, p.Fill[0].High)
	}
	if r.Yields != 3*unit.PerCent || r.Times != 10*unit.PerCent || r.Prices != 5*unit.PerCent || r.Draws < 1000 {
		t.Errorf("it does not say what was drawn: %+v", r)
	}
	again := makePlan(t, soupKitchen(t), soups(20))
	if !cmp.Equal(again.Ranges, r) {
		t.Error("the same seed draws something else")
	}
}

// TestRangesOfNearlyNothing: where next to nothing scatters, everything comes out as planned.
func TestRangesOfNearlyNothing(t *testing.T) {
	book := soupKitchen(t)
	book.Kitchen.Spreads = kitchen.Spreads{Yields: 1, Times: 1, Prices: 1} // parts in 10⁹
	p := makePlan(t, book, soups(20))
	x := p.Ranges.Packs[0]
	cost := p.Cost[0].Total
	if math.Abs(float64(x.Cost.Low-cost)) > 20 || x.Cost.High > cost.Times(20, 19) { // half the draws miss the twentieth pack by a hair
		t.Errorf("it costs %v to %v, as planned %v", x.Cost.Low, x.Cost.High, cost)
	}
	wide := makePlan(t, soupKitchen(t), soups(20)).Ranges.Packs[0].Cost
	if wide.High-wide.Low < 5*(x.Cost.High-x.Cost.Low) {
		t.Errorf("with usual spreads it costs %v to %v", wide.Low, wide.High)
	}
}
