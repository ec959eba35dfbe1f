package fill

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

func TestPortion(t *testing.T) {
	const g = unit.Gram
	meatballs := func(kg, sauce unit.Mass, thin, thick Ratio, packs ...PortionPack) Portions {
		return Portions{Solids: kg, Piece: 30 * g, Sauce: sauce, Grain: g, Thinnest: thin, Thickest: thick, Packs: packs}
	}
	for _, c := range []struct {
		name                string
		p                   Portions
		fills               []Filling
		solidsLeft, sauceLt unit.Mass
	}{
		// 1.63 kg are 54 whole meatballs and 10 g: 4 packs of 400 g would get 13.5 each, so two get 14 (420 g, too many) - hence the
		// pack of 800 g: 54 = 14 + 14 + 13 + 13, and sauce to 800 g: 380, 380, 410, 410 = 1580 g.
		{"by hand: two packs get one meatball more", meatballs(1630*g, 2000*g, Ratio{1, 2}, Ratio{2, 1}, PortionPack{"large", 4, 800 * g}),
			[]Filling{{0, 2, 14, 420 * g, 380 * g}, {0, 2, 13, 390 * g, 410 * g}}, 10 * g, 420 * g},
		// At most as much meat as sauce: 400 g of 800 g are 13 meatballs (390 and 410), so that 2 of 54 stay.
		{"by hand: the ratio stops the second of them", meatballs(1630*g, 2000*g, Ratio{1, 2}, Ratio{1, 1}, PortionPack{"large", 4, 800 * g}),
			[]Filling{{0, 4, 13, 390 * g, 410 * g}}, 70 * g, 360 * g},
		// 20 meatballs to three of 400 g and one of 800 g: every 400 g should have 4 (120 to 280 g), the large one 8 (240 to 560 g).
		{"by hand: two sizes alike", meatballs(600*g, 2000*g, Ratio{1, 5}, Ratio{1, 1}, PortionPack{"small", 3, 400 * g}, PortionPack{"large", 1, 800 * g}),
			[]Filling{{0, 3, 4, 120 * g, 280 * g}, {1, 1, 8, 240 * g, 560 * g}}, 0, 600 * g},
		// 1,000 g of beans in three packs: 333 g and one of 334; 450 g net.
		{"by hand: beans to the gram", Portions{Solids: 1000 * g, Sauce: 400 * g, Grain: g, Thinnest: Ratio{2, 1}, Thickest: Ratio{3, 1}, Packs: []PortionPack{{"beans", 3, 450 * g}}},
			[]Filling{{0, 1, 0, 334 * g, 116 * g}, {0, 2, 0, 333 * g, 117 * g}}, 0, 50 * g},
		// Meatballs of 28.35 g (1 oz): 5 are 141.75 g, to 400 g in whole grams 259 g, which is 0.75 g over.
		{"by hand: the net weight is reached, not missed", Portions{Solids: 5 * unit.Ounce, Piece: unit.Ounce, Sauce: 259 * g, Grain: g, Thinnest: Ratio{1, 3}, Thickest: Ratio{1, 1}, Packs: []PortionPack{{"one", 1, 400 * g}}},
			[]Filling{{0, 1, 5, 5 * unit.Ounce, 259 * g}}, 0, 0},
		// By hand, to a tenth of an ounce: 20 oz of beans in three packs of 10 oz are 6.7, 6.7 and 6.6 oz.
		{"by hand: beans to a tenth of an ounce", Portions{Solids: 20 * unit.Ounce, Sauce: 11 * unit.Ounce, Grain: unit.Ounce / 10, Thinnest: Ratio{1, 1}, Thickest: Ratio{1, 0}, Packs: []PortionPack{{"beans", 3, 10 * (unit.Ounce / 10 * 10)}}},
			[]Filling{{0, 2, 0, 67 * (unit.Ounce / 10), 33 * (unit.Ounce / 10)}, {0, 1, 0, 66 * (unit.Ounce / 10), 34 * (unit.Ounce / 10)}}, 20*unit.Ounce - 200*(unit.Ounce/10), 11*unit.Ounce - 100*(unit.Ounce/10)},
		{"no packs", meatballs(60*g, 50*g, Ratio{0, 1}, Ratio{1, 0}), nil, 60 * g, 50 * g},
	} {
		got, err := Portion(c.p)
		if err != nil || !slices.Equal(got.Fills, c.fills) || got.SolidsLeft != c.solidsLeft || got.SauceLeft != c.sauceLt {
			t.Errorf("%s: got %+v, %v", c.name, got, err)
		}
	}
}

func TestPortionSaysWhatIsInTheWay(t *testing.T) {
	const g = unit.Gram
	p := Portions{Solids: 1500 * g, Piece: 100 * g, Sauce: 3000 * g, Grain: g, Thinnest: Ratio{1, 1}, Thickest: Ratio{6, 5}, Packs: []PortionPack{{"cutlet", 10, 350 * g}}}
	var bad *PortionError
	// By hand: one cutlet of 100 g to 250 g of sauce is too thin, two to 150 g too thick.
	if _, err := Portion(p); !errors.As(err, &bad) || bad.Obstacle != NoAmountFits || bad.Below.Pieces != 1 || bad.Below.Sauce != 250*g || bad.Above.Pieces != 2 || bad.Above.Sauce != 150*g {
		t.Errorf("no amount fits: got %+v", err)
	}
	// By hand: three cutlets fill the pack but for 50 g of sauce, which is not ten to one.
	full := p
	full.Thinnest, full.Thickest = Ratio{10, 1}, Ratio{1, 0}
	if _, err := Portion(full); !errors.As(err, &bad) || bad.Obstacle != NoAmountFits || bad.Below.Pieces != 3 || bad.Below.Sauce != 50*g || bad.Above != (Filling{}) {
		t.Errorf("no room: got %+v", err)
	}
	// By hand: ten packs of two are twenty cutlets, there are fifteen.
	p.Thickest = Ratio{2, 1}
	if _, err := Portion(p); !errors.As(err, &bad) || bad.Obstacle != SolidsTooFew || bad.Need != 2000*g || bad.Have != 1500*g {
		t.Errorf("solids: got %+v", err)
	}
	// By hand: ten of two cutlets take 1.5 kg of sauce.
	p.Solids, p.Sauce = 2000*g, 1400*g
	if _, err := Portion(p); !errors.As(err, &bad) || bad.Obstacle != SauceTooSmall || bad.Need != 1500*g || bad.Have != 1400*g {
		t.Errorf("sauce: got %+v", err)
	}
	for name, spoil := range map[string]func(*Portions){
		"negative solids":    func(p *Portions) { p.Solids = -1 },
		"negative sauce":     func(p *Portions) { p.Sauce = -1 },
		"negative piece":     func(p *Portions) { p.Piece = -1 },
		"no grain":           func(p *Portions) { p.Grain = 0 },
		"ratios crossed":     func(p *Portions) { p.Thinnest, p.Thickest = Ratio{2, 1}, Ratio{1, 1} },
		"no ratio":           func(p *Portions) { p.Thinnest = Ratio{} },
		"negative ratio":     func(p *Portions) { p.Thickest = Ratio{-1, 1} },
		"negative count":     func(p *Portions) { p.Packs[0].Count = -1 },
		"no net weight":      func(p *Portions) { p.Packs[0].Net = 0 },
		"piece over a pack":  func(p *Portions) { p.Piece = 500 * g },
		"packs out of range": func(p *Portions) { p.Packs[0].Count = 1 << 60 },
	} {
		q := p
		q.Packs = slices.Clone(p.Packs)
		spoil(&q)
		var input *InputError
		if _, err := Portion(q); !errors.As(err, &input) {
			t.Errorf("%s: got %v, want it refused", name, err)
		}
	}
}

// Against every way to fill up to three packs: whatever fits, the thinnest pack is as thick as it can be with as many solids.
func TestPortionIsAsEvenAsCanBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const g = unit.Gram
		p := Portions{Solids: g * unit.Mass(rapid.IntRange(0, 900).Draw(t, "solids")), Sauce: g * unit.Mass(rapid.IntRange(0, 2000).Draw(t, "sauce")), Grain: g,
			Piece: g * unit.Mass(rapid.IntRange(15, 60).Draw(t, "piece")), Thinnest: Ratio{1, int64(rapid.IntRange(1, 6).Draw(t, "thinnest"))}}
		p.Thickest = Ratio{int64(rapid.IntRange(1, 3).Draw(t, "thickest")), int64(rapid.IntRange(0, 1).Draw(t, "limited"))}
		for range rapid.IntRange(1, 3).Draw(t, "packs") {
			p.Packs = append(p.Packs, PortionPack{Count: 1, Net: g * unit.Mass(rapid.IntRange(60, 400).Draw(t, "net"))})
		}
		got, err := Portion(p)
		bestUsed, bestThin := everyFilling(p)
		if err != nil {
			if bestUsed >= 0 {
				t.Fatalf("refused with %v, and %v of solids can be filled", err, bestUsed)
			}
			return
		}
		used := p.Solids - got.SolidsLeft
		if used != bestUsed || got.Thinnest.less(bestThin) || bestThin.less(got.Thinnest) {
			t.Fatalf("%v of solids, thinnest %v; every filling tried says %v, %v", used, got.Thinnest, bestUsed, bestThin)
		}
		sauce := got.SauceLeft
		for _, f := range got.Fills {
			sauce += f.Sauce
			if f.Net() < p.Packs[f.Pack].Net || f.Sauce > 0 && f.Net() >= p.Packs[f.Pack].Net+p.Grain {
				t.Fatalf("%+v for a net weight of %v", f, p.Packs[f.Pack].Net)
			}
		}
		if sauce != p.Sauce {
			t.Fatalf("sauce adds up to %v of %v", sauce, p.Sauce)
		}
	})
}

// everyFilling is the most solids that any filling uses and the thickest thinnest pack with so much; -1 when none is possible.
func everyFilling(p Portions) (used unit.Mass, thin Ratio) {
	used = -1
	pieces := make([]int64, len(p.Packs))
	var try func(i int)
	try = func(i int) {
		if i < len(pieces) {
			for pieces[i] = 0; unit.Mass(pieces[i])*p.Piece <= p.Packs[i].Net; pieces[i]++ {
				try(i + 1)
			}
			return
		}
		var solids, sauce unit.Mass
		worst := Ratio{1, 0}
		for i, n := range pieces {
			s := unit.Mass(n) * p.Piece
			top := p.Packs[i].Net - s
			r := Ratio{int64(s / unit.Gram), int64(top / unit.Gram)}
			if r.Solids*p.Thinnest.Sauce < p.Thinnest.Solids*r.Sauce || r.Solids*p.Thickest.Sauce > p.Thickest.Solids*r.Sauce {
				return
			}
			if solids, sauce = solids+s, sauce+top; r.Solids*worst.Sauce < worst.Solids*r.Sauce {
				worst = r
			}
		}
		if solids > p.Solids || sauce > p.Sauce || solids < used {
			return
		}
		if solids > used || thin.Solids*worst.Sauce < worst.Solids*thin.Sauce {
			used, thin = solids, worst
		}
	}
	try(0)
	return used, thin
}
