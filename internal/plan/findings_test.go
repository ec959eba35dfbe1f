package plan_test

import (
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// edit changes an entry of a map in place.
func edit[K comparable, V any](m map[K]V, key K, change func(*V)) {
	v := m[key]
	change(&v)
	m[key] = v
}

// Each case is a kitchen with one thing wrong; the sound kitchen has none of these findings.
func TestFindings(t *testing.T) {
	step := func(b *kitchen.Book) *kitchen.Step { return &b.Dishes["soup"].Steps[0] }
	cases := []struct {
		code     string
		severity finding.Severity
		packs    int
		wrong    func(b *kitchen.Book, r *kitchen.Request)
	}{
		{plan.CodeChillSlow, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Chilling, "bath", func(c *kitchen.Chilling) { c.Method, c.Wall, c.Top, c.Bottom = kitchen.PotInAir, 10, 10, 10 })
		}},
		{plan.CodeChillTight, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Chilling, "bath", func(c *kitchen.Chilling) { c.Wall = 26 })
		}},
		{plan.CodeChillNoRoom, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			b.Equipment["small"] = kitchen.Equipment{Name: "small pot", Kind: kitchen.Vessel, Count: 1, Volume: 5 * unit.Litre, Diameter: 20 * unit.Centimetre}
			edit(b.Chilling, "bath", func(c *kitchen.Chilling) { c.Vessel = "small" })
		}},
		{plan.CodeChillUnknown, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) { delete(b.Chilling, "bath") }},
		{plan.CodeFreezerSlow, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Freezers, "chest", func(f *kitchen.Freezer) { f.Cooling = 50 * unit.Watt })
		}},
		{plan.CodeFreezerRule, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Freezers, "chest", func(f *kitchen.Freezer) { f.Volume = 400 * unit.Litre })
		}},
		{plan.CodeFreezerFull, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Freezers, "chest", func(f *kitchen.Freezer) { f.Holds = f.Room })
		}},
		{plan.CodeNoFreezer, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) { delete(b.Freezers, "chest") }},
		{plan.CodeNoComposition, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) { i.Food = "" })
		}},
		{plan.CodeAllergens, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) {
				i.Contains = []kitchen.SubIngredient{{Name: "carrots", Allergens: kitchen.Allergens{Answered: true}}, {Name: "glaze"}}
			})
		}},
		{plan.CodeStockShort, finding.Stop, 40, func(b *kitchen.Book, r *kitchen.Request) {
			r.OnlyHave = true
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) { i.Stock = quantity(t, unit.ParseAmount, "9 kg") })
		}},
		{plan.CodeCannotBuy, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) { i.Buy = nil })
		}},
		{plan.CodePriceMissing, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Ingredients, "carrot", func(i *kitchen.Ingredient) { i.Buy = nil })
		}},
		{plan.CodeSoldBelowCost, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Packs, "soup-650", func(p *kitchen.Pack) { p.Price = 70 * unit.Cent })
		}},
		{plan.CodeBagsShort, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Bags, "bag", func(x *kitchen.Bag) { x.Stock = 39 })
		}},
		{plan.CodeNeverHot, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Equipment, "pot", func(e *kitchen.Equipment) { e.Power = 500 * unit.Watt })
		}},
		{plan.CodeHeatUp, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Equipment, "pot", func(e *kitchen.Equipment) { e.Power = 0 })
		}},
		{plan.CodeDriesOut, finding.Stop, 1, func(b *kitchen.Book, r *kitchen.Request) {
			step(b).MakeUp = ""
			r.Want = []kitchen.Want{{Dish: "soup", Use: &kitchen.UseUp{Of: "carrot", Amount: quantity(t, unit.ParseAmount, "300 g")}}}
		}},
		{plan.CodeTooThin, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Equipment, "pot", func(e *kitchen.Equipment) { e.Volume = 80 * unit.Litre })
			step(b).Use[0].Amount = quantity(t, unit.ParseAmount, "500 g")
		}},
		{plan.CodeUnreachable, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			step(b).MakeUp, step(b).Loses.Residue = "", 16*unit.Kilogram
		}},
		{plan.CodeNotPlanned, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			step(b).Use[1].Amount = quantity(t, unit.ParseAmount, "3 barrel")
		}},
		{plan.CodeMixedTargets, finding.Stop, 40, func(_ *kitchen.Book, r *kitchen.Request) {
			r.Want = append(r.Want, kitchen.Want{Dish: "soup", Vessel: "pot"})
		}},
		{plan.CodeDayTooLong, finding.Stop, 40, func(_ *kitchen.Book, r *kitchen.Request) { r.Finish = 7 * 60 }},
		{plan.CodeNobody, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) { delete(b.People, "ada") }},
		{plan.CodeNoTimetable, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Packs, "soup-650", func(p *kitchen.Pack) { p.Crew = 3 })
		}},
		{plan.CodeVacuum, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			b.Equipment["sealer"] = kitchen.Equipment{Name: "sealer", Kind: kitchen.Sealer, Count: 1}
			b.Kitchen.VacuumApproval = ""
		}},
		{plan.CodeHotBlender, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			hot := unit.TempC(80)
			d := b.Dishes["soup"]
			d.Steps[0].Gives = nil
			d.Steps = append(d.Steps, kitchen.Step{ID: "blend", Do: "Blend it.", In: []kitchen.EquipmentID{"blender"}, Time: 2 * unit.Minute, ReadyAt: &hot,
				Use: []kitchen.Use{{From: "simmer", Take: kitchen.Take{Given: true, Share: unit.Whole}}}, Gives: []kitchen.Output{{ID: "soup"}}})
			b.Dishes["soup"] = d
		}},
		{plan.CodeInputShort, finding.Stop, 40, func(b *kitchen.Book, _ *kitchen.Request) { skim(b, "") }},
		{plan.CodeStandIn, finding.Note, 40, func(b *kitchen.Book, _ *kitchen.Request) { skim(b, "carrot") }},
		{plan.CodeSurplus, finding.Note, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			step(b).Gives = append(step(b).Gives, kitchen.Output{ID: "broth", Takes: 10 * unit.PerCent, Part: kitchen.Water, ByProduct: true})
		}},
		{plan.CodeHeldHot, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) { sieve(b, nil) }},
		{plan.CodeHeldWarm, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			warm := unit.TempC(40)
			sieve(b, &warm)
		}},
		{plan.CodeBagTooSmall, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Bags, "bag", func(x *kitchen.Bag) { x.Length, x.Width = 10*unit.Centimetre, 8*unit.Centimetre })
		}},
		{plan.CodeFewerPacks, finding.Stop, 40, func(b *kitchen.Book, r *kitchen.Request) {
			delete(b.Packs, "soup-650")
			r.Want = []kitchen.Want{{Dish: "soup", Vessel: "pot"}}
		}},
		{plan.CodeFreezeUnknown, finding.Caution, 40, func(b *kitchen.Book, _ *kitchen.Request) {
			edit(b.Bags, "bag", func(x *kitchen.Bag) { x.Length = 0 })
		}},
	}
	for _, c := range cases {
		t.Run(c.code, func(t *testing.T) {
			if f := has(makePlan(t, soupKitchen(t), soups(c.packs)).Findings, c.code); f != nil {
				t.Fatalf("the sound kitchen has it already: %s", f)
			}
			book, req := soupKitchen(t), soups(c.packs)
			c.wrong(&book, &req)
			p := makePlan(t, book, req)
			f := has(p.Findings, c.code)
			if f == nil {
				t.Fatalf("not found; found instead: %v", p.Findings)
			}
			if f.Severity != c.severity || f.Message == "" || f.Where == "" {
				t.Errorf("got %s: %+v", f.Severity, f)
			}
			if f.Severity > finding.Note && f.Fix == "" {
				t.Errorf("says no way out: %s", f)
			}
		})
	}
}

// skim adds a by-product of 2 % that a last step wants 5 % of.
func skim(b *kitchen.Book, standIn kitchen.IngredientID) {
	d := b.Dishes["soup"]
	d.Steps[0].Gives = []kitchen.Output{{ID: "plain"}, {ID: "skimmings", Takes: 2 * unit.PerCent, Part: kitchen.Water, ByProduct: true}}
	d.Steps = append(d.Steps, kitchen.Step{ID: "finish", Do: "Finish.", Time: unit.Minute, Gives: []kitchen.Output{{ID: "soup"}},
		Use: []kitchen.Use{{From: "plain", Take: kitchen.Take{Given: true, Share: unit.Whole}}, {From: "skimmings", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 700 * unit.Gram}, Or: standIn}}})
	b.Dishes["soup"] = d
}

// sieve adds slow work on part of the soup, while the rest of it stands and waits.
func sieve(b *kitchen.Book, readyAt *unit.Temp) {
	take := func(from kitchen.OutputID, share unit.Share) kitchen.Use {
		return kitchen.Use{From: from, Take: kitchen.Take{Given: true, Share: share}}
	}
	d := b.Dishes["soup"]
	d.Steps[0].Gives, d.Steps[0].ReadyAt = nil, readyAt
	d.Steps = append(d.Steps, kitchen.Step{ID: "puree", Do: "Rub some of it through a sieve.", Use: []kitchen.Use{take("simmer", 20*unit.PerCent)}, Pace: 1800},
		kitchen.Step{ID: "stir", Do: "Stir it back in.", In: []kitchen.EquipmentID{"pot"}, Time: unit.Minute, Gives: []kitchen.Output{{ID: "soup"}},
			Use: []kitchen.Use{take("simmer", unit.Whole), take("puree", unit.Whole)}})
	b.Dishes["soup"] = d
}
