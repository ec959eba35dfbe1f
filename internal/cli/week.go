package cli

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// weekCommand is the choice of a week's dishes.
type weekCommand struct {
	bookFlag
	As    string       `default:"text" enum:"text,json" help:"text or json (kettlefrost.week/1)."`
	Units *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (weekCommand) Help() string {
	return `Which packs earn the most of the hands, the largest vessel and the freezer that there are in a week, how many batches of each,
and what one more hour or litre would be worth. The book says what packs sell for, how many sell in a week (sells) and how many are made at
once (batch).`
}

func (c weekCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	var week plan.Week
	s.meanwhile("planning a batch of each pack", func() { week = h.Week(s.ctx, book) })
	if c.As == "json" {
		err = s.showJSON(week)
	} else {
		units := week.Units
		if c.Units != nil {
			units = *c.Units
		}
		err = s.show(sheet.WeekText(week, units))
	}
	if err == nil && week.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "no mix can be chosen: " + tally(week.Findings), fix: "the findings say what to change"}
	}
	return err
}
