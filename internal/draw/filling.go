package draw

import (
	"fmt"
	"regexp"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// FillingChart draws the check-weights of a filling with their control limits.
func FillingChart(f plan.LotWeights) Picture { return FillingWeights(f).Picture() }

// FillingWeights is that chart before it is drawn.
func FillingWeights(f plan.LotWeights) Weights {
	grams := func(m unit.Mass) float64 { return m.Kg() * 1000 }
	w := Weights{Title: "Check-weights of " + f.Name, Desc: fmt.Sprintf("%d packs in the order of filling, mean %.1f g, label %.1f g.", len(f.Nets), grams(f.Mean), grams(f.Label)),
		Centre: grams(f.Mean), Lower: grams(f.Lower), Upper: grams(f.Upper), Label: grams(f.Label), Across: "packs weighed, in the order of filling", Decimals: 1}
	for _, m := range f.Nets {
		w.Points = append(w.Points, grams(m))
	}
	for _, d := range f.Signals {
		s := WeightSignal{Rule: DriftRule(d)}
		for _, n := range d.Points {
			s.Points = append(s.Points, n-1)
		}
		w.Signals = append(w.Signals, s)
	}
	return w
}

var deviations = regexp.MustCompile(`\b(\d) s\b`)

// DriftRule is a pattern's rule in words: in a kitchen, an s behind a number would be seconds.
func DriftRule(d plan.Drift) string {
	return deviations.ReplaceAllString(d.Rule, "$1 standard deviations")
}
