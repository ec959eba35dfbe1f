package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// FillingText says how a filling scattered and drifted.
func FillingText(f plan.LotWeights, units unit.System) string {
	w := &writer{plan: plan.Plan{Kitchen: f.Kitchen, Note: f.Note, Units: f.Units, Currency: f.Currency}, units: units}
	w.line(f.Kitchen)
	w.line(list(", ", "Check-weights of "+f.Name, f.Date))
	w.gap()
	w.para(0, f.Note)
	if len(f.Nets) > 0 {
		w.weights(f)
	}
	w.netContents(f)
	return w.String()
}

// weights is what was weighed, and whether it drifts.
func (w *writer) weights(f plan.LotWeights) {
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	t.add("weighed", fmt.Sprint(len(f.Nets)), ofFilled(f.Lot))
	t.add("empty bag", f.Tare.Fine(), "mean of those weighed, taken off")
	t.add("label", f.Label.Fine(), f.Label.Show(w.units))
	t.add("mean", f.Mean.Fine(), "")
	t.add("given away", f.Given.Fine(), "each, mean less label")
	t.add("scatter", f.SD.Fine(), "standard deviation of single packs")
	t.add("below the label", fmt.Sprint(f.Below), "of those weighed")
	t.add("control limits", f.Lower.Fine(), "to "+f.Upper.Fine()+", from the distance of each pack to the one before")
	w.table(t)
	if f.TooFew {
		w.para(0, "Fewer than twenty weights: take the limits as a first idea (common practice).")
	}
	w.heading("drift", "")
	if len(f.Signals) == 0 {
		w.para(0, "No pattern that chance alone seldom makes.")
	}
	for _, s := range f.Signals {
		w.para(0, fmt.Sprintf("%s (%s): packs %s", s.Rule, s.Side, counted(s.Points)))
	}
}

// netContents is the lot held against the rules, and the next filling.
func (w *writer) netContents(f plan.LotWeights) {
	n := f.Net
	w.heading("net contents", n.Rules)
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	if n.Sample > 0 {
		t.add("sample", fmt.Sprint(n.Sample), "packs, chosen before anybody sees a weight")
		t.add("counts as short", n.Shortfall.Fine(), "under the label, and more than that")
	}
	if n.Verdict != "" {
		t.add("this lot", n.Verdict, strings.Join(n.Why, ", "))
	}
	if len(n.Short) > 0 {
		t.add("short", fmt.Sprint(len(n.Short)), "packs "+counted(n.Short))
	}
	if n.Next != nil {
		w.nextFilling(&t, *n.Next, f)
	}
	w.table(t)
	if n.WhyNot != "" {
		w.para(0, "Missing: "+n.WhyNot+".")
	}
	w.gap()
	w.para(0, "This is a check of your own and decides nothing. The tables behind it are typed from memory and leave out moisture lost after packing and the separate limits for inspected meat: have your local office of weights and measures confirm plan, limits and scale.")
}

func (w *writer) nextFilling(t *table, next plan.FillAt, f plan.LotWeights) {
	t.add("scatter", next.Scatter.Fine(), fmt.Sprintf("at most, as sure as %s; likely %s, from %d packs weighed and a first belief of %s of the label (%s)",
		next.Confidence.Show(0), next.Likely.Fine(), next.Weighed, next.Believed.Show(0), next.Belief))
	t.add("fill next time", next.Mean.Fine(), fmt.Sprintf("net on average: a lot of %d then passes with at least %s, if packs scatter so; what asks for it: %s", f.Lot, next.Confidence.Show(0), next.Bind))
	if len(next.Parts) > 1 {
		for _, part := range next.Parts {
			words := "as on the label"
			if part.Target > part.Label {
				words = (part.Target - part.Label).Fine() + " more than its part of the label: that costs the least"
			}
			t.add("  "+part.Output, pieces(part), words)
		}
	}
	if f.Tare > 0 {
		t.add("on the scale", (next.Mean + f.Tare).Fine(), "with the bag")
	}
	t.add("given away", next.Over.Fine(), fmt.Sprintf("each; in the lot %s, %s at %s", next.Given.Show(w.units), next.Lost.Show(w.plan.Currency), next.LostAt))
	t.add("still under", next.Under.Show(0), "of the packs will lie below the label: the rules ask for the average, and count packs short by more than "+f.Net.Shortfall.Fine())
	t.add("weigh", fmt.Sprint(len(next.Weigh)), fmt.Sprintf("packs, one about every %s, in the order of filling: %s", next.Every.Show(w.units), counted(next.Weigh)))
}

// pieces is a part as it is filled: by its pieces, or by weight.
func pieces(part plan.FillPart) string {
	if part.Pieces > 0 {
		return fmt.Sprintf("%d pieces", part.Pieces)
	}
	return part.Target.Fine()
}

func counted(of []int) string {
	var words []string
	for _, n := range of {
		words = append(words, fmt.Sprint(n))
	}
	return strings.Join(words, ", ")
}

func ofFilled(lot int) string {
	if lot == 0 {
		return ""
	}
	return fmt.Sprintf("of %d filled", lot)
}
