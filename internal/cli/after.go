package cli

import (
	"io"
	"os"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// afterCommand compares a run with what it should have cost.
type afterCommand struct {
	bookFlag
	wanted
	Actual string       `required:"" placeholder:"FILE" help:"What really happened: made, used and hands, as YAML; - reads standard input."`
	As     string       `default:"text" enum:"text,json" help:"text or json (kettlefrost.after/1)."`
	Units  *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (afterCommand) Help() string {
	return `What was made is compared with what it should have cost: price, mix and yield of the ingredients, rate and efficiency of the hands, which
add up exactly. The file says what turned out otherwise; the rest counts as planned:

    made: {ale-cheddar-lb: 151, meatballs-six: 60}
    used:
      - {of: cheddar, amount: 56 lb, paid: $181.20}
    hands:
      - {dish: ale-cheddar, time: 6 h 30 min}

    kettlefrost after tuesday --actual monday-night.yaml`
}

func (c afterCommand) Run(s *surroundings) error {
	h, book, request, err := c.wanted.of(s, c.bookFlag)
	if err != nil {
		return err
	}
	actual, err := readActual(s, c.Actual)
	if err != nil {
		return err
	}
	if found := kitchen.CheckActual(book, actual, request.Dishes(book)); found.Worst() == finding.Stop {
		return mistaken(c.Actual, found)
	}
	var after plan.After
	s.meanwhile("planning", func() { after = h.After(s.ctx, book, request, actual) })
	if c.As == "json" {
		return s.showJSON(after)
	}
	units := after.Units
	if c.Units != nil {
		units = *c.Units
	}
	return s.show(sheet.AfterText(after, units))
}

// readActual reads what really happened from a file, or from standard input.
func readActual(s *surroundings, name string) (kitchen.Actual, error) {
	from := s.stdin
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return kitchen.Actual{}, failure{badUsage, "--actual " + name, "cannot be read: " + reason(err), "name a file with made: in it; kettlefrost after --help shows one"}
		}
		defer file.Close()
		from = file
	}
	text, err := io.ReadAll(io.LimitReader(from, longestRequest+1))
	switch {
	case err != nil:
		return kitchen.Actual{}, failure{badUsage, name, "cannot be read: " + reason(err), "name a text file"}
	case len(text) > longestRequest:
		return kitchen.Actual{}, failure{mistakes, name, "is too large for what happened in one run", "name the file of one run"}
	}
	actual, found := bookfile.ReadActual(name, text)
	if found.Worst() == finding.Stop {
		return actual, mistaken(name, found)
	}
	return actual, nil
}
