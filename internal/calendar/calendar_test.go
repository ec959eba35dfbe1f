package calendar_test

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
	"pgregory.net/rapid"

	"kettlefrost/internal/calendar"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

var written = time.Date(2026, 11, 29, 18, 30, 5, 0, time.FixedZone("", -5*3600))

// soup is a day over midnight, with names that need an escape.
func soup() plan.Plan {
	return plan.Plan{Kitchen: "Test", Run: "soup; big, very", Day: "2026-12-31",
		Dishes: []plan.Dish{{ID: "soup", Name: "soup", Steps: []plan.Step{{ID: "sear"}, {ID: "boil"}}}},
		Timetable: plan.Timetable{
			Tasks: []plan.Task{
				{Key: "soup/sear/1", Dish: "soup", Step: "sear", Label: "Sear the jalapeños, crème fraîche; don't\\burn\nthem: they must stay green, or else the whole soup looks old.", Load: 2, Loads: 3, Kind: plan.Cook,
					People: []string{"Zoë, the first", "Bo"}, On: []string{"pan; wide", "burner no. 2"}, Slack: 25 * unit.Minute},
				{Key: "soup/boil/1", Dish: "soup", Step: "boil", Label: "Boil.", Load: 1, Loads: 1, Kind: plan.Cook, People: []string{"Zoë, the first"}},
			},
			Rows: []plan.Row{
				{Name: "Zoë, the first", Person: true, Bars: []plan.Bar{{Task: 0, From: 390, To: 430}, {Task: 1, From: 1430, To: 1450}, {Task: 1, From: 1500, To: 1500}}, Away: []plan.Bar{{Task: -1, From: 600, To: 630}}},
				{Name: "Bo", Person: true, Bars: []plan.Bar{{Task: 0, From: 390, To: 400}}},
				{Name: "pan; wide", Bars: []plan.Bar{{Task: 0, From: 390, To: 430}}},
			},
		}}
}

func text(t *testing.T, p plan.Plan, person string) []byte {
	t.Helper()
	data, err := calendar.Text(p, person, written)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// events reads a calendar back by a library that did not write it.
func events(t interface{ Fatalf(string, ...any) }, data []byte) []*ics.VEvent {
	cal, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("cannot be read back: %v", err)
	}
	return cal.Events()
}

func property(e *ics.VEvent, name ics.ComponentProperty) string {
	if p := e.GetProperty(name); p != nil {
		return p.Value
	}
	return ""
}

func TestWhatATurnSays(t *testing.T) {
	all := events(t, text(t, soup(), ""))
	if len(all) != 4 { // three turns of Zoë, one of Bo; no break, no pan
		t.Fatalf("%d events, want 4", len(all))
	}
	for name, want := range map[ics.ComponentProperty]string{
		ics.ComponentPropertySummary:     "A1 Sear the jalapeños, crème fraîche; don't\\burn\nthem: they must stay green, or else the whole soup looks old",
		ics.ComponentPropertyLocation:    "pan; wide, burner no. 2",
		ics.ComponentPropertyCategories:  "Zoë, the first",
		ics.ComponentPropertyDescription: "Load 2 of 3.\nWith Bo.\nSlack: it may begin 25 min later.\nTimes are the kitchen's own clock.",
		ics.ComponentPropertyDtStart:     "20261231T063000", // floating: no zone, no Z
		ics.ComponentPropertyDtEnd:       "20261231T071000",
		ics.ComponentPropertyDtstamp:     "20261129T233005Z", // 18:30:05 five hours west of Greenwich
	} {
		if got := property(all[0], name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if got := property(all[1], ics.ComponentPropertyDescription); !strings.HasPrefix(got, "Critical: a delay here") {
		t.Errorf("the critical turn is told as %q", got)
	}
	if from, to := property(all[1], ics.ComponentPropertyDtStart), property(all[1], ics.ComponentPropertyDtEnd); from != "20261231T235000" || to != "20270101T001000" {
		t.Errorf("over midnight: %s to %s", from, to)
	}
	if to := property(all[2], ics.ComponentPropertyDtEnd); to != "" {
		t.Errorf("a turn of no length ends at %s; an end must lie after its start", to)
	}
}

func TestOnePersonsCalendar(t *testing.T) {
	bo := events(t, text(t, soup(), "Bo"))
	if len(bo) != 1 || property(bo[0], ics.ComponentPropertyCategories) != "Bo" {
		t.Errorf("Bo has %d events", len(bo))
	}
	if uid := property(bo[0], ics.ComponentPropertyUniqueId); uid != property(events(t, text(t, soup(), ""))[3], ics.ComponentPropertyUniqueId) {
		t.Error("Bo's own calendar has another event than everybody's")
	}
	for _, c := range []struct{ person, day string }{{"nobody", "2026-12-31"}, {"", "some day"}, {"", ""}} {
		p := soup()
		p.Day = c.day
		if data, err := calendar.Text(p, c.person, written); err == nil {
			t.Errorf("%q on %q: %d bytes, want an error", c.person, c.day, len(data))
		}
	}
}

// An event keeps its name when its time changes, and no two have the same one.
func TestNamesOfEventsAreStable(t *testing.T) {
	uids := func(p plan.Plan) []string {
		var all []string
		for _, e := range events(t, text(t, p, "")) {
			all = append(all, property(e, ics.ComponentPropertyUniqueId))
		}
		return all
	}
	first := uids(soup())
	moved := soup()
	moved.Timetable.Rows[1].Bars[0] = plan.Bar{Task: 0, From: 500, To: 600}
	if !slices.Equal(first, uids(moved)) {
		t.Error("the events of a moved turn are others")
	}
	sorted := slices.Sorted(slices.Values(first))
	if len(slices.Compact(sorted)) != len(first) {
		t.Errorf("two events have one name: %q", first)
	}
	other := soup()
	other.Day = "2027-01-01"
	if slices.Contains(uids(other), first[0]) {
		t.Error("the next day has the same events")
	}
}

var printable = rapid.StringOf(rapid.RuneFrom([]rune(`;,:\"'`), unicode.L, unicode.P))

var lineStart = regexp.MustCompile(`^[A-Z-]+[:;]`)

// Whatever the names are, the text keeps the rules of RFC 5545: CRLF, lines of 75 octets at most, no character torn apart, no control
// character, what an event must have; and the names come back as they were.
func TestAnyNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := soup()
		label := rapid.String().Draw(t, "label")
		p.Timetable.Tasks[0].Label = "x" + label
		p.Timetable.Tasks[0].On = []string{rapid.String().Draw(t, "on")}
		name := "y" + printable.Draw(t, "person")
		p.Timetable.Rows[1].Name = name
		data, err := calendar.Text(p, "", written)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.HasSuffix(data, []byte("END:VCALENDAR\r\n")) {
			t.Fatalf("ends with %q", data[max(0, len(data)-20):])
		}
		for line := range strings.SplitSeq(strings.TrimSuffix(string(data), "\r\n"), "\r\n") {
			if len(line) > 75 || !utf8.ValidString(line) || strings.ContainsAny(line, "\r\n\x00\x1b") {
				t.Fatalf("line %q of %d octets", line, len(line))
			}
			if !strings.HasPrefix(line, " ") && !lineStart.MatchString(line) {
				t.Fatalf("line %q is neither a property nor the rest of one", line)
			}
		}
		all := events(t, data)
		if got := property(all[len(all)-1], ics.ComponentPropertyCategories); got != name {
			t.Fatalf("the name %q came back as %q", name, got)
		}
		for _, e := range all {
			for _, must := range []ics.ComponentProperty{ics.ComponentPropertyUniqueId, ics.ComponentPropertyDtstamp, ics.ComponentPropertyDtStart} {
				if property(e, must) == "" {
					t.Fatalf("an event has no %s", must)
				}
			}
		}
	})
}
