package timetable_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
	"pgregory.net/rapid"
)

// heldKitchen is a small kitchen with a kettle that has to be washed between families, pots that are held until they are emptied, and
// goals.
func heldKitchen(t *rapid.T) timetable.Problem {
	p := smallKitchen(t, 4)
	p.Horizon = min(p.Horizon, 9)
	n := len(p.Tasks)
	kettle := len(p.Resources)
	minutes := rapid.IntRange(0, 3)
	p.Resources = append(p.Resources, timetable.Resource{Name: "kettle", Capacity: timetable.Constant(1),
		Changeover: [][]int{{minutes.Draw(t, "0 to 0"), minutes.Draw(t, "0 to 1")}, {minutes.Draw(t, "1 to 0"), minutes.Draw(t, "1 to 1")}}})
	for i := range p.Tasks {
		task := &p.Tasks[i]
		task.Family = rapid.IntRange(0, 1).Draw(t, "family")
		if rapid.Bool().Draw(t, "in the kettle") {
			task.Uses = append(slices.Clone(task.Uses), timetable.Use{Resource: kettle, To: task.Duration, Amount: 1})
		}
	}
	for range rapid.IntRange(0, 2).Draw(t, "holds") {
		a, b := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		p.Holds = append(p.Holds, timetable.Hold{Resource: rapid.IntRange(0, kettle).Draw(t, "held"), Amount: 1,
			From: timetable.Moment{Task: a, Minute: rapid.IntRange(0, p.Tasks[a].Duration).Draw(t, "minute")},
			To:   timetable.Moment{Task: b, Minute: rapid.IntRange(0, p.Tasks[b].Duration).Draw(t, "minute")}})
		if rapid.Bool().Draw(t, "in order") {
			p.Lags = append(p.Lags, timetable.Lag{From: a, To: b, Min: p.Tasks[a].Duration})
		}
	}
	for k := range rapid.IntRange(0, 2).Draw(t, "goals") {
		g := timetable.Goal{Name: fmt.Sprint("goal ", k), Give: rapid.IntRange(0, 2).Draw(t, "give")}
		for range rapid.IntRange(0, 3).Draw(t, "terms") {
			g.Terms = append(g.Terms, timetable.Term{From: rapid.IntRange(-1, n-1).Draw(t, "after"), To: rapid.IntRange(-1, n-1).Draw(t, "comes"),
				Min: rapid.IntRange(-9, 4).Draw(t, "least"), Weight: rapid.IntRange(0, 3).Draw(t, "weight")})
		}
		p.Goals = append(p.Goals, g)
	}
	return p
}

// everySchedule calls see with each schedule that the checker passes.
func everySchedule(p timetable.Problem, see func(start []int)) {
	start := make([]int, len(p.Tasks))
	var place func(i int)
	place = func(i int) {
		if i == len(start) {
			if check.Check(p, start) == nil {
				see(start)
			}
			return
		}
		t := p.Tasks[i]
		for s := t.Earliest; s+t.Duration <= p.Horizon && (t.Latest < 0 || s <= t.Latest); s++ {
			if start[i] = s; keepsLags(p, start, i) && hasRoom(p, start, i) {
				place(i + 1)
			}
		}
	}
	place(0)
}

// valueOf is what a schedule comes to by a goal.
func valueOf(p timetable.Problem, g timetable.Goal, start []int) int {
	if len(g.Terms) == 0 {
		return lastEnd(p, start)
	}
	at := func(i int) int {
		if i < 0 {
			return 0
		}
		return start[i]
	}
	sum := 0
	for _, t := range g.Terms {
		sum += t.Weight * max(0, at(t.To)-at(t.From)-t.Min)
	}
	return sum
}

// TestGoalsAgainstEveryPossibility: one goal after another, each as small as trying all starts finds it, where the ones before may give.
func TestGoalsAgainstEveryPossibility(t *testing.T) {
	possible := 0
	checkOften(t, func(t *rapid.T) {
		p := heldKitchen(t)
		r, err := timetable.Solve(context.Background(), p, timetable.Options{Seed: 1, Tries: rapid.SampledFrom([]int{0, -1, 5}).Draw(t, "tries"), Conflicts: 100_000})
		if err != nil {
			t.Fatal(err)
		}
		var all [][]int
		everySchedule(p, func(start []int) { all = append(all, slices.Clone(start)) })
		if len(all) == 0 {
			if r.Status != timetable.Infeasible {
				t.Fatalf("%s; no schedule exists", r.Status)
			}
			return
		}
		possible++
		if r.Status != timetable.Optimal {
			t.Fatalf("%s: so small a problem should be searched to the end; %d schedules exist", r.Status, len(all))
		}
		if err := check.Check(p, r.Start); err != nil {
			t.Fatal(err)
		}
		goals := p.Goals
		if len(goals) == 0 {
			goals = []timetable.Goal{{}}
		}
		for k, g := range goals {
			least := valueOf(p, g, all[0])
			for _, start := range all {
				least = min(least, valueOf(p, g, start))
			}
			if got := valueOf(p, g, r.Start); got > least+g.Give {
				t.Errorf("goal %d comes to %d; the best is %d, and it gives %d", k, got, least, g.Give)
			}
			if len(p.Goals) > 0 && (r.Goals[k].Value != least || r.Goals[k].Bound != least) {
				t.Errorf("goal %d: value %d, bound %d; the best is %d", k, r.Goals[k].Value, r.Goals[k].Bound, least)
			}
			all = slices.DeleteFunc(all, func(start []int) bool { return valueOf(p, g, start) > least+g.Give })
		}
	})
	if possible < 100 {
		t.Errorf("only %d kitchens were possible", possible)
	}
}

// TestSlackHolds: any one task may use up its slack, and there is a schedule that ends no later.
func TestSlackHolds(t *testing.T) {
	slacks := 0
	checkOften(t, func(t *rapid.T) {
		p := heldKitchen(t)
		p.Goals = nil
		r, err := timetable.Solve(context.Background(), p, timetable.Options{Seed: 1})
		if err != nil || r.Start == nil {
			return
		}
		for i, slack := range timetable.Slack(p, r.Start) {
			if slack < 0 {
				t.Fatalf("task %d has a slack of %d", i, slack)
			}
			if slack == 0 {
				continue
			}
			slacks++
			later := p
			later.Horizon, later.Tasks = r.End, slices.Clone(p.Tasks)
			later.Tasks[i].Earliest = r.Start[i] + slack
			if again, err := timetable.Solve(context.Background(), later, timetable.Options{Conflicts: 100_000}); err != nil || again.Start == nil {
				t.Fatalf("task %d cannot start %d minutes later: %s, %v", i, slack, again.Status, err)
			}
		}
	})
	if slacks < 100 {
		t.Errorf("only %d slacks were looked at", slacks)
	}
}
