package dispersal

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// fits are the ways for a kind of powder, the best first.
func (w *work) fits() []dosing.Way {
	switch w.parts[w.out.Of].Component.Role {
	case stability.Gum:
		return []dosing.Way{dosing.PreHydrate, dosing.OilSlurry, dosing.DryBlend}
	case stability.EmulsifyingSalt:
		return []dosing.Way{dosing.Dissolve}
	case stability.NativeStarch, stability.WaxyStarch, stability.ModifiedStarch:
		return []dosing.Way{dosing.ColdSlurry}
	}
	return nil
}

// substance is the powder's name in package dosing.
func (w *work) substance() string {
	p := w.parts[w.out.Of]
	switch {
	case p.Component.Role == stability.Gum && p.GumKind == string(stability.LocustBean):
		return dosing.LocustBean
	case p.Component.Role == stability.Gum && p.GumKind != "":
		return p.GumKind
	}
	return w.out.Powder
}

// choose takes the way that was asked for, or the first that can be taken.
func (w *work) choose() error {
	all := w.fits()
	if len(all) == 0 {
		return &InputError{w.out.Powder, fmt.Sprintf("is no gum, starch or emulsifying salt to the kitchen's knowledge: %s", w.parts[w.out.Of].Component.Role), "write its role: in the book if it is one"}
	}
	if way := w.out.Way; way != "" {
		if !slices.Contains(all, way) {
			return &InputError{"the way", fmt.Sprintf("%s is none for %s", way, w.out.Powder), fmt.Sprintf("take one of %v", all)}
		}
		return w.take(way)
	}
	var first error
	for _, way := range all {
		trial := *w
		trial.steps = cloned(w.steps)
		err := trial.take(way)
		if err == nil {
			*w = trial
			return nil
		}
		if first == nil {
			first = err
		}
	}
	return first
}

// ways says of each way whether it can be taken here.
func (w *work) ways() []Way {
	if w.by >= 0 {
		return nil
	}
	var all []Way
	for _, way := range w.fits() {
		if way == w.out.Way {
			continue
		}
		trial := &work{book: w.book, foods: w.foods, out: Worked{Asked: w.out.Asked, Powder: w.out.Powder, Mass: w.out.Mass, Before: w.out.Before}, pot: w.pot, parts: w.parts,
			steps: cloned(w.out.Before.Steps), gives: w.gives, step: w.step, line: w.line, by: -1}
		one := Way{Way: way}
		if err := trial.take(way); err != nil {
			one.Not = err.Error()
		}
		all = append(all, one)
	}
	return all
}

// take works one way out and writes its steps.
func (w *work) take(way dosing.Way) error {
	w.out.Way = way
	w.out.State = Changed
	if w.line < 0 {
		w.out.State = Added
	}
	spread := dosing.Spread{Substance: w.substance(), Dose: w.out.Mass, Way: way}
	switch way {
	case dosing.Dissolve:
		return w.dissolve(spread)
	case dosing.PreHydrate:
		return w.hydrate(spread)
	case dosing.ColdSlurry:
		return w.slurry(spread)
	default:
		return w.carry(spread)
	}
}

// source is a line of the dish that can give some of what the powder is mixed with.
type source struct {
	step, line int
	has        unit.Mass // all of the line
	mass       unit.Mass // that may be taken
	rank       int
}

// liquids are the lines that can be held back: those of the pot's own step first, then those of the steps before it, the nearest first. What is
// boiled down, drained, or loses a share of itself is left alone: with less in it, it would lose otherwise. Of what makes up for
// what boils away half stays.
func (w *work) liquids() []source {
	var all []source
	for distance, i := range w.before(w.step) {
		s := w.steps[i]
		if l := s.Loses; i != w.step && (l.ReduceTo > 0 || l.Water > 0 || l.Fat > 0 || l.Drain > 0) {
			continue
		}
		for k, u := range s.Use {
			if !w.isLiquid(u) || u.Amount.Kind == unit.AmountCount || w.out.With != "" && u.Of != w.out.With {
				continue
			}
			if m, err := plan.Weigh(w.book, w.foods, u.Of, u.Amount); err == nil && m > 0 {
				rank := slices.Index(thin, w.parts[u.Of].Component.Role)
				if p := w.parts[u.Of]; p.AlcoholKg > 0 && p.AlcoholKg > 0.02*p.Kg {
					rank = len(thin) // it foams, and smells of itself
				}
				one := source{i, k, m, m, 10*min(distance, 1)*len(w.steps) + 10*rank + distance}
				if u.Of == s.MakeUp {
					one.mass = m / 2
				}
				all = append(all, one)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b source) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.mass, a.mass))
	})
	return all
}

// before are a step and all that lead to it, the nearest first.
func (w *work) before(step int) []int {
	all := []int{step}
	for n := 0; n < len(all); n++ {
		for _, u := range w.steps[all[n]].Use {
			if i, ok := w.gives[u.From]; ok && u.From != "" && !slices.Contains(all, i) {
				all = append(all, i)
			}
		}
	}
	return all
}

// pourables are sources as package dosing asks for them.
func (w *work) pourables(all []source) []dosing.Pourable {
	var out []dosing.Pourable
	for _, s := range all {
		out = append(out, dosing.Pourable{Portion: dosing.Portion{Name: w.nameOf(s), Mass: s.mass}})
	}
	return out
}

func (w *work) nameOf(s source) string {
	id := w.steps[s.step].Use[s.line].Of
	return cmp.Or(w.book.Ingredients[id].Name, string(id))
}

// jar is the kitchen's blender that holds most.
func (w *work) jar() (kitchen.EquipmentID, kitchen.Equipment, error) {
	var best kitchen.EquipmentID
	for id, e := range w.book.Equipment {
		if e.Kind != kitchen.Blender || e.Volume == 0 {
			continue
		}
		if b := w.book.Equipment[best]; best == "" || e.Volume > b.Volume || e.Volume == b.Volume && id < best {
			best = id
		}
	}
	if best == "" {
		return "", kitchen.Equipment{}, &InputError{"the kitchen", "has no blender with a volume", "add one to equipment:, or take another way"}
	}
	return best, w.book.Equipment[best], nil
}
