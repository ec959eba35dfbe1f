package draw

import (
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// pen is a canvas that notes what is drawn on it.
type pen struct {
	lines  [][2]Point
	rects  []Style
	boxes  []Box
	groups []string
	texts  []string
}

func (p *pen) Rect(b Box, s Style)               { p.boxes, p.rects = append(p.boxes, b), append(p.rects, s) }
func (p *pen) Line(from, to Point, _ Style)      { p.lines = append(p.lines, [2]Point{from, to}) }
func (p *pen) Polyline([]Point, Style)           {}
func (p *pen) Text(_ Point, text string, _ Type) { p.texts = append(p.texts, text) }
func (p *pen) Group(title string, draw func(Canvas)) {
	p.groups = append(p.groups, title)
	draw(p)
}

// One minute is one unit wide, and the stretch goes from 07:00 to 11:00.
var hourglass = scale{from: 420, to: 660, wide: 368, perMinute: 1}

func TestSlackEndsAtAStopOrAtTheNextBar(t *testing.T) {
	row := plan.Row{Bars: []plan.Bar{{Task: 0, From: 430, To: 450}, {Task: 1, From: 500, To: 520}, {Task: 0, From: 530, To: 535}}}
	l := lane{row: row, height: 50, lines: 1, line: []int{0, 0, 0}}
	for _, c := range []struct {
		name string
		bar  int
		task plan.Task
		want []float64 // ends of the lines: of the slack, then of its stop
	}{
		{"a stop", 1, plan.Task{Slack: 8 * unit.Minute}, []float64{hourglass.x(528), hourglass.x(528)}},
		{"the next bar is before it", 1, plan.Task{Slack: 40 * unit.Minute}, []float64{hourglass.x(530)}},
		{"more of it in the next picture", 2, plan.Task{Slack: 4 * unit.Hour}, []float64{hourglass.x(660)}},
		{"only behind the last bar of a task", 0, plan.Task{Slack: 8 * unit.Minute}, nil},
		{"critical", 2, plan.Task{}, nil},
		{"done", 2, plan.Task{Slack: 8 * unit.Minute, State: plan.Done}, nil},
	} {
		p := &pen{}
		hourglass.slack(p, c.task, l, c.bar)
		var got []float64
		for _, line := range p.lines {
			got = append(got, line[1].X)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: lines end at %v, want %v", c.name, got, c.want)
		}
	}
}

// What is critical, begun, done or moved differs in edge, ground or sign, and each has its word in the key.
func TestStatesDifferWithoutColour(t *testing.T) {
	for _, c := range []struct {
		name  string
		task  plan.Task
		shift unit.Moment
		signs int
		edge  bool
	}{
		{"plain", plan.Task{Slack: unit.Minute}, 0, 0, false},
		{"critical", plan.Task{}, 0, 1, true},
		{"critical and begun", plan.Task{State: plan.Begun}, 0, 2, true},
		{"done", plan.Task{State: plan.Done}, 0, 1, false},
		{"moved", plan.Task{Slack: unit.Minute}, 5, 1, false},
		{"critical and moved", plan.Task{}, -5, 2, true},
	} {
		all := signsOf(c.task, c.shift)
		p := &pen{}
		hourglass.bar(p, c.task, all, Codes{}, plan.Bar{From: 430, To: 630}, 0, 58)
		heavy := slices.ContainsFunc(p.rects, func(s Style) bool { return s.Width == edgeWidth })
		if len(all) != c.signs || heavy != c.edge {
			t.Errorf("%s: %d signs, heavy edge %v; want %d and %v", c.name, len(all), heavy, c.signs, c.edge)
		}
	}
	timetable, _ := dayUnderWay()
	timetable.Tasks[3].Slack = 0
	timetable.Tasks[2].Slack = unit.Hour
	var says []string
	for _, s := range DayKey(timetable) {
		says = append(says, s.Says)
	}
	if len(says) != 6 {
		t.Errorf("the key of a day with everything in it says %q", says)
	}
	if got := DayKey(plan.Timetable{Tasks: []plan.Task{{Slack: unit.Minute}}}); len(got) != 1 {
		t.Errorf("the key of a day with nothing but slack has %d signs, want 1", len(got))
	}
}

// Hands that a task under way needed before now are done; the rest of it is not.
func TestWhatLiesBehindIsDone(t *testing.T) {
	timetable, codes := dayUnderWay()
	titles := read(t, SVG(Timeline(timetable, codes, Everyone)[0])).titles
	for _, want := range []string{"A2, load 1 of 2, 07:50 to 07:52, done", "A2, load 1 of 2, 07:45 to 08:45, begun"} {
		if !contains(titles, want) {
			t.Errorf("no %q among %q", want, titles)
		}
	}
}

func TestNowStandsInItsStretchOnly(t *testing.T) {
	timetable, codes := dayUnderWay()
	var has []bool
	for _, picture := range Timeline(timetable, codes, Everyone) {
		has = append(has, contains(read(t, SVG(picture)).titles, "now 08:15"))
	}
	if !slices.Equal(has, []bool{true, false}) {
		t.Errorf("the line of now stands in the stretches %v", has)
	}
}

func TestWholeDayOfOnePerson(t *testing.T) {
	timetable, _ := day()
	whole, ok := WholeDay(dayPlan(timetable), "Bo")
	d := read(t, SVG(whole))
	if !ok || !contains(d.texts, "Bo") || contains(d.texts, "Ada") || contains(d.texts, "pans") {
		t.Errorf("Bo's day has the texts %q", d.texts)
	}
	if !contains(d.texts, "broth for Monday, 2026-11-30, 07:00 to 13:20") || !contains(d.texts, "A vegetable broth") {
		t.Errorf("no name or key among %q", d.texts)
	}
	if _, ok := WholeDay(dayPlan(timetable), "nobody"); ok {
		t.Error("there is a picture of nobody's day")
	}
	if _, ok := WholeDay(plan.Plan{}); ok {
		t.Error("there is a picture of an empty day")
	}
}

// A day with many rows is cut between them: every row stands on one page, and each page has its hours and its key.
func TestDayPages(t *testing.T) {
	timetable, _ := day()
	for i := range 40 {
		timetable.Rows = append(timetable.Rows, plan.Row{Name: fmt.Sprintf("oven %d", i), Bars: []plan.Bar{{Task: 1, From: 465, To: 525}}})
	}
	pages := DayPages(dayPlan(timetable))
	count := map[string]int{}
	for i, page := range pages {
		if page.Height > page.Width*pageShape {
			t.Errorf("page %d is %g high and %g wide", i+1, page.Height, page.Width)
		}
		d := read(t, SVG(page))
		for _, text := range d.texts {
			count[text]++
		}
		if !contains(d.texts, "08:00") || !contains(d.texts, "B dal") {
			t.Errorf("page %d has no hours or no key", i+1)
		}
	}
	if len(pages) != 4 { // 3 rows for each 168 units, of some 760 on a page
		t.Errorf("%d pages, want 4", len(pages))
	}
	for _, name := range []string{"Ada", "Bo", "oven 0", "oven 39"} {
		if count[name] != 1 {
			t.Errorf("%s stands on %d pages", name, count[name])
		}
	}
}
