package stability_test

import (
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/stability"
)

func share(t *rapid.T, name string, from, to float64) float64 {
	return rapid.Float64Range(from, to).Draw(t, name)
}

// The orders that trials found hold at any strength of paste, speed and gum.
func TestOrderOfTrials(t *testing.T) {
	type paste = stability.Paste
	rapid.Check(t, func(t *rapid.T) {
		starch := share(t, "starch", 0.002, 0.12)
		base := paste{FrontMMH: share(t, "front", 0, 0.99), Xanthan: share(t, "xanthan", 0, 0.006), LocustBean: share(t, "locust bean", 0, 0.006), Sugars: share(t, "sugars", 0, 0.2)}
		of := func(kind string, do func(*paste)) float64 {
			p := base
			switch kind {
			case "waxy":
				p.Waxy = starch
			case "wheat":
				p.Flour = starch
			default:
				p.Native = map[stability.StarchKind]float64{stability.StarchKind(kind): starch}
			}
			do(&p)
			return stability.WeepScore(p)
		}
		same := func(*paste) {}
		less := func(what string, a, b float64) {
			t.Helper()
			if !(a < b) || a < 0 || b > 1 {
				t.Errorf("%s: %g and %g", what, a, b)
			}
		}
		// White sauces: corn and potato starch hurt most, waxy corn and rice less (Sanz et al. 2009).
		less("waxy, rice", of("waxy", same), of("rice", same))
		less("rice, corn", of("rice", same), of("corn", same))
		less("rice, potato", of("rice", same), of("potato", same))
		// Below 1 mm/h corn paste goes spongy, wheat only slightly (Ferrero et al. 1993).
		less("wheat, corn", of("wheat", same), of("corn", same))
		kind := rapid.SampledFrom([]string{"waxy", "wheat", "rice", "tapioca", "corn", "potato"}).Draw(t, "kind")
		// Rice gel: 18.02 % fast, 38.14 % slow (Charoenrein).
		less("fast, slow", of(kind, func(p *paste) { p.FrontMMH = 1 + share(t, "faster", 0, 50) }), of(kind, same))
		// Xanthan helps (Ferrero; tapioca paste over 10 % without and under with), 0.50 better than 0.25 % (Muadklay and Charoenrein 2008).
		without := of(kind, func(p *paste) { p.Xanthan = 0 })
		less("xanthan, none", of(kind, func(p *paste) { p.Xanthan = share(t, "some", 0.0001, 0.006) }), without)
		less("0.50, 0.25 % xanthan", of(kind, func(p *paste) { p.Xanthan = 0.005 }), of(kind, func(p *paste) { p.Xanthan = 0.0025 }))
		// Xanthan more than locust bean gum (Sanz), which is no better over 0.25 % (Muadklay).
		dose := share(t, "dose", 0.0001, 0.005)
		less("xanthan, locust bean", of(kind, func(p *paste) { p.Xanthan, p.LocustBean = dose, 0 }), of(kind, func(p *paste) { p.Xanthan, p.LocustBean = 0, dose }))
		if quarter, more := of(kind, func(p *paste) { p.LocustBean = 0.0025 }), of(kind, func(p *paste) { p.LocustBean = 0.0025 + dose }); more < quarter {
			t.Errorf("locust bean gum: %g at 0.25 %%, %g with more", quarter, more)
		}
		// Guar alone has no credit (it made tapioca gel worse), and sugar does no harm (two abstracts).
		if of(kind, func(p *paste) { p.Guar = dose }) != of(kind, same) {
			t.Error("guar has credit")
		}
		if of(kind, func(p *paste) { p.Sugars += dose }) > of(kind, same) {
			t.Error("sugar makes it worse")
		}
	})
}

// anyPot is water, and some of what kitchens put into it.
func anyPot(t *rapid.T) pot {
	roles := []stability.Role{stability.HardCheese, stability.SoftCheese, stability.Cream, stability.CulturedCream, stability.Yogurt, stability.Milk, stability.Flour, stability.NativeStarch, stability.WaxyStarch,
		stability.Potato, stability.Pasta, stability.Rice, stability.Pulses, stability.WateryVegetable, stability.Vegetable, stability.EggWhite, stability.Egg, stability.Custard, stability.Mayonnaise,
		stability.Gelatin, stability.Meat, stability.Acid, stability.Topping, stability.Fat}
	p := pot{Components: []stability.Component{kg(water, 1)}, FrontMMH: rapid.SampledFrom([]float64{0, 0.4, 3}).Draw(t, "front"), PH: rapid.SampledFrom([]float64{0, 4.5, 6}).Draw(t, "pH")}
	for i := range rapid.IntRange(1, 6).Draw(t, "components") {
		c := stability.Component{Name: string(rune('a' + i)), Role: rapid.SampledFrom(roles).Draw(t, "role"), MassKg: share(t, "kg", 0.001, 1), Cooked: stability.Cooked(rapid.IntRange(0, 3).Draw(t, "cooked")),
			Joins: stability.Joins(rapid.IntRange(0, 2).Draw(t, "joins")), Pureed: rapid.Bool().Draw(t, "pureed")}
		c.Facts = stability.Facts{Water: 0.5, Fat: share(t, "fat", 0, 0.3)}
		if c.Role == stability.Flour || c.Role == stability.NativeStarch || c.Role == stability.WaxyStarch {
			c.Facts = stability.Facts{Water: 0.1, Starch: 0.8}
		}
		p.Components = append(p.Components, c)
	}
	return p
}

func of(t *rapid.T, p pot) stability.Review {
	r, err := stability.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func bySeverity(r stability.Review) map[string]stability.Severity {
	all := map[string]stability.Severity{}
	for _, f := range r.Findings {
		all[f.Code] = f.Severity
	}
	return all
}

// Whatever the pot: its size and the order of its components make no difference, what is found is never worse than the tables have it, xanthan and
// fast freezing make nothing worse, a remedy that was tried makes nothing worse either, and every finding has its source.
func TestAnyPot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPot(t)
		r := of(t, p)
		for _, f := range r.Findings {
			if f.Severity > f.ByItself || f.Severity == stability.Good || f.Source == "" || f.Mechanism == "" || (f.Severity < f.ByItself) != (f.Because != "") {
				t.Errorf("%+v", f)
			}
			for _, m := range f.Remedies {
				if m.After > f.Severity || m.Source == "" {
					t.Errorf("%s makes %s worse: %+v", m.ID, f.Code, m)
				}
			}
		}
		for _, x := range r.Passed {
			if x.ByItself == stability.Good || x.Why == "" {
				t.Errorf("%+v", x)
			}
		}
		big := p
		big.Components = slices.Clone(p.Components)
		for i := range big.Components {
			big.Components[i].MassKg *= 64
		}
		slices.Reverse(big.Components)
		if !maps.Equal(bySeverity(of(t, big)), bySeverity(r)) {
			t.Errorf("%v, 64 times as much %v", bySeverity(r), bySeverity(of(t, big)))
		}
		fast, gummed := p, p
		fast.FrontMMH = 5
		gummed.Components = append(slices.Clone(p.Components), kg(xanthan, 0.003))
		for _, better := range []pot{fast, gummed} {
			for code, s := range bySeverity(of(t, better)) {
				if s > bySeverity(r)[code] {
					t.Errorf("%s: %s, else %s", code, s, bySeverity(r)[code])
				}
			}
		}
	})
}

// What has to be changed can be: of the remedies that were tried at least one leaves less of it.
func TestSomethingHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, f := range of(t, anyPot(t)).Findings {
			if f.Severity >= stability.Change && f.Code != "cheese-sauce-breaks" && f.Remedies[0].After >= f.Severity { // a pot may be sour by itself
				t.Errorf("nothing helps: %+v", f)
			}
		}
	})
}

// Taking something out of the freezer ends what is said of it.
func TestAddedLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPot(t)
		for i := range p.Components[1:] {
			p.Components[i+1].Joins = stability.AtReheating
		}
		if r := of(t, p); len(r.Findings) != 0 {
			t.Errorf("%+v", r.Findings)
		}
	})
}

func BenchmarkOf(b *testing.B) {
	p := pot{Components: []stability.Component{kg(milk, 0.93), kg(cheddar, 1), kg(pasta, 2), kg(flour, 0.05), kg(potato, 0.3), kg(sourCream, 0.1), kg(cornStarch, 0.02)}}
	for b.Loop() {
		if _, err := stability.Of(p); err != nil {
			b.Fatal(err)
		}
	}
}
