package app_test

import (
	"io/fs"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

// judgedKitchen is the demo kitchen on the first day on which its lots are judged, with a clock that is set by hand.
type judgedKitchen struct {
	t       testing.TB
	house   *app.App
	records *app.Records
	clock   atomic.Int64
	folder  *fstest.MapFS
}

const lentilRun = "kettle-2026-12-01"

func openJudged(t testing.TB) *judgedKitchen {
	t.Helper()
	k := &judgedKitchen{t: t, folder: mapOf(t, demo.Book())}
	k.at(6, 0)
	now := func() time.Time { return time.UnixMilli(k.clock.Load()).UTC() }
	var err error
	if k.house, err = app.New(k.folder, now); err != nil {
		t.Fatal(err)
	}
	if k.records, err = app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { k.records.Close() })
	k.house.Follow(k.records)
	app.LookAtOnce(k.records)
	return k
}

// mapOf is a folder in memory, to be changed.
func mapOf(t testing.TB, folder fs.FS) *fstest.MapFS {
	all := fstest.MapFS{}
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(folder, name)
		all[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return &all
}

func (k *judgedKitchen) at(hour, minute int) record.Instant {
	at := time.Date(2026, 12, 1, hour, minute, 0, 0, time.UTC)
	k.clock.Store(at.UnixMilli())
	return record.Instant(at.UnixMilli())
}

func (k *judgedKitchen) enter(body record.Body) record.Entry {
	k.t.Helper()
	entries, err := k.records.Enter(k.t.Context(), app.Said{Who: "Nora", Device: "tablet", At: time.UnixMilli(k.clock.Load()), Body: body})
	if err != nil {
		k.t.Fatal(err)
	}
	return entries[0]
}

func (k *judgedKitchen) void(e record.Entry) {
	k.t.Helper()
	if _, err := k.records.Enter(k.t.Context(), app.Said{Who: "Nora", Device: "tablet", At: time.UnixMilli(k.clock.Load()), Corrects: e.ID, Body: record.Voided{Why: "a slip"}}); err != nil {
		k.t.Fatal(err)
	}
}

// run enters a run of lentils and squash that was packed, of which everything is written down but what a probe read while it cooled. It is the
// entry that says where that was.
func (k *judgedKitchen) run() record.Entry {
	k.t.Helper()
	k.enter(record.Opened{Run: lentilRun, Request: "kettle", Day: "2026-12-01", Plan: record.Hash{1}})
	s, err := k.records.Safety(k.t.Context())
	if err != nil || len(s.Runs) != 1 {
		k.t.Fatalf("%+v, %v", s, err)
	}
	var watched record.Entry
	for _, v := range s.Runs[0].Verdicts {
		switch v.What {
		case "cooking":
			k.at(9, 0)
			k.enter(record.Measured{Run: lentilRun, Task: v.Task, Temp: unit.TempF(205), Instrument: "pen-1"})
		case "cooling":
			watched = k.enter(record.Watched{Probe: "pan-probe-1", Run: lentilRun, Task: v.Task, Stage: record.StageCooling, Point: "the middle of the pot", From: k.at(10, 0), Until: k.at(16, 0)})
		}
	}
	if watched.Seq == 0 {
		k.t.Fatalf("nothing is to be cooled: %+v", s.Runs[0].Verdicts)
	}
	k.at(16, 30)
	k.enter(record.Made{Run: lentilRun, Dish: "lentil-squash", Output: k.output(), Lot: "B-1", Mass: 20 * unit.Kilogram, Place: "walk-in"})
	k.at(17, 0)
	k.enter(record.Packed{Run: lentilRun, Pack: "lentil-squash-lb", Lot: "P-1", Numbers: numbers(k.t.(*testing.T), "1-40"), Label: unit.Pound, Mass: 40 * unit.Pound, From: []record.Part{{Lot: "B-1", Mass: 40 * unit.Pound}}, BestBefore: "2027-06-01", Place: "chest-1"})
	k.enter(record.Signed{About: lentilRun + "/P-1/label", As: record.AsVerifier})
	return watched
}

// output is what the pack is filled from.
func (k *judgedKitchen) output() string {
	book, _ := k.house.Book()
	return string(book.Packs["lentil-squash-lb"].Fill[0].Of)
}

// reads has the probe in the pot send a cooling, °F at hours after 10:00.
func (k *judgedKitchen) reads(n byte, points ...[2]float64) {
	k.t.Helper()
	b := store.Batch{ID: record.ID{n}, Who: "probe", Device: "pan-probe-1", Name: ""}
	for i, p := range points {
		at := time.Date(2026, 12, 1, 10, 0, 0, 0, time.UTC).Add(time.Duration(p[0] * float64(time.Hour)))
		b.Readings = append(b.Readings, store.Reading{Probe: "pan-probe-1", At: record.Instant(at.UnixMilli()), MilliC: int64(unit.TempF(p[1]).C() * 1000), Valued: true, Line: i})
	}
	if err := app.TakeBatch(k.t.Context(), k.records, b); err != nil {
		k.t.Fatal(err)
	}
}

var goodCooling = [][2]float64{{0, 190}, {0.5, 140}, {1, 110}, {1.5, 80}, {1.9, 65}, {3, 50}, {5, 38}}

func (k *judgedKitchen) held(lot record.Lot) (held bool, why string) {
	k.t.Helper()
	err := k.records.Lots(k.t.Context(), func(s *lots.State, _ finding.List) error {
		if l := s.Lot(lot); l != nil && l.Held() {
			held, why = true, l.Holds[len(l.Holds)-1].Why
		}
		return nil
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return held, why
}

func (k *judgedKitchen) wants(held bool, when string) {
	k.t.Helper()
	if is, why := k.held("P-1"); is != held {
		k.t.Errorf("%s: held %v (%s), want %v", when, is, why, held)
	}
}

// A lot of packs is held until everything of it is written down and passes, and again when a correction, a check of the thermometer, more
// readings or a change of the book show otherwise.
func TestLotsAreHeldByTheirRecords(t *testing.T) {
	k := openJudged(t)
	watched := k.run()
	k.wants(true, "the probe sent nothing")
	k.reads(1, goodCooling...)
	k.wants(false, "the cooling was read")
	k.reads(2, [2]float64{2.5, 90})
	k.wants(true, "it was warm again")
	k.void(watched)
	k.wants(true, "no probe was in it")
	k.at(10, 0)
	task := k.task("cooling")
	for _, p := range goodCooling {
		k.clock.Store(time.Date(2026, 12, 1, 10, 0, 0, 0, time.UTC).Add(time.Duration(p[0] * float64(time.Hour))).UnixMilli())
		k.enter(record.Measured{Run: lentilRun, Task: task, Temp: unit.TempF(p[1]), Instrument: "pen-2"})
	}
	k.wants(false, "it was typed")
	k.at(18, 0)
	check := k.enter(record.Calibrated{Instrument: "pen-2", Method: record.IcePoint, Read: unit.TempF(20), True: unit.TempF(32), Kept: record.Withdrawn})
	k.wants(true, "the thermometer reads 12 °F too cold")
	k.void(check)
	k.wants(false, "that check was a slip")
	(*k.folder)["safety.yaml"].Data = []byte(strings.Replace(string((*k.folder)["safety.yaml"].Data), "rules:", "rules:\n    - {rule: fda-3-501.14-a-1, time: 1 h, reason: stricter}", 1))
	k.wants(true, "the kitchen asks for 70 °F within an hour")
	delete(*k.folder, "safety.yaml")
	k.wants(false, "the book has no rules of safety: nothing is judged")
}

func (k *judgedKitchen) task(what string) string {
	k.t.Helper()
	s, err := k.records.Safety(k.t.Context())
	if err != nil {
		k.t.Fatal(err)
	}
	for _, v := range s.Runs[0].Verdicts {
		if string(v.What) == what {
			return v.Task
		}
	}
	k.t.Fatalf("no %s", what)
	return ""
}

// A book that cannot be read frees nothing.
func TestASlipInTheBookFreesNothing(t *testing.T) {
	k := openJudged(t)
	k.run()
	k.wants(true, "nothing was read")
	(*k.folder)["safety.yaml"].Data = []byte("safety: [")
	k.wants(true, "the rules cannot be read")
}

// Runs of days before the one from which lots are judged, and what was there before the records began, are not judged; one that nobody opened is.
func TestWhatIsNotJudged(t *testing.T) {
	k := openJudged(t)
	pack := func(run string, lot record.Lot) {
		k.enter(record.Packed{Run: run, Pack: "lentil-squash-lb", Lot: lot, Numbers: numbers(t, "1-4"), Label: unit.Pound, Mass: 4 * unit.Pound, From: []record.Part{{Lot: "B-" + lot, Mass: 4 * unit.Pound}}, BestBefore: "2027-06-01"})
	}
	k.enter(record.Opened{Run: "before", Request: "kettle", Day: "2025-11-30", Plan: record.Hash{1}})
	pack("before", "P-0")
	pack("opening stock", "P-2")
	pack("nobody opened it", "P-3")
	for lot, want := range map[record.Lot]bool{"P-0": false, "P-2": false, "P-3": true} {
		if is, why := k.held(lot); is != want {
			t.Errorf("%s: held %v (%s)", lot, is, why)
		}
	}
}

// Every place that refuses held lots refuses these: no order gets a pack, none is picked or handed over, the stock and the next run do not count
// them. Once a named person has released the lot, all of them do.
func TestHeldByRecordsEverywhere(t *testing.T) {
	k := openJudged(t)
	k.run()
	k.enter(record.Customer{Customer: "cafe", Name: "Cafe"})
	k.enter(record.Ordered{Order: "1", Customer: "cafe", Due: "2026-12-03", Way: record.Collect, Lines: []record.OrderLine{{Pack: "lentil-squash-lb", Count: 5}}})
	before := k.frozen()
	look := func() (allotted int64, pick []orders.Objection) {
		t.Helper()
		err := k.records.Desk(t.Context(), "2026-12-01", func(d app.Desk) error {
			a, err := d.Allot("2026-12-10")
			if err != nil {
				return err
			}
			if v, ok := a.Of("1"); ok {
				for _, p := range v.ToPick() {
					allotted += p.Numbers.Count()
				}
			}
			pick = d.State.JudgePick(a, d.Stock, "1", "P-1", numbers(t, "1-2"))
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return allotted, pick
	}
	allotted, pick := look()
	if allotted != 0 || len(pick) == 0 || pick[0].Code != orders.IsHeld || !strings.Contains(pick[0].Says, "critical record") || before != 0 {
		t.Errorf("held: %d packs go to the order, %v, %d in the freezer", allotted, pick, before)
	}
	s, err := k.records.Safety(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	k.at(18, 0)
	for _, l := range s.Runs[0].Lots {
		for _, h := range l.Holds {
			k.enter(record.Released{Lot: l.Lot, Points: h.Points, Disposition: record.ReleaseForUse, Why: "the paper log was seen"})
		}
	}
	if allotted, pick = look(); allotted != 5 || len(pick) != 0 || k.frozen() != 40 {
		t.Errorf("released: %d packs go to the order, %v, %d in the freezer", allotted, pick, k.frozen())
	}
}

// What was set aside before its records turned out bad is not handed over; goods that came warm, or that nobody measured, are not reckoned with.
func TestHeldByRecordsOnTheWay(t *testing.T) {
	k := openJudged(t)
	k.run()
	k.reads(1, goodCooling...)
	k.wants(false, "all is written down")
	k.enter(record.Customer{Customer: "cafe", Name: "Cafe"})
	k.enter(record.Ordered{Order: "1", Customer: "cafe", Due: "2026-12-01", Way: record.Collect, Lines: []record.OrderLine{{Pack: "lentil-squash-lb", Count: 5}}})
	k.enter(record.Picked{Order: "1", Lot: "P-1", Numbers: numbers(t, "1-5")})
	handing := func() (against []orders.Objection) {
		t.Helper()
		err := k.records.Desk(t.Context(), "2026-12-01", func(d app.Desk) error {
			for _, o := range d.Live("2026-12-01", "2026-12-02") {
				against = d.JudgeHanding(o, d.Stock, "2026-12-01")
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return against
	}
	if against := handing(); len(against) > 0 {
		t.Fatalf("%v", against)
	}
	k.reads(2, [2]float64{2.5, 95})
	if against := handing(); len(against) == 0 || against[0].Code != orders.IsHeld {
		t.Errorf("it was warm again, and nothing speaks against handing it over: %v", against)
	}
	cold, warm := unit.TempF(38), unit.TempF(50)
	for lot, door := range map[record.Lot]*unit.Temp{"R-1": &cold, "R-2": &warm, "R-3": nil} {
		k.enter(record.Received{Lot: lot, Ingredient: "milk", Supplier: "hillside", Mass: 5 * unit.Kilogram, Door: door, UseBy: "2026-12-09"})
	}
	book, _ := k.house.Book()
	if stock := book.Ingredients["milk"].Lots; len(stock) != 1 || stock[0].Lot != "R-1" {
		t.Errorf("%v", stock)
	}
}

func (k *judgedKitchen) frozen() int {
	book, _ := k.house.Book()
	return book.Packs[kitchen.PackID("lentil-squash-lb")].Frozen
}
