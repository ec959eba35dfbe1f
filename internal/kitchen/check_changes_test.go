package kitchen_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// crewed is a kitchen with something to go wrong in, and the keys of a day in it.
var (
	crewed = kitchen.Book{
		People:    map[kitchen.PersonID]kitchen.Person{"ann": {Name: "Ann"}, "sam": {Name: "Sam"}},
		Equipment: map[kitchen.EquipmentID]kitchen.Equipment{"burner": {Name: "burner", Kind: kitchen.Burner, Count: 3}, "kettle": {Name: "kettle", Kind: kitchen.Vessel, Count: 1}},
	}
	dayTasks = []string{"bean-pot/soak/1", "bean-pot/simmer/1", "bean-pot/simmer/2", "bean-pot-lb/fill/1", "appointment/1"}
)

func TestTasksOf(t *testing.T) {
	for name, want := range map[string][]string{
		"bean-pot/simmer/2":  {"bean-pot/simmer/2"},
		"bean-pot/simmer":    {"bean-pot/simmer/1", "bean-pot/simmer/2"},
		"bean-pot":           {"bean-pot/soak/1", "bean-pot/simmer/1", "bean-pot/simmer/2"}, // not bean-pot-lb
		"appointment/1":      {"appointment/1"},
		"bean-pot/sim":       nil,
		"bean-pot/":          nil,
		"bean-pot/simmer/21": nil,
		"":                   nil,
	} {
		tasks := slices.Clone(dayTasks)
		if got := kitchen.TasksOf(name, tasks); !slices.Equal(got, want) || !slices.Equal(tasks, dayTasks) {
			t.Errorf("%q covers %v of %v, want %v", name, got, tasks, want)
		}
	}
}

func TestFromNow(t *testing.T) {
	said := kitchen.Changes{Now: 660, Gone: []kitchen.Gone{{Person: "sam"}, {Person: "ann", From: 700, Until: 720}}, Out: []kitchen.Outage{{Equipment: "burner"}, {Equipment: "burner", Count: 2, From: 700}}}
	want := kitchen.Changes{Now: 660, Gone: []kitchen.Gone{{Person: "sam", From: 660}, {Person: "ann", From: 700, Until: 720}}, Out: []kitchen.Outage{{Equipment: "burner", Count: 1, From: 660}, {Equipment: "burner", Count: 2, From: 700}}}
	if got := said.FromNow(); !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v", got)
	}
	if said.Gone[0].From != 0 || said.Out[0].Count != 0 {
		t.Errorf("what was said has become %+v", said)
	}
}

func TestNothingIsWrongWithSoundChanges(t *testing.T) {
	for _, changes := range []kitchen.Changes{
		{},
		{Now: 11 * 60},
		{
			Now:  11 * 60,
			Late: []kitchen.Late{{Task: "bean-pot/simmer", By: 25 * unit.Minute}, {Task: "bean-pot-lb/fill/1", By: -12 * unit.Hour}},
			Gone: []kitchen.Gone{{Person: "sam"}, {Person: "ann", From: 12 * 60, Until: 9*60 + 24*60}},
			Out:  []kitchen.Outage{{Equipment: "burner"}, {Equipment: "burner", Count: 3, From: 10 * 60, Until: 10*60 + 30}, {Equipment: "kettle", Until: 12 * 60}},
		},
	} {
		if got := kitchen.CheckChanges(crewed, changes, dayTasks); len(got) != 0 {
			t.Errorf("%+v: %s", changes, show(got))
		}
	}
}

func TestSlipsInChanges(t *testing.T) {
	late := func(task string, by unit.Span) kitchen.Changes {
		return kitchen.Changes{Late: []kitchen.Late{{Task: task, By: by}}}
	}
	gone := func(g kitchen.Gone) kitchen.Changes {
		return kitchen.Changes{Now: 660, Gone: []kitchen.Gone{{Person: "ann"}, g}}
	}
	out := func(o kitchen.Outage) kitchen.Changes {
		return kitchen.Changes{Now: 660, Out: []kitchen.Outage{o}}
	}
	for name, c := range map[string]struct {
		changes kitchen.Changes
		where   string
		want    found
	}{
		"now before the run":      {kitchen.Changes{Now: -10, Gone: []kitchen.Gone{{Person: "sam"}}}, "what has changed", found{kitchen.OutOfRange, "now", "now is 23:50-1, but should be from 00:00 to 00:00+8", "11:20"}},
		"now after any run":       {kitchen.Changes{Now: 9 * 24 * 60}, "what has changed", found{kitchen.OutOfRange, "now", "now is 00:00+9", "second day"}},
		"misspelt load":           {late("bean-pot/simer/2", unit.Hour), "what has changed, late task bean-pot/simer/2", found{kitchen.UnknownReference, "late[0].task", "no task bean-pot/simer/2", "did you mean bean-pot/simmer/2?"}},
		"misspelt step":           {late("bean-pot/simer", unit.Hour), "what has changed, late task bean-pot/simer", found{kitchen.UnknownReference, "late[0].task", "no task bean-pot/simer", "did you mean bean-pot/simmer?"}},
		"misspelt dish":           {late("baen-pot", unit.Hour), "what has changed, late task baen-pot", found{kitchen.UnknownReference, "late[0].task", "no task baen-pot", "did you mean bean-pot?"}},
		"half a word":             {late("bean-pot/sim", unit.Hour), "what has changed, late task bean-pot/sim", found{kitchen.UnknownReference, "late[0].task", "no task bean-pot/sim", "did you mean bean-pot/simmer?"}},
		"another dish altogether": {late("goulash", unit.Hour), "what has changed, late task goulash", found{kitchen.UnknownReference, "late[0].task", "no task goulash", "such as appointment/1"}},
		"no task":                 {late("", unit.Hour), "what has changed, late task 1", found{kitchen.UnknownReference, "late[0].task", `no task ""`, "such as"}},
		"late by nothing":         {late("bean-pot", 0), "what has changed, late task bean-pot", found{kitchen.OutOfRange, "late[0].by", "0 s, less than a minute", "25 min"}},
		"early by seconds":        {late("bean-pot", -59*unit.Second), "what has changed, late task bean-pot", found{kitchen.OutOfRange, "late[0].by", "less than a minute", "25 min"}},
		"late by a day":           {late("bean-pot", unit.Day), "what has changed, late task bean-pot", found{kitchen.OutOfRange, "late[0].by", "24 h, but should be at most 12 h", "check"}},
		"early by a day":          {late("bean-pot", -unit.Day), "what has changed, late task bean-pot", found{kitchen.OutOfRange, "late[0].by", "-24 h, but should be at least -12 h", "check"}},
		"misspelt person":         {gone(kitchen.Gone{Person: "smm"}), "what has changed, absence smm", found{kitchen.UnknownReference, "gone[1].person", "no person smm", "did you mean sam?"}},
		"nobody":                  {gone(kitchen.Gone{}), "what has changed, absence 2", found{kitchen.UnknownReference, "gone[1].person", `no person ""`, "ann, sam"}},
		"back before they left":   {gone(kitchen.Gone{Person: "sam", From: 720, Until: 700}), "what has changed, absence sam", found{kitchen.ShiftBackwards, "gone[1].until", "ends at 11:40, not after its start at 12:00", "leave until out"}},
		"back before now":         {gone(kitchen.Gone{Person: "sam", Until: 600}), "what has changed, absence sam", found{kitchen.ShiftBackwards, "gone[1].until", "ends at 10:00, not after its start at 11:00", "correct"}},
		"gone after any run":      {gone(kitchen.Gone{Person: "sam", From: 9 * 24 * 60}), "what has changed, absence sam", found{kitchen.OutOfRange, "gone[1].from", "from is 00:00+9", "time of the run"}},
		"misspelt equipment":      {out(kitchen.Outage{Equipment: "bruner"}), "what has changed, outage bruner", found{kitchen.UnknownReference, "out[0].equipment", "no equipment bruner", "did you mean burner?"}},
		"more than there are":     {out(kitchen.Outage{Equipment: "burner", Count: 4}), "what has changed, outage burner", found{kitchen.OutOfRange, "out[0].count", "count is 4, but should be at most 3", "check"}},
		"fewer than none":         {out(kitchen.Outage{Equipment: "burner", Count: -1}), "what has changed, outage burner", found{kitchen.OutOfRange, "out[0].count", "count is -1, but should be at least 1", "check"}},
		"works before it failed":  {out(kitchen.Outage{Equipment: "burner", From: 720, Until: 720}), "what has changed, outage burner", found{kitchen.ShiftBackwards, "out[0].until", "ends at 12:00, not after its start at 12:00", "correct"}},
	} {
		t.Run(name, func(t *testing.T) {
			got := kitchen.CheckChanges(crewed, c.changes, dayTasks)
			if len(got) != 1 {
				t.Fatalf("want one finding, got\n%s", show(got))
			}
			f := got[0]
			if f.Code != string(c.want.code) || f.Path != c.want.path || f.Where != c.where || f.Severity != finding.Stop {
				t.Errorf("got %s %s at %s, %q", f.Severity, f.Code, f.Path, f.Where)
			}
			if !strings.Contains(f.Message, c.want.message) || !strings.Contains(f.Fix, c.want.fix) {
				t.Errorf("want message %q, fix %q, got %s", c.want.message, c.want.fix, f)
			}
		})
	}
}

// A day that could not be timed has no tasks: nothing of it is late.
func TestNothingIsLateWithoutTasks(t *testing.T) {
	got := kitchen.CheckChanges(crewed, kitchen.Changes{Late: []kitchen.Late{{Task: "bean-pot", By: unit.Hour}}}, nil)
	if len(got) != 1 || got[0].Code != string(kitchen.UnknownReference) || !strings.Contains(got[0].Fix, "none that could be late") {
		t.Errorf("got %s", show(got))
	}
}

// What was typed is said again, but not all of it.
func TestAMessageStaysOnItsLine(t *testing.T) {
	got := kitchen.CheckChanges(crewed, kitchen.Changes{Late: []kitchen.Late{{Task: strings.Repeat("soup ", 50), By: unit.Hour}}}, dayTasks)
	if len(got) != 1 || len(got[0].Message) > 120 || !strings.Contains(got[0].Message, "soup soup") {
		t.Errorf("got %s", show(got))
	}
}

// Real times are of tasks that there are, not before their begin, and not in the future.
func TestRealTimes(t *testing.T) {
	tasks := []string{"soup/boil/1"}
	for _, c := range []struct {
		real kitchen.Real
		want string // the path of the finding; empty for none
	}{
		{kitchen.Real{Task: "soup/boil/1", Begin: 500}, ""},
		{kitchen.Real{Task: "soup/boil/1", Begin: 500, End: 600, Over: true}, ""},
		{kitchen.Real{Task: "soup/boil", Begin: 500}, "real[0].task"},
		{kitchen.Real{Task: "soup/boil/1", Begin: 601}, "real[0].begin"},
		{kitchen.Real{Task: "soup/boil/1", Begin: 500, End: 601, Over: true}, "real[0].end"},
		{kitchen.Real{Task: "soup/boil/1", Begin: 500, End: 499, Over: true}, "real[0].end"},
	} {
		found := kitchen.CheckChanges(kitchen.Book{}, kitchen.Changes{Now: 600, Told: true, Real: []kitchen.Real{c.real}}, tasks)
		var paths []string
		for _, f := range found {
			paths = append(paths, f.Path)
		}
		if got := strings.Join(paths, " "); got != c.want {
			t.Errorf("%+v: found at %q, want %q", c.real, got, c.want)
		}
	}
}
