package draftdish

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

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
