package board

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// midnight is the beginning of the day of the broth.
const midnight record.Instant = 1_790_000_000_000

func at(hour, minute int) record.Instant {
	return midnight + record.Instant(hour*60+minute)*60_000
}

func wall(i record.Instant) unit.Moment { return unit.Moment((i - midnight) / 60_000) }

// broth is a day of two people: Ada chops and Bo washes jars, the pot boils alone, both fill.
func broth() (plan.Plan, map[string][]plan.Need) {
	p := plan.Plan{Timetable: plan.Timetable{Start: 420, End: 660,
		Tasks: []plan.Task{
			{Key: "broth/chop/1", Label: "Chop", Start: 420, End: 480, People: []string{"Ada"}},
			{Key: "wash/jars/1", Label: "Wash jars", Start: 420, End: 450, People: []string{"Bo"}},
			{Key: "broth/boil/1", Label: "Boil", Start: 480, End: 600},
			{Key: "broth/fill/1", Label: "Fill", Start: 600, End: 660, People: []string{"Ada", "Bo"}},
		},
		Rows: []plan.Row{{Name: "Ada", Person: true}, {Name: "Bo", Person: true}}}}
	return p, map[string][]plan.Need{
		"broth/boil/1": {{Task: "broth/chop/1", Over: true, Begin: true}},
		"broth/fill/1": {{Task: "broth/boil/1", Over: true, Begin: true}, {Task: "wash/jars/1", Over: true}},
	}
}

// diary makes entries, each with the next number.
type diary struct{ entries []record.Entry }

func (d *diary) say(when record.Instant, who string, body record.Body) record.Entry {
	n := len(d.entries) + 1
	e, err := record.Say(record.ID{byte(n >> 8), byte(n)}, when, who, "tablet of "+who, body)
	if err != nil {
		panic(err)
	}
	e.Seq, e.Entered = uint64(n), when
	d.entries = append(d.entries, e)
	return e
}

func (d *diary) board() Board {
	s := &State{}
	for _, e := range d.entries {
		s.Put(e)
	}
	p, needs := broth()
	return Read(s.Run("r"), p, needs)
}

func started(task string) record.Body  { return record.Started{Run: "r", Task: task} }
func finished(task string) record.Body { return record.Finished{Run: "r", Task: task} }

func opened(d *diary) {
	d.say(at(6, 50), "Ada", record.Opened{Run: "r", Request: "broth", Day: "2026-09-21", Plan: record.Hash{1}})
}

// says is a board in one line: what each person has under way, now, next and waiting.
func says(columns []Column) string {
	var parts []string
	for _, c := range columns {
		var of []string
		for _, list := range []struct {
			name  string
			items []Item
		}{{"does", c.UnderWay}, {"now", c.Now}, {"next", c.Next}, {"waits", c.Waiting}} {
			for _, x := range list.items {
				text := list.name + " " + x.Task.Label
				if x.Due > 0 {
					text += " to " + wall(x.Due).String()
				}
				if len(x.Waits) > 0 {
					text += " for " + strings.Join(x.Waits, "+")
				}
				of = append(of, text)
			}
		}
		parts = append(parts, c.Person+": "+strings.Join(of, ", "))
	}
	return strings.Join(parts, "; ")
}

// A day worked through by hand: what stands on the board after each touch.
func TestTheBoardOverADay(t *testing.T) {
	d := &diary{}
	opened(d)
	p, _ := broth()
	for _, c := range []struct {
		hour, minute int
		who          string
		body         record.Body
		want         string
	}{
		{7, 0, "Ada", started("broth/chop/1"), "Ada: does Chop to 08:00, waits Fill for Boil; Bo: now Wash jars, waits Fill for Boil; : waits Boil for Chop"},
		{7, 5, "Bo", started("wash/jars/1"), "Ada: does Chop to 08:00, waits Fill for Boil; Bo: does Wash jars to 07:35, waits Fill for Boil; : waits Boil for Chop"},
		{7, 20, "Bo", finished("wash/jars/1"), "Ada: does Chop to 08:00, waits Fill for Boil; Bo: waits Fill for Boil; : waits Boil for Chop"},
		{7, 50, "Ada", finished("broth/chop/1"), "Ada: waits Fill for Boil; Bo: waits Fill for Boil; : next Boil"},
		{7, 52, "Ada", started("broth/boil/1"), "Ada: does Boil to 09:52, waits Fill for Boil; Bo: waits Fill for Boil; : does Boil to 09:52"},
		{9, 52, "Bo", finished("broth/boil/1"), "Ada: next Fill; Bo: next Fill; : "},
		{10, 0, "Bo", started("broth/fill/1"), "Ada: does Fill to 11:00; Bo: does Fill to 11:00; : "},
		{10, 40, "Ada", finished("broth/fill/1"), "Ada: ; Bo: ; : "},
	} {
		d.say(at(c.hour, c.minute), c.who, c.body)
		b := d.board()
		if got := says(b.Outlook(p, p, wall(at(c.hour, c.minute)))); got != c.want {
			t.Errorf("at %d:%02d\n got %s\nwant %s", c.hour, c.minute, got, c.want)
		}
		if len(b.Found) > 0 {
			t.Errorf("at %d:%02d: %v", c.hour, c.minute, b.Found)
		}
	}
	b := d.board()
	if over := b.Over(); len(over) != 4 || over[0].Key != "broth/fill/1" || over[0].EndedBy != "Ada" || over[0].Who[0] != "Bo" {
		t.Errorf("over: %+v", over)
	}
	got := b.Changes(p, 700, wall)
	want := []kitchen.Real{
		{Task: "broth/chop/1", Begin: 420, End: 470, Over: true}, {Task: "wash/jars/1", Begin: 425, End: 440, Over: true},
		{Task: "broth/boil/1", Begin: 472, End: 592, Over: true}, {Task: "broth/fill/1", Begin: 600, End: 640, Over: true},
	}
	if !slices.Equal(got.Real, want) || !got.Told || got.Now != 700 {
		t.Errorf("changes %+v\nwant %+v", got, want)
	}
}

// What does not fit is found, and the board stands all the same.
func TestWhatDoesNotFit(t *testing.T) {
	const chop, boil, fill = "broth/chop/1", "broth/boil/1", "broth/fill/1"
	for _, c := range []struct {
		name string
		tell func(*diary)
		want string // codes, in the order of the entries
		task string // how far
		is   string
	}{
		{"two people finish one step", func(d *diary) {
			d.say(at(7, 0), "Ada", started(chop))
			d.say(at(7, 50), "Ada", finished(chop))
			d.say(at(7, 51), "Bo", finished(chop))
		}, CodeFinishedTwice, chop, "done 07:00-07:50 by Ada"},
		{"finished and never started", func(d *diary) { d.say(at(7, 50), "Bo", finished(chop)) }, CodeNotStarted, chop, "done 07:50-07:50 by Bo"},
		{"started by two", func(d *diary) {
			d.say(at(7, 0), "Ada", started(chop))
			d.say(at(7, 3), "Bo", started(chop))
		}, CodeStartedTwice, chop, "begun 07:00-00:00 by "},
		{"a clock that went back", func(d *diary) {
			d.say(at(7, 30), "Ada", started(chop))
			d.say(at(6, 55), "Bo", finished(chop))
		}, CodeClockBack, chop, "done 07:30-07:30 by Bo"},
		{"a clock that is ahead", func(d *diary) {
			e := d.say(at(9, 0), "Ada", started(chop))
			d.entries[e.Seq-1].Entered = at(7, 0)
		}, CodeFuture, chop, "begun 09:00-00:00 by "},
		{"a clock that is a minute ahead", func(d *diary) {
			e := d.say(at(7, 1), "Ada", started(chop))
			d.entries[e.Seq-1].Entered = at(7, 0)
		}, "", chop, "begun 07:01-00:00 by "},
		{"before what it needs", func(d *diary) {
			d.say(at(7, 0), "Ada", started(chop))
			d.say(at(7, 30), "Bo", started(boil))
		}, CodeTooEarly, boil, "begun 07:30-00:00 by "},
		{"touched a little late", func(d *diary) {
			d.say(at(7, 0), "Ada", started(chop))
			d.say(at(7, 30), "Bo", started(boil))
			d.say(at(7, 31), "Ada", finished(chop))
		}, "", boil, "begun 07:30-00:00 by "},
		{"over before what it needs on the way", func(d *diary) {
			d.say(at(7, 0), "Ada", record.Skipped{Run: "r", Task: chop, Why: "bought chopped"})
			d.say(at(7, 1), "Ada", started(boil))
			d.say(at(8, 0), "Ada", finished(boil))
			d.say(at(8, 1), "Ada", started(fill))
			d.say(at(9, 0), "Ada", finished(fill))
		}, CodeTooEarly, fill, "done 08:01-09:00 by Ada"},
		{"skipped and done", func(d *diary) {
			d.say(at(7, 0), "Ada", started(chop))
			d.say(at(7, 10), "Ada", finished(chop))
			d.say(at(7, 11), "Bo", record.Skipped{Run: "r", Task: chop, Why: "no time"})
		}, CodeSkippedDone, chop, "done 07:00-07:10 by Ada"},
		{"skipped", func(d *diary) { d.say(at(7, 11), "Bo", record.Skipped{Run: "r", Task: chop, Why: "no time"}) }, "", chop, "skipped 07:11-07:11 by Bo"},
		{"of another plan", func(d *diary) { d.say(at(7, 11), "Bo", started("stew/fry/1")) }, CodeUnknownTask, "stew/fry/1", "begun 07:11-00:00 by "},
		{"hotter than a kitchen", func(d *diary) {
			d.say(at(7, 11), "Bo", record.Measured{Run: "r", Task: boil, Temp: unit.TempC(340)})
		}, CodeImpossibleTemp, boil, " 00:00-00:00 by "},
		{"after closing", func(d *diary) {
			d.say(at(7, 11), "Bo", record.Closed{Run: "r"})
			d.say(at(7, 12), "Bo", started(chop))
		}, CodeAfterClosing, chop, "begun 07:12-00:00 by "},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := &diary{}
			opened(d)
			c.tell(d)
			b := d.board()
			if got := codes(b.Found); got != c.want {
				t.Errorf("found %q, want %q: %v", got, c.want, b.Found)
			}
			for _, f := range b.Found {
				if f.Fix == "" || f.Message == "" || !strings.HasPrefix(f.Path, "entries.") {
					t.Errorf("%+v", f)
				}
			}
			x := b.Tasks[c.task]
			time := func(i record.Instant) string {
				if i == 0 {
					return "00:00"
				}
				return wall(i).String()
			}
			if got := fmt.Sprintf("%s %s-%s by %s", x.Is, time(x.Began), time(x.Ended), x.EndedBy); got != c.is {
				t.Errorf("%s is %s, want %s", c.task, got, c.is)
			}
		})
	}
}

// A run that nobody opened is told of, and one that is opened again after closing goes on.
func TestOpeningAndClosing(t *testing.T) {
	d := &diary{}
	d.say(at(6, 0), "Ada", started("broth/chop/1"))
	if b := d.board(); codes(b.Found) != CodeNotOpened || b.Run.Open() {
		t.Errorf("never opened: %v", b.Found)
	}
	d = &diary{}
	opened(d)
	if !d.board().Run.Open() {
		t.Error("opened, and not open")
	}
	d.say(at(12, 0), "Ada", record.Closed{Run: "r"})
	if d.board().Run.Open() {
		t.Error("closed, and open")
	}
	d.say(at(12, 5), "Bo", record.Opened{Run: "r", Request: "broth", Day: "2026-09-21", Plan: record.Hash{1}})
	if b := d.board(); !b.Run.Open() || codes(b.Found) != CodeOpenedAgain {
		t.Errorf("opened again: %v", b.Found)
	}
}

// What somebody said had changed is counted from when it was said.
func TestWhatHasChanged(t *testing.T) {
	d := &diary{}
	opened(d)
	d.say(at(7, 30), "Ada", record.Changed{Run: "r", Late: []record.LateTask{{Task: "broth/boil/1", Minutes: 10, Early: true}}, Gone: []record.GonePerson{{Person: "bo"}}, Out: []record.Outage{{Equipment: "pot", Count: 1, Until: at(9, 0)}}})
	p, _ := broth()
	c := d.board().Changes(p, 500, wall)
	if len(c.Late) != 1 || c.Late[0].By != -10*unit.Minute || len(c.Gone) != 1 || c.Gone[0].From != 450 || c.Gone[0].Until != 0 || len(c.Out) != 1 || c.Out[0].From != 450 || c.Out[0].Until != 540 {
		t.Errorf("%+v", c)
	}
}

// A weight of nothing cannot be entered: the record refuses it, so that the board need not doubt it.
func TestWeightOfNothing(t *testing.T) {
	if _, err := record.Encode(record.Weighed{Run: "r", Dish: "broth", Output: "broth"}); err == nil || !strings.Contains(err.Error(), "net_g") {
		t.Errorf("%v", err)
	}
}

func codes(found finding.List) string {
	var all []string
	for _, f := range found {
		all = append(all, f.Code)
	}
	return strings.Join(all, " ")
}
