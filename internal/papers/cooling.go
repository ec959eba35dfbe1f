package papers

import (
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// readings is how many a form has room for: each half hour for two hours, and every hour and a half for the rest.
const readings = 7

// cooling is a form for each thing that is cooled: the limits, what is predicted, and room for readings. One to a page, to be hung up
// beside its pot.
func (w *writer) cooling() {
	if len(w.plan.Chill) == 0 {
		w.add(pdf.Paragraph{Text: w.In.Say("Nothing hot is chilled in this run.")})
		return
	}
	for _, c := range w.plan.Chill {
		w.page(c.Name)
		w.add(w.chilled(c))
		w.limits()
		w.add(w.blankReadings())
		w.loud("A limit that is missed: heat all of it to %s once, and cool it again from the beginning; or throw it away. Write down which, who and when. A second time: throw it away.", w.shown(unit.TempF(165)))
		w.add(w.blanks("who cooled it", "date and time", "who checked this form", "date and time"))
	}
}

// chilled is what is cooled and how.
func (w *writer) chilled(c plan.Chill) pdf.Facts {
	all := pdf.Facts{{Name: w.In.Say("what"), Is: joined(", ", c.Name, w.shown(c.Mass), w.In.Say("lot: ________________"))}, {Name: w.In.Say("from"), Is: w.shown(c.From)}}
	if c.Chosen < 0 || c.Chosen >= len(c.Options) {
		return append(all, pdf.Fact{Name: w.In.Say("how"), Is: w.In.Say("no way in the book keeps within the limits: do not cook it before there is one")})
	}
	o := c.Options[c.Chosen]
	all = append(all, pdf.Fact{Name: w.In.Say("how"), Is: o.Name})
	if o.Ice > 0 {
		all = append(all, pdf.Fact{Name: w.In.Say("ice to have ready"), Is: w.shown(o.Ice)})
	}
	if o.Slow70 != nil && o.Slow41 != nil {
		all = append(all, pdf.Fact{Name: w.In.Say("predicted, at the slowest"), Is: w.In.Say("%s to %s, %s to %s", w.shown(*o.Slow70), w.shown(unit.TempF(70)), w.shown(*o.Slow41), w.shown(unit.TempF(41)))})
	}
	return all
}

// limits are the stages of the rule, with the clock times that follow from when the food was hot, to be filled in.
func (w *writer) limits() {
	t := pdf.Table{Name: joined(": ", w.In.Say("Limits"), w.Rule.Source), Ruled: true, Tall: roomToWrite, Columns: w.columns("from", "at (time)", "to", "within", "so by (time)", "reached at (time)")}
	for _, s := range w.Rule.Stages {
		from := w.shown(unit.TempC(s.FromC))
		if s.Start == coolrule.AtTheStart {
			from = w.In.Say("start of cooling")
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{from, "", w.shown(unit.TempC(s.ToC)), w.shown(unit.Span(s.WithinS) * unit.Second), "", ""}})
	}
	w.add(t)
	w.quiet("Your local code and a licensed professional decide.")
}

func (w *writer) blankReadings() pdf.Table {
	t := pdf.Table{Name: w.In.Say("Readings: middle of the thickest part"), Ruled: true, Tall: roomToWrite, Columns: w.columns("time", "temperature", "where", "thermometer", "who")}
	for i := range t.Columns {
		t.Columns[i].Wide = []float64{50, 70, 90, 80, 40}[i]
	}
	for range readings {
		t.Rows = append(t.Rows, pdf.Row{Cells: make([]string, len(t.Columns))})
	}
	return t
}
