package plan

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
	"kettlefrost/internal/unit"
)

func openDemo(t *testing.T, name string) Run {
	t.Helper()
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return Open(t.Context(), book, foods, book.Runs[name])
}

func tasksOf(p Plan) map[string]Task {
	found := map[string]Task{}
	for _, t := range p.Timetable.Tasks {
		found[t.Key] = t
	}
	return found
}

// asItWent tells a day up to a moment as it was planned, but for what is put in its place.
func asItWent(p Plan, now unit.Moment, but ...kitchen.Real) kitchen.Changes {
	c := kitchen.Changes{Now: now, Told: true}
	for _, t := range p.Timetable.Tasks {
		if t.Start < now && !slices.ContainsFunc(but, func(r kitchen.Real) bool { return r.Task == t.Key }) {
			c.Real = append(c.Real, kitchen.Real{Task: t.Key, Begin: t.Start, End: t.End, Over: t.End <= now})
		}
	}
	c.Real = append(c.Real, slices.DeleteFunc(but, func(r kitchen.Real) bool { return r.Begin == 0 })...)
	return c
}

// A day told as it was planned is left as planned.
func TestToldAsPlanned(t *testing.T) {
	run := openDemo(t, "tuesday")
	for _, now := range []unit.Moment{6 * 60, 9 * 60, 12*60 + 7} {
		p := run.Retime(t.Context(), asItWent(run.Plan(), now))
		if len(p.Timetable.Moves) > 0 || p.Timetable.Now == nil || p.Timetable.End != run.Plan().Timetable.End {
			t.Errorf("at %s: ends at %s, moved %v", now, p.Timetable.End, p.Timetable.Moves)
		}
	}
}

// What ended early gives back what it had, what is late pushes what needs it, what was skipped takes nothing, and what nobody began has not
// begun.
func TestTold(t *testing.T) {
	run := openDemo(t, "tuesday")
	before := tasksOf(run.Plan())
	const sauce, fill = "ale-cheddar/sauce-chill/1", "ale-cheddar-lb/fill/1"
	was := before[sauce]
	for _, c := range []struct {
		name   string
		now    unit.Moment
		really kitchen.Real
		holds  func(after map[string]Task) string
	}{
		{"ended half an hour late", was.End + 30, kitchen.Real{Task: sauce, Begin: was.Start, End: was.End + 30, Over: true}, func(after map[string]Task) string {
			if got := after[sauce]; got.State != Done || got.Start != was.Start || got.End != was.End+30 {
				return fmt.Sprintf("%s from %s to %s", got.State, got.Start, got.End)
			}
			return ""
		}},
		{"under way after its time", was.End + 10, kitchen.Real{Task: sauce, Begin: was.Start}, func(after map[string]Task) string {
			if got := after[sauce]; got.State != Begun || got.End != was.End+11 {
				return fmt.Sprintf("%s to %s, planned to %s", got.State, got.End, was.End)
			}
			if after[fill].Start < was.End+11 {
				return fmt.Sprintf("filled at %s, cold at %s", after[fill].Start, was.End+11)
			}
			return ""
		}},
		{"nobody began it", was.Start + 20, kitchen.Real{Task: sauce}, func(after map[string]Task) string {
			if got := after[sauce]; got.State != ToDo || got.Start < was.Start+20 || after[fill].Start < got.End {
				return fmt.Sprintf("%q from %s to %s, filled at %s", got.State, got.Start, got.End, after[fill].Start)
			}
			return ""
		}},
		{"begun early", was.Start - 5, kitchen.Real{Task: sauce, Begin: was.Start - 10}, func(after map[string]Task) string {
			if got := after[sauce]; got.State != Begun || got.End != was.End-10 {
				return fmt.Sprintf("%q from %s to %s", got.State, got.Start, got.End)
			}
			return ""
		}},
		{"skipped", was.Start + 5, kitchen.Real{Task: sauce, Begin: was.Start, End: was.Start, Over: true, Skipped: true}, func(after map[string]Task) string {
			if got := after[sauce]; got.State != Done || got.Start != got.End {
				return fmt.Sprintf("%q from %s to %s", got.State, got.Start, got.End)
			}
			return ""
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := run.Retime(t.Context(), asItWent(run.Plan(), c.now, c.really))
			if p.Timetable.Now == nil {
				t.Fatalf("not timed again: %v", p.Findings)
			}
			if wrong := c.holds(tasksOf(p)); wrong != "" {
				t.Error(wrong)
			}
		})
	}
}

// TestAnythingTold: however a day really went, with what was done early, late, out of turn, twice at once or not at all, the rest is timed
// again, nothing that happened is moved, and from now on nothing is overbooked: by the checker, and by counting minute for minute.
func TestAnythingTold(t *testing.T) {
	run := openDemo(t, "tuesday")
	tasks := run.Plan().Timetable.Tasks
	rapid.Check(t, func(t *rapid.T) {
		c := kitchen.Changes{Now: unit.Moment(rapid.IntRange(4*60, 20*60).Draw(t, "now")), Told: true}
		slip := rapid.IntRange(0, 90)
		for _, task := range tasks {
			begin := task.Start + unit.Moment(slip.Draw(t, "begins later")-45)
			if begin = max(0, begin); begin > c.Now || rapid.IntRange(0, 9).Draw(t, "is forgotten") == 0 {
				continue
			}
			r := kitchen.Real{Task: task.Key, Begin: begin, End: max(begin, begin+task.End-task.Start+unit.Moment(slip.Draw(t, "takes longer")-45))}
			r.Over = r.End <= c.Now
			r.Skipped = r.Over && rapid.IntRange(0, 19).Draw(t, "is skipped") == 0
			c.Real = append(c.Real, r)
		}
		held(t, run, c)
	})
}

type failing interface{ Fatalf(string, ...any) }

// held times a day again and holds it against what was told.
func held(t failing, run Run, c kitchen.Changes) {
	p := *run.planner
	p.ctx, p.changes, p.was, p.aimed, p.planned, p.starts = run.planner.ctx, c, p.starts, p.starts, p.day, nil
	p.wanting, p.yields, p.settled, p.out = nil, false, false, p.untimed.copied()
	p.underWay()
	crew, problem, result, err := p.timedTold()
	if err != nil || result.Start == nil {
		t.Fatalf("at %s: not timed again: %v, %v", c.Now, result.Status, err)
	}
	if err := check.Check(p.fromNow(problem.Problem), result.Start, nil); err != nil {
		t.Fatalf("%v", err)
	}
	for i, task := range p.day.tasks {
		told := slices.IndexFunc(c.Real, func(r kitchen.Real) bool { return r.Task == task.key })
		start, end := unit.Moment(result.Start[i]), unit.Moment(result.Start[i]+task.length)
		switch {
		case told < 0 && task.kind != Visit && (start < c.Now || task.state != ToDo):
			t.Fatalf("%s, which nobody began, is %q from %s on; it is %s", task.key, task.state, start, c.Now)
		case told >= 0 && start != c.Real[told].Begin:
			t.Fatalf("%s began at %s, and is moved to %s", task.key, c.Real[told].Begin, start)
		case told >= 0 && c.Real[told].Over && end != c.Real[told].End:
			t.Fatalf("%s ended at %s, and is moved to %s", task.key, c.Real[told].End, end)
		case told >= 0 && !c.Real[told].Over && end <= c.Now:
			t.Fatalf("%s is under way, and ends at %s; it is %s", task.key, end, c.Now)
		}
	}
	p.starts = result.Start[:len(p.day.tasks)]
	overbooked(t, &p, crew, problem.Problem)
}

// overbooked counts, minute for minute, who and what is needed from now on. More than there is may only be what had begun before.
func overbooked(t failing, p *planner, crew []member, q timetable.Problem) {
	for minute := int(p.changes.Now); minute < int(p.changes.Now)+16*60; minute++ {
		here, needed, begun := amountAt(capacity(crew), minute), 0, 0
		for i, task := range p.day.tasks {
			for _, h := range task.hands {
				if at := minute - p.starts[i]; h.from <= at && at < h.to {
					if needed += h.people; task.fixed {
						begun += h.people
					}
				}
			}
		}
		if needed > max(here, begun) {
			t.Fatalf("at %s %d people are needed, %d are here, %d are at what had begun", unit.Moment(minute), needed, here, begun)
		}
		for place, x := range p.day.places {
			used, before := inPlace(p, q, place, minute)
			if used > max(x.count, before) {
				t.Fatalf("at %s %d of %s are in use, %d are there, %d had begun", unit.Moment(minute), used, x.name, x.count, before)
			}
		}
	}
}

// inPlace is how many of a place are in use at a minute, and how many of those by what had begun.
func inPlace(p *planner, q timetable.Problem, place, minute int) (used, begun int) {
	count := func(i, from, to, amount int) {
		if from <= minute && minute < to {
			if used += amount; p.day.tasks[i].fixed {
				begun += amount
			}
		}
	}
	for i, task := range p.day.tasks {
		for _, h := range task.holds {
			if h.place == place {
				count(i, p.starts[i], p.starts[i]+task.length, h.amount)
			}
		}
	}
	for _, f := range p.day.filled {
		until := p.starts[f.task] + p.day.tasks[f.task].length
		for _, e := range p.stillEmptied(f) {
			if !p.tubs {
				until = max(until, p.starts[e.task]+e.minute)
			}
		}
		if f.place == place {
			count(f.task, p.starts[f.task], until, 1)
		}
	}
	return used, begun
}
