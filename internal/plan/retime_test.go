package plan_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// underWay opens a run of the demo kitchen.
func underWay(t *testing.T, name string) plan.Run {
	t.Helper()
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return plan.Open(t.Context(), book, foods, book.Runs[name])
}

func byKey(tasks []plan.Task) map[string]plan.Task {
	found := map[string]plan.Task{}
	for _, t := range tasks {
		found[t.Key] = t
	}
	return found
}

// TestNothingHappened: a day on which all goes as planned is left as planned.
func TestNothingHappened(t *testing.T) {
	run := underWay(t, "tuesday")
	now := run.Retime(t.Context(), kitchen.Changes{Now: 9 * 60})
	if len(now.Timetable.Moves) != 0 {
		t.Errorf("moved: %v", now.Timetable.Moves)
	}
	before := byKey(run.Plan().Timetable.Tasks)
	for _, task := range now.Timetable.Tasks {
		want := plan.ToDo
		if was := before[task.Key]; was.End <= 9*60 {
			want = plan.Done
		} else if was.Start < 9*60 {
			want = plan.Begun
		}
		if task.State != want || task.Start != before[task.Key].Start || task.End != before[task.Key].End {
			t.Errorf("%s is %q from %s to %s; want %q from %s to %s", task.Key, task.State, task.Start, task.End, want, before[task.Key].Start, before[task.Key].End)
		}
	}
}

// TestLate: what is under way takes longer, what needs it follows, and what was over stays.
func TestLate(t *testing.T) {
	run := underWay(t, "tuesday")
	const key = "ale-cheddar/sauce-chill/1"
	before := byKey(run.Plan().Timetable.Tasks)
	p := run.Retime(t.Context(), kitchen.Changes{Now: 9 * 60, Late: []kitchen.Late{{Task: key, By: 25 * unit.Minute}}})
	after := byKey(p.Timetable.Tasks)
	if got, want := after[key].End, before[key].End+25; got != want {
		t.Errorf("ends at %s, want %s", got, want)
	}
	for k, task := range after {
		if strings.HasPrefix(k, "ale-cheddar-lb/fill/") && task.Start < after[key].End {
			t.Errorf("%s starts at %s, before the sauce is cold at %s", k, task.Start, after[key].End)
		}
		if before[k].Start < 9*60 && task.Start != before[k].Start {
			t.Errorf("%s had begun at %s and now at %s", k, before[k].Start, task.Start)
		}
	}
	if len(p.Timetable.Moves) == 0 || len(p.Timetable.Moves) > 4 {
		t.Errorf("%d tasks moved: %v", len(p.Timetable.Moves), p.Timetable.Moves)
	}
	if a := p.Timetable.Aims[0]; a.Aim != kitchen.LeastChange || a.Value < a.Bound {
		t.Errorf("aims: %v", p.Timetable.Aims)
	}
}

// TestLateBeyondItsEnd: what should be over and is not keeps what needs it from having begun, and its vessel; the rest follows.
func TestLateBeyondItsEnd(t *testing.T) {
	run := underWay(t, "tuesday")
	before := byKey(run.Plan().Timetable.Tasks)
	for _, c := range []struct{ late, needs string }{
		{"turkey-meatballs/sweat/1", "turkey-meatballs/sauce-chill/1"}, {"ale-cheddar/sweat/1", "ale-cheddar/sauce-chill/1"},
	} {
		now := before[c.needs].Start + 5
		p := run.Retime(t.Context(), kitchen.Changes{Now: now, Late: []kitchen.Late{{Task: c.late, By: 25 * unit.Minute}}})
		after := byKey(p.Timetable.Tasks)
		if after[c.late].State != plan.Begun || after[c.late].End != before[c.late].End+25 {
			t.Errorf("%s is %q and ends at %s; planned was %s", c.late, after[c.late].State, after[c.late].End, before[c.late].End)
		}
		if after[c.needs].State != plan.ToDo || after[c.needs].Start < after[c.late].End {
			t.Errorf("%s is %q and starts at %s, while %s ends at %s", c.needs, after[c.needs].State, after[c.needs].Start, c.late, after[c.late].End)
		}
	}
}

// TestAnythingLate: whatever is late at whatever time, the rest of the day is timed again, and what has begun stays where it was.
func TestAnythingLate(t *testing.T) {
	run := underWay(t, "tuesday")
	tasks := run.Plan().Timetable.Tasks
	before := byKey(tasks)
	rapid.Check(t, func(t *rapid.T) {
		late := rapid.SampledFrom(tasks).Draw(t, "late")
		by := rapid.IntRange(1, 60).Draw(t, "by")
		now := late.End + unit.Moment(rapid.IntRange(-30, by).Draw(t, "after its end"))
		p := run.Retime(t.Context(), kitchen.Changes{Now: now, Late: []kitchen.Late{{Task: late.Key, By: unit.Span(by) * unit.Minute}}})
		if len(p.Timetable.Tasks) != len(tasks) {
			t.Fatalf("%s late by %d at %s: %s, %v", late.Key, by, now, p.Timetable.Status, p.Findings)
		}
		for _, task := range p.Timetable.Tasks {
			if was := before[task.Key]; task.State != plan.ToDo && task.Start != was.Start || task.State == plan.ToDo && task.Start < now {
				t.Errorf("%s is %q from %s on, planned from %s; it is %s", task.Key, task.State, task.Start, was.Start, now)
			}
		}
	})
}

// TestWaitsTwice: leeks that have begun wait on the way for mushrooms that wait for a pot; the stirs of the leeks come later by it, at times
// when the mushrooms need the same hands, so that the leeks wait once more.
func TestWaitsTwice(t *testing.T) {
	const late = "turkey-meatballs/bake/1"
	run := underWay(t, "tuesday")
	p := run.Retime(t.Context(), kitchen.Changes{Now: 9*60 + 37, Late: []kitchen.Late{{Task: late, By: 41 * unit.Minute}}})
	if got, want := byKey(p.Timetable.Tasks)[late].End, byKey(run.Plan().Timetable.Tasks)[late].End+41; got != want {
		t.Errorf("%s: ends at %s, want %s; %v", p.Timetable.Status, got, want, p.Findings)
	}
}

// TestLimitMissed: when what must be chilled in half an hour has not begun in an hour, that is said, and the rest is timed all the same.
func TestLimitMissed(t *testing.T) {
	run := underWay(t, "tuesday")
	chill := byKey(run.Plan().Timetable.Tasks)["ale-cheddar/sauce-chill/1"]
	p := run.Retime(t.Context(), kitchen.Changes{Now: chill.Start - 1, Late: []kitchen.Late{{Task: chill.Key, By: unit.Hour}}})
	if f := has(p.Findings, plan.CodeLimitMissed); f == nil || p.Timetable.Now == nil {
		t.Errorf("%s, %v", p.Timetable.Status, p.Findings)
	}
}

// TestGoneHome: nobody who has gone has work, from that minute on.
func TestGoneHome(t *testing.T) {
	p := underWay(t, "tuesday").Retime(t.Context(), kitchen.Changes{Now: 9 * 60, Gone: []kitchen.Gone{{Person: "sam", From: 11 * 60}}})
	if p.Timetable.Now == nil {
		t.Fatal("not timed again")
	}
	for _, row := range p.Timetable.Rows {
		for _, b := range row.Bars {
			if row.Name == "Sam" && b.To > 11*60 {
				t.Errorf("Sam works until %s", b.To)
			}
		}
	}
}

// TestBroken: no more of what failed is in use than is left.
func TestBroken(t *testing.T) {
	p := underWay(t, "tuesday").Retime(t.Context(), kitchen.Changes{Now: 9*60 + 30, Out: []kitchen.Outage{{Equipment: "oven", Count: 1, From: 10 * 60}}})
	for _, row := range p.Timetable.Rows {
		for _, b := range row.Bars {
			if strings.HasPrefix(row.Name, "convection oven") && b.To > 10*60 {
				t.Errorf("%s in use until %s", row.Name, b.To)
			}
		}
	}
	all := underWay(t, "tuesday").Retime(t.Context(), kitchen.Changes{Now: 8*60 + 40, Out: []kitchen.Outage{{Equipment: "rondeau", Count: 1, From: 8*60 + 40}}})
	if all.Timetable.Now == nil || has(all.Findings, plan.CodeInUse) == nil {
		t.Errorf("one low pot of two that are in use gone: %s, %v", all.Timetable.Status, all.Findings)
	}
}
