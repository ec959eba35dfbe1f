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
	SodiumMg, PotassiumMg, CalciumMg                                                      float64
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

// part is what is left of one use of an ingredient.
func (c *composer) part(u use, h plan.Held, share float64) Part {
	g := c.book.Ingredients[u.of]
	f := factsOf(g, c.foods)
	p := Part{Ingredient: u.of, Name: cmp.Or(g.Name, string(u.of)), Steps: []string{c.graph.dish.Steps[u.step].ID}, PutInKg: h.PutIn * share, Kg: h.Kg() * share, Salt: f.saltItself,
		WaterKg: h.Water * share, ProteinKg: h.Protein * share, FatKg: h.Fat * share, FibreKg: h.Fibre * share, AshKg: h.Ash * share, AlcoholKg: h.Alcohol * share,
		SodiumMg: or(f.sodiumMg, 0) * h.PutIn * share * 10, PotassiumMg: or(f.potassiumMg, 0) * h.PutIn * share * 10, CalciumMg: or(f.calciumMg, 0) * h.PutIn * share * 10,
		Sodium: f.sodiumMg != nil, Calcium: f.calciumMg != nil}
	carb := max(0, h.Carb*share)
	if f.carbG != nil && *f.carbG > 0 && f.sugarsG != nil {
		p.SugarsKg = carb * min(1, *f.sugarsG / *f.carbG)
	}
	if starchy[roleOf(g, c.foods).role] {
		p.StarchKg = carb - p.SugarsKg
	} else {
		p.OtherCarbKg = carb - p.SugarsKg
	}
	return p
}

// starchy are the roles whose carbohydrate is starch, sugars apart.
var starchy = map[stability.Role]bool{stability.Flour: true, stability.NativeStarch: true, stability.WaxyStarch: true, stability.ModifiedStarch: true, stability.Potato: true,
	stability.Pasta: true, stability.Rice: true, stability.Pulses: true, stability.Topping: true}

// join adds more of the same.
func (p *Part) join(q Part) {
	for _, s := range q.Steps {
		if !slices.Contains(p.Steps, s) {
			p.Steps = append(p.Steps, s)
		}
	}
	for _, x := range []struct {
		to   *float64
		more float64
	}{{&p.PutInKg, q.PutInKg}, {&p.Kg, q.Kg}, {&p.WaterKg, q.WaterKg}, {&p.ProteinKg, q.ProteinKg}, {&p.FatKg, q.FatKg}, {&p.SugarsKg, q.SugarsKg}, {&p.StarchKg, q.StarchKg},
		{&p.FibreKg, q.FibreKg}, {&p.AshKg, q.AshKg}, {&p.AlcoholKg, q.AlcoholKg}, {&p.OtherCarbKg, q.OtherCarbKg}, {&p.SodiumMg, q.SodiumMg}, {&p.PotassiumMg, q.PotassiumMg},
		{&p.CalciumMg, q.CalciumMg}} {
		*x.to += x.more
	}
}

// kinds says which gum or starch it is.
func (c *composer) kinds(p *Part, k known, of kitchen.IngredientID) {
	switch k.role {
	case stability.Gum:
		p.GumKind = k.kind
		p.Component.Gum = stability.GumKind(k.kind)
		if k.kind != string(stability.Xanthan) && k.kind != string(stability.LocustBean) && k.kind != string(stability.Guar) {
			p.Component.Gum = stability.OtherGum
		}
	case stability.NativeStarch:
		p.Component.Starch = stability.StarchKind(k.kind)
	}
}

// plant says whether what does the work of milk or cream is of plants.
func plant(g kitchen.Ingredient, role stability.Role) bool {
	if role != stability.Milk && role != stability.Cream {
		return false
	}
	if g.Allergens.Answered {
		return !slices.Contains(g.Allergens.Names, "milk")
	}
	return hasAny(words(g.Name, g.Label), "coconut|oat|soy|soya|almond|rice|cashew|hemp|pea")
}

// drifts is how a seasoning changes in the freezer, where that is known.
func drifts(name string, role stability.Role) stability.Drift {
	if role != stability.Seasoning {
		return stability.NoDrift
	}
	text := words(name)
	for _, d := range stability.SeasoningDrifts() {
		if has(text, d.Seasoning) && !(d.Seasoning == "pepper" && hasAny(text, "bell pepper|green pepper|red pepper|cayenne")) {
			return d.Drift
		}
	}
	return stability.NoDrift
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
