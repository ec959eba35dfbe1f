package massflow

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/loads"
)

// drawGraph is any dish: a few ingredients, steps that use ingredients and earlier outputs by amount, share or all, with losses of
// every cause, several vessels, by-products and make-up.
func drawGraph(t *rapid.T) Graph {
	g := Graph{DensityKgL: density}
	for range rapid.IntRange(1, 5).Draw(t, "ingredients") {
		g.Ingredients = append(g.Ingredients, drawFractions(t))
	}
	free := []Ref{} // outputs that nobody takes all of
	for i := range rapid.IntRange(1, 7).Draw(t, "steps") {
		s := Step{Name: fmt.Sprint("step ", i), MakeUp: -1, After: -1}
		for range rapid.IntRange(1, 3).Draw(t, "fresh") {
			s.Uses = append(s.Uses, of(rapid.IntRange(0, len(g.Ingredients)-1).Draw(t, "ingredient"), rapid.Float64Range(0.1, 20).Draw(t, "kg")))
		}
		if len(free) > 0 && rapid.Bool().Draw(t, "draws on") {
			k := rapid.IntRange(0, len(free)-1).Draw(t, "which")
			u := from(free[k].Step, free[k].Output, rapid.SampledFrom([]float64{0, 0.3, 1}).Draw(t, "share"))
			if u.Share == 0 {
				u.Kg, u.StandIn = rapid.Float64Range(0.1, 5).Draw(t, "amount"), 0
			}
			if u.Share == 1 {
				free = append(free[:k], free[k+1:]...)
			}
			s.Uses = append(s.Uses, u)
		}
		drawLosses(t, &s)
		g.Steps = append(g.Steps, s)
		for o := range s.Outputs {
			free = append(free, Ref{i, o})
		}
	}
	return g
}

func drawFractions(t *rapid.T) Fractions {
	var f Fractions
	sum := 0.0
	for c := Water; c < Other; c++ {
		f[c] = rapid.Float64Range(0.01, 1).Draw(t, "fraction")
		sum += f[c]
	}
	for c := range f {
		f[c] /= sum
	}
	return f
}

func drawLosses(t *rapid.T, s *Step) {
	share := func(name string, most float64) float64 {
		if rapid.Bool().Draw(t, name+"?") {
			return rapid.Float64Range(0, most).Draw(t, name)
		}
		return 0
	}
	s.WaterLoss, s.FatLoss, s.Drain = share("water", 0.1), share("fat", 0.05), share("drain", 0.05)
	s.ResidueKg, s.EvaporationKgM2H, s.TimeS = share("residue", 0.05), share("rate", 3), 1800
	s.Outputs = []Output{{Name: "main", Main: true}}
	if rapid.Bool().Draw(t, "by-product") {
		s.Outputs = append(s.Outputs, Output{Name: "fat", Takes: 0.03, Part: FromFat, ByProduct: true})
	}
	if rapid.Bool().Draw(t, "two products") {
		s.Outputs = append(s.Outputs, Output{Name: "other", Takes: rapid.Float64Range(0.05, 0.5).Draw(t, "takes")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "vessels") {
		s.Vessels = append(s.Vessels, Vessel{
			Limit:      loads.Limit{VolumeL: rapid.Float64Range(10, 200).Draw(t, "volume"), MassKg: rapid.SampledFrom([]float64{0, 5, 30, 300}).Draw(t, "load")},
			OpenAreaM2: rapid.Float64Range(0.03, 0.5).Draw(t, "area"),
		})
	}
	if len(s.Vessels) > 0 && rapid.Bool().Draw(t, "make-up") {
		s.MakeUp = 0
	}
}

// Whatever the dish: mass closes, no component is negative, put-in masses close, packs get what they want, fillings hold.
func TestEveryDishCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t)
		last := len(g.Steps) - 1
		wanted := rapid.Float64Range(0.5, 3000).Draw(t, "wanted")
		flow, err := Demand(g, map[Ref]float64{{last, 0}: wanted})
		if said(err) {
			return // said, not hidden
		}
		if err != nil {
			t.Fatal(err)
		}
		checkFlow(t, g, flow)
		short := false
		for _, s := range flow.Steps {
			short = short || len(s.Shortages) > 0
		}
		if got := flow.Steps[last].Out[0].LeftKg; !short && got < wanted*(1-1e-9) {
			t.Fatalf("wanted %v kg, got %v", wanted, got)
		}
		flow, err = Uniform(g, rapid.Float64Range(0.1, 100).Draw(t, "scale"))
		if err != nil && !said(err) {
			t.Fatal(err)
		}
		if err == nil {
			checkFlow(t, g, flow)
		}
	})
}

// said is an answer that a dish cannot be cooked at that scale, with its reason.
func said(err error) bool {
	return errors.Is(err, ErrDiverges) || errors.Is(err, ErrGivesNothing) || errors.Is(err, loads.ErrTooMany)
}

func checkFlow(t *rapid.T, g Graph, flow Flow) {
	if flow.ClosureRel > 1e-9 {
		t.Fatalf("mass is off by %v", flow.ClosureRel)
	}
	putIn := make([]float64, len(g.Ingredients))
	for i, s := range flow.Steps {
		for o, out := range s.Out {
			if out.LeftKg < -1e-9 {
				t.Fatalf("step %d gives %v kg more than it has", i, -out.LeftKg)
			}
			for c, kg := range out.Stream.Composition() {
				if kg < -1e-9 {
					t.Fatalf("step %d output %d holds %v kg of %s", i, o, kg, Component(c))
				}
			}
			if out.Kg > 0 {
				for k, kg := range out.Stream.PutIn {
					putIn[k] += kg * out.LeftKg / out.Kg
				}
			}
		}
		if s.Vessel >= 0 && s.InKg > 0 {
			limit := g.Steps[i].Vessels[s.Vessel].Limit
			if limit.VolumeL > 0 && s.VolumeL/float64(s.Split.N) > limit.VolumeL*(1+1e-6) || limit.MassKg > 0 && s.InKg/float64(s.Split.N) > limit.MassKg*(1+1e-6) {
				t.Fatalf("step %d: %v kg, %v L in %d fillings of %+v", i, s.InKg, s.VolumeL, s.Split.N, limit)
			}
		}
	}
	for k := range putIn {
		if d := putIn[k] - flow.Bought[k]; d > 1e-6*(1+flow.Bought[k]) {
			t.Fatalf("ingredient %d: %v kg bought, %v kg put in", k, flow.Bought[k], putIn[k])
		}
	}
}

func BenchmarkDemand(b *testing.B) {
	// eight steps, each in its own pots: a long dish at kettle scale
	g := Graph{DensityKgL: density}
	for range 14 {
		g.Ingredients = append(g.Ingredients, bacon)
	}
	for i := range 8 {
		s := step("simmer", of(i, 3), of(i+1, 7))
		if i > 0 {
			s.Uses = append(s.Uses, from(i-1, 0, 1))
		}
		s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 40}, OpenAreaM2: 0.12}}
		s.EvaporationKgM2H, s.TimeS, s.ResidueKg = 5, 3600, 0.1
		g.Steps = append(g.Steps, s)
	}
	for b.Loop() {
		if _, err := Demand(g, map[Ref]float64{{7, 0}: 150}); err != nil {
			b.Fatal(err)
		}
	}
}
