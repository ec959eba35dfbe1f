package web

import (
	"cmp"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// fillingView is the answer about check-weights.
type fillingView struct {
	Head    []keyFigure
	Chart   *heatDrawing // none of a pack that nobody has weighed
	Weights []weightRow
	Facts   []factRow
	Drift   []string
	TooFew  bool
	Rules   string
	Lot     []factRow
	Missing string // why there is no verdict
	Next    []factRow
}

// weightRow is one pack that was weighed.
type weightRow struct {
	No, Net, Off string
	Marks        []string
}

// factRow is a figure with what it means.
type factRow struct{ Name, Value, Says string }

// fillingSays puts an answer into words for a reader with a scale.
type fillingSays struct {
	plan.LotWeights
	rd    reader
	scale scale
}

func viewFilling(f plan.LotWeights, rd reader, s scale) *fillingView {
	x := fillingSays{f, rd, s}
	v := &fillingView{Head: x.head(), TooFew: f.TooFew, Rules: f.Net.Rules, Lot: x.lot(), Missing: x.noVerdict()}
	if len(f.Nets) > 0 {
		chart := weightsPictures(f)
		v.Chart, v.Weights, v.Facts = &chart, x.weights(), x.facts()
	}
	for _, d := range f.Signals {
		v.Drift = append(v.Drift, fmt.Sprintf("%s (%s): packs %s", capital(draw.DriftRule(d)), d.Side, draw.Numbers(d.Points)))
	}
	if f.Net.Next != nil {
		v.Next = x.next(*f.Net.Next)
	}
	return v
}

// weightsPictures is the control chart for both kinds of screens.
func weightsPictures(f plan.LotWeights) heatDrawing {
	w := draw.FillingWeights(f)
	wide := w.Picture()
	w.Width = narrowDrawing
	return heatDrawing{Wide: template.HTML(draw.InlineSVG(wide, "weights")), Narrow: template.HTML(draw.InlineSVG(w.Picture(), "weights-narrow"))}
}

var verdictSigns = map[string]string{"passes": "●", "fails": "■"}

// head is what somebody at the filling table has to know.
func (x fillingSays) head() []keyFigure {
	verdict := keyFigure{Title: "This lot", Value: figure{First: "no verdict"}, More: "see below"}
	if v := x.Net.Verdict; v != "" {
		verdict.Value.First, verdict.More = strings.TrimSpace(cmp.Or(verdictSigns[v], "▲")+" "+v), cmp.Or(strings.Join(x.Net.Why, ", "), "as this kitchen's own check has it")
	}
	head := []keyFigure{verdict}
	n := x.Net.Next
	if n == nil {
		return head
	}
	fill := keyFigure{Title: "Fill next time to", Value: figure{First: x.scale.show(n.Mean)}, More: "net, on average"}
	if x.Tare > 0 {
		fill.More += "; " + x.scale.show(n.Mean+x.Tare) + " on the scale, with the bag"
	}
	return append(head, fill,
		keyFigure{Title: "Given away next time", Value: figure{First: x.scale.show(n.Over)}, More: "each; " + x.rd.money(n.Lost) + " in the lot"},
		keyFigure{Title: "Weigh of the next lot", Value: figure{First: times(len(n.Weigh), "pack", "packs")}, More: "one about every " + x.rd.span(n.Every)})
}

// facts are what the weights say by themselves.
func (x fillingSays) facts() []factRow {
	show := x.scale.show
	return []factRow{
		{"Mean", show(x.Mean), "net, the empty bag's " + show(x.Tare) + " taken off"},
		{"Given away", show(x.Given), "each, mean less label"},
		{"Scatter", show(x.SD), "standard deviation of single packs"},
		{"Below the label", fmt.Sprintf("%d of %d", x.Below, len(x.Nets)), "of those weighed"},
		{"Control limits", show(x.Lower) + " to " + show(x.Upper), "from the distance of each pack to the one before"},
	}
}

// lot is every figure that the lot is judged by.
func (x fillingSays) lot() []factRow {
	n, show := x.Net, x.scale.show
	rows := []factRow{{"Label", show(x.Label), x.rd.fig(x.Label).First}}
	if x.Lot > 0 {
		rows = append(rows, factRow{"Lot", times(x.Lot, "pack", "packs"), ""})
	}
	if n.Sample > 0 {
		rows = append(rows, factRow{"Sample", times(n.Sample, "pack", "packs"), "by the rules, chosen before anybody sees a weight"})
	}
	if len(x.Nets) > 0 {
		rows = append(rows, factRow{"Weighed", times(len(x.Nets), "pack", "packs"), ""}, factRow{"Empty bag", show(x.Tare), "mean of those weighed, taken off each pack"},
			factRow{"Average", show(x.Mean), overLabel(x.Given, show) + ": that is its error"})
	}
	if n.Sample > 0 {
		rows = append(rows, factRow{"Counts as short", show(n.Shortfall), "under the label, and more than that"})
	}
	rows = append(rows, x.granted()...)
	switch {
	case len(n.Short) > 0:
		rows = append(rows, factRow{"Short", times(len(n.Short), "pack", "packs"), "number " + draw.Numbers(n.Short)})
	case n.Verdict != "":
		rows = append(rows, factRow{"Short", "none", "of those weighed"})
	}
	return rows
}

// noVerdict is why the lot is not judged; what is missing is named as the page asks for it.
func (x fillingSays) noVerdict() string {
	if x.Lot == 0 && len(x.Nets) > 0 {
		return "Nobody has said how many packs were filled: write it above"
	}
	return capital(x.Net.WhyNot)
}

// weights are the packs one by one, with what is noteworthy of each.
func (x fillingSays) weights() []weightRow {
	var rows []weightRow
	for i, net := range x.Nets {
		row := weightRow{No: fmt.Sprint(i + 1), Net: x.scale.show(net), Off: overLabel(net-x.Label, x.scale.show)}
		if slices.Contains(x.Net.Short, i+1) {
			row.Marks = append(row.Marks, "counts as short")
		}
		for _, d := range x.Signals {
			if slices.Contains(d.Points, i+1) {
				row.Marks = append(row.Marks, draw.DriftRule(d))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// next is how full to fill the next lot, and what to weigh of it.
func (x fillingSays) next(n plan.FillAt) []factRow {
	show, sure := x.scale.show, n.Confidence.Show(x.rd.units)
	rows := []factRow{{"Fill to", show(n.Mean), fmt.Sprintf("net on average: a lot of %d then passes with at least %s, if packs scatter so; what asks for it: %s", x.Lot, sure, n.Bind)}}
	if len(n.Parts) > 1 {
		for _, part := range n.Parts {
			rows = append(rows, x.part(part))
		}
	}
	if x.Tare > 0 {
		rows = append(rows, factRow{"On the scale", show(n.Mean + x.Tare), "with the bag"})
	}
	given := x.rd.fig(n.Given)
	if given.Second != "" {
		given.First += " (" + given.Second + ")"
	}
	return append(rows, factRow{"Given away", show(n.Over), fmt.Sprintf("each; in the lot %s, %s at %s", given.First, x.rd.money(n.Lost), n.LostAt)},
		factRow{"Scatter", show(n.Scatter), fmt.Sprintf("at most, as sure as %s; likely %s, from %s weighed and a first belief of %s of the label (%s)", sure, show(n.Likely), times(n.Weighed, "pack", "packs"), n.Believed.Show(x.rd.units), n.Belief)},
		factRow{"Still under the label", n.Under.Show(x.rd.units), "of the packs: the rules ask for the average, and count packs short by more than " + show(x.Net.Shortfall)},
		factRow{"Weigh", times(len(n.Weigh), "pack", "packs"), "one about every " + x.rd.span(n.Every) + ", in the order of filling: " + draw.Numbers(n.Weigh)})
}

// part is what to fill of one component.
func (x fillingSays) part(p plan.FillPart) factRow {
	row := factRow{capital(p.Output), x.scale.show(p.Target), "as on the label"}
	if p.Pieces > 0 {
		row.Value = times(p.Pieces, "piece", "pieces")
	}
	if p.Target > p.Label {
		row.Says = x.scale.show(p.Target-p.Label) + " more than its part of the label: that costs the least"
	}
	return row
}

// overLabel is a distance from the label in words.
func overLabel(m unit.Mass, show func(unit.Mass) string) string {
	switch {
	case m < 0:
		return show(-m) + " under the label"
	case m == 0:
		return "as on the label"
	}
	return show(m) + " over the label"
}
