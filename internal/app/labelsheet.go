package app

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// LabelSchema names the shape of a LabelSheet.
const LabelSchema = "kettlefrost.label/1"

// LabelSheet is a label and all that it rests on, as one value.
type LabelSheet struct {
	Schema      string           `json:"schema"`
	Pack        string           `json:"pack"`
	Dish        string           `json:"dish"`
	Name        string           `json:"name"` // the statement of identity
	Regime      string           `json:"rules"`
	Language    string           `json:"language"`
	Stock       LabelStock       `json:"stock"`
	Lot         string           `json:"lot,omitempty"` // none: it is a draft, which is never printed
	Draft       bool             `json:"draft"`
	Run         string           `json:"run,omitempty"` // of the book, at whose scale it is reckoned; none: as the dish is written
	Prints      bool             `json:"prints"`        // it may be printed
	Withheld    bool             `json:"withheld"`      // something stops it
	Stops       string           `json:"stops,omitempty"`
	Held        []LabelHold      `json:"holds"`
	Sides       int              `json:"labels_per_pack"` // a front and a back are two; 0 while it is withheld
	Net         LabelNet         `json:"net"`
	Serving     string           `json:"serving,omitempty"`
	ServingMass unit.Mass        `json:"serving_g"`
	Nutrition   []LabelNutrient  `json:"nutrition"`
	Energy      LabelEnergy      `json:"energy"`
	Statement   string           `json:"ingredients"`
	Contains    string           `json:"contains,omitempty"`
	Ties        []LabelTie       `json:"near_ties"`
	Allergens   []LabelAllergen  `json:"allergens"`
	Unanswered  []string         `json:"allergens_unanswered"`
	Agency      LabelAgency      `json:"agency"`
	Exemptions  []LabelExemption `json:"exemptions"`
	Open        finding.List     `json:"open"` // the gravest first
	Advice      finding.List     `json:"advice"`
	Ways        []LabelWay       `json:"ways_out"` // when it does not fit, each tried
	Label       string           `json:"label,omitempty"`
	Count       *LabelCount      `json:"count,omitempty"`
	Printed     []LabelPrint     `json:"printed"`
}

// LabelStock is what it is printed on.
type LabelStock struct {
	Name    string  `json:"name"`
	WideMm  float64 `json:"wide_mm"`
	HighMm  float64 `json:"high_mm"`
	Sheet   bool    `json:"sheet"` // many to a sheet; else a roll
	Per     int     `json:"per_page"`
	Columns int     `json:"columns"`
	Rows    int     `json:"rows"`
	DPI     int     `json:"dpi"`
	Source  string  `json:"source"`
	Confirm string  `json:"confirm,omitempty"`
}

// LabelNet is the net quantity.
type LabelNet struct {
	Says     string    `json:"says"`       // as it is printed
	US       string    `json:"us"`         // as the United States would have it
	EU       string    `json:"eu"`         // as the European Union would
	Declared unit.Mass `json:"declared_g"` // what the average of a lot must reach
	Filled   unit.Mass `json:"filled_g"`   // on average
	Source   string    `json:"source,omitempty"`
}

// LabelNutrient is how much there is of one nutrient, in words: what is missing is said and never counted as nothing.
type LabelNutrient struct {
	Name    string   `json:"name"`
	Serving string   `json:"per_serving"`
	Hundred string   `json:"per_100g"`
	Pack    string   `json:"per_pack"`
	Printed string   `json:"printed,omitempty"` // as the panel says it, rounded
	Percent string   `json:"percent_dv,omitempty"`
	Known   bool     `json:"known"` // nothing is missing
	Missing []string `json:"missing"`
}

// LabelEnergy is energy of 100 g by both ways of reckoning it.
type LabelEnergy struct {
	Factors string  `json:"by_factors"` // 4, 4 and 9
	Table   string  `json:"by_table"`
	Known   bool    `json:"known"` // both are whole
	Off     float64 `json:"off_share"`
	Says    string  `json:"says"`
}

// LabelTie is two neighbours in the list that weighing may turn round.
type LabelTie struct {
	First  string    `json:"first"`
	Second string    `json:"second"`
	Apart  unit.Mass `json:"apart_g"`
}

// LabelAllergen is an allergen with what brings it in.
type LabelAllergen struct {
	Name string   `json:"name"`
	From []string `json:"from"`
}

// LabelAgency is which authority the pack most likely falls to: a question, not a decision.
type LabelAgency struct {
	Agriculture bool     `json:"agriculture"`
	Asks        string   `json:"asks"`
	Why         []string `json:"why"`
	Answer      string   `json:"answer,omitempty"` // as the book has it
	Source      string   `json:"source"`
	Confirm     string   `json:"confirm,omitempty"`
}

// LabelExemption is one way of leaving the nutrition panel out.
type LabelExemption struct {
	Code   string `json:"code"`
	May    bool   `json:"may"`
	Notice bool   `json:"notice"`
	Why    string `json:"why"`
	Source string `json:"source"`
}

// LabelWay is a way out for a label that does not fit.
type LabelWay struct {
	Says string `json:"says"`
	Does bool   `json:"does"` // everything fits then
	Two  bool   `json:"two"`  // with a second label
}

// Sheet is a label as one value, with what was printed of its lot.
func (m *LabelMade) Sheet(printed []LabelPrint, count *LabelCount) LabelSheet {
	l := m.Label
	s := LabelSheet{Schema: LabelSchema, Pack: string(l.Pack), Dish: string(l.Dish), Name: l.Name, Regime: string(l.Regime), Language: string(l.Language), Stock: StockOf(l.Stock), Lot: string(m.Ask.Lot), Draft: m.Draft(), Run: m.Run,
		Withheld: m.Withheld(), Held: append([]LabelHold{}, m.Held...), Sides: len(l.Sides), Statement: l.Statement.Ingredients, Contains: l.Statement.Contains, Ties: []LabelTie{}, Unanswered: []string{},
		Open: append(append(finding.List{}, m.Found...), l.Open...), Advice: append(finding.List{}, l.Advice...), Ways: append([]LabelWay{}, m.Ways...), Count: count, Printed: append([]LabelPrint{}, printed...)}
	s.Open = allergensFirst(s.Open)
	s.Advice.Sort()
	if stop := m.Stops(); stop != nil {
		s.Stops = stop.Error()
	}
	s.Prints = s.Stops == ""
	if !m.Withheld() {
		s.Label = labelHash(l).String()
	}
	for i := range s.Printed {
		p := &s.Printed[i]
		p.Differs = p.Language == s.Language && p.Stock == s.Stock.Name && p.Label.String() != s.Label
	}
	s.Net = netOf(l)
	s.Serving, s.ServingMass = servingOf(l)
	s.Nutrition, s.Energy = nutrients(l, s.ServingMass), energyOf(l.Energy)
	for _, tie := range l.Statement.Close {
		s.Ties = append(s.Ties, LabelTie{tie.First, tie.Second, tie.By})
	}
	for _, x := range l.Statement.Missing {
		s.Unanswered = append(s.Unanswered, x.String())
	}
	for _, q := range l.EUList.Questions {
		s.Unanswered = append(s.Unanswered, q.Part+": "+q.Asks)
	}
	s.Allergens, s.Agency, s.Exemptions = allergensOf(l), agencyOf(l, m.Book), exemptionsOf(l)
	return s
}
