package plan_test

import (
	"strings"
	"testing"

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
