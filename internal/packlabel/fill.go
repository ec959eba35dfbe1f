package packlabel

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/plan"
)

// fill is what one pack of this lot holds.
func (m *maker) fill() error {
	for _, l := range m.Plan.Labels {
		if l.Pack == string(m.Pack) && len(l.Inside.Held) > 0 {
			m.inside, m.out.Planned = l.Inside, true
		}
	}
	if !m.out.Planned {
		inside, err := plan.InsideOf(m.Book, m.Foods, m.Pack)
		if err != nil {
			return err
		}
		m.inside = inside
		m.advise(finding.Finding{Code: CodeAsWritten, Severity: finding.Note, Where: m.where(), Path: m.path(""),
			Message: "it is reckoned at the scale that its dish is written for: a larger pot loses a smaller share of its water, which moves figures and may turn the order of water in the list",
			Fix:     "print the label from the run that makes it"})
	}
	for _, x := range m.Lot.Instead {
		m.takePlace(x)
	}
	m.out.Mass = m.inside.Net
	return nil
}

// takePlace puts one ingredient in the place of another, mass for mass. It loses the same shares of its water, fat and solids as the other did, and
// what is filled in a pack stays as heavy.
func (m *maker) takePlace(x Instead) {
	at := slices.IndexFunc(m.inside.Held, func(h plan.Held) bool { return h.Of == x.Of })
	by, there := m.Book.Ingredients[x.By]
	if at < 0 || !there {
		m.ask(finding.Finding{Code: CodeInstead, Severity: finding.Stop, Where: "lot " + m.Lot.Code, Message: fmt.Sprintf("%s is said to stand in for %s, and the pack has no such ingredient, or the book none to stand in", x.By, x.Of),
			Fix: "correct what took whose place"})
		return
	}
	if !m.mayTakePlace(x) {
		m.advise(finding.Finding{Code: CodeInstead, Severity: finding.Caution, Where: "lot " + m.Lot.Code, Path: "dishes." + string(m.pack.Dish),
			Message: fmt.Sprintf("%s stands in for %s, which the dish does not say it may", by.Name, m.nameOf(x.Of)), Fix: "look whether the dish is still what its name says, and add it at instead"})
	}
	share := 1.0
	if x.Share > 0 {
		share = x.Share.F()
	}
	was := m.inside.Held[at]
	held := slices.Clone(m.inside.Held)
	held[at] = scaled(was, 1-share)
	if share >= 1 {
		held = slices.Delete(held, at, at+1)
	}
	other := m.inPlaceOf(was, x, share)
	if i := slices.IndexFunc(held, func(h plan.Held) bool { return h.Of == x.By }); i >= 0 {
		held[i] = added(held[i], other)
	} else {
		held = append(held, other)
	}
	slices.SortFunc(held, func(a, b plan.Held) int { return cmp.Compare(a.Of, b.Of) })
	m.inside.Held = held
	if kg := m.inside.Kg(); kg > 0 {
		full := m.inside.Filled.Kg() / kg
		for i := range held {
			held[i] = scaled(held[i], full)
		}
	}
}

// mayTakePlace says whether the dish names it as what may stand in.
func (m *maker) mayTakePlace(x Instead) bool {
	for _, s := range m.Book.Dishes[m.pack.Dish].Steps {
		for _, u := range s.Use {
			if (u.Of == x.Of || u.Or == x.Of) && slices.Contains(u.Instead, x.By) {
				return true
			}
		}
	}
	return false
}

// inPlaceOf is as much of another ingredient as was put in, cooked as that was.
func (m *maker) inPlaceOf(was plan.Held, x Instead, share float64) plan.Held {
	raw, _ := m.composition(x.Of)
	other, _ := m.composition(x.By)
	put := share * was.PutIn
	solids := left(solidsOf(raw)*was.PutIn, was.Kg()-was.Water-was.Fat-was.Alcohol, 1)
	water := left(of(raw, nutrition.Water)*was.PutIn, was.Water, solids)
	fat := left(of(raw, nutrition.Fat)*was.PutIn, was.Fat, solids)
	alcohol := left(of(raw, nutrition.Alcohol)*was.PutIn, was.Alcohol, water)
	fibre := of(other, nutrition.Fibre)
	h := plan.Held{Of: x.By, PutIn: put, Water: put * water * of(other, nutrition.Water), Fat: put * fat * of(other, nutrition.Fat), Alcohol: put * alcohol * of(other, nutrition.Alcohol),
		Protein: put * solids * of(other, nutrition.Protein), Carb: put * solids * (of(other, nutrition.Carbohydrate) - fibre), Fibre: put * solids * fibre, Ash: put * solids * of(other, nutrition.Ash)}
	h.OtherMass = put*solids*solidsOf(other) - h.Protein - h.Carb - h.Fibre - h.Ash
	return h
}

// left is the share that is left of what went in; usual where none went in.
func left(in, out, usual float64) float64 {
	if in <= 0 {
		return usual
	}
	return out / in
}

// scaled is so many times as much.
func scaled(h plan.Held, k float64) plan.Held {
	return plan.Held{Of: h.Of, PutIn: k * h.PutIn, Water: k * h.Water, Protein: k * h.Protein, Fat: k * h.Fat, Carb: k * h.Carb, Fibre: k * h.Fibre, Ash: k * h.Ash, Alcohol: k * h.Alcohol, OtherMass: k * h.OtherMass}
}

// added is both, under the name of the first.
func added(a, b plan.Held) plan.Held {
	return plan.Held{Of: a.Of, PutIn: a.PutIn + b.PutIn, Water: a.Water + b.Water, Protein: a.Protein + b.Protein, Fat: a.Fat + b.Fat, Carb: a.Carb + b.Carb, Fibre: a.Fibre + b.Fibre,
		Ash: a.Ash + b.Ash, Alcohol: a.Alcohol + b.Alcohol, OtherMass: a.OtherMass + b.OtherMass}
}

func (m *maker) where() string { return "pack " + string(m.Pack) }

// path is a place in the book: a field of the pack.
func (m *maker) path(field string) string {
	if field == "" {
		return "packs." + string(m.Pack)
	}
	return "packs." + string(m.Pack) + "." + field
}

// nameOf is what the kitchen calls an ingredient.
func (m *maker) nameOf(id kitchen.IngredientID) string {
	return cmp.Or(m.Book.Ingredients[id].Name, string(id))
}
