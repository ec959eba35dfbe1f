package app

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	_ "time/tzdata"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// atNoon is noon in New York on a day in winter.
func atNoon(t testing.TB) time.Time {
	t.Helper()
	z, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	return time.Date(2026, 12, 2, 12, 0, 0, 0, z)
}

func probeRecords(t testing.TB, now time.Time) *Records {
	t.Helper()
	r, err := OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r
}

// coolKitchen has a probe in its walk-in, one that never sent anything, and a logger.
func coolKitchen() kitchen.Book {
	warmest := unit.TempF(41)
	return kitchen.Book{
		Places:       map[kitchen.PlaceID]kitchen.Place{"walk-in": {Name: "the walk-in", Kind: kitchen.Chilled}},
		Thermometers: map[kitchen.ThermometerID]kitchen.Thermometer{"walk-in-1": {Name: "probe in the walk-in", Kind: kitchen.Probe, At: "walk-in", Warmest: &warmest}, "chest": {Name: "chest probe", Kind: kitchen.Probe, At: "walk-in"}, "pan": {Name: "pan probe", Kind: kitchen.Probe}, "tub-logger": {Name: "tub logger", Kind: kitchen.Logger}},
	}
}

// sent is what the store has of a probe, a word for each reading.
func sent(t testing.TB, r *Records, probe string) string {
	t.Helper()
	all, err := r.Readings(t.Context(), probe, 0, 1<<50)
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, x := range all {
		temp := "-"
		if x.Valued {
			temp = fmt.Sprintf("%.2f", float64(x.MilliC)/1000)
		}
		words = append(words, strings.TrimSpace(fmt.Sprintf("%s %s %q %s", time.UnixMilli(int64(x.At)).UTC().Format("15:04:05"), temp, x.Raw, x.Flags)))
	}
	return strings.Join(words, "\n")
}

// What a probe posts is kept as it was sent, with what is odd about it, and nothing is dropped or put right. Flags by hand.
func TestReadingsAreKeptAsPosted(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	at := func(m int) time.Time { return noon.Add(time.Duration(m) * time.Minute) }
	posted := Posted{ID: record.ID{7}, Device: "hub", Readings: []PostedReading{
		{Probe: "p", At: at(-5), Temp: "41", Unit: loggerfile.Fahrenheit},
		{Probe: "p", At: at(-4), Temp: "41.9 °F"},
		{Probe: "p", At: at(-3), Temp: "ERR", Unit: loggerfile.Celsius},
		{Probe: "p", At: at(-3), Temp: "5"},
		{Probe: "p", At: at(-4), Temp: "5,4", Unit: loggerfile.Celsius},
		{Probe: "p", At: at(10), Temp: "5", Unit: loggerfile.Celsius},
		{Probe: "p", At: at(-2), Temp: "3000", Unit: loggerfile.Celsius},
		{Probe: "p", RawAt: "yesterday", Temp: "5", Unit: loggerfile.Celsius},
		{Probe: "p", Temp: "5", Unit: loggerfile.Celsius},
		{Probe: "p", At: time.Unix(-5, 0), Temp: "5", Unit: loggerfile.Celsius},
		{Probe: "p", At: at(-1), Temp: strings.Repeat("9é", 200), Unit: loggerfile.Celsius},
	}}
	taken, err := r.TakePosted(t.Context(), posted, noon)
	if err != nil || taken.Taken != 11 {
		t.Fatalf("%+v, %v", taken, err)
	}
	got := sent(t, r, "p")
	for _, want := range []string{`16:55:00 5.00 "41"`, `16:56:00 5.50 "41.9 °F"`, `16:57:00 - "ERR" no-number`, `16:57:00 - "5" no-unit`, `16:56:00 5.40 "5,4" twice`, `17:10:00 5.00 "5" future`,
		`16:58:00 3000.00 "3000" impossible`, `17:00:00 - "yesterday | 5" no-time`, `17:00:00 5.00 "5" time-of-receipt`, `no-time`, `cut-short`} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in\n%s", want, got)
		}
	}
	if n := strings.Count(got, "\n") + 1; n != 11 {
		t.Errorf("%d readings are kept of 11:\n%s", n, got)
	}
	// Sent again, and sent again after a restart: once.
	if again, err := r.TakePosted(t.Context(), posted, noon.Add(time.Minute)); err != nil || !slices.EqualFunc(again.Flagged, taken.Flagged, func(a, b PostedFlagged) bool { return a.Nth == b.Nth }) {
		t.Errorf("%+v, %v", again, err)
	}
	r.tails = readingTails{}
	if _, err := r.TakePosted(t.Context(), posted, noon.Add(2*time.Minute)); err != nil {
		t.Error(err)
	}
	if now := sent(t, r, "p"); now != got {
		t.Errorf("sent again it is\n%s\nbefore it was\n%s", now, got)
	}
}

// A probe that sends on after a restart is judged beside what it sent before: three minutes apart, then an hour.
func TestFlagsOverARestart(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	post := func(m int, temp string) []PostedFlagged {
		taken, err := r.TakePosted(t.Context(), Posted{Device: "p", Readings: []PostedReading{{Probe: "p", At: noon.Add(time.Duration(m) * time.Minute), Temp: temp, Unit: loggerfile.Fahrenheit}}}, noon.Add(3*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		return taken.Flagged
	}
	for m := range 6 {
		if flags := post(3*m, "38"); len(flags) > 0 {
			t.Errorf("minute %d: %v", 3*m, flags)
		}
	}
	r.tails = readingTails{}
	for _, c := range []struct {
		m    int
		temp string
		want string
	}{{75, "38", "[{0 [after-gap]}]"}, {75, "38.1", "[{0 [twice]}]"}, {20, "38", "[{0 [out-of-order]}]"}, {78, "38", "[]"}, {81, "3.3", "[{0 [jump]}]"}} {
		if got := fmt.Sprint(post(c.m, c.temp)); got != c.want {
			t.Errorf("minute %d, %s: %s, want %s", c.m, c.temp, got, c.want)
		}
	}
}

// 200 probes post ten times each, all at once, some of it twice: every reading is there once.
func TestNothingPostedIsLost(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	var all sync.WaitGroup
	for p := range 200 {
		all.Go(func() {
			for n := range 10 {
				name := fmt.Sprintf("probe %03d", p)
				posted := Posted{Device: name, Readings: []PostedReading{{Probe: name, At: noon.Add(time.Duration(n-20) * time.Second), Temp: fmt.Sprint(n), Unit: loggerfile.Celsius}}}
				for range 1 + (p+n)%3/2 { // each third is sent twice
					if _, err := r.TakePosted(t.Context(), posted, noon); err != nil {
						t.Error(err)
					}
				}
			}
		})
	}
	all.Wait()
	for p := range 200 {
		readings, err := r.Readings(t.Context(), fmt.Sprintf("probe %03d", p), 0, 1<<50)
		if err != nil || len(readings) != 10 {
			t.Fatalf("probe %d: %d readings (%v)", p, len(readings), err)
		}
		for n, x := range readings {
			if x.MilliC != int64(n)*1000 || x.Flags != "" {
				t.Errorf("probe %d, reading %d: %+v", p, n, x)
			}
		}
	}
}

func TestWhatIsNotTaken(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	for name, p := range map[string]Posted{
		"nothing":      {Device: "p"},
		"no probe":     {Device: "p", Readings: []PostedReading{{Temp: "5"}}},
		"a long probe": {Device: "p", Readings: []PostedReading{{Probe: strings.Repeat("p", 101), Temp: "5"}}},
		"nobody":       {Readings: []PostedReading{{Probe: "p", Temp: "5"}}},
		"very many":    {Device: "p", Readings: make([]PostedReading, mostPosted+1)},
	} {
		_, err := r.TakePosted(t.Context(), p, noon)
		if bad, is := errors.AsType[*PostError](err); !is || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	inspector := Acting(t.Context(), people.Actor{Person: "x", Device: "tablet"})
	_, err := r.TakePosted(inspector, Posted{Who: "x", Device: "tablet", Readings: []PostedReading{{Probe: "p", Temp: "5"}}}, noon)
	if _, is := errors.AsType[*people.DeniedError](err); !is {
		t.Errorf("somebody who may not: %v", err)
	}
}

// A probe without a clock, whose readings stand at the time of receipt, is heard and watched like any other.
func TestAProbeWithoutAClock(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	for m := range 60 {
		at := noon.Add(time.Duration(m-60) * time.Minute)
		if _, err := r.TakePosted(t.Context(), Posted{Device: "walk-in-1", Readings: []PostedReading{{Probe: "walk-in-1", Temp: "38 F"}}}, at); err != nil {
			t.Fatal(err)
		}
	}
	w, err := r.Watch(t.Context(), coolKitchen(), instantOf(noon), 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range w.Seen {
		if s.Probe == "walk-in-1" && (s.Read != 60 || s.Silent != 0 || s.Last == nil) {
			t.Errorf("%d read, silent since %d", s.Read, s.Silent)
		}
	}
	list, err := r.ProbeList(t.Context(), coolKitchen(), noon)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list.Findings {
		if f.Code == CodeProbeFlagged {
			t.Errorf("%+v", f)
		}
	}
}
