// Package crawltest follows every link and sends every form of the pages, as somebody with all the time in the world would.
package crawltest

import (
	"net/http"
	"path/filepath"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
	"kettlefrost/schema"
)

// kitchen is the demo kitchen in the middle of a day, with something open in each of its areas, so that all forms are shown. All of it is invented.
type kitchen struct {
	pages   http.Handler
	records *app.Records
	now     time.Time
}

const boardRun = "tuesday-2026-12-01"

func busyKitchen(t *testing.T) *kitchen {
	t.Helper()
	k := &kitchen{now: time.Date(2026, 12, 1, 9, 30, 0, 0, time.UTC)}
	clock := func() time.Time { return k.now }
	path := filepath.Join(t.TempDir(), "kitchen.records")
	var err error
	if k.records, err = app.OpenRecords(t.Context(), path, clock); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { k.records.Close() })
	if _, err := k.records.ImportBook(t.Context(), demo.Book(), app.Author{Who: "Ada", Device: "office", At: k.now.AddDate(0, 0, -90)}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(k.records.Book(), clock)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(k.records)
	k.sell(t, house)
	k.cook(t, house)
	k.try(t)
	k.read(t, path)
	k.pages = web.New(house, web.Options{Records: k.records, Schemas: schema.Files()})
	return k
}

// say enters what happened so many minutes ago.
func (k *kitchen) say(t *testing.T, minutesAgo int, bodies ...record.Body) {
	t.Helper()
	for _, b := range bodies {
		said := app.Said{Who: "Nora", Device: "tablet", At: k.now.Add(-time.Duration(minutesAgo) * time.Minute), Body: b}
		if _, err := k.records.Enter(t.Context(), said); err != nil {
			t.Fatalf("%T: %v", b, err)
		}
	}
}

func packsOf(t *testing.T, pack string, lot record.Lot, numbers string, count int64, place record.Place) record.Packed {
	t.Helper()
	mass := unit.Mass(count) * unit.Pound
	return record.Packed{Run: "last-week", Pack: pack, Lot: lot, Numbers: numbersOf(t, numbers), Label: unit.Pound, Mass: mass,
		From: []record.Part{{Lot: "M-" + lot, Mass: mass}}, BestBefore: "2027-05-17", Place: place}
}

func numbersOf(t *testing.T, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

const week = 7 * 24 * 60 // minutes

// sell has customers, orders of every kind, packs handed over, and some of them billed.
func (k *kitchen) sell(t *testing.T, house *app.App) {
	t.Helper()
	lines := []record.OrderLine{{Pack: "ale-cheddar-lb", Count: 7}, {Pack: "lentil-squash-lb", Count: 2}}
	k.say(t, 8*week, record.Customer{Customer: "cafe", Name: "Café Örtlich", Address: "1 Mill Lane\nSpringfield", Phone: "555-0100"},
		record.Customer{Customer: "inn", Name: "The Inn at Long Pond", Address: "2 Pond Road", Prices: "tables"},
		packsOf(t, "ale-cheddar-lb", "P-old", "1-400", 400, "chest-1"))
	k.say(t, 6*week, record.HandedOver{Customer: "inn", Lot: "P-old", Numbers: numbersOf(t, "1-24")})
	k.say(t, 3*week, record.HandedOver{Customer: "inn", Lot: "P-old", Numbers: numbersOf(t, "25-48")})
	k.say(t, week, packsOf(t, "ale-cheddar-lb", "P-1117-1", "1-20", 20, "chest-1/shelf 10"), packsOf(t, "lentil-squash-lb", "P-1117-2", "1-30", 30, "chest-2/shelf 1"),
		record.Ordered{Order: "O-1", Customer: "cafe", Lines: lines, Due: "2026-12-01", Way: record.Deliver, Note: "ring twice"},
		record.Ordered{Order: "O-2", Customer: "inn", Lines: lines, Due: "2026-12-01", Way: record.Deliver},
		record.Ordered{Order: "O-3", Customer: "cafe", Lines: lines, Due: "2026-12-04", Way: record.Collect, Weeks: 2},
		record.Ordered{Order: "O-4", Customer: "cafe", Lines: lines[:1], Due: "2026-12-01", Way: record.Deliver},
		record.Picked{Order: "O-4", Lot: "P-1117-1", Numbers: numbersOf(t, "20")},
		record.HandedOver{Order: "O-4", Customer: "cafe", Lot: "P-1117-1", Numbers: numbersOf(t, "20"), TakenBy: "Jo"},
		record.Held{Lot: "P-1117-2", Numbers: numbersOf(t, "29-30"), Why: "a burst bag"})
	book, _ := house.Book()
	day := app.Today(k.now.AddDate(0, 0, -30))
	if _, err := k.records.Issue(t.Context(), book, app.Said{Who: "Ada", Device: "office", At: k.now.AddDate(0, 0, -30)}, app.BillAsk{Customer: "inn", Until: day, Day: day}, 0); err != nil {
		t.Fatal(err)
	}
}

// cook has a production under way, one whose records are judged, and lots from the delivery to the pack.
func (k *kitchen) cook(t *testing.T, house *app.App) {
	t.Helper()
	k.say(t, week, record.Received{Lot: "R-carrot", Ingredient: "carrot", Supplier: "farm", SupplierLot: "77", Mass: 20 * unit.Kilogram, Place: "walk-in", UseBy: "2026-12-09"},
		record.Used{Run: "last-week", Dish: "soup", Lot: "R-carrot", Mass: 16 * unit.Kilogram},
		record.Made{Run: "last-week", Dish: "soup", Output: "soup", Lot: "M-soup", Mass: 26 * unit.Kilogram},
		record.Packed{Run: "last-week", Pack: "soup-650", Lot: "P-soup", Numbers: numbersOf(t, "1-39"), Label: 650 * unit.Gram, Mass: 25_500 * unit.Gram,
			From: []record.Part{{Lot: "M-soup", Mass: 25_500 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.HandedOver{Customer: "cafe", Lot: "P-soup", Numbers: numbersOf(t, "1-12")}, record.Held{Lot: "P-soup", Why: "cooled slowly"},
		record.Opened{Run: "lentils", Request: "kettle", Day: "2026-11-24", Plan: record.Hash{1}},
		record.Packed{Run: "lentils", Pack: "lentil-squash-lb", Lot: "P-1", Numbers: numbersOf(t, "1-40"), Label: unit.Pound, Mass: 40 * unit.Pound,
			From: []record.Part{{Lot: "B-1", Mass: 40 * unit.Pound}}, BestBefore: "2027-06-01", Place: "chest-1"})
	opened, err := app.NewBoards(k.records, house).Opening(t.Context(), "tuesday", "2026-12-01", boardRun)
	if err != nil {
		t.Fatal(err)
	}
	k.say(t, 200, opened)
	production, err := app.NewBoards(k.records, house).Production(t.Context(), boardRun, false)
	if err != nil {
		t.Fatal(err)
	}
	minute := k.now.Hour()*60 + k.now.Minute()
	for _, task := range production.First.Timetable.Tasks {
		if int(task.Start) < minute {
			k.say(t, minute-int(task.Start), record.Started{Run: boardRun, Task: task.Key})
		}
		if int(task.End) < minute {
			k.say(t, minute-int(task.End), record.Finished{Run: boardRun, Task: task.Key})
		}
	}
}

// try has a freezer trial with packs to open.
func (k *kitchen) try(t *testing.T) {
	t.Helper()
	bound := record.Decimal(10_000)
	by := app.Said{Who: "Nora", Device: "tablet", At: k.now}
	_, err := k.records.LayTrial(t.Context(), by, record.TrialLaid{Trial: "gum", Dish: "ale-cheddar", Asks: "does gum keep it from weeping?", Seed: 7, Packs: 1, Weeks: []record.Week{0, 4, 8}, Tasters: []string{"Nora", "Sam"},
		Variants: []record.Variant{{Name: "as it is", Change: "as in the book", Base: true}, {Name: "with a little gum", Change: "0.2 % xanthan"}},
		Figures:  []record.Figured{{Figure: trials.Drip, Unit: trials.Grams, Better: record.LowIsBetter, Matters: 3000, Bound: &bound}, {Figure: "texture", Unit: trials.Points, Better: record.HighIsBetter, Matters: 1000}}})
	if err != nil {
		t.Fatal(err)
	}
	k.say(t, 0, record.TrialMade{Trial: "gum", Variant: "as it is", Mass: unit.Kilogram, Packs: 3, Each: 300 * unit.Gram, Frozen: "2026-12-01"})
}

// read has a chest that was too warm for an hour this morning.
func (k *kitchen) read(t *testing.T, path string) {
	t.Helper()
	kept, err := store.Open(t.Context(), path, func() record.Instant { return record.Instant(k.now.UnixMilli()) })
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	var readings []store.Reading
	for i := range 72 {
		milliC := int64(-19_000)
		if i >= 48 && i < 54 {
			milliC = -2_000
		}
		at := k.now.Add(time.Duration(i-72) * 10 * time.Minute)
		readings = append(readings, store.Reading{Probe: "chest-2-air", At: record.Instant(at.UnixMilli()), MilliC: milliC, Valued: true, Line: i + 1})
	}
	if err := kept.TakeReadings(t.Context(), store.Batch{ID: record.ID{2}, Who: "Nora", Readings: readings}); err != nil {
		t.Fatal(err)
	}
}
