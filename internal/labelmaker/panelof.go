package labelmaker

import (
	"fmt"
	"strings"

	"kettlefrost/internal/nutrition"
)

// PanelError says which lines of a panel are open, so that it is not printed.
type PanelError struct{ Open []string }

func (e *PanelError) Error() string {
	return fmt.Sprintf("labelmaker: the panel is not printed while it is open what it says of %s; give the composition of what lacks it", strings.Join(e.Open, ", "))
}

// PanelOf is a panel as it is printed. The error is a *PanelError for one with lines that what is missing decides.
func PanelOf(p nutrition.Panel) (*Panel, error) {
	if err := closed(p.Open); err != nil {
		return nil, err
	}
	out := &Panel{Title: p.Title, Servings: p.Servings.Text, Serving: Fact{"Serving size", p.Serving.Text}, Amount: "Amount per serving",
		Calories: Line{Name: "Calories"}, PercentHead: "% Daily Value*", PercentOf: "DV", Lines: linesOf(p.Rows), NotSignificant: p.NotSignificant, Footnote: p.Footnote}
	if len(p.Headings) > 1 {
		out.Heads = p.Headings
	}
	for _, c := range p.Calories {
		out.Calories.Amounts = append(out.Calories.Amounts, c.Amount)
	}
	for _, l := range out.Lines {
		for i := range l.Percents {
			l.Percents[i] = strings.ReplaceAll(l.Percents[i], " %", "%") // as it is written in the United States
		}
	}
	return out, nil
}

// DeclarationOf is a declaration of the European Union as it is printed, under a title. The error is a *PanelError.
func DeclarationOf(d nutrition.EUDeclaration, title string) (*Panel, error) {
	if err := closed(d.Open); err != nil {
		return nil, err
	}
	return &Panel{Title: title, Heads: d.Headings, Lines: linesOf(d.Rows), Footnote: strings.Join(d.Statements, " ")}, nil
}

func closed(open []nutrition.Open) error {
	if len(open) == 0 {
		return nil
	}
	e := &PanelError{}
	for _, o := range open {
		e.Open = append(e.Open, o.Nutrient.String())
	}
	return e
}

func linesOf(rows []nutrition.Row) []Line {
	var all []Line
	for _, r := range rows {
		l := Line{Name: r.Name, Strong: r.Bold, Indent: r.Indent, Bar: r.BarAbove}
		for _, c := range r.Cells {
			l.Amounts, l.Percents = append(l.Amounts, c.Amount), append(l.Percents, c.Percent)
		}
		all = append(all, l)
	}
	return all
}
