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
