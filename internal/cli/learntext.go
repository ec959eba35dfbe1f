package cli

import (
	"cmp"
	"fmt"
	"strings"
	"text/tabwriter"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/record"
)

func dishID(name string) kitchen.DishID { return kitchen.DishID(name) }

// lessonsText is what runs say of a dish, or of all; figures that stay only when they are asked for.
func lessonsText(x app.Lessons, dish string, all bool) string {
	var text strings.Builder
	fmt.Fprintf(&text, "From %d runs that are over.\n", len(x.Runs))
	w := tabwriter.NewWriter(&text, 0, 8, 2, ' ', 0)
	stay, nothing := 0, 0
	for _, f := range x.Figures {
		if dish != "" && f.Dish != dish {
			continue
		}
		decide := f.Changes() || f.State == learned.Waiting
		switch {
		case len(f.Seen) == 0:
			nothing++
		case !decide:
			stay++
		}
		if decide || all {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", f.Key, moveText(f), fmt.Sprintf("%d runs", f.Counted()), asideText(f))
		}
	}
	w.Flush() // a builder takes everything
	for _, e := range x.Unread {
		fmt.Fprintf(&text, "not read: %s: %s\n", e.Run, e.Why)
	}
	if !all {
		fmt.Fprintf(&text, "%d more were seen and stay; of %d nothing was learned: --all shows them.\n", stay, nothing)
	}
	return text.String()
}

func moveText(f learned.Figure) string {
	before := cmp.Or(f.Before, "no figure")
	switch {
	case f.State == learned.Waiting:
		return before + " → " + f.Said[0].Body.After
	case f.Changes():
		return before + " → " + f.After
	}
	return before
}

func asideText(f learned.Figure) string {
	switch {
	case len(f.Seen) == 0 && f.WhyNot != "":
		return "nothing learned: " + f.WhyNot
	case len(f.Seen) == 0 && len(f.Excluded) > 0:
		return "nothing learned: " + f.Excluded[len(f.Excluded)-1].Why
	case len(f.Asked) > 0:
		return string(f.State) + fmt.Sprintf("; %d far off", len(f.Asked))
	}
	return string(f.State)
}

// lessonText is one figure, and what each run says of it.
func lessonText(x app.Lessons, f learned.Figure) string {
	var text strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&text, format+"\n", args...) }
	units := x.Book.Kitchen.Units
	what, of := f.Words(x.Book)
	line("%s: %s", f.Key, what)
	line("  %s", of)
	line("  %s (%s)", moveText(f), f.State)
	if f.Counted() > 0 {
		low, high, cover := f.True()
		line("  %d runs of %s weigh %.0f %% against %s", f.Counted(), f.Show(f.OfRuns(), units), 100*f.Weight(), f.Source)
		if f.State != learned.TooFew && cover > 0 {
			line("  truly between %s and %s, nine times of ten", f.Show(low, units), f.Show(high, units))
		}
	}
	if f.WhyNot != "" {
		line("  %s", f.WhyNot)
	}
	if len(f.With) > 0 {
		line("  the same weighings may mean %s", strings.Join(f.With, " or "))
	}
	for _, s := range f.Seen {
		word := ""
		if s.LeftOut != "" {
			word = "; left out: " + s.LeftOut
		}
		line("  %s  %s: %s%s", s.Run, f.Show(s.Value, units), strings.Join(append([]string{s.Of}, s.Notes...), "; "), word)
	}
	for _, a := range f.Asked {
		line("? %s: %s. What happened? Without it %s. (--leave-out %s --why TEXT)", a.Run, strings.Join(a.Why, ", and "), f.Show(a.Without, units), a.Run)
	}
	for _, e := range f.Excluded {
		line("  not learned from %s: %s", e.Run, e.Why)
	}
	for _, s := range f.Said {
		word := "accepted"
		if s.Body.Outcome == record.Refused {
			word = "refused"
		}
		line("  %s %s %s in place of %s, from %d runs", s.Entry.Who, word, s.Body.After, s.Body.Before, len(s.Body.Runs))
	}
	return text.String()
}
