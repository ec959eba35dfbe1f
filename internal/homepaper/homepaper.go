// Package homepaper sets a home card on one page, and as text, in the language of the card.
package homepaper

import (
	"strconv"
	"strings"

	"kettlefrost/internal/homecard"
	"kettlefrost/internal/language"
	"kettlefrost/internal/pdf"
)

// Document is a card as a page of a paper. made is when it is printed, in milliseconds since 1970 UTC.
func Document(c homecard.Card, paper pdf.Paper, madeMs int64) pdf.Document {
	in := language.In(c.Language)
	return pdf.Document{Title: in.Say("%s, for %s", c.Name, strconv.Itoa(c.People)), Subject: in.Say("a dish for a home"), Head: c.Kitchen,
		Foot: in.Say("For a home. Figures are computed; taste and a thermometer decide."), MadeMs: madeMs, Paper: paper, In: in,
		Blocks: []pdf.Block{
			pdf.Title{Text: c.Name, Below: Headline(c)},
			pdf.Columns{Share: 0.42, Least: 6.5, Left: left(c), Right: right(c)},
		}}
}

func left(c homecard.Card) []pdf.Part {
	words, in := WordsOf(c), language.In(c.Language)
	goes := pdf.Part{Name: words.In}
	for _, x := range c.Items {
		goes.Items = append(goes.Items, pdf.Item{Mark: strconv.Itoa(x.Step), Text: x.Amount.Text + " " + x.Called(in), Small: joined(x.Amount.About, Weigh(c, x))})
	}
	parts := []pdf.Part{goes, {Name: words.With, Items: []pdf.Item{{Text: strings.Join(c.Need, "; ") + "."}}}}
	if facts := Facts(c); facts != "" {
		parts = append(parts, pdf.Part{Name: words.Holds, Items: []pdf.Item{{Text: facts, Small: c.FactsSource}}})
	}
	return append(parts, pdf.Part{Name: words.Allergens, Items: []pdf.Item{{Text: Allergens(c), Small: words.AsWritten}}})
}

func right(c homecard.Card) []pdf.Part {
	in := language.In(c.Language)
	how := pdf.Part{Name: WordsOf(c).How}
	for _, s := range c.Steps {
		text := s.Do
		if s.How != "" {
			text += " " + s.How
		}
		how.Items = append(how.Items, pdf.Item{Mark: strconv.Itoa(s.Number), Text: text, Small: Under(s)})
	}
	parts := []pdf.Part{how}
	for _, section := range homecard.Sections() {
		p := pdf.Part{Name: in.Say(section.Name)}
		for _, k := range c.Keep {
			if k.Section == section.ID {
				p.Items = append(p.Items, pdf.Item{Text: k.Text})
			}
		}
		parts = append(parts, p)
	}
	for _, r := range c.Ratios {
		if !r.Held {
			parts = append(parts, pdf.Part{Name: in.Say("Mind"), Items: []pdf.Item{{Text: in.Say("%s is %s off after rounding.", r.Of, in.Measure(r.Off.Show(c.Units)))}}})
		}
	}
	return parts
}

// Under is what stands below a step: in what, how long, what to mind.
func Under(s homecard.Step) string {
	return joined(append([]string{s.With, s.Times}, s.Notes...)...)
}

// joined is what is not empty of some texts.
func joined(texts ...string) string {
	var some []string
	for _, t := range texts {
		if t != "" {
			some = append(some, t)
		}
	}
	return strings.Join(some, "; ")
}
