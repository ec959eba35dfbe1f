package plan

import (
	"math"
	"slices"

	"kettlefrost/internal/timetable"
)

// underWay puts the day into the state that the changes tell: what has begun stays, what is late takes longer or begins later, and nothing
// else begins before now. What was to begin before now but waits for something late has not begun.
func (p *planner) underWay() {
	p.day = p.planned.copied()
	if p.changes.Told {
		p.asTold()
		return
	}
	g := p.progress()
	for i := range p.day.tasks {
		t, start, by := &p.day.tasks[i], p.was[i], g.late[i]
		switch {
		case t.kind == Visit && start >= g.now:
			t.earliest, t.latest = t.earliest+max(0, by), max(t.latest, t.latest+by)
		case !g.begun[i]:
			t.earliest = max(t.earliest, g.now, start+max(0, by))
		default:
			t.fixed, t.state, t.earliest, t.latest = true, Begun, start, start
			if p.day.shift(i, g.moved(i)); start+t.length <= g.now {
				t.state = Done
			}
		}
	}
}

// progress is how far a day under way has come.
type progress struct {
	p     *planner
	now   int
	late  []int  // minutes, of each task
	begun []bool // also when it is over
	at    []int  // of a task that has begun: the minute of it from which on everything is later
	extra []int  // by so much
}

// progress finds out what has begun. First all counts as begun that was to begin before now; then what could not, or what is stuck on the
// way, because of something late, and so on until nothing changes.
func (p *planner) progress() *progress {
	n := len(p.day.tasks)
	g := &progress{p: p, now: int(p.changes.Now), late: p.lateBy(), begun: make([]bool, n), at: make([]int, n), extra: make([]int, n)}
	for i, t := range p.day.tasks {
		g.begun[i] = p.was[i] < g.now
		g.at[i] = min(g.now-p.was[i]+1, t.length)
		if end := p.was[i] + t.length; end+max(0, g.late[i]) > g.now {
			g.extra[i] = max(g.late[i], g.now-end)
		}
	}
	for range n + 1 { // each round but the last settles at least one task
		changed := false
		for i := range g.begun {
			changed = g.begun[i] && g.settle(i) || changed
		}
		if !changed {
			break
		}
	}
	return g
}

// settle looks whether a task could begin as planned and go on as planned, and tells whether that changes anything.
func (g *progress) settle(i int) (changed bool) {
	if !g.hasPlaces(i) {
		g.begun[i] = false
		return true
	}
	for _, l := range g.p.day.links {
		if l.task != i || l.most >= 0 {
			continue
		}
		wait := g.ready(l.after) - g.p.was[i] - l.minute
		switch {
		case wait <= 0:
		case l.minute <= 0:
			g.begun[i] = false
			return true
		case wait > g.extra[i]:
			g.at[i], g.extra[i], changed = min(g.at[i], l.minute), wait, true
		}
	}
	return changed
}

// ready is when a moment of a task comes; of one that has not begun, at the earliest.
func (g *progress) ready(e ending) int {
	if !g.begun[e.task] {
		return max(g.now, g.p.was[e.task]+g.late[e.task]) + e.minute
	}
	return g.p.was[e.task] + g.moved(e.task)(e.minute)
}

// moved is where the minutes of a task that has begun have gone: those from at on are later, or earlier, though not before now. Its end is
// among them also when it should have come already.
func (g *progress) moved(i int) func(minute int) int {
	at, extra, least := g.at[i], g.extra[i], min(g.now-g.p.was[i], g.p.day.tasks[i].length)
	return func(minute int) int {
		switch {
		case minute < at:
			return minute
		case extra < 0:
			return max(least, minute+extra)
		}
		return minute + extra
	}
}

// hasPlaces tells whether there was a place free for a task when it was to begin.
func (g *progress) hasPlaces(i int) bool {
	p := g.p
	places := slices.Clone(p.day.tasks[i].holds)
	for _, f := range p.day.filled {
		if f.task == i {
			places = append(places, hold{f.place, 1})
		}
	}
	for _, h := range places {
		if g.taken(h.place, p.was[i], i)+h.amount > p.day.places[h.place].count {
			return false
		}
	}
	return true
}

// taken is how many of a place are in use at a minute by tasks that began before another.
func (g *progress) taken(place, minute, other int) int {
	before := func(k int) bool {
		return g.begun[k] && (g.p.was[k] < minute || g.p.was[k] == minute && k < other)
	}
	n := 0
	for k, t := range g.p.day.tasks {
		for _, h := range t.holds {
			if h.place == place && before(k) && minute < g.ready(ending{k, t.length}) {
				n += h.amount
			}
		}
	}
	for _, f := range g.p.day.filled {
		if f.place == place && before(f.task) && minute < g.emptied(f) {
			n++
		}
	}
	return n
}

// emptied is when a vessel is empty: when the last that takes from it has begun.
func (g *progress) emptied(f filled) int {
	until := g.ready(ending{f.task, g.p.day.tasks[f.task].length})
	if g.p.tubs {
		return until
	}
	for _, e := range f.emptied {
		until = max(until, g.ready(e))
	}
	return until
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
	switch {
	case p.was == nil:
		return q
	case p.changes.Told:
		return p.fromNow(q)
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
	marks := []int{0, from, to}
	for _, s := range steps {
		marks = append(marks, s.From)
	}
	slices.Sort(marks)
	var lower []timetable.Step
	for _, m := range slices.Compact(marks) {
		n := amountAt(steps, m)
		if from <= m && m < to {
			n = max(0, n-amount)
		}
		if len(lower) == 0 || lower[len(lower)-1].Amount != n {
			lower = append(lower, timetable.Step{From: m, Amount: n})
		}
	}
	return lower
}

// amountAt is a capacity at a minute.
func amountAt(steps []timetable.Step, minute int) int {
	n := 0
	for _, s := range steps {
		if s.From <= minute {
			n = s.Amount
		}
	}
	return n
}
