package dispersal

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// work is a dish while it is worked on.
type work struct {
	book  kitchen.Book
	foods *foodtable.Table
	out   Worked
	pot   formula.Pot
	parts map[kitchen.IngredientID]formula.Part
	steps []kitchen.Step // of the dish as it will be
	gives map[kitchen.OutputID]int
	step  int // that has the powder, or is to take it
	line  int // of that step; -1 when the powder is new
	by    int // the step that gets it into liquid already; -1: none does
}

// look finds the powder in the dish, and what the dish has to get it in with.
func look(book kitchen.Book, foods *foodtable.Table, a Asked) (*work, error) {
	dish, there := book.Dishes[a.Dish]
	if !there {
		return nil, &InputError{"the dish", fmt.Sprintf("%q is not in the book", a.Dish), "name one of its dishes"}
	}
	powder, there := book.Ingredients[a.Of]
	if !there {
		return nil, &InputError{"what is to be got in", fmt.Sprintf("is %q, which is not among the ingredients", a.Of), "name one, or add it to the book first"}
	}
	w := &work{book: book, foods: foods, by: -1, line: -1, steps: cloned(dish.Steps), parts: map[kitchen.IngredientID]formula.Part{}, gives: map[kitchen.OutputID]int{}}
	w.out = Worked{Asked: a, Powder: cmp.Or(powder.Name, string(a.Of)), Before: dish, After: dish}
	for i, s := range dish.Steps {
		for _, o := range s.Outputs() {
			w.gives[o.ID] = i
		}
	}
	if err := w.place(); err != nil {
		return nil, err
	}
	if err := w.contents(); err != nil {
		return nil, err
	}
	if err := w.dose(); err != nil {
		return nil, err
	}
	w.alreadyDone()
	return w, nil
}

// cloned is steps whose lines can be changed.
func cloned(steps []kitchen.Step) []kitchen.Step {
	all := slices.Clone(steps)
	for i := range all {
		all[i].Use = slices.Clone(all[i].Use)
	}
	return all
}

// place finds the step that the powder is in, or is to go into.
func (w *work) place() error {
	a := w.out.Asked
	var in []string
	for i, s := range w.steps {
		for k, u := range s.Use {
			if u.Of == a.Of {
				in = append(in, s.ID)
				if w.line < 0 && (a.Into == "" || a.Into == s.ID) {
					w.step, w.line = i, k
				}
			}
		}
	}
	if len(in) > 1 && a.Into == "" {
		return &InputError{w.out.Powder, fmt.Sprintf("goes into more than one step: %v", in), "say which, with the step's id"}
	}
	if w.line >= 0 {
		return nil
	}
	if len(in) > 0 {
		return &InputError{"the step", fmt.Sprintf("%s has no %s: it goes into %s", a.Into, w.out.Powder, in[0]), "name that one, or none"}
	}
	if a.Into != "" {
		w.step = slices.IndexFunc(w.steps, func(s kitchen.Step) bool { return s.ID == a.Into })
		if w.step < 0 {
			return &InputError{"the step", fmt.Sprintf("%q is not in the dish", a.Into), "name one of its steps"}
		}
		return nil
	}
	w.step = -1 // known when it is known what is liquid
	return nil
}

// contents is the pot that the powder is part of, for what its ingredients are.
func (w *work) contents() error {
	book, a := w.book, w.out.Asked
	if w.line < 0 { // a gram of it, to learn what it is
		dish := w.out.Before
		dish.Steps = cloned(dish.Steps)
		at := max(w.step, 0)
		if w.step < 0 {
			at = w.lastHeated()
		}
		dish.Steps[at].Use = append(dish.Steps[at].Use, kitchen.Use{Of: a.Of, Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Gram}})
		book.Dishes = maps.Clone(book.Dishes)
		book.Dishes[a.Dish] = dish
	} else if u := w.steps[w.step].Use[w.line]; u.Amount.Kind != unit.AmountMass {
		if _, err := plan.Weigh(book, w.foods, a.Of, u.Amount); err != nil {
			book.Dishes = maps.Clone(book.Dishes)
			dish := w.out.Before
			dish.Steps = cloned(dish.Steps)
			dish.Steps[w.step].Use[w.line].Amount = w.guess(u.Amount)
			book.Dishes[a.Dish] = dish
		}
	}
	var last error
	for _, s := range formula.SubjectsOf(book, a.Dish) {
		pot, err := formula.PotOf(book, w.foods, s)
		if err != nil {
			last = err
			continue
		}
		for _, p := range pot.Parts {
			if _, known := w.parts[p.Ingredient]; !known {
				w.parts[p.Ingredient] = p
			}
		}
		if slices.ContainsFunc(pot.Parts, func(p formula.Part) bool { return p.Ingredient == a.Of }) && w.pot.Mass == 0 {
			w.pot = pot
		}
	}
	if w.pot.Mass > 0 {
		if w.step < 0 {
			return w.stepForNew()
		}
		return nil
	}
	if last != nil {
		return last
	}
	return &InputError{w.out.Powder, "ends up in nothing that is packed", "name a step whose food is packed"}
}

// lastHeated is the last step that is heated; the last of all when none is.
func (w *work) lastHeated() int {
	for i := len(w.steps) - 1; i >= 0; i-- {
		if w.steps[i].HeatTo != nil {
			return i
		}
	}
	return len(w.steps) - 1
}

// stepForNew is the heated step that most liquid goes into.
func (w *work) stepForNew() error {
	var most unit.Mass
	for i, s := range w.steps {
		var m unit.Mass
		for _, u := range s.Use {
			if w.isLiquid(u) {
				one, _ := plan.Weigh(w.book, w.foods, u.Of, u.Amount)
				m += one
			}
		}
		if m > most && s.HeatTo != nil && s.Loses.ReduceTo == 0 {
			w.step, most = i, m
		}
	}
	if w.step < 0 {
		return &InputError{"the dish", "has no heated step with liquid of its own", "say which step takes it"}
	}
	w.out.Asks = append(w.out.Asks, Ask{Code: AskInto, Asks: fmt.Sprintf("Which step takes the %s?", w.out.Powder),
		Assumed: fmt.Sprintf("%s: most of the liquid goes in there", w.steps[w.step].ID)})
	return nil
}

// thin are the roles of what pours and can be held back, the best for it first.
var thin = []stability.Role{stability.Liquid, stability.Milk, stability.Cream}

func (w *work) isLiquid(u kitchen.Use) bool {
	return u.Of != "" && slices.Contains(thin, w.parts[u.Of].Component.Role)
}
