package plan

import "slices"

// Need is a task that another waits for.
type Need struct {
	Task  string // the key of what must come before
	Over  bool   // it must be over; otherwise part of it
	Begin bool   // before the other begins; otherwise before it ends
}

// Needs is what each task waits for, by their keys: food of an earlier step, and the washing before it. That two tasks have the same piece of
// equipment is no need: another piece may be free.
func (r Run) Needs() map[string][]Need {
	needs := map[string][]Need{}
	d := r.planner.day
	for _, l := range d.links {
		if l.most >= 0 || l.piece {
			continue
		}
		key, after := d.tasks[l.task].key, d.tasks[l.after.task]
		n := Need{Task: after.key, Over: l.after.minute >= after.length, Begin: l.minute <= 0}
		if !slices.Contains(needs[key], n) {
			needs[key] = append(needs[key], n)
		}
	}
	return needs
}
