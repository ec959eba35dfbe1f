package cli

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// What is typed is what is timed again; what says no time begins now.
func TestChangesOfADay(t *testing.T) {
	book := kitchen.Book{People: map[kitchen.PersonID]kitchen.Person{"sam": {Name: "Sam"}}, Equipment: map[kitchen.EquipmentID]kitchen.Equipment{"burner": {Count: 4}}}
	p := plan.Plan{Day: "2026-12-01", Timetable: plan.Timetable{Tasks: []plan.Task{{Key: "soup/boil/1"}, {Key: "soup/boil/2"}, {Key: "soup/chop/1"}}}}
	now := unit.Moment(680)
	for _, c := range []struct {
		typed changed
		want  kitchen.Changes
	}{
		{changed{Now: &now, Late: []string{"soup/boil/2=25 min", "soup/chop=1 h"}}, kitchen.Changes{Now: 680, Late: []kitchen.Late{{Task: "soup/boil/2", By: 25 * unit.Minute}, {Task: "soup/chop", By: unit.Hour}}}},
		{changed{Now: &now, Gone: []string{"sam"}}, kitchen.Changes{Now: 680, Gone: []kitchen.Gone{{Person: "sam", From: 680}}}},
		{changed{Now: &now, Gone: []string{"sam=11:30-01:00+1"}}, kitchen.Changes{Now: 680, Gone: []kitchen.Gone{{Person: "sam", From: 690, Until: 1500}}}},
		{changed{Now: &now, Broken: []string{"burner", "burner=2@12:00-13:00"}}, kitchen.Changes{Now: 680, Out: []kitchen.Outage{{Equipment: "burner", Count: 1, From: 680}, {Equipment: "burner", Count: 2, From: 720, Until: 780}}}},
		{changed{Gone: []string{"sam=14:00"}}, kitchen.Changes{Now: 800, Gone: []kitchen.Gone{{Person: "sam", From: 840}}}}, // by the clock
	} {
		s := &surroundings{now: func() time.Time { return time.Date(2026, 12, 1, 13, 20, 0, 0, time.UTC) }}
		got, err := c.typed.read(s, book, p)
		if diff := cmp.Diff(c.want, got); err != nil || diff != "" {
			t.Errorf("%+v: %v (-want +got):\n%s", c.typed, err, diff)
		}
	}
}
