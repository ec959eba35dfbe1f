package timetable_test

import (
	"fmt"
	"math/rand/v2"

	"kettlefrost/internal/timetable"
	"pgregory.net/rapid"
)

// after is the pair of lags "to starts at least low and at most high minutes after from starts".
func after(from, to, low, high int) []timetable.Lag {
	return []timetable.Lag{{From: from, To: to, Min: low}, {From: to, To: from, Min: -high}}
}

// simple is a task that holds its uses from beginning to end. uses are resource, amount, resource, amount ...
func simple(name string, minutes int, uses ...int) timetable.Task {
	t := timetable.Task{Name: name, Duration: minutes, Latest: -1}
	for k := 0; k+1 < len(uses); k += 2 {
		t.Uses = append(t.Uses, timetable.Use{Resource: uses[k], To: minutes, Amount: uses[k+1]})
	}
	return t
}

// textbook is the ten-activity example of the Python-MIP manual (after Artigues and others): capacities 6 and 8, critical path
// 14, optimum 21 (read there; proved again with two other solvers).
func textbook() timetable.Problem {
	p := timetable.Problem{Horizon: 60, Resources: []timetable.Resource{
		{Name: "r1", Capacity: timetable.Constant(6)}, {Name: "r2", Capacity: timetable.Constant(8)}}}
	minutes := []int{0, 3, 2, 5, 4, 2, 3, 4, 2, 4, 6, 0}
	r1 := []int{0, 5, 0, 1, 1, 3, 3, 2, 4, 5, 2, 0}
	r2 := []int{0, 1, 4, 4, 3, 2, 1, 4, 0, 2, 5, 0}
	for i, d := range minutes {
		p.Tasks = append(p.Tasks, simple(fmt.Sprint(i), d, 0, r1[i], 1, r2[i]))
	}
	for _, a := range [][2]int{{0, 1}, {0, 2}, {0, 3}, {1, 4}, {1, 5}, {2, 9}, {2, 10}, {3, 8}, {4, 6}, {4, 7}, {5, 9}, {5, 10},
		{6, 8}, {6, 9}, {7, 8}, {8, 11}, {9, 11}, {10, 11}} {
		p.Lags = append(p.Lags, timetable.Lag{From: a[0], To: a[1], Min: minutes[a[0]]})
	}
	return p
}

// batches are three batches of sear (1 person, 1 burner), braise (1 kettle), blend (1 person), cool (1 chiller place). The braise
// follows its sear at once; blend and cool wait at most a minute for the step before. Optimum 24, and 23 when steps may wait
// (derived for the project with two other solvers).
func batches(mayWait bool) timetable.Problem {
	p := timetable.Problem{Horizon: 60, Resources: []timetable.Resource{
		{Name: "person", Capacity: timetable.Constant(1)}, {Name: "burner", Capacity: timetable.Constant(1)},
		{Name: "kettle", Capacity: timetable.Constant(2)}, {Name: "chiller", Capacity: timetable.Constant(1)}}}
	for b, d := range [][4]int{{3, 5, 2, 3}, {1, 8, 3, 5}, {3, 5, 2, 4}} {
		k, name := len(p.Tasks), "ABC"[b:b+1]
		p.Tasks = append(p.Tasks, simple(name+" sear", d[0], 0, 1, 1, 1), simple(name+" braise", d[1], 2, 1),
			simple(name+" blend", d[2], 0, 1), simple(name+" cool", d[3], 3, 1))
		for step, slack := range []int{0, 1, 1} {
			pair := after(k+step, k+step+1, d[step], d[step]+slack)
			if mayWait {
				pair = pair[:1]
			}
			p.Lags = append(p.Lags, pair...)
		}
	}
	return p
}

// smallKitchen draws up to most tasks with lags of both signs, windows, profiles and calendars: at times impossible.
func smallKitchen(t *rapid.T, most int) timetable.Problem {
	p := timetable.Problem{Horizon: rapid.IntRange(4, 12).Draw(t, "horizon")}
	for r := range rapid.IntRange(1, 2).Draw(t, "resources") {
		var steps []timetable.Step
		from := rapid.IntRange(0, 1).Draw(t, "first step")
		for range rapid.IntRange(1, 3).Draw(t, "steps") {
			steps = append(steps, timetable.Step{From: from, Amount: rapid.IntRange(0, 3).Draw(t, "amount")})
			from += rapid.IntRange(1, 5).Draw(t, "step length")
		}
		p.Resources = append(p.Resources, timetable.Resource{Name: fmt.Sprint("r", r), Capacity: steps})
	}
	n := rapid.IntRange(1, most).Draw(t, "tasks")
	for i := range n {
		d := rapid.IntRange(0, 4).Draw(t, "duration")
		task := timetable.Task{Name: fmt.Sprint("t", i), Duration: d, Latest: -1}
		if rapid.IntRange(0, 4).Draw(t, "window") == 0 {
			task.Earliest = rapid.IntRange(0, 4).Draw(t, "earliest")
			task.Latest = rapid.IntRange(-1, 9).Draw(t, "latest")
		}
		for range rapid.IntRange(0, 2).Draw(t, "uses") {
			from := rapid.IntRange(0, d).Draw(t, "from")
			task.Uses = append(task.Uses, timetable.Use{Resource: rapid.IntRange(0, len(p.Resources)-1).Draw(t, "resource"),
				From: from, To: rapid.IntRange(from, d).Draw(t, "to"), Amount: rapid.IntRange(0, 2).Draw(t, "need")})
		}
		p.Tasks = append(p.Tasks, task)
	}
	for range rapid.IntRange(0, n+1).Draw(t, "lags") {
		p.Lags = append(p.Lags, timetable.Lag{From: rapid.IntRange(0, n-1).Draw(t, "lag from"),
			To: rapid.IntRange(0, n-1).Draw(t, "lag to"), Min: rapid.IntRange(-5, 4).Draw(t, "lag")})
	}
	return p
}

// crowdedKitchen draws 3 to 6 tasks that all want the same few units at the same time, with a calendar that goes up and down and
// now and then a gap: mostly possible, seldom easy.
func crowdedKitchen(t *rapid.T) timetable.Problem {
	p := timetable.Problem{Horizon: 13}
	for r := range rapid.IntRange(1, 2).Draw(t, "resources") {
		var steps []timetable.Step
		for from := 0; from < p.Horizon; from += rapid.IntRange(2, 6).Draw(t, "step length") {
			steps = append(steps, timetable.Step{From: from, Amount: rapid.IntRange(2, 4).Draw(t, "amount")})
		}
		p.Resources = append(p.Resources, timetable.Resource{Name: fmt.Sprint("r", r), Capacity: steps})
	}
	n := rapid.IntRange(3, 6).Draw(t, "tasks")
	for i := range n {
		task := timetable.Task{Name: fmt.Sprint("t", i), Duration: rapid.IntRange(1, 5).Draw(t, "duration"), Latest: -1}
		for r := range p.Resources {
			from := rapid.IntRange(0, task.Duration-1).Draw(t, "from")
			task.Uses = append(task.Uses, timetable.Use{Resource: r, From: from, To: rapid.IntRange(from+1, task.Duration).Draw(t, "to"),
				Amount: rapid.IntRange(0, 2).Draw(t, "need")})
		}
		p.Tasks = append(p.Tasks, task)
	}
	for range rapid.IntRange(0, 3).Draw(t, "gaps") {
		i := rapid.IntRange(0, n-2).Draw(t, "gap from")
		low := rapid.IntRange(0, 3).Draw(t, "at least")
		p.Lags = append(p.Lags, after(i, i+1, low, low+rapid.IntRange(0, 3).Draw(t, "spare"))...)
	}
	return p
}

// kitchen is a made-up day of n batches of six steps: two cooks with a break, three burners, two kettles, two chiller places.
func kitchen(n int, seed uint64) timetable.Problem {
	const cook, burner, kettle, chiller = 0, 1, 2, 3
	rng := rand.New(rand.NewPCG(seed, 1))
	p := timetable.Problem{Horizon: 200 * (n + 4), Resources: []timetable.Resource{
		{Name: "cook", Capacity: []timetable.Step{{From: 0, Amount: 2}, {From: 240, Amount: 1}, {From: 300, Amount: 2}}},
		{Name: "burner", Capacity: timetable.Constant(3)}, {Name: "kettle", Capacity: timetable.Constant(2)},
		{Name: "chiller", Capacity: timetable.Constant(2)}}}
	for b := range n {
		k := len(p.Tasks)
		trim, sear, simmer, blend, cool, seal := 10+rng.IntN(20), 8+rng.IntN(12), 40+rng.IntN(60), 6+rng.IntN(9), 60+rng.IntN(60), 10+rng.IntN(20)
		name := func(step string) string { return fmt.Sprintf("batch %d %s", b, step) }
		braise := simple(name("simmer"), simmer, kettle, 1)
		braise.Uses = append(braise.Uses, timetable.Use{Resource: cook, From: 0, To: 5, Amount: 1},
			timetable.Use{Resource: cook, From: simmer - 5, To: simmer, Amount: 1})
		p.Tasks = append(p.Tasks, simple(name("trim"), trim, cook, 1), simple(name("sear"), sear, cook, 1, burner, 1), braise,
			simple(name("blend"), blend, cook, 1), simple(name("cool"), cool, chiller, 1), simple(name("seal"), seal, cook, 1))
		p.Lags = append(p.Lags, timetable.Lag{From: k, To: k + 1, Min: trim})
		p.Lags = append(p.Lags, after(k+1, k+2, sear, sear)...)
		p.Lags = append(p.Lags, after(k+2, k+3, simmer, simmer+10)...)
		p.Lags = append(p.Lags, after(k+3, k+4, blend, blend+30)...)
		p.Lags = append(p.Lags, timetable.Lag{From: k + 4, To: k + 5, Min: cool})
	}
	return p
}

// hidden draws a schedule of n tasks first and then rules that it keeps: capacities that are just enough, gaps in both directions
// with up to slack minutes to spare, a horizon slack minutes after its end. So an answer exists, and none needs to end later than end.
func hidden(n, slack int, seed uint64) (p timetable.Problem, end int) {
	rng := rand.New(rand.NewPCG(seed, uint64(n)))
	start := make([]int, n)
	load := make([][3]int, 0)
	for i := range n {
		start[i] = rng.IntN(8 * n)
		d := 1 + rng.IntN(30)
		p.Tasks = append(p.Tasks, simple(fmt.Sprint("t", i), d, rng.IntN(3), 1+rng.IntN(2)))
		end = max(end, start[i]+d)
	}
	load = append(load, make([][3]int, end)...)
	for i, t := range p.Tasks {
		for minute := start[i]; minute < start[i]+t.Duration; minute++ {
			load[minute][t.Uses[0].Resource] += t.Uses[0].Amount
		}
	}
	for r := range 3 {
		most := 0
		for _, l := range load {
			most = max(most, l[r])
		}
		p.Resources = append(p.Resources, timetable.Resource{Name: fmt.Sprint("r", r), Capacity: timetable.Constant(most)})
	}
	for range n {
		i, j := rng.IntN(n), rng.IntN(n)
		if gap := start[j] - start[i]; i != j && gap >= 0 && gap < 60 {
			p.Lags = append(p.Lags, after(i, j, max(0, gap-rng.IntN(slack+1)), gap+rng.IntN(slack+1))...)
		}
	}
	p.Horizon = end + slack
	return p, end
}
