package cli

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
)

// safetyCommand is the critical records and what is decided on them.
type safetyCommand struct {
	Show   showSafetyCommand `cmd:"" default:"withargs" help:"What is open: the critical records of each run, which lots they hold, and why; as text or JSON."`
	Decide decideCommand     `cmd:"" help:"Enter what becomes of a lot that its critical records hold: released, made again or thrown away, with a reason."`
}

// showSafetyCommand tells how critical records stand.
type showSafetyCommand struct {
	bookFlag
	Of   string `arg:"" optional:"" help:"One run, with each of its records."`
	JSON bool   `name:"json" help:"As JSON (kettlefrost.safety/1; kettlefrost.safety-run/1 of one run, with every reading)."`
}

// Help is the longer help of the command.
func (showSafetyCommand) Help() string {
	return `A run is judged by the book's rules (safety:) if it is of the day from which lots are judged, or later. Without safety: nothing is judged.
A record that is passed says that its readings meet its rule, and nothing else. The command ends with 4 as long as a lot is held.`
}

func (c showSafetyCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	x, err := h.records.Safety(s.ctx)
	if err != nil {
		return err
	}
	if c.Of != "" {
		return c.showRun(s, x)
	}
	if c.JSON {
		err = s.showJSON(x.Short())
	} else {
		err = s.show(safetyText(x))
	}
	return cmp.Or(err, heldOutcome(x.Runs, len(x.GoodsHeld)))
}

// heldOutcome is a failure as long as something is held.
func heldOutcome(runs []app.SafetyRun, goods int) error {
	held := goods
	for _, run := range runs {
		held += run.Held()
	}
	if held == 0 {
		return nil
	}
	what := "1 lot is held for its critical records"
	if held > 1 {
		what = fmt.Sprintf("%d lots are held for their critical records", held)
	}
	return failure{code: stopped, what: what, fix: "kettlefrost safety decide LOT, when a named person has decided"}
}

func (c showSafetyCommand) showRun(s *surroundings, x app.Safety) error {
	i := slices.IndexFunc(x.Runs, func(run app.SafetyRun) bool { return run.Run == c.Of })
	switch {
	case !x.Judged:
		return failure{badUsage, c.Of, "the book does not say by what rules lots are judged, so nothing is judged", "write safety: into the book"}
	case i < 0:
		return failure{badUsage, c.Of, "nothing was entered of a run of that name", "kettlefrost board lists the runs"}
	}
	var err error
	if c.JSON {
		err = s.showJSON(x.Runs[i].Sheet())
	} else {
		err = s.show(runText(x.Runs[i]))
	}
	return cmp.Or(err, heldOutcome(x.Runs[i:i+1], 0))
}

// safetyText is everything in short.
func safetyText(x app.Safety) string {
	if !x.Judged {
		return "The book does not say by what rules of food safety lots are judged (safety:). Nothing is judged, and no lot is held for its records.\n"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Rules of %s, cooling by %s, lots of runs from %s on.\n", x.Jurisdiction, x.Cooling, cmp.Or(string(x.From), "the first"))
	for _, run := range x.Runs {
		switch {
		case !run.Judged:
			fmt.Fprintf(&b, "\n%s (%s): not judged, it is of a day before\n", run.Run, run.Day)
			continue
		case len(run.Verdicts) == 0:
			fmt.Fprintf(&b, "\n%s (%s): no critical records\n", run.Run, run.Day)
			continue
		}
		troubles, open := run.Troubles()
		fmt.Fprintf(&b, "\n%s (%s): %d records, %d not passed, %d still to come, %d lots held\n", run.Run, run.Day, len(run.Verdicts), troubles, open, run.Held())
		for _, v := range run.Verdicts {
			if v.Troubles() && v.Why != critical.WhyNotYet {
				recordText(&b, v)
			}
		}
		heldText(&b, run.Lots)
	}
	for _, v := range x.Goods {
		recordText(&b, v)
	}
	heldText(&b, x.GoodsHeld)
	return b.String()
}

// runText is one run with each of its records.
func runText(run app.SafetyRun) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n", run.Run, run.Day)
	for _, v := range run.Verdicts {
		recordText(&b, v)
		for _, r := range v.Rules {
			fmt.Fprintf(&b, "      %s: %s\n", r.Title, r.Outcome)
		}
		if v.Growth != nil {
			fmt.Fprintf(&b, "      growth, %s: %.1f to %.1f tenfolds\n", v.Growth.Note, v.Growth.Least, v.Growth.Most)
		}
	}
	heldText(&b, run.Lots)
	return b.String()
}

func recordText(b *strings.Builder, v critical.Verdict) {
	load := ""
	if v.Loads > 1 {
		load = fmt.Sprintf(", load %d of %d", v.Load, v.Loads)
	}
	fmt.Fprintf(b, "  %s  %s%s: %s\n", strings.ToUpper(string(v.Outcome)), strings.TrimRight(v.Title, "."), load, v.Says)
	if v.Fix != "" {
		fmt.Fprintf(b, "      %s\n", v.Fix)
	}
	fmt.Fprintf(b, "      %s\n", v.Point)
}

func heldText(b *strings.Builder, lots []app.SafetyLot) {
	for _, l := range lots {
		for _, h := range l.Holds {
			fmt.Fprintf(b, "  HELD  lot %s %s%s\n", l.Lot, l.What, prefixed(" packs ", h.Numbers)+prefixed("; decided: ", string(h.Decided)))
		}
		for _, d := range l.Decisions {
			fmt.Fprintf(b, "  %s  lot %s, by %s at %s: %s\n", d.Disposition, l.Lot, d.Who, clockHere(d.At), d.Why)
		}
	}
}

func prefixed(lead, text string) string {
	if text == "" {
		return ""
	}
	return lead + text
}

// decideCommand enters a decision on a lot that is held for its records.
type decideCommand struct {
	bookFlag
	Lot   record.Lot         `arg:"" help:"The lot."`
	As    record.Disposition `required:"" enum:"release,rework,destroy" help:"What becomes of it: release, rework or destroy."`
	Why   string             `required:"" help:"The reason: an inspector will read it."`
	Packs string             `placeholder:"NUMBERS" help:"Only these packs, such as 1-12; all of it when left out."`
	Who   string             `required:"" help:"Who decides."`
	At    time.Time          `help:"When it was decided; now when left out."`
}

func (c decideCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	numbers, err := record.ParseNumbers(c.Packs)
	if c.Packs != "" && err != nil {
		return failure{badUsage, "--packs", err.Error(), "write them as 1-12, 15"}
	}
	x, err := h.records.Safety(s.ctx)
	if err != nil {
		return err
	}
	var points []string
	for _, l := range x.AllLots() {
		for _, hold := range l.Holds {
			if l.Lot == c.Lot {
				points = append(points, hold.Points...)
			}
		}
	}
	if len(points) == 0 {
		return failure{badUsage, string(c.Lot), "it is not held for any critical record", "kettlefrost safety lists what is held"}
	}
	at := c.At
	if at.IsZero() {
		at = s.now()
	}
	body := record.Released{Lot: c.Lot, Numbers: numbers, Points: points, Disposition: c.As, Why: c.Why}
	if _, err := h.records.Enter(s.ctx, app.Said{Who: c.Who, Device: "command line", At: at, Body: body}); err != nil {
		return failure{code: failed, what: err.Error()}
	}
	return s.show(fmt.Sprintf("%s: %s, for\n  %s\n", c.Lot, c.As, strings.Join(points, "\n  ")))
}
