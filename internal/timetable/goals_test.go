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
	if n < 4 {
		choices(t, &p)
	}
	return p
}

// choices lets some lags and holds, and more of both, hang on ways.
func choices(t *rapid.T, p *timetable.Problem) {
	for range rapid.IntRange(0, 2).Draw(t, "choices") {
		p.Choices = append(p.Choices, rapid.IntRange(1, 3).Draw(t, "ways"))
	}
	if len(p.Choices) == 0 {
		return
	}
	way := func() timetable.If {
		k := rapid.IntRange(0, len(p.Choices)-1).Draw(t, "choice")
		return timetable.If{Choice: k, Way: rapid.IntRange(0, p.Choices[k]).Draw(t, "way")}
	}
	for l := range p.Lags {
		p.Lags[l].If = way()
	}
	for h := range p.Holds {
		p.Holds[h].If = way()
	}
	n := len(p.Tasks)
	for range rapid.IntRange(0, 3).Draw(t, "more lags") {
		p.Lags = append(p.Lags, timetable.Lag{From: rapid.IntRange(0, n-1).Draw(t, "from"), To: rapid.IntRange(0, n-1).Draw(t, "to"), Min: rapid.IntRange(-4, 4).Draw(t, "min"), If: way()})
	}
	for range rapid.IntRange(0, 3).Draw(t, "more holds") {
		i, from := rapid.IntRange(0, n-1).Draw(t, "of"), rapid.IntRange(0, 3).Draw(t, "from")
		hold := timetable.Hold{Resource: rapid.IntRange(0, len(p.Resources)-1).Draw(t, "held"), Amount: 1, If: way(),
			From: timetable.Moment{Task: i, Minute: from}, To: timetable.Moment{Task: i, Minute: from + rapid.IntRange(0, 4).Draw(t, "for")}}
		if hold.If.Way == 0 {
			hold.From.Minute, hold.To.Minute = 0, p.Tasks[i].Duration
		}
		p.Holds = append(p.Holds, hold)
	}
}

// everyWay lists the ways to take of all choices together.
func everyWay(choices []int) [][]int {
	all := [][]int{nil}
	for _, n := range choices {
		var longer [][]int
		for _, ways := range all {
			for w := range n {
				longer = append(longer, append(slices.Clone(ways), 1+w))
			}
		}
		all = longer
	}
	return all
}

// everySchedule calls see with each schedule that the checker passes, whichever ways it takes.
func everySchedule(p timetable.Problem, see func(start []int)) {
	start := make([]int, len(p.Tasks))
	ways := everyWay(p.Choices)
	var place func(i int)
	place = func(i int) {
		if i == len(start) {
			if slices.ContainsFunc(ways, func(taken []int) bool { return check.Check(p, start, taken) == nil }) {
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
		if err := check.Check(p, r.Start, r.Ways); err != nil {
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
		p = p.Taking(r.Ways)
		for i, slack := range timetable.Slack(p, r.Start) {
			if slack < 0 {
				t.Fatalf("task %d has a slack of %d", i, slack)
			}
			if slack == 0 {
				continue
			}
			slacks++
			later := p
			later.Tasks = slices.Clone(p.Tasks)
			for k := range later.Tasks { // what is held may last longer than the last task
				if task := &later.Tasks[k]; task.Latest < 0 || task.Latest > r.End-task.Duration {
					task.Latest = r.End - task.Duration
				}
			}
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
