package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func (w *writer) freeze() {
	f := w.plan.Freeze
	w.heading("freeze", "")
	if len(f.Packs) == 0 && len(f.Freezers) == 0 {
		w.para(0, "Nothing to freeze, or no freezer in the book.")
		return
	}
	w.schedule(f.Schedule)
	w.gap()
	text := fmt.Sprintf("This run brings %s; there is room to store %s.", f.Load.Show(w.units), f.Room.Show(w.units))
	if f.PerDay > 0 {
		text += fmt.Sprintf(" By heat alone the freezers take %s in a day; by the household rule %s to %s.", f.PerDay.Show(w.units), f.RuleLow.Show(w.units), f.RuleHigh.Show(w.units))
	}
	w.para(0, text)
	w.hang(0, "source: ", f.Source)
	w.gap()
	w.packFreeze(f)
	w.gap()
	w.intake(f)
}

// schedule is which packs go where on which day, and what that does to the freezers.
func (w *writer) schedule(s plan.FreezeSchedule) {
	if s.Left > 0 {
		w.para(0, fmt.Sprintf("%s FIND NO PLACE.", strings.ToUpper(many(s.Left, "pack", "packs"))))
	}
	for _, r := range s.Remedies {
		w.hang(2, "would do: ", r)
	}
	t := table{columns: []column{{head: "into", wraps: true}, {head: "packs", right: true}, {head: "of", wraps: true}, {head: "cores frozen after", right: true}}}
	day := 0
	for _, e := range s.Entries {
		if e.Day != day {
			day = e.Day
			t.title(fmt.Sprintf("day %d", day))
		}
		t.add(e.Freezer, strconv.Itoa(e.Count), e.Name, w.span(e.Takes))
	}
	if len(s.Entries) > 0 {
		w.para(0, "Lay them in as the freezer's entry in the book says, apart unless it says otherwise. What waits for another day stays at 41 °F or below.")
		w.gap()
		w.table(t)
	}
	if len(s.Cabinets) == 0 {
		return
	}
	w.gap()
	c := table{columns: []column{{head: "freezer", wraps: true}, {head: "warmest air", right: true}, {head: "warmest old stock", right: true}, {head: "at full power", right: true}}}
	for _, x := range s.Cabinets {
		c.add(x.Freezer, w.tenths(x.AirPeak), w.tenths(x.StockPeak), w.span(x.FullPower))
	}
	w.table(c)
}

func (w *writer) packFreeze(f plan.Freeze) {
	if len(f.Packs) == 0 {
		return
	}
	t := table{columns: []column{
		{head: "freezer", wraps: true}, {head: "to core", right: true}, {head: "time", right: true}, {head: "best to worst film", right: true}, {head: "Pham", right: true}, {head: "Plank", right: true},
	}}
	w.para(0, "One pack by itself, in air that stays cold, from 41 °F:")
	w.gap()
	pack := ""
	for _, p := range f.Packs {
		if title := fmt.Sprintf("%s: %s thick, begins to freeze at %s", p.Name, p.Thickness.Show(w.units), w.tenths(p.Begins)); title != pack {
			pack = title
			t.title(title)
		}
		t.add(p.Freezer+", "+p.Lies, p.To.Show(w.units), w.span(p.Time), w.span(p.Fast)+" to "+w.span(p.Slow), w.span(p.Pham), w.span(p.Plank))
		for _, o := range p.Otherwise {
			t.add("  "+o.Lies, "", w.span(o.Time), "", "", "")
		}
	}
	w.table(t)
	w.gap()
	w.para(0, "Times by finite volumes; beside them Pham's formula (1986), an estimate, and Plank's, which leaves out sensible heat.")
}

// tenths is a temperature to a tenth of a degree, which is what tells one freezing point from another.
func (w *writer) tenths(t unit.Temp) string {
	if w.units == unit.US {
		return fmt.Sprintf("%.1f °F", t.F())
	}
	return fmt.Sprintf("%.1f °C", t.C())
}

func (w *writer) intake(f plan.Freeze) {
	t := table{columns: []column{
		{head: "takes in a day", wraps: true}, {head: "by heat", right: true}, {head: "by the household rule", right: true}, {head: "room to store", right: true},
	}}
	for _, i := range f.Freezers {
		t.add(i.Name, i.ByHeat.Show(w.units), i.RuleLow.Show(w.units)+" to "+i.RuleHigh.Show(w.units), i.Room.Show(w.units))
	}
	w.table(t)
	for _, i := range f.Freezers {
		var alone []string
		for _, a := range i.Alone {
			alone = append(alone, fmt.Sprintf("%d of %s", a.Count, a.Name))
		}
		if len(alone) > 0 {
			w.hang(0, i.Name+", one of them, a day, of one kind alone, as simulated: ", strings.Join(alone, "; or "))
		}
	}
}
