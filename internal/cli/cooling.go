package cli

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// coolingCommand is what cools in a production, and what can be done about it.
type coolingCommand struct {
	bookFlag
	Name string `arg:"" name:"run" help:"The production."`
	Task string `arg:"" optional:"" name:"task" help:"One load, by its task: with all that can be done about it."`
	JSON bool   `name:"json" help:"As JSON (kettlefrost.cooling/1)."`
}

// Help is the longer help of the command.
func (coolingCommand) Help() string {
	return `When each load that cools will be at the limits of the kitchen's rule, from what was read so far and the predicted curve of the way it is
cooled; and what can be done while there is time, each computed from the temperature of now:

    kettlefrost cooling tuesday-2026-12-01
    kettlefrost cooling tuesday-2026-12-01 lentil-squash/soup-chill/1

A forecast decides nothing: a reading at the limit in time does.`
}

// Run shows the loads.
func (c coolingCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	boards := app.NewBoards(h.records, h)
	p, err := boards.Production(s.ctx, c.Name, true)
	if unknown := (*app.UnknownRunError)(nil); errors.As(err, &unknown) {
		return failure{badUsage, "run", err.Error(), "kettlefrost board lists the productions"}
	}
	if err != nil {
		return err
	}
	report, err := boards.CoolingsReport(s.ctx, p, c.Task)
	if unknown := (*app.UnknownCoolingError)(nil); errors.As(err, &unknown) {
		return failure{badUsage, "task", err.Error(), "kettlefrost cooling " + c.Name + " lists what cools"}
	}
	if err != nil {
		return err
	}
	if c.JSON {
		return s.showJSON(report)
	}
	return s.show(coolingText(report, app.VoiceOf(p)))
}

// coolingText is what cools, for a terminal.
func coolingText(r app.CoolingsReport, v app.CoolVoice) string {
	var text strings.Builder
	if !r.Judged {
		return "The book does not say by what rules food is judged, so no cooling is followed: write safety: into kitchen.yaml.\n"
	}
	fmt.Fprintf(&text, "%s, by %s. It is %s.\n", r.Run, r.Title, v.Clock(r.Now))
	if len(r.Coolings) == 0 {
		text.WriteString("Nothing cools yet.\n")
	}
	for _, c := range r.Coolings {
		fmt.Fprintf(&text, "\n%s  %s: %s\n", c.Task, c.Label, strings.ToUpper(c.Headline))
		if c.Way != "" {
			fmt.Fprintf(&text, "  cooled by: %s\n", c.Way)
		}
		if c.Problem != "" {
			fmt.Fprintf(&text, "  %s\n", c.Problem)
		}
		for _, l := range c.Limits {
			fmt.Fprintf(&text, "  %s%s\n", l.Says, marginText(l.Margin))
		}
		if c.Due != 0 {
			fmt.Fprintf(&text, "  %s %s\n", map[bool]string{true: "A READING IS MISSING since", false: "read it by"}[c.Late], v.Clock(c.Due))
		}
		coolingActions(&text, c, v)
	}
	return text.String()
}

func coolingActions(text *strings.Builder, c app.CoolingReport, v app.CoolVoice) {
	if c.Do != "" {
		fmt.Fprintf(text, "  now: %s. %s\n", strings.TrimSuffix(c.Do, "."), c.DoWhy)
	}
	for _, a := range c.Actions {
		fmt.Fprintf(text, "  - %s (%s): %s%s%s\n", a.Name, a.Outcome, a.Says, untilText(a.Latest, v), partText(a.Part))
	}
	for _, r := range c.Remedies {
		fmt.Fprintf(text, "  allowed: %s. %s%s\n", r.Remedy, cmp.Or(r.Source, "nothing is published with this rule: a named person and the authority decide"), map[bool]string{true: " (from memory)"}[r.Memory])
	}
}

func marginText(s *float64) string {
	if s == nil {
		return ""
	}
	by := (time.Duration(*s) * time.Second).Round(time.Minute)
	if by < 0 {
		return fmt.Sprintf("; at worst %d min too late", int(-by.Minutes()))
	}
	return fmt.Sprintf("; at worst %d min to spare", int(by.Minutes()))
}

func untilText(at record.Instant, v app.CoolVoice) string {
	if at == 0 {
		return ""
	}
	return " Until " + v.Clock(at) + "."
}

func partText(part float64) string {
	if part >= 1 {
		return ""
	}
	return fmt.Sprintf(" For %d %% of it.", int(100*part))
}
