package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
)

// TrialsText is how all trials stand.
func TrialsText(r trials.ListReport) string {
	w := listWriter("Trials on "+string(r.Day), r.Misfits, unit.Metric)
	if len(r.Trials) == 0 {
		w.para(0, "Nobody has laid out a trial: kettlefrost trials lay.")
	}
	for _, x := range r.Trials {
		w.heading(x.Trial, x.Dish)
		w.para(0, x.Asks)
		if x.Closed {
			w.para(0, "Closed: "+cmp.Or(x.Adopted, "nothing taken over")+".")
		}
		t := table{columns: []column{{head: "week", right: true}, {head: "due"}, {head: "stands"}, {head: "measured", right: true}, {head: "to taste", wraps: true}}}
		for _, o := range x.Openings {
			t.add(fmt.Sprint(o.Week), cmp.Or(string(o.Due), "-"), string(o.Stands), fmt.Sprintf("%d of %d", o.Measured, o.Packs), strings.Join(o.Waiting, ", "))
		}
		w.table(t)
	}
	return w.String()
}

// TrialCodesText is which code is which, and in which order each taster is given them.
func TrialCodesText(t trials.Trial, today record.Day) string {
	w := listWriter("Codes of trial "+t.Name, nil, unit.Metric)
	w.para(0, "ONLY FOR WHO PORTIONS. Whoever tastes must not see which code is which.")
	for _, o := range t.Openings(today) {
		w.heading(fmt.Sprintf("Week %d", o.Week), string(o.Due))
		codes := table{columns: []column{{head: "code"}, {head: "variant", wraps: true}}}
		for i, v := range t.Laid.Body.Variants {
			codes.add(t.CodeOf(i, o.Week), v.Name)
		}
		w.table(codes)
		order := table{columns: []column{{head: "taster"}, {head: "in this order"}}}
		for i, name := range t.Laid.Body.Tasters {
			order.add(name, strings.Join(t.Served(i, o.Week), " "))
		}
		w.table(order)
	}
	return w.String()
}

// TrialAheadText is what a trial would come to.
func TrialAheadText(b record.TrialLaid, chances []trials.Chance) string {
	w := listWriter("What the trial would come to", nil, unit.Metric)
	per := len(b.Weeks) * int(b.Packs)
	w.para(0, fmt.Sprintf("%d packs in all: %d of each variant.", per*len(b.Variants), per))
	w.para(0, "What it can find out, for all figures and variants together at 95 %:")
	for _, c := range chances {
		w.hang(0, "- ", c.Figure.Figure+": "+c.Text()+".")
	}
	return w.String()
}

// TrialText is what can be told from a trial so far.
func TrialText(r trials.Results) string {
	t := r.Trial
	w := listWriter("Trial "+t.Name+", "+t.Laid.Body.Dish, t.Found, unit.Metric)
	w.para(0, string(t.Laid.Body.Asks))
	for _, v := range t.Laid.Body.Variants {
		w.hang(0, "- ", v.Name+": "+clean(string(v.Change)))
	}
	if t.Closed != nil {
		w.para(0, "Closed: "+cmp.Or(t.Closed.Body.Adopted, "nothing taken over")+". "+string(t.Closed.Body.Why))
	}
	w.heading("How long it has kept", "")
	for _, s := range t.Supports(nil) {
		weeks := "not known yet"
		if s.Known {
			weeks = times(int64(s.Weeks), "week")
		}
		w.hang(0, "- ", s.Variant+": "+weeks+". "+s.Why+".")
	}
	for _, f := range r.Figures {
		w.trialFigure(r, f)
	}
	w.heading("What is not known", "")
	for _, x := range r.Unknown {
		w.hang(0, "- ", x)
	}
	return w.String()
}

func (w *writer) trialFigure(r trials.Results, f trials.Result) {
	names := r.Trial.Laid.Body.Variants
	w.heading(f.Figure.Figure, "")
	if f.Not != "" {
		w.para(0, f.Not)
		return
	}
	for _, p := range f.Pairs {
		w.hang(0, "- ", fmt.Sprintf("%s against %s: %s.", names[p.Of].Name, names[p.Against].Name, p.Text))
		if p.Blocks > 0 {
			w.para(2, fmt.Sprintf("difference %s, from %s to %s (%.3g %%); p %.2g alone, %.2g among all", trials.Difference(f.Figure, p.Estimate), trials.Difference(f.Figure, p.Low), trials.Difference(f.Figure, p.High), 100*p.Level, p.P, p.PAmong))
		}
	}
	columns := []column{{head: "week", right: true}}
	for _, v := range names {
		columns = append(columns, column{head: v.Name, right: true})
	}
	t := table{columns: columns}
	for _, week := range r.Opened {
		cells := []string{fmt.Sprint(week)}
		for _, s := range f.Series {
			cell := "-"
			for _, m := range s.Weeks {
				if m.Week == week {
					cell = fmt.Sprintf("%s (%d)", trials.Amount(f.Figure, m.Mean), m.Values)
				}
			}
			cells = append(cells, cell)
		}
		t.add(cells...)
	}
	w.table(t)
}

// NextTrialText is the size of the next trial.
func NextTrialText(n trials.Next) string {
	w := listWriter("The next trial", nil, unit.Metric)
	size := func(tasters, packs, all int) string {
		return fmt.Sprintf("%s, and %s of each variant in each of %s: %s in all", times(int64(tasters), "taster"), times(int64(packs), "pack"), times(int64(len(n.Weeks)), "week"), times(int64(all), "pack"))
	}
	w.para(0, "The smallest that finds out what matters, four times out of five: "+size(n.Tasters, n.Packs, n.InAll)+".")
	w.para(0, "To be safer, as a small trial often shows too little scatter: "+size(n.SaferTasters, n.SaferPacks, n.SaferInAll)+".")
	for _, f := range n.Figures {
		w.hang(0, "- ", f.Figure.Figure+": "+f.Text()+".")
	}
	return "\n" + w.String()
}

// trialEntryText is what an entry about a trial says.
func trialEntryText(b record.Body) string {
	switch b := b.(type) {
	case record.TrialLaid:
		return words("laid out the trial", b.Trial, "of "+b.Dish)
	case record.TrialMade:
		return words("froze", times(b.Packs, "pack"), "of "+b.Variant, "for the trial", b.Trial)
	case record.TrialOpened:
		return fmt.Sprintf("measured a pack of week %d of the trial %s", b.Week, b.Trial)
	case record.TrialScored:
		return fmt.Sprintf("%s tasted %s, week %d of the trial %s", b.Taster, b.Code, b.Week, b.Trial)
	case record.TrialClosed:
		return words("closed the trial", b.Trial) + ": " + cmp.Or(b.Adopted, "nothing taken over")
	case record.Pictured:
		return words("added the picture", b.File)
	}
	return string(b.Kind())
}
