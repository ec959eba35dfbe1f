package cli

import (
	"errors"
	"fmt"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/sheet"
)

// nextRunCommand is what to make next.
type nextRunCommand struct {
	deskFlags
	Day     string   `placeholder:"DATE" help:"On which day it is made, such as 2026-12-14; a week from today when left out."`
	Weeks   int      `default:"2" help:"How many weeks from today it should last (${default})."`
	Sure    bool     `help:"By the high end of what may be sold, not by what is expected."`
	Without []string `placeholder:"RUN" help:"A run of the book that will not be made; may be given several times."`
	As      string   `default:"text" enum:"text,json,request,book" help:"text, json (kettlefrost.next-run/1), request (YAML for --request of other commands) or book (YAML to put into the book's folder)."`
}

// Help is the longer help of the command.
func (nextRunCommand) Help() string {
	return `What to make next: what is ordered, what sold week by week, what should remain (keep: of a pack), what is there and what runs of the book
bring, in whole batches (batch: of a pack). A proposal only; plan says whether a day holds it:

    kettlefrost next --day 2026-12-14 --as request > next.yaml
    kettlefrost plan --request next.yaml`
}

func (c nextRunCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	p, err := app.NextRun(s.ctx, h.records, book, nextrun.Ask{Today: string(c.today(s)), Day: c.Day, Weeks: c.Weeks, Sure: c.Sure, Leave: c.Without})
	if wrong, ok := errors.AsType[*nextrun.AskError](err); ok {
		return failure{badUsage, "--" + wrong.Where, wrong.Problem, wrong.Fix}
	}
	if err != nil {
		return err
	}
	switch c.As {
	case "json":
		return s.showJSON(p.View())
	case "request", "book":
		return c.yaml(s, p)
	}
	return s.show(sheet.NextRunText(p))
}

// yaml writes the run that is proposed.
func (c nextRunCommand) yaml(s *surroundings, p nextrun.Proposal) error {
	if len(p.Request.Want) == 0 {
		return failure{code: stopped, what: "nothing is to be made until " + p.Until, fix: "ask for more --weeks, or for --sure"}
	}
	text, err := bookfile.WriteRequest(p.Request)
	if c.As == "book" {
		text, err = app.RunFile(p.Request)
	}
	if err != nil {
		return fmt.Errorf("the run cannot be written: %w", err)
	}
	return s.show(string(text))
}
