package cli

import (
	"io"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/language"
	"kettlefrost/internal/papers"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// printCommand is the sheets of a run for paper.
type printCommand struct {
	bookFlag
	wanted
	Sheet    string       `required:"" placeholder:"SHEET" help:"Which: shopping, weigh-up, method, timetable, cooling, filling, check-weigh or cards."`
	PDF      string       `name:"pdf" required:"" placeholder:"FILE" help:"Write it to a file that is not there yet."`
	Language string       `default:"en-US" placeholder:"LANGUAGE" help:"Of headings and cautions: en-US, en-GB, es-US, es-ES, fr-CA or fr-FR (${default})."`
	Paper    string       `placeholder:"letter|a4" help:"By the units when left out."`
	Units    *unit.System `placeholder:"metric|us" help:"Units that are shown; those of the book when left out."`
}

// Help is the longer help of the command.
func (printCommand) Help() string {
	return `What to make is said as for kettlefrost plan:

    kettlefrost print tuesday --sheet method --pdf method.pdf
    kettlefrost print tuesday --sheet cooling --language es-US --pdf enfriado.pdf

Sheets are black and white and can be read at arm's length. Each names the run and the version of the plan at its foot. Names and steps stay
as the book has them. Translations were not checked by a specialist.`
}

func (c printCommand) Run(s *surroundings) error {
	sheet, err := papers.Find(papers.Kind(c.Sheet))
	if err != nil {
		return failure{code: badUsage, what: err.Error(), fix: "kettlefrost print --help says what each is for"}
	}
	in, err := language.Parse(c.Language)
	if err != nil {
		return failure{code: badUsage, what: err.Error(), fix: "leave --language out for English"}
	}
	paper, given := map[string]pdf.Paper{"letter": pdf.Letter, "a4": pdf.A4}[strings.ToLower(c.Paper)]
	if c.Paper != "" && !given {
		return failure{badUsage, "--paper", "is neither letter nor a4", "write one of them, or leave it out"}
	}
	h, book, request, err := c.wanted.of(s, c.bookFlag)
	if err != nil {
		return err
	}
	o, err := app.PaperFor(book, request, in)
	if err != nil {
		return err
	}
	if c.Units != nil {
		o.Units = *c.Units
	}
	if given {
		o.Paper = paper
	}
	var p plan.Plan
	s.meanwhile("planning", func() { p = h.Plan(s.ctx, book, request) })
	return c.write(s, sheet.Kind, p, o)
}

func (c printCommand) write(s *surroundings, kind papers.Kind, p plan.Plan, o papers.Options) error {
	doc, err := papers.Document(kind, p, o)
	if err != nil {
		return err
	}
	doc.MadeMs = s.now().UnixMilli()
	if err := writeNew("--pdf", c.PDF, func(w io.Writer) error { return pdf.Write(w, doc) }); err != nil {
		return err
	}
	s.say("%s is written", c.PDF)
	if p.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "planned, but do not start like this: " + tally(p.Findings), fix: "kettlefrost plan --only findings shows what to change"}
	}
	return nil
}
