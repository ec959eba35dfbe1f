package check_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
)

// day is a sauce: chop (1 cook), then simmer (kettle all through, cook for the first and last 5 minutes) at most 10 minutes after.
// The cook is away from minute 30 to 40.
func day() timetable.Problem {
	return timetable.Problem{Horizon: 100, Resources: []timetable.Resource{
		{Name: "cook", Capacity: []timetable.Step{{From: 0, Amount: 1}, {From: 30, Amount: 0}, {From: 40, Amount: 1}}}, {Name: "kettle", Capacity: timetable.Constant(1)}},
		Tasks: []timetable.Task{
			{Name: "chop", Duration: 10, Earliest: 2, Latest: 60, Uses: []timetable.Use{{Resource: 0, To: 10, Amount: 1}}},
			{Name: "simmer", Duration: 40, Latest: -1, Uses: []timetable.Use{{Resource: 1, To: 40, Amount: 1}, {Resource: 0, To: 5, Amount: 1}, {Resource: 0, From: 35, To: 40, Amount: 1}}}},
		Lags: []timetable.Lag{{From: 0, To: 1, Min: 10}, {From: 1, To: 0, Min: -20}}}
}

func TestEachRule(t *testing.T) {
	for _, c := range []struct {
		name  string
		start []int
		kinds []check.Kind
		text  []string
	}{
		{"good: simmers over the break", []int{2, 12}, nil, nil},
		{"a start is missing", []int{2}, []check.Kind{check.Shape}, []string{"1 starts for 2 tasks"}},
		{"too early", []int{1, 12}, []check.Kind{check.Window}, []string{`"chop" starts at minute 1: not before minute 2`}},
		{"too late, and beyond the day", []int{61, 75}, []check.Kind{check.Window, check.Horizon}, []string{`"chop" starts at minute 61: not after minute 60`, `"simmer" starts at minute 75`}},
		{"simmers before it is chopped", []int{50, 47}, []check.Kind{check.Gap, check.Overload},
			[]string{`"chop" starts at minute 50, "simmer" at 47: a difference of -3, want at least 10`, `minute 50: 2 of "cook" in use, 1 there: "chop", "simmer"`}},
		{"waited too long", []int{2, 23}, []check.Kind{check.Gap}, []string{`"simmer" starts at minute 23, "chop" at 2: a difference of -21, want at least -20`}},
		{"chops into the break", []int{21, 41}, []check.Kind{check.Overload}, []string{`minute 30: 1 of "cook" in use, 0 there: "chop"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var found check.Violations
			err := check.Check(day(), c.start, nil)
			if c.kinds == nil {
				if err != nil {
					t.Error(err)
				}
				return
			}
			if !errors.As(err, &found) {
				t.Fatal("nothing found")
			}
			var kinds []check.Kind
			for _, v := range found {
				kinds = append(kinds, v.Kind)
			}
			if !slices.Equal(kinds, c.kinds) {
				t.Errorf("%v, want kinds %v", found, c.kinds)
			}
			for _, want := range c.text {
				if !strings.Contains(found.Error(), want) {
					t.Errorf("%q is missing in\n%v", want, found)
				}
			}
		})
	}
}

func TestOverloadNamesMinuteAndTasks(t *testing.T) {
	p := timetable.Problem{Horizon: 50, Resources: []timetable.Resource{{Name: "burner", Capacity: timetable.Constant(2)}}}
	for _, name := range []string{"A", "B", "C", "D"} {
		p.Tasks = append(p.Tasks, timetable.Task{Name: name, Duration: 10, Latest: -1, Uses: []timetable.Use{{To: 10, Amount: 1}}})
	}
	var found check.Violations
	if !errors.As(check.Check(p, []int{0, 5, 8, 30}, nil), &found) || len(found) != 1 {
		t.Fatalf("%v; want one overload", found)
	}
	if v := found[0]; v.Minute != 8 || !slices.Equal(v.Tasks, []int{0, 1, 2}) || v.Text != `minute 8: 3 of "burner" in use, 2 there: "A", "B", "C"` {
		t.Errorf("%+v", v)
	}
}

// TestHoldsAndChangeovers: a pot that is held until its soup is chilled, and a kettle that takes 10 minutes from milk to no milk, none the
// other way.
func TestHoldsAndChangeovers(t *testing.T) {
	p := timetable.Problem{Horizon: 200, Resources: []timetable.Resource{{Name: "pot", Capacity: timetable.Constant(1)},
		{Name: "kettle", Capacity: timetable.Constant(1), Changeover: [][]int{{0, 0}, {10, 0}}}},
		Tasks: []timetable.Task{{Name: "soup", Duration: 30, Latest: -1}, {Name: "chill", Duration: 20, Latest: -1}, {Name: "stock", Duration: 40, Latest: -1, Uses: []timetable.Use{{Resource: 0, To: 40, Amount: 1}}},
			{Name: "plain", Duration: 30, Latest: -1, Uses: []timetable.Use{{Resource: 1, To: 30, Amount: 1}}},
			{Name: "milky", Duration: 30, Latest: -1, Family: 1, Uses: []timetable.Use{{Resource: 1, To: 30, Amount: 1}}}},
		Holds: []timetable.Hold{{Resource: 0, Amount: 1, From: timetable.Moment{Task: 0}, To: timetable.Moment{Task: 1, Minute: 5}}}}
	for _, c := range []struct {
		name  string
		start []int
		kind  check.Kind
		text  string
	}{
		{"stock once the pot is emptied, milk last", []int{0, 60, 65, 0, 30}, 0, ""},
		{"stock while the soup waits in the pot", []int{0, 60, 40, 0, 30}, check.Overload, `minute 40: 2 of "pot" in use, 1 there: "soup", "stock"`},
		{"nothing is held when the chilling begins first", []int{50, 0, 20, 0, 30}, 0, ""},
		{"milk first, and no time to wash", []int{0, 60, 65, 35, 0}, check.TooSoon, `"plain" has "kettle" from minute 35, 5 after "milky": want 10 for the changeover`},
		{"milk first, and washed", []int{0, 60, 65, 40, 0}, 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var found check.Violations
			switch err := check.Check(p, c.start, nil); {
			case c.kind == 0 && err != nil:
				t.Error(err)
			case c.kind != 0 && (!errors.As(err, &found) || len(found) != 1 || found[0].Kind != c.kind || !strings.Contains(found.Error(), c.text)):
				t.Errorf("%v; want %q", err, c.text)
			}
		})
	}
}
