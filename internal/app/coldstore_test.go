package app_test

import (
	"path/filepath"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// A pack of 90 lb in all lies in one of the two chests: the book says the chests hold 160 lb, the records say 90, and nothing in the upright.
func TestFreezersHoldWhatTheRecordsSay(t *testing.T) {
	house, err := app.New(demo.Book(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := house.Book()
	numbers, err := record.ParseNumbers("1-90")
	if err != nil {
		t.Fatal(err)
	}
	r, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	house.Follow(r)
	if book, _ := house.Book(); book.Freezers["chest"].Holds != before.Freezers["chest"].Holds || before.Freezers["chest"].Holds != 160*unit.Pound {
		t.Errorf("without an entry the chests hold %s", book.Freezers["chest"].Holds)
	}
	packed := record.Packed{Run: "tue", Pack: "bean-pot-2lb", Lot: "P-1", Numbers: numbers, Label: unit.Pound, Mass: 90 * unit.Pound, From: []record.Part{{Lot: "M", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1/bottom"}
	if _, err := r.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: time.Now(), Body: packed}); err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	if chest, upright := book.Freezers["chest"].Holds, book.Freezers["upright"].Holds; chest != 90*unit.Pound || upright != 0 {
		t.Errorf("the chests hold %s and the upright %s, want 90 lb and nothing", chest, upright)
	}
	err = r.Cold(t.Context(), book, "2026-12-01", func(store coldstore.Store, _ *lots.State, _ finding.List) error {
		chest, _ := store.Spot("chest-1")
		if want := 400*unit.Pound - 90*unit.Pound; chest.Rest.Mass != want || chest.AllPacks != 90 {
			t.Errorf("in the first chest are %d packs and room for %s, want 90 and %s", chest.AllPacks, chest.Rest.Mass, want)
		}
		// Of 400 lb more of it: 310 lb fit by mass into the first chest, and the rest elsewhere.
		p, found := store.RoomFor(app.LoadsOf(plan.Plan{Fill: []plan.PackFill{{Pack: "bean-pot-2lb", Name: "Bean pot", Count: 200, Net: 2 * unit.Pound}}}), unit.US)
		if len(found) > 0 || p.Left[0] != 0 || p.Fit != 400*unit.Pound {
			t.Errorf("of 400 lb %s fit, found %v", p.Fit, found)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
