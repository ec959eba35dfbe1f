package app_test

import (
	"maps"
	"path/filepath"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

// frozenNoon is the time at which these tests look.
var frozenNoon = time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC)

// readFreezer is records with what a probe read each minute of the last hours, in °C.
func readFreezer(t *testing.T, probe string, hours int, tempC func(hoursAgo float64) float64, flags string) *app.Records {
	t.Helper()
	clock := func() time.Time { return frozenNoon }
	path := filepath.Join(t.TempDir(), "kitchen.records")
	records, err := app.OpenRecords(t.Context(), path, clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	kept, err := store.Open(t.Context(), path, func() record.Instant { return record.Instant(frozenNoon.UnixMilli()) })
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	var readings []store.Reading
	for i := range hours*60 + 1 {
		ago := float64(hours) - float64(i)/60
		readings = append(readings, store.Reading{Probe: probe, At: record.Instant(frozenNoon.Add(-time.Duration(ago * float64(time.Hour))).UnixMilli()), MilliC: int64(tempC(ago) * 1000), Valued: true, Flags: flags, Line: i + 1})
	}
	if err := kept.TakeReadings(t.Context(), store.Batch{ID: record.ID{7}, Who: "Ada", Readings: readings}); err != nil {
		t.Fatal(err)
	}
	return records
}

func steady(c float64) func(float64) float64 { return func(float64) float64 { return c } }

// demoBook is the book of the demo kitchen.
func demoBook(t *testing.T) kitchen.Book {
	t.Helper()
	house, err := app.New(demo.Book(), func() time.Time { return frozenNoon })
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	return book
}

func seenNow(t *testing.T, r *app.Records) coldwatch.Seen {
	t.Helper()
	w, err := r.Watch(t.Context(), demoBook(t), record.Instant(frozenNoon.UnixMilli()), app.WatchDays)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range w.Seen {
		if s.Probe == "chest-2-air" {
			return s
		}
	}
	t.Fatal("nobody watches chest-2")
	return coldwatch.Seen{}
}

// A chest that read -18 °C all the time is over its limit of -15 °C once a check finds that its probe reads 5 °C too cold: what was cold before is
// looked at again.
func TestAFailedCheckIsLookedAtAgain(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 10, steady(-18), "")
	if s := seenNow(t, r); len(s.Stretches) != 0 || s.Silent != 0 || s.Read != 601 {
		t.Fatalf("a cold chest: %+v", s.Stretches)
	}
	check := record.Calibrated{Instrument: "chest-2-air", Method: record.IcePoint, Read: unit.TempC(-5), True: unit.TempC(0), Kept: record.Withdrawn}
	if _, err := r.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: frozenNoon, Body: check}); err != nil {
		t.Fatal(err)
	}
	s := seenNow(t, r)
	if len(s.Stretches) != 1 || s.Stretches[0].Kind != coldwatch.TooWarm || !s.Stretches[0].Accuracy.Doubt || s.Stretches[0].PeakC < -13.6 || s.Stretches[0].PeakC > -13.4 {
		t.Errorf("after the check: %+v", s.Stretches)
	}
}

// Readings with something odd about them prove no cold, unless it says nothing against the temperature or its time.
func TestOddReadingsProveNoCold(t *testing.T) {
	for flags, read := range map[string]int{"": 121, "after-gap": 121, "twice out-of-order": 121, "jump": 0, "after-gap repeated-hour": 0, "impossible": 0, "future": 0, "no-unit": 0} {
		if s := seenNow(t, readFreezer(t, "chest-2-air", 2, steady(-18), flags)); s.Read != read {
			t.Errorf("%q: %d readings count, want %d", flags, s.Read, read)
		}
	}
}

// While a probe is in a pot, by the records, what it reads is not of the chest: nobody knows then; what is measured by hand in the chest counts,
// and what is measured in a pack does not.
func TestAProbeThatWasInAPot(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 10, func(ago float64) float64 {
		if ago < 6 && ago > 3 {
			return 80
		}
		return -18
	}, "")
	hour := func(ago float64) record.Instant {
		return record.Instant(frozenNoon.Add(-time.Duration(ago * float64(time.Hour))).UnixMilli())
	}
	if s := seenNow(t, r); len(s.Stretches) != 1 {
		t.Fatalf("as long as nobody says where it was: %+v", s.Stretches)
	}
	say := func(ago float64, b record.Body) {
		if _, err := r.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: frozenNoon.Add(-time.Duration(ago * float64(time.Hour))), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	say(6.1, record.Watched{Probe: "chest-2-air", Run: "tue", Task: "beans/cool/1", Stage: record.StageCooling, From: hour(6.1), Until: hour(2.9)})
	s := seenNow(t, r)
	if len(s.Stretches) != 1 || s.Stretches[0].Kind != coldwatch.NotKnown || s.Away < 190 || s.Away > 194 {
		t.Errorf("while it was in the pot: %+v, %d readings left out", s.Stretches, s.Away)
	}
	say(4, record.Measured{Place: "chest-2/bottom", Point: "middle of a pack", Temp: unit.TempC(20), Instrument: "pen-1"})
	say(4, record.Measured{Place: "chest-2", Temp: unit.TempC(-18), Instrument: "pen-1"})
	if s := seenNow(t, r); len(s.Stretches) != 2 || s.Stretches[0].Until != hour(4) || s.Stretches[0].Kind != coldwatch.NotKnown {
		t.Errorf("with a measurement in between: %+v", s.Stretches)
	}
}

// Where the book does not say how warm a freezer may be, trade guidance does: 0 °F; in a walk-in the Food Code: 41 °F.
func TestLimitsWithoutTheBook(t *testing.T) {
	book := demoBook(t)
	book.Thermometers = maps.Clone(book.Thermometers)
	for id, x := range book.Thermometers {
		x.Warmest = nil
		book.Thermometers[id] = x
	}
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	w, err := r.Watch(t.Context(), book, record.Instant(frozenNoon.UnixMilli()), 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range w.Seen {
		want := 0.0
		if s.Place == "walk-in" {
			want = 41
		}
		if got := s.LimitC*1.8 + 32; got < want-1e-9 || got > want+1e-9 || s.LimitSource == "" {
			t.Errorf("%s may be up to %g °F (%s), want %g", s.Place, got, s.LimitSource, want)
		}
	}
	if len(w.Seen) != 4 {
		t.Errorf("%d places are watched, want 4", len(w.Seen))
	}
}
