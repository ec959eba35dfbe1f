package board

import (
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Board is how far a production has come.
type Board struct {
	Run   *Run
	Tasks map[string]*Task // of the plan, and others that were named; by their keys
	Found finding.List     // about the entries, gravest first
	needs map[string][]plan.Need
}

// Read folds what was entered of a run over its plan.
func Read(r *Run, p plan.Plan, needs map[string][]plan.Need) Board {
	b := Board{Run: r, Tasks: gather(r), needs: needs}
	f := finder{run: r}
	f.entries()
	planned := map[string]bool{}
	for _, t := range p.Timetable.Tasks {
		planned[t.Key] = true
		if b.Tasks[t.Key] == nil {
			b.Tasks[t.Key] = &Task{Key: t.Key}
		}
	}
	for _, key := range slices.Sorted(maps.Keys(b.Tasks)) {
		t := b.Tasks[key]
		t.settle()
		f.task(t, planned[key] || len(planned) == 0)
	}
	f.early(b.Tasks, needs)
	f.found.Sort()
	b.Found = f.found
	return b
}

// Clock turns a time into a moment of the run: minutes after the midnight before it, by the clock on the wall.
type Clock func(record.Instant) unit.Moment

// Changes is what has happened, for timing the rest of the day again at a time.
func (b Board) Changes(p plan.Plan, now unit.Moment, clock Clock) kitchen.Changes {
	c := kitchen.Changes{Now: now, Told: true}
	for _, t := range p.Timetable.Tasks {
		went := b.Tasks[t.Key]
		if went.Is == ToDo {
			continue
		}
		r := kitchen.Real{Task: t.Key, Begin: min(clock(went.Began), now), Over: went.over(), Skipped: went.Is == Skipped}
		if r.Over {
			r.End = min(clock(went.Ended), now)
		}
		if went.Unmarked { // it took its time, though nobody said when it began
			r.Begin = max(0, r.End-(t.End-t.Start))
		}
		c.Real = append(c.Real, r)
	}
	for t, x := range Of[record.Changed](b.Run) {
		c = changed(c, x, clock(t.Happened), clock)
	}
	return c
}

// changed adds what somebody said had changed. What is late is said to be later than planned: of what has begun since, its own times count.
// What is said to be from no time on is from the time on at which that was said.
func changed(c kitchen.Changes, x record.Changed, said unit.Moment, clock Clock) kitchen.Changes {
	moment := func(at record.Instant, open unit.Moment) unit.Moment {
		if at == 0 {
			return open
		}
		return clock(at)
	}
	for _, l := range x.Late {
		by := unit.Span(l.Minutes) * unit.Minute
		if l.Early {
			by = -by
		}
		c.Late = append(c.Late, kitchen.Late{Task: l.Task, By: by})
	}
	for _, g := range x.Gone {
		c.Gone = append(c.Gone, kitchen.Gone{Person: kitchen.PersonID(g.Person), From: moment(g.From, said), Until: moment(g.Until, 0)})
	}
	for _, o := range x.Out {
		c.Out = append(c.Out, kitchen.Outage{Equipment: kitchen.EquipmentID(o.Equipment), Count: int(o.Count), From: moment(o.From, said), Until: moment(o.Until, 0)})
	}
	return c
}
