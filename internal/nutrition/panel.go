package nutrition

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Asked is what a panel is made of.
type Asked struct {
	Rules     Rules
	Food      Food
	Net       unit.Mass // of the pack
	Reference unit.Mass // reference amount (Reference.Weighs)
	Serving   Serving   // of a pack that holds several; a pack that is one serving is a serving of its own
	Container string    // what the pack is called: "container", "bag"; "": container
	Exempt    Exempt
	Simplify  bool // the simplified format, if it may be used
	// AddServing gives a pack that is one serving, and may have it, a column of Serving too.
	AddServing bool
	Voluntary  []Nutrient // further lines: the unsaturated fats, sugar alcohol
}

// Row is one line of a panel under the calories.
type Row struct {
	Nutrient Nutrient `json:"nutrient"`
	Name     string   `json:"name"`             // "Total Fat"; of added sugars with %s where the amount stands
	Italic   string   `json:"italic,omitempty"` // the part of the name that is set so
	Indent   int      `json:"indent"`
	Bold     bool     `json:"bold"`      // the name
	BarAbove bool     `json:"bar_above"` // a heavy bar rather than a hairline
	Cells    []Cell   `json:"cells"`
}

// Text is the line as it is read in one column: "Total Fat 5 g", "Includes 0 g Added Sugars".
func (r Row) Text(column int) string {
	amount := r.Cells[column].Amount
	if strings.Contains(r.Name, "%s") {
		return strings.Replace(r.Name, "%s", amount, 1)
	}
	return r.Name + " " + amount
}

// Open is a line that cannot be printed for what is missing.
type Open struct {
	Nutrient Nutrient `json:"nutrient"`
	Amount   Amount   `json:"amount"` // of the serving
}

// Panel is a nutrition panel as a value. Rows are in the order of the panel.
type Panel struct {
	Rules          Rules      `json:"rules"`
	Title          string     `json:"title"`
	Servings       Count      `json:"servings"`
	Serving        Serving    `json:"serving"`
	Container      Container  `json:"container"`
	Headings       []string   `json:"headings"` // of the columns of figures
	Calories       []Cell     `json:"calories"`
	Rows           []Row      `json:"rows"`
	NotSignificant string     `json:"not_significant,omitempty"` // "Not a significant source of …"; "" unless it is simplified
	Footnote       string     `json:"footnote"`
	Simplified     Simplified `json:"simplified"`
	Open           []Open     `json:"open,omitempty"`
	Confirm        []string   `json:"confirm,omitempty"` // what it rests on that is from memory
}

// Printable says whether every line is known well enough to be printed.
func (p Panel) Printable() bool { return len(p.Open) == 0 }

// layout is the panel of 21 CFR 101.9(c) and (d), 2016 rule, from memory but for the order of the nutrients that were there before.
var layout = []Row{
	{Nutrient: Fat, Name: "Total Fat", Bold: true},
	{Nutrient: SaturatedFat, Name: "Saturated Fat", Indent: 1},
	{Nutrient: TransFat, Name: "Trans Fat", Italic: "Trans", Indent: 1},
	{Nutrient: PolyunsaturatedFat, Name: "Polyunsaturated Fat", Indent: 1},
	{Nutrient: MonounsaturatedFat, Name: "Monounsaturated Fat", Indent: 1},
	{Nutrient: Cholesterol, Name: "Cholesterol", Bold: true},
	{Nutrient: Sodium, Name: "Sodium", Bold: true},
	{Nutrient: Carbohydrate, Name: "Total Carbohydrate", Bold: true},
	{Nutrient: Fibre, Name: "Dietary Fiber", Indent: 1},
	{Nutrient: Sugars, Name: "Total Sugars", Indent: 1},
	{Nutrient: AddedSugars, Name: "Includes %s Added Sugars", Indent: 2},
	{Nutrient: SugarAlcohol, Name: "Sugar Alcohol", Indent: 1},
	{Nutrient: Protein, Name: "Protein", Bold: true},
	{Nutrient: VitaminD, Name: "Vitamin D", BarAbove: true},
	{Nutrient: Calcium, Name: "Calcium"},
	{Nutrient: Iron, Name: "Iron"},
	{Nutrient: Potassium, Name: "Potassium"},
}

const (
	layoutConfirm = "the order of the lines since 2016, their names and the footnote are from memory"
	footnote      = "*The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 calories a day is used for general nutrition advice."
)

// PanelOf makes a panel of the layout of 2016. With the rules for meat and poultry it has their daily values and columns, but not the vitamins A
// and C and the calories from fat that their text of 2015 asks for: compositions here have no such vitamins. Errors are *InputError.
func PanelOf(a Asked) (Panel, error) {
	p := Panel{Rules: a.Rules, Title: "Nutrition Facts", Footnote: footnote, Confirm: []string{layoutConfirm}}
	if a.Rules != FDA && a.Rules != USDA {
		return p, &InputError{"a panel", "has no rules", "use those of FDA or of USDA"}
	}
	if a.Food.Mass <= 0 {
		return p, &InputError{"a panel", "has no food", "give what the pack holds"}
	}
	var err error
	if p.Container, err = a.Rules.Container(a.Net, a.Reference, a.Exempt); err != nil {
		return p, err
	}
	p.Serving = a.Serving
	if p.Container.Columns == OneServing || p.Container.Columns == OneServingMayAdd {
		p.Serving = Whole(a.Net, orContainer(a.Container))
		p.Servings = Count{Servings: 1, Actual: 1, Text: "1 serving per container"}
	} else if p.Servings, err = ServingsIn(a.Net, p.Serving); err != nil {
		return p, err
	}
	p.fill(a)
	return p, nil
}

func orContainer(word string) string {
	if word == "" {
		return "container"
	}
	return word
}

func (p *Panel) fill(a Asked) {
	columns := []Amounts{a.Food.In(p.Serving.Mass)}
	p.Headings = []string{"Per serving"}
	switch perContainer := "Per " + orContainer(a.Container); {
	case p.Container.Columns == PerContainer:
		columns = append(columns, a.Food.In(a.Net))
		p.Headings = append(p.Headings, perContainer)
	case p.Container.Columns == OneServingMayAdd && a.AddServing && a.Serving.Mass > 0:
		columns = []Amounts{a.Food.In(a.Serving.Mass), columns[0]}
		p.Headings = []string{"Per " + a.Serving.Text, perContainer}
	}
	p.Simplified = a.Rules.Simplified(columns[0])
	shorter := a.Simplify && p.Simplified.May
	p.Calories = p.cells(Energy, columns)
	var without []string
	for _, row := range layout {
		n := row.Nutrient
		if !slices.Contains(required, n) && !slices.Contains(a.Voluntary, n) {
			continue
		}
		if shorter && !core(n) && slices.Contains(p.Simplified.Insignificant, n) {
			without = append(without, plainName(row))
			continue
		}
		row.Cells = p.cells(n, columns)
		p.Rows = append(p.Rows, row)
	}
	if len(without) > 0 {
		p.NotSignificant = "Not a significant source of " + listed(without) + "."
		p.confirm(p.Simplified.Confirm)
	}
	p.confirm(p.Container.Confirm)
	p.confirm(p.Serving.Confirm)
}

// core are the lines that the simplified format keeps whatever they are, 21 CFR 101.9(f), from memory.
func core(n Nutrient) bool { return n == Fat || n == Carbohydrate || n == Protein || n == Sodium }

func plainName(r Row) string {
	if r.Nutrient == AddedSugars {
		return "added sugars"
	}
	if r.Nutrient == VitaminD {
		return "vitamin D"
	}
	return strings.ToLower(r.Name)
}

func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func (p *Panel) cells(n Nutrient, columns []Amounts) []Cell {
	var cells []Cell
	for _, a := range columns {
		amount := declaredOf(a, n)
		c := p.Rules.cell(n, amount)
		if c.Open && (len(p.Open) == 0 || p.Open[len(p.Open)-1].Nutrient != n) {
			p.Open = append(p.Open, Open{n, declaredOf(columns[0], n)})
		}
		for _, may := range Allowed(p.Rules.line(n), amount.Least) {
			p.confirmOf(n, may.Confirm)
		}
		cells = append(cells, c)
	}
	for _, v := range dailyValues {
		if v.Line == kinds[n].line {
			p.confirmOf(n, v.Confirm)
		}
	}
	return cells
}

func (p *Panel) confirmOf(n Nutrient, what string) {
	if what != "" {
		p.confirm(fmt.Sprintf("%v: %s", n, what))
	}
}

func (p *Panel) confirm(what string) {
	if what != "" && !slices.Contains(p.Confirm, what) {
		p.Confirm = append(p.Confirm, what)
	}
}
