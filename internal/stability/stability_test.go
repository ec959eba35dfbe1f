package stability_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/dosing"
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
	cheddar    = stability.Component{Name: "cheddar", Role: stability.HardCheese, Facts: stability.Facts{Water: 0.37, Fat: 0.33, Protein: 0.23}}
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
	const pureed, raw, under, waxyFirm, apart, cold = "pureed", "raw", "under", "waxy-firm", "apart", "cold"
	for _, c := range []struct {
		role stability.Role
		how  string
		want stability.Severity
	}{
		{stability.Potato, "", stability.LeaveOut}, {stability.Potato, waxyFirm, stability.Change}, {stability.Potato, pureed, stability.Note},
		{stability.Pasta, apart, stability.Change}, {stability.Rice, apart, stability.Change}, {stability.Pasta, under, stability.Note},
		{stability.CulturedCream, "", stability.LeaveOut}, {stability.Yogurt, "", stability.LeaveOut}, {stability.Cream, cold, stability.Change}, {stability.Cream, "", stability.Note},
		{stability.Milk, "", stability.Note}, {stability.HardCheese, cold, stability.Note}, {stability.SoftCheese, "", stability.Change}, {stability.SoftCheese, pureed, stability.Note},
		{stability.Mayonnaise, "", stability.LeaveOut}, {stability.EggWhite, "", stability.LeaveOut}, {stability.Egg, raw, stability.Change}, {stability.EggInShell, "", stability.LeaveOut},
		{stability.Custard, "", stability.LeaveOut}, {stability.Gelatin, cold, stability.LeaveOut}, {stability.WateryVegetable, raw, stability.LeaveOut}, {stability.WateryVegetable, "", stability.Good},
		{stability.Topping, "", stability.LeaveOut}, {stability.Topping, apart, stability.Good}, {stability.Vegetable, "", stability.Note}, {stability.Vegetable, under, stability.Good},
		{stability.Pulses, "", stability.Good}, {stability.Meat, "", stability.Good}, {stability.Liquid, "", stability.Good},
	} {
		it := stability.Component{Name: "it", Role: c.role, MassKg: 1, Facts: stability.Facts{Water: 1}}
		switch c.how {
		case pureed:
			it.Pureed = true
		case raw:
			it.Cooked = stability.Raw
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

// A white sauce by the home series, 6.4 % flour: it may curdle or separate, is fine if quickly frozen, waxy starch and xanthan help (USDA Home and
// Garden Bulletin 40, Sanz et al. 2009, Ferrero et al. 1993).
func TestWhiteSauce(t *testing.T) {
	white := func(more ...stability.Component) pot {
		return pot{Components: append([]stability.Component{kg(milk, 1), kg(flour, 0.064), kg(butter, 0.064)}, more...), FrontMMH: 0.4}
	}
	f, ok := found(review(t, white()), "starch-weeps")
	if !ok || f.Severity != stability.Change || f.Source == "" || f.Confirm == "" {
		t.Fatalf("%+v", f)
	}
	if len(f.Remedies) != 5 || f.Remedies[0].After != stability.Good {
		t.Errorf("%+v", f.Remedies)
	}
	for _, m := range f.Remedies {
		if helps := m.ID == "xanthan" || m.ID == "waxy" || m.ID == "faster"; helps != m.Tried || helps && m.After >= f.Severity {
			t.Errorf("%+v", m)
		}
		if m.ID == "xanthan" && (m.Low != 0.0015 || m.High != 0.003 || m.Basis == "") {
			t.Errorf("%+v", m)
		}
	}
	fast := white()
	fast.FrontMMH = 2
	f, ok = found(review(t, fast), "starch-weeps")
	if !ok || f.Severity != stability.Note || f.Because == "" {
		t.Errorf("quickly frozen: %+v", f)
	}
	fast.Weeks = 20
	if _, ok = found(review(t, fast), "starch-kept-long"); !ok {
		t.Error("20 weeks are more than 2 to 3 months")
	}
	waxy := pot{Components: []stability.Component{kg(milk, 1), kg(waxyRice, 0.06), kg(butter, 0.06)}, FrontMMH: 0.4}
	if f, ok = found(review(t, waxy), "starch-weeps"); ok {
		t.Errorf("waxy rice flour: %+v", f)
	}
	unknown := white()
	unknown.FrontMMH = 0
	if r := review(t, unknown); len(r.Assumed) != 1 || r.Worst() != stability.Change {
		t.Errorf("%+v", r)
	}
}

// What is not given is taken at its bad end, and told: a thickener without its starch, a starch of no known plant; a purée without its water
// protects nothing, and of other things nothing is known.
func TestNotGiven(t *testing.T) {
	r := review(t, pot{Components: []stability.Component{kg(water, 1), {Name: "starch", Role: stability.NativeStarch, MassKg: 0.05}, {Name: "powder", Role: stability.Other, MassKg: 0.01}}})
	if f, ok := found(r, "starch-weeps"); !ok || f.Severity != stability.Change || len(r.Assumed) != 3 || !slices.Equal(r.Unknown, []string{"powder"}) {
		t.Errorf("%+v", r)
	}
	r = review(t, pot{Components: []stability.Component{kg(water, 1), {Name: "flour", Role: stability.Flour, MassKg: 0.06}}, FrontMMH: 0.5})
	if math.Abs(r.Protection.Starch-0.73*0.06/1.06) > 1e-9 || len(r.Assumed) != 1 {
		t.Errorf("%+v", r)
	}
	r = review(t, pot{Components: []stability.Component{kg(water, 1), {Name: "carrots", Role: stability.Vegetable, Pureed: true, MassKg: 0.5}, kg(sourCream, 0.1)}})
	if f, _ := found(r, "cultured-cream"); f.Severity != stability.LeaveOut {
		t.Errorf("%+v", r)
	}
}

// A little sour cream: in a thin broth it separates; in a pot that roux holds together 3 % is nothing, 10 % a note, and a fifth is still to be
// changed.
func TestNotCryingWolf(t *testing.T) {
	roux := func(cream float64) pot {
		return pot{Components: []stability.Component{kg(water, 1-cream), kg(waxyRice, 0.05), kg(sourCream, cream)}}
	}
	for _, c := range []struct {
		p    pot
		want stability.Severity
	}{
		{pot{Components: []stability.Component{kg(water, 0.90), kg(sourCream, 0.10)}}, stability.LeaveOut},
		{pot{Components: []stability.Component{kg(water, 0.97), kg(sourCream, 0.03)}}, stability.Change},
		{pot{Components: []stability.Component{kg(water, 0.995), kg(sourCream, 0.005)}}, stability.Good},
		{roux(0.03), stability.Good}, {roux(0.10), stability.Note}, {roux(0.20), stability.Change},
	} {
		r := review(t, c.p)
		f, _ := found(r, "cultured-cream")
		if f.Severity != c.want {
			t.Errorf("%+v: %s, want %s", c.p.Components, f.Severity, c.want)
		}
		if c.want == stability.Good && (len(r.Passed) != 1 || r.Passed[0].Why == "" || r.Passed[0].ByItself != stability.LeaveOut) {
			t.Errorf("what was passed: %+v", r.Passed)
		}
	}
	// Two of a kind count together.
	two := pot{Components: []stability.Component{kg(water, 0.94), kg(sourCream, 0.03), with(kg(sourCream, 0.03), func(c *stability.Component) { c.Name = "more of it" })}}
	if f, _ := found(review(t, two), "cultured-cream"); f.Severity != stability.LeaveOut || len(f.Components) != 2 {
		t.Errorf("%+v", f)
	}
}

// Each thing that is enough by itself to hold 3 % of sour cream.
func TestWhatHolds(t *testing.T) {
	for name, c := range map[string]stability.Component{"0.15 % xanthan": kg(xanthan, 0.0015), "2.8 % flour": kg(flour, 0.028), "a fifth of pureed lentils": kg(lentils, 0.2)} {
		r := review(t, pot{Components: []stability.Component{kg(water, 0.95), kg(sourCream, 0.03), c}})
		if _, told := found(r, "cultured-cream"); told || !r.Protection.Holds() {
			t.Errorf("%s: %+v", name, r)
		}
	}
	for name, c := range map[string]stability.Component{"0.05 % xanthan": kg(xanthan, 0.0005), "whole lentils": with(kg(lentils, 0.2), func(c *stability.Component) { c.Pureed = false }), "nothing": kg(water, 0.1)} {
		if r := review(t, pot{Components: []stability.Component{kg(water, 0.95), kg(sourCream, 0.03), c}}); r.Protection.Holds() {
			t.Errorf("%s: %+v", name, r.Protection)
		}
	}
}

// A stew that is half meat: its corn starch is 2 % of the pot and 4 % of the sauce that it thickens.
func TestStarchIsOfTheSauce(t *testing.T) {
	meat := stability.Component{Name: "beef", Role: stability.Meat, MassKg: 0.5, Facts: stability.Facts{Water: 0.6, Fat: 0.15, Protein: 0.25}}
	stew := review(t, pot{Components: []stability.Component{meat, kg(water, 0.478), kg(cornStarch, 0.022)}})
	if f, ok := found(stew, "starch-weeps"); !ok || f.Severity != stability.Change || math.Abs(stew.Protection.Starch-0.0396) > 1e-4 {
		t.Errorf("%+v", stew)
	}
	thin := review(t, pot{Components: []stability.Component{kg(water, 0.978), kg(cornStarch, 0.022)}})
	if f, ok := found(thin, "starch-weeps"); !ok || f.Severity != stability.Note {
		t.Errorf("%+v", thin.Findings)
	}
}

// Fluid cream separates when it goes in cold, less where it is rich (web pages); cooked cream vegetables keep a few weeks only (Oregon State).
func TestCreams(t *testing.T) {
	cream := func(fat float64) stability.Component {
		return stability.Component{Name: "cream", Role: stability.Cream, Joins: stability.StirredCold, MassKg: 0.2, Facts: stability.Facts{Water: 0.95 - fat, Fat: fat}}
	}
	for _, c := range []struct {
		fat  float64
		want stability.Severity
	}{{0.18, stability.Change}, {0.36, stability.Note}} {
		if r := review(t, pot{Components: []stability.Component{kg(water, 0.8), cream(c.fat)}}); r.Worst() != c.want {
			t.Errorf("%g: %+v", c.fat, r.Findings)
		}
	}
	spinach := stability.Component{Name: "spinach", Role: stability.Vegetable, Pureed: true, MassKg: 0.6, Facts: stability.Facts{Water: 0.92}}
	for _, c := range []struct {
		weeks float64
		want  stability.Severity
	}{{0, stability.Note}, {3, stability.Good}, {12, stability.Change}} {
		r := review(t, pot{Components: []stability.Component{spinach, cream(0.36)}, Weeks: c.weeks})
		if f, _ := found(r, "creamed-vegetables"); f.Severity != c.want {
			t.Errorf("%g weeks: %+v", c.weeks, r.Findings)
		}
	}
}

// Doses of remedies are those of the tables of internal/dosing.
func TestRemediesAreDosed(t *testing.T) {
	r := review(t, pot{Components: []stability.Component{kg(milk, 1), kg(cheddar, 0.3), kg(cornStarch, 0.01)}})
	doses := map[string]stability.Remedy{}
	for _, f := range r.Findings {
		for _, m := range f.Remedies {
			doses[m.ID] = m
		}
	}
	for id, of := range map[string]struct {
		substance, use string
		basis          dosing.Basis
	}{"xanthan": {dosing.Xanthan, "sauce", dosing.OfFinished}, "citrate": {"trisodium citrate", "cheese sauce", dosing.OfCheese}} {
		i := slices.IndexFunc(dosing.Levels(), func(l dosing.Level) bool {
			return l.Substance == of.substance && l.Use == of.use && l.Basis == of.basis
		})
		if i < 0 {
			t.Fatal(of)
		}
		l, m := dosing.Levels()[i], doses[id]
		if math.Abs(m.Low-l.Low.F()) > 1e-9 || math.Abs(m.High-l.High.F()) > 1e-9 || m.Basis != string(l.Basis) {
			t.Errorf("%s: %+v, want %+v", id, m, l)
		}
	}
}

// Beans, stews, stock and pureed soups are good (common practice): nothing is said of a pot of dal but what its spices do.
func TestGoodPots(t *testing.T) {
	cumin := stability.Component{Name: "garlic", Role: stability.Seasoning, Drift: stability.Stronger, MassKg: 0.01}
	dal := pot{Components: []stability.Component{kg(water, 0.4), kg(lentils, 0.55), kg(butter, 0.02), kg(sourCream, 0.02), cumin}}
	r := review(t, dal)
	if len(r.Findings) != 1 || r.Findings[0].Code != "seasoning-drifts" || r.Worst() != stability.Note || len(r.Passed) != 1 {
		t.Errorf("%+v", r)
	}
	meat := stability.Component{Name: "beef", Role: stability.Meat, MassKg: 0.5, Facts: stability.Facts{Water: 0.6, Fat: 0.15, Protein: 0.25}}
	tomato := stability.Component{Name: "tomato", Role: stability.Acid, MassKg: 0.4, Facts: stability.Facts{Water: 0.94, Sugars: 0.03}}
	if r := review(t, pot{Components: []stability.Component{meat, tomato, kg(water, 0.2)}, PH: 4.3}); len(r.Findings) != 0 {
		t.Errorf("%+v", r.Findings)
	}
}

// Macaroni and cheese: without an emulsifying salt or starch its sauce breaks, with citrate it need not; the pasta stays what it is.
func TestCheeseSauce(t *testing.T) {
	bare := pot{Components: []stability.Component{kg(milk, 0.93), kg(cheddar, 1), kg(pasta, 2)}}
	r := review(t, bare)
	f, ok := found(r, "cheese-sauce-breaks")
	if !ok || f.Severity != stability.Change || f.Remedies[0].ID != "citrate" || f.Remedies[0].After != stability.Good || f.Remedies[0].Low != 0.02 {
		t.Fatalf("%+v", f)
	}
	if p := r.Protection; math.Abs(p.LiquidCheese-0.93) > 1e-9 || math.Abs(p.FatOfPot-(0.93*0.0325+0.33)/3.93) > 1e-9 {
		t.Errorf("%+v", p)
	}
	salted := bare
	salted.Components = append(slices.Clone(bare.Components), kg(citrate, 0.0372))
	r = review(t, salted)
	if _, ok := found(r, "cheese-sauce-breaks"); ok {
		t.Errorf("%+v", r.Findings)
	}
	mornay := pot{Components: []stability.Component{kg(milk, 0.8), kg(cheddar, 0.15), kg(flour, 0.05)}, FrontMMH: 2}
	if r := review(t, mornay); !slices.ContainsFunc(r.Passed, func(x stability.Passed) bool { return x.Code == "cheese-sauce-breaks" }) {
		t.Errorf("flour holds it: %+v", r)
	}
	thin := pot{Components: []stability.Component{kg(milk, 0.85), kg(cheddar, 0.15)}}
	if _, ok := found(review(t, thin), "cheese-sauce-breaks"); !ok {
		t.Error("15 % of cheese in milk was passed")
	}
	if f, ok := found(r, "pasta"); !ok || f.Severity != stability.Change {
		t.Errorf("%+v", r.Findings)
	}
	salted.PH = 5.2 // samples fractured at 5.3 (Lu et al. 2008)
	if _, ok := found(review(t, salted), "cheese-sauce-breaks"); !ok {
		t.Error("a sour cheese sauce was passed")
	}
}

func TestSourDairyGumsAndPack(t *testing.T) {
	lemon := stability.Component{Name: "lemon juice", Role: stability.Acid, MassKg: 0.15, Facts: stability.Facts{Water: 0.92}}
	r := review(t, pot{Components: []stability.Component{kg(milk, 0.85), lemon}, PH: 4.4, AirInPack: true})
	if f, ok := found(r, "acid-curdles-dairy"); !ok || f.Severity != stability.Change || f.Remedies[0].ID != "acid-later" || f.Remedies[0].After != stability.Good {
		t.Errorf("%+v", f)
	}
	if f, ok := found(r, "freezer-burn"); !ok || f.Severity != stability.Note {
		t.Errorf("%+v", f)
	}
	if f, ok := found(review(t, pot{Components: []stability.Component{kg(milk, 0.85), lemon}}), "acid-curdles-dairy"); !ok || f.Severity != stability.Note {
		t.Errorf("pH not known: %+v", f)
	}
	lbg := stability.Component{Name: "locust bean gum", Role: stability.Gum, Gum: stability.LocustBean, MassKg: 0.0002}
	if _, ok := found(review(t, pot{Components: []stability.Component{kg(water, 1), lbg, kg(xanthan, 0.0002)}}), "gums-gel"); !ok {
		t.Error("0.04 % of xanthan and locust bean gum set to a gel")
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
