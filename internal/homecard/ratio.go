package homecard

import (
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Ratio is a proportion that the dish depends on, as it is in the book and as the rounded amounts have it.
type Ratio struct {
	Of    string     `json:"of"` // "xanthan gum to liquid"
	Exact float64    `json:"exact"`
	Said  float64    `json:"said"`
	Off   unit.Share `json:"off"`
	Bound unit.Share `json:"bound"`
	Held  bool       `json:"held"`
}

// partner is what an ingredient must keep its proportion to.
type partner struct {
	says string // what of it keeps its proportion
	is   func(*Item) bool
}

// partners are in the order in which amounts are rounded: each after what it depends on. What is in none of them is rounded first. Water that only
// makes up for what goes off is no part of a proportion.
var partners = []struct {
	of kind
	to partner
}{
	{starch, partner{"%s to liquid", func(x *Item) bool { return x.kind == liquid && !x.Extra }}},
	{gum, partner{"%s to liquid", func(x *Item) bool { return x.kind == liquid && !x.Extra }}},
	{emulsifier, partner{"%s to cheese", func(x *Item) bool { return x.kind == cheese }}},
	{salt, partner{"%s to everything else", func(x *Item) bool { return x.kind != salt }}},
}

// round says all amounts: first what depends on nothing, then each of the others from the rounded amount of its partner.
func (a Ask) round(dish kitchen.Dish, items []*Item) error {
	cheeseIsWeighed := slices.ContainsFunc(items, func(x *Item) bool { return x.kind == emulsifier })
	for _, x := range items {
		if x.depends() {
			continue
		}
		weigh := ""
		if x.kind == cheese && cheeseIsWeighed {
			weigh = a.speaker().Say("the emulsifying salt goes by its weight")
		}
		if err := a.sayItem(x, x.Amount.Exact, weigh); err != nil {
			return err
		}
	}
	for _, p := range partners {
		for _, x := range items {
			if x.kind != p.of {
				continue
			}
			need := x.Amount.Exact
			if exact, said := sums(family(dish, items, x), p.to.is); exact > 0 {
				need = unit.MassKg(need.Kg() * said / exact)
			}
			if err := a.sayItem(x, need, ""); err != nil {
				return err
			}
		}
	}
	return nil
}

func (a Ask) sayItem(x *Item, need unit.Mass, weigh string) (err error) {
	x.Amount, err = a.say(kitchen.IngredientID(x.Of), x.use, x.Amount.Exact, need, weigh)
	return err
}

func (x *Item) depends() bool {
	for _, p := range partners {
		if x.kind == p.of {
			return true
		}
	}
	return false
}

// sums are the exact and the said kilograms of some items. What is not said yet counts as exact in both.
func sums(items []*Item, is func(*Item) bool) (exact, said float64) {
	for _, x := range items {
		if !is(x) {
			continue
		}
		exact += x.Amount.Exact.Kg()
		if x.Amount.Said > 0 {
			said += x.Amount.Said.Kg()
		} else {
			said += x.Amount.Exact.Kg()
		}
	}
	return exact, said
}

// ratios are the proportions after rounding.
func (a Ask) ratios(dish kitchen.Dish, items []*Item) []Ratio {
	all := []Ratio{}
	for _, p := range partners {
		var done []string
		for _, x := range items {
			with := family(dish, items, x)
			key := x.Of + " " + ends(dish, x.step)
			if x.kind != p.of || slices.Contains(done, key) {
				continue
			}
			done = append(done, key)
			exactTo, saidTo := sums(with, p.to.is)
			exact, said := sums(with, func(y *Item) bool { return y.Of == x.Of })
			if exactTo <= 0 || exact <= 0 {
				continue
			}
			r := Ratio{Of: a.speaker().Say(p.to.says, x.Name), Exact: exact / exactTo, Said: said / saidTo, Bound: x.Amount.Bound}
			r.Off = unit.ShareOf(r.Said/r.Exact - 1)
			r.Held = r.Off <= r.Bound && -r.Off <= r.Bound
			all = append(all, r)
		}
	}
	return all
}
