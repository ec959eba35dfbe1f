package fill

import (
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// By hand: 10 kg of stew and 3 kg of rice; a pack of 500 g and 100 g, of which 12 sell. 4 kg of stew and 1.8 kg of rice stay. There are
// 15 bags, so three more packs could go beyond what sells; 2.5 kg and 1.5 kg then stay. A small pack of 300 g and 50 g needs none of
// those bags: eight, so 100 g and 1.1 kg stay; half a kilo of rice is kept, the crew eats 400 g, 200 g and the stew are thrown away.
func TestUses(t *testing.T) {
	const g = unit.Gram
	p := Problem{Stock: []unit.Mass{10_000 * g, 3_000 * g}, Supplies: []Supply{{"bags", 15}},
		Packs: []Pack{{Name: "stew", Value: 9, Max: 12, Needs: []Need{of(0, 500), of(1, 100)}, Uses: []Use{{0, 1}}}}}
	small := []Pack{{Name: "small", Value: 4, Max: -1, Needs: []Need{of(0, 300), of(1, 50)}}}
	plan, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	o := Offers{Lift: true, Smaller: small, Keep: []unit.Mass{0, 500 * g}, Crew: []unit.Mass{0, 400 * g}}
	got, err := Uses(p, plan, o)
	want := []Rest{
		{Left: 4000 * g, More: 1500 * g, Smaller: 2400 * g, Discard: 100 * g},
		{Left: 1800 * g, More: 300 * g, Smaller: 400 * g, Keep: 500 * g, Crew: 400 * g, Discard: 200 * g},
	}
	if err != nil || !slices.Equal(got.Outputs, want) || got.More[0] != 3 || got.Smaller[0] != 8 || got.Wanted[0] != 0 || got.Value != 59 || !got.Proven {
		t.Errorf("got %+v, %v; want %+v", got, err, want)
	}
	// With more bags: eight more packs, for which five bags are wanting; nothing is left of the stew.
	o.LiftSupplies = true
	got, err = Uses(p, plan, o)
	if err != nil || got.More[0] != 8 || got.Wanted[0] != 5 || got.Outputs[0] != (Rest{Left: 4000 * g, More: 4000 * g}) {
		t.Errorf("bags lifted: got %+v, %v", got, err)
	}
	// Nothing allowed: all is discarded.
	got, err = Uses(p, plan, Offers{})
	if err != nil || got.Outputs[0] != (Rest{Left: 4000 * g, Discard: 4000 * g}) || got.Outputs[1] != (Rest{Left: 1800 * g, Discard: 1800 * g}) {
		t.Errorf("nothing allowed: got %+v, %v", got, err)
	}
	if _, err := Uses(p, plan, Offers{Keep: []unit.Mass{0}}); err == nil {
		t.Error("one mass for two outputs was taken")
	}
	plan.Left[0]++
	if _, err := Uses(p, plan, o); err == nil {
		t.Error("a plan that doesn't add up was taken")
	}
}

// Whatever is offered, all that is left is accounted for, and nothing goes where it may not.
func TestUsesLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trading(t, smallProblem(t))
		plan, err := Solve(p)
		if err != nil {
			return
		}
		o := Offers{Lift: rapid.Bool().Draw(t, "lift"), LiftSupplies: rapid.Bool().Draw(t, "lift supplies")}
		for range p.Stock {
			o.Keep = append(o.Keep, unit.Mass(rapid.IntRange(-1, 300).Draw(t, "keep"))*unit.Gram)
			o.Crew = append(o.Crew, unit.Mass(rapid.IntRange(-1, 300).Draw(t, "crew"))*unit.Gram)
		}
		u, err := Uses(p, plan, o)
		if err != nil {
			t.Fatal(err)
		}
		for j, r := range u.Outputs {
			if r.Left != plan.Left[j] || r.More+r.Smaller+r.Keep+r.Crew+r.Discard != r.Left || min(r.More, r.Smaller, r.Keep, r.Crew, r.Discard) < 0 {
				t.Fatalf("output %d: %+v of %v", j, r, plan.Left[j])
			}
			if o.Keep[j] >= 0 && r.Keep > o.Keep[j] || o.Crew[j] >= 0 && r.Crew > o.Crew[j] || !o.Lift && r.More > 0 {
				t.Fatalf("output %d: %+v is more than was allowed", j, r)
			}
		}
	})
}
