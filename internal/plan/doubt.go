package plan

import (
	"cmp"
	"fmt"
	"math"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// slips are what a weight is multiplied by when it was written down wrongly.
var slips = []struct {
	factor float64
	words  string
}{
	{10, "a digit too many"}, {0.1, "a digit too few"}, {100, "the point left out"}, {0.01, "the point two places off"},
	{1 / 0.45359237, "kilograms written for pounds"}, {0.45359237, "pounds written for kilograms"}, {16, "pounds written for ounces"}, {1.0 / 16, "ounces written for pounds"}, {2, "weighed twice"}, {0.5, "only half of it weighed"},
}

const (
	doubtSpreads = 5    // standard deviations off plan from which a weight is questioned (common practice: one in a million by chance)
	slipNear     = 0.12 // how near a slip must come, as a share
	slipStop     = 1.8  // times off plan, either way, from which nobody should fill by it
)

// doubt questions a weight that is far off plan, and says which slip of the pen would explain it.
func (p *planner) doubt(d *cooked, o SealOutput) {
	ratio := o.There.Kg() / o.Planned.Kg()
	sd := cmp.Or(p.output(d, kitchen.OutputID(o.ID)).Spread, cmp.Or(p.book.Kitchen.Spreads.Yields, usualYields)).F()
	if o.Planned <= 0 || math.Abs(ratio-1) <= doubtSpreads*sd {
		return
	}
	f := finding.Finding{Code: CodeWeightDoubted, Severity: finding.Caution, Where: d.where + ", " + o.Name, Message: fmt.Sprintf("%s is %.2g times the plan of %s: is that what the scale says?", o.There.Show(p.out.Units), ratio, o.Planned.Show(p.out.Units)),
		Figures: []finding.Figure{p.massFigure("weighed", o.There.Kg()), p.massFigure("planned", o.Planned.Kg()), {Name: "usual spread", Value: sd, Text: fmt.Sprintf("%.3g %%", 100*sd)}},
		Fix:     "weigh it again, and write the unit behind the figure"}
	if ratio >= slipStop || ratio <= 1/slipStop {
		f.Severity = finding.Stop
	}
	if words := nearestSlip(ratio); words != "" {
		f.Message += " It would be explained by " + words + "."
	}
	p.find(f)
}

// nearestSlip is the slip that comes nearest to a ratio; empty when none comes near.
func nearestSlip(ratio float64) string {
	words, off := "", slipNear
	for _, s := range slips {
		if d := math.Abs(ratio/s.factor - 1); d <= off {
			words, off = s.words, d
		}
	}
	return words
}
