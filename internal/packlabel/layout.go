package packlabel

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelmaker"
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

// lay tries the panel in a column first, then as text where the pack is small enough for it, or the rules of the European Union give way for want
// of room (article 34(2), from memory).
func (m *maker) lay(c *labelmaker.Content) {
	laid, found := labelmaker.Lay(*c, m.out.Stock, m.out.Rules)
	asText := !m.us()
	if m.us() && c.Panel != nil {
		m.out.Formats = nutrition.Formats(nutrition.Room{AreaSqIn: faces * m.faceSqIn(), ColumnFits: !laid.Empty()})
		asText = slices.ContainsFunc(m.out.Formats, func(f nutrition.FormatChoice) bool { return f.Format == nutrition.Linear })
	}
	if laid.Empty() && c.Panel != nil && asText {
		linear := *c.Panel
		linear.Linear = true
		shorter, rules := *c, small(m.out.Rules)
		shorter.Panel = &linear
		if again, more := labelmaker.Lay(shorter, m.out.Stock, rules); !again.Empty() {
			*c, m.out.Rules, laid, found = shorter, rules, again, more
		}
	}
	m.out.Laid = laid
	m.out.Open = append(m.out.Open, found...)
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
