// Package homepaper sets a home card on one page.
package homepaper

import (
	"fmt"
	"strings"

	"kettlefrost/internal/homecard"
	"kettlefrost/internal/pdf"
)

// Document is a card as a page of a paper. made is when it is printed, in milliseconds since 1970 UTC.
func Document(c homecard.Card, paper pdf.Paper, madeMs int64) pdf.Document {
	return pdf.Document{Title: c.Name + ", for " + fmt.Sprint(c.People), Subject: "a dish for a home", Head: c.Kitchen, Foot: "For a home. Figures are computed; taste and a thermometer decide.", MadeMs: madeMs, Paper: paper,
		Blocks: []pdf.Block{
			pdf.Title{Text: c.Name, Below: Headline(c)},
			pdf.Columns{Share: 0.42, Least: 6.5, Left: left(c), Right: right(c)},
		}}
}

// Headline is for how many, how much and how long.
func Headline(c homecard.Card) string {
	each := c.Serving.Show(c.Units)
	if c.Pieces != "" {
		each = c.Pieces + ", " + each
	}
	return fmt.Sprintf("For %d, %s each (%s in all). Hands on %s, ready in %s.", c.People, each, c.Makes.Show(c.Units), c.Hands.Text(), c.Whole.Text())
}

func left(c homecard.Card) []pdf.Part {
	in := pdf.Part{Name: "What goes in"}
	for _, x := range c.Items {
		text := x.Amount.Text + " " + x.Name
		if x.Extra {
			text += ", for what a small pot boils off more"
		}
		small := x.Amount.About
		if x.Amount.Scale > 0 && x.Amount.Class != "main" {
			small = strings.TrimPrefix(small+"; weigh it: a scale that shows "+x.Amount.Scale.Show(c.Units)+" will do", "; ")
		}
		in.Items = append(in.Items, pdf.Item{Mark: fmt.Sprint(x.Step), Text: text, Small: small})
	}
	parts := []pdf.Part{in, {Name: "In what", Items: []pdf.Item{{Text: strings.Join(c.Need, "; ") + "."}}}}
	if facts := Facts(c); facts != "" {
		parts = append(parts, pdf.Part{Name: "A serving holds", Items: []pdf.Item{{Text: facts, Small: c.FactsSource}}})
	}
	return append(parts, pdf.Part{Name: "Allergens", Items: []pdf.Item{{Text: Allergens(c)}}})
}

// Facts is what a serving holds, in one line.
func Facts(c homecard.Card) string {
	var all, open []string
	for _, n := range c.Facts {
		if n.Amount == "" {
			open = append(open, n.Name)
			continue
		}
		all = append(all, n.Name+" "+n.Amount)
	}
	if len(open) > 0 {
		all = append(all, "not known: "+strings.Join(open, " and "))
	}
	if len(all) == 0 {
		return ""
	}
	return strings.ToUpper(all[0][:1]) + strings.Join(all, ", ")[1:] + "."
}

// Allergens is what the book answers of them.
func Allergens(c homecard.Card) string {
	switch {
	case len(c.Unanswered) > 0:
		return "Not known: " + strings.Join(c.Unanswered, "; ") + "."
	case c.Contains == "":
		return "None of the nine major allergens, by the answers in the book."
	}
	return c.Contains
}

func right(c homecard.Card) []pdf.Part {
	how := pdf.Part{Name: "How"}
	for _, s := range c.Steps {
		text := s.Do
		if s.How != "" {
			text += " " + s.How
		}
		how.Items = append(how.Items, pdf.Item{Mark: fmt.Sprint(s.Number), Text: text, Small: Under(s)})
	}
	parts := []pdf.Part{how}
	for _, section := range homecard.Sections() {
		p := pdf.Part{Name: section.Name}
		for _, k := range c.Keep {
			if k.Section == section.ID {
				p.Items = append(p.Items, pdf.Item{Text: k.Text})
			}
		}
		parts = append(parts, p)
	}
	for _, r := range c.Ratios {
		if !r.Held {
			parts = append(parts, pdf.Part{Name: "Mind", Items: []pdf.Item{{Text: r.Of + " is " + r.Off.Show(c.Units) + " off after rounding."}}})
		}
	}
	return parts
}

// Under is what stands below a step: in what, how long, what to mind.
func Under(s homecard.Step) string {
	var all []string
	for _, t := range append([]string{s.With, s.Times}, s.Notes...) {
		if t != "" {
			all = append(all, t)
		}
	}
	return strings.Join(all, "; ")
}
