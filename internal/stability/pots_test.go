package stability_test

import (
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/stability"
)

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
	r = review(t, pot{Components: []stability.Component{kg(water, 1), {Name: "egg", Role: stability.Egg, MassKg: 0.2}, {Name: "cream", Role: stability.Cream, MassKg: 0.2}}})
	if len(r.Assumed) != 2 || r.Worst() != stability.Change {
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
