package cli

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// buyCommand is the shopping list of a run.
type buyCommand struct {
	bookFlag
	wanted
	By    plan.By      `default:"supplier" enum:"supplier,storage" help:"By supplier, or by storage (where it is kept, then the aisle)."`
	As    string       `default:"text" enum:"text,csv,json" help:"text to tick off, csv or json (kettlefrost.buy/1, the plan's part)."`
	Units *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (buyCommand) Help() string {
	return `What to make is said as for kettlefrost plan:

    kettlefrost buy tuesday                        a list for each supplier, with its terms
    kettlefrost buy tuesday --by storage           where things are kept, aisle by aisle
    kettlefrost buy tuesday --as csv > list.csv    for a spreadsheet: masses in grams`
}

func (c buyCommand) Run(s *surroundings) error {
	h, book, request, err := c.wanted.of(s, c.bookFlag)
	if err != nil {
		return err
	}
	var p plan.Plan
	s.meanwhile("planning", func() { p = h.Plan(s.ctx, book, request) })
	if err := c.output(s, p); err != nil {
		return err
	}
	if p.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "planned, but do not start like this: " + tally(p.Findings), fix: "kettlefrost plan --only findings shows what to change"}
	}
	return nil
}

func (c buyCommand) output(s *surroundings, p plan.Plan) error {
	units := p.Units
	if c.Units != nil {
		units = *c.Units
	}
	switch c.As {
	case "csv":
		return s.show(string(sheet.ShoppingCSV(p, c.By)))
	case "json":
		return s.showJSON(Shopping{buySchema, p.Buy})
	}
	return s.show(sheet.Shopping(p, units, c.By))
}
