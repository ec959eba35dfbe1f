package draw

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// day is a short invented day: two people, a pot and a sealer, a chill that runs past midday.
func day() (plan.Timetable, Codes) {
	tasks := []plan.Task{
		{Dish: "broth", Step: "chop", Label: "Chop the roots.", Load: 1, Loads: 1, Kind: plan.Cook, Start: 420, End: 465, People: []string{"Ada"}, On: []string{"board"}, Slack: 20 * unit.Minute},
		{Dish: "broth", Step: "boil", Label: "Boil & skim.", Load: 1, Loads: 2, Kind: plan.Cook, Start: 465, End: 525, People: []string{"Ada"}, On: []string{"pot"}},
		{Dish: "broth", Step: "stock", Label: "Chill the broth.", Load: 1, Loads: 1, Kind: plan.Cool, Start: 525, End: 735, People: []string{"Bo"}, On: []string{"pans"}},
		{Dish: "dal", Step: "dal-pack", Label: "Fill the dal.", Load: 1, Loads: 1, Kind: plan.Filling, Start: 740, End: 800, People: []string{"Bo"}, On: []string{"sealer"}, Slack: 10 * unit.Minute},
	}
	rows := []plan.Row{
		{Name: "Ada", Person: true, Bars: []plan.Bar{{Task: 0, From: 420, To: 465}, {Task: 1, From: 470, To: 472}}, Away: []plan.Bar{{Task: -1, From: 600, To: 630}}},
		{Name: "Bo", Person: true, Bars: []plan.Bar{{Task: 2, From: 525, To: 535}, {Task: 3, From: 740, To: 800}}, Away: []plan.Bar{{Task: -1, From: 420, To: 510}}},
		{Name: "burner of the big range no. 2", Bars: []plan.Bar{{Task: 1, From: 465, To: 525}}},
		{Name: "pans", Bars: []plan.Bar{{Task: 2, From: 525, To: 735}}},
	}
	dishes := []plan.Dish{{ID: "broth", Steps: []plan.Step{{ID: "chop"}, {ID: "boil"}}}, {ID: "dal", Steps: []plan.Step{{ID: "cook"}}}}
	return plan.Timetable{Status: "optimal", Start: 420, End: 800, Length: 380 * unit.Minute, Tasks: tasks, Rows: rows}, NewCodes(dishes)
}

// dayUnderWay is that day at a quarter past eight: the roots are chopped, the broth boils, the filling comes later than planned, the
// chilling earlier.
func dayUnderWay() (plan.Timetable, Codes) {
	t, codes := day()
	now := unit.Moment(495)
	t.Now = &now
	t.Tasks[0].State, t.Tasks[1].State = plan.Done, plan.Begun
	t.Moves = []plan.Move{{Task: 3, Was: 690, Why: "follows another task"}, {Task: 2, Was: 540}, {Task: 99}}
	return t, codes
}

// dayPlan is the plan with that day.
func dayPlan(t plan.Timetable) plan.Plan {
	return plan.Plan{Run: "broth for Monday", Day: "2026-11-30", Timetable: t,
		Dishes: []plan.Dish{{ID: "broth", Name: "vegetable broth", Steps: []plan.Step{{ID: "chop"}, {ID: "boil"}}}, {ID: "dal", Name: "dal", Steps: []plan.Step{{ID: "cook"}}}}}
}
