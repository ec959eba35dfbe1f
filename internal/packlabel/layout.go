package packlabel

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
	"kettlefrost/internal/nutrition"
)

// layOut lays the label out and checks it, unless something stops it before. What does not fit keeps its content, so that ways out can be tried.
func (m *maker) layOut() {
	m.area()
	in := language.In(m.out.Language)
	m.out.Rules = m.rules()
	content := m.content(in)
	if m.out.Open.Worst() < finding.Stop {
		m.symbols(in, &content)
		m.narrow(in, &content)
		m.lay(&content)
	}
	m.check(m.content(language.In(language.English)))
	if !m.stopped() {
		m.out.Content, m.out.Hash = content, hash(content)
	}
}

// stopped says whether something stops the label that no other layout would help.
func (m *maker) stopped() bool {
	return slices.ContainsFunc(m.out.Open, func(f finding.Finding) bool { return f.Severity == finding.Stop && f.Code != labelmaker.CodeDoesNotFit })
}

// lay tries one label with the panel in a column; then with the panel as text, where the pack is small enough for it, or the rules of the European
// Union give way for want of room (article 34(2), from memory); then a front and a back.
func (m *maker) lay(c *labelmaker.Content) {
	whole := Side{Panel: labelrule.Principal, Content: *c}
	found := m.set(&whole)
	if !m.us() {
		m.asText(c, &whole, &found)
	} else if m.formats(*c, !whole.Laid.Empty()); c.Panel != nil {
		if slices.ContainsFunc(m.out.Formats, func(f nutrition.FormatChoice) bool { return f.Format == nutrition.Linear }) {
			m.asText(c, &whole, &found)
		}
	}
	if whole.Laid.Empty() && found.Worst() == finding.Stop {
		if sides, more := m.frontAndBack(*c); len(sides) > 0 {
			m.out.Sides = sides
			m.formats(*c, true)
			m.out.Open = append(m.out.Open, more...)
			m.advise(finding.Finding{Code: CodeTwoLabels, Severity: finding.Note, Where: "label", Message: "one label of " + m.out.Stock.Name + " does not hold everything: it takes two, a front with name and quantity, and a back",
				Source: "21 CFR 101.2(b) and (d) (from memory): an information panel beside the principal one", Fix: "print larger labels, or stick the second one on the back"})
			return
		}
	}
	m.out.Open = append(m.out.Open, found...)
	if !whole.Laid.Empty() {
		m.out.Sides = []Side{whole}
	}
}

// formats are those that the panel may have by the area of the pack.
func (m *maker) formats(c labelmaker.Content, columnFits bool) {
	if m.us() && c.Panel != nil {
		m.out.Formats = nutrition.Formats(nutrition.Room{AreaSqIn: faces * m.faceSqIn(), ColumnFits: columnFits})
	}
}

// narrow gives a panel that is too wide for the label even alone its figures in place of words.
func (m *maker) narrow(in language.Speaker, c *labelmaker.Content) {
	if !m.us() || c.Panel == nil {
		return
	}
	if alone, _ := labelmaker.Lay(labelmaker.Content{Panel: c.Panel}, m.out.Stock, m.out.Rules); alone.Empty() {
		m.figures = true
		c.Panel = m.facts(in)
	}
}

// set lays a side out.
func (m *maker) set(s *Side) finding.List {
	var found finding.List
	s.Laid, found = labelmaker.Lay(s.Content, m.out.Stock, m.out.Rules)
	return found
}

// asText sets the panel as text, when a column does not fit.
func (m *maker) asText(c *labelmaker.Content, whole *Side, found *finding.List) {
	if !whole.Laid.Empty() || c.Panel == nil {
		return
	}
	linear := *c.Panel
	linear.Linear = true
	shorter := Side{Panel: labelrule.Principal, Content: *c}
	shorter.Content.Panel = &linear
	if more := m.set(&shorter); !shorter.Laid.Empty() {
		c.Panel, *whole, *found = &linear, shorter, more
	}
}

// frontAndBack puts name, quantity and Keep frozen on the front and the rest on the back; where that does not hold it, what need not stand with the
// ingredients and the panel goes to the front too. Both carry the lot. None when nothing fits.
func (m *maker) frontAndBack(c labelmaker.Content) ([]Side, finding.List) {
	front := labelmaker.Content{Identity: c.Identity, Keep: c.Keep, Net: c.Net, Lot: c.Lot}
	back := c
	back.Name, back.Identity, back.Keep, back.Net = c.Identity, "", "", nil
	fuller := c
	fuller.Panel, fuller.Ingredients, fuller.Contains, fuller.Firm = nil, nil, nil, nil
	barer := labelmaker.Content{Name: c.Identity, Panel: c.Panel, Ingredients: c.Ingredients, Contains: c.Contains, Firm: c.Firm, Lot: c.Lot}
	for _, sides := range [][]Side{{{labelrule.Principal, front, labelmaker.Label{}}, {labelrule.Information, back, labelmaker.Label{}}},
		{{labelrule.Principal, fuller, labelmaker.Label{}}, {labelrule.Information, barer, labelmaker.Label{}}}} {
		found := append(m.set(&sides[0]), m.set(&sides[1])...)
		if !sides[0].Laid.Empty() && !sides[1].Laid.Empty() {
			return sides, found
		}
	}
	return nil, nil
}

// hash is the same for labels that say the same, whatever they are printed on.
func hash(c labelmaker.Content) string {
	said := struct {
		Content      labelmaker.Content
		Bars, Square string
	}{Content: c}
	if c.Bars != nil {
		said.Bars = string(c.Bars.Symbology) + " " + c.Bars.Data
	}
	if c.Square != nil {
		said.Square = c.Square.Data
	}
	said.Content.Bars, said.Content.Square = nil, nil
	text, err := json.Marshal(said)
	if err != nil {
		panic("packlabel: " + err.Error()) // texts alone
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}
