package sheet

import (
	"strings"
	"testing"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// lateBarley is the barley plan timed again at half past six.
func lateBarley() plan.Plan {
	p := barleyPlan()
	now := unit.Moment(390)
	p.Timetable.Now = &now
	p.Timetable.Tasks[0].State, p.Timetable.Tasks[1].State = plan.Done, plan.Begun
	p.Timetable.Moves = []plan.Move{{Task: 2, Was: 875, Why: "follows another task"}}
	return p
}

func TestBarleyDay(t *testing.T) {
	now := unit.Moment(390)
	golden(t, "barley-day.txt", DayText(lateBarley(), unit.US, DayChoice{Now: &now}))
}

func TestDayText(t *testing.T) {
	at := func(m unit.Moment) *unit.Moment { return &m }
	still := lateBarley()
	still.Timetable.Moves = nil
	for _, c := range []struct {
		name   string
		plan   plan.Plan
		choice DayChoice
		want   []string
		not    []string
	}{
		{"the plain day", barleyPlan(), DayChoice{}, []string{"! 06:30 07:32 Ada, Ben barley: simmer 1 of 2 none", "aim: Little waiting: cooked food stands 20 min", "at most 15 min are given away"}, []string{"MOVED", "NEXT"}},
		{"next", barleyPlan(), DayChoice{Now: at(385)}, []string{"NEXT from 06:25", "Ada now free until 06:30 1 ! 06:30 to 06:36 barley: simmer; 60 qt pot 1, burner 1; with Ben 1 of 2", "Ben now free until 06:30"}, nil},
		{"at the end", barleyPlan(), DayChoice{Now: at(930)}, []string{"Ada now nothing more to do", "Ben now nothing more to do"}, nil},
		{"one person", barleyPlan(), DayChoice{Person: "Ben", Now: at(0)}, []string{"Ben, 06:30 to 15:30", "Ben now free until 06:30"}, []string{"Ada now", "Ada, 06:00", "BY TIME", "by time"}},
		{"moved", lateBarley(), DayChoice{Because: []string{"Sam is not here from 06:30 on"}}, []string{"MOVED timed again at 06:30", "because: Sam is not here from 06:30 on", "14:35 15:00 25 min later Ben barley: fill barley-2lb follows another task", "dice the carrots done", "none begun"}, nil},
		{"not timed again", barleyPlan(), DayChoice{Because: []string{"Sam is not here"}}, []string{"because: Sam is not here", "this is the day as it was planned"}, []string{"timed again at", "Nothing starts"}},
		{"nothing moved", still, DayChoice{}, []string{"Nothing starts at another time than planned."}, nil},
	} {
		text := DayText(c.plan, unit.US, c.choice)
		flat := strings.Join(strings.Fields(text), " ")
		for _, want := range c.want {
			if !strings.Contains(flat, want) {
				t.Errorf("%s: no %q in\n%s", c.name, want, text)
			}
		}
		for _, not := range c.not {
			if strings.Contains(flat, not) {
				t.Errorf("%s: %q in\n%s", c.name, not, text)
			}
		}
		if !strings.Contains(text, "DO NOT START LIKE THIS") {
			t.Errorf("%s: the stop is not announced", c.name)
		}
	}
}
