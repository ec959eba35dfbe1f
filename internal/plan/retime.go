package plan

import (
	"context"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// Run is a request that has been planned and can be timed again while it is under way.
type Run struct {
	plan    Plan
	planner *planner
}

// Open plans a request as Make does, and keeps what timing it again needs.
func Open(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request) Run {
	p := newPlanner(ctx, book, foods, req)
	r := Run{planner: p}
	if asksForMost(req) {
		r.plan = asMany(ctx, book, foods, req)
		p.req = settled(req, r.plan)
		p.make()
	} else {
		r.plan = p.make()
	}
	return r
}

// Plan is the run before it happens.
func (r Run) Plan() Plan { return r.plan }

// Retime is the run under way: what has begun by changes.Now stays as it is, the rest is timed again with what has changed, by the run's
// aims, or moving as little as possible when it has none. Timetable.Moves says what moved. A run without a timetable stays as planned.
//
// When the changes are Told, what has begun has its real times: what is over gives back what it took, what is under way after its time goes
// on for a minute more, and what nobody began begins now at the earliest. A day that was told always goes on, past its end if it must. Its plan
// is of the day alone: what freezes when, what is bought and what it costs is as planned.
func (r Run) Retime(ctx context.Context, changes kitchen.Changes) Plan {
	if r.planner.starts == nil {
		return r.plan
	}
	p := *r.planner
	changes = changes.FromNow()
	p.ctx, p.changes, p.was, p.aimed, p.planned, p.starts = ctx, changes, p.starts, p.starts, p.day, nil
	p.wanting, p.yields, p.settled = nil, false, false
	p.out = p.untimed.copied()
	return p.timeIt()
}

// settled is the request with "as many as possible" replaced by what that came to.
func settled(req kitchen.Request, made Plan) kitchen.Request {
	var want []kitchen.Want
	for _, w := range req.Want {
		if !w.Most {
			want = append(want, w)
			continue
		}
		for _, f := range made.Fill {
			if f.Dish == string(w.Dish) && f.Count > 0 {
				want = append(want, kitchen.Want{Pack: kitchen.PackID(f.Pack), Count: f.Count})
			}
		}
	}
	req.Want = want
	return req
}
