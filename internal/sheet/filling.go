package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// FillingText says how a filling scattered and drifted.
func FillingText(f plan.LotWeights, units unit.System) string {
	w := &writer{plan: plan.Plan{Kitchen: f.Kitchen, Note: f.Note, Units: f.Units}, units: units}
	w.line(f.Kitchen)
	w.line(list(", ", "Check-weights of "+f.Name, f.Date))
	w.gap()
	w.para(0, f.Note)
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	t.add("weighed", fmt.Sprint(len(f.Nets)), ofFilled(f.Lot))
	t.add("empty bag", finely(f.Tare), "mean of those weighed, taken off")
	t.add("label", finely(f.Label), f.Label.Show(units))
	t.add("mean", finely(f.Mean), "")
	t.add("given away", finely(f.Given), "each, mean less label")
	t.add("scatter", finely(f.SD), "standard deviation of single packs")
	t.add("below the label", fmt.Sprint(f.Below), "of those weighed")
	t.add("control limits", finely(f.Lower), "to "+finely(f.Upper)+", from the distance of each pack to the one before")
	w.table(t)
	if f.TooFew {
		w.para(0, "Fewer than twenty weights: take the limits as a first idea (common practice).")
	}
	w.heading("drift", "")
	if len(f.Signals) == 0 {
		w.para(0, "No pattern that chance alone seldom makes.")
	}
	for _, s := range f.Signals {
		var points []string
		for _, n := range s.Points {
			points = append(points, fmt.Sprint(n))
		}
		w.para(0, fmt.Sprintf("%s (%s): packs %s", s.Rule, s.Side, strings.Join(points, ", ")))
	}
	w.gap()
	w.para(0, "This is no test of the lot: whether packs may be sold by their label is decided by the published sampling plan and your local office of weights and measures.")
	return w.String()
}

func ofFilled(lot int) string {
	if lot == 0 {
		return ""
	}
	return fmt.Sprintf("of %d filled", lot)
}

// finely is a mass to a tenth of a gram in either system of units: a quarter of an ounce would hide what packs scatter by.
func finely(m unit.Mass) string { return fmt.Sprintf("%.1f g", m.Kg()*1000) }
