package papers

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/caution"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
)

// method is each dish as it is cooked in this run: steps with what goes in, on what, in how many loads, how hot and how long.
func (w *writer) method() {
	for i, d := range w.plan.Dishes {
		w.add(pdf.Heading{Level: 1, Text: d.Name, Page: i > 0})
		w.add(pdf.Paragraph{Text: w.In.Say("%s goes in, %s comes out, %s is lost.", w.shown(d.In), w.shown(d.Out), w.shown(d.Lost))})
		for n, s := range d.Steps {
			w.step(n+1, d, s)
		}
		w.lines("Left over: no pack takes it", d.Surplus)
		w.lines("Bought in, as a by-product falls short", d.BoughtIn)
	}
}

func (w *writer) step(n int, d plan.Dish, s plan.Step) {
	w.add(pdf.Heading{Level: 2, Text: fmt.Sprintf("%d. %s", n, s.Do)})
	if s.How != "" {
		w.add(pdf.Paragraph{Text: s.How})
	}
	t := pdf.Table{Columns: w.columns("what goes in", "#in all", "#each load")}
	for _, l := range s.In {
		each := ""
		if s.Loads.Count > 1 && l.Each > 0 {
			each = w.fine(l.Each)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{l.Name, w.fine(l.Mass), each}})
	}
	w.add(t, pdf.Paragraph{Tone: pdf.Strong, Text: w.done(s)}, pdf.Paragraph{Text: w.comes(s)})
	for _, c := range w.careful(d.ID, s.ID) {
		w.add(pdf.Paragraph{Tone: pdf.Loud, Text: w.In.Say(c.Says)})
	}
}

// done is how a step is done, on one line: on what, in how many loads, how hot, how long.
func (w *writer) done(s plan.Step) string {
	loads, heat, then, hands := "", "", "", ""
	if s.Loads.Count > 0 && s.Loads.Mass > 0 {
		loads = w.In.Plural(int64(s.Loads.Count), "%s load of %s", "%s loads of %s", w.shown(s.Loads.Mass))
		if s.Loads.Volume > 0 {
			loads += " (" + w.shown(s.Loads.Volume) + ")"
		}
	}
	if s.HeatTo != nil {
		heat = w.In.Say("heat to %s", w.shown(*s.HeatTo))
		if s.HeatUp > 0 {
			heat = w.In.Say("heat to %s in %s", w.shown(*s.HeatTo), w.shown(s.HeatUp))
		}
	}
	if s.Time > 0 {
		then = w.In.Say("then %s", w.shown(s.Time))
		if heat == "" {
			then = w.shown(s.Time)
		}
	}
	if s.HandsOn > 0 && s.HandsOn < s.HeatUp+s.Time {
		hands = w.In.Say("hands on %s", w.shown(s.HandsOn))
	}
	return joined(" · ", s.Equipment, loads, heat, then, hands)
}

// comes is what a step gives and what it loses.
func (w *writer) comes(s plan.Step) string {
	var gives, loses []string
	for _, l := range s.Out {
		gives = append(gives, l.Name+" "+w.shown(l.Mass))
	}
	for _, l := range s.Losses {
		loses = append(loses, w.In.Say(l.Cause)+" "+w.shown(l.Mass))
	}
	text := w.In.Say("Gives: %s.", strings.Join(gives, ", "))
	if len(loses) > 0 {
		text += " " + w.In.Say("Loses: %s.", strings.Join(loses, ", "))
	}
	return text
}

// careful is what whoever does a step must be told, each once.
func (w *writer) careful(dish, step string) (all []caution.Caution) {
	for _, t := range w.plan.Timetable.Tasks {
		if t.Dish != dish || t.Step != step {
			continue
		}
		for _, c := range t.Careful {
			if !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	return all
}

func (w *writer) lines(name string, of []plan.Line) {
	if len(of) == 0 {
		return
	}
	t := pdf.Table{Name: w.In.Say(name), Columns: w.columns("what", "#how much")}
	for _, l := range of {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{l.Name, w.shown(l.Mass)}})
	}
	w.add(t)
}
