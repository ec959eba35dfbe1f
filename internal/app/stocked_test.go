package app_test

import (
	"path/filepath"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func numbers(t *testing.T, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// What is on hand by the records takes the place of the book's stock: a lot with its last day, packs without those that are held, sold or kept for tasting. What
// the records do not name stays as the book says.
func TestTheStockIsThatOfTheRecords(t *testing.T) {
	now := func() time.Time { return time.Date(2026, 12, 1, 6, 0, 0, 0, time.UTC) }
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), now)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := house.Book()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	defer records.Close()
	house.Follow(records)
	enter := func(b record.Body) record.Entry {
		t.Helper()
		entries, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: now(), Body: b})
		if err != nil {
			t.Fatal(err)
		}
		return entries[0]
	}
	enter(record.Received{Lot: "R-1", Ingredient: "leek", Supplier: "hillside", Mass: 9 * unit.Kilogram, UseBy: "2026-12-04"})
	enter(record.Received{Lot: "R-2", Ingredient: "leek", Supplier: "hillside", Mass: 5 * unit.Kilogram})
	enter(record.Held{Lot: "R-2", Why: "smells"})
	enter(record.Received{Lot: "M-1", Ingredient: "nothing of the book", Supplier: "x", Mass: unit.Kilogram})
	packed := enter(record.Packed{Run: "r", Pack: "ale-cheddar-lb", Lot: "P-1", Numbers: numbers(t, "1-50"), Label: unit.Pound, Mass: 50 * unit.Pound, From: []record.Part{{Lot: "B-1", Mass: 50 * unit.Pound}}, BestBefore: "2027-06-01"})
	old := enter(record.Packed{Run: "q", Pack: "ale-cheddar-lb", Lot: "P-0", Numbers: numbers(t, "1-7"), Label: unit.Pound, Mass: 7 * unit.Pound, From: []record.Part{{Lot: "B-0", Mass: 7 * unit.Pound}}, BestBefore: "2026-11-30"}) // yesterday
	enter(record.HandedOver{Customer: "cafe", Lot: "P-1", Numbers: numbers(t, "1-5")})
	enter(record.Held{Lot: "P-1", Numbers: numbers(t, "41-50"), Why: "torn"})
	enter(record.SetAside{Lot: "P-1", Pack: "ale-cheddar-lb", Numbers: numbers(t, "38-41"), Open: []record.Day{"2027-01-05"}})

	book, found := house.Book()
	if found.Worst() == finding.Stop {
		t.Fatal(found)
	}
	leek := book.Ingredients["leek"]
	if want := (kitchen.StockLot{Lot: "R-1", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 9 * unit.Kilogram}, Until: "2026-12-04"}); leek.Stock.Kind != 0 || len(leek.Lots) != 1 || leek.Lots[0] != want {
		t.Errorf("leek: %+v and %+v, want %+v", leek.Stock, leek.Lots, want)
	}
	if got := book.Packs["ale-cheddar-lb"].Frozen; got != 32 {
		t.Errorf("%d packs in the freezer, want 50 less 5 sold, 10 held and 3 more that are kept for tasting", got)
	}
	if got, want := book.Packs["meatballs-six"].Frozen, before.Packs["meatballs-six"].Frozen; got != want {
		t.Errorf("%d packs that no record names, want the book's %d", got, want)
	}
	if again, _ := house.Book(); again.Packs["ale-cheddar-lb"].Frozen != 32 {
		t.Error("a second look is another")
	}
	for _, e := range []record.Entry{packed, old} {
		if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: now(), Corrects: e.ID, Body: record.Voided{Why: "a slip"}}); err != nil {
			t.Fatal(err)
		}
	}
	if book, _ := house.Book(); book.Packs["ale-cheddar-lb"].Frozen != before.Packs["ale-cheddar-lb"].Frozen {
		t.Errorf("%d packs after the packing was taken back, want the book's again", book.Packs["ale-cheddar-lb"].Frozen)
	}
}

// Records that cannot be read stop a plan: what is on hand would be a guess.
func TestRecordsThatCannotBeRead(t *testing.T) {
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	if err := records.Close(); err != nil {
		t.Fatal(err)
	}
	if _, found := house.Book(); found.Worst() != finding.Stop {
		t.Errorf("found %v", found)
	}
}
