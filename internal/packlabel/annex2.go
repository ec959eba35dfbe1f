package packlabel

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// waterLeft is the lines for the European Union: of added water what is in the finished food.
func (m *maker) waterLeft(lines []statement.Line) []statement.Line {
	water := map[string]bool{}
	for _, h := range m.inside.Held {
		if m.isWater(h.Of) {
			water[m.declared(h.Of)] = true
		}
	}
	var items []labelrule.Item
	var kept []statement.Line
	var first *statement.Line
	for i, l := range lines {
		items = append(items, labelrule.Item{Name: l.Name, Mass: l.Mass, Water: water[tidy(l.Name)]})
		if !water[tidy(l.Name)] {
			kept = append(kept, l)
		} else if first == nil {
			first = &lines[i]
		}
	}
	if _, still, _ := labelrule.OrderEU(items, m.inside.Filled); first != nil && still > 0 {
		left := *first
		left.Mass = still
		kept = append(kept, left)
	}
	return kept
}

// annex2 is the fourteen allergens of the European Union, and whose share must be told.
func (m *maker) annex2() {
	var parts []labelrule.EUPart
	for _, h := range m.inside.Held {
		parts = append(parts, m.part(h.Of))
		m.beyondTheNine(h.Of)
	}
	ans, err := labelrule.EUAllergensOf(parts)
	if err != nil {
		return // told for the ingredient
	}
	m.out.EUList = ans
	var items []labelrule.Item
	for _, h := range m.inside.Held {
		ing := m.Book.Ingredients[h.Of]
		items = append(items, labelrule.Item{Name: m.declared(h.Of), Mass: unit.MassKg(h.PutIn), Water: m.isWater(h.Of), Flavouring: ing.Role == "herb-or-spice"})
	}
	m.out.Quids = labelrule.Quids(m.out.Name, items, m.inside.Filled)
	if len(m.out.Quids) > 0 {
		m.advise(finding.Finding{Code: CodeStatement, Severity: finding.Note, Where: "ingredients", Message: "shares are told of what the name of the food says; what characterises it otherwise, or is stressed by a picture, must be told too",
			Source: labelrule.QuidSource, Fix: "look whether the list tells the share of all of them"})
	}
}

// beyondTheNine asks what nobody has answered of an ingredient.
func (m *maker) beyondTheNine(id kitchen.IngredientID) {
	f := finding.Finding{Code: CodeAllergens, Severity: finding.Stop, Where: "ingredient " + string(id), Path: "ingredients." + string(id) + ".eu-allergens", Source: "Regulation (EU) 1169/2011, annex II (quoted)",
		Fix: "read the supplier's label or ask, and write eu-allergens: with what is in it beyond the nine of the United States, or none"}
	ans, err := labelrule.EUAllergensOf([]labelrule.EUPart{m.part(id)})
	if err != nil {
		f.Message, f.Fix = err.Error(), "correct the answer"
		m.ask(f)
		return
	}
	for _, q := range ans.Questions {
		f.Message, f.Source = "of "+q.Part+" nobody has answered "+q.Asks, q.Source
		m.ask(f)
	}
}

// part is an ingredient with what was answered of it. Who looked at one beyond the nine has looked at its parts.
func (m *maker) part(id kitchen.IngredientID) labelrule.EUPart {
	ing, beyond := m.Book.Ingredients[id], m.Beyond[id]
	if !beyond.Answered {
		beyond = ing.Annex
	}
	p := labelrule.EUPart{Name: m.declared(id), Major: append([]string(nil), ing.Allergens.Names...), Known: ing.Allergens.Answered, More: beyond.Names, Asked: beyond.Answered}
	var names []string
	for _, sub := range ing.Contains {
		names = append(names, sub.Name)
		p.Major = append(p.Major, sub.Allergens.Names...)
		p.Known = p.Known && sub.Allergens.Answered
	}
	if len(names) > 0 && !p.Asked {
		p.Name += " (" + strings.Join(names, ", ") + ")" // so that a word among the parts is asked about too
	}
	return p
}

// item is one ingredient as it stands in the list: for the European Union with its share where that must be told, and its allergens set off.
func (m *maker) item(in language.Speaker, item statement.Item) []labelmaker.Run {
	if m.us() {
		return labelmaker.Plain(item.Text)
	}
	text := item.Text
	for _, q := range m.out.Quids {
		if strings.EqualFold(q.Name, item.Name) {
			text = withShare(text, item.Name, shareSaid(in, q))
		}
	}
	return setOff(in, text, m.foundIn(item.Name))
}

// shareSaid is the share of an ingredient: "12 %", or how much of it 100 g were made with.
func shareSaid(in language.Speaker, q labelrule.Quid) string {
	if strings.HasPrefix(q.Text, "prepared with ") {
		return in.Say("prepared with %s g of %s per 100 g", in.Number(math.Round(100*q.Share), 0), q.Name)
	}
	return in.Measure(q.Text)
}

// withShare puts a share behind the name of an ingredient and before its parts.
func withShare(text, name, share string) string {
	if i := strings.Index(text, name); i >= 0 {
		return text[:i+len(name)] + " (" + share + ")" + text[i+len(name):]
	}
	return fmt.Sprintf("%s (%s)", text, share)
}

// foundIn is the allergens of annex II in the ingredients of a name.
func (m *maker) foundIn(name string) []labelrule.EUFound {
	var of []labelrule.EUPart
	for _, h := range m.inside.Held {
		if strings.EqualFold(m.declared(h.Of), name) {
			of = append(of, m.part(h.Of))
		}
	}
	ans, err := labelrule.EUAllergensOf(of)
	if err != nil {
		return nil // told by annex2
	}
	return ans.Found
}
