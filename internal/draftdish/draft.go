package draftdish

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Schema names the shape of a draft as JSON.
const Schema = "kettlefrost.draft/1"

// Draft is what was made of a recipe.
type Draft struct {
	Schema   string         `json:"schema"`
	ID       kitchen.DishID `json:"id"` // that the dish would have
	Title    string         `json:"title"`
	Makes    string         `json:"makes,omitempty"` // as the recipe says
	Gives    unit.Mass      `json:"gives_g"`         // by its amounts, less what goes off in the kitchen's own vessels; 0 when that cannot be computed
	Lines    []*Line        `json:"lines"`
	Steps    []*Step        `json:"steps"`
	Asks     []Ask          `json:"asks"`
	Concerns []Concern      `json:"concerns"`
	LeftOut  []string       `json:"left_out"` // sentences that are no step of production
	Unused   []string       `json:"unused"`   // answers under keys that nothing asks
	Findings finding.List   `json:"findings"` // what the book would say against it
	Savable  bool           `json:"savable"`  // the book would take it without a stop

	Dish        kitchen.Dish                                `json:"-"`
	Ingredients map[kitchen.IngredientID]kitchen.Ingredient `json:"-"` // new ones
}

// Concern is what production has to mind.
type Concern struct {
	Severity finding.Severity `json:"severity"`
	About    string           `json:"about"`
	Says     string           `json:"says"`
	Fix      string           `json:"fix,omitempty"`
	Source   string           `json:"source,omitempty"`
}

// drafter carries one recipe through.
type drafter struct {
	recipe    Recipe
	book      kitchen.Book
	foods     *foodtable.Table
	asks      asks
	lines     []*Line
	steps     []*Step
	left      []string
	fresh     map[kitchen.IngredientID]kitchen.Ingredient
	equipment []kitchen.EquipmentID
	title     string
}

func (d *drafter) knowsFood(ndb string) bool { _, ok := d.foods.Lookup(ndb); return ok }

// Make drafts a dish. Errors are *RecipeError, for texts of which nothing can be made.
func Make(r Recipe, given Answers, book kitchen.Book, foods *foodtable.Table) (Draft, error) {
	if err := r.check(); err != nil {
		return Draft{}, err
	}
	d := &drafter{recipe: r, book: book, foods: foods, asks: asks{given: given, used: map[string]bool{}}, fresh: map[kitchen.IngredientID]kitchen.Ingredient{}}
	d.equipment = slices.Sorted(maps.Keys(book.Equipment))
	slices.SortStableFunc(d.equipment, func(a, b kitchen.EquipmentID) int {
		return cmp.Compare(book.Equipment[a].Volume, book.Equipment[b].Volume)
	})
	d.name()
	d.readLines()
	if !slices.ContainsFunc(d.lines, func(l *Line) bool { return !l.Out }) {
		return Draft{}, &RecipeError{"the ingredients", "have no line with an amount", "write how much of each: 2 cups milk"}
	}
	d.readMethod()
	d.placeLines()
	d.connect()
	d.renumber()
	d.figures()
	d.onlyUsed()
	d.askOfNew()
	out := Draft{Schema: Schema, Title: d.title, Makes: strings.TrimSpace(r.Makes), Lines: d.lines, Steps: d.steps, Concerns: []Concern{}, LeftOut: append([]string{}, d.left...), Unused: []string{}, Findings: finding.List{}}
	out.Dish, out.Ingredients = d.dish(), d.fresh
	out.ID = d.id()
	d.sayOut(&out.Dish)
	d.judge(&out)
	out.Asks = append([]Ask{}, d.asks.all...)
	for _, key := range slices.Sorted(maps.Keys(given)) {
		if !d.asks.used[key] && strings.TrimSpace(given[key]) != "" {
			out.Unused = append(out.Unused, key)
		}
	}
	return out, nil
}

// name asks what the dish is called, where the recipe does not say.
func (d *drafter) name() {
	d.title = strings.TrimSpace(d.recipe.Title)
	if d.title == "" || d.asks.given["name"] != "" {
		_, answer := d.asks.put(Ask{Key: "name", About: "the recipe", Kind: AskName, Question: "What is it called?", Assumed: "a dish from a home recipe"})
		d.title = cmp.Or(answer, d.title, "a dish from a home recipe")
	}
	d.title = clipped(strings.Join(strings.Fields(d.title), " "))
}

func (d *drafter) id() kitchen.DishID {
	return kitchen.DishID(unlike(slug(d.title), "home-recipe", func(s string) bool { _, is := d.book.Dishes[kitchen.DishID(s)]; return is }))
}

// renumber gives lines the numbers of the steps that are left.
func (d *drafter) renumber() {
	for _, l := range d.lines {
		l.Steps = []int{}
		if l.Amount.Kind != 0 {
			l.Says = l.Amount.String()
		}
		for _, x := range d.stepsOf(l) {
			l.Steps = append(l.Steps, x.Number)
		}
	}
}

// sayOut writes into the last step what is not decided yet.
func (d *drafter) sayOut(dish *kitchen.Dish) {
	var out []string
	for _, l := range d.lines {
		if l.Out {
			out = append(out, l.Text)
		}
	}
	if len(out) == 0 || len(dish.Steps) == 0 {
		return
	}
	last := &dish.Steps[len(dish.Steps)-1]
	last.How = strings.TrimSpace(last.How + " Not decided yet, and not in it: " + clipped(strings.Join(out, "; ")) + ".")
}

// Into is a book with the draft in it.
func (d Draft) Into(book kitchen.Book) kitchen.Book {
	book.Ingredients, book.Dishes = maps.Clone(book.Ingredients), maps.Clone(book.Dishes)
	if book.Ingredients == nil {
		book.Ingredients = map[kitchen.IngredientID]kitchen.Ingredient{}
	}
	if book.Dishes == nil {
		book.Dishes = map[kitchen.DishID]kitchen.Dish{}
	}
	maps.Copy(book.Ingredients, d.Ingredients)
	book.Dishes[d.ID] = d.Dish
	return book
}

// judge finds what the book would say against the draft, and what production has to mind.
func (d *drafter) judge(out *Draft) {
	book := out.Into(d.book)
	before := kitchen.Check(d.book, d.knowsFood)
	for _, f := range kitchen.Check(book, d.knowsFood) {
		if !slices.ContainsFunc(before, func(o finding.Finding) bool { return o.Code == f.Code && o.Path == f.Path && o.Message == f.Message }) {
			out.Findings = append(out.Findings, f)
		}
	}
	out.Findings.Sort()
	out.Savable = out.Findings.Worst() < finding.Stop
	if out.Savable {
		d.pot(out, book)
	}
	d.concerns(out)
	d.askMakes(out)
}

// askMakes compares how much there is with what the recipe says.
func (d *drafter) askMakes(out *Draft) {
	q := Ask{Key: "makes", About: cmp.Or(out.Makes, "the recipe does not say how much it makes"), Kind: AskMakes, Question: "How much does it make? Cook it once as it is, and weigh what comes out."}
	if out.Gives > 0 {
		q.Assumed = out.Gives.Show(d.book.Kitchen.Units) + ", by the amounts and what goes off"
	}
	at, answer := d.asks.put(q)
	if answer == "" {
		return
	}
	m, err := unit.ParseMass(answer)
	if err != nil || m <= 0 {
		d.asks.refuse(at, "that is no mass: write 3 lb 4 oz or 1.5 kg")
		return
	}
	if off := out.Gives.Kg()/m.Kg() - 1; out.Gives > 0 && (off > 0.1 || off < -0.1) {
		out.Concerns = append(out.Concerns, Concern{Severity: finding.Caution, About: "how much it makes", Fix: "set what the steps lose: loses",
			Says: fmt.Sprintf("%s were weighed, the draft gives %s: the steps lose otherwise than is assumed", m.Show(d.book.Kitchen.Units), out.Gives.Show(d.book.Kitchen.Units))})
	}
}
