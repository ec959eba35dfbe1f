package labelmaker

import (
	"iter"
	"strings"

	"kettlefrost/internal/barcode"
)

// Content is what a label says. Whatever is empty is not on it. Texts may have any spaces and line breaks; they are set as single spaces.
type Content struct {
	Name        string   // what the kitchen calls the product
	Identity    string   // the statement of identity, or name of the food
	Keep        string   // "Keep frozen"
	Net         []string // the net quantity, line by line
	Panel       *Panel
	Ingredients []Run // the ingredient statement, with its heading
	Contains    []Run // the line of allergens
	Firm        []string
	Heating     []string // paragraphs
	Cautions    []string
	Dates       []Fact
	Lot         Fact
	Bars        *barcode.Symbol // a linear symbol; its Readable stands below it
	Square      *barcode.Symbol // a QR symbol
	SquareSays  string          // what whoever scans it finds
}

// Run is a stretch of text; a strong one is emphasised.
type Run struct {
	Text   string
	Strong bool
}

// Plain is text without emphasis.
func Plain(text string) []Run { return []Run{{Text: text}} }

// Fact is a name with what it is: {"Best before", "2027-05-31"}.
type Fact struct{ Name, Is string }

// Panel is a nutrition panel as it is read.
type Panel struct {
	Title          string
	Servings       string   // "about 3 servings per container"
	Serving        Fact     // {"Serving size", "1 cup (245 g)"}
	Heads          []string // of the columns of figures; a single column may have none
	Amount         string   // "Amount per serving": above the calories; not said where there are several columns, which have heads
	Calories       Line     // its amounts stand large; without a name there is none
	PercentHead    string   // "% Daily Value*"
	PercentOf      string   // "DV": behind a percentage in lines of text
	Lines          []Line
	NotSignificant string
	Footnote       string
	Linear         bool // one line after another as text, as small packs may have it
}

// Line is one line of a panel.
type Line struct {
	Name     string // with %s where the amount stands within it
	Strong   bool
	Indent   int
	Bar      bool     // a heavy bar above it
	Amounts  []string // column by column
	Percents []string // of the daily value, column by column; empty for none
}

// within says whether the amount stands in the name.
func (l Line) within() bool { return strings.Contains(l.Name, "%s") }

// label is the name with its amount in it, if that is where it stands.
func (l Line) label() string {
	if l.within() {
		return strings.Replace(l.Name, "%s", l.amount(0), 1)
	}
	return l.Name
}

// columns is how many columns of figures there are.
func (p Panel) columns() int {
	n := max(1, len(p.Heads), len(p.Calories.Amounts))
	for _, l := range p.Lines {
		n = max(n, len(l.Amounts), len(l.Percents))
	}
	return n
}

func (l Line) amount(column int) string  { return at(l.Amounts, column) }
func (l Line) percent(column int) string { return at(l.Percents, column) }

func at(all []string, i int) string {
	if i < len(all) {
		return all[i]
	}
	return ""
}

// said is one text of a content and which element it is.
type said struct {
	element Element
	text    string
}

// texts are all words of a content, in the order in which they are read.
func (c Content) texts() iter.Seq[said] {
	return func(yield func(said) bool) {
		all := []said{{ProductName, c.Name}, {Identity, c.Identity}, {KeepFrozen, c.Keep}}
		add := func(e Element, texts ...string) {
			for _, text := range texts {
				all = append(all, said{e, text})
			}
		}
		add(NetQuantity, c.Net...)
		if c.Panel != nil {
			all = append(all, c.Panel.texts()...)
		}
		add(Ingredients, joined(c.Ingredients))
		add(Contains, joined(c.Contains))
		add(Firm, c.Firm...)
		add(Heating, c.Heating...)
		add(Caution, c.Cautions...)
		for _, d := range c.Dates {
			add(Dates, d.Name, d.Is)
		}
		add(Lot, c.Lot.Name, c.Lot.Is)
		if c.Bars != nil {
			add(BarText, c.Bars.Readable)
		}
		add(SquareText, c.SquareSays)
		for _, s := range all {
			if strings.TrimSpace(s.text) != "" && !yield(s) {
				return
			}
		}
	}
}

// says whether there is anything in it.
func (p Panel) says() bool {
	p.Linear = false
	for _, s := range p.texts() {
		if strings.TrimSpace(s.text) != "" {
			return true
		}
	}
	return false
}

func (p Panel) texts() []said {
	if p.Linear {
		if !p.says() {
			return nil
		}
		return []said{{PanelText, joined(p.runs())}}
	}
	all := []said{{PanelTitle, p.Title}, {PanelServings, p.Servings}, {PanelServing, p.Serving.Name}, {PanelServing, p.Serving.Is}}
	if p.columns() == 1 {
		all = append(all, said{PanelSmall, p.Amount})
	}
	for _, h := range p.Heads {
		all = append(all, said{PanelSmall, h})
	}
	if p.Calories.Name != "" {
		all = append(all, said{PanelCalories, p.Calories.Name})
		for _, a := range p.Calories.Amounts {
			all = append(all, said{PanelFigure, a})
		}
	}
	for range p.columns() {
		all = append(all, said{PanelSmall, p.PercentHead})
	}
	for _, l := range p.Lines {
		all = append(all, said{PanelLine, l.label()})
		for i := range max(len(l.Amounts), len(l.Percents)) {
			if !l.within() || i > 0 {
				all = append(all, said{PanelLine, l.amount(i)})
			}
			all = append(all, said{PanelLine, l.percent(i)})
		}
	}
	return append(all, said{PanelNote, p.NotSignificant}, said{PanelNote, p.Footnote})
}

func joined(runs []Run) string {
	var out strings.Builder
	for _, r := range runs {
		out.WriteString(r.Text)
	}
	return out.String()
}
