package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/plan"
)

func (w *writer) steps() {
	w.heading("steps", "")
	for _, d := range w.plan.Dishes {
		w.dish(d)
	}
	if len(w.plan.Dishes) == 0 {
		w.para(0, "None.")
	}
}

func (w *writer) dish(d plan.Dish) {
	w.sub(fmt.Sprintf("%s (%s)", d.Name, d.ID))
	w.hang(2, "for: ", list("; ", d.Target, limited(d)))
	w.para(2, fmt.Sprintf("%s goes in, %s comes out, %s is lost.", d.In.Show(w.units), d.Out.Show(w.units), d.Lost.Show(w.units)))
	w.hang(2, "bought in, as a by-product falls short: ", w.lines(d.BoughtIn))
	w.hang(2, "left over, nothing takes it: ", w.lines(d.Surplus))
	made := map[string]int{} // which step gives an output
	for i, s := range d.Steps {
		for _, l := range s.Out {
			made[l.ID] = i + 1
		}
	}
	for i, s := range d.Steps {
		w.step(i+1, s, made)
	}
}

func (w *writer) step(n int, s plan.Step, made map[string]int) {
	w.gap()
	w.hang(2, fmt.Sprintf("%2d. ", n), s.Do+" ["+s.ID+"]")
	const indent = 6
	w.para(indent, s.How)
	w.para(indent, list("; ", w.loads(s), "scale × "+number(s.Scale)))
	w.para(indent, w.times(s))
	w.stepLines(indent, s, made)
	var lost []string
	for _, l := range s.Losses {
		lost = append(lost, l.Cause+" "+l.Mass.Show(w.units))
	}
	w.hang(indent, "lost: ", strings.Join(lost, "; "))
}

// loads says how the step is split, on what, and how full each load makes it.
func (w *writer) loads(s plan.Step) string {
	text := many(s.Loads.Count, "load", "loads")
	if s.Loads.Mass > 0 {
		text += " of " + s.Loads.Mass.Show(w.units)
	}
	if s.Loads.Volume > 0 {
		text += " (" + s.Loads.Volume.Show(w.units) + ")"
	}
	full := ""
	if s.Loads.Full > 0 {
		full = fmt.Sprintf("%s full by %s", percent(s.Loads.Full), s.Loads.Limit)
	}
	return list(", ", text, s.Equipment, full)
}

// times says how long each load takes and when it starts.
func (w *writer) times(s plan.Step) string {
	heat := ""
	if s.HeatTo != nil {
		heat = "heat to " + s.HeatTo.Show(w.units)
		if s.HeatUp > 0 {
			heat += " in " + s.HeatUp.Show(w.units)
		}
	}
	then, hands, starts := w.span(s.Time), "", ""
	if then != "" && heat != "" {
		then = "then " + then
	}
	switch {
	case s.HandsOn > 0 && s.HandsOn == s.Time && heat == "":
		then += " hands on"
	case s.HandsOn > 0:
		hands = "hands on " + s.HandsOn.Show(w.units)
	}
	var at []string
	for _, c := range s.Starts {
		at = append(at, c.String())
	}
	if len(at) > 0 {
		starts = "starts " + strings.Join(at, ", ")
	}
	lasts := list("; ", list(", ", heat, then), hands)
	if s.Loads.Count > 1 && lasts != "" {
		lasts = "each load " + lasts
	}
	return list("; ", lasts, starts)
}

// stepLines are what goes in and comes out: of each load, when there are several, and in all.
func (w *writer) stepLines(indent int, s plan.Step, made map[string]int) {
	t := table{indent: indent, columns: []column{
		{}, {wraps: true}, {head: "each load", right: true}, {head: "in all", right: true}, {head: "pieces", right: true}, {head: "all by volume", right: true}, {wraps: true},
	}}
	add := func(lead string, l plan.Line) {
		each, volume := "", ""
		if s.Loads.Count > 1 {
			each = w.mass(l.Each)
		}
		if l.Volume > 0 {
			volume = l.Volume.Show(w.units)
		}
		t.add(lead, l.Name, each, l.Mass.Show(w.units), count(l.Pieces), volume, w.remark(l, made))
	}
	for _, l := range s.In {
		add("in", l)
	}
	for _, l := range s.Out {
		add("out", l)
	}
	w.table(t)
}

// remark says where a line comes from or what it is, when that is not plain.
func (w *writer) remark(l plan.Line, made map[string]int) string {
	kind, short := "", ""
	switch n := made[l.ID]; {
	case l.Kind == plan.MadeUp:
		kind = "adjusted to the losses"
	case l.Kind == plan.Earlier && n > 0:
		kind = fmt.Sprintf("from step %d", n)
	case l.Kind == plan.Earlier:
		kind = "from an earlier step"
	case l.Kind == plan.ByProduct:
		kind = "by-product"
	}
	if l.Short > 0 {
		short = fmt.Sprintf("%s short, %s stands in", l.Short.Show(w.units), l.StandIn)
	}
	return list("; ", kind, short)
}
