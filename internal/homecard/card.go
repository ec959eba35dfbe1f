package homecard

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// Schema names the shape of a card as JSON.
const Schema = "kettlefrost.home-card/1"

// Card is a dish for a home.
type Card struct {
	Schema   string            `json:"schema"`
	Language language.Language `json:"language"` // of all that is not the book's: its names and steps stay as they are
	Kitchen  string            `json:"kitchen"`
	Units    unit.System       `json:"units"`
	Pack     string            `json:"pack"`
	Dish     string            `json:"dish"`
	Name     string            `json:"name"`
	About    string            `json:"about,omitempty"`

	People  int       `json:"people"`
	Serving unit.Mass `json:"serving_g"`
	Assumed bool      `json:"serving_assumed,omitempty"` // nobody has said how much one person eats
	Makes   unit.Mass `json:"makes_g"`
	Pieces  string    `json:"pieces,omitempty"` // of a serving: "3 meatballs"

	Items  []*Item  `json:"ingredients"` // in the order of cooking
	Steps  []Step   `json:"steps"`
	Ratios []Ratio  `json:"ratios"`
	Need   []string `json:"equipment"`
	Hands  Range    `json:"hands_on"`
	Whole  Range    `json:"whole"` // from the first cut to the food being done, one cook
	Keep   []Advice `json:"keep"`

	Facts       []Nutrient `json:"nutrition"` // of a serving; none when nothing can be said
	FactsSource string     `json:"nutrition_source"`

	Contains   string   `json:"contains"`             // allergens, as a label says them
	Unanswered []string `json:"unanswered,omitempty"` // what nobody has said of allergens

	Findings finding.List `json:"findings"`
}

// Range is a time that depends on the burner and the hands.
type Range struct {
	Low   unit.Span `json:"low_s"`
	Usual unit.Span `json:"usual_s"`
	High  unit.Span `json:"high_s"`
}

// Step is one step at home.
type Step struct {
	Number int      `json:"number"`
	ID     string   `json:"id"` // of the dish's step
	Do     string   `json:"do"`
	How    string   `json:"how,omitempty"`
	In     []string `json:"in"` // what goes in, with its amount
	With   string   `json:"with,omitempty"`
	Lots   int      `json:"lots"` // into how many it is parted
	Times  string   `json:"times,omitempty"`
	HeatUp Range    `json:"heat_up"`
	Time   Range    `json:"time"`
	Notes  []string `json:"notes,omitempty"`
	Left   []string `json:"left_out,omitempty"` // sentences of the kitchen's step that a home has no use for
}

// Codes of findings of a card; those of its plan keep theirs.
const (
	CodeServing  = "serving-assumed"
	CodeThinner  = "thinner-at-home"
	CodeRatio    = "ratio-not-held"
	CodeAllergen = "allergens-not-answered"
	CodeFacts    = "nutrition-unknown"
)

// Make writes a card. Errors are *AskError and *DishError. The same ask gives the same card, unless ctx ends first.
func Make(ctx context.Context, a Ask) (Card, error) {
	if err := a.check(); err != nil {
		return Card{}, err
	}
	portion, assumed := a.portion()
	settled, items, err := a.core(portion)
	if err != nil {
		return Card{}, err
	}
	times := a.timed(ctx, settled)
	dish := a.Book.Dishes[portion.Dish]
	in := a.speaker()
	c := Card{Schema: Schema, Language: in.Language(), Kitchen: a.Book.Kitchen.Name, Units: a.Book.Kitchen.Units, Pack: string(a.Pack), Dish: string(portion.Dish), Name: cmp.Or(portion.Identity, portion.Name), About: dish.About,
		People: a.People, Assumed: assumed, Items: items, Ratios: a.ratios(settled.dish, items), Findings: finding.List{}, Keep: []Advice{}}
	c.Serving, c.Pieces = a.serving(portion)
	c.Makes = c.Serving * unit.Mass(a.People)
	c.Steps = a.cardSteps(settled, items, times)
	c.Need = needed(c.Steps)
	c.Hands, c.Whole = times.hands(settled), times.whole()
	c.Keep = a.keep(settled, times.usual, items, portion)
	c.allergens(a, settled.book, times.usual)
	c.Facts, err = a.facts(settled, items, c.Makes)
	if c.FactsSource = in.Say(FactsSource); err != nil {
		c.Findings = append(c.Findings, finding.Finding{Code: CodeFacts, Severity: finding.Note, Where: "dish " + c.Dish, Message: in.Say("what a serving holds is not told: %s", err), Fix: in.Say("give its ingredients a food of the table, or an analysis")})
	}
	c.judge(a, settled, times.usual)
	return c, nil
}

// core is the dish in small pots and its amounts in household measures: all that the amounts depend on.
func (a Ask) core(portion kitchen.Pack) (settled, []*Item, error) {
	quick, stop := context.WithCancel(context.Background())
	stop() // masses need no timetable
	t, err := a.settle(quick, portion)
	if err != nil {
		return t, nil, err
	}
	items := a.items(t)
	if err := a.round(t.dish, items); err != nil {
		return t, nil, fmt.Errorf("dish %s: %w", portion.Dish, err)
	}
	return t, items, nil
}

// serving is what one person eats, and how many pieces are in it.
func (a Ask) serving(portion kitchen.Pack) (unit.Mass, string) {
	var m unit.Mass
	pieces := ""
	for _, f := range portion.Fill {
		m += a.fillMass(portion.Dish, f)
		if f.Pieces > 0 {
			pieces = fmt.Sprintf("%d %s", f.Pieces, a.outputName(portion.Dish, f.Of))
		}
	}
	return m, pieces
}

func (a Ask) outputName(dish kitchen.DishID, id kitchen.OutputID) string {
	for _, s := range a.Book.Dishes[dish].Steps {
		for _, o := range s.Outputs() {
			if o.ID == id {
				return cmp.Or(o.Name, string(id))
			}
		}
	}
	return string(id)
}

// needed is what the steps are done in, each once.
func needed(steps []Step) []string {
	all := []string{}
	for _, s := range steps {
		if s.With != "" && !slices.Contains(all, s.With) {
			all = append(all, s.With)
		}
	}
	return all
}

// allergens says what the label of the pack would: nothing is said to be in it while a question is open.
func (c *Card) allergens(a Ask, book kitchen.Book, p plan.Plan) {
	for _, l := range p.Labels {
		if l.Pack != string(homePack) {
			continue
		}
		s, err := statement.Write(l.Inside.Declared(book))
		switch {
		case err != nil:
			c.Unanswered = []string{err.Error()}
		case s.Withheld():
			c.Unanswered = l.Missing
		default:
			c.Contains = a.contains(s.Found)
		}
	}
}

func (a Ask) contains(found []statement.Found) string {
	in, names := a.speaker(), []string{}
	for _, f := range found {
		name := in.Say(f.Allergen)
		if len(f.Species) > 0 {
			name += " (" + strings.Join(said(in, f.Species), ", ") + ")"
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return ""
	}
	return in.Say("Contains: %s.", strings.Join(names, ", "))
}

func said(in language.Speaker, words []string) []string {
	all := make([]string, len(words))
	for i, w := range words {
		all[i] = in.Say(w)
	}
	return all
}

// judge finds what a reader must know before cooking by the card.
func (c *Card) judge(a Ask, t settled, p plan.Plan) {
	in := a.speaker()
	for _, f := range p.Findings {
		if slices.Contains([]string{plan.CodeNoComposition, plan.CodeMassOpen, plan.CodeDriesOut, plan.CodeInputShort, plan.CodeNeverHot, plan.CodeHeatUp}, f.Code) {
			c.Findings = append(c.Findings, f)
		}
	}
	if c.Assumed {
		c.Findings = append(c.Findings, finding.Finding{Code: CodeServing, Severity: finding.Note, Where: "pack " + c.Pack, Path: "packs." + c.Pack,
			Message: in.Say("the book does not say how much one person eats: %s is assumed", in.Measure(c.Serving.Show(c.Units))), Source: of("serving").source, Fix: in.Say("write serving: into the pack")})
	}
	for _, s := range t.plan.Dishes[0].Steps {
		if kg := t.thin[s.ID]; kg > leastWater*s.Loads.Mass.Kg() {
			c.Findings = append(c.Findings, finding.Finding{Code: CodeThinner, Severity: finding.Caution, Where: "dish " + c.Dish + ", step " + s.ID,
				Message: in.Say("at home %s less water goes off than in the kitchen: it comes out thinner", in.Measure(unit.MassKg(kg).Show(c.Units))), Fix: in.Say("let it simmer until it is as thick as it should be")})
		}
	}
	for _, r := range c.Ratios {
		if !r.Held {
			c.Findings = append(c.Findings, finding.Finding{Code: CodeRatio, Severity: finding.Caution, Where: "dish " + c.Dish,
				Message: in.Say("%s is %s off after rounding, more than %s", r.Of, in.Measure(r.Off.Show(c.Units)), in.Measure(r.Bound.Show(c.Units))), Fix: in.Say("weigh it as the card says in grams")})
		}
	}
	for _, m := range c.Unanswered {
		c.Findings = append(c.Findings, finding.Finding{Code: CodeAllergen, Severity: finding.Caution, Where: "pack " + c.Pack, Message: in.Say("nobody has answered what allergens %s has", m), Fix: in.Say("answer allergens: of the ingredient before the card is handed out")})
	}
	c.Findings.Sort()
}
