package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/finding"
)

// draftCommand makes a draft of a dish from a home recipe.
type draftCommand struct {
	bookFlag
	bookWrite
	Recipe string            `arg:"" help:"File with the recipe as text; - reads it from standard input."`
	Answer map[string]string `placeholder:"KEY=TEXT" help:"An answer to what is asked, such as much-5=\"425 g\" or is-4=book:cheddar; repeat it for more."`
	As     string            `default:"text" enum:"text,json" help:"text or json (kettlefrost.draft/1)."`
}

// Help is the longer help of the command.
func (draftCommand) Help() string {
	return `A home recipe in cups and spoons becomes a first draft of a dish: its ingredients matched to the book and the composition table, its sentences
turned into steps. What it leaves open is asked, with what is assumed meanwhile:

    kettlefrost draft soup.txt
    kettlefrost draft soup.txt --answer much-5="425 g" --answer lid-3=on
    kettlefrost draft soup.txt --book kitchen --write`
}

// mostRecipe is as much of a file as is read, in bytes.
const mostRecipe = 64_000

// Run makes the draft and shows it, or puts it into the book.
func (c draftCommand) Run(s *surroundings) error {
	text, err := c.read(s)
	if err != nil {
		return err
	}
	h, err := c.open(s)
	if err != nil {
		return err
	}
	if _, err := h.sound(s); err != nil {
		return err
	}
	d, err := h.DraftDish(draftdish.Split(text), c.Answer)
	if bad, is := errors.AsType[*draftdish.RecipeError](err); is {
		return failure{badUsage, "draft " + c.Recipe, bad.Field + " " + bad.Problem, bad.Fix}
	}
	if err != nil {
		return err
	}
	for _, key := range d.Unused {
		s.say("--answer %s: nothing asks this", key)
	}
	if c.As == "json" {
		return s.showJSON(d)
	}
	if err := s.show(draftText(d)); err != nil {
		return err
	}
	if !c.Write {
		s.say("nothing is changed: --write puts it into the book")
		return nil
	}
	return c.make(s, h, app.DraftChanges(d)...)
}

func (c draftCommand) read(s *surroundings) (string, error) {
	from := s.stdin
	if c.Recipe != "-" {
		f, err := os.Open(c.Recipe)
		if err != nil {
			return "", failure{badUsage, "draft " + c.Recipe, "cannot be read: " + reason(err), "name a file with the recipe as text"}
		}
		defer f.Close()
		from = f
	}
	text, err := io.ReadAll(io.LimitReader(from, mostRecipe))
	if err != nil {
		return "", failure{failed, "draft " + c.Recipe, "cannot be read: " + reason(err), "try again"}
	}
	return string(text), nil
}

// draftText is a draft for a terminal.
func draftText(d draftdish.Draft) string {
	var t strings.Builder
	fmt.Fprintf(&t, "%s, would be %s in the book\n\nWhat goes in\n", d.Title, d.ID)
	for _, l := range d.Lines {
		mark := " "
		switch {
		case l.Out:
			mark = "!"
		case l.Assumed || l.Sure < draftdish.Certain:
			mark = "?"
		}
		is := l.Name
		if l.New {
			is += " (new)"
		}
		fmt.Fprintf(&t, "  %s %s  =  %s %s%s\n", mark, l.Text, l.Says, is, l.Problem)
	}
	t.WriteString("\nSteps\n")
	for _, x := range d.Steps {
		fmt.Fprintf(&t, "  %2d  %s\n", x.Number, strings.TrimSpace(x.Text+" "+x.How))
		if x.Minutes > 0 || x.HeatF > 0 {
			fmt.Fprintf(&t, "      %s %d min, %d °F\n", x.In, x.Minutes, x.HeatF)
		}
	}
	open := d.Open()
	fmt.Fprintf(&t, "\nTo decide: %d\n", len(open))
	for _, q := range open {
		mark, assumed := "?", "nothing is assumed"
		if q.Grave {
			mark = "!"
		}
		if q.Assumed != "" {
			assumed = "assumed: " + q.Assumed
		}
		fmt.Fprintf(&t, "  %s %s  %s: %s (%s)\n", mark, q.Key, q.About, q.Question, assumed)
		if q.Problem != "" {
			fmt.Fprintf(&t, "      %q cannot be taken: %s\n", q.Answer, q.Problem)
		}
	}
	t.WriteString("\nWhat production has to mind\n")
	for _, c := range d.Concerns {
		fmt.Fprintf(&t, "  %s: %s: %s\n", c.Severity, c.About, c.Says)
		if c.Fix != "" {
			fmt.Fprintf(&t, "      %s\n", c.Fix)
		}
	}
	for _, f := range d.Findings {
		if f.Severity == finding.Stop {
			fmt.Fprintf(&t, "\nSTOP: %s\n", f)
		}
	}
	return t.String()
}
