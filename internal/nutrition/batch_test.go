package nutrition_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

func near(t *testing.T, what string, got nutrition.Amount, want float64) {
	t.Helper()
	if x, whole := got.Get(); !whole || math.Abs(x-want) > 1e-9*max(1, want) {
		t.Errorf("%s: %+v, want %.6g", what, got, want)
	}
}

func tableFood(t testing.TB, ndb string) nutrition.Composition {
	t.Helper()
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	f, ok := table.Lookup(ndb)
	if !ok {
		t.Fatalf("no food %s", ndb)
	}
	return nutrition.FromTable(f.Per100g)
}

// plain is a composition with everything given: zero but for what is set.
func plain(set map[nutrition.Nutrient]float64) (c nutrition.Composition) {
	for n := range c {
		c[n] = foodtable.Given(set[nutrition.Nutrient(n)])
	}
	return c
}

// A soup worked by hand: 600 g of water and 400 g of broth with cream boil down from 1000 g to 800 g, 20 g of fat having been skimmed.
func TestSoupByHand(t *testing.T) {
	water := plain(map[nutrition.Nutrient]float64{nutrition.Water: 100})
	broth := plain(map[nutrition.Nutrient]float64{nutrition.Water: 70, nutrition.Protein: 6, nutrition.Fat: 10, nutrition.SaturatedFat: 4,
		nutrition.Carbohydrate: 12, nutrition.Sodium: 500, nutrition.Cholesterol: 40, nutrition.Energy: 160, nutrition.Calcium: 50})
	f, err := nutrition.Of(nutrition.Batch{
		Parts:    []nutrition.Part{{Name: "water", Mass: 600 * unit.Gram, Per100g: water}, {Name: "broth", Mass: 400 * unit.Gram, Per100g: broth}},
		Skimmed:  []nutrition.Skimmed{{Part: "broth", Mass: 20 * unit.Gram}},
		Finished: 800 * unit.Gram,
	})
	if err != nil {
		t.Fatal(err)
	}
	a := f.Per100g() // an eighth of what is left
	near(t, "protein", a[nutrition.Protein], 24.0/8)
	near(t, "fat", a[nutrition.Fat], 20.0/8) // 40 less 20
	near(t, "saturated", a[nutrition.SaturatedFat], 8.0/8)
	near(t, "sodium", a[nutrition.Sodium], 2000.0/8)
	near(t, "cholesterol", a[nutrition.Cholesterol], 160.0/8) // stays
	near(t, "energy of the table", a[nutrition.Energy], (640.0-180)/8)
	near(t, "energy by factors", a.GeneralEnergy(), (4*24.0+4*48+9*20)/8)
	near(t, "water", a[nutrition.Water], (880.0-180)/8) // 1000 - 800 - 20 evaporated
	w := a.EnergyWays()
	if !w.Known || math.Abs(w.OffKcal-(468.0-460)/8) > 1e-9 || math.Abs(w.OffShare-8.0/460) > 1e-9 {
		t.Errorf("ways %+v", w)
	}
	near(t, "sodium of a pack", f.In(400 * unit.Gram)[nutrition.Sodium], 1000)
}

// Wine simmered for 2 hours keeps a tenth of its alcohol: USDA table of retention factors, release 6, code 5008 (read). 7 kcal leave with each
// gram. That row has no factor for potassium.
func TestAlcoholLeaves(t *testing.T) {
	wine := plain(map[nutrition.Nutrient]float64{nutrition.Water: 89.4, nutrition.Alcohol: 10.6, nutrition.Energy: 74.2, nutrition.Potassium: 100})
	f, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: "wine", Mass: 1000 * unit.Gram, Per100g: wine, Kept: "5008"}}, Finished: 600 * unit.Gram})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "alcohol", f.Amounts[nutrition.Alcohol], 106*0.10)
	near(t, "energy", f.Amounts[nutrition.Energy], 742-7*106*(1-0.10))
	near(t, "potassium, no factor given", f.Amounts[nutrition.Potassium], 1000)
	near(t, "water", f.Amounts[nutrition.Water], 894-(400-106*(1-0.10)))
}

// Who weighs a pot by a mass flow that knows of no alcohol that leaves weighs it as it went in: the alcohol is gone all the same.
func TestAlcoholThatNobodyWeighed(t *testing.T) {
	wine := plain(map[nutrition.Nutrient]float64{nutrition.Water: 90, nutrition.Alcohol: 10})
	f, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: "wine", Mass: 100 * unit.Gram, Per100g: wine, Kept: "5008"}}, Finished: 100 * unit.Gram})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "alcohol", f.Amounts[nutrition.Alcohol], 1)
	near(t, "water", f.Amounts[nutrition.Water], 90)
}

// A pack of 300 g of stew and 150 g of rice, by hand.
func TestTogether(t *testing.T) {
	of := func(g unit.Mass, protein float64) nutrition.Food {
		f, err := nutrition.Of(nutrition.Batch{Finished: g, Parts: []nutrition.Part{{Name: "it", Mass: g, Per100g: plain(map[nutrition.Nutrient]float64{nutrition.Protein: protein})}}})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	pack := nutrition.Together(of(300*unit.Gram, 8), of(150*unit.Gram, 2))
	near(t, "protein of the pack", pack.Amounts[nutrition.Protein], 27)
	near(t, "protein in 100 g", pack.Per100g()[nutrition.Protein], 6)
	if none := nutrition.Together(); none.Mass != 0 {
		t.Errorf("%+v", none)
	}
}

// What a mass flow says is left of a part goes before codes and skimming: the cream soup's fat and the wine's alcohol, by hand.
func TestLeftByAMassFlow(t *testing.T) {
	meat := plain(map[nutrition.Nutrient]float64{nutrition.Water: 70, nutrition.Protein: 15, nutrition.Fat: 15, nutrition.SaturatedFat: 6, nutrition.Energy: 195})
	wine := plain(map[nutrition.Nutrient]float64{nutrition.Water: 90, nutrition.Alcohol: 10, nutrition.Energy: 70})
	f, err := nutrition.Of(nutrition.Batch{Finished: 250 * unit.Gram, Parts: []nutrition.Part{
		{Name: "meat", Mass: 200 * unit.Gram, Per100g: meat, FatLeft: foodtable.Given(20)},
		{Name: "wine", Mass: 100 * unit.Gram, Per100g: wine, AlcoholLeft: foodtable.Given(3), Kept: "5008"},
	}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "fat", f.Amounts[nutrition.Fat], 20)
	near(t, "saturated", f.Amounts[nutrition.SaturatedFat], 8)
	near(t, "alcohol", f.Amounts[nutrition.Alcohol], 3)
	near(t, "energy", f.Amounts[nutrition.Energy], 390-90+70-49)
	near(t, "water", f.Amounts[nutrition.Water], 230-(50-10-7))
}

// Chicken simmered and its drippings poured away: USDA release 6, code 0851, keeps 80 % of the calcium, 90 of the iron, 60 of the potassium and
// 70 of the sodium (read).
func TestMineralsStayInTheDrippings(t *testing.T) {
	c := plain(map[nutrition.Nutrient]float64{nutrition.Water: 70, nutrition.Protein: 20, nutrition.Calcium: 10, nutrition.Iron: 1, nutrition.Potassium: 200, nutrition.Sodium: 80, nutrition.VitaminD: 0.2})
	f, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: "chicken", Mass: 100 * unit.Gram, Per100g: c, Kept: "0851"}}, Finished: 75 * unit.Gram})
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range map[nutrition.Nutrient]float64{nutrition.Calcium: 8, nutrition.Iron: 0.9, nutrition.Potassium: 120, nutrition.Sodium: 56,
		nutrition.Protein: 20, nutrition.VitaminD: 0.2} {
		near(t, n.String(), f.Amounts[n], want)
	}
}

// What a part does not say is a gap with its name: no zero, and as little as can be is left open.
func TestGapsAreNamed(t *testing.T) {
	salt := plain(map[nutrition.Nutrient]float64{nutrition.Sodium: 38758})
	salt[nutrition.AddedSugars] = foodtable.Value{} // not said, but there are no sugars in it
	sauce := plain(map[nutrition.Nutrient]float64{nutrition.Water: 80, nutrition.Carbohydrate: 20, nutrition.Fat: 2})
	sauce[nutrition.Sugars], sauce[nutrition.AddedSugars] = foodtable.Given(9), foodtable.Value{}
	sauce[nutrition.TransFat], sauce[nutrition.Sodium] = foodtable.Value{}, foodtable.Value{}
	f, err := nutrition.Of(nutrition.Batch{
		Parts:    []nutrition.Part{{Name: "salt", Mass: 10 * unit.Gram, Per100g: salt}, {Name: "sauce", Mass: 490 * unit.Gram, Per100g: sauce}},
		Finished: 500 * unit.Gram,
	})
	if err != nil {
		t.Fatal(err)
	}
	for n, most := range map[nutrition.Nutrient]foodtable.Value{
		nutrition.AddedSugars: foodtable.Given(44.1), nutrition.TransFat: foodtable.Given(9.8), nutrition.Sodium: {}} {
		a := f.Amounts[n]
		_, whole := a.Get()
		if whole || len(a.Missing) != 1 || a.Missing[0].Part != "sauce" || math.Abs(a.Most.Or(-1)-most.Or(-1)) > 1e-9 || a.Most.IsGiven() != most.IsGiven() {
			t.Errorf("%v: %+v, want sauce missing and at most %v", n, a, most)
		}
	}
	if got := f.Amounts[nutrition.Sodium].Least; math.Abs(got-3875.8) > 1e-9 {
		t.Errorf("at least %g mg of sodium, want the salt's 3875.8", got)
	}
	near(t, "saturated fat", f.Amounts[nutrition.SaturatedFat], 0)
}

// What the others leave bounds what is not given, by hand: 1 g of fat of which 0.2 g are saturated leaves 0.8 for trans fat; 76 g of carbohydrate
// with 3 g of fibre leave 73 for sugars, and added sugars are no more than those; 99.8 g of the rest leave 0.2 for alcohol.
func TestBounds(t *testing.T) {
	flour := plain(map[nutrition.Nutrient]float64{nutrition.Water: 12, nutrition.Protein: 10.3, nutrition.Fat: 1, nutrition.SaturatedFat: 0.2, nutrition.Carbohydrate: 76,
		nutrition.Fibre: 3, nutrition.Ash: 0.5})
	open := []nutrition.Nutrient{nutrition.TransFat, nutrition.Sugars, nutrition.AddedSugars, nutrition.Alcohol, nutrition.Iron}
	for _, n := range open {
		flour[n] = foodtable.Value{}
	}
	f, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: "flour", Mass: 100 * unit.Gram, Per100g: flour}}, Finished: 100 * unit.Gram})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []foodtable.Value{foodtable.Given(0.8), foodtable.Given(73), foodtable.Given(73), foodtable.Given(0.2), {}} {
		a := f.Amounts[open[i]]
		if a.Most.IsGiven() != want.IsGiven() || math.Abs(a.Most.Or(0)-want.Or(0)) > 1e-9 || len(a.Missing) != 1 {
			t.Errorf("%v: %+v, want at most %v", open[i], a, want)
		}
	}
}

func TestWhatCannotBe(t *testing.T) {
	water := plain(map[nutrition.Nutrient]float64{nutrition.Water: 100})
	lard := plain(map[nutrition.Nutrient]float64{nutrition.Fat: 100})
	bad := plain(map[nutrition.Nutrient]float64{nutrition.Fat: 120})
	part := func(c nutrition.Composition) nutrition.Part {
		return nutrition.Part{Name: "it", Mass: 100 * unit.Gram, Per100g: c}
	}
	code := part(water)
	code.Kept = "9999"
	for name, b := range map[string]nutrition.Batch{
		"heavier than its parts": {Parts: []nutrition.Part{part(water)}, Finished: 101 * unit.Gram},
		"more gone than water":   {Parts: []nutrition.Part{part(lard)}, Finished: 90 * unit.Gram},
		"weighs nothing":         {Parts: []nutrition.Part{part(water)}},
		"a part of no mass":      {Parts: []nutrition.Part{{Name: "it", Per100g: water}}, Finished: unit.Gram},
		"120 g of fat in 100 g":  {Parts: []nutrition.Part{part(bad)}, Finished: 100 * unit.Gram},
		"no such code":           {Parts: []nutrition.Part{code}, Finished: 100 * unit.Gram},
		"fat off a lean part":    {Parts: []nutrition.Part{part(water)}, Skimmed: []nutrition.Skimmed{{Mass: unit.Gram}}, Finished: 99 * unit.Gram},
		"more fat off than on":   {Parts: []nutrition.Part{part(lard)}, Skimmed: []nutrition.Skimmed{{Mass: 101 * unit.Gram}}, Finished: unit.Gram},
		"no fat off":             {Parts: []nutrition.Part{part(lard)}, Skimmed: []nutrition.Skimmed{{Part: "it"}}, Finished: unit.Gram},
	} {
		_, err := nutrition.Of(b)
		if wrong := (*nutrition.InputError)(nil); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// SR28's cheddar (01009): 22.87 g protein, 33.31 g fat, 3.09 g carbohydrate, 404 kcal (read); by general factors 4 x 22.87 + 4 x 3.09 + 9 x 33.31 = 403.63.
func TestTwoWaysOfEnergy(t *testing.T) {
	f, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: "cheddar", Mass: 250 * unit.Gram, Per100g: tableFood(t, "01009")}}, Finished: 250 * unit.Gram})
	if err != nil {
		t.Fatal(err)
	}
	w := f.Per100g().EnergyWays()
	near(t, "general", w.General, 403.63)
	if math.Abs(w.OffShare) > 0.01 {
		t.Errorf("off by %.3f of %+v", w.OffShare, w.Table)
	}
}

// Whatever is cooked: what was put in comes out, evaporation changes no amount but water, and mass in is mass out.
func TestNothingIsLost(t *testing.T) {
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	foods := table.Foods()
	rapid.Check(t, func(t *rapid.T) {
		b := nutrition.Batch{}
		water := nutrition.Part{Name: "water", Mass: unit.Mass(rapid.Int64Range(1, 5000).Draw(t, "water")) * unit.Gram, Per100g: plain(map[nutrition.Nutrient]float64{nutrition.Water: 100})}
		b.Parts = append(b.Parts, water)
		b.Finished = water.Mass
		for range rapid.IntRange(1, 6).Draw(t, "parts") {
			f := foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")]
			p := nutrition.Part{Name: f.NDB, Mass: unit.Mass(rapid.Int64Range(1, 2000).Draw(t, "g")) * unit.Gram, Per100g: nutrition.FromTable(f.Per100g)}
			b.Parts = append(b.Parts, p)
			b.Finished += p.Mass
		}
		before, err := nutrition.Of(b)
		if err != nil {
			t.Fatal(err)
		}
		gone := unit.Mass(rapid.Int64Range(0, int64(water.Mass)-1).Draw(t, "evaporated"))
		b.Finished -= gone
		after, err := nutrition.Of(b)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range nutrition.Nutrients() {
			is, was := after.Amounts[n], before.Amounts[n]
			if n == nutrition.Water {
				was.Least -= gone.Kg() * 1000
			}
			if math.Abs(is.Least-was.Least) > 1e-6*max(1, was.Least) || len(is.Missing) != len(was.Missing) {
				t.Errorf("%v: %g, was %g", n, is.Least, was.Least)
			}
			if most, given := is.Most.Get(); given && most < is.Least-1e-9*max(1, is.Least) {
				t.Errorf("%v: at most %g and at least %g", n, most, is.Least)
			}
		}
	})
}
