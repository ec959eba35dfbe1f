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
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	t.add("weighed", fmt.Sprint(len(f.Nets)), ofFilled(f.Lot))
	t.add("empty bag", f.Tare.Fine(), "mean of those weighed, taken off")
	t.add("label", f.Label.Fine(), f.Label.Show(units))
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
	w.netContents(f)
	return w.String()
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
	t.add("scatter", next.Scatter.Fine(), fmt.Sprintf("at most, as sure as %s; likely %s, from %d packs weighed and a first belief worth five", next.Confidence.Show(0), next.Likely.Fine(), next.Weighed))
	t.add("fill next time", next.Mean.Fine(), fmt.Sprintf("net on average: a lot as large then passes with at least %s, if packs scatter so; it is %s that asks for it", next.Confidence.Show(0), next.Bind))
	t.add("on the scale", (next.Mean + f.Tare).Fine(), "with the bag")
	t.add("given away", next.Over.Fine(), fmt.Sprintf("each; in the lot %s, %s at the pack's price", (next.Over*unit.Mass(f.Lot)).Show(w.units), next.Lost.Show(w.plan.Currency)))
	t.add("still under", next.Under.Show(0), "of the packs will lie below the label: the rules ask for the average, and count packs short by more than "+f.Net.Shortfall.Fine())
	t.add("weigh", fmt.Sprint(len(next.Weigh)), "packs, in the order of filling: "+counted(next.Weigh))
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
