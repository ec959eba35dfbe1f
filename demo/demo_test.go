package demo_test

import (
	"bufio"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

func book(t *testing.T) (kitchen.Book, *foodtable.Table) {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return bookfile.Read(demo.Book()).Book, foods
}

func TestNothingIsWrongWithTheBook(t *testing.T) {
	_, foods := book(t)
	loaded := bookfile.Read(demo.Book())
	known := func(ndb string) bool { _, ok := foods.Lookup(ndb); return ok }
	for _, f := range append(loaded.Findings, loaded.Place(kitchen.Check(loaded.Book, known))...) {
		t.Error(f)
	}
	if len(loaded.Book.Dishes) < 5 || len(loaded.Book.Runs) < 4 {
		t.Errorf("the book has %d dishes and %d runs", len(loaded.Book.Dishes), len(loaded.Book.Runs))
	}
}

func TestEveryFileSaysThatItIsInvented(t *testing.T) {
	files := 0
	err := fs.WalkDir(demo.Book(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		files++
		f, err := demo.Book().Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		lines := bufio.NewScanner(f)
		if !lines.Scan() || !strings.HasPrefix(lines.Text(), "# Invented demo data") {
			t.Errorf("%s begins with %q", name, lines.Text())
		}
		return lines.Err()
	})
	if err != nil || files == 0 {
		t.Fatalf("%d files, %v", files, err)
	}
	if b, _ := book(t); !strings.Contains(b.Kitchen.Note, "invented") {
		t.Error("the kitchen's note does not say that it is invented")
	}
}

func TestAnalysesAddUpTo100(t *testing.T) {
	b, _ := book(t)
	for id, ing := range b.Ingredients {
		if a := ing.Analysis; a != nil {
			if sum := a.Water + a.Protein + a.Fat + a.Carb + a.Ash + a.Alcohol; math.Abs(sum-100) > 1e-9 {
				t.Errorf("%s adds up to %v g", id, sum)
			}
		}
	}
}

// Sodium in trisodium citrate dihydrate: 3 × 22.990 / 294.10 = 23.45 %; water 2 × 18.015 / 294.10 = 12.25 % (atomic weights).
func TestCitrateIsItsFormula(t *testing.T) {
	b, _ := book(t)
	a := b.Ingredients["sodium-citrate"].Analysis
	if math.Abs(*a.Sodium-3*22.990/294.10*100_000) > 10 || math.Abs(a.Water-2*18.015/294.10*100) > 0.01 {
		t.Errorf("sodium %v mg and water %v g in 100 g", *a.Sodium, a.Water)
	}
}

// The numbers must point at what the kitchen buys: raw or dry where it cooks it itself, salted or not. Descriptions are USDA's.
func TestFoodRowsAreTheRightOnes(t *testing.T) {
	b, foods := book(t)
	for id, want := range map[kitchen.IngredientID]string{
		"bacon": "Pork, cured, bacon, unprepared", "turkey": "Ground turkey, raw", "white-bean": "Beans, white, mature seeds, raw",
		"red-lentil": "Lentils, pink or red, raw", "crimini": "Mushrooms, brown, italian, or crimini, raw", "butter": "Butter, without salt",
		"tomato-paste": "Tomato products, canned, paste, without salt added", "crushed-tomato": "Tomatoes, crushed, canned",
		"leek": "Leeks, (bulb and lower leaf-portion), raw", "fennel": "Fennel, bulb, raw", "fennel-seed": "Spices, fennel seed",
		"butternut": "Squash, winter, butternut, raw", "ale": "Alcoholic beverage, beer, regular, all", "white-wine": "Alcoholic beverage, wine, table, white",
		"coconut-milk": "Nuts, coconut milk, canned (liquid expressed from grated meat and water)", "egg": "Egg, whole, raw, frozen, pasteurized",
		"crumbs": "Bread crumbs, dry, grated, plain", "lard": "Lard", "cheddar": "Cheese, cheddar", "salt": "Salt, table", "celery": "Celery, raw",
	} {
		if food, _ := foods.Lookup(b.Ingredients[id].Food); food.Description != want {
			t.Errorf("%s is %q in the table, not %q", id, food.Description, want)
		}
	}
}

// Densities that turn volumes into mass stay within 2 % of the table's liquids and pastes. Left out: vegetable broth, of which the
// table's cup of 221 g is lighter than water; the book has the 1.01 kg/L of broths.
func TestDensitiesAreTheTables(t *testing.T) {
	b, foods := book(t)
	compared := 0
	for id, ing := range b.Ingredients {
		d, ok := foods.Density(ing.Food, "")
		if !ok || d.Kind != foodtable.Liquid || ing.Density == 0 || id == "vegetable-broth" {
			continue
		}
		compared++
		if math.Abs(float64(ing.Density/d.KgPerL)-1) > 0.02 {
			t.Errorf("%s: %v kg/L, in the table %v", id, ing.Density, d.KgPerL)
		}
	}
	if compared < 12 {
		t.Errorf("only %d densities were compared", compared)
	}
}

// A kitchen's trim is never kinder than the careful trim of the table (refuse). Left out: leek, of which the kitchen keeps the pale
// green, and garlic, which comes peeled.
func TestTrimIsNoLessThanTheTables(t *testing.T) {
	b, foods := book(t)
	compared := 0
	for id, ing := range b.Ingredients {
		food, ok := foods.Lookup(ing.Food)
		if refuse := food.RefusePct.Or(0); ok && refuse > 0 && id != "leek" && id != "garlic" {
			compared++
			if 100*ing.Trim.F() < refuse {
				t.Errorf("%s: trim %v, the table's refuse is %v %%", id, ing.Trim, refuse)
			}
		}
	}
	if compared < 6 {
		t.Errorf("only %d trims were compared", compared)
	}
}

// Water and fat that bacon gives up in the pan follow from the USDA rows of raw (10123) and pan-fried bacon (10862), if it keeps its
// protein.
func TestBaconRendersAsInTheTable(t *testing.T) {
	b, foods := book(t)
	raw, _ := foods.Lookup("10123")
	fried, _ := foods.Lookup("10862")
	kept := raw.Per100g.ProteinG.Or(0) / fried.Per100g.ProteinG.Or(math.NaN())
	wantFat := raw.Per100g.FatG.Or(0) - kept*fried.Per100g.FatG.Or(math.NaN())
	wantWater := raw.Per100g.WaterG.Or(0) - kept*fried.Per100g.WaterG.Or(math.NaN())
	render := step(t, b.Dishes["bean-pot"], "render")
	fat := render.Gives[1]
	if got := 100 * fat.Takes.F(); fat.Part != kitchen.Fat || !(math.Abs(got-wantFat) < 0.1) {
		t.Errorf("%s: %v %%, from the table %v %%", fat.ID, got, wantFat)
	}
	if got := 100 * render.Loses.Water.F(); !(math.Abs(got-wantWater) < 0.1) {
		t.Errorf("water: %v %%, from the table %v %%", got, wantWater)
	}
}

// Published spans: sodium citrate 2-4 % of the cheese (web guides) and, for process cheese, at most 3 % of the whole (3 CCR 425, used
// here as a ceiling); xanthan 0.15-0.3 % of a thick sauce (a maker's page); roux flour 4.4-8.7 % of the milk, thin to thick
// (professional cookery textbook, by weight); a pre-hydrate of xanthan above 1.5 % needs a strong mixer (common practice).
func TestDosesOfTheCheeseSauce(t *testing.T) {
	b, _ := book(t)
	dish := b.Dishes["ale-cheddar"]
	used := map[kitchen.IngredientID]float64{}
	total := 0.0
	for _, s := range dish.Steps {
		for _, u := range s.Use {
			if u.Of != "" {
				used[u.Of] += kilograms(t, b, u)
				total += kilograms(t, b, u)
			}
		}
	}
	hydrate := kilograms(t, b, step(t, dish, "hydrate").Use[1])
	for _, dose := range []struct {
		name           string
		got, low, high float64
	}{
		{"citrate on cheese", used["sodium-citrate"] / used["cheddar"], 0.02, 0.04},
		{"citrate on the whole", used["sodium-citrate"] / total, 0, 0.03},
		{"xanthan on the whole", used["xanthan"] / total, 0.0015, 0.003},
		{"xanthan in its milk", used["xanthan"] / hydrate, 0, 0.015},
		{"flour on milk and ale", used["flour"] / (used["milk"] + used["ale"]), 0.0436, 0.0871},
	} {
		if dose.got < dose.low || dose.got > dose.high {
			t.Errorf("%s: %.4f, published %v to %v", dose.name, dose.got, dose.low, dose.high)
		}
	}
}

// What a pack must declare, read off the recipes by hand.
func TestAllergensOfThePacks(t *testing.T) {
	b, _ := book(t)
	for id, want := range map[kitchen.DishID][]string{
		"ale-cheddar":      {"fish: anchovy", "milk", "wheat"},
		"bean-pot":         nil,
		"lentil-squash":    nil,
		"mushroom-filling": {"milk", "tree nuts: chestnut", "wheat"},
		"turkey-meatballs": {"egg", "milk", "wheat"},
	} {
		var got []string
		for _, s := range b.Dishes[id].Steps {
			for _, u := range s.Use {
				got = append(got, b.Ingredients[u.Of].Allergens.Names...)
			}
		}
		slices.Sort(got)
		if got = slices.Compact(got); !slices.Equal(got, want) {
			t.Errorf("%s declares %q, want %q", id, got, want)
		}
	}
	for id, ing := range b.Ingredients {
		if !ing.Allergens.Answered {
			t.Errorf("nobody has said which allergens are in %s", id)
		}
	}
}
