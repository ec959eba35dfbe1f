package timetable_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/timetable"
	"pgregory.net/rapid"
)

// people makes a problem of one resource with tasks at given starts.
func people(steps []timetable.Step, at []int, tasks ...timetable.Task) (timetable.Problem, timetable.Result) {
	return timetable.Problem{Horizon: 1000, Resources: []timetable.Resource{{Name: "cook", Capacity: steps}}, Tasks: tasks}, timetable.Result{Start: at}
}

func TestSamePersonStays(t *testing.T) {
	pot := simple("pot", 60)
	pot.Uses = []timetable.Use{{To: 5, Amount: 1}, {From: 50, To: 60, Amount: 1}}
	// The pot begins with cook 0; at its end both cooks are free, and cook 0 comes back though cook 1 peeled last.
	p, r := people(timetable.Constant(2), []int{0, 0, 10}, pot, simple("peel", 20, 0, 1), simple("wash", 15, 0, 1))
	got, err := timetable.AssignUnits(p, r, 0)
	if err != nil {
		t.Fatal(err)
	}
	want := []timetable.Assignment{{Task: 0, Use: 0, Units: []int{0}}, {Task: 1, Use: 0, Units: []int{1}}, {Task: 2, Use: 0, Units: []int{0}}, {Task: 0, Use: 1, Units: []int{0}}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestLongWorkGoesToWhoStays(t *testing.T) {
	// Cook 1 leaves at minute 30: the short task, though first in the list, takes cook 1 and leaves cook 0 for the long one.
	p, r := people([]timetable.Step{{From: 0, Amount: 2}, {From: 30, Amount: 1}}, []int{0, 5}, simple("short", 20, 0, 1), simple("long", 40, 0, 1))
	got, err := timetable.AssignUnits(p, r, 0)
	if err != nil || got[0].Units[0] != 1 || got[1].Units[0] != 0 {
		t.Errorf("%v, %v; want cook 1 on the short task, cook 0 on the long one", got, err)
	}
}

func TestNobodyStays(t *testing.T) {
	// Both tasks start with two cooks there, and one leaves while both still run: no schedule, but a caller may ask.
	p, r := people([]timetable.Step{{From: 0, Amount: 2}, {From: 30, Amount: 1}}, []int{0, 0}, simple("stock", 40, 0, 1), simple("roux", 40, 0, 1))
	got, err := timetable.AssignUnits(p, r, 0)
	if err == nil || len(got) != 1 || !strings.Contains(err.Error(), `task 1 "roux", use 0: 1 of resource 0 "cook" needed from minute 0 to 40, but only 0`) {
		t.Errorf("%v, %v", got, err)
	}
	if _, err := timetable.AssignUnits(p, r, 1); err == nil {
		t.Error("there is no resource 1")
	}
	if _, err := timetable.AssignUnits(p, timetable.Result{}, 0); err == nil {
		t.Error("there are no starts")
	}
}

// TestUnitsOfEveryTimetable: with constant capacities the assignment always works, gives each use what it needs and nobody two things.
func TestUnitsOfEveryTimetable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := kitchen(rapid.IntRange(1, 6).Draw(t, "batches"), rapid.Uint64().Draw(t, "seed"))
		cooks := rapid.IntRange(1, 3).Draw(t, "cooks")
		p.Resources[0].Capacity = timetable.Constant(cooks)
		r, err := timetable.Solve(t.Context(), p, timetable.Options{Tries: 20, Conflicts: -1})
		if err != nil || r.Start == nil {
			t.Fatalf("%s, %v", r.Status, err)
		}
		for res, most := range []int{cooks, 3, 2, 2} {
			list, err := timetable.AssignUnits(p, r, res)
			if err != nil {
				t.Fatal(err)
			}
			busy := map[[2]int]bool{}
			for _, a := range list {
				u := p.Tasks[a.Task].Uses[a.Use]
				if u.Resource != res || len(a.Units) != u.Amount || !slices.IsSorted(a.Units) {
					t.Fatalf("%+v for %+v", a, u)
				}
				for minute := u.From; minute < u.To; minute++ {
					for _, unit := range a.Units {
						at := [2]int{unit, r.Start[a.Task] + minute}
						if busy[at] || unit >= most {
							t.Fatalf("unit %d of %s at minute %d", unit, p.Resources[res].Name, at[1])
						}
						busy[at] = true
					}
				}
			}
		}
	})
}
