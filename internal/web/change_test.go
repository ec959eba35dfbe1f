package web

import (
	"context"
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// shelf is a house whose plans are laid out beforehand: the plan made by hand, and what becomes of it when the blending comes later.
type shelf struct {
	now   time.Time
	told  *kitchen.Changes // what was to be timed again
	stuck bool             // nothing can be
}

func (s *shelf) Book() (kitchen.Book, finding.List) {
	book := leekBook
	book.Kitchen = kitchen.Kitchen{Name: "Test", Units: unit.US}
	book.People = map[kitchen.PersonID]kitchen.Person{"ada": {Name: "Ada"}, "bo": {Name: "Bo"}}
	book.Equipment = map[kitchen.EquipmentID]kitchen.Equipment{"jar": {Name: "blender jar", Count: 2}}
	book.Runs = map[string]kitchen.Request{"leek": {Name: "leek day", Day: "2026-12-01"}}
	return book, nil
}

func (s *shelf) Plan(context.Context, kitchen.Book, kitchen.Request) plan.Plan {
	p := madePlan()
	p.Day = "2026-12-01"
	p.Timetable.Tasks[0].Key, p.Timetable.Tasks[1].Key = "leek/blend/2", "leek/sweat/1"
	p.Timetable.Tasks[0].Slack = 20 * unit.Minute
	return p
}

func (s *shelf) Retime(ctx context.Context, b kitchen.Book, r kitchen.Request, changes kitchen.Changes) plan.Plan {
	s.told = &changes
	p := s.Plan(ctx, b, r)
	if s.stuck {
		return p
	}
	p.Timetable.Now = &changes.Now
	p.Timetable.Tasks[0].Start, p.Timetable.Tasks[0].End = 505, 515
	p.Timetable.Tasks[1].State = plan.Begun
	p.Timetable.Moves = []plan.Move{{Task: 0, Was: 480, Why: "late itself"}}
	return p
}

func (s *shelf) Seal(context.Context, kitchen.Book, kitchen.Request, []kitchen.Weighed) plan.Sealing {
	return plan.Sealing{}
}
func (s *shelf) Filling(kitchen.Book, kitchen.PackID, kitchen.Weighing) (plan.LotWeights, error) {
	return plan.LotWeights{}, nil
}
func (s *shelf) Week(context.Context, kitchen.Book) plan.Week { return plan.Week{} }
func (s *shelf) Now() time.Time                               { return s.now }
func (s *shelf) Foods() *foodtable.Table                      { return nil }
func (s *shelf) Made(kitchen.Book) []plan.MadeFood            { return nil }
func (s *shelf) CoolNow(kitchen.Book, plan.MadeFood, unit.Mass, unit.Temp) (plan.Plan, error) {
	return plan.Plan{}, nil
}

// at is a time of the run's day.
func at(hour, minute int) time.Time { return time.Date(2026, 12, 1, hour, minute, 0, 0, time.UTC) }

func monthBefore() time.Time { return at(9, 0).AddDate(0, -1, 0) }

// What a form says has changed is what is timed again.
func TestChangesAreRead(t *testing.T) {
	for _, c := range []struct {
		name, query string
		clock       time.Time
		want        kitchen.Changes
	}{
		{"late", "now=08:10&late=leek/blend/2&by=25+min", monthBefore(), kitchen.Changes{Now: 490, Late: []kitchen.Late{{Task: "leek/blend/2", By: 25 * unit.Minute}}}},
		{"early", "now=08:10&late=leek/blend/2&by=-10", monthBefore(), kitchen.Changes{Now: 490, Late: []kitchen.Late{{Task: "leek/blend/2", By: -10 * unit.Minute}}}},
		{"all of a dish", "now=08:10&late=leek&by=10+min", monthBefore(), kitchen.Changes{Now: 490, Late: []kitchen.Late{{Task: "leek", By: 10 * unit.Minute}}}},
		{"bare minutes", "now=08:10&late=leek/blend/2&by=25", monthBefore(), kitchen.Changes{Now: 490, Late: []kitchen.Late{{Task: "leek/blend/2", By: 25 * unit.Minute}}}},
		{"gone from now on", "now=08:10&gone=bo&gone-from=&gone-back=", monthBefore(), kitchen.Changes{Now: 490, Gone: []kitchen.Gone{{Person: "bo", From: 490}}}},
		{"gone for an hour, in the second row", "now=08:10&gone=&gone=bo&gone-from=&gone-from=09:00&gone-back=&gone-back=10:00", monthBefore(), kitchen.Changes{Now: 490, Gone: []kitchen.Gone{{Person: "bo", From: 540, Until: 600}}}},
		{"a jar is out", "now=08:10&out=jar&out-count=2&out-back=09:00", monthBefore(), kitchen.Changes{Now: 490, Out: []kitchen.Outage{{Equipment: "jar", Count: 2, From: 490, Until: 540}}}},
		{"one piece when it is not said", "now=01:00%2B1&out=jar", monthBefore(), kitchen.Changes{Now: 1500, Out: []kitchen.Outage{{Equipment: "jar", Count: 1, From: 1500}}}},
		{"by the clock", "gone=ada", at(7, 30), kitchen.Changes{Now: 450, Gone: []kitchen.Gone{{Person: "ada", From: 450}}}},
		{"several", "now=08:10&late=leek/blend/2&late=leek/sweat/1&by=5&by=1+h&gone=ada&out=jar", monthBefore(), kitchen.Changes{Now: 490,
			Late: []kitchen.Late{{Task: "leek/blend/2", By: 5 * unit.Minute}, {Task: "leek/sweat/1", By: unit.Hour}}, Gone: []kitchen.Gone{{Person: "ada", From: 490}}, Out: []kitchen.Outage{{Equipment: "jar", Count: 1, From: 490}}}},
	} {
		house := &shelf{now: c.clock}
		w := get(New(house, Options{}), "/run/leek/day?"+c.query)
		if w.Code != http.StatusOK || house.told == nil {
			t.Errorf("%s: status %d, timed again: %v", c.name, w.Code, house.told != nil)
			continue
		}
		if diff := cmp.Diff(c.want, *house.told); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// What cannot be read stays as it was typed, with the reason beside it, and nothing is timed again.
func TestWrongChanges(t *testing.T) {
	for _, c := range []struct{ query, says string }{
		{"late=leek/blend/2&by=5", "Write what time it is"},
		{"now=8+o'clock&gone=ada", "24-hour clock"},
		{"now=08:10&late=leek/blend/2", "Write by how much it is late"},
		{"now=08:10&by=25+min", "Choose the task that is late"},
		{"now=08:10&late=leek/fry/1&by=5", "The plan has no task leek/fry/1. Name one of its tasks, such as leek/blend/2."},
		{"now=08:10&late=leek/blend/2&by=a+while", "■"},
		{"now=08:10&late=leek/blnd/2&by=5", "The plan has no task leek/blnd/2. Did you mean leek/blend/2?<"},
		{"now=08:10&late=leek/blend/2&by=-", "is empty"},
		{"now=08:10&late=leek/blend/2&by=0", "By is 0 s, less than a minute. Write by how much"},
		{"now=08:10-1&gone=bo", "Now is 08:10-1, but should be from 00:00"},
		{"now=08:10-1", "Now is 08:10-1, but should be from 00:00"},
		{"now=08:10&late=leek/blend/2&by=3+days", "By is 72 h, but should be at most 12 h."},
		{"now=08:10&gone=cy", "There is no person cy. Add it, or name one of these: ada, bo."},
		{"now=08:10&gone-from=09:00", "Choose who is not here"},
		{"now=08:10&gone=bo&gone-from=half+nine", "■"},
		{"now=08:10&gone=bo&gone-from=10:00&gone-back=09:00", "It ends at 09:00, not after its start at 10:00."},
		{"now=08:10&gone=bo&gone-back=08:00", "It ends at 08:00, not after its start at 08:10."},
		{"now=08:10&gone=bo&gone-back=00:00", "A run begins at 00:00: write 00:00&#43;1"},
		{"now=08:10&out=oven", "There is no equipment oven. Add it, or name one of these: jar."},
		{"now=08:10&out=jar&out-count=3", "Count is 3, but should be at most 2."},
		{"now=08:10&out=jar&out-count=none", "no number of pieces"},
		{"now=08:10&out-count=1", "Choose what is out of order"},
		{"now=08:10&late=%3Cscript%3Ealert(1)%3C/script%3E&by=5", "&lt;script&gt;alert"},
	} {
		house := &shelf{now: monthBefore()}
		h := New(house, Options{})
		w := get(h, "/run/leek/day?"+c.query)
		page := w.Body.String()
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, c.says) || house.told != nil {
			t.Errorf("%s: status %d, %q on the page: %v, timed again: %v", c.query, w.Code, c.says, strings.Contains(page, c.says), house.told != nil)
		}
		query, err := url.ParseQuery(c.query)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range []string{"now", "late", "by", "gone-from", "out-count"} {
			if typed := query.Get(key); typed != "" && !strings.Contains(page, `name="`+key+`" type="text" `) {
				t.Errorf("%s: no field %s", c.query, key)
			}
		}
		if w := get(h, "/run/leek/day.svg?"+c.query); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: the drawing has status %d, want 422", c.query, w.Code)
		}
		var no refusal
		if err := json.Unmarshal(get(h, "/run/leek/day.json?"+c.query).Body.Bytes(), &no); err != nil || len(no.Fields) == 0 {
			t.Errorf("%s: the JSON refuses with %+v, %v; want the field", c.query, no, err)
		}
	}
}

// A day timed again says first what moved, and its drawing, calendar and data are of the new day.
func TestTheChangedDay(t *testing.T) {
	const query = "?now=08:10&late=leek/blend/2&by=25+min&count.x=3"
	h := New(&shelf{now: monthBefore()}, Options{})
	page := get(h, "/run/leek/day"+query).Body.String()
	inOrder(t, page, `id="moved"`, "Changed at 08:10", "(leek/blend/2) is 25 min late.", "08:00", "<b>08:25</b>", "25 min later", "Ada, Bo", "late itself", `id="now"`, `id="day"`, "where it was", "now 08:10")
	if !strings.Contains(page, `type="hidden" name="count.x" value="3"`) {
		t.Error("the form forgets the rest of the query")
	}
	var day struct {
		Timetable struct {
			Now   string
			Moves []any
		}
	}
	if err := json.Unmarshal(get(h, "/run/leek/day.json"+query).Body.Bytes(), &day); err != nil || day.Timetable.Now != "08:10" || len(day.Timetable.Moves) != 1 {
		t.Errorf("the JSON is %+v, %v", day, err)
	}
	if err := json.Unmarshal(get(h, "/run/leek/day.json?now=08:10").Body.Bytes(), &day); err != nil {
		t.Error(err)
	}
	if plain := get(h, "/run/leek/day.json?now=08:10").Body.String(); strings.Contains(plain, `"now"`) {
		t.Error("looking at a moment makes the day one that was timed again")
	}
	if svg := get(h, "/run/leek/day.svg"+query).Body.String(); !strings.Contains(svg, "now 08:10") || !strings.Contains(svg, "stroke-dasharray") {
		t.Error("the drawing does not show now, or where the task was")
	}
}

// A day that was not timed again never passes for one that was.
func TestADayThatIsAsPlanned(t *testing.T) {
	page := get(New(&shelf{now: monthBefore(), stuck: true}, Options{}), "/run/leek/day?now=08:10&gone=bo").Body.String()
	if !strings.Contains(page, "this is the day as it was planned") || strings.Contains(page, "Nothing starts at another time") {
		t.Error("the page does not say that nothing was timed again")
	}
}

// On the day of the run the pages follow the clock, and only then.
func TestPagesFollowTheClock(t *testing.T) {
	for _, c := range []struct {
		name, target string
		clock        time.Time
		shows        string // the moment looked at
		refresh      bool
	}{
		{"on the day", "/run/leek/next", at(8, 5), "from 08:05 on", true},
		{"on the day, at another time", "/run/leek/next?now=09:00", at(8, 5), "from 09:00 on", false},
		{"before it", "/run/leek/next", monthBefore(), "from 07:00 on", false},
		{"after its end", "/run/leek/next", at(8, 5).AddDate(0, 0, 2), "from 07:00 on", false},
		{"past midnight", "/run/leek/next", at(0, 5).AddDate(0, 0, 1), "from 00:05&#43;1 on", true},
		{"its own page", "/run/leek", at(8, 5), "from 08:05 on", false},
		{"the day's page", "/run/leek/day", at(8, 5), "from 08:05 on", false},
	} {
		page := get(New(&shelf{now: c.clock}, Options{}), c.target).Body.String()
		if !strings.Contains(page, c.shows) {
			t.Errorf("%s: no %q", c.name, c.shows)
		}
		if got := strings.Contains(page, ` data-every="`); got != c.refresh {
			t.Errorf("%s: asks to be shown again: %v, want %v", c.name, got, c.refresh)
		}
	}
	if page := get(New(&shelf{now: monthBefore()}, Options{}), "/run/leek").Body.String(); strings.Contains(page, `id="next"`) {
		t.Error("a run that is not on tells what comes next")
	}
}

// Whoever is at a task sees it first, with the time it goes on; who has none sees until when.
func TestWhatComesNext(t *testing.T) {
	h := New(&shelf{now: monthBefore()}, Options{})
	page := get(h, "/run/leek/next?now=08:05&person=ada").Body.String()
	inOrder(t, page, `<li class="on">`, "08:00", "now, to 08:10", "A2", "load 2 of 6", "on jar, with Bo", "08:20")
	if page := get(h, "/run/leek/next?now=08:10").Body.String(); !strings.Contains(page, "Free until 08:20.") {
		t.Error("who is free is not told until when")
	}
	if page := get(h, "/run/leek/next?now=20:00").Body.String(); !strings.Contains(page, "Nothing more to do.") {
		t.Error("who is done is not told")
	}
}
