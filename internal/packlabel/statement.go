package packlabel

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// statement writes the list of ingredients from what was put in, and what must be answered before it may be printed.
func (m *maker) statement() {
	lines := m.inside.Declared(m.Book)
	style := m.Style
	if !m.us() {
		lines, style.FunctionFirst = m.waterLeft(lines), true
	}
	if style.Whole == 0 {
		style.Whole = min(sum(lines), m.inside.Filled)
	}
	s, err := statement.WriteAs(lines, style)
	if err != nil {
		m.undeclared(err)
		return
	}
	m.out.Statement = s
	m.unanswered(s.Missing)
	for _, tie := range s.Close {
		m.advise(finding.Finding{Code: CodeNearTie, Severity: finding.Note, Where: "ingredients", Message: fmt.Sprintf("%s and %s weigh nearly the same: how they were weighed decides which stands first", tie.First, tie.Second),
			Figures: []finding.Figure{{Name: "apart", Value: tie.By.Kg() * 1000, Unit: "g", Text: tie.By.Fine()}}, Source: "21 CFR 101.4(a)(1) (read)", Fix: "look at what was weighed"})
	}
	for _, name := range s.Unmerged {
		m.advise(finding.Finding{Code: CodeTwice, Severity: finding.Note, Where: "ingredients", Message: name + " stands in the list more than once, with different parts or functions", Fix: "give them names of their own, or the same parts"})
	}
	for _, name := range s.Nested {
		m.advise(finding.Finding{Code: CodeNested, Severity: finding.Note, Where: "ingredients", Message: name + " stays with its parts in brackets: their shares are not known", Source: "21 CFR 101.4(b)(2) (read)",
			Fix: "ask its supplier for the shares"})
	}
	m.contradicted()
	m.hidden()
	m.preserved()
	if !m.us() {
		m.annex2()
	}
}

// undeclared tells every line of the list that makes no sense, each where the book has it.
func (m *maker) undeclared(err error) {
	if all, are := err.(interface{ Unwrap() []error }); are {
		for _, one := range all.Unwrap() {
			m.undeclared(one)
		}
		return
	}
	f := finding.Finding{Code: CodeStatement, Severity: finding.Stop, Where: m.where(), Path: "ingredients", Message: "its ingredients cannot be declared: " + err.Error(), Fix: "correct the name of the ingredient, or the style of the list"}
	if bad, is := errors.AsType[*statement.LineError](err); is {
		f.Where, f.Path = m.line(bad.Path)
	}
	if bad, is := errors.AsType[*statement.AllergenError](err); is {
		f.Where, f.Path = m.line(bad.Path)
		f.Fix = bad.Err.Hint()
	}
	m.ask(f)
}

// line is where the book has a line of the list.
func (m *maker) line(path []string) (where, at string) {
	for _, h := range m.inside.Held {
		if m.declared(h.Of) == path[0] {
			return "ingredient " + string(h.Of), "ingredients." + string(h.Of)
		}
	}
	return m.where(), "ingredients"
}

// declared is what an ingredient is called in the list.
func (m *maker) declared(id kitchen.IngredientID) string {
	ing := m.Book.Ingredients[id]
	return tidy(cmp.Or(ing.Label, ing.Name))
}

// tidy is a name as the list has it, without spaces around it or doubled within.
func tidy(name string) string { return strings.Join(strings.Fields(name), " ") }

func sum(lines []statement.Line) (all unit.Mass) {
	for _, l := range lines {
		all += l.Mass
	}
	return all
}

// unanswered stops the label for every allergen question that is open.
func (m *maker) unanswered(missing []statement.Missing) {
	for _, x := range missing {
		id, path := m.placeOf(x.Path)
		m.ask(finding.Finding{Code: CodeAllergens, Severity: finding.Stop, Where: "ingredient " + string(id), Path: path, Message: "nobody has answered which major allergens are in " + x.String(),
			Source: "21 U.S.C. 343(w) (read): a food that contains a major allergen must say so", Fix: "read the supplier's label and answer allergens: none, or their names"})
	}
}

// placeOf is where the book has an ingredient of the list, or a part of one.
func (m *maker) placeOf(path []string) (kitchen.IngredientID, string) {
	for _, h := range m.inside.Held {
		ing := m.Book.Ingredients[h.Of]
		if m.declared(h.Of) != path[0] {
			continue
		}
		at := "ingredients." + string(h.Of)
		if len(path) == 1 {
			if ing.Allergens.Answered {
				continue // another of the same name
			}
			return h.Of, at + ".allergens"
		}
		if i := slices.IndexFunc(ing.Contains, func(s kitchen.SubIngredient) bool { return s.Name == path[1] && !s.Allergens.Answered }); i >= 0 {
			return h.Of, fmt.Sprintf("%s.contains[%d].allergens", at, i)
		}
	}
	return "", "ingredients"
}

// notSpices may not stand behind a collective name, 21 CFR 101.22(a)(2) and (h) (read): they are named each.
var notSpices = []string{"onion", "garlic", "celery", "salt", "glutamate", "hydrolyzed", "hydrolysate"}

// colours are named, or called spice and coloring (read).
var colours = []string{"paprika", "turmeric", "saffron"}

// hidden finds ingredients that are called spice or flavoring and may not be.
func (m *maker) hidden() {
	for _, h := range m.inside.Held {
		ing := m.Book.Ingredients[h.Of]
		label := strings.ToLower(ing.Label)
		if !strings.HasPrefix(label, "spice") && !strings.HasSuffix(label, "flavor") && !strings.HasSuffix(label, "flavoring") {
			continue
		}
		in := func(w string) bool { return strings.Contains(strings.ToLower(ing.Name), w) }
		if slices.ContainsFunc(notSpices, in) || slices.ContainsFunc(colours, in) && !strings.Contains(label, "color") {
			m.ask(finding.Finding{Code: CodeNotSpice, Severity: finding.Stop, Where: "ingredient " + string(h.Of), Path: "ingredients." + string(h.Of) + ".label",
				Message: fmt.Sprintf("%s may not be declared as %s", ing.Name, ing.Label), Source: "21 CFR 101.22(a)(2) and (h) (read)", Fix: "name it; paprika, turmeric and saffron may be spice and coloring"})
		}
	}
}

// preservatives are chemical ones that kitchens meet; common practice, no list of the rule's.
var preservatives = []string{"benzoate", "sorbate", "propionate", "nitrite", "nitrate", "sulfite", "bisulfite", "bha", "bht", "tbhq", "edta"}

// preserved tells of preservatives that are declared without saying that they are.
func (m *maker) preserved() {
	for _, h := range m.inside.Held {
		ing := m.Book.Ingredients[h.Of]
		names := []string{m.declared(h.Of)}
		if ing.Function != "" {
			names = nil
		}
		for _, sub := range ing.Contains {
			names = append(names, sub.Name)
		}
		for _, name := range names {
			words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) })
			is := func(w string) bool { return slices.Contains(preservatives, strings.TrimSuffix(w, "s")) }
			if slices.ContainsFunc(words, is) && !strings.Contains(strings.ToLower(name), "preserv") {
				m.advise(finding.Finding{Code: CodeFunction, Severity: finding.Caution, Where: "ingredient " + string(h.Of), Path: "ingredients." + string(h.Of), Message: name + " preserves, and the list does not say so",
					Source: "21 CFR 101.22(j) (from memory): a chemical preservative is named with its function", Fix: "write function: preservative, or for a part what its supplier's label says, such as sodium nitrite (preservative)"})
			}
		}
	}
}

// isWater says whether an ingredient is water that is added.
func (m *maker) isWater(id kitchen.IngredientID) bool {
	c, _ := m.composition(id)
	return m.Book.Ingredients[id].Class == "water" || of(c, nutrition.Water) > 0.995
}

// listed is the list of ingredients as it is read. Names of ingredients stay as the book has them.
func (m *maker) listed(in language.Speaker) []labelmaker.Run {
	s := m.out.Statement
	ordered := len(s.Items) - s.AtEnd
	runs := m.items(in, in.Say("Ingredients:")+" ", s.Items[:ordered])
	if s.AtEnd > 0 {
		runs = append(runs, m.items(in, " "+in.Say("Contains %s %% or less of:", in.Number(100*m.Style.Last.F(), 1))+" ", s.Items[ordered:])...)
	}
	return runs
}

func (m *maker) items(in language.Speaker, heading string, items []statement.Item) []labelmaker.Run {
	runs := labelmaker.Plain(heading)
	for i, item := range items {
		if i > 0 {
			runs = append(runs, labelmaker.Run{Text: ", "})
		}
		runs = append(runs, m.item(in, item)...)
	}
	return append(runs, labelmaker.Run{Text: "."})
}

// contains is the line of major allergens, which only the United States have.
func (m *maker) contains(in language.Speaker) []labelmaker.Run {
	found := m.out.Statement.Found
	if !m.us() || len(found) == 0 {
		return nil
	}
	var names []string
	for _, f := range found {
		name := in.Say(f.Allergen)
		if len(f.Species) > 0 {
			name += " (" + strings.Join(f.Species, ", ") + ")"
		}
		names = append(names, name)
	}
	return labelmaker.Plain(in.Say("Contains: %s.", strings.Join(names, ", ")))
}
