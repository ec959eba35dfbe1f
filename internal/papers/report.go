package papers

import (
	"fmt"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Report is what a production came to, beside what it was planned to be.
type Report struct {
	Plan    plan.Plan // as it was when the production was opened
	Open    bool      // it goes on: more may come
	Tasks   []Went
	Weighed []Weighed
	Thrown  []Thrown
	After   *plan.After // what it cost, beside what it should have; nil while nothing was packed
}

// Went is how a task went.
type Went struct {
	Task         plan.Task
	Is           string       // done, skipped, under way, or nothing
	Began, Ended *unit.Moment // nil: not said
	Who          []string
	Why          string // it was skipped
}

// Weighed is the mass of something, as planned and as it was weighed.
type Weighed struct {
	Name          string
	Planned, Real unit.Mass
}

// Thrown is what was thrown away.
type Thrown struct {
	What string
	Mass unit.Mass
	Why  string
}

// Document is the report for paper. It says what was entered and nothing about what was not.
func (r Report) Document(o Options) pdf.Document {
	w := &writer{plan: r.Plan, Options: o}
	w.begin(Sheet{Name: "Run report"})
	if r.Open {
		w.loud("This production is still open: the report is of what was entered so far.")
	}
	w.packsMade(r)
	w.masses(r)
	w.times(r)
	w.costs(r.After)
	w.quiet("What nobody entered is not in this report. Temperatures and what was decided on them are in the inspector's folder.")
	if note := r.Plan.Note; note != "" {
		w.add(pdf.Paragraph{Tone: pdf.Quiet, Text: note})
	}
	return w.doc
}

// packsMade is how many packs there are of those planned.
func (w *writer) packsMade(r Report) {
	t := pdf.Table{Name: w.In.Say("Packs"), Columns: w.columns("what", "#planned", "#made", "#difference")}
	if r.After == nil {
		w.add(pdf.Paragraph{Tone: pdf.Strong, Text: w.In.Say("No packs were entered.")})
		return
	}
	for _, p := range r.After.Packs {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.Name, w.count(p.Planned), w.count(p.Made), w.signed(p.Made - p.Planned)}, Strong: p.Made < p.Planned})
	}
	w.add(t)
}

// signed is a difference with its sign.
func (w *writer) signed(n int) string {
	switch {
	case n > 0:
		return "+" + w.count(n)
	case n < 0:
		return "−" + w.count(-n)
	}
	return "0"
}

// masses are what was weighed against the plan, and what was thrown away.
func (w *writer) masses(r Report) {
	t := pdf.Table{Name: w.In.Say("Weighed"), Columns: w.columns("what", "#planned", "#weighed", "#difference")}
	for _, x := range r.Weighed {
		off := ""
		if x.Planned > 0 {
			off = fmt.Sprintf("%+.1f %%", 100*(x.Real.Kg()/x.Planned.Kg()-1))
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{x.Name, w.shown(x.Planned), w.shown(x.Real), w.In.Measure(off)}})
	}
	w.add(t)
	thrown := pdf.Table{Name: w.In.Say("Thrown away"), Columns: w.columns("what", "#how much", "why")}
	for _, x := range r.Thrown {
		thrown.Rows = append(thrown.Rows, pdf.Row{Cells: []string{x.What, w.shown(x.Mass), x.Why}})
	}
	w.add(thrown)
}

// times are the tasks as planned and as they went.
func (w *writer) times(r Report) {
	if len(r.Tasks) == 0 {
		return
	}
	codes := draw.NewCodes(r.Plan.Dishes)
	t := pdf.Table{Name: w.In.Say("Tasks"), Columns: w.columns("", "what", "planned", "really", "who")}
	for _, x := range r.Tasks {
		label := x.Task.Label
		if x.Task.Loads > 1 {
			label += " (" + w.In.Say("load %s of %s", w.count(x.Task.Load), w.count(x.Task.Loads)) + ")"
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{codes.Task(x.Task), label, x.Task.Start.String() + " – " + x.Task.End.String(), w.went(x), strings.Join(x.Who, ", ")}})
	}
	w.add(t)
}

// went is when a task began and ended, as far as somebody said.
func (w *writer) went(x Went) string {
	at := func(m *unit.Moment) string {
		if m == nil {
			return "?"
		}
		return m.String()
	}
	switch x.Is {
	case "done":
		return at(x.Began) + " – " + at(x.Ended)
	case "skipped":
		return joined(": ", w.In.Say("skipped"), x.Why)
	case "under way":
		return at(x.Began) + " – " + w.In.Say("under way")
	}
	return w.In.Say("nothing entered")
}

// costs are what the run cost against what it should have, by cause.
func (w *writer) costs(a *plan.After) {
	if a == nil {
		return
	}
	t := pdf.Table{Name: w.In.Say("Cost against what was made should have cost"), Columns: w.columns("cause", "#more or less", "what it is")}
	for _, x := range []struct {
		name, is string
		amount   unit.Money
	}{{"price", "what ingredients cost", a.Price}, {"mix", "dearer ingredients in place of cheaper ones", a.Mix}, {"yield", "ingredients for what was made", a.Yield},
		{"wage", "what an hour of hands cost", a.Rate}, {"time", "time for what was made", a.Efficiency}} {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{w.In.Say(x.name), w.side(x.amount), w.In.Say(x.is)}})
	}
	t.Rows = append(t.Rows, pdf.Row{Cells: []string{w.In.Say("in all"), w.side(a.Total), ""}, Strong: true})
	foods := pdf.Table{Name: w.In.Say("Ingredients, as purchased"), Columns: w.columns("what", "#should", "#used", "#should cost", "#cost")}
	for _, x := range a.Foods {
		if x.Should != x.Cost || x.Standard != x.Used {
			foods.Rows = append(foods.Rows, pdf.Row{Cells: []string{x.Name, w.shown(x.Standard), w.shown(x.Used), w.money(x.Should), w.money(x.Cost)}})
		}
	}
	w.add(t, foods)
	w.quiet("Ingredients of which nothing was entered count as planned, and so do the hands.")
	for _, f := range a.Findings {
		w.add(pdf.Paragraph{Tone: pdf.Quiet, Text: f.Message})
	}
}

func (w *writer) side(m unit.Money) string {
	switch {
	case m > 0:
		return "+" + w.money(m)
	case m < 0:
		return "−" + w.money(-m)
	}
	return w.money(0)
}
