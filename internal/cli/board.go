package cli

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"text/tabwriter"

	"kettlefrost/internal/app"
)

// boardCommand is a production as it happens.
type boardCommand struct {
	bookFlag
	Name   string `arg:"" optional:"" name:"run" help:"The production; without it those that there are are listed."`
	Begin  string `name:"open" placeholder:"NAME" help:"Open a production of this run of the book, called RUN or after run and day."`
	Day    string `placeholder:"DATE" help:"The day on which the one that is opened begins; today when left out."`
	Person string `placeholder:"NAME" help:"Only what this person has to do, and what nobody's hands are needed for."`
	Who    string `placeholder:"NAME" help:"Who opens it."`
	JSON   bool   `name:"json" help:"As JSON (kettlefrost.board/1)."`
}

// Help is the longer help of the command.
func (boardCommand) Help() string {
	return `What each does now and next, what is under way and what waits, by what was entered; the rest of the day timed again:

    kettlefrost board --open tuesday --day 2026-12-01 --who Ada
    kettlefrost board tuesday-2026-12-01
    kettlefrost record enter started '{"run":"tuesday-2026-12-01","task":"bean-pot/soak/1"}' --who Ada
    kettlefrost record enter closed '{"run":"tuesday-2026-12-01"}' --who Ada`
}

// Run shows, lists or opens.
func (c boardCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	boards := app.NewBoards(h.records, h)
	switch {
	case c.Begin != "":
		return c.begin(s, boards, h)
	case c.Name == "":
		return c.list(s, boards)
	}
	p, err := boards.Production(s.ctx, c.Name, true)
	if unknown := (*app.UnknownRunError)(nil); errors.As(err, &unknown) {
		return failure{badUsage, "run", err.Error(), "kettlefrost board lists the productions"}
	}
	if err != nil {
		return err
	}
	report := app.BoardReport(p)
	if c.JSON {
		return s.showJSON(report)
	}
	return s.show(boardText(report, c.Person))
}

// begin opens a production.
func (c boardCommand) begin(s *surroundings, boards *app.Boards, h house) error {
	if c.Who == "" {
		return failure{badUsage, "--who", "nobody says who opens it", "give --who NAME"}
	}
	opened, err := boards.Opening(s.ctx, c.Begin, c.Day, c.Name)
	if err != nil {
		return failure{code: badUsage, place: "--open " + c.Begin, what: err.Error()}
	}
	if _, err := h.records.Enter(s.ctx, app.Said{Who: c.Who, Device: "command line", At: s.now(), Body: opened}); err != nil {
		return failure{code: badUsage, place: "opened", what: err.Error()}
	}
	return s.show(opened.Run + "\n")
}

func (c boardCommand) list(s *surroundings, boards *app.Boards) error {
	runs, err := boards.Runs(s.ctx)
	if err != nil {
		return err
	}
	lines := []Board{}
	for _, r := range runs {
		_, opened, _ := r.Opened()
		lines = append(lines, Board{r.Name, opened.Request, opened.Day, r.Open()})
	}
	if c.JSON {
		return s.showJSON(Boards{boardsSchema, lines})
	}
	var text strings.Builder
	w := tabwriter.NewWriter(&text, 0, 8, 2, ' ', 0)
	for _, l := range lines {
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", l.Run, l.Request, l.Day, map[bool]string{true: "open", false: "closed"}[l.Open])
	}
	w.Flush() // a builder takes everything
	return s.show(cmp.Or(text.String(), "No production was opened yet.\n"))
}

// boardText is a board for a terminal.
func boardText(r app.Report, person string) string {
	var text strings.Builder
	fmt.Fprintf(&text, "%s, %s: %s. It is %s; it ends at %s, planned %s.\n", r.Run, r.Day, map[bool]string{true: "open", false: "closed"}[r.Open], r.Now, r.End, r.Planned)
	for _, c := range r.Columns {
		if person != "" && c.Person != "" && !strings.EqualFold(c.Person, person) || len(c.UnderWay)+len(c.Now)+len(c.Next)+len(c.Waiting) == 0 {
			continue
		}
		fmt.Fprintf(&text, "\n%s\n", cmp.Or(c.Person, "Anybody"))
		w := tabwriter.NewWriter(&text, 0, 8, 2, ' ', 0)
		for _, part := range []struct {
			name  string
			tasks []app.ReportTask
		}{{"under way", c.UnderWay}, {"now", c.Now}, {"next", c.Next}, {"waits", c.Waiting}} {
			for _, t := range part.tasks {
				fmt.Fprintf(w, "  %s\t%s–%s\t%s\t%s\t%s\n", part.name, t.Start, t.End, t.Task, strings.TrimRight(t.Label, ". "), aside(t))
			}
		}
		w.Flush()
	}
	if len(r.Over) > 0 {
		fmt.Fprintf(&text, "\nDone: %d; last %s by %s at %s\n", len(r.Over), r.Over[0].Task, strings.Join(r.Over[0].Who, ", "), r.Over[0].End)
	}
	for _, f := range r.Findings {
		fmt.Fprintf(&text, "\n%s: %s: %s\n  %s\n", strings.ToUpper(f.Severity.String()), f.Where, f.Message, f.Fix)
	}
	return text.String()
}

func aside(t app.ReportTask) string {
	switch {
	case t.Due != nil:
		return "by " + strings.Join(t.Who, ", ") + ", due " + t.Due.String()
	case len(t.Waits) > 0:
		return "for: " + strings.Join(t.Waits, "; ")
	}
	return ""
}
