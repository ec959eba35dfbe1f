package formula

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// Pot is a dish as it goes into the freezer.
type Pot struct {
	Subject
	Name  string
	Sold  string    // as what it is sold: its statement of identity and its name
	Mass  unit.Mass // of what the dish gives of it at the scale that it is written for
	Parts []Part    // the heaviest first
	PH    float64   // measured; 0: not known
	Front Front
	Weeks int  // that a pack is to keep; 0: nobody has said
	Air   bool // nothing in the kitchen draws the air out of a pack
	Asks  []Ask
	Scale unit.Mass // the step of the scale that small amounts are weighed on
	Holds unit.Mass // what that scale holds; 0: not known
	Table unit.Mass // the step of the scale at the filling table
}

// Part is one ingredient in a pot, as far as the same was done to it.
type Part struct {
	Ingredient kitchen.IngredientID
	Name       string
	Steps      []string // of the dish, into which it goes
	PutInKg    float64  // weighed out for it
	Kg         float64  // left of that in the pot
	Component  stability.Component
	Guessed    string  // what its role was guessed from; empty where the book says it
	Salt       bool    // it is table salt
	GumKind    string  // which gum it is, of a gum
	HotMin     float64 // minutes on its way at which vegetables soften

	WaterKg, ProteinKg, FatKg, SugarsKg, StarchKg, FibreKg, AshKg, AlcoholKg, OtherCarbKg float64
	SodiumMg, CalciumMg                                                                   float64
	Sodium, Calcium                                                                       bool // they are known
}

// Ask is something that nobody has said, put as a question, with what was taken meanwhile.
type Ask struct {
	Code    string `json:"code"`
	Path    string `json:"path"` // in the book: where the answer goes
	Where   string `json:"where"`
	Asks    string `json:"asks"`
	Assumed string `json:"assumed"`
	Grave   bool   `json:"grave"` // the answer may change what is said of the dish
}

// traceKg is less than anybody weighs: half a milligram.
const traceKg = 5e-7

// PotOf is what a subject of the book is made of as it goes into the freezer. Errors: *NoSubjectError, and those of plan.Contents.
func PotOf(book kitchen.Book, foods *foodtable.Table, s Subject) (Pot, error) {
	dish, portions, err := s.portions(book)
	if err != nil {
		return Pot{}, err
	}
	s.Dish = dish
	c := composer{book: book, foods: foods, graph: graphOf(book, book.Dishes[dish])}
	c.pot = Pot{Subject: s, Name: s.name(book), Sold: book.Packs[s.Pack].Identity + " " + s.name(book), PH: book.Dishes[dish].PH, Weeks: book.Packs[s.Pack].BestBefore.Weeks, Air: !hasSealer(book)}
	given, err := c.traced(dish)
	if err != nil {
		return Pot{}, err
	}
	if err := c.fill(given, portions); err != nil {
		return Pot{}, err
	}
	c.scale()
	if s.Pack != "" {
		c.freezes()
	}
	c.askPot()
	return c.pot, nil
}

// composer puts one pot together.
type composer struct {
	book  kitchen.Book
	foods *foodtable.Table
	graph graph
	uses  map[kitchen.IngredientID]use // by the name that each use of an ingredient is given while it is traced
	pot   Pot
}

// use is where an ingredient goes in.
type use struct {
	of   kitchen.IngredientID
	step int
}

func hasSealer(book kitchen.Book) bool {
	for _, e := range book.Equipment {
		if e.Kind == kitchen.Sealer {
			return true
		}
	}
	return false
}

// traced is the mass flow of a dish with a name of its own for every use of an ingredient, so that it is known where each gram went in.
func (c *composer) traced(id kitchen.DishID) ([]plan.Given, error) {
	c.uses = map[kitchen.IngredientID]use{}
	book := c.book
	book.Ingredients = map[kitchen.IngredientID]kitchen.Ingredient{}
	dish := book.Dishes[id]
	dish.Steps = slices.Clone(dish.Steps)
	alias := func(of kitchen.IngredientID, step, i int) kitchen.IngredientID {
		if of == "" {
			return ""
		}
		name := kitchen.IngredientID(fmt.Sprintf("%s@%d.%d", of, step, i))
		c.uses[name] = use{of, step}
		book.Ingredients[name] = c.book.Ingredients[of]
		return name
	}
	for i, s := range dish.Steps {
		uses := slices.Clone(s.Use)
		for k, u := range uses {
			if u.Of != "" && u.Of == s.MakeUp {
				dish.Steps[i].MakeUp = alias(u.Of, i, k)
			}
			uses[k].Of, uses[k].Or = alias(u.Of, i, k), alias(u.Or, i, k)
		}
		dish.Steps[i].Use = uses
	}
	book.Dishes = map[kitchen.DishID]kitchen.Dish{id: dish}
	return plan.Contents(book, c.foods, id)
}

// fill takes from each output what the subject holds of it, for as many packs as the dish gives.
func (c *composer) fill(given []plan.Given, portions []portion) error {
	count := math.Inf(1)
	outputs := make([]plan.Given, len(portions))
	for i, p := range portions {
		k := slices.IndexFunc(given, func(g plan.Given) bool { return g.Output == p.of })
		if k < 0 {
			return &NoSubjectError{fmt.Sprintf("dish %s gives no %q", c.pot.Dish, p.of), "name an output of the dish"}
		}
		outputs[i] = given[k]
		if p.share > 0 {
			count = min(count, free(given[k])/p.share)
		}
	}
	var kg float64
	for i, p := range portions {
		share := 1.0
		if p.share > 0 {
			share = p.share * count / outputs[i].Kg
		}
		if !(outputs[i].Kg > traceKg) || !(share > 0) {
			return &NoSubjectError{fmt.Sprintf("nothing comes of %q in dish %s", p.of, c.pot.Dish), "look at the findings of the dish"}
		}
		kg += share * outputs[i].Kg
		for _, h := range outputs[i].Held {
			c.add(h, share, p.of)
		}
	}
	c.pot.Mass = unit.MassKg(kg)
	slices.SortStableFunc(c.pot.Parts, func(a, b Part) int { return cmp.Compare(b.Kg, a.Kg) })
	return nil
}

// free is what packs may take of an output: what no later step takes, or all of it where the steps take all.
func free(g plan.Given) float64 {
	if g.FreeKg > traceKg {
		return g.FreeKg
	}
	return g.Kg
}

// add puts some of what an output holds into the pot, with what was done to it on its way there.
func (c *composer) add(h plan.Held, share float64, to kitchen.OutputID) {
	u := c.uses[h.Of]
	g := c.book.Ingredients[u.of]
	p := c.part(u, h, share)
	k := roleOf(g, c.foods)
	d := c.graph.doneTo(c.graph.way(u.step, to), p.Name, k.role)
	p.Guessed = k.guess
	_, p.HotMin = c.graph.warmest(c.graph.way(u.step, to))
	p.Component = stability.Component{Name: p.Name, Role: k.role, Cooked: d.cooked, Joins: d.joins, Pureed: d.pureed, Soft: d.soft, Inside: d.inside, Drift: drifts(p.Name, k.role), Plant: plant(g, k.role)}
	c.kinds(&p, k, u.of)
	c.ask(p, k, u.of)
	i := slices.IndexFunc(c.pot.Parts, func(x Part) bool { return x.Ingredient == p.Ingredient && x.Component == p.Component })
	if i < 0 {
		c.pot.Parts = append(c.pot.Parts, p)
		return
	}
	c.pot.Parts[i].join(p)
}

// Stability is the pot as package stability reviews it.
func (p Pot) Stability() stability.Pot {
	q := stability.Pot{PH: p.PH, FrontMMH: p.Front.UsualMMH, Weeks: float64(p.Weeks), AirInPack: p.Air}
	for _, x := range p.Parts {
		if x.Kg < traceKg {
			continue
		}
		c := x.Component
		c.MassKg = x.Kg
		share := func(kg float64) float64 { return max(0, kg/x.Kg) }
		c.Facts = stability.Facts{Water: share(x.WaterKg), Fat: share(x.FatKg), Protein: share(x.ProteinKg), Sugars: share(x.SugarsKg), Starch: share(x.StarchKg)}
		q.Components = append(q.Components, c)
	}
	return q
}
