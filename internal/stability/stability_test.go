package stability_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/stability"
)

type pot = stability.Pot

// What components are made of: USDA SR28, rounded.
var (
	water      = stability.Component{Name: "water", Role: stability.Liquid, Facts: stability.Facts{Water: 1}}
	milk       = stability.Component{Name: "milk", Role: stability.Milk, Facts: stability.Facts{Water: 0.88, Fat: 0.0325, Protein: 0.0315, Sugars: 0.05}}
	flour      = stability.Component{Name: "flour", Role: stability.Flour, Facts: stability.Facts{Water: 0.12, Fat: 0.01, Protein: 0.10, Starch: 0.70}}
	cornStarch = stability.Component{Name: "corn starch", Role: stability.NativeStarch, Starch: stability.Corn, Facts: stability.Facts{Water: 0.08, Starch: 0.90}}
	waxyRice   = stability.Component{Name: "waxy rice flour", Role: stability.WaxyStarch, Facts: stability.Facts{Water: 0.12, Starch: 0.78}}
	butter     = stability.Component{Name: "butter", Role: stability.Fat, Facts: stability.Facts{Water: 0.16, Fat: 0.81}}
	sourCream  = stability.Component{Name: "sour cream", Role: stability.CulturedCream, Facts: stability.Facts{Water: 0.74, Fat: 0.19}}
	cheddar    = stability.Component{Name: "cheddar", Role: stability.HardCheese, Joins: stability.CookedIn, Facts: stability.Facts{Water: 0.37, Fat: 0.33, Protein: 0.23}}
	potato     = stability.Component{Name: "potato", Role: stability.Potato, Facts: stability.Facts{Water: 0.78, Starch: 0.15}}
	lentils    = stability.Component{Name: "lentils", Role: stability.Pulses, Pureed: true, Facts: stability.Facts{Water: 0.70, Protein: 0.09, Starch: 0.15}}
	pasta      = stability.Component{Name: "pasta", Role: stability.Pasta, Facts: stability.Facts{Water: 0.62, Starch: 0.28}}
	xanthan    = stability.Component{Name: "xanthan", Role: stability.Gum, Gum: stability.Xanthan}
	citrate    = stability.Component{Name: "citrate", Role: stability.EmulsifyingSalt}
)

func kg(c stability.Component, kg float64) stability.Component {
	c.MassKg = kg
	return c
}

func with(c stability.Component, do func(*stability.Component)) stability.Component {
	do(&c)
	return c
}

func review(t *testing.T, p pot) stability.Review {
	t.Helper()
	r, err := stability.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func found(r stability.Review, code string) (stability.Finding, bool) {
	i := slices.IndexFunc(r.Findings, func(f stability.Finding) bool { return f.Code == code })
	if i < 0 {
		return stability.Finding{}, false
	}
	return r.Findings[i], true
}

// The published advice, each thing as half of a pot that nothing holds together: Oregon State SP 50-766, USDA Home and Garden Bulletin 40,
// Missouri Extension and web pages; the severities are the reference's.
func TestPublishedAdvice(t *testing.T) {
	const pureed, raw, cooked, under, waxyFirm, apart, cold = "pureed", "raw", "cooked", "under", "waxy-firm", "apart", "cold"
	for _, c := range []struct {
		role stability.Role
		how  string
		want stability.Severity
	}{
		{stability.Potato, "", stability.LeaveOut}, {stability.Potato, waxyFirm, stability.Change}, {stability.Potato, pureed, stability.Note},
		{stability.Pasta, apart, stability.Change}, {stability.Rice, apart, stability.Change}, {stability.Pasta, under, stability.Note},
		{stability.CulturedCream, "", stability.LeaveOut}, {stability.Yogurt, "", stability.LeaveOut}, {stability.Cream, cold, stability.Change}, {stability.Cream, cooked, stability.Note},
		{stability.Milk, "", stability.Note}, {stability.HardCheese, cold, stability.Note}, {stability.SoftCheese, "", stability.Change}, {stability.SoftCheese, pureed, stability.Note},
		{stability.Mayonnaise, "", stability.LeaveOut}, {stability.EggWhite, "", stability.LeaveOut}, {stability.Egg, raw, stability.Change}, {stability.EggInShell, "", stability.LeaveOut},
		{stability.Custard, "", stability.LeaveOut}, {stability.Gelatin, cold, stability.LeaveOut}, {stability.WateryVegetable, raw, stability.LeaveOut}, {stability.WateryVegetable, cooked, stability.Good}, {stability.Egg, cooked, stability.Good}, {stability.HardCheese, cooked, stability.Good},
		// Not said is as bad as it can be.
		{stability.WateryVegetable, "", stability.LeaveOut}, {stability.Egg, "", stability.Change}, {stability.Cream, "", stability.Change},
		{stability.Topping, "", stability.LeaveOut}, {stability.Topping, apart, stability.Good}, {stability.Vegetable, "", stability.Note}, {stability.Vegetable, under, stability.Good},
		{stability.Pulses, "", stability.Good}, {stability.Meat, "", stability.Good}, {stability.Liquid, "", stability.Good},
	} {
		it := stability.Component{Name: "it", Role: c.role, MassKg: 1, Facts: stability.Facts{Water: 1}}
		switch c.how {
		case pureed:
			it.Pureed = true
		case raw:
			it.Cooked = stability.Raw
		case cooked:
			it.Cooked, it.Joins = stability.Through, stability.CookedIn
		case under:
			it.Cooked = stability.Undercooked
		case waxyFirm:
			it.Cooked, it.Waxy = stability.Undercooked, true
		case apart:
			it.Joins = stability.Apart
		case cold:
			it.Joins = stability.StirredCold
		}
		r := review(t, pot{Components: []stability.Component{kg(water, 1), it}, EatenCold: c.how == cold})
		// A pot of cheese has a second finding: nothing keeps its fat.
		r.Findings = slices.DeleteFunc(r.Findings, func(f stability.Finding) bool { return f.Code == "cheese-sauce-breaks" })
		if r.Worst() != c.want {
			t.Errorf("%s %s: %s, want %s: %+v", c.role, c.how, r.Worst(), c.want, r.Findings)
		}
	}
}

// Half of 25 mm in 12.5 h is 1 mm/h (by hand); from one side it is twice that.
func TestFront(t *testing.T) {
	for _, c := range []struct {
		mm, hours float64
		both      bool
		want      float64
	}{{25, 12.5, true, 1}, {25, 12.5, false, 2}, {40, 10, true, 2}} {
		if got, err := stability.FrontMMH(c.mm, c.hours, c.both); err != nil || got != c.want {
			t.Errorf("%+v: %g %v", c, got, err)
		}
	}
	if _, err := stability.FrontMMH(0, 1, true); err == nil {
		t.Error("a pack without thickness was taken")
	}
}

func TestRefused(t *testing.T) {
	for name, p := range map[string]pot{
		"empty":            {},
		"weightless":       {Components: []stability.Component{water}},
		"no such role":     {Components: []stability.Component{{Name: "it", MassKg: 1, Role: "soup"}}},
		"more than itself": {Components: []stability.Component{{Name: "it", MassKg: 1, Role: stability.Milk, Facts: stability.Facts{Water: 0.9, Fat: 0.3}}}},
		"pH 40":            {Components: []stability.Component{kg(water, 1)}, PH: 40},
		"no speed":         {Components: []stability.Component{kg(water, 1)}, FrontMMH: math.NaN()},
		"no time":          {Components: []stability.Component{kg(water, 1)}, Weeks: -1},
	} {
		_, err := stability.Of(p)
		if wrong := (*stability.InputError)(nil); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What drifts, as published: foodsafetysite.com question 605 and Lancaster Farming, which differ about onion.
func TestDrifts(t *testing.T) {
	want := map[string]stability.Drift{"pepper": stability.Stronger, "garlic": stability.Stronger, "salt": stability.Weaker, "onion": stability.SourcesDiffer, "curry": stability.Changes}
	for _, d := range stability.SeasoningDrifts() {
		if w, ok := want[d.Seasoning]; ok && w != d.Drift || d.Source == "" {
			t.Errorf("%+v", d)
		}
		delete(want, d.Seasoning)
	}
	if len(want) != 0 {
		t.Errorf("not there: %v", want)
	}
}
