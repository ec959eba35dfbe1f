package heatcase

import (
	"fmt"
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// The assumed recipes of the reference with the constants as it rounds them; its derived times were computed with those.
var (
	soupCold = heat.FreezingFood{DensityKgM3: 1030, UnfrozenHeatJKgK: 3850, FrozenHeatJKgK: 2040, FreezableJKg: 282e3, FreezingPointC: -0.8, UnfrozenConductivityWMK: 0.54, FrozenConductivityWMK: 1.89}
	soupHot  = heat.FreezingFood{DensityKgM3: 1030, UnfrozenHeatJKgK: 3850, FrozenHeatJKgK: 2040, FreezableJKg: 282e3, FreezingPointC: -0.8, UnfrozenConductivityWMK: 0.59, FrozenConductivityWMK: 1.89}
	stew     = heat.FreezingFood{DensityKgM3: 1050, UnfrozenHeatJKgK: 3560, FrozenHeatJKgK: 2200, FreezableJKg: 219e3, FreezingPointC: -1.2, UnfrozenConductivityWMK: 0.49, FrozenConductivityWMK: 1.36}
	stewHot  = heat.FreezingFood{DensityKgM3: 1050, UnfrozenHeatJKgK: 3560, FrozenHeatJKgK: 2200, FreezableJKg: 219e3, FreezingPointC: -1.2, UnfrozenConductivityWMK: 0.53, FrozenConductivityWMK: 1.36}
)

// ask is a case from its keys.
func ask(t *testing.T, p Process, keys ...string) Case {
	t.Helper()
	c := New(p)
	c.Food = Example(p).Food
	for i := 0; i < len(keys); i += 2 {
		if err := c.Set(keys[i], keys[i+1]); err != nil {
			t.Fatalf("%s %q: %v", keys[i], keys[i+1], err)
		}
	}
	return c
}

// Times of thermal_checks.csv (derived by an independent solver; the surface coefficients are its assumptions), through a whole case
// whose food is the one that they were derived with.
var rows = []struct {
	name   string
	food   heat.FreezingFood
	of     Process
	keys   []string
	toC    float64
	wantS  float64
	within float64 // 1 %, or its own tolerance; the pans' is 3 %
}{
	{"pan 2 in, still walk-in, covered", soupHot, Cool, pan("2 in", "10", "8", "3"), 21.1, 4.07222 * 3600, 0.01},
	{"pan 2 in, still walk-in, covered", soupHot, Cool, pan("2 in", "10", "8", "3"), 5, 11.8556 * 3600, 0.01},
	{"pan 2 in, still walk-in, open", soupHot, Cool, append(pan("2 in", "10", "8", "3"), "open", "yes"), 21.1, 3.24444 * 3600, 0.01},
	{"pan 2 in, still walk-in, open", soupHot, Cool, append(pan("2 in", "10", "8", "3"), "open", "yes"), 5, 10.9861 * 3600, 0.01},
	{"pan 2 in, walk-in with a fan, open", soupHot, Cool, append(pan("2 in", "20", "15", "3"), "open", "yes"), 21.1, 2.20833 * 3600, 0.01},
	{"pan 2 in, blast at -10 °C, covered", soupHot, Cool, pan("2 in", "35", "35", "-10"), 21.1, 1.125 * 3600, 0.01},
	{"pan 2 in, blast at -10 °C, covered", soupHot, Cool, pan("2 in", "35", "35", "-10"), 5, 2.025 * 3600, 0.01},
	{"pan 2.5 in, walk-in with a fan, open", soupHot, Cool, append(pan("2.5 in", "20", "15", "3"), "open", "yes"), 5, 8.9 * 3600, 0.01},
	{"pan 4 in, still walk-in, covered", soupHot, Cool, pan("4 in", "10", "8", "3"), 5, 26.9306 * 3600, 0.01},
	{"pan 4 in, blast at -10 °C, covered", soupHot, Cool, pan("4 in", "35", "35", "-10"), 5, 5.85833 * 3600, 0.01},

	{"bag of soup, still freezer", soupCold, Freeze, bag("25.4 mm", "8", "-18", "5", "-15"), -10, 9.08273 * 3600, 0.01},
	{"bag of soup, still freezer", soupCold, Freeze, bag("25.4 mm", "8", "-18", "5", "-15"), -15, 10.6431 * 3600, 0.01},
	{"bag of soup, crowded freezer", soupCold, Freeze, bag("25.4 mm", "5", "-18", "5", "-15"), -15, 16.8534 * 3600, 0.01},
	{"bag of soup, blast", soupCold, Freeze, bag("25.4 mm", "30", "-30", "5", "-15"), -10, 1.46448 * 3600, 0.01},
	{"bag of stew, still freezer", stew, Freeze, bag("25.4 mm", "8", "-18", "5", "-15"), -10, 7.6204 * 3600, 0.01},
	{"bag of stew, blast", stew, Freeze, bag("25.4 mm", "30", "-30", "5", "-15"), -15, 1.3869 * 3600, 0.01},
	{"stack of four, touching", soupCold, Freeze, append(bag("25.4 mm", "8", "-18", "5", "-10"), "stack", "4", "touching", "yes"), -10, 39.3766 * 3600, 0.01},
	{"stack of four, with air", soupCold, Freeze, append(bag("25.4 mm", "8", "-18", "5", "-10"), "stack", "4"), -10, 41.6667 * 3600, 0.01},
	{"stack of four stews, with air", stew, Freeze, append(bag("25.4 mm", "8", "-18", "5", "-10"), "stack", "4"), -10, 35.9333 * 3600, 0.01},

	{"reheat soup from frozen", soupHot, Reheat, bag("25.4 mm", "435", "95", "-18", "73.9"), 73.9, 23.1111 * 60, 0.01},
	{"reheat soup from chilled", soupHot, Reheat, bag("25.4 mm", "435", "95", "4", "73.9"), 73.9, 15.1662 * 60, 0.01},
	{"reheat soup, little movement", soupHot, Reheat, bag("25.4 mm", "200", "95", "-18", "73.9"), 73.9, 28.0764 * 60, 0.01},
	{"reheat soup, 85 °C", soupHot, Reheat, bag("25.4 mm", "435", "85", "-18", "73.9"), 73.9, 28.7008 * 60, 0.01},
	{"reheat soup, twice as thick", soupHot, Reheat, bag("50.8 mm", "435", "95", "-18", "73.9"), 73.9, 84.1315 * 60, 0.01},
	{"reheat stew from frozen", stewHot, Reheat, bag("25.4 mm", "435", "95", "-18", "73.9"), 73.9, 22.6671 * 60, 0.01},
	{"reheat stew, twice as thick", stewHot, Reheat, bag("50.8 mm", "435", "95", "4", "73.9"), 73.9, 57.3988 * 60, 0.01},

	{"bag on a metal shelf, given to 0.1 h", soupCold, Freeze, append(bag("25.4 mm", "8", "-18", "5", "-10"), "below-film", "60 W/m2K"), -10, 2.7 * 3600, 0.02},

	{"pot of 40 gal, thick and left alone", soupHot, Cool, []string{"pot", "0.57 m x 0.593381 m", "film", "10 W/m2K", "at", "3 °C", "from", "57.2 °C", "to", "21.1 °C"}, 21.1, 47.0935 * 3600, 0.01},
	{"pot of 40 gal, with a fan", soupHot, Cool, []string{"pot", "0.57 m x 0.593381 m", "film", "25 W/m2K", "at", "3 °C", "from", "57.2 °C", "to", "21.1 °C"}, 21.1, 39.3199 * 3600, 0.01},
	// by its explicit solver in three dimensions, given to 0.01 h
	{"bag with its edges, as a block", soupCold, Freeze, []string{"brick", "165 mm x 160 mm x 25.4 mm", "film", "8 W/m2K", "at", "-18 °C", "from", "5 °C", "to", "-10 °C"}, -10, 7.52 * 3600, 0.01},
	{"stack with its edges, as a block", soupCold, Freeze, []string{"brick", "165 mm x 160 mm x 101.6 mm", "film", "8 W/m2K", "at", "-18 °C", "from", "5 °C", "to", "-10 °C"}, -10, 18.9 * 3600, 0.01},

	{"thaw in the refrigerator", soupHot, Thaw, bag("25.4 mm", "8", "4", "-18", "-0.5"), -0.5, 22.8198 * 3600, 0.02},
	{"thaw in running water", soupHot, Thaw, bag("25.4 mm", "200", "15", "-18", "0"), 0, 51.1989 * 60, 0.01},
}

func pan(depth, top, bottom, airC string) []string {
	return []string{"pan", depth, "film", bottom + " W/m2K", "above-film", top + " W/m2K", "at", airC + " °C", "from", "57.2 °C", "to", "5 °C"}
}

func bag(thick, film, aroundC, from, to string) []string {
	return []string{"bag", thick, "film", film + " W/m2K", "at", aroundC + " °C", "from", from + " °C", "to", to + " °C", "package", "none"}
}

func TestReferenceTimes(t *testing.T) {
	for _, r := range rows {
		q, err := ask(t, r.of, r.keys...).question()
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		q.food = r.food
		q.marks = append([]Mark{{TempC: r.toC}}, q.marks...)
		if math.Abs(q.to-r.toC) < sameC {
			q.marks = q.marks[len(q.marks)-1:]
		}
		_, reached, err := q.simulate(usualFilm)
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		got := reached[0]
		if !got.Reached || math.Abs(got.TimeS/r.wantS-1) > r.within {
			t.Errorf("%s to %g °C: %.0f s, want %.0f s within %.0f %%", r.name, r.toC, got.TimeS, r.wantS, 100*r.within)
		}
	}
}

// The same times with the food computed from its composition: the reference rounded its constants to 1 %. Thawing is left out: the
// reference takes conductivities at 40 °C for it, and the case those of its few degrees, which are some 8 % less.
func TestReferenceTimesFromComposition(t *testing.T) {
	for _, r := range rows {
		if r.of == Thaw {
			continue
		}
		c := ask(t, r.of, r.keys...)
		if r.food == stew || r.food == stewHot {
			c.Food.Composition = Composition{Water: 72 * unit.PerCent, Protein: 16 * unit.PerCent, Fat: 7 * unit.PerCent, Carbohydrate: 4 * unit.PerCent, Fibre: unit.PerCent / 2, Ash: unit.PerCent}
			c.Food.FreezesAt = new(unit.TempC(-1.2))
		}
		c.To = new(unit.TempC(r.toC))
		a, err := c.Answer()
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		if got := a.Time.Usual; !got.Reached || math.Abs(got.TimeS/r.wantS-1) > 0.03 {
			t.Errorf("%s to %g °C: %.0f s, want %.0f s within 3 %%", r.name, r.toC, got.TimeS, r.wantS)
		}
	}
}

// The stirred pot of the reference: 40 gal, 57.2 to 21.1 °C in a bath of 0 °C on its side and base; derived, the coefficients assumed.
func TestReferenceStirredPot(t *testing.T) {
	for _, r := range []struct{ u, to21Min, to5Min float64 }{{50, 151.473, 370.164}, {100, 75.7365, 185.082}, {300, 25.2455, 61.6939}} {
		q, err := ask(t, Cool, "pot", "0.57 m x 0.593381 m", "stir", "thick", "u", fmt.Sprintf("%g W/m2K", r.u), "in", "ice-bath-still", "at", "0 °C", "from", "57.2 °C", "to", "5 °C").question()
		if err != nil {
			t.Fatal(err)
		}
		q.food = soupHot
		q.marks = []Mark{{TempC: 21.1}, {TempC: 5}}
		_, reached, err := q.stirred(usualFilm)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range []float64{r.to21Min * 60, r.to5Min * 60} {
			if math.Abs(reached[i].TimeS/want-1) > 0.005 {
				t.Errorf("U %g: %.0f s, want %.0f", r.u, reached[i].TimeS, want)
			}
		}
		// What it gives off from 57.2 to 5 °C melts 93.9541 kg of ice at 0 °C into water of 0 °C (derived).
		h, err := q.heat(reached[1])
		if err != nil || math.Abs(h.IceKg/93.9541-1) > 0.005 {
			t.Errorf("melts %.2f kg of ice, want 93.95: %v", h.IceKg, err)
		}
	}
	// The overall coefficients that the reference makes of its films: thin broth 1/(1/800 + 1e-4 + 1/500) = 299.
	q, err := ask(t, Cool, "pot", "0.57 m x 0.6 m", "stir", "thin", "in", "ice-bath-stirred").question()
	if err != nil {
		t.Fatal(err)
	}
	if u := q.overall().UsualWM2K; math.Abs(u-299) > 1 {
		t.Errorf("thin broth in a stirred ice bath: %.1f W/m²·K, want 299", u)
	}
}
