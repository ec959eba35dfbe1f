package plan_test

import (
	"math"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// TestOverheadByHand: 20 packs of 650 g take 5 min of cooking, 5 min of setting the bath and 20 x 30 s of filling: 20 min of hands, 1 min a
// pack. At $6 an hour that is $0.10, at $2 a kilogram $1.30, at 25 cents a pack just that; or a tenth of ingredients and labour. A twentieth
// of the packs never sold makes each sold one bear 1/19 of itself.
func TestOverheadByHand(t *testing.T) {
	book := soupKitchen(t)
	bare := makePlan(t, book, soups(20)).Cost[0]
	if bare.Overhead != 0 || bare.Waste != 0 || bare.Cleaning != 0 || bare.OverheadBase != "" {
		t.Errorf("without any it costs %+v", bare)
	}
	for _, c := range []struct {
		name     string
		overhead kitchen.Overhead
		want     float64 // units of money
		base     string
	}{
		{"by the hour", kitchen.Overhead{PerHour: 6 * unit.MoneyUnit}, 0.10, "$6.00 for each hour of hands on"},
		{"by mass", kitchen.Overhead{PerKg: 2 * unit.MoneyUnit}, 1.30, "$2.00 for each kilogram packed"},
		{"by the pack", kitchen.Overhead{PerPack: 25 * unit.Cent}, 0.25, "$0.25 for each pack"},
		{"by prime cost", kitchen.Overhead{OfPrime: 10 * unit.PerCent}, (bare.Food + bare.Labour).Units() / 10, "10 % of ingredients and labour"},
	} {
		book.Kitchen.Overhead = c.overhead
		edit(book.Packs, "soup-650", func(p *kitchen.Pack) { p.Waste = 5 * unit.PerCent })
		got := makePlan(t, book, soups(20)).Cost[0]
		if math.Abs(got.Overhead.Units()-c.want) > 2e-6 || got.OverheadBase != c.base {
			t.Errorf("%s: %v on %q, want %.6f on %q", c.name, got.Overhead, got.OverheadBase, c.want, c.base)
		}
		near(t, c.name+", waste", got.Waste.Units(), (bare.Total+got.Overhead).Units()/19, 2e-6)
	}
}

// TestCleaningByHand: one washing of 10 min between two soups, $1.90 of materials and $3.00 of hands at $18 an hour, shared by the mass of 15
// and 15 packs alike.
func TestCleaningByHand(t *testing.T) {
	book := soupKitchen(t)
	req := creamSoup(&book)
	book.Kitchen.Cleaning = 190 * unit.Cent
	edit(book.Equipment, "pot", func(e *kitchen.Equipment) { e.Wash, e.WashDown = 10*unit.Minute, 40*unit.Minute })
	for _, c := range makePlan(t, book, req).Cost {
		near(t, c.Pack, c.Cleaning.Units(), 4.90/30, 2e-6)
	}
}
