package papers

import (
	"fmt"

	"kettlefrost/internal/caution"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// filling is what goes into each pack and how many there should be, with room for what there were.
func (w *writer) filling() {
	for _, c := range caution.For(caution.SealingVacuum, caution.Allergens) {
		w.add(pdf.Paragraph{Tone: pdf.Loud, Text: w.In.Say(c.Says)})
	}
	for _, f := range w.plan.Fill {
		w.add(pdf.Heading{Level: 1, Text: f.Name})
		w.add(pdf.Facts{{Name: w.In.Say("packs"), Is: w.packs(f)}, {Name: w.In.Say("bag"), Is: f.Bag}, {Name: w.In.Say("net weight on the label"), Is: w.shown(f.Net)},
			{Name: w.In.Say("fill to, on average"), Is: w.shown(f.Net + f.Over)}})
		t := pdf.Table{Columns: w.columns("in this order", "#each pack", "#for all packs")}
		for _, l := range f.Each {
			each := w.fine(l.Mass)
			if l.Pieces > 0 {
				each = w.In.Plural(int64(l.Pieces), "%s piece, %s", "%s pieces, %s", each)
			}
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{l.Name, each, w.shown(l.Mass * unit.Mass(f.Count))}})
		}
		w.add(t)
		w.add(w.blanks("packs made", "lot", "best before", "pot: gross", "tare", "left over"))
	}
}

// packs is how many are expected, and how the draws spread.
func (w *writer) packs(f plan.PackFill) string {
	text := w.count(f.Count)
	if f.Low != f.High {
		text += " " + w.In.Say("(likely %s to %s)", w.count(f.Low), w.count(f.High))
	}
	return text
}

// blanks is one row to write into.
func (w *writer) blanks(names ...string) pdf.Table {
	t := pdf.Table{Ruled: true, Tall: roomToWrite + 8, Columns: w.columns(names...), Rows: []pdf.Row{{Cells: make([]string, len(names))}}}
	for i := range t.Columns {
		t.Columns[i].Wide = 54
	}
	return t
}

// weighings is how many packs a form has room for.
const weighings = 20

// checkWeigh is a form for the check-weights of each pack's filling.
func (w *writer) checkWeigh() {
	for _, f := range w.plan.Fill {
		w.page(f.Name)
		w.add(pdf.Facts{{Name: w.In.Say("net weight on the label"), Is: w.shown(f.Net)}, {Name: w.In.Say("fill to, on average"), Is: w.shown(f.Net + f.Over)},
			{Name: w.In.Say("lot"), Is: "________________"}, {Name: w.In.Say("scale"), Is: "________________"}})
		tare := pdf.Table{Name: w.In.Say("Empty bags with their labels"), Ruled: true, Tall: roomToWrite, Columns: w.columns("#1", "#2", "#3", "#4", "#5"), Rows: []pdf.Row{{Cells: make([]string, 5)}}}
		for k := range tare.Columns {
			tare.Columns[k].Wide = 70
		}
		w.add(tare, w.blankWeights())
		w.quiet("Net is gross less the mean of the empty bags. Weigh packs in the order of filling, spread over all of it. Enter the weights in the program: it judges them.")
	}
}

func (w *writer) blankWeights() pdf.Table {
	t := pdf.Table{Name: w.In.Say("Filled packs"), Ruled: true, Tall: roomToWrite, Columns: w.columns("#no.", "gross", "net", "#no.", "gross", "net")}
	for i := range t.Columns {
		t.Columns[i].Wide = []float64{24, 90, 90, 24, 90, 90}[i]
	}
	for n := range weighings / 2 {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{fmt.Sprint(n + 1), "", "", fmt.Sprint(n + 1 + weighings/2), "", ""}})
	}
	return t
}
