package app

import (
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/kitchen"
)

func TestMomentOn(t *testing.T) {
	east := time.FixedZone("", 10*3600)
	for _, c := range []struct {
		day  string
		now  time.Time
		want string // "" when the run is not on
	}{
		{"2026-12-01", time.Date(2026, 12, 1, 13, 20, 59, 0, time.UTC), "13:20"},
		{"2026-12-01", time.Date(2026, 12, 1, 6, 5, 0, 0, east), "06:05"}, // still November in Greenwich
		{"2026-12-31", time.Date(2027, 1, 1, 0, 30, 0, 0, east), "00:30+1"},
		{"2026-12-01", time.Date(2026, 12, 7, 8, 0, 0, 0, time.UTC), "08:00+6"},
		{"2026-12-01", time.Date(2026, 12, 8, 8, 0, 0, 0, time.UTC), ""},
		{"2026-12-01", time.Date(2026, 11, 30, 23, 59, 0, 0, time.UTC), ""},
		{"some day", time.Date(2026, 11, 30, 23, 59, 0, 0, time.UTC), ""},
		{"", time.Date(2026, 11, 30, 23, 59, 0, 0, time.UTC), ""},
	} {
		m, on := MomentOn(c.day, c.now)
		if on != (c.want != "") || on && m.String() != c.want {
			t.Errorf("a run of %q at %s: %s, %v; want %q", c.day, c.now, m, on, c.want)
		}
	}
}

func TestPersonByName(t *testing.T) {
	book := kitchen.Book{People: map[kitchen.PersonID]kitchen.Person{"sam": {Name: "Samuel"}, "zoe": {Name: "Zoë"}}}
	for _, c := range []struct{ text, name, says string }{
		{"sam", "Samuel", ""}, {"samuel", "Samuel", ""}, {"ZOË", "Zoë", ""},
		{"Samuell", "", "did you mean Samuel?"}, {"Quentin", "", "the book has Samuel, Zoë"}, {"", "", "nobody here"},
	} {
		name, err := Person(book, c.text)
		if name != c.name || (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q is %q, %v; want %q, %q", c.text, name, err, c.name, c.says)
		}
	}
	if _, err := Person(kitchen.Book{}, "sam"); err == nil || !strings.Contains(err.Error(), "no people") {
		t.Errorf("of an empty book: %v", err)
	}
}
