package homecard

import (
	"context"
	"encoding/json"
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func ask(t *testing.T, pack kitchen.PackID, people int) Ask {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return Ask{Book: bookfile.Read(demo.Book()).Book, Foods: foods, Pack: pack, People: people}
}

func coreOf(t *testing.T, a Ask) (settled, []*Item) {
	t.Helper()
	portion, _ := a.portion()
	s, items, err := a.core(portion)
	if err != nil {
		t.Fatal(err)
	}
	return s, items
}

// Every amount of every pack for 4 to 8 people is within the bound of its class: 5 % for most things, 2 % for salt, citrate and gums; spices and
// what comes in pieces within their own, which is told. The proportions hold after rounding, and all together weighs what it should.
func TestRoundingStaysWithinItsBounds(t *testing.T) {
	packs := slices.Sorted(maps.Keys(ask(t, "", 4).Book.Packs))
	if len(packs) < 6 {
		t.Fatalf("only %d packs", len(packs))
	}
	for _, pack := range packs {
		for people := Fewest; people <= Most; people++ {
			a := ask(t, pack, people)
			s, items := coreOf(t, a)
			exact, said := 0.0, 0.0
			for _, x := range items {
				checkAmount(t, pack, people, x)
				exact, said = exact+x.Amount.Exact.Kg(), said+x.Amount.Said.Kg()
			}
			if math.Abs(said/exact-1) > 0.05 {
				t.Errorf("%s for %d: %.0f g are said to be %.0f", pack, people, 1000*exact, 1000*said)
			}
			for _, r := range a.ratios(s.dish, items) {
				if !r.Held || math.Abs(r.Said/r.Exact-1) > r.Bound.F()+1e-9 {
					t.Errorf("%s for %d: %s is %v, should be %v within %s", pack, people, r.Of, r.Said, r.Exact, r.Bound)
				}
			}
		}
	}
}

func checkAmount(t *testing.T, pack kitchen.PackID, people int, x *Item) {
	t.Helper()
	m := x.Amount
	most := map[string]float64{"main": 0.05, "tight": 0.02, "gum": 0.02}
	if most[m.Class] > 0 && m.Bound.F() > most[m.Class] {
		t.Errorf("%s for %d: the bound of %s is %s", pack, people, x.Name, m.Bound)
	}
	if off := math.Abs(m.Said.Kg()/m.Need.Kg() - 1); off > m.Bound.F()+1e-9 || math.Abs(off-math.Abs(m.Off.F())) > 1e-6 {
		t.Errorf("%s for %d: %s of %s is %.2f %% off, told as %s, of %s", pack, people, m.Text, x.Name, 100*off, m.Off, m.Bound)
	}
	if m.Text == "" || strings.Contains(m.Text, "  ") || m.Class == "gum" && m.Scale == 0 {
		t.Errorf("%s for %d: %s is said as %q by a scale of %s", pack, people, x.Name, m.Text, m.Scale)
	}
	if m.Class == "seasoning" && m.Said > 15*unit.Gram {
		t.Errorf("%s for %d: %s of %s is no pinch", pack, people, m.Said, x.Name)
	}
}

// The proportions of the demo book by hand, from its own amounts: 90 g of citrate to 8 lb of cheese; 22 g of xanthan and 14 oz of flour to 6 qt of
// milk (1.031 kg/L) and 2 qt of ale (1.004 kg/L).
func TestProportionsAreTheBooks(t *testing.T) {
	const qt = 0.946352946
	liquid := 6*qt*1.031 + 2*qt*1.004
	a := ask(t, "ale-cheddar-lb", 6)
	s, items := coreOf(t, a)
	for _, r := range a.ratios(s.dish, items) {
		want := map[string]float64{"trisodium citrate to cheese": 0.090 / (8 * 0.45359237), "xanthan gum to liquid": 0.022 / liquid, "all-purpose flour to liquid": 14 * 0.028349523125 / liquid}[r.Of]
		if math.Abs(r.Exact/want-1) > 0.002 {
			t.Errorf("%s is %.5f, by the book %.5f", r.Of, r.Exact, want)
		}
	}
}

// Six servings of 4 oz are 1 lb 8 oz. They are cooked in a 2 qt saucepan, 6 1/2 in across: 10 min at 6 kg/m²h from π/4 (0.1651 m)² give off
// 0.02141 kg. In the kitchen a 20 qt pot of 12 in gives off 10/60 h · 6 · π/4 (0.3048)² = 0.07297 kg of 6.66 kg (butter, onion, flour and spices
// 1.27 once sweated, milk 3.90, ale 1.33 once reduced, the rest 0.16): 1.1 %. Water makes up for the difference.
func TestSmallPotLosesByItsOwnSurface(t *testing.T) {
	s, items := coreOf(t, ask(t, "ale-cheddar-lb", 6))
	in := 0.0
	for _, step := range s.plan.Dishes[0].Steps {
		if step.ID == "base" {
			_, in = goesIn(step, tapWater)
			if got := lost(step, "evaporation"); math.Abs(got-0.02141) > 0.00002 {
				t.Errorf("%.5f kg evaporate", got)
			}
		}
	}
	i := slices.IndexFunc(items, func(x *Item) bool { return x.Extra })
	if i < 0 {
		t.Fatal("no water makes up for it")
	}
	if kg, want := items[i].Amount.Exact.Kg(), 0.02141-in*0.07297/6.66; math.Abs(kg/want-1) > 0.01 {
		t.Errorf("%.5f kg of water make up for it, by hand %.5f", kg, want)
	}
}

// What sticks goes by the surface that the food wets. Kitchen: 8 oz stick to the vessel of the last step; home: as thick a layer.
func TestResidueGoesByWettedSurface(t *testing.T) {
	e := kitchen.Equipment{Diameter: 12 * unit.Inch}
	// 10 L in a pot 12 in across: base 0.07297 m², 13.70 cm deep, wall π · 0.3048 · 0.1370 = 0.1312 m².
	if got := wetted(e, 10*unit.Litre); math.Abs(got-0.20418) > 0.0001 {
		t.Errorf("%.5f m² are wet", got)
	}
	a := ask(t, "ale-cheddar-lb", 8)
	s, _ := coreOf(t, a)
	for _, step := range s.plan.Dishes[0].Steps {
		if step.ID == "melt" {
			if r := lost(step, "residue"); r < 0.02 || r > 0.08 {
				t.Errorf("%.3f kg stick to a saucepan", r)
			}
		}
	}
}

// The home's food is as thick as the kitchen's, step by step, whatever the pot: also where the book has no make-up.
func TestAsThickAsInTheKitchen(t *testing.T) {
	for _, pack := range []kitchen.PackID{"ale-cheddar-lb", "lentil-squash-2lb", "bean-pot-2lb", "meatballs-six", "mushroom-filling-2lb"} {
		a := ask(t, pack, 5)
		portion, _ := a.portion()
		quick, stop := context.WithCancel(t.Context())
		stop()
		was, err := a.written(quick, portion.Dish)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := coreOf(t, a)
		for _, step := range s.plan.Dishes[0].Steps {
			if lost(step, "evaporation") == 0 || stepOf(s.dish, step.ID).Loses.ReduceTo > 0 {
				continue
			}
			water := stepOf(a.Book.Dishes[portion.Dish], step.ID).MakeUp
			if water == "" {
				water = tapWater
			}
			if got := thickness(step, water); math.Abs(got/was[step.ID].thick-1) > 0.002 {
				t.Errorf("%s, %s: %.4f of what goes in is left, in the kitchen %.4f", pack, step.ID, got, was[step.ID].thick)
			}
		}
	}
}

func TestServingsAndPieces(t *testing.T) {
	c, err := Make(t.Context(), ask(t, "meatballs-six", 4))
	if err != nil {
		t.Fatal(err)
	}
	if c.Pieces != "3 meatballs" { // 9 of 18 oz
		t.Errorf("%q to a serving", c.Pieces)
	}
	if got := c.Makes.Kg(); math.Abs(got-4*(3*1.25+5.25)*0.028349523125) > 0.001 { // 3 of 1 1/4 oz and half of 10 1/2 oz, four times
		t.Errorf("it makes %.3f kg", got)
	}
	if c.Assumed || len(c.Findings) > 0 {
		t.Errorf("assumed %v, findings %v", c.Assumed, c.Findings)
	}
}

func TestCardIsWhole(t *testing.T) {
	a := ask(t, "ale-cheddar-lb", 6)
	c, err := Make(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := Make(t.Context(), a)
	one, _ := json.Marshal(c)
	two, _ := json.Marshal(again)
	if string(one) != string(two) {
		t.Error("the same ask gives another card")
	}
	for _, want := range []string{"stick blender in a tall cup", "165 °F", "ice water", "never on the counter", "2 to 3 lb", "into the refrigerator within 2 hours", "Milk", "weigh"} {
		if !strings.Contains(string(one), want) {
			t.Errorf("the card does not say %q", want)
		}
	}
	for _, never := range []string{"kettle\"", "rondeau", "cutting table", "20 qt", "each load"} {
		if strings.Contains(string(one), never) {
			t.Errorf("the card says %q", never)
		}
	}
	if c.Whole.Usual < 30*unit.Minute || c.Whole.Low > c.Whole.Usual || c.Whole.Usual > c.Whole.High || c.Hands.Usual > c.Whole.High {
		t.Errorf("hands %+v of %+v", c.Hands, c.Whole)
	}
}

func TestStepsAtHome(t *testing.T) {
	a := ask(t, "ale-cheddar-lb", 4)
	dish := a.Book.Dishes["ale-cheddar"]
	for i, s := range dish.Steps {
		switch s.ID {
		case "grate":
			dish.Steps[i].AtHome = "Grate the cheese yourself: what is sold grated has starch on it."
		case "thicken":
			dish.Steps[i].AtHome = "leave out"
		case "reduce-ale":
			dish.Steps[i].How = "Use the rondeau. Log it on the batch sheet. Keep the next load ready."
		}
	}
	c, err := Make(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range c.Steps {
		if s.Number != i+1 {
			t.Errorf("step %d has number %d", i+1, s.Number)
		}
		switch s.ID {
		case "grate":
			if !strings.HasPrefix(s.Do, "Grate the cheese yourself") {
				t.Errorf("%q", s.Do)
			}
		case "thicken":
			t.Error("it was to be left out")
		case "reduce-ale":
			if s.How != "Use the wide pan." || len(s.Left) != 2 {
				t.Errorf("%q, left out %q", s.How, s.Left)
			}
		}
	}
}

func TestAsksThatMakeNoSense(t *testing.T) {
	for name, change := range map[string]func(*Ask){
		"too few":       func(a *Ask) { a.People = 3 },
		"too many":      func(a *Ask) { a.People = 9 },
		"no such pack":  func(a *Ask) { a.Pack = "none" },
		"no dish":       func(a *Ask) { a.Book.Packs[a.Pack] = kitchen.Pack{Dish: "none"} },
		"an empty pack": func(a *Ask) { a.Book.Packs[a.Pack] = kitchen.Pack{Dish: "ale-cheddar"} },
	} {
		a := ask(t, "ale-cheddar-lb", 4)
		change(&a)
		var bad *AskError
		if _, err := Make(t.Context(), a); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	a := ask(t, "ale-cheddar-lb", 4)
	d := a.Book.Dishes["ale-cheddar"]
	d.Steps = d.Steps[:1]
	a.Book.Dishes["ale-cheddar"] = d
	var bad *DishError
	if _, err := Make(t.Context(), a); !errors.As(err, &bad) {
		t.Errorf("a dish that does not give what the pack holds: %v", err)
	}
}

// A book that says neither what an ingredient does nor how much one eats is still written, and the guesses are told.
func TestGuessesAreTold(t *testing.T) {
	a := ask(t, "ale-cheddar-lb", 4)
	for id, ing := range a.Book.Ingredients {
		ing.Role = ""
		a.Book.Ingredients[id] = ing
	}
	p := a.Book.Packs[a.Pack]
	p.Serving = 0
	a.Book.Packs[a.Pack] = p
	c, err := Make(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	if !c.Assumed || len(c.Findings) == 0 || c.Findings[0].Code != CodeServing {
		t.Errorf("assumed %v, %v", c.Assumed, c.Findings)
	}
	for id, want := range map[kitchen.IngredientID]kind{"xanthan": gum, "sodium-citrate": emulsifier, "cheddar": cheese, "flour": starch, "salt": salt, "milk": liquid, "onion": plain} {
		if got := a.kindOf(id); got != want {
			t.Errorf("%s is taken for %d, not %d", id, got, want)
		}
	}
}
