package dispersal_test

import (
	"context"
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// totals is what a dish takes of each ingredient, at the scale that it is written for, and on how many lines.
func totals(t *rapid.T, book kitchen.Book, foods *foodtable.Table, d kitchen.Dish) (map[kitchen.IngredientID]unit.Mass, map[kitchen.IngredientID]int) {
	sum, lines := map[kitchen.IngredientID]unit.Mass{}, map[kitchen.IngredientID]int{}
	for _, s := range d.Steps {
		for _, u := range s.Use {
			if u.Of == "" {
				continue
			}
			m, err := plan.Weigh(book, foods, u.Of, u.Amount)
			if err != nil {
				t.Fatal(err)
			}
			sum[u.Of] += m
			lines[u.Of]++
		}
	}
	return sum, lines
}

func knows(foods *foodtable.Table) func(string) bool {
	return func(ndb string) bool { _, ok := foods.Lookup(ndb); return ok }
}

func stops(l finding.List) int {
	n := 0
	for _, f := range l {
		if f.Severity == finding.Stop {
			n++
		}
	}
	return n
}

// Whatever powder is got into whatever dish by whatever way: the dish takes of every ingredient what it took, to the nanogram, but the powder's own
// dose; it can be planned with; and it gives as much more as there is more powder.
func TestNothingIsAddedButThePowder(t *testing.T) {
	book, foods := demoBook(t)
	book = straight(book)
	book.Ingredients = maps.Clone(book.Ingredients)
	book.Ingredients["corn-starch"] = kitchen.Ingredient{Name: "corn starch", Food: "20027", Role: "native-starch", Allergens: kitchen.Allergens{Answered: true}}
	book.Ingredients["guar"] = kitchen.Ingredient{Name: "guar gum", Role: "gum", Analysis: book.Ingredients["xanthan"].Analysis, Allergens: kitchen.Allergens{Answered: true}}
	worked := 0
	rapid.Check(t, func(t *rapid.T) {
		a := dispersal.Asked{
			Dish: rapid.SampledFrom(slices.Sorted(maps.Keys(book.Dishes))).Draw(t, "dish"),
			Of:   rapid.SampledFrom([]kitchen.IngredientID{"xanthan", "guar", "corn-starch", "sodium-citrate"}).Draw(t, "powder"),
			Dose: formula.Own{Mass: unit.Mass(rapid.Int64Range(1, 900).Draw(t, "dose")) * unit.Gram / 10},
			Way:  rapid.SampledFrom([]dosing.Way{"", dosing.PreHydrate, dosing.DryBlend, dosing.OilSlurry, dosing.ColdSlurry, dosing.Dissolve}).Draw(t, "way"),
		}
		before := book.Dishes[a.Dish]
		if rapid.Bool().Draw(t, "said where") {
			a.Into = rapid.SampledFrom(before.Steps).Draw(t, "into").ID
		}
		w, err := dispersal.Work(book, foods, a)
		if err != nil {
			_, own := errors.AsType[*dispersal.InputError](err)
			_, engine := errors.AsType[*dosing.InputError](err)
			if !own && !engine {
				t.Fatalf("%+v: %v", a, err)
			}
			return
		}
		worked++
		was, lines := totals(t, book, foods, before)
		is, more := totals(t, book, foods, w.After)
		for of, m := range is {
			want := was[of]
			if of == a.Of {
				want = w.Mass
			}
			if d := m - want; d < -unit.Mass(lines[of]+more[of]) || d > unit.Mass(lines[of]+more[of]) {
				t.Errorf("%+v: %s is %v, was %v: %d ng", a, of, m, want, d)
			}
		}
		if len(is) < len(was) {
			t.Errorf("%+v: an ingredient is gone", a)
		}
		after := book
		after.Dishes = maps.Clone(book.Dishes)
		after.Dishes[a.Dish] = w.After
		if found := kitchen.Check(after, knows(foods)); stops(found) > stops(kitchen.Check(book, knows(foods))) {
			t.Errorf("%+v: %v", a, found)
		}
		gave, err1 := plan.Contents(book, foods, a.Dish)
		gives, err2 := plan.Contents(after, foods, a.Dish)
		if err1 != nil || err2 != nil {
			t.Fatalf("%+v: %v, %v", a, err1, err2)
		}
		// What is mixed apart is not in the pot while the pot loses some of itself: a small part of the powder's share of that.
		if d := free(gives) - free(gave) - (w.Mass - was[a.Of]).Kg(); math.Abs(d) > 0.01*free(gave) {
			t.Errorf("%+v: gives %.4f kg, gave %.4f", a, free(gives), free(gave))
		}
	})
	if worked == 0 {
		t.Error("nothing was ever got into anything")
	}
}

// free is what a dish gives that no step takes.
func free(given []plan.Given) (kg float64) {
	for _, g := range given {
		kg += g.FreeKg
	}
	return kg
}

// The demo's sauce with its gum straight in the pot, and as it is worked out: planned on a day, the label names the same in the same order by weight,
// as much is packed, and the blending is in the timetable with its jars.
func TestTheDishIsPlannedWithIt(t *testing.T) {
	book, foods := demoBook(t)
	book = straight(book)
	w, err := dispersal.Work(book, foods, dispersal.Asked{Dish: "ale-cheddar", Of: "xanthan"})
	if err != nil {
		t.Fatal(err)
	}
	after := book
	after.Dishes = maps.Clone(book.Dishes)
	after.Dishes["ale-cheddar"] = w.After
	req := kitchen.Request{Day: "2026-12-01", Want: []kitchen.Want{{Pack: "ale-cheddar-lb", Count: 60}}}
	p, q := plan.Open(context.Background(), book, foods, req).Plan(), plan.Open(context.Background(), after, foods, req).Plan()
	if p.Labels[0].Statement == "" || p.Labels[0].Statement != q.Labels[0].Statement || !strings.Contains(q.Labels[0].Statement, "xanthan") {
		t.Errorf("the label says\n%s\nand said\n%s", q.Labels[0].Statement, p.Labels[0].Statement)
	}
	if p.Summary.Packs != q.Summary.Packs || q.Timetable.Status == "infeasible" || q.Dishes[0].Closure > 1e-9 {
		t.Errorf("%+v, %s", q.Summary, q.Timetable.Status)
	}
	i := slices.IndexFunc(q.Dishes[0].Steps, func(s plan.Step) bool { return s.ID == w.Step })
	if i < 0 {
		t.Fatal("the step is not planned")
	}
	s := q.Dishes[0].Steps[i]
	if jar := book.Equipment["blender"]; s.Loads.Count != int(math.Ceil(float64(s.Loads.Volume)*float64(s.Loads.Count)/(float64(jar.Volume)*jar.Working.F())-1e-9)) || len(s.Starts) != s.Loads.Count {
		t.Errorf("%d jars of %v, %d starts", s.Loads.Count, s.Loads.Volume, len(s.Starts))
	}
}
