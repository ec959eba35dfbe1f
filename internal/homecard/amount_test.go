package homecard

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// By hand, from the densities of the book and the table: 7 g of salt (1.234 kg/L: 6.08 g a teaspoon) are in no spoons within 2 %; 113 g of flour
// at 125 g a cup fill 0.904 cups, 2/3 and 1/4 cup hold 0.917 (+1.4 %).
func TestSaying(t *testing.T) {
	a := ask(t, "ale-cheddar-lb", 4)
	for _, c := range []struct {
		of    kitchen.IngredientID
		grams float64
		want  string
		class string
		scale unit.Mass
	}{
		{"salt", 7, "7 g", "tight", 100 * unit.Milligram},
		{"flour", 113, "2/3 cup + 1/4 cup (115 g)", "main", 0},
		{"water", 300, "1 1/4 cups (296 g)", "main", 0},
		{"xanthan", 1.307, "1.31 g", "gum", 10 * unit.Milligram},
		{"xanthan", 5.5, "5.5 g", "gum", 100 * unit.Milligram},
		{"sodium-citrate", 30, "30 g", "tight", unit.Gram},
		{"turkey", 468, "1 lb 1/2 oz (468 g)", "main", 5 * unit.Gram},
		{"cayenne", 0.145, "about a pinch, half of 1/8 tsp (0.14 g)", "seasoning", 0},
		{"smoked-paprika", 0.36, "about 1/8 tsp (0.36 g)", "seasoning", 0},
	} {
		m := unit.MassKg(c.grams / 1000)
		got, err := a.say(c.of, unit.Amount{}, m, m, "")
		if err != nil || got.Class != c.class || got.Scale != c.scale || got.Text != c.want {
			t.Errorf("%v g of %s: %q by a scale of %s, %s, %v; want %q, %s", c.grams, c.of, got.Text, got.Scale, got.Class, err, c.want, c.scale)
		}
	}
}

func TestPiecesAreNotCutInFive(t *testing.T) {
	a := ask(t, "bean-pot-2lb", 4)
	use, _ := unit.ParseAmount("12 each")
	got, err := a.say("bay-leaf", use, 173*unit.Milligram, 173*unit.Milligram, "")
	if err != nil || got.Text != "1" || got.Class != piecesClass {
		t.Errorf("%+v, %v", got, err)
	}
	if about := a.about("onion", 131*unit.Gram); about != "about 3/4 onion" { // one weighs 150 g
		t.Errorf("%q", about)
	}
	if about := a.about("garlic", 6*unit.Gram); about != "about 2 cloves" { // 3 g each, USDA
		t.Errorf("%q", about)
	}
}

// Whatever is asked for: what is said is within the bound that is told, and the scale is fine enough but no finer than it must be.
func TestEveryAmountIsWithinItsBound(t *testing.T) {
	a := ask(t, "ale-cheddar-lb", 4)
	ids := slices.Sorted(maps.Keys(a.Book.Ingredients))
	rapid.Check(t, func(t *rapid.T) {
		id := rapid.SampledFrom(ids).Draw(t, "ingredient")
		m := unit.Mass(math.Exp(rapid.Float64Range(math.Log(float64(50*unit.Milligram)), math.Log(float64(5*unit.Kilogram))).Draw(t, "mass")))
		got, err := a.say(id, unit.Amount{}, m, m, "")
		if err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(got.Said.Kg()-m.Kg()) / m.Kg(); off > got.Bound.F()+1e-9 {
			t.Fatalf("%s of %s is said as %q: %.2f %% off, %s allowed", m, id, got.Text, 100*off, got.Bound)
		}
		if got.Scale > 0 && got.Scale/2 > got.Bound.Of(m) {
			t.Fatalf("a scale of %s cannot weigh %s to %s", got.Scale, m, got.Bound)
		}
		if k := a.kindOf(id); (k == gum || k == emulsifier) && (got.Scale == 0 || got.Scale < coarsest && 10*got.Scale/2 <= got.Bound.Of(m) && got.Scale >= 10*unit.Milligram) {
			t.Fatalf("%s of %s: a scale of %s is finer than it must be", m, id, got.Scale)
		}
	})
}
