package plan

import (
	"cmp"
	"fmt"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// unfillable is how many times off plan, either way, a weight must be for nobody to fill by it.
const unfillable = 1.8

// slipWords are what went wrong when a weight was written down.
var slipWords = map[fill.Cause]string{
	fill.TenTimes: "a digit too many", fill.TenthPart: "a digit too few", fill.HundredTimes: "a point left out", fill.HundredthPart: "a point two places off",
	fill.PoundsForKilos: "pounds written for kilograms", fill.KilosForPounds: "kilograms written for pounds", fill.OuncesForPounds: "ounces written for pounds", fill.PoundsForOunces: "pounds written for ounces",
	fill.GramsForKilos: "grams written for kilograms", fill.KilosForGrams: "kilograms written for grams", fill.GramsForOunces: "grams written for ounces", fill.OuncesForGrams: "ounces written for grams",
	fill.TareNotTakenOff: "a vessel that was weighed with it", fill.TareTakenOffTwice: "a vessel that was taken off twice",
}

// doubt questions a weight that is far off plan, and says which slip of the pen would explain it.
func (p *planner) doubt(d *cooked, o SealOutput) {
	sd := cmp.Or(p.output(d, kitchen.OutputID(o.ID)).Spread, p.book.Kitchen.Spreads.Yields, usualYields)
	q, err := fill.Doubt(o.Planned, o.There, max(1, unit.Mass(sd.F()*float64(o.Planned))))
	if err != nil || q.Severity < fill.Doubtful {
		return
	}
	f := finding.Finding{Code: CodeWeightDoubted, Severity: finding.Caution, Where: d.where + ", " + o.Name, Message: fmt.Sprintf("%s is far from the plan of %s: is that what the scale says?", o.There.Show(p.out.Units), o.Planned.Show(p.out.Units)),
		Figures: []finding.Figure{p.massFigure("weighed", o.There.Kg()), p.massFigure("planned", o.Planned.Kg()), {Name: "standard deviations off", Value: q.Spreads, Text: fmt.Sprintf("%.0f", q.Spreads)}},
		Fix:     "weigh it again, and write the unit behind the figure"}
	if ratio := o.There.Kg() / o.Planned.Kg(); ratio >= unfillable || ratio <= 1/unfillable {
		f.Severity = finding.Stop
	}
	if len(q.Slips) > 0 {
		f.Message += fmt.Sprintf(" It would be explained by %s, where %s was meant.", slipWords[q.Slips[0].Cause], q.Slips[0].Meant.Show(p.out.Units))
	}
	p.find(f)
}
