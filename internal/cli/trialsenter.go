package cli

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
)

type trialMadeCommand struct {
	trialArg
	Variant string       `arg:"" help:"The variant, by its name."`
	Mass    unit.Mass    `required:"" help:"Of the batch, such as 4.2 kg."`
	Packs   int64        `required:"" help:"Packs frozen."`
	Each    unit.Mass    `required:"" help:"What is in one, such as 450 g."`
	Frozen  record.Day   `placeholder:"DAY" help:"Into the freezer on; today when left out."`
	Place   record.Place `placeholder:"PLACE" help:"Where."`
	Lot     record.Lot   `placeholder:"LOT" help:"When it came from a lot of the records."`
	Note    string       `placeholder:"TEXT" help:"What went otherwise than planned."`
	bySaid
}

func (c trialMadeCommand) Run(s *surroundings) error {
	h, t, err := c.find(s)
	if err != nil {
		return err
	}
	if t.VariantOf(c.Variant) < 0 {
		return failure{badUsage, c.Variant, "the trial has no variant of that name", "kettlefrost trials show " + t.Name + " lists them"}
	}
	b := record.TrialMade{Trial: t.Name, Variant: c.Variant, Mass: c.Mass, Packs: c.Packs, Each: c.Each, Lot: c.Lot, Place: c.Place, Frozen: cmp.Or(c.Frozen, s.today()), Note: record.Text(c.Note)}
	return enterTrial(s, h, c.said(s, b), "%s: %d packs frozen on %s", c.Variant, c.Packs, b.Frozen)
}

// readCode finds what a code stands for.
func readCode(t trials.Trial, code string) (week record.Week, variant int, err error) {
	number, _ := strconv.Atoi(code)
	w, v, ok := t.Layout.Of(number)
	if !ok {
		return 0, 0, failure{badUsage, code, "nothing of the trial has that code", "kettlefrost trials sheet " + t.Name + " lists them"}
	}
	return record.Week(w), v, nil
}

type trialOpenCommand struct {
	trialArg
	Code       string      `arg:"" help:"The code on the pack."`
	Number     int64       `default:"1" help:"Which pack of that code (${default})."`
	Whole      unit.Mass   `required:"" help:"The whole pack, thawed, without its bag."`
	Drip       string      `placeholder:"G" help:"What ran out, in g; 0 for nothing."`
	Separation *unit.Share `placeholder:"N %" help:"How much of its height has separated, such as '3 %'."`
	Note       string      `placeholder:"TEXT" help:"What it looks like."`
	bySaid
}

func (c trialOpenCommand) Run(s *surroundings) error {
	h, t, err := c.find(s)
	if err != nil {
		return err
	}
	week, variant, err := readCode(t, c.Code)
	if err != nil {
		return err
	}
	b := record.TrialOpened{Trial: t.Name, Variant: t.Laid.Body.Variants[variant].Name, Week: week, Number: c.Number, Whole: c.Whole, Separation: c.Separation, Note: record.Text(c.Note)}
	if c.Drip != "" {
		grams, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(c.Drip, "g")), 64)
		if err != nil || grams < 0 {
			return failure{badUsage, "--drip " + c.Drip, "is no mass", "write grams, such as 12.5"}
		}
		d := record.Decimal(grams*1000 + 0.5)
		b.Drip = &d
	}
	return enterTrial(s, h, c.said(s, b), "week %d, %s: measured", week, c.Code)
}

type trialScoreCommand struct {
	trialArg
	Taster string   `arg:"" help:"Who tasted."`
	Code   string   `arg:"" help:"The code of what they tasted."`
	Points []string `arg:"" name:"figure=points" help:"Such as texture=8 flavour=7.5."`
	Note   string   `placeholder:"TEXT" help:"A word about it."`
	bySaid
}

func (c trialScoreCommand) Run(s *surroundings) error {
	h, t, err := c.find(s)
	if err != nil {
		return err
	}
	week, _, err := readCode(t, c.Code)
	if err != nil {
		return err
	}
	b := record.TrialScored{Trial: t.Name, Week: week, Taster: c.Taster, Code: c.Code, Note: record.Text(c.Note)}
	known := map[string]bool{}
	for _, f := range t.Laid.Body.Figures {
		known[f.Figure] = f.Unit == trials.Points
	}
	for _, text := range c.Points {
		figure, points, _ := strings.Cut(text, "=")
		p, err := strconv.ParseFloat(points, 64)
		if err != nil || !(p >= 0 && p <= trials.MostPoints) || !known[figure] {
			return failure{badUsage, text, "is not points for a figure that is scored", fmt.Sprintf("write figure=points from 0 to %d, such as texture=8", trials.MostPoints)}
		}
		b.Scores = append(b.Scores, record.Score{Figure: figure, Points: record.Decimal(p*1000 + 0.5)})
	}
	return enterTrial(s, h, c.said(s, b), "week %d, %s tasted %s", week, c.Taster, c.Code)
}

type trialCloseCommand struct {
	trialArg
	Adopt string `placeholder:"VARIANT" help:"The variant that the dish is made as from now on; nothing is taken over when left out."`
	Why   string `required:"" placeholder:"TEXT" help:"Why."`
	bySaid
}

func (c trialCloseCommand) Run(s *surroundings) error {
	h, t, err := c.find(s)
	if err != nil {
		return err
	}
	switch {
	case t.Closed != nil:
		return failure{mistakes, t.Name, "was closed before", "take that back first"}
	case c.Adopt != "" && t.VariantOf(c.Adopt) < 0:
		return failure{badUsage, c.Adopt, "the trial has no variant of that name", "kettlefrost trials show " + t.Name + " lists them"}
	}
	return enterTrial(s, h, c.said(s, record.TrialClosed{Trial: t.Name, Adopted: c.Adopt, Why: record.Text(c.Why)}), "trial %s is closed", t.Name)
}
