package plan

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

const (
	// waitNote is how long hot food may stand before the next step without a word (common practice).
	waitNote = 60
	// waitStop is the time after which food out of temperature control is to be thrown away: 4 h, FDA Food Code 3-501.19, from memory.
	waitStop = 240
)

// judgeWaiting finds hot food of a step that waits long for the step that uses it.
func (p *planner) judgeWaiting(d *cooked, step int, start []int) {
	if p.outC(d, step) < clock135.C() {
		return
	}
	wait := 0
	made := p.day.ends[cookedStep{d, step}]
	for i, s := range d.graph.Steps {
		for _, u := range s.Uses {
			if u.Ingredient >= 0 || u.From.Step != step || d.headOf(i) == d.headOf(step) {
				continue
			}
			users := p.day.ends[cookedStep{d, i}]
			for k, e := range made {
				if len(users) == 0 {
					continue
				}
				by := users[k*len(users)/len(made)]
				wait = max(wait, start[by.task]+p.beginOf(by.task, i)-start[e.task]-e.minute)
			}
		}
	}
	if wait <= waitNote {
		return
	}
	f := finding.Finding{Code: CodeHeldHot, Severity: finding.Caution, Where: d.where + ", step " + d.dish.Steps[step].ID, Path: fmt.Sprintf("dishes.%s.steps[%d]", d.id, step),
		Message: fmt.Sprintf("what it gives is hot and waits %s for the next step", (unit.Span(wait) * unit.Minute).Show(unit.Metric)),
		Figures: []finding.Figure{{Name: "waits", Value: float64(wait), Unit: "min", Text: (unit.Span(wait) * unit.Minute).Show(unit.Metric)}},
		Source:  "FDA Food Code 3-501.16 (hot holding at 135 °F or above), as adopted by states; your local code decides",
		Fix:     "keep it at 135 °F or above until then, or say within how long the next step must start (within)"}
	if wait > waitStop {
		f.Severity = finding.Stop
	}
	p.find(f)
}
