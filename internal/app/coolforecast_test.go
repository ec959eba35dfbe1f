package app

import (
	"context"
	"encoding/json"
	"io/fs"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/demo"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

const (
	kettleRun = "kettle-2026-12-01"
	soupLoad  = "lentil-squash/soup-chill/1"
)

// coolDay is the demo kitchen with the pot of lentils in its pans since 09:24.
func coolDay(t testing.TB) (*Boards, *Records, *hand) {
	t.Helper()
	boards, records, h := kettleDay(t)
	boards.house.(*App).Follow(records)
	h.set("09:24")
	say(t, records, h, record.Started{Run: kettleRun, Task: soupLoad})
	return boards, records, h
}

// reads is a reading at a time, in °F.
func reads(t testing.TB, r *Records, h *hand, clock string, f float64) {
	t.Helper()
	h.set(clock)
	say(t, r, h, record.Measured{Run: kettleRun, Dish: "lentil-squash", Output: "soup", Task: soupLoad, Point: "middle", Temp: unit.TempF(f), Instrument: "pen-1"})
}

func acts(t testing.TB, r *Records, h *hand, clock string, did record.Deed, f float64, text string) {
	t.Helper()
	h.set(clock)
	say(t, r, h, record.Acted{Run: kettleRun, Task: soupLoad, Did: did, Temp: new(unit.TempF(f)), Text: record.Text(text)})
}

func cooled(t testing.TB, b *Boards) (*Production, Cooling, CoolAdvice) {
	t.Helper()
	p := look1(t, b, kettleRun)
	all, err := b.Coolings(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	c, ok := CoolingOf(all, soupLoad)
	if !ok {
		t.Fatalf("nothing cools among %d", len(all))
	}
	return p, c, b.Advice(p, c)
}

func stepOf(p *Production, c Cooling, a CoolAdvice, h *hand) CoolStep {
	return VoiceOf(p).Step(c, a, record.Instant(h.now().UnixMilli()))
}

// Before anything is read, it is to be read. Then what is slower than predicted will not be in time, and what helps is said with the latest time
// for it; when it was done, the forecast goes by the way it was put into.
func TestACoolingIsForecastAndActedOn(t *testing.T) {
	boards, records, h := coolDay(t)
	p, c, a := cooled(t, boards)
	if c.Forecast.Why != coolforecast.NoReadings || stepOf(p, c, a, h).Do != "Read it now" || len(a.Actions) > 0 {
		t.Fatalf("unread: %s, %+v", c.Forecast.Why, stepOf(p, c, a, h))
	}
	for _, x := range []struct {
		at string
		f  float64
	}{{"09:30", 186}, {"10:00", 165}, {"10:30", 140}, {"11:00", 118}} {
		reads(t, records, h, x.at, x.f)
	}
	p, c, a = cooled(t, boards)
	if c.Forecast.Outcome != coolforecast.Misses || a.Now == nil {
		t.Fatalf("far too slow: %s, %+v", c.Forecast.Outcome, a.Now)
	}
	// By hand: the clock started at the last reading over 135 °F less what the thermometer may be wrong by, at 10:30; 70 °F is due at 12:30.
	if l := c.Forecast.Limits[0]; p.Clock(c.At(l.DeadlineS)).String() != "12:30" {
		t.Errorf("70 °F is due at %s", p.Clock(c.At(l.DeadlineS)))
	}
	latest := p.Clock(c.At(a.Now.LatestS))
	if latest < 11*60 || latest > 12*60+30 {
		t.Errorf("there is time until %s", latest)
	}
	found := CoolingFindings(kettleRun, []Cooling{c}, VoiceOf(p), record.Instant(h.now().UnixMilli()))
	if len(found) != 1 || found[0].Code != CodeCoolLate || found[0].Severity != finding.Stop {
		t.Errorf("findings: %v", found)
	}
	acts(t, records, h, "11:10", a.Now.Did, 113, a.Now.Text+"\nas much as fits")
	_, after, _ := cooled(t, boards)
	if after.Way != a.Now.Name || after.Case.Model == nil || after.Case.Model.FromS != after.seconds(record.Instant(h.now().UnixMilli())) {
		t.Errorf("after it was put into %s it is cooled by %q", a.Now.Name, after.Way)
	}
	if after.Forecast.Limits[0].ReachedS.Usual >= c.Forecast.Limits[0].ReachedS.Usual {
		t.Error("what was done makes it no quicker")
	}
}

// The forecast and the judgement of the record agree on what was missed. It may be heated again once: then both begin anew, and not twice.
func TestHeatedAgainOnce(t *testing.T) {
	boards, records, h := coolDay(t)
	for _, x := range []struct {
		at string
		f  float64
	}{{"09:30", 150}, {"10:30", 110}, {"11:31", 90}} {
		reads(t, records, h, x.at, x.f)
	}
	p, c, a := cooled(t, boards)
	if c.Forecast.Outcome != coolforecast.Missed || c.Log.Outcome != critical.Fail {
		t.Fatalf("forecast %s, record %s", c.Forecast.Outcome, c.Log.Outcome)
	}
	if a.Again == nil || !strings.Contains(stepOf(p, c, a, h).Do, "165 °F") || len(a.Actions) > 0 {
		t.Errorf("missed: %+v, %d actions", stepOf(p, c, a, h), len(a.Actions))
	}
	acts(t, records, h, "12:00", record.Reheated, 166, "")
	_, c, _ = cooled(t, boards)
	if c.Reheats != 1 || c.Forecast.Outcome == coolforecast.Missed || c.Forecast.Limits[0].Started || c.Log.Outcome == critical.Fail {
		t.Errorf("heated again: %d, %s, %+v; record %s", c.Reheats, c.Forecast.Outcome, c.Forecast.Limits[0], c.Log.Outcome)
	}
	reads(t, records, h, "12:20", 140)
	reads(t, records, h, "14:21", 90)
	p, c, a = cooled(t, boards)
	if c.Forecast.Outcome != coolforecast.Missed || c.Log.Outcome != critical.Fail || stepOf(p, c, a, h).Do != "Throw it away" || a.Again != nil {
		t.Errorf("missed again: %s, record %s, %+v", c.Forecast.Outcome, c.Log.Outcome, stepOf(p, c, a, h))
	}
	acts(t, records, h, "14:30", record.Reheated, 166, "")
	if p, c, a = cooled(t, boards); c.Problem == "" || c.Log.Why != critical.WhyReheated || stepOf(p, c, a, h).Do != "Throw it away" {
		t.Errorf("heated a third time: problem %q, record %s", c.Problem, c.Log.Why)
	}
	if r, err := boards.CoolingsReport(t.Context(), p, ""); err != nil || len(r.Findings) != 1 || r.Findings[0].Code != CodeCoolUnsaid {
		t.Errorf("its report: %+v, %v", r.Findings, err)
	}
}

// Read at both limits in time, it is over, and nothing is called safe. Its report writes no number that JSON does not have.
func TestReadAtItsLimits(t *testing.T) {
	boards, records, h := coolDay(t)
	for _, x := range []struct {
		at string
		f  float64
	}{{"09:30", 150}, {"10:00", 110}, {"10:40", 66}, {"12:30", 37}} {
		reads(t, records, h, x.at, x.f)
	}
	p, c, a := cooled(t, boards)
	if c.Forecast.Outcome != coolforecast.Over || c.Log.Outcome != critical.Pass {
		t.Fatalf("%s, record %s", c.Forecast.Outcome, c.Log.Outcome)
	}
	if s := stepOf(p, c, a, h); !strings.Contains(s.Why, "These readings meet") || strings.Contains(strings.ToLower(s.Do+s.Why), "safe") {
		t.Errorf("%+v", s)
	}
	report, err := boards.CoolingsReport(t.Context(), p, soupLoad)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(report); err != nil {
		t.Error(err)
	}
	if _, err := boards.CoolingsReport(t.Context(), p, "soup/none/1"); err == nil {
		t.Error("a load that is not there is reported")
	}
}

// A probe that is in the food gives readings, and a reading that is late is an alarm.
func TestProbesAndLateReadings(t *testing.T) {
	boards, records, h := coolDay(t)
	h.set("09:30")
	say(t, records, h, record.Watched{Probe: "pan-probe-1", Run: kettleRun, Task: soupLoad, Stage: record.StageCooling, Point: "middle", From: record.Instant(h.now().UnixMilli())})
	take := func(clock string, f float64) {
		h.set(clock)
		at := record.Instant(h.now().UnixMilli())
		batch := store.Batch{ID: record.ID{byte(at >> 16), byte(at >> 8), byte(at), 1}, Device: "pan-probe-1", Readings: []store.Reading{{Probe: "pan-probe-1", At: at, MilliC: int64(unit.TempF(f).C() * 1000), Valued: true, Raw: "as sent"}}}
		if err := records.store.TakeReadings(t.Context(), batch); err != nil {
			t.Fatal(err)
		}
	}
	take("09:35", 180)
	take("09:50", 168)
	p, c, _ := cooled(t, boards)
	if n := len(c.Case.Logs); n != 1 || len(c.Case.Logs[0].Readings) != 2 || c.Forecast.Why == coolforecast.NoReadings {
		t.Fatalf("%d points: %+v", n, c.Case.Logs)
	}
	now := record.Instant(h.now().UnixMilli())
	due, late, any := c.Due(now)
	if !any || late || due <= now {
		t.Errorf("due %d, late %v", due, late)
	}
	if _, late, _ := c.Due(due + graceMs + 1); !late {
		t.Error("a reading that did not come is not missed")
	}
	if _, _, late := VoiceOf(p).Due(c, due+graceMs+1); !late {
		t.Error("nobody says so")
	}
	if math.IsNaN(c.Forecast.LastS) {
		t.Error("it was never read")
	}
}

// Without rules in the book nothing is judged, and nothing forecast.
func TestABookWithoutRulesForecastsNothing(t *testing.T) {
	boards, records, h := kettleDay(t)
	h.set("09:24")
	say(t, records, h, record.Started{Run: kettleRun, Task: soupLoad})
	if all, err := boards.Coolings(t.Context(), look1(t, boards, kettleRun)); err != nil || len(all) > 0 {
		t.Errorf("%v, %v", all, err)
	}
}

func BenchmarkCoolings(b *testing.B) {
	boards, records, h := coolDay(b)
	reads(b, records, h, "09:30", 186)
	reads(b, records, h, "10:00", 165)
	p := look1(b, boards, kettleRun)
	for b.Loop() {
		boards.mu.Lock()
		delete(boards.coolings, kettleRun) // as of another minute
		boards.mu.Unlock()
		if _, err := boards.Coolings(b.Context(), p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAdvice(b *testing.B) {
	boards, records, h := coolDay(b)
	reads(b, records, h, "09:30", 186)
	reads(b, records, h, "10:30", 140)
	p, c, _ := cooled(b, boards)
	for b.Loop() {
		if a := boards.Advice(p, c); len(a.Actions) == 0 {
			b.Fatal("nothing can be done")
		}
	}
}

// stagedKitchen is the demo kitchen with pans filled too deep to cool hot food in time, so that a small pot goes into the ice bath first.
func stagedKitchen(t *testing.T) fs.FS {
	t.Helper()
	book := fstest.MapFS{}
	err := fs.WalkDir(demo.Book(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Book(), path)
		if path == "freezing.yaml" {
			text = []byte(strings.NewReplacer("tending: 25 %", "tending: 100 %", "depth: 1 1/2 in", "depth: 2 in", "{count: 8, water: 8 lb", "{count: 1, water: 1 lb").Replace(string(text)))
		}
		book[path] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// A way in stages is forecast stage by stage: in the bath with what comes after it, and from when it was put into pans by these.
func TestAWayInStages(t *testing.T) {
	h := &hand{}
	h.set("05:30")
	house, err := New(stagedKitchen(t), h.now)
	if err != nil {
		t.Fatal(err)
	}
	records, err := OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), h.now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	boards := NewBoards(records, house)
	opened, err := boards.Opening(t.Context(), "small-friday", "2026-12-01", "friday")
	if err != nil {
		t.Fatal(err)
	}
	say(t, records, h, opened)
	house.Follow(records)
	stages := coolStages(look1(t, boards, "friday"), soupLoad)
	if len(stages) != 2 {
		t.Fatalf("%d stages: %v", len(stages), stages)
	}
	at := func(clock string, f float64) {
		h.set(clock)
		say(t, records, h, record.Measured{Run: "friday", Dish: "lentil-squash", Output: "soup", Task: stages[0].Key, Point: "middle", Temp: unit.TempF(f), Instrument: "pen-1"})
	}
	load := func() Cooling {
		all, err := boards.Coolings(t.Context(), look1(t, boards, "friday"))
		if err != nil || len(all) != 1 {
			t.Fatalf("%d, %v", len(all), err)
		}
		return all[0]
	}
	h.set("08:00")
	say(t, records, h, record.Started{Run: "friday", Task: stages[0].Key})
	at("08:05", 170)
	at("08:15", 120)
	c := load()
	if c.Case.Model == nil || c.Case.Model.BendS == 0 || c.way.stage != 0 {
		t.Fatalf("in the bath: %+v", c.Case.Model)
	}
	at("08:40", 67)
	h.set("08:45")
	say(t, records, h, record.Finished{Run: "friday", Task: stages[0].Key})
	say(t, records, h, record.Started{Run: "friday", Task: stages[1].Key})
	c = load()
	if c.way.stage != 1 || c.Case.Model == nil || c.Case.Model.BendS != 0 || c.At(c.Case.Model.FromS) != record.Instant(h.now().UnixMilli()) {
		t.Fatalf("in the pans: stage %d, %+v", c.way.stage, c.Case.Model)
	}
	if from := c.Case.Model.Curve[0].CoreC; math.Abs(from-unit.TempF(67).C()) > 0.1 {
		t.Errorf("the pans begin at %.1f °C, read 67 °F", from)
	}
	if l := c.Forecast.Limits[0]; l.State != coolforecast.Met {
		t.Errorf("70 °F: %s", l.State)
	}
}
