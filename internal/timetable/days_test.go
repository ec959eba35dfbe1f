package timetable_test

import (
	"fmt"
	"testing"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
)

func TestBusyDays(t *testing.T) {
	for n := 2; n <= 20; n += 6 {
		for seed := range uint64(5) {
			p := kitchen(n, seed)
			r := solve(t, p, timetable.Options{})
			if r.Start == nil {
				t.Errorf("%d batches, seed %d: %s", n, seed, r.Status)
				continue
			}
			if err := check.Check(p, r.Start, r.Ways); err != nil {
				t.Errorf("%d batches, seed %d: %v", n, seed, err)
			}
			if r.End < r.Bound {
				t.Errorf("%d batches, seed %d: ends at %d before the bound %d", n, seed, r.End, r.Bound)
			}
			t.Logf("%d batches, seed %d: %s, ends at %d, bound %d (%s), %+v", n, seed, r.Status, r.End, r.Bound, r.BoundWhy.Kind, r.Effort)
		}
	}
}

// TestHiddenAnswer: kitchens with many gaps in both directions, made around a schedule that is then thrown away.
func TestHiddenAnswer(t *testing.T) {
	for _, n := range []int{10, 30, 60} {
		for _, slack := range []int{2, 40} {
			for seed := range uint64(8) {
				p, end := hidden(n, slack, seed)
				r := solve(t, p, timetable.Options{})
				if r.Start == nil || r.Bound > end {
					t.Errorf("%d tasks, slack %d, seed %d: %s, bound %d; a schedule ends at %d", n, slack, seed, r.Status, r.Bound, end)
					continue
				}
				if err := check.Check(p, r.Start, r.Ways); err != nil {
					t.Errorf("%d tasks, slack %d, seed %d: %v", n, slack, seed, err)
				}
			}
		}
	}
}

// TestAllDoneWithin ties a whole day together by one greatest gap, from its first step to its last.
func TestAllDoneWithin(t *testing.T) {
	for seed := range uint64(3) {
		p := kitchen(30, seed)
		n := len(p.Tasks)
		p.Tasks = append(p.Tasks, simple("first", 0), simple("last", 0))
		for i := range n {
			p.Lags = append(p.Lags, timetable.Lag{From: n, To: i}, timetable.Lag{From: i, To: n + 1, Min: p.Tasks[i].Duration})
		}
		free := solve(t, p, timetable.Options{})
		p.Lags = append(p.Lags, timetable.Lag{From: n + 1, To: n})
		for _, spare := range []int{4, 8, 100} { // a day of a quarter, an eighth, a hundredth more than the bound
			within := free.Bound + free.Bound/spare
			p.Lags[len(p.Lags)-1].Min = -within
			r := solve(t, p, timetable.Options{})
			if r.Start == nil && spare < 100 {
				t.Errorf("seed %d: %s, %v; without the gap the day ends at %d, within is %d", seed, r.Status, r.Effort, free.End, within)
			}
			if r.Start != nil && check.Check(p, r.Start, r.Ways) != nil {
				t.Errorf("seed %d, within %d: %v", seed, within, check.Check(p, r.Start, r.Ways))
			}
			t.Logf("within %d: %s, ends at %d; without that gap at %d, bound %d", within, r.Status, r.End, free.End, free.Bound)
		}
	}
}

// TestThousandsOfTasks: thousands of tasks in one chain listed backwards, and a shift pattern of a year.
func TestThousandsOfTasks(t *testing.T) {
	p := timetable.Problem{Horizon: 365 * 1440, Resources: []timetable.Resource{{Name: "cook"}}}
	for day := range 365 {
		p.Resources[0].Capacity = append(p.Resources[0].Capacity, timetable.Step{From: 1440*day + 480, Amount: 1}, timetable.Step{From: 1440*day + 960, Amount: 0})
	}
	const n = 3000
	for i := range n {
		p.Tasks = append(p.Tasks, simple(fmt.Sprint(i), 50, 0, 1))
		if i > 0 {
			p.Lags = append(p.Lags, timetable.Lag{From: i, To: i - 1, Min: 50})
		}
	}
	r := solve(t, p, timetable.Options{Tries: 2})
	// 9 tasks of 50 minutes fit into a shift of 480; 3,000 tasks take 333 whole shifts and 3 tasks.
	if want := 333*1440 + 480 + 3*50; r.Status != timetable.Optimal || r.End != want {
		t.Errorf("%s, ends at %d; want optimal, %d", r.Status, r.End, want)
	}
	p.Lags = append(p.Lags, timetable.Lag{From: 0, To: n - 1, Min: -50*(n-1) + 1})
	if r := solve(t, p, timetable.Options{}); r.Core.Kind != timetable.LagCycle || len(r.Core.Lags) != n {
		t.Errorf("%s, core of %d lags; want a circle of %d", r.Core.Kind, len(r.Core.Lags), n)
	}
}

func BenchmarkKitchen(b *testing.B) {
	for _, n := range []int{10, 50} {
		b.Run(fmt.Sprintf("%d tasks", 6*n), func(b *testing.B) {
			p := kitchen(n, 1)
			for b.Loop() {
				solve(b, p, timetable.Options{})
			}
		})
		b.Run(fmt.Sprintf("%d tasks, first schedule", 6*n), func(b *testing.B) {
			p := kitchen(n, 1)
			for b.Loop() {
				solve(b, p, timetable.Options{Tries: 1, Conflicts: -1})
			}
		})
	}
}

func BenchmarkJ30(b *testing.B) {
	p := readInstance(b, "testdata/psplib/j3029_8.sm")
	for b.Loop() {
		solve(b, p, timetable.Options{})
	}
}
