package draftdish

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/homemeasure"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Line is a line of the ingredients, and what was made of it.
type Line struct {
	Number  int                  `json:"number"` // of the text, from 1
	Text    string               `json:"text"`
	Words   string               `json:"words"` // what it is, as the recipe says
	Prep    string               `json:"prep,omitempty"`
	Problem string               `json:"problem,omitempty"` // why it cannot be read
	Is      kitchen.IngredientID `json:"is"`                // of the book, or a new one
	New     bool                 `json:"new"`
	Name    string               `json:"name"`
	Sure    Sure                 `json:"sure,omitempty"`
	May     []Candidate          `json:"candidates"`
	Amount  unit.Amount          `json:"-"`      // that goes in
	Says    string               `json:"amount"` // that, as the book writes it
	Mass    unit.Mass            `json:"mass_g"` // of that
	Assumed bool                 `json:"assumed"`
	Steps   []int                `json:"steps"` // numbers of the steps that it goes into
	Out     bool                 `json:"out"`   // it has no amount: it stays out of the steps

	share unit.Share // of the finished food, where that is all that is known
	read  homemeasure.Line
}

// readLines reads the ingredients. Headings are passed over.
func (d *drafter) readLines() {
	numbered, err := homemeasure.ParseLines(d.recipe.Ingredients)
	bad := map[int]string{}
	for _, e := range joined(err) {
		var n *homemeasure.NumberedError
		if errors.As(e, &n) {
			bad[n.Number] = n.Err.Error()
		}
	}
	for number, text := range strings.Split(d.recipe.Ingredients, "\n") {
		if problem, is := bad[number+1]; is {
			d.lines = append(d.lines, &Line{Number: number + 1, Text: strings.TrimSpace(text), Problem: problem, Out: true, May: []Candidate{}})
		}
		for _, n := range numbered {
			if n.Number == number+1 && !n.Line.Heading && len(d.lines) < mostLines {
				d.lines = append(d.lines, &Line{Number: n.Number, Text: n.Line.Text, Words: n.Line.Words, Prep: n.Line.Prep, read: n.Line, May: []Candidate{}})
			}
		}
	}
	for _, l := range d.lines {
		if l.Problem == "" {
			d.identify(l)
			d.measure(l)
		}
	}
	for _, l := range d.lines {
		if l.Problem == "" {
			d.perCup(l)
		}
	}
	d.shares()
}

func joined(err error) []error {
	if err == nil {
		return nil
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		return many.Unwrap()
	}
	return []error{err}
}

// identify says which food a line means: as answered, or the likeliest.
func (d *drafter) identify(l *Line) {
	l.May = append(d.notDry(l, candidates(l.Words, d.book, d.foods)), Candidate{Key: newFood, Name: "a new ingredient of which nothing is known yet", Why: "nothing that fits"})
	best := l.May[0]
	q := Ask{Key: fmt.Sprintf("is-%d", l.Number), About: l.Text, Kind: AskWhat, Question: fmt.Sprintf("Which is meant by %q?", l.Words), Assumed: best.Name, Source: best.Why, Grave: best.Key == newFood}
	for _, c := range l.May {
		q.Options = append(q.Options, Option{c.Key, c.Name})
	}
	answer := strings.TrimSpace(d.asks.given[q.Key])
	if best.Sure < Certain || answer != "" {
		at, _ := d.asks.put(q)
		if answer != "" && !d.knows(answer) {
			d.asks.refuse(at, fmt.Sprintf("%q is none of them: book: with an ingredient of the book, food: with a number of the table, or new", answer))
			answer = ""
		}
	}
	l.Sure = best.Sure
	if answer != "" {
		l.Sure = Certain
	}
	d.take(l, cmp.Or(answer, best.Key))
	for _, x := range l.read.Asks {
		if x.Code == homemeasure.AskWhich || x.Code == homemeasure.AskFoods || x.Code == homemeasure.AskPart || x.Code == homemeasure.AskWhat {
			d.asks.put(Ask{Key: fmt.Sprintf("%s-%d", x.Code, l.Number), About: l.Text, Kind: AskWhat, Question: x.Question, Assumed: x.Assumed, Source: x.Source})
		}
	}
}

// notDry doubts what the book has dry where a line has it from a can: a pound of one is not a pound of the other.
func (d *drafter) notDry(l *Line, may []Candidate) []Candidate {
	if !hasAny(l.Text, "can", "tin", "canned", "cooked", "drained") {
		return may
	}
	if hasAny(l.Text, "can", "tin", "canned") {
		may = d.fromCans(l, may)
	}
	for i, c := range may {
		if hasAny(c.Name, "dry", "dried", "raw") && c.Sure > Maybe {
			may[i].Sure, may[i].Why = Maybe, "it is dry, and the recipe has it from a can or cooked"
		}
	}
	slices.SortStableFunc(may, func(a, b Candidate) int { return cmp.Compare(b.Sure, a.Sure) })
	return may
}

// fromCans puts foods of the table that are canned before those that are not.
func (d *drafter) fromCans(l *Line, may []Candidate) []Candidate {
	var canned []Candidate
	for _, c := range candidates(l.Words+" canned", kitchen.Book{}, d.foods) {
		if !hasAny(c.Name, "canned") {
			continue
		}
		c.Sure, c.Why = Likely, "it is canned, as in the recipe"
		canned = append(canned, c)
		may = slices.DeleteFunc(may, func(o Candidate) bool { return o.Key == c.Key })
	}
	i := slices.IndexFunc(may, func(c Candidate) bool { return c.Sure < Certain })
	if i < 0 {
		i = len(may)
	}
	return slices.Insert(may, i, canned[:min(len(canned), 3)]...)
}

func (d *drafter) knows(key string) bool {
	if id, is := strings.CutPrefix(key, inBook); is {
		_, ok := d.book.Ingredients[kitchen.IngredientID(id)]
		return ok
	}
	if ndb, is := strings.CutPrefix(key, inTable); is {
		_, ok := d.foods.Lookup(ndb)
		return ok
	}
	return key == newFood
}

// take makes a line an ingredient of the book, or a new one.
func (d *drafter) take(l *Line, key string) {
	if id, is := strings.CutPrefix(key, inBook); is {
		l.Is = kitchen.IngredientID(id)
		l.Name = d.book.Ingredients[l.Is].Name
		return
	}
	l.New, l.Name = true, cmp.Or(strings.ToLower(l.Words), fmt.Sprintf("ingredient of line %d", l.Number))
	ndb, _ := strings.CutPrefix(key, inTable)
	if key == newFood {
		ndb = ""
	}
	l.Is = d.newIngredient(l.Name, ndb)
	if have := d.fresh[l.Is]; have.Name != "" {
		l.Name = have.Name
	}
}

// measure says how much of a line goes in.
func (d *drafter) measure(l *Line) {
	amount, assumed := l.read.Best, l.read.Assumed
	l.share = l.read.BestShare
	question, because, source := "", "", ""
	for _, x := range l.read.Asks {
		switch x.Code {
		case homemeasure.AskWhich, homemeasure.AskFoods, homemeasure.AskPart, homemeasure.AskWhat:
			continue
		}
		question, because, source = join(question, x.Question), join(because, x.Assumed), join(source, x.Source)
	}
	mass, what := d.weigh(l, amount)
	if mass > 0 && amount.Kind == unit.AmountCount && !d.bookCounts(l, amount) {
		question = join(question, fmt.Sprintf("How much is that in all, as it goes in? One %s is taken from the table.", pieceName(amount.Measure, l.Words)))
		because = join(because, mass.Show(unit.Metric))
		source, assumed = join(source, "a measure of the composition table (USDA SR28)"), true
	}
	open := question != "" || amount.Kind == 0 || mass == 0
	key := fmt.Sprintf("much-%d", l.Number)
	if open || d.asks.given[key] != "" {
		if mass == 0 && l.share == 0 {
			question = join(question, what)
		}
		q := Ask{Key: key, About: l.Text, Kind: AskMuch, Question: cmp.Or(question, "How much is it?"), Assumed: because, Source: source, Grave: mass == 0 && l.share == 0}
		if mass > 0 && because == "" {
			q.Assumed = mass.Show(d.book.Kitchen.Units)
		}
		at, answer := d.asks.put(q)
		if answer != "" {
			typed, m, problem := d.typedAmount(l, answer)
			if problem != "" {
				d.asks.refuse(at, problem)
			} else {
				amount, mass, assumed, l.share = typed, m, false, 0
			}
		}
	}
	l.Amount, l.Mass, l.Assumed = d.bookAmount(l, amount, mass), mass, assumed
	l.Out = mass == 0 && l.share == 0
}

// bookCounts says whether the book itself says what a piece weighs.
func (d *drafter) bookCounts(l *Line, a unit.Amount) bool {
	ing := d.ingredient(l.Is)
	if _, ok := ing.Measures["each"]; ok {
		return true
	}
	_, ok := ing.Weigh(a)
	return ok
}

func join(a, b string) string {
	if a == "" || b == "" || strings.Contains(a, b) {
		return a + b
	}
	return a + " " + b
}

// typedAmount reads an amount that somebody typed: a mass, a volume or a number of pieces.
func (d *drafter) typedAmount(l *Line, text string) (unit.Amount, unit.Mass, string) {
	amount, err := unit.ParseAmount(text)
	if err != nil {
		return amount, 0, err.Error()
	}
	mass, what := d.weigh(l, amount)
	if mass <= 0 {
		return amount, 0, cmp.Or(what, "that weighs nothing") + " Give it as a mass, such as 250 g."
	}
	if mass > 100*unit.Kilogram {
		return amount, 0, "that is more than a home recipe has; a dish is written small and scaled by the plan"
	}
	return amount, mass, ""
}

// weigh is what an amount of a line weighs: by the book, then by the table. What is not known is said as a question.
func (d *drafter) weigh(l *Line, a unit.Amount) (unit.Mass, string) {
	if a.Kind == 0 {
		return 0, ""
	}
	ing := d.ingredient(l.Is)
	if m, ok := ing.Weigh(a); ok {
		return m, ""
	}
	switch a.Kind {
	case unit.AmountVolume:
		if density, ok := d.density(l, ing, a.Measure); ok {
			return a.Volume.Times(density), ""
		}
		return 0, fmt.Sprintf("What does a cup of %s weigh?", l.Name)
	case unit.AmountCount:
		if one := pieceOf(d.foods, ing, a.Measure, contentOf(l.Words)); one > 0 {
			return unit.MassKg(one.Kg() * a.Count.N()), ""
		}
		return 0, fmt.Sprintf("What does one %s weigh?", pieceName(a.Measure, l.Words))
	}
	return 0, ""
}

// density is what a litre of a line weighs: of the book, or of the table in the form that the line says, or else in the only one it has.
func (d *drafter) density(l *Line, ing kitchen.Ingredient, form string) (unit.Density, bool) {
	said := append(contentOf(l.Prep), wordsOf(l.Words+" "+form)...)
	var bulk []foodtable.Density
	for _, x := range d.foods.Densities(ing.Food) {
		if x.Form == "" {
			return x.KgPerL, true
		}
		for _, w := range wordsOf(x.Form) {
			if slices.Contains(said, w) || slices.Contains(said, singular(w)) {
				return x.KgPerL, true
			}
		}
		bulk = append(bulk, x)
	}
	if len(bulk) > 0 {
		return bulk[0].KgPerL, true
	}
	if hasAny(l.Words, "water", "broth", "stock", "wine", "beer", "juice", "vinegar", "milk") {
		return 1, true
	}
	return 0, false
}

func hasAny(text string, words ...string) bool {
	return slices.ContainsFunc(wordsOf(text), func(w string) bool { return slices.Contains(words, singular(w)) })
}

// sizes are the words for one of something that say nothing of what it is.
var sizes = []string{"", "each", "whole", "medium", "large", "small"}

// pieceName is what one piece is called.
func pieceName(measure, words string) string {
	if content := contentOf(words); slices.Contains(sizes, measure) {
		return content[len(content)-1]
	}
	return singular(measure)
}

// largeEgg is a large egg without its shell (USDA SR28 01123).
const largeEgg = 50 * unit.Gram

// pieceOf is what one piece weighs: by the book, then by the table's measure of that name; of a whole one a medium one, or a large one if the
// recipe says so.
func pieceOf(foods *foodtable.Table, ing kitchen.Ingredient, measure string, content []string) unit.Mass {
	measure = singular(strings.ToLower(measure))
	sized := slices.Contains(sizes, measure)
	if m, ok := ing.Measures["each"]; ok && m.Kind == unit.AmountMass && sized {
		return m.Mass
	}
	if sized && content[len(content)-1] == "egg" {
		return largeEgg
	}
	wanted := [][]string{{measure}}
	if sized {
		wanted = [][]string{{cmp.Or(measure, "medium")}, {"medium"}, {"large"}, content[len(content)-1:]}
	}
	for _, words := range wanted {
		for _, m := range foods.Measures(ing.Food) {
			name, _, _ := strings.Cut(m.Name, " (")
			in := wordsOf(name)
			if m.Amount > 0 && m.Grams > 0 && !slices.Contains(in, "cup") && !slices.Contains(in, "slice") && !slices.Contains(in, "strip") && slices.ContainsFunc(in, func(w string) bool { return singular(w) == words[0] }) {
				return unit.MassKg(m.Grams / 1000 / m.Amount)
			}
		}
	}
	return 0
}

// bookAmount is an amount as the book can weigh it out: as the cook wrote it where the book says what that weighs, else in grams.
func (d *drafter) bookAmount(l *Line, a unit.Amount, mass unit.Mass) unit.Amount {
	if mass <= 0 {
		return unit.Amount{}
	}
	if a.Kind == unit.AmountMass {
		return unit.Amount{Kind: unit.AmountMass, Mass: a.Mass}
	}
	if m, ok := d.ingredient(l.Is).Weigh(a); ok && m == mass {
		if _, err := a.MarshalText(); err == nil {
			return a
		}
	}
	return unit.Amount{Kind: unit.AmountMass, Mass: roundGrams(mass)}
}

// roundGrams is a mass to a tenth of a gram, or to a hundredth below 2 g.
func roundGrams(m unit.Mass) unit.Mass {
	step := 100 * unit.Milligram
	if m < 2*unit.Gram {
		step = 10 * unit.Milligram
	}
	return max(step, unit.Mass(math.Round(float64(m)/float64(step)))*step)
}

// shares gives what is a share of the finished food its mass, once all else is known.
func (d *drafter) shares() {
	var total unit.Mass
	for _, l := range d.lines {
		total += l.Mass
	}
	for _, l := range d.lines {
		if l.share > 0 && l.Mass == 0 && l.Problem == "" {
			l.Mass = roundGrams(l.share.Of(total))
			l.Amount, l.Assumed = unit.Amount{Kind: unit.AmountMass, Mass: l.Mass}, true
			l.Out = l.Mass <= 0 || total == 0
		}
	}
}
