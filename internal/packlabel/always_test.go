package packlabel_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/allergen"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func allergenNames() (names []string) {
	for _, m := range allergen.Majors() {
		names = append(names, m.Label)
	}
	return names
}

// drawn is a pot of anything: ingredients with and without figures and answers, water that boils off, fat that comes out, what sticks.
func drawn(t *rapid.T) (b kitchen.Book, answered bool) {
	b = lentilSoup()
	answered = true
	s := &b.Dishes["soup"].Steps[0]
	s.Use = []kitchen.Use{{Of: "water", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 4 * unit.Kilogram}}}
	s.Loses = kitchen.Losses{ReduceTo: unit.ShareOf(rapid.Float64Range(0.8, 1).Draw(t, "reduced to")), Fat: unit.ShareOf(rapid.Float64Range(0, 0.02).Draw(t, "fat that comes out")), Residue: unit.Mass(rapid.Int64Range(0, int64(300*unit.Gram)).Draw(t, "sticks"))}
	maybe := func(what string, most float64) *float64 {
		if rapid.IntRange(0, 9).Draw(t, what+" given") == 0 {
			return nil
		}
		x := rapid.Float64Range(0, most).Draw(t, what)
		return &x
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "ingredients") {
		id := kitchen.IngredientID(fmt.Sprintf("i%d", i))
		fat, carb, protein := rapid.Float64Range(0, 30).Draw(t, "fat"), rapid.Float64Range(0, 30).Draw(t, "carbohydrate"), rapid.Float64Range(0, 30).Draw(t, "protein")
		a := kitchen.Analysis{Fat: fat, Carb: carb, Protein: protein, Ash: 2, Water: 98 - fat - carb - protein, Source: "drawn", SatFat: maybe("saturated", fat/2), TransFat: maybe("trans", fat/2), Cholesterol: maybe("cholesterol", 100),
			Sodium: maybe("sodium", 900), Fibre: maybe("fibre", carb/2), Sugars: maybe("sugars", carb/2), Calcium: maybe("calcium", 300), Iron: maybe("iron", 5), Potassium: maybe("potassium", 900), VitaminD: maybe("vitamin D", 3)}
		if a.Sugars != nil {
			a.AddedSugars = maybe("added sugars", *a.Sugars)
		}
		ing := kitchen.Ingredient{Name: "ingredient " + string(id), Class: "dry", Analysis: &a, Allergens: rapid.SampledFrom([]kitchen.Allergens{none(), none(), with("milk"), with("fish: cod", "wheat"), {}}).Draw(t, "allergens")}
		answered = answered && ing.Allergens.Answered
		b.Ingredients[id] = ing
		s.Use = append(s.Use, kitchen.Use{Of: id, Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Mass(rapid.Int64Range(int64(unit.Gram), int64(3*unit.Kilogram)).Draw(t, "mass"))}})
	}
	return b, answered
}

// Whatever is in the pot: the list has all that was put in and is in order; no label with an allergen that nobody answered is ever printed; a figure
// that is not known is never printed as if it were; what a pack is made of adds up to it.
func TestAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, answered := drawn(t)
		a := packlabel.Asked{Book: b, Foods: table, Pack: "pack", Lot: packlabel.Lot{Code: "L-1", Packed: "2026-12-01"}}
		if rapid.Bool().Draw(t, "exempt") {
			a.Business = labelrule.Business{Staff: 2, YearlyUnits: 100}
		}
		l, err := packlabel.Of(a)
		if err != nil {
			t.Fatal(err)
		}
		inside, err := plan.InsideOf(b, table, "pack")
		if err != nil {
			t.Fatal(err)
		}
		put, listed := unit.Mass(0), unit.Mass(0)
		for _, h := range inside.Held {
			put += unit.MassKg(h.PutIn)
		}
		for i, item := range l.Statement.Items {
			listed += item.Mass
			if i > 0 && item.Mass > l.Statement.Items[i-1].Mass {
				t.Fatalf("%s stands behind less of it", item.Name)
			}
		}
		if put != listed {
			t.Fatalf("%v was put in, and %v is declared", put, listed)
		}
		if !answered && (!l.Withheld() || len(l.Sides) > 0 || l.Statement.Contains != "" || l.Hash != "") {
			t.Fatal("a label is printed that has no answer about its allergens")
		}
		if l.Withheld() == (len(l.Sides) > 0) {
			t.Fatalf("withheld %v with %d sides", l.Withheld(), len(l.Sides))
		}
		known(t, l)
		water, fat := 0.0, 0.0
		for _, h := range inside.Held {
			water += 1000 * h.Water
			fat += 1000 * h.Fat
		}
		if got := l.Food.Amounts; math.Abs(got[nutrition.Water].Least-water) > 0.01 || math.Abs(got[nutrition.Fat].Least-fat) > 0.01 {
			t.Fatalf("%v g of water and %v g of fat in the pack, and the panel is made with %v and %v", water, fat, got[nutrition.Water].Least, got[nutrition.Fat].Least)
		}
	})
}

var table = foods(quiet{})

// known holds every line that is printed to being known, or bounded to print the same.
func known(t *rapid.T, l packlabel.Label) {
	if l.Panel == nil {
		t.Fatal("there is no panel")
	}
	for _, row := range l.Panel.Rows {
		for _, c := range row.Cells {
			most, bounded := c.Actual.Most.Get()
			if len(c.Actual.Missing) == 0 || c.Amount == "" {
				continue
			}
			same := func(p nutrition.Print) bool { return p.Text == c.Amount }
			if may := nutrition.Allowed(lines[row.Nutrient], most); !bounded || !slices.ContainsFunc(may, same) {
				t.Fatalf("%s prints %q, and there may be %v", row.Name, c.Amount, most)
			}
		}
	}
	if l.Content.Panel == nil {
		return
	}
	for _, line := range l.Content.Panel.Lines {
		if slices.Contains(line.Amounts, "") {
			t.Fatalf("a line without its amount is printed: %v", line)
		}
	}
}

// lines are what the tables of rules call nutrients.
var lines = map[nutrition.Nutrient]string{nutrition.Fat: "total_fat", nutrition.SaturatedFat: "saturated_fat", nutrition.TransFat: "trans_fat", nutrition.Cholesterol: "cholesterol", nutrition.Sodium: "sodium",
	nutrition.Carbohydrate: "total_carbohydrate", nutrition.Fibre: "dietary_fiber", nutrition.Sugars: "total_sugars", nutrition.AddedSugars: "added_sugars", nutrition.Protein: "protein", nutrition.VitaminD: "vitamin_d",
	nutrition.Calcium: "calcium", nutrition.Iron: "iron", nutrition.Potassium: "potassium"}

// quiet is who reads the table before there is a test.
type quiet struct{ testing.TB }

func (quiet) Helper() {}

func (quiet) Fatal(args ...any) { panic(fmt.Sprint(args...)) }
