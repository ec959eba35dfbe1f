package cli

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/homepaper"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/unit"
)

// homeCommand writes a dish for a home.
type homeCommand struct {
	bookFlag
	Pack   string       `arg:"" help:"A pack of the book."`
	People int          `default:"6" help:"For how many it is: 4 to 8."`
	As     string       `default:"text" enum:"text,json" help:"text or json (kettlefrost.home-card/1)."`
	PDF    string       `name:"pdf" placeholder:"FILE" help:"Write it for paper, on one page, to a file that is not there yet."`
	Paper  string       `default:"letter" enum:"letter,a4" help:"letter or a4."`
	Units  *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (homeCommand) Help() string {
	return `The dish of a pack for 4 to 8 people: in a home's pots, in cups and spoons, with freezing, thawing and heating in a home's freezer and on
its stove. It is planned again, not divided: a small pot loses more of what is in it.

    kettlefrost home ale-cheddar-lb --people 6
    kettlefrost home bean-pot-2lb --pdf bean-pot.pdf --paper a4`
}

// Run writes the card.
func (c homeCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	if c.Units != nil {
		book.Kitchen.Units = *c.Units
	}
	card, err := app.HomeCard(s.ctx, book, h.Foods(), kitchen.PackID(c.Pack), c.People)
	if bad := (*homecard.AskError)(nil); errors.As(err, &bad) {
		return failure{badUsage, "home " + c.Pack, bad.Field + " " + bad.Reason, bad.Fix}
	}
	if bad := (*homecard.DishError)(nil); errors.As(err, &bad) {
		return failure{mistakes, "home " + c.Pack, bad.Error(), "kettlefrost check looks at the book"}
	}
	if err != nil {
		return err
	}
	if c.PDF != "" {
		paper := map[string]pdf.Paper{"letter": pdf.Letter, "a4": pdf.A4}[c.Paper]
		write := func(w io.Writer) error { return pdf.Write(w, homepaper.Document(card, paper, s.now().UnixMilli())) }
		if err := writeNew("--pdf", c.PDF, write); err != nil {
			return err
		}
		s.say("%s is written", c.PDF)
		return nil
	}
	if c.As == "json" {
		return s.showJSON(card)
	}
	return s.show(homeText(card))
}

// homeText is a card for a terminal.
func homeText(c homecard.Card) string {
	var t strings.Builder
	fmt.Fprintf(&t, "%s\n%s\n\nWhat goes in (at step)\n", c.Name, homepaper.Headline(c))
	for _, x := range c.Items {
		name := x.Name
		if x.Extra {
			name += ", for what a small pot boils off more"
		}
		fmt.Fprintf(&t, "  %2d  %s %s", x.Step, x.Amount.Text, name)
		if x.Amount.About != "" {
			fmt.Fprintf(&t, "; %s", x.Amount.About)
		}
		if x.Amount.Scale > 0 && x.Amount.Class != "main" {
			fmt.Fprintf(&t, "; weigh it to %s", x.Amount.Scale.Show(c.Units))
		}
		t.WriteString("\n")
	}
	t.WriteString("\nHow\n")
	for _, s := range c.Steps {
		fmt.Fprintf(&t, "  %2d  %s\n", s.Number, strings.TrimSpace(s.Do+" "+s.How))
		if under := homepaper.Under(s); under != "" {
			fmt.Fprintf(&t, "      %s\n", under)
		}
	}
	for _, section := range homecard.Sections() {
		fmt.Fprintf(&t, "\n%s\n", section.Name)
		for _, k := range c.Keep {
			if k.Section == section.ID {
				fmt.Fprintf(&t, "  %s\n      (%s)\n", k.Text, k.Source)
			}
		}
	}
	t.WriteString("\nProportions after rounding\n")
	for _, r := range c.Ratios {
		fmt.Fprintf(&t, "  %s: %s of %s allowed\n", r.Of, r.Off.Show(c.Units), r.Bound.Show(c.Units))
	}
	if facts := homepaper.Facts(c); facts != "" {
		fmt.Fprintf(&t, "\nA serving holds: %s\n      (%s)\n", facts, c.FactsSource)
	}
	fmt.Fprintf(&t, "\nAllergens: %s\n", homepaper.Allergens(c))
	for _, f := range c.Findings {
		fmt.Fprintf(&t, "\n%s: %s\n", strings.ToUpper(f.Severity.String()), f.Message)
	}
	return t.String()
}
