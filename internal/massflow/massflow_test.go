package massflow

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/loads"
)

// Analyses from USDA SR28 (2016), per gram; fibre is taken out of carbohydrate. What they leave over one is Other.
var (
	water     = Fractions{Water: 1}
	bacon     = Fractions{Water: 0.4424, Protein: 0.1262, Fat: 0.3969, Carbohydrate: 0.0128, Ash: 0.0217} // 10123, unprepared
	beef80    = Fractions{Water: 0.6187, Protein: 0.1717, Fat: 0.2000, Ash: 0.0084, Other: 0.0012}        // 23572, raw
	solids    = Fractions{Carbohydrate: 1}
	lard      = Fractions{Fat: 1}
	plainMain = []Output{{Name: "main", Main: true}}
	density   = Fractions{Water: 1, Protein: 1.33, Fat: 0.92, Carbohydrate: 1.59, Fibre: 1.3, Ash: 2.42, Alcohol: 0.79}
)

func of(ingredient int, kg float64) Use { return Use{Ingredient: ingredient, Kg: kg, StandIn: -1} }
func from(step, out int, share float64) Use {
	return Use{Ingredient: -1, From: Ref{step, out}, Share: share, StandIn: -1}
}

func step(name string, uses ...Use) Step {
	return Step{Name: name, Uses: uses, MakeUp: -1, After: -1, Outputs: plainMain}
}

func want(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g ± %g", what, got, want, tolerance)
	}
}

// Raw and pan-browned analyses of the same meat from USDA SR28, and the water and fat lost that follow when no protein is lost
// (derived): what is cooked here must come out with the analysis of the cooked meat, to what the two analyses agree.
func TestCookingLossLeavesThePublishedCookedMeat(t *testing.T) {
	for _, c := range []struct {
		name                                  string
		raw                                   Fractions
		water, fat                            float64 // kg lost per kg raw
		yield                                 float64
		cookedProtein, cookedFat, cookedWater float64
	}{
		{"ground beef 80/20 crumbles, SR28 23572 to 23575", beef80, 0.272, 0.090, 0.636, 0.2700, 0.1736, 0.5454},
		{"bacon pan-fried, SR28 10123 to 10862", bacon, 0.354, 0.266, 0.372, 0.3392, 0.3509, 0.2365},
	} {
		s := step("brown", of(0, 1))
		s.WaterLoss = c.water
		s.Outputs = []Output{{Name: "meat", Main: true}, {Name: "fat", Takes: c.fat, Part: FromFat, ByProduct: true}}
		flow, err := Uniform(Graph{Ingredients: []Fractions{c.raw}, Steps: []Step{s}, DensityKgL: density}, 40)
		if err != nil {
			t.Fatal(err)
		}
		meat, fat := flow.Steps[0].Out[0], flow.Steps[0].Out[1]
		x := meat.Stream.Composition()
		want(t, c.name+" yield", meat.Kg/40, c.yield, 0.009)
		want(t, c.name+" protein", x[Protein]/meat.Kg, c.cookedProtein, 0.008)
		want(t, c.name+" fat", x[Fat]/meat.Kg, c.cookedFat, 0.008)
		want(t, c.name+" water", x[Water]/meat.Kg, c.cookedWater, 0.008)
		want(t, c.name+" rendered fat is fat only", fat.Stream.Composition()[Fat], 40*c.fat, 1e-12)
		want(t, c.name+" nothing lost or won", flow.ClosureRel, 0, 1e-12)
	}
}

// A 60 qt pot, 16 in across, loses 1.74 kg of water an hour at 200 °F and a 3 qt pan, 8 in across, 0.43 kg (from open-tank
// figures of the Engineering Toolbox, 13.4 kg/m²h; derived): five times the fraction of its content.
func TestEvaporationFollowsSurfaceNotMass(t *testing.T) {
	simmer := func(diameterIn, volumeL float64) float64 {
		r := diameterIn * 0.0254 / 2
		s := step("simmer", of(0, volumeL))
		s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: volumeL}, OpenAreaM2: math.Pi * r * r}}
		s.EvaporationKgM2H, s.TimeS = 13.4, 3600
		flow, err := Uniform(Graph{Ingredients: []Fractions{water}, Steps: []Step{s}, DensityKgL: density}, 1)
		if err != nil {
			t.Fatal(err)
		}
		return flow.Steps[0].Lost.Evaporated
	}
	pot, pan := simmer(16, 56.8), simmer(8, 2.839)
	want(t, "pot, kg/h", pot, 1.74, 0.005)
	want(t, "pan, kg/h", pan, 0.43, 0.005)
	want(t, "ratio of fractions", (pan/2.839)/(pot/56.8), 5.0, 0.05)
}

// By hand: 10 kg of water and 2 kg of solids simmer an hour in a 15 L pot of 0.2 m² at 5 kg/m²h, 0.1 kg sticks: 10.9 kg of soup from
// one pot. For 100 kg: a pot loses 1.1 kg, the mixture weighs 12 kg in 10 + 2/1.59 = 11.258 L. n pots give 12 s - 1.1 n; with n = 8:
// s = 9.0667, 102.07 L, 6.8 pots, so 7 would do; with n = 7: s = 8.975, 101.04 L, 6.74 pots: 7.
func TestFillingsChangeLossesAndLossesFillings(t *testing.T) {
	s := step("simmer", of(0, 10), of(1, 2))
	s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 15}, OpenAreaM2: 0.2}}
	s.EvaporationKgM2H, s.TimeS, s.ResidueKg = 5, 3600, 0.1
	flow, err := Demand(Graph{Ingredients: []Fractions{water, solids}, Steps: []Step{s}, DensityKgL: density}, map[Ref]float64{{0, 0}: 100})
	if err != nil {
		t.Fatal(err)
	}
	got := flow.Steps[0]
	want(t, "pots", float64(got.Split.N), 7, 0)
	want(t, "scale", got.Scale, 107.7/12, 1e-9)
	want(t, "evaporated", got.Lost.Evaporated, 7, 1e-9)
	want(t, "residue", got.Lost.Residue, 0.7, 1e-9)
	want(t, "soup", got.Out[0].LeftKg, 100, 1e-9)
}

// By hand: written 2 kg of lentils with 10 kg of water lose 1 kg: 11 kg. Ten times that in one kettle loses 2 kg only: with the water
// made up there are 110 kg from 20 kg of lentils and 92 kg of water.
func TestMakeUpKeepsTheDishAsThickAsWritten(t *testing.T) {
	s := step("simmer", of(0, 10), of(1, 2))
	s.MakeUp = 0
	s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 20}, OpenAreaM2: 0.2}, {Limit: loads.Limit{VolumeL: 150}, OpenAreaM2: 0.4}}
	s.EvaporationKgM2H, s.TimeS = 5, 3600
	g := Graph{Ingredients: []Fractions{water, solids}, Steps: []Step{s}, DensityKgL: density}
	for name, solve := range map[string]func() (Flow, error){
		"by demand": func() (Flow, error) { return Demand(g, map[Ref]float64{{0, 0}: 110}) },
		"by scale":  func() (Flow, error) { return Uniform(g, 10) },
	} {
		flow, err := solve()
		if err != nil {
			t.Fatal(name, err)
		}
		want(t, name+": lentils", flow.Bought[1], 20, 1e-9)
		want(t, name+": water", flow.Bought[0], 92, 1e-9)
		want(t, name+": out", flow.Steps[0].Out[0].Kg, 110, 1e-9)
	}
}

// By hand: 10 kg of bacon gives 2.66 kg of fat. The onions want 0.3 kg of fat for each 1 kg; for 12 kg of onions that is 3.6 kg: 0.94 kg
// of lard is bought. For 5 kg it is 1.5 kg and 1.16 kg of fat is over.
func TestByProductFallsShortOrIsOver(t *testing.T) {
	render := step("render", of(0, 10))
	render.WaterLoss = 0.354
	render.Outputs = []Output{{Name: "crisp", Main: true}, {Name: "fat", Takes: 0.266, Part: FromFat, ByProduct: true}}
	sweat := step("sweat", of(1, 10), Use{Ingredient: -1, From: Ref{0, 1}, Kg: 3, StandIn: 2})
	g := Graph{Ingredients: []Fractions{bacon, solids, lard}, Steps: []Step{render, sweat}, DensityKgL: density}
	crisp := 10 * (1 - 0.354 - 0.266)
	for _, c := range []struct{ onions, lard, over float64 }{{12, 0.94, 0}, {5, 0, 1.16}} {
		flow, err := Demand(g, map[Ref]float64{{0, 0}: crisp, {1, 0}: c.onions * 1.3})
		if err != nil {
			t.Fatal(err)
		}
		want(t, "bacon", flow.Bought[0], 10, 1e-9)
		want(t, "onions", flow.Bought[1], c.onions, 1e-9)
		want(t, "lard bought", flow.Bought[2], c.lard, 1e-9)
		want(t, "stand-in", flow.Steps[1].In[1].StandInKg, c.lard, 1e-9)
		want(t, "fat over", flow.Steps[0].Out[1].LeftKg, c.over, 1e-9)
	}
}

// By hand: stock boiled down to 40 %: 100 kg is wanted, 250 kg go in and 150 kg of water leave, whatever the pots. One pot of
// 0.5 m² at 16 kg/m²h in 5 fillings takes 150/(0.5·16·5) h = 3.75 h.
func TestReducing(t *testing.T) {
	s := step("reduce", of(0, 10))
	s.ReduceTo, s.EvaporationKgM2H = 0.4, 16
	s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 50}, OpenAreaM2: 0.5}}
	flow, err := Demand(Graph{Ingredients: []Fractions{water}, Steps: []Step{s}, DensityKgL: density}, map[Ref]float64{{0, 0}: 100})
	if err != nil {
		t.Fatal(err)
	}
	want(t, "stock", flow.Bought[0], 250, 1e-9)
	want(t, "evaporated", flow.Steps[0].Lost.Evaporated, 150, 1e-9)
	want(t, "time in s", flow.Steps[0].ReduceS, 3.75*3600, 1e-6)
}

func TestWhatCannotBeSolvedSaysWhy(t *testing.T) {
	thirsty := step("simmer", of(0, 1)) // 1 L pots that lose all they hold
	thirsty.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 1}, OpenAreaM2: 1}}
	thirsty.EvaporationKgM2H, thirsty.TimeS = 0.98, 3600
	thirsty.ResidueKg = 0.02
	circleA, circleB := step("a", from(1, 0, 1)), step("b", from(0, 0, 1))
	overfull := step("split", of(0, 1))
	overfull.Outputs = []Output{{Name: "x", Main: true}, {Name: "y", Takes: 0.7}, {Name: "z", Takes: 0.3}}
	for _, c := range []struct {
		name string
		g    Graph
		err  error
		text string
	}{
		{"each pot loses what it holds", Graph{Ingredients: []Fractions{water}, Steps: []Step{thirsty}, DensityKgL: density}, ErrDiverges, ""},
		{"a circle", Graph{Ingredients: []Fractions{water}, Steps: []Step{circleA, circleB}}, nil, "steps go in a circle: a needs b needs a"},
		{"more than all", Graph{Ingredients: []Fractions{water}, Steps: []Step{overfull}}, nil,
			`step "split": outputs and losses take 100 % of what goes in: nothing is left for the main product`},
	} {
		_, err := Demand(c.g, map[Ref]float64{{0, 0}: 10})
		if err == nil || c.err != nil && !errors.Is(err, c.err) || c.text != "" && err.Error() != c.text {
			t.Errorf("%s: got %v", c.name, err)
		}
	}
}

// By hand: 10 kg of bacon give 2.66 kg of fat; a step written for 4 kg of it, with no stand-in, is 1.34 kg short as written, and says so.
func TestAShortfallIsSaidNotHiddenInTheWrittenRatio(t *testing.T) {
	render := step("render", of(0, 10))
	render.Outputs = []Output{{Name: "crisp", Main: true}, {Name: "fat", Takes: 0.266, Part: FromFat, ByProduct: true}}
	sweat := step("sweat", from(0, 0, 1), Use{Ingredient: -1, From: Ref{0, 1}, Kg: 4, StandIn: -1})
	flow, err := Uniform(Graph{Ingredients: []Fractions{bacon}, Steps: []Step{render, sweat}, DensityKgL: density}, 1)
	if err != nil {
		t.Fatal(err)
	}
	short := flow.Steps[1].Shortages
	if len(short) != 1 || short[0].Cause != InputShort {
		t.Fatalf("got %+v, want one input short", short)
	}
	want(t, "wanted", short[0].WantKg, 4, 1e-9)
	want(t, "there", short[0].HaveKg, 2.66, 1e-9)
}

// A burner of 35,000 Btu/h at 40 % puts 4.10 kW into a pot, which boils off 6.54 kg in an hour (derived, losses left out), whatever the
// surface: 20 kg reduced to half take 10/6.54 h.
func TestAtTheBoilTheBurnerDecides(t *testing.T) {
	s := step("boil", of(0, 20))
	s.ReduceTo, s.EvaporationKgM2H = 0.5, 16
	s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 50}, OpenAreaM2: 0.5, BoilKgH: 6.54}}
	flow, err := Uniform(Graph{Ingredients: []Fractions{water}, Steps: []Step{s}, DensityKgL: density}, 1)
	if err != nil {
		t.Fatal(err)
	}
	want(t, "time in h", flow.Steps[0].ReduceS/3600, 10/6.54, 1e-9)
}

// TestAlternatives: another vessel will do when a load fits and loses as much there; reducing takes as much longer as less evaporates.
func TestAlternatives(t *testing.T) {
	of20 := func(vessel Vessel, edit func(*Step)) []Alternative {
		s := step("simmer", of(0, 20))
		s.TimeS, s.EvaporationKgM2H = 3600, 5
		s.Vessels = []Vessel{{Limit: loads.Limit{VolumeL: 25}, OpenAreaM2: 0.2}, vessel}
		edit(&s)
		g := Graph{Ingredients: []Fractions{water}, Steps: []Step{s}, DensityKgL: density}
		flow, err := Uniform(g, 2) // two loads of 20 kg
		if err != nil {
			t.Fatal(err)
		}
		return g.Alternatives(flow, []int{0})
	}
	asWritten, closed, reduced := func(*Step) {}, func(s *Step) { s.EvaporationKgM2H = 0 }, func(s *Step) { s.TimeS, s.ReduceTo = 0, 0.9 }
	for _, c := range []struct {
		name   string
		vessel Vessel
		edit   func(*Step)
		want   []Alternative
	}{
		{"as wide", Vessel{Limit: loads.Limit{VolumeL: 21}, OpenAreaM2: 0.2}, asWritten, []Alternative{{Vessel: 1, ReduceS: []float64{0}}}},
		{"wider", Vessel{Limit: loads.Limit{VolumeL: 21}, OpenAreaM2: 0.25}, asWritten, nil},
		{"wider, with the lid on", Vessel{Limit: loads.Limit{VolumeL: 21}, OpenAreaM2: 0.25}, closed, []Alternative{{Vessel: 1, ReduceS: []float64{0}}}},
		{"too small", Vessel{Limit: loads.Limit{VolumeL: 15}, OpenAreaM2: 0.2}, asWritten, nil},
		{"twice as wide, 2 kg of 20 to boil away at 2 kg/h", Vessel{Limit: loads.Limit{VolumeL: 21}, OpenAreaM2: 0.4}, reduced, []Alternative{{Vessel: 1, ReduceS: []float64{3600}}}},
	} {
		got := of20(c.vessel, c.edit)
		if len(got) != len(c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
			continue
		}
		for k := range got {
			want(t, c.name, got[k].ReduceS[0], c.want[k].ReduceS[0], 1e-6)
		}
	}
}
