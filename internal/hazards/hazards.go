// Package hazards translates a book into what the hazard plan and the rules of food safety speak of: a pack with its ingredients and steps for
// package haccp, the rules as this kitchen holds them, the cooling rule by which its lots are judged. It is the only place that knows the nouns
// of the kitchen and the engines of safety.
package hazards

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/kitchen"
)

// The codes of findings. They are stable, for programs.
const (
	CodeNoPack       = "hazards-no-pack"       // there is no such pack, or its dish is not there
	CodeClassUnknown = "hazards-class-unknown" // nobody has said what an ingredient is
	CodeClassGuessed = "hazards-class-guessed" // the same, and the food table gave a guess
)

// Of is a pack as the hazard plan sees it: only the steps and ingredients that lead to what is filled into it. Findings say what nobody has
// said: they stand where the book would say it.
func Of(book kitchen.Book, foods *foodtable.Table, id kitchen.PackID) (haccp.Product, finding.List) {
	pack, known := book.Packs[id]
	dish, cooked := book.Dishes[pack.Dish]
	if !known || !cooked {
		return haccp.Product{ID: string(id)}, finding.List{{Code: CodeNoPack, Severity: finding.Stop, Where: "pack " + string(id), Path: "packs." + string(id),
			Message: "there is no such pack, or no dish for it", Fix: "name a pack of the book"}}
	}
	c := composer{book: book, foods: foods, known: map[kitchen.IngredientID]bool{}}
	c.product = haccp.Product{ID: string(id), Name: pack.Name, Dish: dish.Name, Kitchen: place(book.Kitchen), Packed: packedIn(book, pack),
		Vacuum: vacuum(book, pack), Frozen: len(book.Freezers) > 0, Approval: book.Kitchen.VacuumApproval, Rules: Rules(book), Cooling: coolingLimit(book)}
	for _, s := range leadingTo(dish, pack) {
		c.step(dish, s)
	}
	return c.product, c.found
}

// place is whose kitchen it is, and where.
func place(k kitchen.Kitchen) string { return strings.Trim(k.Name+", "+k.Place, ", ") }

// packedIn is what holds a pack, in words.
func packedIn(book kitchen.Book, pack kitchen.Pack) string {
	bag, ok := book.Bags[pack.Bag]
	if !ok {
		return ""
	}
	if bag.Reheat != "" {
		return bag.Name + " (freezing and heating in it: " + bag.Reheat + ")"
	}
	return bag.Name + " (no letter of its maker that food may be frozen and heated in it)"
}

// vacuum says whether a pack is sealed under reduced oxygen: a kitchen with a sealer is taken to use it, as the plan does, and a bag may say so.
func vacuum(book kitchen.Book, pack kitchen.Pack) bool {
	for _, e := range book.Equipment {
		if e.Kind == kitchen.Sealer {
			return true
		}
	}
	return strings.Contains(strings.ToLower(book.Bags[pack.Bag].Name), "vacuum")
}

// leadingTo are the steps of a dish whose outputs go into a pack, each after what it takes from. What names itself in a circle is left out: the
// check of the book stops it.
func leadingTo(dish kitchen.Dish, pack kitchen.Pack) []kitchen.Step {
	gives := map[kitchen.OutputID]int{}
	for i, s := range dish.Steps {
		for _, o := range s.Outputs() {
			gives[o.ID] = i
		}
	}
	var steps []kitchen.Step
	seen := make([]bool, len(dish.Steps))
	var visit func(kitchen.OutputID)
	visit = func(o kitchen.OutputID) {
		i, ok := gives[o]
		if !ok || seen[i] {
			return
		}
		seen[i] = true
		for _, u := range dish.Steps[i].Use {
			if u.From != "" {
				visit(u.From)
			}
		}
		steps = append(steps, dish.Steps[i])
	}
	for _, f := range pack.Fill {
		visit(f.Of)
	}
	return steps
}

// composer puts one product together.
type composer struct {
	book    kitchen.Book
	foods   *foodtable.Table
	product haccp.Product
	known   map[kitchen.IngredientID]bool
	found   finding.List
}

func (c *composer) step(dish kitchen.Dish, s kitchen.Step) {
	step := haccp.Step{ID: s.ID, Do: s.Do, How: s.How}
	for _, u := range s.Use {
		if u.From != "" {
			if from := giver(dish, u.From); !slices.Contains(step.From, from) {
				step.From = append(step.From, from)
			}
			c.use(&step, u.Or, "what is short of "+string(u.From))
			continue
		}
		c.use(&step, u.Of, "")
		step.Amounts = append(step.Amounts, u.Amount.Show(c.book.Kitchen.Units)+" "+c.name(u.Of))
		for _, g := range u.Instead {
			c.use(&step, g, c.name(u.Of))
		}
	}
	for _, id := range s.In {
		e := c.book.Equipment[id]
		step.Equipment = append(step.Equipment, e.Name)
		step.Blend = step.Blend || e.Kind == kitchen.Blender
		step.Cut = step.Cut || e.Kind == kitchen.Table
	}
	c.heat(&step, s)
	c.product.Steps = append(c.product.Steps, step)
}

// giver is the step that gives an output.
func giver(dish kitchen.Dish, o kitchen.OutputID) string {
	for _, s := range dish.Steps {
		if slices.ContainsFunc(s.Outputs(), func(given kitchen.Output) bool { return given.ID == o }) {
			return s.ID
		}
	}
	return string(o)
}

// use takes an ingredient into a step, and into the product if it is new.
func (c *composer) use(step *haccp.Step, id kitchen.IngredientID, standsIn string) {
	if id == "" || slices.Contains(step.Uses, string(id)) {
		return
	}
	step.Uses = append(step.Uses, string(id))
	if !c.known[id] {
		c.known[id] = true
		c.product.Ingredients = append(c.product.Ingredients, c.ingredient(id, standsIn))
	}
}

func (c *composer) name(id kitchen.IngredientID) string {
	if g := c.book.Ingredients[id]; g.Name != "" {
		return g.Name
	}
	return string(id)
}

// heat is what a step brings its food to. Food that is off the heat cools, so that the time of a step counts only where it stays as hot as it was
// brought to; and where a step is written without heat-to, the temperature of what it gives is taken, and said.
func (c *composer) heat(step *haccp.Step, s kitchen.Step) {
	switch {
	case s.HeatTo != nil:
		heat := s.HeatTo.C()
		step.HeatToC = &heat
		if s.ReadyAt == nil || s.ReadyAt.C() >= heat {
			step.HoldS = s.Time.S()
		}
	case s.ReadyAt != nil:
		heat := s.ReadyAt.C()
		step.HeatToC = &heat
		step.HeatSaid = fmt.Sprintf("its ready-at of %s", s.ReadyAt.Show(c.book.Kitchen.Units))
	}
}
