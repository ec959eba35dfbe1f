package cli

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/trials"
)

// layTrialCommand lays a trial out.
type layTrialCommand struct {
	bookFlag
	Dish    string   `arg:"" help:"The dish that is made otherwise, by its id."`
	Asks    string   `required:"" placeholder:"TEXT" help:"What the trial is to settle."`
	Variant []string `required:"" sep:"none" placeholder:"NAME=CHANGE" help:"A variant and what is otherwise in it, such as 'gum=0.2 % xanthan'; the first is the base, made as in the book. Once for each."`
	Figure  []string `required:"" sep:"none" placeholder:"FIGURE:MATTERS[:BOUND]" help:"What is measured (separation in %, drip in g) or scored (any other word, in points from 0 to 10), the smallest difference that matters, and how far it may go before a pack is no longer good: separation:2:5, drip:5, texture:1:6. Once for each."`
	Taster  []string `required:"" placeholder:"NAME,..." help:"Who tastes."`
	Weeks   []int64  `required:"" placeholder:"N,..." help:"After how many weeks packs are opened, such as 1,4,8,12."`
	Packs   int64    `default:"1" help:"Packs of each variant opened in each week (${default})."`
	Pack    string   `placeholder:"PACK" help:"The pack of the book whose best-before it may support."`
	Name    string   `placeholder:"NAME" help:"Its name, for good; made of the dish and the month when left out."`
	Note    string   `placeholder:"TEXT" help:"A note."`
	Seed    int64    `placeholder:"N" help:"What the codes and orders are drawn by; drawn itself when left out, so that nobody knows them before."`
	Look    bool     `help:"Only show what it would come to, and what it could find out; nothing is entered."`
	Who     string   `placeholder:"NAME" help:"Who lays it out."`
}

// Help is the longer help of the command.
func (layTrialCommand) Help() string {
	return `What a trial can find out is worked out from how much differences scatter: as an earlier trial has shown, or else assumed, which is said.
With few tasters ranks can tell nothing, however they score: it says how many it takes.`
}

func (c layTrialCommand) Run(s *surroundings) error {
	b, err := c.body()
	if err != nil {
		return err
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	if _, ok := book.Dishes[kitchen.DishID(c.Dish)]; !ok {
		return failure{badUsage, c.Dish, "the book has no such dish", "kettlefrost formula lists them"}
	}
	if wrong := trials.Check(b); len(wrong) > 0 {
		texts := make([]string, len(wrong))
		for i, p := range wrong {
			texts[i] = p.Field + " " + p.Problem + ": " + p.Fix
		}
		return failure{code: mistakes, what: strings.Join(texts, "; ")}
	}
	if c.Look {
		return c.look(s, h, b)
	}
	if c.Who == "" {
		return failure{badUsage, "--who", "nobody says who lays it out", "give --who NAME"}
	}
	laid, err := h.records.LayTrial(s.ctx, bySaid{Who: c.Who}.said(s, nil), b)
	if err != nil {
		return trialFailure(err)
	}
	return s.show(fmt.Sprintf("trial %s: %d packs in all; kettlefrost trials sheet %s shows the codes\n", laid.Trial, len(b.Variants)*len(b.Weeks)*int(b.Packs), laid.Trial))
}

func (c layTrialCommand) look(s *surroundings, h house, b record.TrialLaid) error {
	earlier, _, err := h.records.Trials(s.ctx)
	if err != nil {
		return err
	}
	chances, err := trials.Chances(b, func(f record.Figured) trials.Scatter { return trials.ScatterOf(f, earlier) })
	if err != nil {
		return err
	}
	return s.show(sheet.TrialAheadText(b, chances))
}

// body reads what was typed.
func (c layTrialCommand) body() (record.TrialLaid, error) {
	b := record.TrialLaid{Trial: c.Name, Dish: c.Dish, Pack: c.Pack, Asks: record.Text(c.Asks), Tasters: c.Taster, Packs: c.Packs, Seed: c.Seed, Note: record.Text(c.Note)}
	for i, text := range c.Variant {
		name, change, ok := strings.Cut(text, "=")
		if !ok {
			return b, failure{badUsage, "--variant " + text, "does not say what is otherwise", "write --variant 'gum=0.2 % xanthan'"}
		}
		b.Variants = append(b.Variants, record.Variant{Name: strings.TrimSpace(name), Change: record.Text(strings.TrimSpace(change)), Base: i == 0})
	}
	for _, text := range c.Figure {
		f, err := readFigure(text)
		if err != nil {
			return b, err
		}
		b.Figures = append(b.Figures, f)
	}
	for _, w := range c.Weeks {
		b.Weeks = append(b.Weeks, record.Week(w))
	}
	return b, nil
}

// readFigure reads separation:2:5.
func readFigure(text string) (record.Figured, error) {
	parts := strings.Split(text, ":")
	f := record.Figured{Figure: strings.TrimSpace(parts[0]), Unit: trials.Points, Better: record.HighIsBetter}
	per := 1000.0
	switch f.Figure {
	case trials.Separation:
		f.Unit, f.Better, per = trials.Share, record.LowIsBetter, 10 // per cent
	case trials.Drip:
		f.Unit, f.Better = trials.Grams, record.LowIsBetter
	}
	bad := failure{badUsage, "--figure " + text, "cannot be read", "write --figure separation:2:5, drip:5 or texture:1:6"}
	if len(parts) < 2 || len(parts) > 3 {
		return f, bad
	}
	matters, err := strconv.ParseFloat(parts[1], 64)
	if err != nil {
		return f, bad
	}
	f.Matters = record.Decimal(matters*per + 0.5)
	if len(parts) == 3 {
		bound, err := strconv.ParseFloat(parts[2], 64)
		if err != nil {
			return f, bad
		}
		d := record.Decimal(bound*per + 0.5)
		f.Bound = &d
	}
	return f, nil
}
