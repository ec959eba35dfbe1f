package plan_test

import (
	"math"
	"testing"

	"kettlefrost/internal/plan"
)

// Worked by hand: 10 kg of water and 4 kg of carrots lose 1 kg of water, and 13 kg are left. A pack of 650 g is a twentieth: 500 g of water and
// 200 g of carrots were put in for it, and 50 g have gone. Carrots are 88.29 % water in the table: 11.71 % of 200 g stay whatever evaporates.
func TestInsideOfAPack(t *testing.T) {
	book := soupKitchen(t)
	asWritten, err := plan.InsideOf(book, table(t), "soup-650")
	if err != nil {
		t.Fatal(err)
	}
	twenty := makePlan(t, book, soups(20)).Labels[0].Inside
	for name, in := range map[string]plan.Inside{"as written": asWritten, "in a run of as many": twenty} {
		if len(in.Held) != 2 || math.Abs(in.Kg()-0.650) > 1e-9 || in.Net.Kg() != 0.650 || in.Filled.Kg() != 0.650 {
			t.Fatalf("%s: %+v", name, in)
		}
		carrot, water := in.Held[0], in.Held[1]
		if carrot.Of != "carrot" || math.Abs(carrot.PutIn-0.200) > 1e-9 || math.Abs(water.PutIn-0.500) > 1e-9 {
			t.Errorf("%s: put in %+v", name, in.Held)
		}
		if dry := carrot.Kg() - carrot.Water; math.Abs(dry-0.200*0.1171) > 1e-9 {
			t.Errorf("%s: %v kg of carrots without their water, want 0.02342", name, dry)
		}
		if in.KgPerL < 0.99 || in.KgPerL > 1.03 {
			t.Errorf("%s: a thin carrot soup weighs %v kg/L", name, in.KgPerL)
		}
	}
	few := makePlan(t, book, soups(10)).Labels[0].Inside
	if few.Held[1].PutIn <= twenty.Held[1].PutIn {
		t.Error("half the soup in the same pot loses as much water: more of it must be put in for each pack")
	}
	if _, err := plan.InsideOf(book, table(t), "pie"); err == nil {
		t.Error("there is no such pack")
	}
}
