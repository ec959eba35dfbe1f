package cli

import (
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// heatWaysCommand compares all that the kitchen can do to cool so much of a dish now.
type heatWaysCommand struct {
	heatOf
	Much  heatValue `required:"" name:"much" placeholder:"AMOUNT" help:"How much of it there is, such as 250 lb or 30 gal."`
	From  heatValue `name:"from" placeholder:"TEMP" help:"How hot it is now; as it leaves its step when left out."`
	Units string    `placeholder:"us|metric" help:"The units you read; the book's when left out."`
	JSON  bool      `name:"json" help:"As JSON (kettlefrost.plan/1 with the cooling alone)."`
}

func (h heatWaysCommand) Run(s *surroundings) error {
	if !h.Of.given {
		return failure{badUsage, "--of", "it is not said what is to be cooled", "name what a dish gives; kettlefrost heat foods lists it"}
	}
	kitchen, err := h.open(s)
	if err != nil {
		return err
	}
	book, err := kitchen.sound(s)
	if err != nil {
		return err
	}
	m, err := app.MadeFood(kitchen.Made(book), h.Of.text)
	if err != nil {
		return failure{badUsage, "--of", err.Error(), "kettlefrost heat foods lists what it makes"}
	}
	much, err := app.MassOf(m, h.Much.text)
	if err != nil {
		return failure{badUsage, "--much", err.Error(), `write it like --much "250 lb" or --much "30 gal"`}
	}
	from, units := m.From, book.Kitchen.Units
	if h.From.given {
		if from, err = unit.ParseTemp(h.From.text); err != nil {
			return failure{badUsage, "--from", err.Error(), `write it like --from "200 °F"`}
		}
	}
	if h.Units != "" {
		if units, err = unit.ParseSystem(h.Units); err != nil {
			return failure{badUsage, "--units", err.Error(), "say us or metric"}
		}
	}
	p, err := kitchen.CoolNow(book, m, much, from)
	if err != nil {
		return failure{badUsage, "heat ways", err.Error(), "give what there is and how hot it is"}
	}
	if h.JSON {
		err = s.showJSON(p)
	} else {
		err = s.show(sheet.Text(p, units, sheet.Findings, sheet.Chill))
	}
	if err == nil && p.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "computed, but do not start like this: " + tally(p.Findings), fix: "what is marked stop says why"}
	}
	return err
}
