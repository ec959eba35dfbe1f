package timetable_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"testing"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
	"pgregory.net/rapid"
)

func solve(t testing.TB, p timetable.Problem, o timetable.Options) timetable.Result {
	t.Helper()
	r, err := timetable.Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestKnownDays(t *testing.T) {
	for _, day := range []struct {
		name string
		p    timetable.Problem
		end  int
	}{
		{"ten activities of the textbook", textbook(), 21},
		{"three batches that may not wait", batches(false), 24},
		{"three batches that may wait", batches(true), 23},
	} {
		t.Run(day.name, func(t *testing.T) {
			r := solve(t, day.p, timetable.Options{})
			if r.Status != timetable.Optimal || r.End != day.end || r.Bound != day.end {
				t.Errorf("%s, ends at %d, bound %d; want optimal, %d", r.Status, r.End, r.Bound, day.end)
			}
			if err := check.Check(day.p, r.Start, r.Ways); err != nil {
				t.Error(err)
			}
			heuristic := solve(t, day.p, timetable.Options{Conflicts: -1})
			if heuristic.End != day.end || heuristic.Bound > day.end || check.Check(day.p, heuristic.Start, heuristic.Ways) != nil {
				t.Errorf("without the complete search: ends at %d, bound %d; want %d", heuristic.End, heuristic.Bound, day.end)
			}
			search := solve(t, day.p, timetable.Options{Tries: -1})
			if search.Status != timetable.Optimal || search.End != day.end {
				t.Errorf("complete search alone: %s, ends at %d; want optimal, %d", search.Status, search.End, day.end)
			}
		})
	}
}

// TestAgainstEveryPossibility compares with trying all starts.
func TestAgainstEveryPossibility(t *testing.T) {
	checkOften(t, func(t *rapid.T) {
		p := smallKitchen(t, 6)
		o := timetable.Options{Seed: rapid.Uint64().Draw(t, "seed"), Tries: rapid.SampledFrom([]int{0, -1, 5}).Draw(t, "tries"),
			Conflicts: rapid.SampledFrom([]int{0, 0, -1, 10}).Draw(t, "conflicts")}
		best := bruteForce(p)
		r, err := timetable.Solve(context.Background(), p, o)
		if err != nil {
			t.Fatal(err)
		}
		if best >= 0 && r.Bound > best {
			t.Errorf("bound %d (%s), but a schedule ends at %d", r.Bound, r.BoundWhy.Kind, best)
		}
		switch r.Status {
		case timetable.Infeasible:
			if best >= 0 {
				t.Fatalf("called infeasible (%s), but a schedule ends at %d", r.Core.Kind, best)
			}
			clashes(t, p, r.Core)
			return
		case timetable.Unknown:
			if o.Conflicts == 0 {
				t.Errorf("no answer to a problem this small; the best end is %d", best)
			}
			return
		case timetable.Optimal:
			if r.End != best {
				t.Errorf("%d called optimal, best is %d", r.End, best)
			}
		}
		if err := check.Check(p, r.Start, r.Ways); err != nil {
			t.Error(err)
		}
		if end := lastEnd(p, r.Start); r.End != end || r.End < r.Bound {
			t.Errorf("End %d, Bound %d, but the last task ends at %d", r.End, r.Bound, end)
		}
		if o.Conflicts == 0 && r.Status != timetable.Optimal {
			t.Errorf("%s: a problem this small should be searched to the end", r.Status)
		}
	})
}

// TestSearchIsComplete holds the complete search alone, with no schedule given to it, against trying all starts.
func TestSearchIsComplete(t *testing.T) {
	checkOften(t, func(t *rapid.T) {
		p := crowdedKitchen(t)
		best := bruteForce(p)
		r, err := timetable.Solve(context.Background(), p, timetable.Options{Tries: -1, Conflicts: 100_000})
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case best < 0 && r.Status != timetable.Infeasible:
			t.Errorf("%s, ends at %d; no schedule exists", r.Status, r.End)
		case best < 0:
			clashes(t, p, r.Core)
		case r.Status != timetable.Optimal || r.End != best:
			t.Errorf("%s, ends at %d; the optimum is %d", r.Status, r.End, best)
		case check.Check(p, r.Start, r.Ways) != nil:
			t.Error(check.Check(p, r.Start, r.Ways))
		}
	})
}

// checkOften checks ten times as many cases as usual: planted faults in the search showed in one small kitchen of a few hundred.
func checkOften(t *testing.T, property func(*rapid.T)) {
	for range 10 {
		rapid.Check(t, property)
	}
}

// clashes checks that the core alone has no schedule either.
func clashes(t *rapid.T, p timetable.Problem, c timetable.Core) {
	kept := p
	if c.Kind == timetable.LagCycle { // the lags alone, without limits
		sum := 0
		for k, l := range c.Lags {
			sum += p.Lags[l].Min
			if p.Lags[l].To != p.Lags[c.Lags[(k+1)%len(c.Lags)]].From || p.Lags[l].From != c.Tasks[k] {
				t.Errorf("lags %v are no circle through tasks %v", c.Lags, c.Tasks)
			}
		}
		if sum <= 0 {
			t.Errorf("the circle of lags %v adds up to %d", c.Lags, sum)
		}
		return
	}
	kept.Lags = nil
	for _, l := range c.Lags {
		kept.Lags = append(kept.Lags, p.Lags[l])
	}
	if c.Kind == timetable.ResourceFull { // heads and tails come from tasks outside the core
		kept.Lags = p.Lags
	} else {
		kept.Tasks = slices.Clone(p.Tasks)
		for i := range kept.Tasks {
			if !slices.Contains(c.Tasks, i) {
				kept.Tasks[i] = timetable.Task{Latest: -1}
			}
		}
	}
	if end := bruteForce(kept); end >= 0 {
		t.Errorf("the core %+v has a schedule that ends at %d", c, end)
	}
}

func lastEnd(p timetable.Problem, start []int) int {
	end := 0
	for i, s := range start {
		end = max(end, s+p.Tasks[i].Duration)
	}
	return end
}

func TestSameSeedSameAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := smallKitchen(t, 12)
		o := timetable.Options{Seed: rapid.Uint64().Draw(t, "seed")}
		one, err1 := timetable.Solve(context.Background(), p, o)
		two, err2 := timetable.Solve(context.Background(), p, o)
		if err1 != nil || err2 != nil || !reflect.DeepEqual(one, two) {
			t.Errorf("%+v, %v\nand then\n%+v, %v", one, err1, two, err2)
		}
	})
}

func TestProgressOnlyGetsBetter(t *testing.T) {
	var ends []int
	p := kitchen(6, 3)
	r := solve(t, p, timetable.Options{Progress: func(r timetable.Result) {
		ends = append(ends, r.End)
		if err := check.Check(p, r.Start, r.Ways); err != nil {
			t.Error(err)
		}
	}})
	if len(ends) == 0 || ends[len(ends)-1] != r.End || !slices.IsSortedFunc(ends, func(a, b int) int { return b - a }) {
		t.Errorf("progress %v, end %d", ends, r.End)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	p := kitchen(20, 1)
	r, err := timetable.Solve(ctx, p, timetable.Options{Tries: 1_000_000, Progress: func(timetable.Result) { cancel() }})
	if !errors.Is(err, context.Canceled) || r.Status != timetable.Feasible || check.Check(p, r.Start, r.Ways) != nil {
		t.Errorf("%s, %v; want the first schedule and that it was cancelled", r.Status, err)
	}
}

func TestNothingToDo(t *testing.T) {
	if r := solve(t, timetable.Problem{}, timetable.Options{}); r.Status != timetable.Optimal || r.End != 0 || len(r.Start) != 0 {
		t.Errorf("%+v", r)
	}
}
