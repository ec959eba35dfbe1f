package bookform_test

import (
	"net/url"
	"strings"
	"testing"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// house is a small book in which everything that is typed below has a place.
func house(units unit.System) kitchen.Book {
	return kitchen.Book{
		Kitchen:     kitchen.Kitchen{Name: "Test", Units: units},
		Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{"salt": {Name: "salt", Measures: map[string]unit.Amount{"each": {}}, Lots: []kitchen.StockLot{{}}}},
		Freezers:    map[kitchen.FreezerID]kitchen.Freezer{"chest": {Name: "chest"}},
		Equipment:   map[kitchen.EquipmentID]kitchen.Equipment{"pot": {Name: "pot", Kind: kitchen.Vessel, Count: 1}},
		Packs:       map[kitchen.PackID]kitchen.Pack{"ale": {Name: "ale"}},
		People:      map[kitchen.PersonID]kitchen.Person{"sam": {Name: "Sam", Shift: kitchen.Shift{From: 8 * 60, To: 16 * 60}}},
		Safety:      kitchen.Safety{Jurisdiction: "US"},
	}
}

// What cooks type, what the book will say, and what the cook is told. "" is what cannot be read in one way only.
func TestForgiving(t *testing.T) {
	const salt, chest, pot, ale, sam = "ingredients.salt", "freezers.chest", "equipment.pot", "packs.ale", "people.sam"
	for _, c := range []struct {
		path, name, typed, want, read string
	}{
		{ale, ".serving", "2 lb 3", "2 lb 3 oz", "Read as 2 lb 3 oz, 992 g"},
		{ale, ".serving", "2.5 lbs", "2.5 lb", "Read as 2.5 lb, 1.13 kg"},
		{ale, ".serving", "12oz", "12 oz", "340 g"},
		{ale, ".serving", "2 lb and 3 1/2", "2 lb 3 1/2 oz", "Read as 2 lb 3 1/2 oz, 1.01 kg"},
		{ale, ".serving", "2-1/2 pounds", "2 1/2 lb", "Read as 2 1/2 lb, 1.13 kg"},
		{ale, ".serving", "5#", "5 lb", "Read as 5 lb, 2.27 kg"},
		{ale, ".serving", "1,5 kg", "1.5 kg", "Read as 1.5 kg, 3 lb 5 oz"},
		{ale, ".serving", "0,250 kg", "0.25 kg", "Read as 0.25 kg, 8 3/4 oz"},
		{ale, ".serving", "1,250 g", "1250 g", "Read as 1250 g, 2 lb 12 oz"},
		{ale, ".serving", "1 kg 200", "1 kg 200 g", "Read as 1 kg 200 g, 2 lb 10 oz"},
		{ale, ".serving", "12", "", ""},
		{ale, ".serving", "1/2 c", "", ""},
		{salt, ".stock", "1/2 c", "1/2 cup", "Read as 1/2 cup, 118 ml"},
		{salt, ".stock", "1 gal 2", "1 gal 2 qt", "Read as 1 gal 2 qt, 5.68 L"},
		{salt, ".stock", "3", "", ""},
		{salt, ".stock", "3 Bunches", "3 bunches", "Read as 3 bunches"},
		{salt, ".trim", "50%", "50 %", ""},
		{salt, ".trim", "50", "50 %", "Read as 50 %"},
		{salt, ".trim", "12,5", "12.5 %", "Read as 12.5 %"},
		{salt, ".trim", "1/4", "25 %", "Read as 25 %"},
		{salt, ".trim", "0.5", "", ""},
		{chest, ".air", "-10", "-10 °F", "Read as -10 °F, -23 °C"},
		{chest, ".air", "0", "0 °F", "Read as 0 °F, -18 °C"},
		{chest, ".air", "165 degrees", "165 °F", "Read as 165 °F, 74 °C"},
		{chest, ".air", "-18 c", "-18 °C", "Read as -18 °C, 0 °F"},
		{chest, ".air", "hot", "", ""},
		{ale, ".pace", "1 hr 30", "1 h 30 min", "Read as 1 h 30 min"},
		{ale, ".pace", "1:30", "1 h 30 min", "Read as 1 h 30 min"},
		{ale, ".pace", "90", "90 min", "Read as 90 min"},
		{ale, ".pace", "1,5 h", "1.5 h", "Read as 1.5 h"},
		{ale, ".pace", "2 min 30", "2 min 30 s", "Read as 2 min 30 s"},
		{ale, ".pace", "1.5", "", ""},
		{ale, ".price", "$4", "$4.00", "Read as $4.00"},
		{ale, ".price", "4.50", "$4.50", ""},
		{ale, ".price", "4,50", "$4.50", "Read as $4.50"},
		{ale, ".price", ".49", "$0.49", "Read as $0.49"},
		{ale, ".price", "49¢", "$0.49", "Read as $0.49"},
		{ale, ".price", "1,250.00", "$1250.00", "Read as $1250.00"},
		{ale, ".price", "dear", "", ""},
		{sam, ".wage", "19.5", "$19.50/h", "Read as $19.50/h"},
		{sam, ".wage", "$20 an hour", "$20.00/h", "Read as $20.00/h"},
		{sam, ".shift.from", "6:30", "06:30", "Read as 06:30"},
		{sam, ".shift.from", "6.30 am", "06:30", "Read as 06:30"},
		{sam, ".shift.from", "12 am", "00:00", "Read as 00:00"},
		{sam, ".shift.to", "3 p.m.", "15:00", "Read as 15:00"},
		{sam, ".shift.to", "1530", "15:30", "Read as 15:30"},
		{sam, ".shift.to", "noon", "12:00", "Read as 12:00"},
		{sam, ".shift.to", "25:00", "", ""},
		{sam, ".shift.to", "14 pm", "", ""},
		{salt, ".lots[0].until", "5 Dec 2026", "2026-12-05", "Read as 2026-12-05"},
		{salt, ".lots[0].until", "Dec. 5th, 2026", "2026-12-05", "Read as 2026-12-05"},
		{salt, ".lots[0].until", "12/25/2026", "2026-12-25", "Read as 2026-12-25"},
		{salt, ".lots[0].until", "2026/2/3", "2026-02-03", "Read as 2026-02-03"},
		{salt, ".lots[0].until", "3/4/2026", "", ""},
		{salt, ".lots[0].until", "2026-02-30", "", ""},
		{"safety", ".from", "1 Jan 2027", "2027-01-01", "Read as 2027-01-01"},
		{pot, ".diameter", `14"`, "14 in", "Read as 14 in, 35.6 cm"},
		{pot, ".diameter", `1' 4"`, "1 ft 4 in", "Read as 1 ft 4 in, 40.6 cm"},
		{pot, ".power", "30k btu", "30000 Btu/h", "Read as 30000 Btu/h"},
		{pot, ".power", "24KW", "24 kW", "Read as 24 kW"},
		{pot, ".count", "1,200", "1200", "Read as 1200"},
		{pot, ".count", "two", "", ""},
		{pot, ".kind", "Oven", "oven", "Read as oven"},
		{pot, ".kind", "ovn", "", ""},
	} {
		book := house(unit.US)
		form, err := bookform.Make(book, c.path, url.Values{c.name: {c.typed}, ".lots": {""}, ".lots[0]@": {"0"}})
		if err != nil {
			t.Fatal(err)
		}
		f, ok := form.Field(c.name)
		if !ok || f.Typed != c.typed {
			t.Fatalf("%s: the form has %q after %q was typed", c.name, f.Typed, c.typed)
		}
		if c.want == "" {
			if f.Problem == "" || f.Read != "" {
				t.Errorf("%s %q: no problem, %q", c.name, c.typed, f.Read)
			}
			continue
		}
		if f.Problem != "" || f.Read != c.read {
			t.Errorf("%s %q: read %q, want %q, %s", c.name, c.typed, f.Read, c.read, f.Problem)
		}
		changes, _, err := bookform.Changes(book, c.path, url.Values{c.name: {c.typed}})
		if strings.Contains(c.name, "[") { // the row is in the form
			changes, _, err = bookform.Changes(book, c.path, url.Values{c.name: {c.typed}, ".lots": {""}, ".lots[0]@": {"0"}, ".lots[0].amount": {"1 lb"}})
			changes = changes[len(changes)-1:]
		}
		if err != nil || len(changes) != 1 || changes[0].Do != bookfile.DoSet || changes[0].Value != c.want {
			t.Errorf("%s %q: %v, %v, want %q", c.name, c.typed, changes, err, c.want)
		}
	}
}

// A kitchen that reads metric has its bare temperatures in °C.
func TestBareTemperatureIsTheKitchens(t *testing.T) {
	changes, _, err := bookform.Changes(house(unit.Metric), "freezers.chest", url.Values{".air": {"-22"}})
	if err != nil || len(changes) != 1 || changes[0].Value != "-22 °C" {
		t.Errorf("%v, %v", changes, err)
	}
}

// Whatever is typed is either read, and then the tidy text reads as the same, or told as a problem with something to do.
func FuzzTyped(f *testing.F) {
	for _, s := range []string{"2 lb 3", "1/2 c", "165", "0.5", "1 hr 30", "50%", "$4", "6.30 am", "1,5 kg", "1' 4\"", "5#", "3/4/2026", "<script>", "\x00", "∞", "-", "1,2,3,4", "9999999999999999999 lb"} {
		f.Add(s)
	}
	fields := []struct{ path, name string }{
		{"packs.ale", ".serving"}, {"ingredients.salt", ".stock"}, {"ingredients.salt", ".trim"}, {"ingredients.salt", ".density"}, {"freezers.chest", ".air"}, {"packs.ale", ".pace"}, {"packs.ale", ".price"},
		{"people.sam", ".wage"}, {"people.sam", ".shift.from"}, {"safety", ".from"}, {"equipment.pot", ".diameter"}, {"equipment.pot", ".power"}, {"equipment.pot", ".count"}, {"kitchen", ".energy.gas"},
		{"kitchen", ".labels.business.staff"}, {"kitchen", ".prices-end"}, {"people.sam", ".can"}, {"ingredients.salt", ".allergens"},
	}
	book := house(unit.US)
	f.Fuzz(func(t *testing.T, text string) {
		for _, x := range fields {
			typed := url.Values{x.name: {text}}
			changes, problems, err := bookform.Changes(book, x.path, typed)
			if err != nil {
				t.Fatal(err)
			}
			if len(problems) > 0 {
				if problems[0].Text == "" || len(changes) > 0 {
					t.Errorf("%s %q: %v %v", x.name, text, problems, changes)
				}
				continue
			}
			for _, c := range changes {
				tidy, ok := c.Value.(string)
				if !ok || c.Path != x.path+x.name {
					continue
				}
				again, problems, err := bookform.Changes(book, x.path, url.Values{x.name: {tidy}})
				if err != nil || len(problems) > 0 || len(again) != 1 || again[0].Value != tidy {
					t.Errorf("%s %q: tidy %q reads as %v, %v", x.name, text, tidy, again, problems)
				}
			}
		}
	})
}
