package cli

import (
	"cmp"
	"fmt"
	"strings"
	"text/tabwriter"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/retained"
)

// retainedText is what is kept and what was found. Names are of the packs.
func retainedText(v app.RetainedSheet, names map[string]string) string {
	var text strings.Builder
	name := func(pack string) string { return cmp.Or(names[pack], pack) }
	openings := func(head string, all []retained.Opening) {
		if len(all) == 0 {
			return
		}
		fmt.Fprintf(&text, "%s\n", head)
		table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
		for _, o := range all {
			var places []string
			for _, p := range o.Places {
				places = append(places, string(p))
			}
			gone := ""
			if o.Gone > 0 {
				gone = fmt.Sprintf("%d gone", o.Gone)
			}
			fmt.Fprintf(table, "  %s\t%s\t%s\t%s\t%s\t%s\n", o.Day, name(o.Set.Pack), o.Set.Lot, cmp.Or(o.Which.String(), "-"), cmp.Or(strings.Join(places, ", "), "-"), gone)
		}
		table.Flush() // into memory it cannot fail
		text.WriteByte('\n')
	}
	openings("To be opened now", v.Due)
	openings("Later", v.Ahead)
	openings("No pack is left for it", v.Lost)
	if len(v.Due)+len(v.Ahead) == 0 {
		text.WriteString("No pack is kept to be opened.\n\n")
	}
	if len(v.Tasted) > 0 {
		text.WriteString("What was found\n")
		table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
		for _, t := range v.Tasted {
			weeks := "?"
			if t.Weeks >= 0 {
				weeks = fmt.Sprintf("week %d", t.Weeks)
			}
			fmt.Fprintf(table, "  %s\t%s\t%s\t%s\t%s\t%s\t%s\n", dayHere(t.At), name(t.Pack), t.Lot, cmp.Or(t.Numbers.String(), "?"), weeks, t.Verdict, foundText(t))
		}
		table.Flush() // into memory it cannot fail
	}
	findingLines(&text, v.Findings)
	return trimmedLines(text.String())
}

// foundText is what was measured, and the note.
func foundText(t retained.Tasting) string {
	var parts []string
	if share, ok := t.DripShare(); ok {
		parts = append(parts, fmt.Sprintf("%.1f g ran out, %.1f %%", *t.DripG, 100*share))
	}
	if t.Separation != nil {
		parts = append(parts, t.Separation.String()+" separated")
	}
	for _, x := range t.Scores {
		parts = append(parts, fmt.Sprintf("%s %.3g", x.Figure, x.Points))
	}
	if t.Note != "" {
		parts = append(parts, strings.Join(strings.Fields(string(t.Note)), " "))
	}
	return strings.Join(parts, "; ")
}

// findingLines puts each finding on a line.
func findingLines(text *strings.Builder, all finding.List) {
	for _, f := range all {
		fmt.Fprintf(text, "%s %s: %s: %s", f.Severity, f.Code, f.Where, f.Message)
		if f.Fix != "" {
			text.WriteString(" – " + f.Fix)
		}
		text.WriteByte('\n')
	}
}

// weeksOr is so many weeks, or what stands for none.
func weeksOr(n int, none string) string {
	switch n {
	case 0:
		return none
	case 1:
		return "1 week"
	}
	return fmt.Sprintf("%d weeks", n)
}

// supportedText is what is supported, in short.
func supportedText(p app.PackKeeping) string {
	if !p.Proposal.Known {
		return "not known"
	}
	return weeksOr(p.Proposal.Weeks, "0 weeks")
}

// keepingText is every kind of pack in a line, and what is found.
func keepingText(v app.KeepingSheet) string {
	var text strings.Builder
	table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "pack\tthe book\tsupported\theld back by")
	for _, p := range v.Packs {
		by, _ := p.Proposal.Limiting()
		alone := ""
		if p.Proposal.Alone {
			alone = ", published alone"
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s%s\n", p.Pack, weeksOr(p.Weeks, "-"), supportedText(p), cmp.Or(by.Name, "nothing is known"), alone)
	}
	table.Flush() // into memory it cannot fail
	text.WriteByte('\n')
	findingLines(&text, v.Findings)
	fmt.Fprintf(&text, "%s\n", v.Says)
	return trimmedLines(text.String())
}

// packKeepingText is one kind of pack with everything that supports it.
func packKeepingText(p app.PackKeeping) string {
	var text strings.Builder
	fmt.Fprintf(&text, "%s\nsupported: %s\nthe book:  %s", cmp.Or(p.Name, p.Pack), supportedText(p), weeksOr(p.Weeks, "-"))
	if p.Source != "" {
		fmt.Fprintf(&text, " (%s)", p.Source)
	}
	text.WriteString("\n\n")
	for _, s := range p.Proposal.Supports {
		mark := " "
		switch {
		case s.Limits:
			mark = "*"
		case !s.Counts:
			mark = "-"
		}
		fmt.Fprintf(&text, "%s %s: %s\n  Source: %s\n", mark, weeksOr(s.Weeks, "0 weeks"), s.Says, s.Source)
	}
	if len(p.Proposal.Supports) == 0 {
		text.WriteString("No pack of it was opened, and nothing is published of a food of its kind.\n")
	} else {
		text.WriteString("(* limits it; - does not count)\n")
	}
	if len(p.Lots) > 0 {
		text.WriteString("\nIn stock\n")
		table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
		fmt.Fprintln(table, "  lot\tpacked\ton the bags\tsupported until\tpacks\tkept\tpromised")
		for _, l := range p.Lots {
			promised := int64(0)
			for _, o := range l.Promised {
				promised += o.Numbers.Count()
			}
			beyond := ""
			if l.Beyond > 0 {
				beyond = fmt.Sprintf(" (%d days less)", l.Beyond)
			}
			fmt.Fprintf(table, "  %s\t%s\t%s\t%s%s\t%d\t%d\t%d\n", l.Lot, l.Packed, l.BestBefore, cmp.Or(string(l.Until), "-"), beyond, l.Packs, l.Kept, promised)
		}
		table.Flush() // into memory it cannot fail
	}
	fmt.Fprintf(&text, "\n%s\n", app.KeepingNotSafety)
	return trimmedLines(text.String())
}

// publishedText is the published table with its sources.
func publishedText() string {
	var text strings.Builder
	table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "row\tfood, at 0 °F (-18 °C)\tkeeps\tsource")
	for _, p := range keeping.Table() {
		source := p.Source
		if p.Memory {
			source += "; shown, never counted"
		}
		if p.Note != "" {
			source += "; " + p.Note
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\n", p.Class, p.Name, p.MonthsText(), source)
	}
	table.Flush() // into memory it cannot fail
	return trimmedLines(text.String()) + "The charts are for household freezers and packaging. " + app.KeepingNotSafety + "\n"
}
