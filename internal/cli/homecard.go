package cli

import (
	"errors"
	"io"

	"kettlefrost/internal/app"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/homepaper"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
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

	Language string `default:"en" placeholder:"TAG" help:"Language of the text and the page: en, es, fr, or with a place, es-US, fr-CA. JSON is in English."`
}

// Help is the longer help of the command.
func (homeCommand) Help() string {
	return `The dish of a pack for 4 to 8 people: in a home's pots, in cups and spoons, with freezing, thawing and heating in a home's freezer and on
its stove. It is planned again, not divided: a small pot loses more of what is in it.

    kettlefrost home ale-cheddar-lb --people 6
    kettlefrost home bean-pot-2lb --pdf bean-pot.pdf --paper a4
    kettlefrost home bean-pot-2lb --language es-US

Names of ingredients and the steps stay as the book has them. Translations were not checked by a specialist.`
}

// Run writes the card.
func (c homeCommand) Run(s *surroundings) error {
	in, err := language.Parse(c.Language)
	if err != nil {
		return failure{badUsage, "--language", err.Error(), "leave --language out for English"}
	}
	if c.As == "json" && c.PDF == "" {
		in = language.English
	}
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
	card, err := app.HomeCard(s.ctx, book, h.Foods(), kitchen.PackID(c.Pack), c.People, in)
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
	return s.show(homepaper.Text(card))
}
