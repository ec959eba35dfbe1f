package cli

import (
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/calendar"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// dayCommand shows the day of a run alone.
type dayCommand struct {
	bookFlag
	wanted
	changed
	As     string       `default:"text" enum:"text,json,svg,ical" help:"text, json (kettlefrost.day/1), svg (a drawing of the whole day) or ical (a calendar)."`
	Person string       `placeholder:"NAME" help:"Of this person only; not as JSON."`
	Units  *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (dayCommand) Help() string {
	return `What to make is said as for kettlefrost plan:

    kettlefrost day tuesday                           who does what when, what nothing may delay, and how good the day is
    kettlefrost day tuesday --now 11:20               and first what everybody does now and next
    kettlefrost day tuesday --now 11:20 --gone sam=11:30 --broken burner=1
    kettlefrost day tuesday --now 11:20 --late "bean-pot/simmer/1=25 min"
    kettlefrost day tuesday --as svg > day.svg        all of it as one drawing, to print across a page
    kettlefrost day tuesday --person sam --as ical    for the calendar of a telephone
    kettlefrost day tuesday --as json                 for programs

With --late, --gone or --broken the rest of the day is timed again: what was to begin before --now has begun. What moved stands first.

Times in a calendar have no zone: they are the kitchen's own clock.`
}

func (c dayCommand) Run(s *surroundings) error {
	if c.Person != "" && c.As == "json" {
		return failure{badUsage, "--person", "the JSON is always everybody's day", "leave --person or --as json out"}
	}
	h, book, request, err := c.wanted.of(s, c.bookFlag)
	if err != nil {
		return err
	}
	person, err := c.whose(book)
	if err != nil {
		return err
	}
	var p plan.Plan
	var because []string
	s.meanwhile("planning", func() { p = h.Plan(s.ctx, book, request) })
	if c.any() {
		changes, err := c.read(s, book, p)
		if err != nil {
			return err
		}
		c.Now, because = &changes.Now, app.Told(book, p.Timetable.Tasks, changes)
		s.meanwhile("timing the rest of the day again", func() { p = h.Retime(s.ctx, book, request, changes) })
	}
	if err := c.output(s, p, sheet.DayChoice{Person: person, Now: c.Now, Because: because}); err != nil {
		return err
	}
	if p.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "planned, but do not start like this: " + tally(p.Findings), fix: "kettlefrost plan --only findings shows what to change"}
	}
	return nil
}

// whose is the name of the one whose day it is; "" is everybody.
func (c dayCommand) whose(book kitchen.Book) (string, error) {
	if c.Person == "" {
		return "", nil
	}
	name, err := app.Person(book, c.Person)
	if err != nil {
		what, fix, _ := strings.Cut(err.Error(), "; ")
		return "", failure{badUsage, "--person", what, fix}
	}
	return name, nil
}

func (c dayCommand) output(s *surroundings, p plan.Plan, choice sheet.DayChoice) error {
	units := p.Units
	if c.Units != nil {
		units = *c.Units
	}
	switch c.As {
	case "json":
		return s.showJSON(roster.DayOf(p))
	case "svg":
		return c.drawing(s, p, choice.Person)
	case "ical":
		text, err := calendar.Text(p, choice.Person, s.now())
		if err != nil {
			return failure{mistakes, "--as ical", err.Error(), "kettlefrost day shows the day as text"}
		}
		return s.show(string(text))
	}
	return s.show(sheet.DayText(p, units, choice))
}

func (c dayCommand) drawing(s *surroundings, p plan.Plan, person string) error {
	if c.Now != nil {
		p.Timetable.Now = c.Now
	}
	var only []string
	if person != "" {
		only = append(only, person)
	}
	picture, ok := draw.WholeDay(p, only...)
	if !ok {
		return failure{mistakes, "--as svg", "there is no timetable to draw", "kettlefrost day says why"}
	}
	return s.show(string(draw.SVG(picture)))
}
