package timetable_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
)

// flexible is four jobs of two to four steps, each of which may be done on any of five machines in the minutes given: the first instance
// of Kacem, Hammadi and Borne 2002 (IEEE Transactions on Systems, Man, and Cybernetics C 32), from memory. Its optimum is 11.
func flexible() timetable.Problem {
	jobs := [][][5]int{
		{{2, 5, 4, 1, 2}, {5, 4, 5, 7, 5}, {4, 5, 5, 4, 5}},
		{{2, 5, 4, 7, 8}, {5, 6, 9, 8, 5}, {4, 5, 4, 54, 5}},
		{{9, 8, 6, 7, 9}, {6, 1, 2, 5, 4}, {2, 5, 4, 2, 4}, {4, 5, 2, 1, 5}},
		{{1, 5, 2, 4, 12}, {5, 1, 2, 1, 2}},
	}
	p := timetable.Problem{Horizon: 60}
	for m := range 5 {
		p.Resources = append(p.Resources, timetable.Resource{Name: fmt.Sprint("machine ", m), Capacity: timetable.Constant(1)})
	}
	for j, steps := range jobs {
		for s, minutes := range steps {
			oneOf(&p, timetable.Task{Name: fmt.Sprintf("job %d step %d", j, s), Latest: -1}, minutes[:])
		}
		p.Tasks = append(p.Tasks, timetable.Task{Name: fmt.Sprintf("job %d done", j), Latest: -1})
	}
	return p
}

// oneOf adds a task that is done on one of the resources, for so many minutes on each. What follows it must be the next task.
func oneOf(p *timetable.Problem, task timetable.Task, minutes []int) {
	task.Duration = slices.Min(minutes)
	i, choice := len(p.Tasks), len(p.Choices)
	p.Tasks, p.Choices = append(p.Tasks, task), append(p.Choices, len(minutes))
	for m, d := range minutes {
		way := timetable.If{Choice: choice, Way: 1 + m}
		p.Holds = append(p.Holds, timetable.Hold{Resource: m, Amount: 1, From: timetable.Moment{Task: i}, To: timetable.Moment{Task: i, Minute: d}, If: way})
		p.Lags = append(p.Lags, timetable.Lag{From: i, To: i + 1, Min: d, If: way})
	}
}

func TestOneOfSeveralMachines(t *testing.T) {
	p := flexible()
	for seed := range uint64(5) {
		r, err := timetable.Solve(context.Background(), p, timetable.Options{Seed: seed, Turns: 4})
		if err != nil {
			t.Fatal(err)
		}
		if r.Status != timetable.Optimal || r.End != 11 {
			t.Errorf("seed %d: %s at %d, bound %d; the optimum is 11", seed, r.Status, r.End, r.Bound)
		}
		if err := check.Check(p, r.Start, r.Ways); err != nil {
			t.Error(err)
		}
		t.Logf("%+v", r.Effort)
	}
}

// TestTheFasterOfTwoIsNotAlwaysRight: three pots of soup, a kettle that takes 20 minutes and a pot that takes 35. The best is two in the
// kettle, one in the pot: 40 minutes, where the kettle alone would take 60.
func TestTheFasterOfTwoIsNotAlwaysRight(t *testing.T) {
	p := timetable.Problem{Horizon: 200, Resources: []timetable.Resource{
		{Name: "kettle", Capacity: timetable.Constant(1)}, {Name: "pot", Capacity: timetable.Constant(1)}}}
	for k := range 3 {
		oneOf(&p, timetable.Task{Name: fmt.Sprint("soup ", k), Latest: -1}, []int{20, 35})
		p.Tasks = append(p.Tasks, timetable.Task{Name: fmt.Sprint("soup done ", k), Latest: -1})
	}
	r, err := timetable.Solve(context.Background(), p, timetable.Options{})
	if err != nil || r.Status != timetable.Optimal || r.End != 40 {
		t.Fatalf("%s at %d, %v; want 40", r.Status, r.End, err)
	}
	slices.Sort(r.Ways)
	if !slices.Equal(r.Ways, []int{1, 1, 2}) {
		t.Errorf("ways %v, want two in the kettle and one in the pot", r.Ways)
	}
}

// TestNoWayFits: whichever way is taken, it comes too late; with one more way it does not.
func TestNoWayFits(t *testing.T) {
	p := timetable.Problem{Horizon: 30, Resources: []timetable.Resource{
		{Name: "kettle", Capacity: timetable.Constant(1)}, {Name: "pot", Capacity: timetable.Constant(1)}, {Name: "oven", Capacity: timetable.Constant(1)}}}
	for range 2 {
		oneOf(&p, timetable.Task{Name: "soup", Latest: -1}, []int{20, 35})
		p.Tasks = append(p.Tasks, timetable.Task{Name: "done", Latest: -1})
	}
	r, err := timetable.Solve(context.Background(), p, timetable.Options{})
	if err != nil || r.Status != timetable.Infeasible || len(r.Core.Tasks) == 0 {
		t.Fatalf("%s, core %+v, %v; want infeasible", r.Status, r.Core, err)
	}
	p.Choices[1] = 3
	p.Holds = append(p.Holds, timetable.Hold{Resource: 2, Amount: 1, From: timetable.Moment{Task: 2}, To: timetable.Moment{Task: 2, Minute: 30}, If: timetable.If{Choice: 1, Way: 3}})
	p.Lags = append(p.Lags, timetable.Lag{From: 2, To: 3, Min: 30, If: timetable.If{Choice: 1, Way: 3}})
	if r, err = timetable.Solve(context.Background(), p, timetable.Options{}); err != nil || r.End != 30 || !slices.Equal(r.Ways, []int{1, 3}) {
		t.Errorf("%s at %d by %v, %v; want 30 with the second in the oven", r.Status, r.End, r.Ways, err)
	}
}
