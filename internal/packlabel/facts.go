package packlabel

import (
	"strconv"
	"strings"

	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/nutrition"
)

// percent is said as a figure: alone in a sentence it would be taken for the place of one.
const percent = "%"

// facts is the nutrition panel as it is read in a language; nil where none is printed.
func (m *maker) facts(in language.Speaker) *labelmaker.Panel {
	switch {
	case m.out.EUPanel != nil && m.out.EUPanel.Printable():
		return euFacts(in, *m.out.EUPanel)
	case m.out.Panel == nil || m.out.NoPanel || !m.out.Panel.Printable():
		return nil
	}
	p := *m.out.Panel
	f := &labelmaker.Panel{Title: in.Say("Nutrition Facts"), Servings: servings(in, p.Servings), Serving: labelmaker.Fact{Name: in.Say("Serving size"), Is: household(in, p.Serving.Text)},
		Amount: in.Say("Amount per serving"), PercentHead: in.Say("%s Daily Value*", percent), Footnote: in.Say(strings.Replace(p.Footnote, percent, "%s", 1), percent)}
	f.Calories = labelmaker.Line{Name: in.Say("Calories")}
	for _, c := range p.Calories {
		f.Calories.Amounts = append(f.Calories.Amounts, in.Measure(c.Amount))
	}
	if len(p.Headings) > 1 {
		for _, h := range p.Headings {
			f.Heads = append(f.Heads, heading(in, h))
		}
	}
	var without []string
	for _, row := range p.Rows {
		f.Lines = append(f.Lines, line(in, row))
	}
	if p.NotSignificant != "" {
		for _, n := range p.Simplified.Insignificant {
			if !shown(p, n) {
				without = append(without, in.Say(n.String()))
			}
		}
		f.NotSignificant = in.Say("Not a significant source of %s.", strings.Join(without, ", "))
	}
	return f
}

// shown says whether a panel has a line for a nutrient.
func shown(p nutrition.Panel, n nutrition.Nutrient) bool {
	for _, row := range p.Rows {
		if row.Nutrient == n {
			return true
		}
	}
	return n == nutrition.Energy
}

func line(in language.Speaker, row nutrition.Row) labelmaker.Line {
	l := labelmaker.Line{Name: in.Say(row.Name), Strong: row.Bold, Indent: row.Indent, Bar: row.BarAbove}
	for _, c := range row.Cells {
		l.Amounts = append(l.Amounts, amount(in, c.Amount))
		l.Percents = append(l.Percents, in.Measure(c.Percent))
	}
	return l
}

// amount is what is printed of an amount: "4.5 g", "less than 1 g".
func amount(in language.Speaker, text string) string {
	if of, is := strings.CutPrefix(text, "less than "); is {
		return in.Say("less than %s", in.Measure(of))
	}
	return in.Measure(text)
}

// heading is that of a column: "Per serving", "Per container", or the serving itself.
func heading(in language.Speaker, text string) string {
	if text == "Per serving" || text == "Per container" {
		return in.Say(text)
	}
	return in.Say("Per %s", household(in, strings.TrimPrefix(text, "Per ")))
}

// household is a serving: "1 cup (245 g)", "2 pieces (170 g)".
func household(in language.Speaker, text string) string {
	words := strings.Split(text, " ")
	for i, w := range words {
		if language.Knows(w) {
			words[i] = in.Say(w)
		}
	}
	return in.Measure(strings.Join(words, " "))
}

func servings(in language.Speaker, c nutrition.Count) string {
	number := in.Number(c.Servings, 1)
	switch {
	case c.Servings == 1 && !c.About:
		return in.Say("%s serving per container", number)
	case c.Servings == 1:
		return in.Say("about %s serving per container", number)
	case c.About:
		return in.Say("about %s servings per container", number)
	}
	return in.Say("%s servings per container", number)
}

// euFacts is the declaration of the European Union.
func euFacts(in language.Speaker, d nutrition.EUDeclaration) *labelmaker.Panel {
	f := &labelmaker.Panel{Title: in.Say("Nutrition declaration")}
	for _, h := range d.Headings {
		if of, is := strings.CutPrefix(h, "Per portion of "); is {
			h = in.Say("Per portion of %s", in.Measure(of))
		}
		f.Heads = append(f.Heads, in.Say(h))
	}
	for _, row := range d.Rows {
		f.Lines = append(f.Lines, line(in, row))
	}
	for _, s := range d.Statements {
		f.Footnote = strings.TrimSpace(f.Footnote + " " + portions(in, s))
	}
	return f
}

// portions is a statement below the declaration: how many portions there are, or one of the others.
func portions(in language.Speaker, says string) string {
	of, is := strings.CutPrefix(says, "The pack contains ")
	n, _, _ := strings.Cut(of, " ")
	if count, err := strconv.Atoi(n); is && err == nil {
		return in.Plural(int64(count), "The pack contains %s portion.", "The pack contains %s portions.")
	}
	return in.Say(says)
}
