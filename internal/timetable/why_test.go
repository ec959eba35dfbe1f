package timetable_test

import (
	"reflect"
	"slices"
	"testing"

	"kettlefrost/internal/timetable"
)

func TestNoTimeTable(t *testing.T) {
	cook := []timetable.Resource{{Name: "cook", Capacity: []timetable.Step{{From: 0, Amount: 1}, {From: 20, Amount: 0}, {From: 30, Amount: 1}}}}
	late := simple("stir", 5, 0, 1)
	late.Latest = 8
	for _, day := range []struct {
		name  string
		p     timetable.Problem
		kind  timetable.CoreKind
		tasks []int
	}{
		{"gaps in a circle", timetable.Problem{Horizon: 100, Tasks: []timetable.Task{simple("a", 1), simple("b", 1), simple("c", 1)},
			Lags: []timetable.Lag{{From: 0, To: 1, Min: 5}, {From: 1, To: 2, Min: 5}, {From: 2, To: 1, Min: -4}}}, timetable.LagCycle, []int{1, 2}},
		{"too long for the day", timetable.Problem{Horizon: 9, Tasks: []timetable.Task{simple("a", 5), simple("b", 5)},
			Lags: []timetable.Lag{{From: 0, To: 1, Min: 5}}}, timetable.ChainTooLate, []int{0, 1}},
		{"longer than any shift", timetable.Problem{Horizon: 35, Resources: cook, Tasks: []timetable.Task{simple("a", 21, 0, 1)}},
			timetable.NoRoom, []int{0}},
		{"more cooks than there are", timetable.Problem{Horizon: 35, Resources: cook, Tasks: []timetable.Task{simple("a", 2, 0, 2)}},
			timetable.NoRoom, []int{0}},
		{"more work than shift", timetable.Problem{Horizon: 35, Resources: cook,
			Tasks: []timetable.Task{simple("a", 10, 0, 1), simple("b", 10, 0, 1), simple("c", 6, 0, 1)}}, timetable.ResourceFull, []int{0, 1, 2}},
		{"two at once with one cook", timetable.Problem{Horizon: 35, Resources: cook, Tasks: []timetable.Task{late, simple("x", 1), late, simple("y", 3)},
			Lags: after(0, 2, 1, 2)}, timetable.SearchedAll, []int{0, 2}},
	} {
		t.Run(day.name, func(t *testing.T) {
			r := solve(t, day.p, timetable.Options{})
			if r.Status != timetable.Infeasible || r.Core.Kind != day.kind || !slices.Equal(slices.Sorted(slices.Values(r.Core.Tasks)), day.tasks) || r.Start != nil {
				t.Errorf("%s: %s of tasks %v; want infeasible: %s of %v", r.Status, r.Core.Kind, r.Core.Tasks, day.kind, day.tasks)
			}
		})
	}
}

// TestWhyNotEarlier: the argument for a bound can be followed by hand.
func TestWhyNotEarlier(t *testing.T) {
	t.Run("chain over a break", func(t *testing.T) {
		p := timetable.Problem{Horizon: 100, Resources: []timetable.Resource{{Name: "cook",
			Capacity: []timetable.Step{{From: 0, Amount: 1}, {From: 12, Amount: 0}, {From: 20, Amount: 1}}}},
			Tasks: []timetable.Task{simple("cut", 10, 0, 1), simple("fry", 5, 0, 1), simple("salt", 1)},
			Lags:  []timetable.Lag{{From: 0, To: 1, Min: 10}}}
		r := solve(t, p, timetable.Options{})
		if r.Bound != 25 || r.End != 25 ||
			!reflect.DeepEqual(r.BoundWhy, timetable.BoundWhy{Kind: timetable.LongestChain, Tasks: []int{0, 1}, Lags: []int{0}, Held: []int{-1, 0}}) {
			t.Errorf("bound %d: %+v; want 25, the chain of tasks 0 and 1, which waits for the cook", r.Bound, r.BoundWhy)
		}
	})
	t.Run("busy kettle", func(t *testing.T) {
		p := timetable.Problem{Horizon: 500, Resources: []timetable.Resource{{Name: "kettle", Capacity: timetable.Constant(1)}}}
		for i := range 3 { // prepare 10, kettle 60, cool 30
			p.Tasks = append(p.Tasks, simple("prepare", 10), simple("simmer", 60, 0, 1), simple("cool", 30))
			p.Lags = append(p.Lags, timetable.Lag{From: 3 * i, To: 3*i + 1, Min: 10}, timetable.Lag{From: 3*i + 1, To: 3*i + 2, Min: 60})
		}
		r := solve(t, p, timetable.Options{})
		want := timetable.BoundWhy{Kind: timetable.BusyResource, Tasks: []int{1, 4, 7}, From: 10, To: 190}
		if r.Bound != 220 || !reflect.DeepEqual(r.BoundWhy, want) {
			t.Errorf("bound %d: %+v; want 220: %+v", r.Bound, r.BoundWhy, want)
		}
	})
}
