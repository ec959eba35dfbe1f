package plan

import (
	"fmt"
	"slices"

	"kettlefrost/internal/kitchen"
)

// appointments adds what comes or goes at a fixed time as tasks that cannot move.
func (p *planner) appointments() {
	for i, v := range p.req.Visits {
		t := task{kind: Visit, key: fmt.Sprintf("appointment/%d", i+1), step: -1, label: v.What, loads: 1, length: wholeMinutes(v.For.S()), earliest: int(v.At), latest: int(v.At)}
		if t.length > 0 {
			t.hands = []piece{{0, t.length, max(1, v.People)}}
		}
		p.day.tasks = append(p.day.tasks, t)
	}
}

// comes is the minute before which an ingredient is not there.
func (p *planner) comes(id kitchen.IngredientID) int {
	at := 0
	for _, v := range p.req.Visits {
		if id != "" && slices.Contains(v.Brings, id) {
			at = max(at, int(v.At)+wholeMinutes(v.For.S()))
		}
	}
	return at
}

// goes is the last minute at which filling of a pack, which takes so long, may begin; below 0 when nobody comes for it.
func (p *planner) goes(id kitchen.PackID, length int) int {
	latest := -1
	for _, v := range p.req.Visits {
		if slices.Contains(v.Takes, id) {
			if last := max(0, int(v.At)-length); latest < 0 || last < latest {
				latest = last
			}
		}
	}
	return latest
}
