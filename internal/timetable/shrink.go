package timetable

import (
	"context"
	"slices"
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
			b := newBranch(ctx, r, budget-used)
			possible := false
			b.found = func([]int, int) { possible, b.cut = true, true }
			done := b.run()
			used += b.nodes
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

// only is the problem with just the given tasks and the lags between them.
func (p Problem) only(tasks []int) Problem {
	q := Problem{Horizon: p.Horizon, Resources: p.Resources}
	place := make(map[int]int, len(tasks))
	for k, i := range tasks {
		q.Tasks, place[i] = append(q.Tasks, p.Tasks[i]), k
	}
	for _, l := range p.Lags {
		from, okFrom := place[l.From]
		to, okTo := place[l.To]
		if okFrom && okTo {
			q.Lags = append(q.Lags, Lag{from, to, l.Min})
		}
	}
	return q
}
