package plan

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// Run is a request that has been planned and can be timed again while it is under way.
type Run struct {
	plan    Plan
	planner *planner // nil when there is no timetable to start from
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
	if p.starts == nil {
		r.planner = nil
	}
	return r
}

// Plan is the run before it happens.
func (r Run) Plan() Plan { return r.plan }

// Retime is the run under way: what has begun by changes.Now stays as it is, the rest is timed again with what has changed, by the run's
// aims, or moving as little as possible when it has none. Timetable.Moves says what moved. A run without a timetable stays as planned.
func (r Run) Retime(ctx context.Context, changes kitchen.Changes) Plan {
	if r.planner == nil {
		return r.plan
	}
	p := *r.planner
	p.ctx, p.changes, p.was, p.planned, p.starts = ctx, changes, p.starts, p.day, nil
	p.wanting, p.tubs = nil, false
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

// underWay puts the day into the state that the changes tell: what has begun stays, what is late takes longer or begins later, and nothing
// else begins before now.
func (p *planner) underWay() {
	p.day = p.planned.copied()
	now := int(p.changes.Now)
	late := p.lateBy()
	for i := range p.day.tasks {
		t := &p.day.tasks[i]
		switch start, by := p.was[i], late[i]; {
		case t.kind == Visit && start >= now:
			t.earliest, t.latest = t.earliest+max(0, by), max(t.latest, t.latest+by)
		case start < now && start+t.length+max(0, by) > now || start < now && by < 0:
			t.fixed, t.state, t.earliest, t.latest = true, Begun, start, start
			p.stretch(i, max(by, now-start-t.length))
		case start < now:
			t.fixed, t.state, t.earliest, t.latest = true, Done, start, start
		default:
			t.earliest = max(t.earliest, now)
			if by > 0 {
				t.earliest = max(t.earliest, start+by)
			}
		}
	}
}

// lateBy is by how many minutes each task is late.
func (p *planner) lateBy() []int {
	late := make([]int, len(p.day.tasks))
	for i, t := range p.day.tasks {
		for _, l := range p.changes.Late {
			if l.Is(t.key) {
				late[i] += int(math.Round(l.By.S() / 60))
			}
		}
	}
	return late
}

// stretch makes a task that is under way longer or shorter: what is on now, and all that comes after it in the task.
func (p *planner) stretch(i, by int) {
	t := &p.day.tasks[i]
	at := min(int(p.changes.Now)-p.was[i], t.length)
	t.length = max(at, t.length+by)
	p.day.shift(i, func(minute int) int {
		if minute <= at {
			return minute
		}
		return max(at, min(t.length, minute+by))
	})
}

// shift moves every minute of task i.
func (d *day) shift(i int, to func(minute int) int) {
	t := &d.tasks[i]
	for k := range t.hands {
		t.hands[k].from, t.hands[k].to = to(t.hands[k].from), to(t.hands[k].to)
	}
	t.hands = slices.DeleteFunc(t.hands, func(h piece) bool { return h.from >= h.to })
	for k := range t.segs {
		t.segs[k].from, t.segs[k].to = to(t.segs[k].from), to(t.segs[k].to)
	}
	moved := func(e *ending) {
		if e.task == i {
			e.minute = to(e.minute)
		}
	}
	for k := range d.links {
		l := &d.links[k]
		moved(&l.after)
		if l.task == i {
			l.minute = to(l.minute)
		}
	}
	for _, f := range d.filled {
		for k := range f.emptied {
			moved(&f.emptied[k])
		}
	}
	for k := range d.waits {
		w := &d.waits[k]
		moved(&w.after)
		if w.task == i {
			w.minute = to(w.minute)
		}
	}
	for _, list := range d.ends {
		for k := range list {
			moved(&list[k])
		}
	}
}

// copied is a day that can be changed without changing this one.
func (d day) copied() day {
	d.tasks = slices.Clone(d.tasks)
	for i := range d.tasks {
		d.tasks[i].hands, d.tasks[i].segs = slices.Clone(d.tasks[i].hands), slices.Clone(d.tasks[i].segs)
	}
	d.links, d.waits, d.filled = slices.Clone(d.links), slices.Clone(d.waits), slices.Clone(d.filled)
	for i := range d.filled {
		d.filled[i].emptied = slices.Clone(d.filled[i].emptied)
	}
	ends := map[cookedStep][]ending{}
	for key, list := range d.ends {
		ends[key] = slices.Clone(list)
	}
	d.ends = ends
	return d
}

// showMoves lists what is to do and starts at another time than planned.
func (p *planner) showMoves(shown []int) {
	if p.was == nil {
		return
	}
	now := p.changes.Now
	p.out.Timetable.Now = &now
	late := p.lateBy()
	for i, t := range p.day.tasks {
		if i >= len(p.was) || p.starts[i] == p.was[i] {
			continue
		}
		p.out.Timetable.Moves = append(p.out.Timetable.Moves, Move{Task: shown[i], Was: unit.Moment(p.was[i]), Why: p.whyMoved(i, t, late)})
	}
	slices.SortStableFunc(p.out.Timetable.Moves, func(a, b Move) int { return cmp.Compare(a.Task, b.Task) })
}

// whyMoved is the first reason that explains a move.
func (p *planner) whyMoved(i int, t task, late []int) string {
	if late[i] != 0 {
		return "late itself"
	}
	for _, l := range p.day.links {
		a := l.after.task
		if l.task == i && l.most < 0 && a < len(p.was) && (p.starts[a] != p.was[a] || late[a] != 0) && p.starts[i]+l.minute-p.starts[a]-l.after.minute <= closeBehind {
			return "follows " + p.taskName(a)
		}
	}
	if len(t.hands) > 0 && len(p.changes.Gone) > 0 {
		return "fewer people"
	}
	if len(p.changes.Out) > 0 {
		return "equipment is short"
	}
	return "makes way"
}

// closeBehind is how close a task must follow another to be said to follow it.
const closeBehind = 30

// outages are when pieces of a place cannot be used.
func (p *planner) outages(x place) []outage {
	var list []outage
	for _, o := range p.changes.Out {
		if o.Equipment == x.equipment && x.equipment != "" {
			list = append(list, outage{stretch{int(o.From), p.until(o.Until)}, max(1, o.Count) * max(1, p.book.Equipment[x.equipment].Places)})
		}
	}
	return list
}

// outage is some pieces that cannot be used for a time.
type outage struct {
	stretch
	count int
}

// near is the starts as planned, for the tasks of a problem; nil before the day.
func (p *planner) near(q timetable.Problem) []int {
	if p.was == nil {
		return nil
	}
	near := make([]int, len(q.Tasks))
	copy(near, p.was)
	return near
}

// toDo is the problem without what tasks that have begun still use: that much less is there for the others. Were it counted as theirs, a
// broken burner that one of them stands on would leave no timetable at all.
func (p *planner) toDo(q timetable.Problem) timetable.Problem {
	if p.was == nil {
		return q
	}
	q.Tasks, q.Resources = slices.Clone(q.Tasks), slices.Clone(q.Resources)
	for i, t := range p.day.tasks {
		if !t.fixed {
			continue
		}
		for _, u := range q.Tasks[i].Uses {
			q.Resources[u.Resource].Capacity = less(q.Resources[u.Resource].Capacity, p.was[i]+u.From, p.was[i]+u.To, u.Amount)
		}
		q.Tasks[i].Uses = nil
	}
	return q
}

// less is a capacity lowered between two minutes, to nothing at the least.
func less(steps []timetable.Step, from, to, amount int) []timetable.Step {
	at := func(minute int) int {
		n := 0
		for _, s := range steps {
			if s.From <= minute {
				n = s.Amount
			}
		}
		return n
	}
	marks := []int{0, from, to}
	for _, s := range steps {
		marks = append(marks, s.From)
	}
	slices.Sort(marks)
	var lower []timetable.Step
	for _, m := range slices.Compact(marks) {
		n := at(m)
		if from <= m && m < to {
			n = max(0, n-amount)
		}
		if len(lower) == 0 || lower[len(lower)-1].Amount != n {
			lower = append(lower, timetable.Step{From: m, Amount: n})
		}
	}
	return lower
}

// heldUnderWay is when a vessel that has been filled will be emptied, as planned and as late as anything is. What stands in a vessel that
// fails is still to be taken care of: it counts as standing in one that works.
func (p *planner) heldUnderWay(x place) []stretch {
	var held []stretch
	late := slices.Max(append(p.lateBy(), 0))
	for _, f := range p.day.filled {
		if t := p.day.tasks[f.task]; p.day.places[f.place].key == x.key && t.fixed {
			until := p.was[f.task] + t.length
			for _, e := range f.emptied {
				until = max(until, p.was[e.task]+e.minute+late)
			}
			held = append(held, stretch{p.was[f.task], until})
		}
	}
	return held
}

// judgeOutage finds a place of which more is in use than is left when some of it fails.
func (p *planner) judgeOutage() {
	for _, o := range p.changes.Out {
		i := slices.IndexFunc(p.day.places, func(x place) bool { return x.equipment == o.Equipment })
		if i < 0 {
			continue
		}
		x, at, inUse := p.day.places[i], max(int(o.From), int(p.changes.Now)), 0
		for k, t := range p.day.tasks {
			for _, h := range t.holds {
				if h.place == i && t.fixed && p.was[k] <= at && at < p.was[k]+t.length {
					inUse += h.amount
				}
			}
		}
		for _, h := range p.heldUnderWay(x) {
			if h.from <= at && at < h.to {
				inUse++
			}
		}
		left := max(0, x.count-max(1, o.Count)*max(1, p.book.Equipment[x.equipment].Places))
		if inUse > left {
			p.find(finding.Finding{Code: CodeInUse, Severity: finding.Caution, Where: "equipment " + string(o.Equipment), Path: "equipment." + string(o.Equipment),
				Message: fmt.Sprintf("%d of %s are in use at %s, and %d are left: what is on the rest must go somewhere else now", inUse, x.name, unit.Moment(at), left),
				Figures: []finding.Figure{{Name: "in use", Value: float64(inUse)}, {Name: "left", Value: float64(left)}},
				Fix:     "move it by hand, and say how late that makes it"})
		}
	}
}
