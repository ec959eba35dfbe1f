package plan_test

import (
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// The soup of TestMadeByHand, ingredient by ingredient: 4 kg of raw carrots with 88.29 g of water, 6.78 g of carbohydrate without fibre and 2.8 g of
// fibre in 100 g (NDB 11124, USDA SR28, read); of 10 kg of water 9 are left, shared with the carrots' by where it evaporates from.
func TestContentsByHand(t *testing.T) {
	given, err := plan.Contents(soupKitchen(t), table(t), "soup")
	if err != nil || len(given) != 1 {
		t.Fatalf("%v: %+v", err, given)
	}
	g := given[0]
	near(t, "all of it", g.Kg, 13, 1e-6)
	near(t, "for packs", g.FreeKg, 13, 1e-6)
	var water, in float64
	for _, h := range g.Held {
		water, in = water+h.Water, in+h.PutIn
		if h.Of == "carrot" {
			near(t, "carbohydrate", h.Carb, 4*0.0678, 1e-4)
			near(t, "fibre", h.Fibre, 4*0.028, 1e-6)
		}
	}
	near(t, "water", water, 12.5316, 1e-3)
	near(t, "put in", in, 14, 1e-9)
	if _, err := plan.Contents(soupKitchen(t), table(t), "goulash"); err == nil {
		t.Error("a dish that is not there holds something")
	}
}

// A pack by itself freezes as the plan of a run of the dish as it is written, 21 packs, says that it does.
func TestFreezingOfIsThePlans(t *testing.T) {
	book := demoBook(t)
	p := plan.Make(t.Context(), book, table(t), kitchen.Request{Want: []kitchen.Want{{Pack: "bean-pot-2lb", Count: 21}}})
	all, err := plan.FreezingOf(book, table(t), "bean-pot-2lb")
	if err != nil || len(all) != len(p.Freeze.Packs) {
		t.Fatalf("%v: %+v", err, all)
	}
	for i, x := range all {
		if y := p.Freeze.Packs[i]; x.Freezer != y.Freezer || max(x.Time-y.Time, y.Time-x.Time) > 2*unit.Minute {
			t.Errorf("%s: %s, want %s", x.Freezer, x.Time, y.Time)
		}
	}
	if _, err := plan.FreezingOf(book, table(t), "no-such"); err == nil {
		t.Error("a pack that is not there freezes")
	}
}
