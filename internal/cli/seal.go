package cli

import (
	"maps"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// sealCommand is the decision at the sealing table.
type sealCommand struct {
	bookFlag
	wanted
	Weighed []string     `sep:"none" placeholder:"OUTPUT=AMOUNT" help:"What was weighed: sauce=71 lb, or ale-cheddar/sauce=29 gal; may be given several times. What nobody has weighed counts as planned."`
	AtLeast []string     `sep:"none" placeholder:"PACK=COUNT" help:"Fill so many of this pack whatever they bring; may be given several times."`
	AtMost  []string     `sep:"none" placeholder:"PACK=COUNT" help:"Fill no more of this pack; may be given several times."`
	As      string       `default:"text" enum:"text,json" help:"text or json (kettlefrost.seal/1)."`
	Units   *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (sealCommand) Help() string {
	return `What to make is said as for kettlefrost plan:

    kettlefrost seal tuesday                                     what to fill if all comes out as planned
    kettlefrost seal tuesday --weighed "ale-cheddar/sauce=150 lb"
    kettlefrost seal tuesday --weighed "meatballs=24 lb" --weighed "turkey-meatballs/sauce=9 gal"

Orders of the run come first, then what the freezer should never fall below, then what brings the most.`
}

func (c sealCommand) Run(s *surroundings) error {
	h, book, request, err := c.wanted.of(s, c.bookFlag)
	if err != nil {
		return err
	}
	if err := c.limit(book, &request); err != nil {
		return err
	}
	weighed, err := readEach("--weighed", c.Weighed, kitchen.ParseWeighed)
	if err != nil {
		return err
	}
	weighed, found := kitchen.CheckWeighed(book, weighed, request.Dishes(book))
	if found.Worst() == finding.Stop {
		return mistaken("what was weighed", found)
	}
	var sealing plan.Sealing
	s.meanwhile("planning", func() { sealing = h.Seal(s.ctx, book, request, weighed) })
	if c.As == "json" {
		err = s.showJSON(sealing)
	} else {
		units := sealing.Units
		if c.Units != nil {
			units = *c.Units
		}
		err = s.show(sheet.SealText(sealing, units))
	}
	if err == nil && sealing.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "do not fill like this: " + tally(sealing.Findings), fix: "the findings say what to look at"}
	}
	return err
}

// limit puts the limits of the command line in the place of the request's.
func (c sealCommand) limit(book kitchen.Book, request *kitchen.Request) error {
	for _, l := range []struct {
		flag  string
		texts []string
		to    *map[kitchen.PackID]int
	}{{"--at-least", c.AtLeast, &request.AtLeast}, {"--at-most", c.AtMost, &request.AtMost}} {
		for _, text := range l.texts {
			pack, n, err := counted(l.flag, text)
			if err != nil {
				return err
			}
			*l.to = maps.Clone(*l.to)
			if *l.to == nil {
				*l.to = map[kitchen.PackID]int{}
			}
			(*l.to)[kitchen.PackID(pack)] = n
		}
	}
	if found := kitchen.CheckRequest(book, *request); found.Worst() == finding.Stop {
		return mistaken("the request", found)
	}
	return nil
}
