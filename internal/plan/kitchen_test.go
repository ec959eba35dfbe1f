package plan_test

import (
	"context"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// quantity reads a quantity that a test writes as a cook would.
func quantity[T any](t testing.TB, parse func(string) (T, error), text string) T {
	t.Helper()
	x, err := parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// soupKitchen is a kitchen small enough to work its plan by hand: one pot, one cook, one soup of water and carrots.
//
// As written: 10 kg of water and 4 kg of trimmed carrots simmer an hour in a 20 L pot, 16 L of it to be used, with an open surface of
// 0.2 m² from which 5 kg/m² evaporate in an hour: 1 kg. 13 kg of soup. A pack takes 650 g: 20 packs.
func soupKitchen(t testing.TB) kitchen.Book {
	temp := func(s string) *unit.Temp { x := quantity(t, unit.ParseTemp, s); return &x }
	mass := func(s string) unit.Mass { return quantity(t, unit.ParseMass, s) }
	amount := func(s string) unit.Amount { return quantity(t, unit.ParseAmount, s) }
	span := func(s string) unit.Span { return quantity(t, unit.ParseSpan, s) }
	length := func(s string) unit.Length { return quantity(t, unit.ParseLength, s) }
	clock := func(s string) unit.Clock { return quantity(t, unit.ParseClock, s) }
	none := kitchen.Allergens{Answered: true}
	return kitchen.Book{
		Kitchen:   kitchen.Kitchen{Name: "Test Kitchen", Note: "invented", Currency: "$", Air: temp("20 °C"), VacuumApproval: "test", Energy: kitchen.Energy{Electricity: unit.Tariff(20 * unit.Cent)}},
		People:    map[kitchen.PersonID]kitchen.Person{"ada": {Name: "Ada", Wage: 18_000_000, Shift: kitchen.Shift{From: clock("06:00"), To: clock("20:00")}}},
		Suppliers: map[kitchen.SupplierID]kitchen.Supplier{"farm": {Name: "the farm"}},
		Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{
			"water": {Name: "water", Analysis: &kitchen.Analysis{Water: 100, Source: "pure"}, Free: true, Allergens: none},
			"carrot": {Name: "carrots", Food: "11124", Trim: 20 * unit.PerCent, Allergens: none, Storage: "chilled",
				Buy: []kitchen.Offer{{Supplier: "farm", Pack: amount("2 kg"), Price: 3 * unit.MoneyUnit}, {Supplier: "farm", Pack: amount("10 kg"), Price: 11 * unit.MoneyUnit}}},
		},
		Equipment: map[kitchen.EquipmentID]kitchen.Equipment{
			"pot": {Name: "pot", Kind: kitchen.Vessel, Count: 1, Volume: quantity(t, unit.ParseVolume, "20 L"), Working: 80 * unit.PerCent,
				Diameter: unit.LengthM(0.5046265), Power: quantity(t, unit.ParsePower, "10 kW"), Efficiency: 50 * unit.PerCent, Fuel: kitchen.Electricity}, // 0.2 m²
			"blender": {Name: "blender", Kind: kitchen.Blender, Count: 1, Volume: quantity(t, unit.ParseVolume, "4 L"), Working: 50 * unit.PerCent},
		},
		Chilling: map[kitchen.ChillingID]kitchen.Chilling{"bath": {Name: "ice bath", Method: kitchen.StirredBath, Medium: temp("0 °C"), Count: 1, Vessel: "pot", Wall: 300, Set: span("5 min")}},
		Freezers: map[kitchen.FreezerID]kitchen.Freezer{"chest": {Name: "chest freezer", Count: 1, Volume: quantity(t, unit.ParseVolume, "700 L"), Air: *temp("-20 °C"),
			Cooling: quantity(t, unit.ParsePower, "200 W"), Film: 8, Room: mass("300 kg")}},
		Bags: map[kitchen.BagID]kitchen.Bag{"bag": {Name: "bag", Length: length("20 cm"), Width: length("15 cm"), Price: 10 * unit.Cent}},
		Dishes: map[kitchen.DishID]kitchen.Dish{"soup": {Name: "carrot soup", Steps: []kitchen.Step{{
			ID: "simmer", Do: "Simmer the carrots.", In: []kitchen.EquipmentID{"pot"}, MakeUp: "water", HeatTo: temp("95 °C"), Time: span("1 h"), Hands: kitchen.Hands{Start: span("5 min")},
			Use:   []kitchen.Use{{Of: "water", Amount: amount("10 kg")}, {Of: "carrot", Amount: amount("4 kg")}},
			Loses: kitchen.Losses{Evaporation: 5}, Gives: []kitchen.Output{{ID: "soup", Name: "carrot soup"}},
		}}}},
		Packs: map[kitchen.PackID]kitchen.Pack{"soup-650": {Name: "Carrot soup", Dish: "soup", Fill: []kitchen.Fill{{Of: "soup", Mass: mass("650 g")}}, Bag: "bag", Pace: span("30 s"), Price: 6 * unit.MoneyUnit, Label: 5 * unit.Cent}},
	}
}

func soups(n int) kitchen.Request {
	return kitchen.Request{Name: "test", Want: []kitchen.Want{{Pack: "soup-650", Count: n}}}
}

func table(t testing.TB) *foodtable.Table {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

func makePlan(t testing.TB, book kitchen.Book, req kitchen.Request) plan.Plan {
	t.Helper()
	return plan.Make(context.Background(), book, table(t), req)
}

func has(list finding.List, code string) *finding.Finding {
	for i := range list {
		if list[i].Code == code {
			return &list[i]
		}
	}
	return nil
}
