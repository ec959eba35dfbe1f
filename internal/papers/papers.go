// Package papers sets what a kitchen prints of a run, one document for each sheet, in the language of whoever reads it and large enough to be
// read at arm's length. It computes nothing: every figure is the plan's. What the cook wrote in the book (names, steps) is printed as it is.
package papers

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/language"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Kind is which sheet.
type Kind string

// The sheets, in the order in which a day needs them.
const (
	Shopping   Kind = "shopping"
	WeighUp    Kind = "weigh-up"
	Method     Kind = "method"
	Timetable  Kind = "timetable"
	Cooling    Kind = "cooling"
	Filling    Kind = "filling"
	CheckWeigh Kind = "check-weigh"
	Cards      Kind = "cards"
)

// Sheet is a kind with its name and what it is for.
type Sheet struct {
	Kind      Kind
	Name, For string
	form      bool // written on: no title, each page is one form
	set       func(*writer)
}

// sheets are all of them.
var sheets = []Sheet{
	{Shopping, "Shopping list", "what to buy, and from whom", false, (*writer).shopping},
	{WeighUp, "Weigh-up sheet", "what to weigh out for each load, with room for lots", false, (*writer).weighUp},
	{Method, "Method", "each dish step by step, at the scale of this run", false, (*writer).method},
	{Timetable, "Timetable", "who does what when", false, (*writer).timetable},
	{Cooling, "Cooling form", "to write temperatures on when there is no tablet", true, (*writer).cooling},
	{Filling, "Fill sheet", "what goes into each pack", false, (*writer).filling},
	{CheckWeigh, "Check-weigh form", "to write weights on when there is no tablet", true, (*writer).checkWeigh},
	{Cards, "Heating cards", "what customers are told", false, (*writer).cards},
}

// Sheets are all sheets.
func Sheets() []Sheet { return append([]Sheet(nil), sheets...) }

// Options is for whom a sheet is, and on what.
type Options struct {
	Units   unit.System
	In      language.Speaker
	Paper   pdf.Paper
	Version string        // of the plan: a few characters by which two sheets are told apart
	Rule    coolrule.Rule // by which cooling is judged
	By      plan.By       // how the shopping list is put together; by supplier when empty
}

// formSize is for sheets that are written on: 12 points, and a form is on one page.
const formSize = 1.2

// armsLength is how much larger than for a desk sheets are set: their plain type is then 13.5 points. 12 points are the least for what is
// read at 80 cm (common practice).
const armsLength = 1.35

// UnknownError is a sheet that there is not.
type UnknownError struct{ Asked Kind }

func (e *UnknownError) Error() string {
	names := make([]string, len(sheets))
	for i, s := range sheets {
		names[i] = string(s.Kind)
	}
	return fmt.Sprintf("no sheet is called %.40q: ask for one of %s", string(e.Asked), strings.Join(names, ", "))
}

// Find is the sheet of a kind. The error is an *UnknownError.
func Find(k Kind) (Sheet, error) {
	for _, s := range sheets {
		if s.Kind == k {
			return s, nil
		}
	}
	return Sheet{}, &UnknownError{k}
}

// writer sets one sheet of one plan.
type writer struct {
	plan plan.Plan
	Options
	doc pdf.Document
}

// Document is a sheet of a plan. The error is an *UnknownError.
func Document(k Kind, p plan.Plan, o Options) (pdf.Document, error) {
	s, err := Find(k)
	if err != nil {
		return pdf.Document{}, err
	}
	o.By = cmp.Or(o.By, plan.BySupplier)
	w := &writer{plan: p, Options: o}
	w.begin(s)
	s.set(w)
	if p.Note != "" && !s.form {
		w.add(pdf.Paragraph{Tone: pdf.Quiet, Text: p.Note})
	}
	return w.doc, nil
}

// begin puts down what stands on every sheet: whose it is, which run, which plan, and what stops it.
func (w *writer) begin(s Sheet) {
	title, p := w.In.Say(s.Name), w.plan
	w.doc = pdf.Document{Title: title + ": " + p.Run, Subject: title, Head: joined(" · ", p.Kitchen, title), Foot: w.foot(), Paper: w.Paper, Large: armsLength, In: w.In}
	if s.form {
		w.doc.Large, w.doc.Head = formSize, joined(" · ", w.doc.Head, p.Note)
	} else {
		w.add(pdf.Title{Text: title, Below: joined(" · ", p.Run, w.day())})
	}
	stops := 0
	for _, f := range p.Findings {
		if f.Severity == finding.Stop {
			stops++
		}
	}
	if stops > 0 {
		w.add(pdf.Paragraph{Tone: pdf.Loud, Text: w.In.Plural(int64(stops), "STOP: %s thing must be put right before this run is cooked. The plan says what.",
			"STOP: %s things must be put right before this run is cooked. The plan says what.")})
	}
}

// page begins a form.
func (w *writer) page(of string) {
	w.add(pdf.Heading{Level: 1, Text: joined(": ", w.doc.Subject, of), Page: true}, pdf.Paragraph{Text: joined(" · ", w.plan.Run, w.day())})
}

func (w *writer) day() string {
	if w.plan.Day == "" {
		return ""
	}
	return w.In.Day(w.plan.Day)
}

// foot names the run and the version of the plan, so that an old sheet is known for one.
func (w *writer) foot() string {
	version := ""
	if w.Version != "" {
		version = w.In.Say("plan %s", w.Version)
	}
	return joined(" · ", w.In.Say("run %s", w.plan.Run), w.plan.Day, version)
}

func (w *writer) add(blocks ...pdf.Block) { w.doc.Blocks = append(w.doc.Blocks, blocks...) }

// loud is what must not be passed over.
func (w *writer) loud(english string, args ...any) {
	w.add(pdf.Paragraph{Tone: pdf.Loud, Text: w.In.Say(english, args...)})
}

// quiet is a remark.
func (w *writer) quiet(english string, args ...any) {
	w.add(pdf.Paragraph{Tone: pdf.Quiet, Text: w.In.Say(english, args...)})
}

// shown is a quantity in the units and the language of the reader.
func (w *writer) shown(q interface{ Show(unit.System) string }) string {
	return w.In.Measure(q.Show(w.Units))
}

// fine is a mass as it is weighed on a fine scale: to a tenth of a gram below 100 g, and below 10 g to a hundredth.
func (w *writer) fine(m unit.Mass) string {
	switch {
	case m >= 100*unit.Gram || m <= 0:
		return w.shown(m)
	case m < 10*unit.Gram:
		return w.In.Number(1000*m.Kg(), 2) + " g"
	}
	return w.In.Number(1000*m.Kg(), 1) + " g"
}

func (w *writer) count(n int) string { return w.In.Number(float64(n), 0) }

func (w *writer) money(m unit.Money) string { return m.Show(w.plan.Currency) }

// columns are columns with names in the language; a name that begins with # is of figures.
func (w *writer) columns(names ...string) []pdf.Column {
	all := make([]pdf.Column, len(names))
	for i, n := range names {
		name, figure := strings.CutPrefix(n, "#")
		if name != "" {
			name = w.In.Say(name)
		}
		all[i] = pdf.Column{Name: name, Figure: figure}
	}
	return all
}

// joined is what is not empty of some texts.
func joined(with string, texts ...string) string {
	var some []string
	for _, t := range texts {
		if t != "" {
			some = append(some, t)
		}
	}
	return strings.Join(some, with)
}
