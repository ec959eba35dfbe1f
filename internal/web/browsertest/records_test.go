package browsertest

import (
	"path/filepath"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// diary is invented: carrots into a soup, packed, twelve packs sold and one of them told a second time, the rest held.
func diary(t *testing.T) *app.Records {
	t.Helper()
	numbers := func(text string) record.Numbers {
		n, err := record.ParseNumbers(text)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	began := time.Date(2026, 12, 1, 6, 0, 0, 0, time.UTC)
	for i, b := range []record.Body{
		record.Received{Lot: "R-carrot", Ingredient: "carrot", Supplier: "farm", SupplierLot: "77", Mass: 20 * unit.Kilogram, Place: "walk-in", UseBy: "2026-12-09"},
		record.Used{Run: "tuesday-2026-12-01", Dish: "soup", Lot: "R-carrot", Mass: 16 * unit.Kilogram},
		record.Made{Run: "tuesday-2026-12-01", Dish: "soup", Output: "soup", Lot: "M-soup", Mass: 26 * unit.Kilogram},
		record.Packed{Run: "tuesday-2026-12-01", Pack: "soup-650", Lot: "P-soup", Numbers: numbers("1-39"), Label: 650 * unit.Gram, Mass: 25_500 * unit.Gram, From: []record.Part{{Lot: "M-soup", Mass: 25_500 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.HandedOver{Customer: "cafe", Lot: "P-soup", Numbers: numbers("1-12")},
		record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: numbers("12")},
		record.Held{Lot: "P-soup", Why: "cooled slowly"},
	} {
		if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: began.Add(time.Duration(i) * time.Minute), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return records
}
