package stability

import (
	"fmt"

	"kettlefrost/internal/finding"
)

// Protection is what holds a pot together. Shares are of its sauce: what is not in pieces.
type Protection struct {
	SauceOfPot   float64
	Starch       float64 // cooked flour and starch of any kind
	Xanthan      float64
	PureedSolids float64 // of pureed pulses, potato and vegetables, without fat and water
	CitrateShare float64 // emulsifying salt as a share of the cheese that needs it
	LiquidCheese float64 // liquid as a share of all cheese
	CheeseShare  float64
	FatOfPot     float64
	Sugars       float64
	By           []string // what of it is enough by itself
}

// What is enough: judgement, each below what the kitchen uses for a thin sauce.
const (
	enoughStarch  = 0.015 // a thin white sauce has 2 to 3 % (3.2-4.4 % flour)
	enoughXanthan = 0.001 // the low end for soups (application page of a maker)
	enoughSolids  = 0.04
	enoughCitrate = 0.01 // of the cheese: the low end of the web guides
)

// Holds says whether anything keeps what is dispersed from separating.
func (p Protection) Holds() bool { return len(p.By) > 0 }

// why is what holds it, in words.
func (p Protection) why() string {
	switch len(p.By) {
	case 0:
		return "nothing in the pot holds it together"
	case 1:
		return "the pot is held together by " + p.By[0]
	}
	return fmt.Sprintf("the pot is held together by %s and %s", p.By[0], p.By[1])
}

// figures are what is known of the pot as a whole.
func (p Protection) figures() []finding.Figure {
	all := []finding.Figure{percent("fat of the pot", p.FatOfPot), percent("starch of the sauce", p.Starch), percent("gum (xanthan) of the sauce", p.Xanthan)}
	if p.CheeseShare > 0 {
		all = append(all, percent("liquid of the cheese", p.LiquidCheese))
	}
	return all
}

// sums adds a pot up: what freezes together, and its sauce.
type sums struct {
	pot, sauce, fat          float64
	pureed, sugars           float64
	cheese, citrate, liquids float64 // all in kg
	needyCheese              float64
	paste                    Paste // in kg until it is divided by the sauce
}

func (p Pot) sums() sums {
	s := sums{paste: Paste{Native: map[StarchKind]float64{}, FrontMMH: p.FrontMMH}}
	for _, c := range p.frozen() {
		s.pot += c.MassKg
		s.fat += c.MassKg * c.Facts.Fat
		if c.InPieces() {
			continue
		}
		s.sauce += c.MassKg
		s.sugars += c.MassKg * c.Facts.Sugars
		s.take(c)
	}
	return s
}

// take adds what a component of the sauce does for it.
func (s *sums) take(c Component) {
	starch := c.MassKg * c.starchShare()
	switch c.Role {
	case Flour:
		s.paste.Flour += starch
	case WaxyStarch:
		s.paste.Waxy += starch
	case ModifiedStarch:
		s.paste.Modified += starch
	case NativeStarch:
		s.paste.Native[c.Starch] += starch
	case Gum:
		s.gum(c)
	case EmulsifyingSalt:
		s.citrate += c.MassKg
	case HardCheese, SoftCheese, ProcessCheese:
		s.cheese += c.MassKg
		if c.Role == HardCheese {
			s.needyCheese += c.MassKg
		}
	case Milk, Cream, Liquid, Acid:
		s.liquids += c.MassKg
	case Pulses, Potato, Vegetable, WateryVegetable:
		if c.Facts.Water > 0 { // without its water nobody knows its solids, and they protect nothing
			s.pureed += c.MassKg * max(0, 1-c.Facts.Water-c.Facts.Fat)
		}
	}
}

// What thickeners hold of starch where it is not given: carbohydrate less fibre and sugars in USDA SR28, NDB 20081 and 20027.
const flourStarch, pureStarch = 0.73, 0.90

// starchShare is the starch of a component. A thickener without a figure is not taken as harmless.
func (c Component) starchShare() float64 {
	switch {
	case c.Facts.Starch > 0:
		return c.Facts.Starch
	case c.Role == Flour:
		return flourStarch
	case c.Role == NativeStarch || c.Role == WaxyStarch || c.Role == ModifiedStarch:
		return pureStarch
	}
	return 0
}

func (s *sums) gum(c Component) {
	switch c.Gum {
	case Xanthan:
		s.paste.Xanthan += c.MassKg
	case LocustBean:
		s.paste.LocustBean += c.MassKg
	case Guar:
		s.paste.Guar += c.MassKg
	}
}

// share is a part of a whole, and 0 where there is no whole.
func share(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}

// ofSauce is the paste as shares of the sauce.
func (s sums) ofSauce() Paste {
	p := s.paste
	for _, x := range []*float64{&p.Flour, &p.Waxy, &p.Modified, &p.Xanthan, &p.LocustBean, &p.Guar} {
		*x = share(*x, s.sauce)
	}
	native := map[StarchKind]float64{}
	for kind, kg := range p.Native {
		native[kind] = share(kg, s.sauce)
	}
	p.Native, p.Sugars = native, share(s.sugars, s.sauce)
	return p
}

func (s sums) protection() Protection {
	paste := s.ofSauce()
	p := Protection{SauceOfPot: share(s.sauce, s.pot), Starch: paste.Starch(), Xanthan: paste.Xanthan, PureedSolids: share(s.pureed, s.sauce),
		CitrateShare: share(s.citrate, s.needyCheese), LiquidCheese: share(s.liquids, s.cheese), CheeseShare: share(s.cheese, s.sauce), FatOfPot: share(s.fat, s.pot), Sugars: paste.Sugars}
	for _, x := range []struct {
		what         string
		have, enough float64
	}{{"starch", p.Starch, enoughStarch}, {"xanthan", p.Xanthan, enoughXanthan}, {"what is pureed", p.PureedSolids, enoughSolids}} {
		if x.have >= x.enough {
			p.By = append(p.By, fmt.Sprintf("%.2g %% of %s", 100*x.have, x.what))
		}
	}
	return p
}
