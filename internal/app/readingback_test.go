package app

import (
	"testing"
	"time"

	"kettlefrost/internal/record"
)

// A file that was taken in in the wrong unit is taken back: its readings stay as they came, flagged, and count for nothing; taken in again with the
// right answer they count, and so do the first when somebody takes them in once more.
func TestALogFileIsTakenBack(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	f := LogFile{Name: "tub-logger.csv", Data: []byte("timestamp,temp\n2026-12-01 10:00Z,38\n2026-12-01 10:01Z,39\n")}
	take := func(unit string) record.Entry {
		t.Helper()
		x, err := r.ReadLog(t.Context(), coolKitchen(), f, LogAnswers{Unit: unit}, noon, nil)
		if err != nil || !x.Ready() {
			t.Fatal(err, asked(x))
		}
		e, err := r.TakeLog(t.Context(), x, ada(noon), true)
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	from := record.Instant(time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC).UnixMilli())
	count := func(want int, of string) (mark [2]int64) {
		t.Helper()
		all, err := r.Readings(t.Context(), "tub-logger", from, from+24*3_600_000)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, x := range all {
			if ReadingCounts(x) {
				n++
			}
		}
		if n != want {
			t.Errorf("%s: %d of %d readings count, want %d", of, n, len(all), want)
		}
		if mark, err = r.readingsMark(t.Context(), "tub-logger", from, from+24*3_600_000); err != nil {
			t.Fatal(err)
		}
		return mark
	}
	wrong := take("c")
	before := count(2, "taken in")
	if _, err := r.Enter(t.Context(), Said{Who: "Ada", Device: "tablet", At: noon, Corrects: wrong.ID, Body: record.Voided{Why: "it was in °F"}}); err != nil {
		t.Fatal(err)
	}
	if after := count(0, "taken back"); after == before {
		t.Error("it was taken back, and nobody who judged by it looks again")
	}
	take("f")
	count(2, "taken in in the right unit")
	take("c")
	count(4, "both, as somebody said")
}
