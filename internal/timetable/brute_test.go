package timetable_test

import "kettlefrost/internal/timetable"

// bruteForce tries every start of every task and returns the earliest possible end, or -1 when there is no schedule. It knows
// nothing of the engine.
func bruteForce(p timetable.Problem) int {
	best := -1
	start := make([]int, len(p.Tasks))
	var place func(i, end int)
	place = func(i, end int) {
		if best >= 0 && end >= best {
			return
		}
		if i == len(start) {
			best = end
			return
		}
		t := p.Tasks[i]
		for s := t.Earliest; s+t.Duration <= p.Horizon && (t.Latest < 0 || s <= t.Latest); s++ {
			start[i] = s
			if keepsLags(p, start, i) && hasRoom(p, start, i) {
				place(i+1, max(end, s+t.Duration))
			}
		}
	}
	place(0, 0)
	return best
}

// keepsLags looks at the lags between task i and those before it that hang on nothing.
func keepsLags(p timetable.Problem, start []int, i int) bool {
	for _, l := range p.Lags {
		if l.If.Way == 0 && max(l.From, l.To) == i && start[l.To]-start[l.From] < l.Min {
			return false
		}
	}
	return true
}

// hasRoom counts every minute of every resource with the first i+1 tasks.
func hasRoom(p timetable.Problem, start []int, i int) bool {
	for r, res := range p.Resources {
		for minute := start[i]; minute < start[i]+p.Tasks[i].Duration; minute++ {
			free := 0
			for _, s := range res.Capacity {
				if s.From <= minute {
					free = s.Amount
				}
			}
			for k := 0; k <= i; k++ {
				for _, u := range p.Tasks[k].Uses {
					if u.Resource == r && start[k]+u.From <= minute && minute < start[k]+u.To {
						free -= u.Amount
					}
				}
			}
			if free < 0 {
				return false
			}
		}
	}
	return true
}
