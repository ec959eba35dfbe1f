package formula_test

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
)

// Everything that the mass flow says is in what is packed is in the pot, and nothing else: by parts, by components, and by what was put in.
func TestPotsCloseWithTheMassFlow(t *testing.T) {
	book := demoBook(t)
	for _, s := range subjects(book) {
		p := pot(t, book, s)
		var kg, parts float64
		for _, x := range p.Parts {
			kg += x.Kg
			parts += x.WaterKg + x.ProteinKg + x.FatKg + x.SugarsKg + x.StarchKg + x.OtherCarbKg + x.FibreKg + x.AshKg + x.AlcoholKg
			if x.Kg > x.PutInKg*(1+1e-9) {
				t.Errorf("%v: %s weighs %g kg, more than the %g put in", s, x.Name, x.Kg, x.PutInKg)
			}
		}
		if math.Abs(kg-p.Mass.Kg()) > 1e-9*kg {
			t.Errorf("%v: parts weigh %g kg, the pot %g", s, kg, p.Mass.Kg())
		}
		if math.Abs(parts-kg) > 0.005*kg { // analyses of the table add up to 100 % within their rounding
			t.Errorf("%v: components weigh %g kg of %g", s, parts, kg)
		}
	}
}

// Against plan.Contents, which asks the mass flow without a name for each use.
func TestPotIsWhatThePlanSays(t *testing.T) {
	book := demoBook(t)
	for dish, output := range map[kitchen.DishID]kitchen.OutputID{"ale-cheddar": "sauce", "bean-pot": "pot", "lentil-squash": "soup", "mushroom-filling": "filling", "turkey-meatballs": "meatballs"} {
		given, err := plan.Contents(book, table(t), dish)
		if err != nil {
			t.Fatal(err)
		}
		p := pot(t, book, formula.Subject{Dish: dish, Output: output})
		for _, g := range given {
			if g.Output != output {
				continue
			}
			if math.Abs(g.Kg-p.Mass.Kg()) > 1e-6 {
				t.Errorf("%s: %g kg, want %g", dish, p.Mass.Kg(), g.Kg)
			}
			for _, h := range g.Held {
				var kg, in, water float64
				for _, x := range p.Parts {
					if x.Ingredient == h.Of {
						kg, in, water = kg+x.Kg, in+x.PutInKg, water+x.WaterKg
					}
				}
				if math.Abs(kg-h.Kg()) > 1e-9 || math.Abs(in-h.PutIn) > 1e-9 || math.Abs(water-h.Water) > 1e-9 {
					t.Errorf("%s, %s: %g of %g kg, %g water; want %g of %g, %g", dish, h.Of, kg, in, water, h.Kg(), h.PutIn, h.Water)
				}
			}
		}
	}
}

// What a cook would say was done to each ingredient, read by hand from the demo's dishes.
func TestWhatWasDone(t *testing.T) {
	book := demoBook(t)
	for _, c := range []struct {
		pack   kitchen.PackID
		of     kitchen.IngredientID
		cooked stability.Cooked
		joins  stability.Joins
		say    string
	}{
		{"ale-cheddar-lb", "cheddar", stability.CookingNotSaid, stability.CookedIn, "smooth"}, // rained in off the boil, until smooth
		{"ale-cheddar-lb", "onion", stability.Through, stability.CookedIn, "soft"},
		{"bean-pot-2lb", "celery", stability.Through, stability.CookedIn, "soft"},
		{"bean-pot-2lb", "white-bean", stability.Through, stability.CookedIn, ""},
		{"lentil-squash-lb", "red-lentil", stability.Through, stability.CookedIn, "smooth"}, // until they fall apart
		{"mushroom-filling-2lb", "chestnut", stability.Through, stability.CookedIn, ""},     // eight minutes
		{"meatballs-six", "egg", stability.Through, stability.CookedIn, "inside"},           // 170 °F in the oven
		{"meatballs-six", "milk", stability.CookingNotSaid, stability.CookedIn, "inside"},
		{"meatballs-six", "fennel", stability.Through, stability.CookedIn, "soft"},
	} {
		x := part(pot(t, book, formula.Subject{Pack: c.pack}), c.of).Component
		say := ""
		switch {
		case x.Inside:
			say = "inside"
		case x.Pureed:
			say = "smooth"
		case x.Soft:
			say = "soft"
		}
		if x.Cooked != c.cooked || x.Joins != c.joins || say != c.say {
			t.Errorf("%s, %s: cooked %d, joins %d, %q", c.pack, c.of, x.Cooked, x.Joins, say)
		}
	}
}

// The onions of meatballs in sauce are two things: those in the balls and those in the sauce.
func TestOneIngredientTwoWays(t *testing.T) {
	p := pot(t, demoBook(t), formula.Subject{Pack: "meatballs-six"})
	inside, outside := 0, 0
	for _, x := range p.Parts {
		if x.Ingredient == "onion" {
			if x.Component.Inside {
				inside++
			} else {
				outside++
			}
		}
	}
	if inside != 1 || outside != 1 {
		t.Errorf("%d inside, %d outside", inside, outside)
	}
	if sauce := pot(t, demoBook(t), formula.Subject{Pack: "tomato-fennel-lb"}); part(sauce, "turkey").Kg != 0 {
		t.Error("there is turkey in the sauce alone")
	}
}

func TestWhatIsNotThere(t *testing.T) {
	book := demoBook(t)
	for _, s := range []formula.Subject{{}, {Pack: "no-such"}, {Dish: "ale-cheddar", Output: "no-such"}, {Dish: "no-such", Output: "sauce"}} {
		_, err := formula.PotOf(book, table(t), s)
		if bad := (*formula.NoSubjectError)(nil); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%v: %v", s, err)
		}
	}
}

// A pound of sauce lies 14 mm thick; half of that in 4 to 5 h is between 1.4 and 2.6 mm/h, the usual of household freezers (0.5 to 3 cm/h is quick
// freezing, under 0.5 cm/h slow: IIR, from memory). Two pounds in the same bag freeze slower.
func TestFreezingFront(t *testing.T) {
	book := demoBook(t)
	f := pot(t, book, formula.Subject{Pack: "ale-cheddar-lb"}).Front
	if !(f.UsualMMH > 1 && f.UsualMMH < 5) || !(f.SlowMMH < f.UsualMMH && f.UsualMMH < f.FastMMH) || f.Freezer == "" || f.Lies == "" {
		t.Errorf("%+v", f)
	}
	stacked := demoBook(t)
	for id, x := range stacked.Freezers {
		x.Lay, x.High = kitchen.Stacked, 4
		stacked.Freezers[id] = x
	}
	if s := pot(t, stacked, formula.Subject{Pack: "ale-cheddar-lb"}).Front; !(s.UsualMMH < f.UsualMMH/2) {
		t.Errorf("stacked four high it freezes at %g mm/h, apart at %g", s.UsualMMH, f.UsualMMH)
	}
}
