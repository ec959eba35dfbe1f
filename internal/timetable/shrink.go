package timetable

import (
	"context"
	"slices"

	"kettlefrost/internal/timetable/clause"
)

// shrink leaves out tasks as long as the complete search still proves the rest impossible. The core it returns clashes by
// itself; when the budget lasts, nothing of it can be left out.
func shrink(ctx context.Context, p Problem, budget int) (Core, int) {
	kept := make([]int, len(p.Tasks))
	for i := range kept {
		kept[i] = i
	}
	used := 0
	for k := len(kept) - 1; k >= 0 && used < budget; k-- {
		fewer := slices.Delete(slices.Clone(kept), k, k+1)
		r, core := newRoot(p.only(fewer))
		if core.Kind == NoClash {
			possible, conflicts, done := r.possible(ctx, p.Horizon, budget-used)
			used += conflicts
			if possible || !done {
				continue
			}
		}
		kept = fewer
	}
	core := Core{Kind: SearchedAll, Tasks: kept}
	for l, lag := range p.Lags {
		if slices.Contains(kept, lag.From) && slices.Contains(kept, lag.To) {
			core.Lags = append(core.Lags, l)
		}
	}
	return core, used
}

// possible tells whether there is any schedule at all, if it is done within the budget.
func (r root) possible(ctx context.Context, horizon, budget int) (possible bool, conflicts int, done bool) {
	q, open := r.open(0, horizon)
	if !open {
		return false, 0, true
	}
	if q.Size() > clause.MaxMinutesOpen {
		return false, 0, false
	}
	l := clause.New(q)
	possible = l.Run(ctx, horizon, budget) != nil
	return possible, l.Conflicts, possible || l.Done()
}

// only is the problem with just the given tasks and the lags and holds between them.
func (p Problem) only(tasks []int) Problem {
	q := Problem{Horizon: p.Horizon, Resources: p.Resources, Choices: p.Choices}
	place := make(map[int]int, len(tasks))
	for k, i := range tasks {
		q.Tasks, place[i] = append(q.Tasks, p.Tasks[i]), k
	}
	for _, l := range p.Lags {
		from, okFrom := place[l.From]
		to, okTo := place[l.To]
		if okFrom && okTo {
			l.From, l.To = from, to
			q.Lags = append(q.Lags, l)
		}
	}
	for _, h := range p.Holds {
		from, okFrom := place[h.From.Task]
		to, okTo := place[h.To.Task]
		if okFrom && okTo {
			h.From.Task, h.To.Task = from, to
			q.Holds = append(q.Holds, h)
		}
	}
	return q
}
