package cli

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"kettlefrost/internal/app"
	"kettlefrost/internal/find"
)

// findCommand finds anything of a kitchen.
type findCommand struct {
	bookFlag
	Words []string `arg:"" help:"Words, a number, a date, a code, or what a scanner read. All words must fit."`
	Kind  string   `placeholder:"KIND" help:"Only these: dish, pack, lot, order, customer, invoice, ingredient, food…; every one that was found is then listed, up to 500."`
	JSON  bool     `name:"json" help:"As JSON (kettlefrost.found/1)."`
}

// Help is the longer help of the command.
func (findCommand) Help() string {
	return `Looks through the book (dishes, steps, packs, ingredients, suppliers, equipment, people, runs), the composition table, and the records if they are kept
(productions, lots, orders, customers, invoices, trials, who may sign in). Capitals, accents and a slip of the pen do not matter. The best come first:

    kettlefrost find chedar soup
    kettlefrost find P-1201
    kettlefrost find 2026-12-01 --kind lot
    kettlefrost find '#17'
    kettlefrost find '(01)09501101530003(10)P-1201-3(21)17'`
}

// listedOfAKind is how many of each kind are listed when all kinds are.
const listedOfAKind = 8

// Run finds.
func (c findCommand) Run(s *surroundings) error {
	if c.Kind != "" && !slices.Contains(find.Kinds, find.Kind(c.Kind)) {
		return failure{badUsage, "--kind " + c.Kind, "nothing is of that kind", "give one of: " + kindsThere()}
	}
	h, err := c.open(s)
	if err != nil {
		return err
	}
	var boards *app.Boards
	if h.records != nil {
		boards = app.NewBoards(h.records, h)
	}
	found, err := app.NewFinder(h, h.records, boards).Find(s.ctx, app.FindAsk{Words: strings.Join(c.Words, " "), Kind: find.Kind(c.Kind)})
	switch {
	case err != nil:
		return err
	case c.JSON:
		return s.showJSON(found)
	case found.Total == 0 && found.Lot == "":
		s.say("nothing was found: %q (all words must fit; try fewer)", found.Asked)
		return nil
	}
	return s.show(findText(found, c.Kind == ""))
}

func kindsThere() string {
	var all []string
	for _, k := range find.Kinds {
		all = append(all, string(k))
	}
	return strings.Join(all, ", ")
}

// findText is what was found, by kind; of many kinds, some of each.
func findText(v app.FoundSheet, several bool) string {
	var b strings.Builder
	if v.Lot != "" {
		fmt.Fprintf(&b, "It is lot %s: kettlefrost trace %q\n", v.Lot, v.Lot)
	}
	for _, g := range v.Groups {
		rows := g.Results
		if several {
			rows = rows[:min(len(rows), listedOfAKind)]
		}
		fmt.Fprintf(&b, "%s (%d)\n", g.Kind, g.Total)
		w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		for _, x := range rows {
			fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n", x.ID, x.Name, x.Day, x.About)
		}
		w.Flush() // a strings.Builder takes everything
		if len(rows) < g.Total {
			fmt.Fprintf(&b, "  and %d more: --kind '%s'\n", g.Total-len(rows), g.Kind)
		}
	}
	if v.Total > v.Listed {
		fmt.Fprintf(&b, "%d were found; the best %d count here. Another word makes them fewer.\n", v.Total, v.Listed)
	}
	return b.String()
}
