package packlabel

import (
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/nutrition"
)

// percent is said as a figure: alone in a sentence it would be taken for the place of one.
const percent = "%"

// figured is a panel with the figure in place of words ("1 g" for "less than 1 g") wherever the rules allow both: it is narrower.
func figured(p nutrition.Panel) nutrition.Panel {
	p.Rows = slices.Clone(p.Rows)
	for i := range p.Rows {
		p.Rows[i].Cells = slices.Clone(p.Rows[i].Cells)
		for k, c := range p.Rows[i].Cells {
			if at := slices.IndexFunc(c.Or, func(o nutrition.Print) bool { return !o.Less }); at >= 0 && strings.HasPrefix(c.Amount, lessThan) {
				p.Rows[i].Cells[k].Amount = c.Or[at].Text
			}
		}
	}
	return p
}

// lessThan is what an amount begins with that is said in words.
const lessThan = "less than "

// facts is the nutrition panel as it is read in a language; nil where none is printed.
func (m *maker) facts(in language.Speaker) *labelmaker.Panel {
	var f *labelmaker.Panel
	var err error
	p := m.out.Panel
	if p != nil && m.figures {
		narrow := figured(*p)
		p = &narrow
	}
	switch {
	case m.out.EUPanel != nil:
		if f, err = labelmaker.DeclarationOf(*m.out.EUPanel, in.Say("Nutrition declaration")); err == nil {
			f.Footnote = statements(in, m.out.EUPanel.Statements)
		}
	case p == nil || m.out.NoPanel:
		return nil
	default:
		if f, err = labelmaker.PanelOf(*p); err == nil {
			f.Title, f.Servings, f.Serving = in.Say("Nutrition Facts"), servings(in, p.Servings), labelmaker.Fact{Name: in.Say("Serving size"), Is: household(in, p.Serving.Text)}
			f.Amount, f.PercentHead, f.PercentOf = in.Say("Amount per serving"), in.Say("%s Daily Value*", percent), in.Say("DV")
			f.Calories.Name, f.Footnote, f.NotSignificant = in.Say("Calories"), in.Say(strings.Replace(p.Footnote, percent, "%s", 1), percent), notSignificant(in, *p)
		}
	}
	if err != nil {
		return nil // what is open was asked
	}
	for i, h := range f.Heads {
		f.Heads[i] = heading(in, h)
	}
	for i := range f.Lines {
		say(in, &f.Lines[i])
	}
	say(in, &f.Calories)
	return f
}

// say puts a line into a language.
func say(in language.Speaker, l *labelmaker.Line) {
	l.Name = in.Say(l.Name)
	for i, a := range l.Amounts {
		l.Amounts[i] = amount(in, a)
	}
	for i, p := range l.Percents {
		l.Percents[i] = in.Measure(p)
	}
}

func notSignificant(in language.Speaker, p nutrition.Panel) string {
	if p.NotSignificant == "" {
		return ""
	}
	var without []string
	for _, n := range p.Simplified.Insignificant {
		if !shown(p, n) {
			without = append(without, in.Say(n.String()))
		}
	}
	return in.Say("Not a significant source of %s.", strings.Join(without, ", "))
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

// amount is what is printed of an amount: "4.5 g", "less than 1 g".
func amount(in language.Speaker, text string) string {
	if of, is := strings.CutPrefix(text, lessThan); is {
		return in.Say("less than %s", in.Measure(of))
	}
	return in.Measure(text)
}

// heading is that of a column: "Per serving", "Per container", "Per 100 g", a portion, or the serving itself.
func heading(in language.Speaker, text string) string {
	if of, is := strings.CutPrefix(text, "Per portion of "); is {
		return in.Say("Per portion of %s", in.Measure(of))
	}
	if language.Knows(text) {
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

// statements stand below the declaration of the European Union.
func statements(in language.Speaker, all []string) string {
	var said []string
	for _, s := range all {
		said = append(said, portions(in, s))
	}
	return strings.Join(said, " ")
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
