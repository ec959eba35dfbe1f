package orders

import (
	"testing"
	"time"

	"kettlefrost/internal/record"

	"pgregory.net/rapid"
)

// Days are those of package time, from the first that can be written to the last, and what it does not take for a date is none.
func TestDaysAreThoseOfTheCalendar(t *testing.T) {
	for at := time.Date(1600, 1, 1, 0, 0, 0, 0, time.UTC); at.Year() < 2401; at = at.AddDate(0, 0, 1) {
		day := record.Day(at.Format(time.DateOnly))
		if n := number(day); n != int(at.Unix()/86400) && at.Unix() >= 0 || dayOf(n) != day {
			t.Fatalf("%s is number %d, which is %s", day, n, dayOf(n))
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9]{4}-[0-9]{2}-[0-9]{2}|20[0-9]{2}-[01][0-9]-[0-3][0-9]|[0-9-]{8,11}`).Draw(t, "text")
		at, err := time.Parse(time.DateOnly, text)
		if isDay(text) != (err == nil) {
			t.Fatalf("%q: %v", text, err)
		}
		plus := rapid.IntRange(-40_000, 40_000).Draw(t, "plus")
		if then := at.AddDate(0, 0, plus); err == nil && then.Year() > 0 && then.Year() < 10_000 && at.Year() > 0 {
			if got := Plus(record.Day(text), plus); string(got) != then.Format(time.DateOnly) || Days(record.Day(text), got) != plus {
				t.Fatalf("%s and %d days is %s, want %s", text, plus, got, then.Format(time.DateOnly))
			}
		}
	})
}
