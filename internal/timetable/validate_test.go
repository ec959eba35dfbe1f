package timetable_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/timetable"
)

func TestEverythingWrongAtOnce(t *testing.T) {
	p := timetable.Problem{Horizon: 10_000_001, Resources: []timetable.Resource{
		{Name: "burner", Capacity: []timetable.Step{{From: 5, Amount: 1}, {From: 5, Amount: 2}}}, {Name: "kettle", Capacity: timetable.Constant(-1)}},
		Tasks: []timetable.Task{{Name: "sear", Duration: 5, Uses: []timetable.Use{{Resource: 0, From: 0, To: 6, Amount: 1}, {Resource: 2, To: 1, Amount: 1}, {Resource: 0, From: 3, To: 2, Amount: -1}}},
			{Name: "rest", Duration: -1, Earliest: -3}},
		Lags: []timetable.Lag{{From: 0, To: 2, Min: 1}, {From: 0, To: 1, Min: -10_000_001}}}
	var faults timetable.Faults
	if !errors.As(p.Validate(), &faults) {
		t.Fatal("no faults")
	}
	for _, want := range []string{"horizon of 10000001", `resource 0 "burner": step 1`, `resource 1 "kettle": step 0`, `task 0 "sear", use 0: from minute 0 to 6 of a task that lasts 5`,
		`task 0 "sear", use 1: there is no resource 2`, `use 2: amount -1`, `use 2: from minute 3 to 2`, `task 1 "rest" lasts -1`, `task 1 "rest" may start from -3`,
		"lag 0 goes from task 0 to task 2", "lag 1 is -10000001"} {
		if !strings.Contains(faults.Error(), want) {
			t.Errorf("%q is missing in\n%v", want, faults)
		}
	}
	if len(faults) != 11 {
		t.Errorf("%d faults, want 11:\n%v", len(faults), faults)
	}
	if _, err := timetable.Solve(context.Background(), p, timetable.Options{}); !errors.As(err, &faults) {
		t.Errorf("Solve took it: %v", err)
	}
}

func TestClashesAreFaultsToo(t *testing.T) {
	p := timetable.Problem{Horizon: 100, Resources: []timetable.Resource{{Name: "cook", Capacity: timetable.Constant(2)}},
		Tasks: []timetable.Task{simple("stir", 5), simple("lift", 5, 0, 2, 0, 1), simple("pour", 5), simple("taste", 1)},
		Lags:  []timetable.Lag{{From: 3, To: 0, Min: 1}, {From: 0, To: 1, Min: 10}, {From: 1, To: 2, Min: -3}, {From: 2, To: 0, Min: -6}}}
	var faults timetable.Faults
	if !errors.As(p.Validate(), &faults) || len(faults) != 2 {
		t.Fatalf("%v; want 2 faults", faults)
	}
	if f := faults[0]; f.Kind != timetable.TooMuchAsked || !slices.Equal(f.Tasks, []int{1}) || f.Text != `task 1 "lift" needs 3 of resource 0 "cook" at once, which never has more than 2` {
		t.Errorf("%+v", f)
	}
	f := faults[1]
	if f.Kind != timetable.Circle || !slices.Equal(slices.Sorted(slices.Values(f.Tasks)), []int{0, 1, 2}) || !slices.Equal(slices.Sorted(slices.Values(f.Lags)), []int{1, 2, 3}) {
		t.Errorf("%+v", f)
	}
	for _, want := range []string{`task 0 "stir"`, `task 1 "lift"`, `task 2 "pour"`, "1 minutes later"} {
		if !strings.Contains(f.Text, want) {
			t.Errorf("%q is missing in %q", want, f.Text)
		}
	}
	if strings.Contains(f.Text, "taste") {
		t.Errorf("taste is not on the circle: %q", f.Text)
	}
	if err := kitchen(5, 1).Validate(); err != nil {
		t.Error(err)
	}
}

func TestHoldsChangeoversAndGoalsThatMakeNoSense(t *testing.T) {
	p := timetable.Problem{Horizon: 100, Resources: []timetable.Resource{
		{Name: "kettle", Capacity: timetable.Constant(2), Changeover: [][]int{{0, -5}, {0}}}},
		Tasks:   []timetable.Task{{Name: "stew", Duration: 5, Latest: -1, Family: 2}},
		Holds:   []timetable.Hold{{Resource: 1, Amount: -1, From: timetable.Moment{Minute: -6}, To: timetable.Moment{Task: 1}, If: timetable.If{Choice: 1, Way: 1}}},
		Choices: []int{0}, Lags: []timetable.Lag{{If: timetable.If{Way: 2}}},
		Goals: []timetable.Goal{{Give: -1, Terms: []timetable.Term{{From: 0, To: 1, Weight: 1}}}}}
	var faults timetable.Faults
	if !errors.As(p.Validate(), &faults) {
		t.Fatal("no faults")
	}
	for _, want := range []string{`"kettle" has changeovers and 2 units from minute 0`, "from family 0 to 1 of -5 minutes", "changeovers from family 1 are 1, want one for each of 2",
		`task 0 "stew" is of family 2`, "hold 0: there is no resource 1", "hold 0: amount -1", `minute -6 of task 0 "stew": want 0 to`, "hold 0 names task 1", "hold 0 hangs on way 1 of choice 1", "lag 0 hangs on way 2 of choice 0", "choice 0 is between 0 ways", "goal 0 gives -1", "goal 0: 1 for each minute that task 1"} {
		if !strings.Contains(faults.Error(), want) {
			t.Errorf("%q is missing in\n%v", want, faults)
		}
	}
}

// TestFarGoals: a horizon of millions of minutes and heavy weights give an answer with a bound, not an overflow.
func TestFarGoals(t *testing.T) {
	p := timetable.Problem{Horizon: timetable.MaxMinutes, Resources: []timetable.Resource{{Name: "cook", Capacity: timetable.Constant(1)}}}
	g := timetable.Goal{}
	for i := range 6 {
		p.Tasks = append(p.Tasks, simple("stir", 50, 0, 1))
		g.Terms = append(g.Terms, timetable.Term{From: i, To: -1, Min: -timetable.MaxMinutes, Weight: timetable.MaxAmount})
	}
	p.Goals = []timetable.Goal{g}
	r, err := timetable.Solve(context.Background(), p, timetable.Options{})
	if err != nil || r.Start == nil {
		t.Fatalf("%s, %v", r.Status, err)
	}
	// Six tasks of 50 minutes with one cook, as late as they can be: they start 50, 100 ... 300 minutes before the horizon.
	if want := (50 + 100 + 150 + 200 + 250 + 300) * timetable.MaxAmount; r.Goals[0].Value < want || r.Goals[0].Bound > want {
		t.Errorf("value %d, bound %d; the best is %d", r.Goals[0].Value, r.Goals[0].Bound, want)
	}
}
