package app

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
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

// StockOf is labels as a value for programs.
func StockOf(s labelmaker.Stock) LabelStock {
	out := LabelStock{Name: s.Name, WideMm: s.WideMm, HighMm: s.HighMm, Sheet: s.Sheet != nil, Per: s.Per(), Columns: 1, Rows: 1, DPI: s.DPI, Source: s.Source, Confirm: s.Confirm}
	if s.Sheet != nil {
		out.Columns, out.Rows = s.Sheet.Columns, s.Sheet.Rows
	}
	return out
}

func netOf(l packlabel.Label) LabelNet {
	n := LabelNet{Says: l.Net.Text, Declared: l.Net.Declared, Filled: l.Food.Mass, Source: l.Net.Source}
	if us, err := netdeclare.US(l.Mass, netdeclare.Style{}); err == nil {
		n.US = us.Text
	}
	if eu, err := netdeclare.EU(l.Mass, 1, false); err == nil {
		n.EU = eu.Text
	}
	return n
}

// servingOf is one serving: of the panel, the portion of the declaration, or the pack.
func servingOf(l packlabel.Label) (string, unit.Mass) {
	if l.Panel != nil && l.Panel.Serving.Mass > 0 {
		return l.Panel.Serving.Text, l.Panel.Serving.Mass
	}
	return "the whole pack", l.Mass
}

// onPanel is what a panel prints of a nutrient, and its percentage.
func onPanel(l packlabel.Label, n nutrition.Nutrient) (amount, percent string) {
	rows := []nutrition.Row{}
	switch {
	case l.EUPanel != nil:
		rows = l.EUPanel.Rows
	case l.Panel == nil || l.NoPanel:
		return "", ""
	case n == nutrition.Energy && len(l.Panel.Calories) > 0:
		return l.Panel.Calories[0].Amount, ""
	default:
		rows = l.Panel.Rows
	}
	i := slices.IndexFunc(rows, func(r nutrition.Row) bool { return r.Nutrient == n && len(r.Cells) > 0 })
	if i < 0 {
		return "", ""
	}
	return rows[i].Cells[0].Amount, rows[i].Cells[0].Percent
}

func nutrients(l packlabel.Label, serving unit.Mass) []LabelNutrient {
	all := []LabelNutrient{}
	if l.Food.Mass <= 0 {
		return all
	}
	per, hundred, pack := l.Food.In(serving), l.Food.Per100g(), l.PerPack()
	per[nutrition.Energy], hundred[nutrition.Energy], pack[nutrition.Energy] = per.GeneralEnergy(), hundred.GeneralEnergy(), pack.GeneralEnergy()
	for _, n := range append([]nutrition.Nutrient{nutrition.Energy}, slices.DeleteFunc(nutrition.Required(), func(n nutrition.Nutrient) bool { return n == nutrition.Energy })...) {
		row := LabelNutrient{Name: n.String(), Serving: amountText(per[n], n.Unit()), Hundred: amountText(hundred[n], n.Unit()), Pack: amountText(pack[n], n.Unit()), Missing: []string{}}
		_, row.Known = hundred[n].Get()
		row.Printed, row.Percent = onPanel(l, n)
		for _, g := range hundred[n].Missing {
			row.Missing = append(row.Missing, g.Part)
		}
		all = append(all, row)
	}
	return all
}

// amountText is an amount in words.
func amountText(a nutrition.Amount, in string) string {
	if x, whole := a.Get(); whole {
		return figureText(x) + " " + in
	}
	if most, bounded := a.Most.Get(); bounded {
		return fmt.Sprintf("%s to %s %s, not known better", figureText(a.Least), figureText(most), in)
	}
	if a.Least > 0 {
		return fmt.Sprintf("at least %s %s", figureText(a.Least), in)
	}
	return "not known"
}

// figureText is a figure with three digits, and none that mean nothing.
func figureText(x float64) string {
	switch {
	case x == 0:
		return "0"
	case x < 0.005:
		return "below 0.005"
	case x >= 100:
		return fmt.Sprintf("%.0f", x)
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.*f", 2-min(1, int(x/10)), x), "0"), ".")
}

func energyOf(w nutrition.EnergyWays) LabelEnergy {
	e := LabelEnergy{Factors: amountText(w.General, "kcal"), Table: amountText(w.Table, "kcal"), Known: w.Known, Off: w.OffShare}
	if !w.Known {
		e.Says = "the two cannot be compared while something is missing"
		return e
	}
	e.Says = fmt.Sprintf("the factors give %s kcal %s than the table, %.0f %%; the label has the factors", figureText(max(w.OffKcal, -w.OffKcal)), map[bool]string{true: "more", false: "less"}[w.OffKcal >= 0], 100*max(w.OffShare, -w.OffShare))
	return e
}

func allergensOf(l packlabel.Label) []LabelAllergen {
	all := []LabelAllergen{}
	for _, f := range l.Statement.Found {
		name := f.Allergen
		if len(f.Species) > 0 {
			name += " (" + strings.Join(f.Species, ", ") + ")"
		}
		all = append(all, LabelAllergen{name, f.From})
	}
	for _, f := range l.EUList.Found {
		all = append(all, LabelAllergen{"annex II: " + f.Name(), f.From})
	}
	return all
}

func agencyOf(l packlabel.Label, book kitchen.Book) LabelAgency {
	a := LabelAgency{Agriculture: l.Agency.Agriculture, Why: append([]string{}, l.Agency.Why...), Answer: book.Kitchen.Labels.Inspected, Source: l.Agency.Source, Confirm: l.Agency.Confirm,
		Asks: "It most likely falls to the Food and Drug Administration. Does the state or county license the kitchen for it?"}
	if a.Agriculture {
		a.Asks = "It most likely falls to the Department of Agriculture, which inspects what has much meat or poultry in it. Is it made under inspection, or is the kitchen exempt? Ask the state's meat inspection office before you sell it."
	}
	if l.Regime == kitchen.EULabels {
		a.Asks = "Is the kitchen registered, or approved where it handles food of animal origin for others? Ask the local food authority."
	}
	return a
}

func exemptionsOf(l packlabel.Label) []LabelExemption {
	all := []LabelExemption{}
	for _, e := range l.Exemptions {
		all = append(all, LabelExemption{e.Code, e.May, e.Notice, e.Why, e.Source})
	}
	return all
}

// waysOut tries what would make a label fit; none when it fits or something else stops it.
func waysOut(l packlabel.Label) []LabelWay {
	if l.Hash == "" || !slices.ContainsFunc(l.Open, func(f finding.Finding) bool { return f.Code == labelmaker.CodeDoesNotFit }) {
		return nil
	}
	var all []LabelWay
	for _, w := range labelmaker.Ways(l.Content, l.Stock, l.Rules) {
		all = append(all, LabelWay{w.Says, w.Does, w.Second != nil})
	}
	return all
}
