package cli

import (
	"errors"
	"fmt"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

// disperseCommand gets a powder into a dish.
type disperseCommand struct {
	bookFlag
	bookWrite
	Dish string `arg:"" help:"The dish."`
	Of   string `arg:"" help:"The gum, starch or emulsifying salt: an ingredient of the book."`
	Dose string `placeholder:"DOSE" help:"How much, as the dish is written: 22g, 0.2%, '0.5 g per cup'; what the dish has when left out."`
	Way  string `placeholder:"WAY" help:"pre-hydrate, oil-slurry, dry-blend, cold-slurry or dissolve; the best that can be done when left out."`
	Into string `placeholder:"STEP" help:"The step of the pot that it goes into."`
	With string `placeholder:"INGREDIENT" help:"The liquid to hold back, or what it is mixed with."`
	In   string `name:"run" placeholder:"NAME" help:"Plan it in this run of the book; the dish alone, as it is written, when left out."`
	JSON bool   `name:"json" help:"As JSON (kettlefrost.disperse/1)."`
}

// Help is the longer help of the command.
func (disperseCommand) Help() string {
	return `Steps of the dish by which a powder gets into the pot without lumps: liquid of the dish is held back, blended with the powder in the kitchen's own
jar, and stirred in; nothing is added but the powder. The dish is planned with and without it: how much longer the day takes, how many jars, what the
label says. What a dish does already is looked at. --write puts it into the dish.`
}

// Run works it out.
func (c disperseCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	if _, err := h.sound(s); err != nil {
		return err
	}
	d, err := h.Disperse(s.ctx, app.DisperseTyped{Dish: c.Dish, Of: c.Of, Dose: c.Dose, Way: c.Way, Into: c.Into, With: c.With, Run: c.In})
	if wrong, ok := errors.AsType[*dispersal.InputError](err); ok {
		return failure{badUsage, "", wrong.What + " " + wrong.Reason, wrong.Fix}
	}
	if wrong, ok := errors.AsType[*dosing.InputError](err); ok {
		return failure{mistakes, "", wrong.What + " " + wrong.Reason, wrong.Fix}
	}
	if err != nil {
		return failure{code: mistakes, what: err.Error()}
	}
	v := d.View()
	if c.JSON {
		if err := s.showJSON(v); err != nil {
			return err
		}
	} else if err := s.show(disperseText(v, d.Book.Kitchen.Units)); err != nil {
		return err
	}
	if !c.Write || !v.Changes {
		return nil
	}
	return c.make(s, h, app.DisperseChange(d.Worked))
}

// disperseText is it as text.
func disperseText(v app.DisperseView, units unit.System) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%s\n", v.Says)
	line("%s of %s, %s: a mix of %s, %.2f %% of it powder", dosing.Grams(v.Mass), v.Powder, v.WayWords, v.Mix.Show(units), 100*v.Share)
	if v.Jar != "" && len(v.Loads) > 0 {
		line("%s: filled %s with %s of liquid and %s of powder, as the dish is written", v.Jar, timesFilled(len(v.Loads)), v.Loads[0].Liquid.Show(units), dosing.Grams(v.Loads[0].Powder))
	}
	for _, h := range v.Held {
		left := "none is left there"
		if h.Left != "" {
			left = h.Left + " are left there"
		}
		line("held back from %s: %s of %s; %s", h.From, h.Amount, h.Name, left)
	}
	for i, x := range v.Do {
		line("  %d. %s", i+1, x.Says)
	}
	for _, a := range v.Asks {
		line("? %s Taken meanwhile: %s", a.Asks, a.Assumed)
	}
	for _, f := range v.Found {
		line("%s: %s (%s)", f.Severity, f.Message, f.Fix)
	}
	for _, o := range v.Others {
		if o.Not == "" {
			line("also: %s (--way %s)", o.Words, o.Way)
		} else {
			line("not %s: %s", o.Words, o.Not)
		}
	}
	if v.Then != nil {
		line("\nPlanned: %s", v.Run)
		dayText(line, v, units)
	}
	for _, f := range v.Files {
		line("\n%s", f.Name)
		for _, l := range f.Lines {
			if !strings.HasPrefix(l, "@") {
				line("%s %s", l[:1], l[1:])
			}
		}
	}
	return b.String()
}

// dayText is the day with it, and what is otherwise than without.
func dayText(line func(string, ...any), v app.DisperseView, units unit.System) {
	t := v.Then
	if t.Jars > 0 {
		line("  step %s: %d × %s, at %s, %s each", v.Step, t.Jars, t.Each.Show(units), t.Starts, t.Time)
	}
	line("  hands on it:   %s%s", t.Hands, more(v.Hands))
	line("  the day:       %s to %s, %s%s", t.Start, t.End, t.Length, more(v.Longer))
	line("  ingredients:   %s", t.Label)
}

func timesFilled(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

func more(by unit.Span) string {
	switch {
	case by > 0:
		return fmt.Sprintf(" (%s more)", by)
	case by < 0:
		return fmt.Sprintf(" (%s less)", -by)
	}
	return ""
}
