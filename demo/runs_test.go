package demo_test

import (
	"math"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
)

// Every run of the demo can be planned: nothing in it says stop, and it is the size of day that a crew of three would take on.
func TestRunsCanBePlanned(t *testing.T) {
	b, foods := book(t)
	for name, request := range b.Runs {
		p := plan.Make(t.Context(), b, foods, request)
		for _, f := range p.Findings {
			if f.Severity == finding.Stop {
				t.Errorf("%s: %s", name, f)
			}
		}
		if kg := p.Summary.FoodMass.Kg(); kg < 20 || kg > 250 {
			t.Errorf("%s: %.1f kg in packs", name, kg)
		}
	}
}

// Worked by hand: 20 lb of bacon is 9.0718 kg, five times the recipe. In the pans it gives 26.6 % fat, 2.4131 kg. Sweating wants five
// times 18 oz, 2.5515 kg. So 0.1384 kg of lard is bought in.
func TestTwentyPoundsOfBaconWantSomeLard(t *testing.T) {
	b, foods := book(t)
	p := plan.Make(t.Context(), b, foods, b.Runs["use-bacon"])
	if len(p.Dishes) != 1 || len(p.Dishes[0].BoughtIn) != 1 {
		t.Fatalf("want one dish with one thing bought in, got %+v", p.Dishes)
	}
	if lard := p.Dishes[0].BoughtIn[0]; lard.ID != "lard" || math.Abs(lard.Mass.Kg()-0.1384) > 0.0002 {
		t.Errorf("bought in: %.4f kg of %s", lard.Mass.Kg(), lard.ID)
	}
}
