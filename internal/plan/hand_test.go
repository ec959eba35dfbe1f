package plan_test

import (
	"math"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, tolerance)
	}
}

// Worked by hand from soupKitchen. 40 packs are 26 kg, twice the written batch: 8 kg of carrots, and 20 kg of water by the recipe. 28 kg
// at about 1.03 kg/L are 27 L, two pots of 16 L; each evaporates 1 kg as written, so the water stays at 20 kg.
// 8 kg trimmed are 10 kg as bought: one 10 kg sack for 11.00 beats five 2 kg bags for 15.00. That is 11.00/40 = 0.275 a pack.
// Bag and label are 0.15. Hands: 5 min each pot and 5 min to set up each bath, and 40 × 30 s = 20 min of filling: 40 min at 18 an hour
// are 12.00, 0.30 a pack.
// Energy, a pot: 14 kg at 4.1 kJ/kg·K from 15 to 95 °C are 4.6 MJ, 5 kW less some 0.2 kW of loss take 16 min, at 10 kW 9.6 MJ;
// an hour at 95 °C with 0.51 m² · 11.4 W/m²·K · 75 K = 0.44 kW and 1 kg evaporated, at half efficiency, 3.1 + 4.5 MJ. Two pots: 34.5
// MJ = 9.6 kWh at 0.20, 0.048 a pack. In all 0.773.
func TestPlanByHand(t *testing.T) {
	p := makePlan(t, soupKitchen(t), soups(40))
	step := p.Dishes[0].Steps[0]
	near(t, "pots", float64(step.Loads.Count), 2, 0)
	near(t, "carrots, kg", step.In[1].Mass.Kg(), 8, 1e-6)
	near(t, "water, kg", step.In[0].Mass.Kg(), 20, 1e-6)
	near(t, "evaporated, kg", step.Losses[0].Mass.Kg(), 2, 1e-5)
	near(t, "soup, kg", step.Out[0].Mass.Kg(), 26, 1e-9)
	near(t, "packs", float64(p.Fill[0].Count), 40, 0)
	carrots := p.Buy.Lines[0]
	near(t, "carrots as bought, kg", carrots.AP.Kg(), 10, 1e-6)
	if len(carrots.Packs) != 1 || carrots.Packs[0].Count != 1 || carrots.Total != 11*unit.MoneyUnit {
		t.Errorf("carrots bought: %+v, want one 10 kg sack for 11.00", carrots.Packs)
	}
	cost := p.Cost[0]
	near(t, "food a pack", cost.Food.Units(), 0.275, 2e-6)
	near(t, "packaging a pack", cost.Packaging.Units(), 0.15, 0)
	near(t, "labour a pack", cost.Labour.Units(), 0.30, 1e-6)
	near(t, "energy, kWh", step.EnergyKWh, 9.6, 0.1)
	near(t, "energy a pack", cost.Energy.Units(), 0.048, 0.0005)
	near(t, "cost of a pack", cost.Total.Units(), 0.725+cost.Energy.Units(), 2e-6)
	near(t, "hands-on, min", p.Summary.HandsOn.S()/60, 40, 0)
	if p.Labels[0].Statement != "Ingredients: water, carrots." || p.Labels[0].Withheld {
		t.Errorf("label: %+v", p.Labels[0])
	}
	near(t, "this run, kg", p.Freeze.Load.Kg(), 26, 1e-9)
}

// By hand: one pot instead of two. In a 60 L pot of the same surface one kilogram evaporates, not two; with the water made up the soup
// stays as thick as written, so a kilogram less water goes in.
func TestALargerPotTakesLessWater(t *testing.T) {
	book := soupKitchen(t)
	pot := book.Equipment["pot"]
	pot.Volume = 60 * unit.Litre
	book.Equipment["pot"] = pot
	step := makePlan(t, book, soups(40)).Dishes[0].Steps[0]
	near(t, "pots", float64(step.Loads.Count), 1, 0)
	near(t, "water, kg", step.In[0].Mass.Kg(), 19, 1e-5)
	near(t, "soup, kg", step.Out[0].Mass.Kg(), 26, 1e-9)
}

// By hand, in the same kitchen: 5 kg of carrots as bought are 4 kg trimmed, the written batch: 13 kg, 20 packs.
// A full pot: the written batch is 14 kg in 10/0.998 + 4 kg of carrot at about 1.04: close to 13.9 L; 16 L make 16/13.9 of it.
func TestTargetsOtherThanPacks(t *testing.T) {
	book := soupKitchen(t)
	use := kitchen.Request{Want: []kitchen.Want{{Dish: "soup", Use: &kitchen.UseUp{Of: "carrot", Amount: quantity(t, unit.ParseAmount, "5 kg")}}}}
	p := makePlan(t, book, use)
	near(t, "carrots, kg", p.Dishes[0].Steps[0].In[1].Mass.Kg(), 4, 1e-8)
	near(t, "packs", float64(p.Fill[0].Count), 20, 0)

	p = makePlan(t, book, kitchen.Request{Want: []kitchen.Want{{Dish: "soup", Vessel: "pot"}}})
	step := p.Dishes[0].Steps[0]
	near(t, "the pot's content, L", step.Loads.Volume.L(), 16, 1e-6)
	near(t, "loads", float64(step.Loads.Count), 1, 0)
	near(t, "scale", step.Scale, 16/13.87, 0.01)
	near(t, "packs", float64(p.Fill[0].Count), math.Floor(13*step.Scale/0.65), 0)
}

// The freezer has room for 20 kg: 30 packs of 650 g are 19.5 kg, 31 are 20.15 kg.
func TestAsManyNamesTheLimitThatBinds(t *testing.T) {
	book := soupKitchen(t)
	chest := book.Freezers["chest"]
	chest.Room = 20 * unit.Kilogram
	book.Freezers["chest"] = chest
	p := makePlan(t, book, kitchen.Request{Want: []kitchen.Want{{Dish: "soup", Most: true}}})
	near(t, "packs", float64(p.Fill[0].Count), 30, 0)
	if p.Dishes[0].Limit != "room in the freezers" {
		t.Errorf("limit: %q", p.Dishes[0].Limit)
	}
}

// By hand: 8 kg of carrots from the freezer instead of the refrigerator. They are 88 % water less a little that protein holds, of which 96 % is
// ice at -18 °C: 0.84 · 334 kJ/kg · 8 kg = 2.2 MJ to melt, and 22 K · 4 kJ/kg·K · 8 kg = 0.7 MJ to warm, 1.45 MJ for each of two pots. At 5 kW
// that is nearly 5 min longer.
func TestFrozenThingsTakeLongerToHeat(t *testing.T) {
	book := soupKitchen(t)
	fresh := makePlan(t, book, soups(40)).Dishes[0].Steps[0].HeatUp
	carrot := book.Ingredients["carrot"]
	carrot.Storage = "frozen"
	book.Ingredients["carrot"] = carrot
	frozen := makePlan(t, book, soups(40)).Dishes[0].Steps[0].HeatUp
	near(t, "longer, min", (frozen-fresh).S()/60, 4.9, 1)
}
