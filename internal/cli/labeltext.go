package cli

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/nutrition"
)

// labelListText is how labels stand, for a terminal.
func labelListText(list app.LabelList) string {
	var t strings.Builder
	if list.Says != "" {
		fmt.Fprintf(&t, "%s\n\n", list.Says)
	}
	for _, c := range list.Changed {
		fmt.Fprintf(&t, "%s: lot %s of %s, %d packs on hand, carries an old label:\n", strings.ToUpper(c.Worst), c.Lot, c.Pack, c.OnHand)
		if c.Gone {
			t.WriteString("  the pack is no longer in the book, or cannot be made\n")
		}
		for _, x := range c.Changes {
			fmt.Fprintf(&t, "  %s\n", x.Says())
		}
		t.WriteString("\n")
	}
	for _, p := range list.Packs {
		word := "prints"
		if !p.Prints {
			word = "withheld"
		}
		fmt.Fprintf(&t, "%-9s %s: %s\n", word, p.Pack, p.Name)
		t.WriteString(openText(p.Open))
		for _, l := range p.Lots {
			fmt.Fprintf(&t, "  lot %s: %s", l.Lot, countText(l.Count))
			if len(l.Held) > 0 {
				fmt.Fprintf(&t, "; on hold: %s", l.Held[0].Why)
			}
			t.WriteString("\n")
		}
	}
	return t.String()
}

func openText(open finding.List) string {
	var t strings.Builder
	for _, f := range open {
		at := ""
		if f.At != nil {
			at = f.At.String() + ": "
		}
		fmt.Fprintf(&t, "  %s: %s%s: %s (%s)\n", f.Severity, at, f.Where, f.Message, f.Fix)
	}
	return t.String()
}

func countText(c app.LabelCount) string {
	text := fmt.Sprintf("%d packs, %d labels printed", c.Packs, c.Printed)
	if c.Replaced > 0 {
		text += fmt.Sprintf(", %d of them in place of others", c.Replaced)
	}
	switch {
	case c.Difference < 0:
		text += fmt.Sprintf("; %d packs have none", -c.Difference)
	case c.Difference > 0:
		text += fmt.Sprintf("; %d labels too many", c.Difference)
	}
	return text
}

// labelText is a label and what it rests on.
func labelText(x app.LabelSheet) string {
	var t strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&t, format+"\n", args...) }
	line("%s, %s, %s, on %s", x.Name, x.Regime, x.Language, x.Stock.Name)
	if x.Stops != "" {
		line("NOT PRINTED: %s", x.Stops)
	}
	if x.Count != nil {
		line("lot %s: %s", x.Lot, countText(*x.Count))
	}
	line("%s", x.Net.Says)
	line("\n%s", x.Statement)
	if x.Contains != "" {
		line("%s", x.Contains)
	}
	for _, a := range x.Allergens {
		line("  %s: from %s", a.Name, strings.Join(a.From, ", "))
	}
	for _, u := range x.Unanswered {
		line("  not answered: %s", u)
	}
	for _, tie := range x.Ties {
		line("  nearly the same: %s and %s", tie.First, tie.Second)
	}
	if len(x.Nutrition) > 0 {
		line("\nA serving is %s", x.Serving)
		w := tabwriter.NewWriter(&t, 0, 0, 2, ' ', 0)
		fmt.Fprintln(w, "nutrient\ta serving\t100 g\tprinted")
		for _, n := range x.Nutrition {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s %s\n", n.Name, n.Serving, n.Hundred, n.Printed, n.Percent)
		}
		w.Flush() // writing to a builder never fails
		line("energy of 100 g: %s by the factors, %s by the table: %s", x.Energy.Factors, x.Energy.Table, x.Energy.Says)
	}
	line("\n%s", x.Agency.Asks)
	if len(x.Open) > 0 {
		line("\nWhat is open:\n%s", strings.TrimRight(openText(x.Open), "\n"))
	}
	for _, w := range x.Ways {
		line("%s: %s", map[bool]string{true: "would do", false: "does not do"}[w.Does], w.Says)
	}
	if len(x.Advice) > 0 {
		line("\nTo think of:\n%s", strings.TrimRight(openText(x.Advice), "\n"))
	}
	return t.String()
}

// referencesText lists reference amounts.
func referencesText(all []nutrition.Reference) string {
	var t strings.Builder
	w := tabwriter.NewWriter(&t, 0, 0, 2, ' ', 0)
	for _, r := range all {
		much := r.Mass.Fine()
		if r.Mass == 0 {
			much = fmt.Sprintf("%.0f ml", r.ML)
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", r.Code, much, r.Agency, r.Product)
	}
	w.Flush() // writing to a builder never fails
	return t.String()
}

// stocksText lists labels.
func stocksText(all []app.LabelStock) string {
	var t strings.Builder
	w := tabwriter.NewWriter(&t, 0, 0, 2, ' ', 0)
	for _, s := range all {
		on := "roll"
		if s.Sheet {
			on = fmt.Sprintf("%d to a sheet", s.Per)
		}
		fmt.Fprintf(w, "%s\t%.4g x %.4g mm\t%s\t%s\n", s.Name, s.WideMm, s.HighMm, on, s.Source)
	}
	w.Flush() // writing to a builder never fails
	return t.String()
}
