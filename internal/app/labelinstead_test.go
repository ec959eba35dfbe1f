package app

import (
	"slices"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// What went into a lot by the records is what its label must name: what stood in as the dish allows, by its share, and nothing that no line of the
// dish has.
func TestWhatWentIntoALot(t *testing.T) {
	book := kitchen.Book{
		Dishes: map[kitchen.DishID]kitchen.Dish{"soup": {Steps: []kitchen.Step{{ID: "simmer", Use: []kitchen.Use{{Of: "cream", Instead: []kitchen.IngredientID{"cashew"}}, {Of: "leek"}}}}}},
		Packs:  map[kitchen.PackID]kitchen.Pack{"soup-lb": {Dish: "soup"}},
	}
	for name, c := range map[string]struct {
		used     map[string]unit.Mass
		instead  []packlabel.Instead
		stranger string
	}{
		"as written":               {map[string]unit.Mass{"cream": unit.Kilogram, "leek": unit.Kilogram}, nil, ""},
		"all of it":                {map[string]unit.Mass{"cashew": unit.Kilogram, "leek": unit.Kilogram}, []packlabel.Instead{{Of: "cream", By: "cashew"}}, ""},
		"a quarter of it":          {map[string]unit.Mass{"cashew": unit.Kilogram, "cream": 3 * unit.Kilogram}, []packlabel.Instead{{Of: "cream", By: "cashew", Share: 25 * unit.PerCent}}, ""},
		"what no line of it knows": {map[string]unit.Mass{"cream": unit.Kilogram, "almond": unit.Gram}, nil, "ingredients.almond"},
	} {
		t.Run(name, func(t *testing.T) {
			bodies := []record.Body{}
			for what, m := range c.used {
				bodies = append(bodies, record.Received{Lot: record.Lot("R-" + what), Ingredient: what, Supplier: "Farm", Mass: 5 * unit.Kilogram}, record.Used{Run: "mon", Dish: "soup", Lot: record.Lot("R-" + what), Mass: m})
			}
			n, _ := record.ParseNumbers("1-4")
			bodies = append(bodies, record.Made{Run: "mon", Dish: "soup", Output: "soup", Lot: "M-1", Mass: 2 * unit.Kilogram},
				record.Packed{Run: "mon", Pack: "soup-lb", Lot: "P-1", Numbers: n, Label: unit.Pound, Mass: 4 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: 4 * unit.Pound}}, BestBefore: "2027-03-03"})
			var entries []record.Entry
			for i, b := range bodies {
				e, err := record.Say(record.ID{byte(i + 1)}, record.Instant(i+1), "Ada", "test", b)
				if err != nil {
					t.Fatal(err)
				}
				entries = append(entries, e)
			}
			state, _ := lots.Of(slices.Values(entries))
			in := wentInto(book, state, state.Lot("P-1"))
			if got := in.instead(book); !slices.Equal(got, c.instead) {
				t.Errorf("%+v, want %+v", got, c.instead)
			}
			stranger := ""
			for _, f := range in.strangers(book, "P-1") {
				stranger += f.Path
			}
			if stranger != c.stranger {
				t.Errorf("%q, want %q", stranger, c.stranger)
			}
		})
	}
}
