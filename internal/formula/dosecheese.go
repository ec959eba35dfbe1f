package formula

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// runs are the roles of what is added and runs.
var runs = map[stability.Role]bool{stability.Milk: true, stability.Cream: true, stability.Liquid: true, stability.Acid: true}

// holds is what each cheese's casein is held by.
var holds = map[stability.Role]dosing.Calcium{stability.HardCheese: dosing.Bound, stability.ProcessCheese: dosing.Taken, stability.SoftCheese: dosing.None}

// cheeseSauce is the pot as a cheese sauce: cheese as it was weighed out, liquids as they are left when it melts in them. False without cheese.
func (p Pot) cheeseSauce(k float64) (dosing.CheeseSauce, bool) {
	s := dosing.CheeseSauce{PH: p.PH}
	for _, x := range p.Parts {
		if x.inPieces() || x.Kg < traceKg || x.Component.Role == stability.EmulsifyingSalt {
			continue
		}
		part := x.part(k)
		if part.Mass <= 0 {
			continue
		}
		switch {
		case cheesy[x.Component.Role]:
			c := dosing.Cheese{Part: part, Holds: holds[x.Component.Role], CalciumMgKg: x.CalciumMg / x.PutInKg}
			if c.CalciumMgKg <= 0 {
				c.CalciumMgKg = cheddarCalcium * 10
			}
			c.Mass = unit.MassKg(x.PutInKg * k)
			s.Cheeses = append(s.Cheeses, c)
		case runs[x.Component.Role]:
			s.Liquids = append(s.Liquids, part)
		default:
			s.Others = append(s.Others, part)
		}
		if x.Component.Role == stability.Acid {
			s.Acid += part.Mass
		}
	}
	return s, len(s.Cheeses) > 0
}

// part is a part of the pot for package dosing.
func (x Part) part(k float64) dosing.Part {
	share := func(kg float64) float64 { return max(0, kg/x.Kg) }
	return dosing.Part{Name: x.Name, Mass: unit.MassKg(x.Kg * k), Makeup: dosing.Makeup{Water: share(x.WaterKg), Fat: share(x.FatKg), Protein: share(x.ProteinKg), SodiumMgKg: max(0, x.SodiumMg/x.Kg)}}
}

// citrate is the emulsifying salt of a cheese sauce.
func (p Pot) citrate(w Want, k float64) ([]Line, error) {
	s, cheesy := p.cheeseSauce(k)
	now, name := p.in(func(x Part) bool { return x.Component.Role == stability.EmulsifyingSalt })
	if !cheesy {
		if now == 0 {
			return nil, nil
		}
		return []Line{{Key: KeyCitrate, Substance: "emulsifying salt", In: name, Now: Amount{Mass: unit.MassKg(now * k)}, Says: "there is no cheese in the pot that it could work on"}}, nil
	}
	c, err := dosing.Citrate(s)
	if err != nil {
		return nil, err
	}
	l := Line{Key: KeyCitrate, Substance: "trisodium citrate", In: name, Doses: c.Doses, Found: slices.Clone(c.Found), Says: "by its liquid and cheese: " + c.Becomes}
	l.Now.Mass = unit.MassKg(now * k)
	if len(l.Doses) == 0 {
		l.Verdict = NoRange
		l.Says = "none of its cheeses needs the salt"
		return []Line{l}, nil
	}
	base := l.Doses[0].Base
	l.Now.Share = ratio(l.Now.Mass, base)
	l.Target = Amount{Mass: l.Doses[0].Target, Share: ratio(l.Doses[0].Target, base)}
	l.own(w, base)
	if p.heldByStarch() {
		l.Found = slices.DeleteFunc(l.Found, func(f finding.Finding) bool { return f.Code == "emulsifier-much-liquid" })
		l.Says = fmt.Sprintf("%.1f times as much liquid as cheese, and starch thickens it: so the dose goes by the cheese", c.LiquidOfCheese)
	}
	for i, m := range []unit.Mass{l.Now.Mass, l.ownMass()} {
		with, err := c.With(m)
		if err != nil {
			continue
		}
		l.Found = append(l.Found, with.Found...)
		if standard := standardOf(p.Sold); i == 0 && standard != "" {
			named, err := c.Named(standard, with)
			if err != nil {
				return nil, err
			}
			l.Found = append(l.Found, named...)
		}
	}
	if now > 0 && !has(words(name), "citrate") {
		l.Says += "; no dose of " + name + " was found, and these are of trisodium citrate: its maker says how much, and the maximum holds for all such salts together"
	}
	return []Line{l}, nil
}

// standardOf is the cheese product whose name the law defines and that something is sold as; empty where it is none.
func standardOf(sold string) string {
	found := ""
	for _, s := range dosing.Standards() {
		if name := strings.TrimPrefix(s.Name, "pasteurized "); has(words(sold), name) && len(s.Name) > len(found) {
			found = s.Name
		}
	}
	return found
}

func (l Line) ownMass() unit.Mass {
	if l.Own == nil {
		return 0
	}
	return l.Own.Mass
}

// heldByStarch says whether the sauce is thickened enough to be no matter of cheese and liquid alone.
func (p Pot) heldByStarch() bool {
	starch := p.sum(func(x Part) float64 { return cond(p.thickens(x), x.StarchKg) })
	return starch >= 0.015*p.sauceKg() // enough for stability.Protection
}

func (p Pot) thickens(x Part) bool {
	switch x.Component.Role {
	case stability.Flour, stability.NativeStarch, stability.WaxyStarch, stability.ModifiedStarch:
		return true
	}
	return false
}
