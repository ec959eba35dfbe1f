package timetable

import (
	"context"
	"math/rand/v2"
	"slices"

	"kettlefrost/internal/timetable/clause"
)

// Engine is the Solver of this package: bounds at the root, priority rules, justification, a small population of schedules, and
// a complete search that learns.
type Engine struct{}

var _ Solver = Engine{}

// Solve answers p with the Engine.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	return Engine{}.Solve(ctx, p, o)
}

// Solve implements Solver.
func (Engine) Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if faults := p.malformed(); len(faults) > 0 {
		return Result{}, faults
	}
	r, core := newRoot(p)
	if core.Kind != NoClash {
		return Result{Status: Infeasible, Core: core}, nil
	}
	bound, why := r.bound()
	if bound > p.Horizon {
		return Result{Status: Infeasible, Core: Core{Kind: ResourceFull, Tasks: why.Tasks, Resource: why.Resource,
			From: why.From, To: p.Horizon}}, nil
	}
	s := newSearch(ctx, r, o)
	s.res.Bound, s.res.BoundWhy = bound, why
	if len(p.Tasks) == 0 {
		s.res.Status, s.res.Start = Optimal, []int{}
		return s.res, nil
	}
	if len(p.Goals) == 0 || len(p.Goals[0].Terms) == 0 || !s.repair(o.Near) {
		s.work(p)
	}
	if s.res.Start != nil {
		s.pursue(p.Goals)
	}
	return s.res, ctx.Err()
}

// work takes turns: schedules are built, then the complete search goes on with what is left open. A turn in which nothing could be
// done is the last.
func (s *search) work(p Problem) {
	for range s.turns {
		before := s.res.Effort
		s.tries = s.triesATurn
		s.build()
		if s.res.Status == Optimal || s.ctx.Err() != nil || s.prove(p) || s.res.Effort == before {
			return
		}
	}
}

// noAnswerYet is how many times the budget of the complete search may be used when the heuristics found nothing.
const noAnswerYet = 4

// search is one run of the engine.
type search struct {
	ctx            context.Context
	root           root
	progress       func(Result)
	turns          int
	triesATurn     int
	conflictsATurn int
	tries          int // schedules that may still be built in this turn
	rng            *rand.Rand
	variants       map[string]*variant
	variant        *variant // in use
	floor          []int    // scratch
	res            Result

	plans   []plan         // the population
	stale   int            // children in a row that were not taken up
	learner *clause.Search // nil before the first proof
	slices  uint           // turns of the learner so far
}

func newSearch(ctx context.Context, r root, o Options) *search {
	n := max(1, len(r.fwd.dur))
	return &search{ctx: ctx, root: r, progress: o.Progress, rng: rand.New(rand.NewPCG(o.Seed, 0x7469_6d65)),
		turns: max(1, o.Turns), triesATurn: budget(o.Tries, min(1000, max(60, 36_000/n))), conflictsATurn: budget(o.Conflicts, min(2000, 60_000/n)),
		variant: r.unchosen(), variants: map[string]*variant{}, floor: make([]int, n)}
}

// unchosen is the variant of a problem without choices; of one with choices nothing but its bounds is good for anything.
func (r root) unchosen() *variant { return &variant{root: r, forms: r.forms()} }

// form is a decoder for each direction of time.
type form struct{ fwd, back *decoder }

// forms are the problem with blocks as they are and, if some are large, with loose lags.
func (r root) forms() []form {
	forms := []form{{newDecoder(r.fwd), newDecoder(r.back)}}
	if loose := r.fwd.looseLags(r.lags); loose != nil {
		forms = append(forms, form{newDecoder(r.fwd.loosened(loose)), newDecoder(r.back.loosened(loose))})
	}
	return forms
}

func budget(asked, usual int) int {
	if asked == 0 {
		return usual
	}
	return max(0, asked)
}

// over tells that the search for schedules is at its end.
func (s *search) over() bool {
	return s.tries <= 0 || s.res.Status == Optimal || s.ctx.Err() != nil
}

// forward builds one schedule and keeps it if it is better. The starts are a copy; nil when a window was missed.
func (s *search) forward(keys []int, parallel bool) (start []int, missed int) {
	s.tries--
	s.res.Effort.Schedules++
	v := s.variant
	d := v.forms[0].fwd
	if missed = d.run(keys, v.root.fwd.lo, parallel); missed >= 0 {
		s.res.Effort.Missed++
		if s.res.Start == nil { // the other form may have more luck; what works first is kept
			slices.Reverse(v.forms)
		}
		return nil, missed
	}
	start = slices.Clone(d.start)
	s.keep(start, v.ways, d.end())
	return start, -1
}

// backward builds one schedule from its end at minute end towards the front and returns its starts, nil when a window was missed.
func (s *search) backward(keys []int, end int, parallel bool) []int {
	s.tries--
	s.res.Effort.Schedules++
	r := s.variant.root
	m := r.back
	for i := range s.floor {
		s.floor[i] = max(m.lo[i], m.flip(i, end-r.tail[i]))
	}
	d := s.variant.forms[0].back
	if d.run(keys, s.floor, parallel) >= 0 {
		s.res.Effort.Missed++
		return nil
	}
	start := make([]int, len(s.floor))
	for i := range start {
		start[i] = m.flip(i, d.start[i])
	}
	return start
}

// keep remembers a schedule that is better than the best so far.
func (s *search) keep(start, ways []int, end int) {
	if s.res.Start != nil && end >= s.res.End {
		return
	}
	s.res.Status, s.res.Start, s.res.Ways, s.res.End = Feasible, slices.Clone(start), slices.Clone(ways), end
	if end == s.res.Bound {
		s.res.Status = Optimal
	}
	if s.progress != nil {
		told := s.res
		told.Start, told.Ways = slices.Clone(start), slices.Clone(ways)
		s.progress(told)
	}
}
