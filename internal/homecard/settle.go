package homecard

import (
	"context"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// asWritten is what one step of the book does at the scale it is written for, in the kitchen's own vessels: what the home must come to again.
type asWritten struct {
	thick   float64 // mass once all has evaporated, to what went in besides the make-up
	residue unit.Mass
	wettedM float64 // surface that the food wets, m²; 0 when the vessel has no size
	load    unit.Mass
	in      []unit.Mass // each use, in the order of the book
}

// written plans the dish at the scale it is written for: as much as uses up the written amount of one of its ingredients.
func (a Ask) written(ctx context.Context, id kitchen.DishID) (map[string]asWritten, error) {
	dish := a.Book.Dishes[id]
	measure, ok := measuredBy(dish)
	if !ok {
		return nil, &DishError{Dish: id, Reason: "no ingredient of it is used once by an amount"}
	}
	book := kitchen.Book{Kitchen: a.Book.Kitchen, Ingredients: tapped(a.Book.Ingredients), Equipment: a.Book.Equipment, Dishes: map[kitchen.DishID]kitchen.Dish{id: dish}}
	p := plan.Make(ctx, book, a.Foods, kitchen.Request{Want: []kitchen.Want{{Dish: id, Use: &measure}}})
	if len(p.Dishes) == 0 {
		return nil, notPlanned(id, p)
	}
	all := map[string]asWritten{}
	for _, s := range p.Dishes[0].Steps {
		step := stepOf(dish, s.ID)
		w := asWritten{thick: thickness(s, step.MakeUp), residue: step.Loses.Residue, load: s.Loads.Mass, wettedM: wetted(ownVessel(a.Book, s.Equipment), s.Loads.Volume)}
		for _, l := range s.In {
			w.in = append(w.in, l.Mass)
		}
		all[s.ID] = w
	}
	return all, nil
}

// measuredBy is an ingredient that goes in once, with its amount there: one that does not make up for losses and that nothing stands in for.
func measuredBy(dish kitchen.Dish) (kitchen.UseUp, bool) {
	times := map[kitchen.IngredientID]int{}
	for _, s := range dish.Steps {
		times[s.MakeUp] += 2
		for _, u := range s.Use {
			times[u.Of]++
			times[u.Or] += 2
		}
	}
	for _, s := range dish.Steps {
		for _, u := range s.Use {
			if u.Of != "" && times[u.Of] == 1 {
				return kitchen.UseUp{Of: u.Of, Amount: u.Amount}, true
			}
		}
	}
	return kitchen.UseUp{}, false
}

func stepOf(dish kitchen.Dish, id string) kitchen.Step {
	if i := slices.IndexFunc(dish.Steps, func(s kitchen.Step) bool { return s.ID == id }); i >= 0 {
		return dish.Steps[i]
	}
	return kitchen.Step{}
}

func ownVessel(book kitchen.Book, name string) kitchen.Equipment {
	for _, e := range book.Equipment {
		if e.Name == name {
			return e
		}
	}
	return kitchen.Equipment{}
}

// thickness is what a step holds once all has evaporated, to what went in besides the make-up.
func thickness(s plan.Step, makeUp kitchen.IngredientID) float64 {
	in, rest := goesIn(s, makeUp)
	if rest <= 0 {
		return 1
	}
	return (in - lost(s, "evaporation")) / rest
}

// goesIn is what goes into a step, kg: all of it, and all but one ingredient.
func goesIn(s plan.Step, but kitchen.IngredientID) (all, rest float64) {
	for _, l := range s.In {
		all += l.Mass.Kg()
		if but == "" || l.Kind == plan.Earlier || l.ID != string(but) {
			rest += l.Mass.Kg()
		}
	}
	return all, rest
}

func lost(s plan.Step, cause string) float64 {
	kg := 0.0
	for _, l := range s.Losses {
		if l.Cause == cause {
			kg += l.Mass.Kg()
		}
	}
	return kg
}

// wetted is the surface of a vessel that so much food touches, m²: its base and its wall as high as the food stands.
func wetted(e kitchen.Equipment, v unit.Volume) float64 {
	base := circle(e.Diameter)
	if base <= 0 {
		return 0
	}
	return base + math.Pi*e.Diameter.M()*v.L()/1000/base
}

func circle(diameter unit.Length) float64 { return math.Pi / 4 * diameter.M() * diameter.M() }

const (
	mostRounds = 12
	settledKg  = 1e-4 // a tenth of a gram
	// leastWater is the share of a step below which nobody would notice the water that a small pot loses more.
	leastWater = 0.02
)

// settled is a dish planned for a home until what small pots lose agrees with what is put in for it.
type settled struct {
	plan  plan.Plan
	dish  kitchen.Dish
	water map[string]bool // steps with water that is not in the book's dish
	thin  map[string]float64
	book  kitchen.Book
}

// settle plans the dish for so many people, in the pots of a home: evaporation and residue are those of the small pots, and water keeps the
// food as thick as the book has it.
func (a Ask) settle(ctx context.Context, portion kitchen.Pack) (settled, error) {
	was, err := a.written(ctx, portion.Dish)
	if err != nil {
		return settled{}, err
	}
	out := settled{dish: a.smallDish(a.Book.Dishes[portion.Dish]), water: map[string]bool{}, thin: map[string]float64{}}
	for i, s := range out.dish.Steps {
		out.dish.Steps[i].Loses.Residue = s.Loses.Residue / 20
		fixShares(s.Use, was[s.ID].in)
	}
	for round := range mostRounds {
		out.book = a.home(out.dish, portion)
		out.plan = plan.Make(ctx, lean(out.book), a.Foods, kitchen.Request{Want: []kitchen.Want{{Pack: homePack, Count: a.People}}})
		if len(out.plan.Dishes) == 0 {
			return out, notPlanned(portion.Dish, out.plan)
		}
		if moved := out.adjust(a.Book.Dishes[portion.Dish], was); moved < settledKg && round > 0 {
			break
		}
	}
	return out, nil
}

// lean is a book of which a plan has masses and times only: nothing is cooled, frozen or heated again, which takes longest to compute.
func lean(book kitchen.Book) kitchen.Book {
	portion := book.Packs[homePack]
	portion.Thickness = 0
	book.Packs = map[kitchen.PackID]kitchen.Pack{homePack: portion}
	book.Chilling, book.Freezers, book.Bags = nil, nil, map[kitchen.BagID]kitchen.Bag{homeBag: {Name: "bag"}}
	return book
}

// fixShares says what a step takes of an earlier one as the mass that this is at the written scale in the kitchen's vessels: so much of it belongs
// to the rest of the step, however much a small pot leaves of it.
func fixShares(uses []kitchen.Use, in []unit.Mass) {
	for k, m := range in {
		if k < len(uses) && uses[k].From != "" && uses[k].Take.Given && m > 0 {
			uses[k].Take = kitchen.Take{}
			uses[k].Amount = unit.Amount{Kind: unit.AmountMass, Mass: m}
		}
	}
}

// adjust sets residues and water by what the last plan says and is by how many kilograms they changed, all together.
func (t *settled) adjust(book kitchen.Dish, was map[string]asWritten) float64 {
	moved := 0.0
	for _, s := range t.plan.Dishes[0].Steps {
		i := slices.IndexFunc(t.dish.Steps, func(x kitchen.Step) bool { return x.ID == s.ID })
		if i < 0 || s.Scale <= 0 {
			continue
		}
		step, w := &t.dish.Steps[i], was[s.ID]
		residue := smallResidue(w, s)
		moved += math.Abs(residue.Kg() - step.Loses.Residue.Kg())
		step.Loses.Residue = residue
		if lost(s, "evaporation") == 0 || step.Loses.ReduceTo > 0 {
			continue
		}
		moved += t.addWater(s, i, book.Steps[i], w.thick)
	}
	return moved
}

// smallResidue is what sticks to a small vessel: as thick a layer as on the kitchen's own, on the surface that it wets. Where a vessel has no
// size, surfaces go with the mass to the power of two thirds.
func smallResidue(w asWritten, s plan.Step) unit.Mass {
	if w.residue == 0 {
		return 0
	}
	share := math.Pow(s.Loads.Mass.Kg()/max(w.load.Kg(), 1e-9), 2.0/3)
	if tool, ok := toolNamed(s.Equipment); ok && w.wettedM > 0 && tool.Across > 0 {
		share = wetted(kitchen.Equipment{Diameter: tool.Across}, s.Loads.Volume) / w.wettedM
	}
	return unit.MassKg(w.residue.Kg() * share)
}

// addWater sets the water of a step so that it comes out as thick as written, and is by how many kilograms that changed it.
func (t *settled) addWater(s plan.Step, i int, book kitchen.Step, thick float64) float64 {
	water, was := book.MakeUp, 0.0
	if water == "" {
		water = tapWater
	}
	all, rest := goesIn(s, water)
	was = all - rest
	need := thick*rest + lost(s, "evaporation") - rest
	delete(t.thin, s.ID)
	if need < 0 {
		t.thin[s.ID] = -need
	}
	need = max(0, need)
	if book.MakeUp == "" && need < leastWater*all {
		need = 0
	}
	t.setWater(i, water, need/s.Scale, book.MakeUp == "")
	t.water[s.ID] = book.MakeUp == "" && need > 0
	return math.Abs(need - was)
}

func (t *settled) setWater(i int, water kitchen.IngredientID, kg float64, ours bool) {
	uses := t.dish.Steps[i].Use
	k := slices.IndexFunc(uses, func(u kitchen.Use) bool { return u.Of == water })
	amount := unit.Amount{Kind: unit.AmountMass, Mass: unit.MassKg(kg)}
	switch {
	case ours && kg == 0 && k >= 0:
		t.dish.Steps[i].Use = slices.Delete(uses, k, k+1)
	case ours && kg == 0:
	case k < 0:
		t.dish.Steps[i].Use = append(uses, kitchen.Use{Of: water, Amount: amount})
	default:
		uses[k].Amount = amount
	}
}
