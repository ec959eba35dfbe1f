package packlabel

import (
	"cmp"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// Asked is which label is asked for.
type Asked struct {
	Book  kitchen.Book
	Foods *foodtable.Table
	// Plan is the run that makes the packs. What it does not make is reckoned at the scale that its dish is written for, without a heating card.
	Plan plan.Plan
	Pack kitchen.PackID
	Lot  Lot

	Regime   kitchen.LabelRegime // "": the kitchen's
	Language language.Language   // "": the kitchen's first
	Stock    labelmaker.Stock    // the zero Stock: the kitchen's

	Cup      unit.Mass       // what a level cup of 240 ml of the food weighs, weighed; 0: as the book has it, or else reckoned from its composition
	Panel    nutrition.Rules // of a label for the United States; 0: of 21 CFR 101.9
	Simplify bool            // the simplified panel, where it may be used
	Style    statement.Style
	// Business is what exemptions from the nutrition panel go by; the zero Business carries none. WithoutPanel leaves the panel out if one may.
	Business     labelrule.Business
	WithoutPanel bool
	// Beyond is what was answered of the allergens that the European Union knows beyond the nine, by ingredient and for all of its parts: codes of
	// labelrule ("celery", "gluten: barley"), or none; before what the book says.
	Beyond map[kitchen.IngredientID]kitchen.Allergens
}

// Lot is what is known of the packs that are labelled. Days are such as 2026-12-01.
type Lot struct {
	Code       string
	BestBefore string // "": so many weeks after Packed as the book says
	Packed     string
	Instead    []Instead // what took the place of an ingredient
}

// Instead is an ingredient that took the place of another in a lot, mass for mass.
type Instead struct {
	Of, By kitchen.IngredientID
	Share  unit.Share // of Of; 0: all of it
}

// Label is a label, and all that it rests on.
type Label struct {
	Pack     kitchen.PackID
	Dish     kitchen.DishID
	Name     string // the statement of identity
	Regime   kitchen.LabelRegime
	Language language.Language
	Planned  bool // by a run; else as the dish is written

	Mass      unit.Mass            // of one pack, as the book or the run has it
	Food      nutrition.Food       // what is in one pack, with what is filled beyond its label
	Energy    nutrition.EnergyWays // of 100 g
	Reference nutrition.Reference
	Panel     *nutrition.Panel         // United States; nil where it cannot be made
	EUPanel   *nutrition.EUDeclaration // European Union
	Formats   []nutrition.FormatChoice // of the panel, by the pack's area
	NoPanel   bool                     // an exemption may lift it, and it is left out

	Statement statement.Statement
	EUList    labelrule.EUAnswer
	Quids     []labelrule.Quid
	Net       netdeclare.Statement

	Shares     labelrule.Contents // of meat and poultry in the finished food
	Agency     labelrule.Agency
	Exemptions []labelrule.Exemption

	Open   finding.List // what is missing or wrong, the gravest first; with a stop the label is withheld
	Advice finding.List // what to think of, and who worked where before

	Content labelmaker.Content // all that it says; empty while anything but want of room stops it
	Stock   labelmaker.Stock
	Rules   labelmaker.Rules // with the least sizes of the pack's own area
	Sides   []Side           // what is printed: one label, or where that does not hold everything a front and a back; none while withheld
	Hash    string           // of all that it says; "" where there is no content
}

// PerPack is what is in a pack of the mass on its label.
func (l Label) PerPack() nutrition.Amounts { return l.Food.In(l.Mass) }

// Side is one of the labels of a pack.
type Side struct {
	Panel   labelrule.Panel
	Content labelmaker.Content
	Laid    labelmaker.Label
}

// Withheld says whether something stops the label, so that it may not be printed.
func (l Label) Withheld() bool { return l.Open.Worst() == finding.Stop }

// AskedError says what is asked for that the book does not have.
type AskedError struct{ What, Fix string }

// Error is one line.
func (e *AskedError) Error() string { return "packlabel: " + e.What + "; " + e.Fix }

// maker makes one label.
type maker struct {
	Asked
	pack    kitchen.Pack
	bag     kitchen.Bag
	inside  plan.Inside
	figures bool // on the panel, in place of words
	out     *Label
}

// Of makes a label. The error is an *AskedError for what the book does not have, or says why the dish cannot be solved; all else that is missing is
// in Open.
func Of(a Asked) (Label, error) {
	pack, there := a.Book.Packs[a.Pack]
	if !there {
		return Label{}, &AskedError{fmt.Sprintf("there is no pack %q", a.Pack), "name a pack of the book"}
	}
	m := &maker{Asked: a, pack: pack, bag: a.Book.Bags[pack.Bag], out: &Label{Pack: a.Pack, Dish: pack.Dish, Name: cmp.Or(pack.Identity, pack.Name)}}
	m.chosen()
	m.bookSays()
	if err := m.fill(); err != nil {
		return Label{}, err
	}
	m.agency()
	m.statement()
	m.net()
	m.nutrition()
	m.asks()
	m.crossContact()
	m.layOut()
	m.out.Open.Sort()
	if m.out.Withheld() {
		m.out.Sides = nil
	}
	return *m.out, nil
}

// bookSays takes what the book says where nothing else was asked for.
func (m *maker) bookSays() {
	labels := m.Book.Kitchen.Labels
	if m.Cup == 0 {
		m.Cup = m.pack.Cup
	}
	if m.Style == (statement.Style{}) {
		m.Style = statement.Style{Spread: labels.Spread, Last: labels.Last}
	}
	if b := labels.Business; m.Business == (labelrule.Business{}) {
		m.Business = labelrule.Business{YearlySales: b.Sales, YearlyFoodSales: b.FoodSales, RetailerOnly: b.Retail, Staff: b.Staff, YearlyUnits: b.Units, Claims: b.Claims}
		m.WithoutPanel = m.WithoutPanel || b.Leaves
	}
}

// chosen is whose rules, which language and which labels.
func (m *maker) chosen() {
	labels := m.Book.Kitchen.Labels
	byUnits := kitchen.EULabels
	if m.Book.Kitchen.Units == unit.US {
		byUnits = kitchen.USLabels
	}
	m.out.Regime = cmp.Or(m.Regime, labels.Regime, byUnits)
	m.out.Language = cmp.Or(m.Language, language.English)
	if m.Language == "" && len(labels.Languages) > 0 {
		said, err := language.Parse(labels.Languages[0])
		if err != nil {
			m.ask(finding.Finding{Code: CodeLanguage, Severity: finding.Stop, Where: "labels", Path: "kitchen.labels.languages", Message: err.Error(), Fix: "name a language that is spoken here"})
		} else {
			m.out.Language = said
		}
	}
	if m.out.Stock = m.Stock; m.Stock == (labelmaker.Stock{}) {
		m.out.Stock = m.kitchenStock(labels)
	}
}

// kitchenStock is the labels in the kitchen's printer.
func (m *maker) kitchenStock(labels kitchen.Labels) labelmaker.Stock {
	if labels.Wide > 0 && labels.High > 0 {
		return labelmaker.Roll(labels.Wide.M()*1000, labels.High.M()*1000)
	}
	for _, s := range labelmaker.Stocks() {
		if s.Name == labels.Stock {
			return s
		}
	}
	usual := map[kitchen.LabelRegime]string{kitchen.USLabels: "4 x 6 in", kitchen.EULabels: "100 x 150 mm"}[m.out.Regime]
	f := finding.Finding{Code: CodeStock, Severity: finding.Caution, Where: "labels", Path: "kitchen.labels", Message: "the book does not say which labels are in the printer", Fix: "write stock, or wide and high, at kitchen.labels"}
	if labels.Stock != "" {
		f.Path, f.Message, f.Fix = "kitchen.labels.stock", fmt.Sprintf("no labels are called %q", labels.Stock), "choose one of the list, or write wide and high"
	}
	f.Message += "; it is laid out for " + usual
	m.ask(f)
	for _, s := range labelmaker.Stocks() {
		if s.Name == usual {
			return s
		}
	}
	return labelmaker.Roll(100, 150)
}

func (m *maker) us() bool { return m.out.Regime == kitchen.USLabels }

func (m *maker) ask(f finding.Finding) { m.out.Open = append(m.out.Open, f) }

func (m *maker) advise(f finding.Finding) { m.out.Advice = append(m.out.Advice, f) }
