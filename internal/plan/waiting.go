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

// judgeWaiting finds food that waits long for the step that uses it though it is hot, or neither hot nor cold. Food that the book gives
// no temperature is left out: most of it is raw vegetables on the board.
func (p *planner) judgeWaiting(d *cooked, step int, start []int) {
	s := d.dish.Steps[step]
	if !p.standsCooked(d, step) {
		return
	}
	wait := p.longestWait(d, step, start)
	if wait <= waitNote {
		return
	}
	text := (unit.Span(wait) * unit.Minute).Show(unit.Metric)
	f := finding.Finding{Code: CodeHeldHot, Severity: finding.Caution, Where: d.where + ", step " + s.ID, Path: fmt.Sprintf("dishes.%s.steps[%d]", d.id, step),
		Message: "what it gives is hot and waits " + text + " for the next step",
		Figures: []finding.Figure{{Name: "waits", Value: float64(wait), Unit: "min", Text: text}},
		Source:  "FDA Food Code 3-501.16 (held at 135 °F or above, or at 41 °F or below), as adopted by states; your local code decides",
		Fix:     "keep it at 135 °F or above until then, or say within how long the next step must start (within)"}
	if p.outC(d, step) < clock135.C() {
		f.Code, f.Message = CodeHeldWarm, "what it gives is neither hot nor cold, between 41 and 135 °F, and waits "+text+" for the next step"
		f.Fix = "put it into the refrigerator until then, or say within how long the next step must start (within)"
	}
	if wait > waitStop {
		f.Severity = finding.Stop
	}
	p.find(f)
}

// standsCooked tells whether what a step gives is known to be warmer than a refrigerator.
func (p *planner) standsCooked(d *cooked, step int) bool {
	s := d.dish.Steps[step]
	return (s.HeatTo != nil || s.ReadyAt != nil) && p.outC(d, step) > target41.C()
}

// longestWait is the most minutes that a load of a step waits for the load of a later step that uses it.
func (p *planner) longestWait(d *cooked, step int, start []int) int {
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
	return wait
}
