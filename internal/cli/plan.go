package cli

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// planCommand plans a run. What to make is a run of the book, a request in a file, or targets on the command line.
type planCommand struct {
	bookFlag
	wanted
	JSON  bool         `name:"json" help:"The whole plan as JSON (kettlefrost.plan/1)."`
	Units *unit.System `placeholder:"metric|us" help:"Units of the sheet; those of the book when left out."`
	Only  string       `placeholder:"PART" help:"One part of the sheet: findings, summary, buy, day, steps, chill, fill, freeze, cost or labels."`
}

// Help is the longer help of the command.
func (planCommand) Help() string {
	return `Say what to make in one of three ways:

    kettlefrost plan tuesday                          a run of the book
    kettlefrost plan --request order.yaml             a request in a file
    kettlefrost plan --pack ale-cheddar-lb=40         packs, as often as you like
    kettlefrost plan --dish bean-pot --use "bacon=20 lb"
    kettlefrost plan --dish lentil-squash --fill-vessel kettle --mix lentil-squash-lb=1
    kettlefrost plan --dish bean-pot --as-many

Findings come first: a stop means do not start like this, and exit code 4.`
}

func (c planCommand) Run(s *surroundings) error {
	only, err := c.part()
	if err != nil {
		return err
	}
	h, book, request, err := c.wanted.of(s, c.bookFlag)
	if err != nil {
		return err
	}
	var p plan.Plan
	s.meanwhile("planning", func() { p = h.Plan(s.ctx, book, request) })
	if err := c.output(s, p, only); err != nil {
		return err
	}
	if p.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "planned, but do not start like this: " + tally(p.Findings), fix: "--only findings shows what to change"}
	}
	return nil
}

// part is the section that was asked for; "" is all of them.
func (c planCommand) part() (sheet.Section, error) {
	if c.Only == "" {
		return "", nil
	}
	if c.JSON {
		return "", failure{badUsage, "--only", "the JSON is always the whole plan", "leave --only or --json out"}
	}
	var names []string
	for _, section := range sheet.Sections() {
		if string(section) == c.Only {
			return section, nil
		}
		names = append(names, string(section))
	}
	fix := "it has " + strings.Join(names, ", ")
	if near := spelling.Nearest(c.Only, names); near != "" {
		fix = fmt.Sprintf("did you mean %s?", near)
	}
	return "", failure{badUsage, "--only", fmt.Sprintf("the sheet has no part %q", c.Only), fix}
}

func (c planCommand) output(s *surroundings, p plan.Plan, only sheet.Section) error {
	if c.JSON {
		return s.showJSON(p)
	}
	units := p.Units
	if c.Units != nil {
		units = *c.Units
	}
	if only == "" {
		return s.show(sheet.Text(p, units))
	}
	return s.show(sheet.Text(p, units, only))
}
