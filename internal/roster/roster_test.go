package roster_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// broth is a day of two people that goes on past midnight.
func broth() plan.Timetable {
	return plan.Timetable{Start: 420, End: 1470,
		Tasks: []plan.Task{
			{Key: "broth/chop/1", Start: 420, End: 480, People: []string{"Ada", "Bo"}, Slack: 10 * unit.Minute},
			{Key: "broth/boil/1", Start: 480, End: 720, People: []string{"Ada"}},
			{Key: "broth/fill/1", Start: 1430, End: 1470, People: []string{"Bo"}, State: plan.Done},
		},
		Rows: []plan.Row{
			{Name: "Ada", Person: true, Bars: []plan.Bar{{Task: 1, From: 480, To: 490}, {Task: 0, From: 420, To: 450}, {Task: 0, From: 450, To: 480}, {Task: 1, From: 600, To: 610}, {Task: 7, From: 0, To: 900}},
				Away: []plan.Bar{{Task: -1, From: 0, To: 420}, {Task: -1, From: 500, To: 530}, {Task: -1, From: 900, To: 1440}}},
			{Name: "Bo", Person: true, Bars: []plan.Bar{{Task: 0, From: 420, To: 480}, {Task: 2, From: 1430, To: 1470}}},
			{Name: "pot", Bars: []plan.Bar{{Task: 1, From: 480, To: 720}}},
			{Name: "Cy", Person: true},
		}}
}

func TestTurns(t *testing.T) {
	day := broth()
	got := roster.Turns(day, day.Rows[0])
	want := []roster.Turn{
		{Task: 0, From: 420, To: 480, With: []string{"Bo"}, Nth: 1},
		{Task: 1, From: 480, To: 490, Nth: 1},
		{Task: -1, From: 500, To: 530, Nth: 1}, // the break; the times before and after the work are no part of it
		{Task: 1, From: 600, To: 610, Nth: 2},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("Ada's turns (-want +got):\n%s", diff)
	}
	if got := roster.Turns(day, day.Rows[3]); got != nil {
		t.Errorf("who has no bars has the turns %v", got)
	}
}

func TestNext(t *testing.T) {
	for _, c := range []struct {
		now  unit.Moment
		want string // of Ada, Bo and Cy: now > then +more
	}{
		{0, "> 0 1 +1; > 0 2 +0; > +0"},
		{419, "> 0 1 +1; > 0 2 +0; > +0"},
		{420, "0 > 1 -1 +1; 0 > 2 +0; > +0"},
		{480, "1 > -1 1 +0; > 2 +0; > +0"}, // a turn that ends at the moment is over
		{510, "-1 > 1 +0; > 2 +0; > +0"},
		{1440, "> +0; 2 > +0; > +0"}, // after midnight
		{1470, "> +0; > +0; > +0"},
	} {
		var all []string
		for _, o := range roster.Next(broth(), c.now, 2) {
			var text strings.Builder
			for _, turn := range o.Now {
				fmt.Fprintf(&text, "%d ", turn.Task)
			}
			text.WriteString("> ")
			for _, turn := range o.Then {
				fmt.Fprintf(&text, "%d ", turn.Task)
			}
			fmt.Fprintf(&text, "+%d", o.More)
			all = append(all, text.String())
		}
		if got := strings.Join(all, "; "); got != c.want {
			t.Errorf("at %s: %s, want %s", c.now, got, c.want)
		}
	}
}

func TestCritical(t *testing.T) {
	for _, c := range []struct {
		slack unit.Span
		state plan.TaskState
		want  bool
		words string
	}{
		{0, plan.ToDo, true, "none"}, {0, plan.Begun, true, "none"}, {0, plan.Done, false, ""}, {5 * unit.Minute, plan.ToDo, false, "5 min"},
	} {
		task := plan.Task{Slack: c.slack, State: c.state}
		if got := roster.Critical(task); got != c.want {
			t.Errorf("slack %s, state %q: critical %v, want %v", c.slack, c.state, got, c.want)
		}
		if got := roster.SlackWords(task, unit.US); got != c.words {
			t.Errorf("slack %s, state %q: %q, want %q", c.slack, c.state, got, c.words)
		}
	}
}

func TestAimWords(t *testing.T) {
	for _, c := range []struct {
		aim  plan.AimResult
		want string
	}{
		{plan.AimResult{Aim: kitchen.Finish, Value: 9 * unit.Hour, Bound: 9 * unit.Hour, Status: "optimal"}, "End early: all is done 9 h after the opening; proved, nothing better is possible."},
		{plan.AimResult{Aim: kitchen.ShortDay, Value: 9 * unit.Hour, Bound: 8 * unit.Hour, Status: "feasible"}, "A short day: 9 h from the first hands to the last; nothing better than 8 h is possible, so at most 1 h are given away."},
		{plan.AimResult{Aim: kitchen.LateStart, Value: 20 * unit.Minute, Bound: 50 * unit.Minute, Status: "feasible"}, "Start late: the first hands are needed 20 min after the opening; nothing better than 50 min is possible, so at most 30 min are given away."},
		{plan.AimResult{Aim: "quiet", Value: unit.Hour, Bound: unit.Hour, Status: "feasible"}, "Quiet: 1 h; nothing better is possible."},
	} {
		if got := roster.AimWords(c.aim, unit.US); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// A move that points at nothing is left out; the others say how far.
func TestMoves(t *testing.T) {
	day := broth()
	day.Moves = []plan.Move{{Task: 9, Was: 1}, {Task: 1, Was: 455}, {Task: -1}, {Task: 2, Was: 1440}, {Task: 0, Was: 420}}
	var words []string
	for _, m := range roster.Moved(day) {
		words = append(words, roster.ShiftWords(roster.Shift(day, m), unit.US))
	}
	if got := strings.Join(words, ", "); got != "25 min later, 10 min earlier, at the same time" {
		t.Errorf("the moves read %s", got)
	}
}
