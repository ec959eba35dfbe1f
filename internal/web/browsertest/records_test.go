package browsertest

import (
	"context"
	"slices"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

type records []record.Entry

func (r records) Lots(context.Context) (*lots.State, finding.List, error) {
	s, found := lots.Of(slices.Values(r))
	return s, found, nil
}

// diary is invented: carrots into a soup, packed, twelve packs sold and one of them told a second time, the rest held.
func diary(t *testing.T) records {
	t.Helper()
	numbers := func(text string) record.Numbers {
		n, err := record.ParseNumbers(text)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	var all records
	for i, b := range []record.Body{
		record.Received{Lot: "R-carrot", Ingredient: "carrot", Supplier: "farm", SupplierLot: "77", Mass: 20 * unit.Kilogram, Place: "walk-in", UseBy: "2026-12-09"},
		record.Used{Run: "tuesday-2026-12-01", Dish: "soup", Lot: "R-carrot", Mass: 16 * unit.Kilogram},
		record.Made{Run: "tuesday-2026-12-01", Dish: "soup", Output: "soup", Lot: "M-soup", Mass: 26 * unit.Kilogram},
		record.Packed{Run: "tuesday-2026-12-01", Pack: "soup-650", Lot: "P-soup", Numbers: numbers("1-39"), Label: 650 * unit.Gram, Mass: 25_500 * unit.Gram, From: []record.Part{{Lot: "M-soup", Mass: 25_500 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.HandedOver{Customer: "cafe", Lot: "P-soup", Numbers: numbers("1-12")},
		record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: numbers("12")},
		record.Held{Lot: "P-soup", Why: "cooled slowly"},
	} {
		e, err := record.Say(record.ID{byte(i + 1)}, record.Instant(1_780_000_000_000+60_000*i), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		all = append(all, e)
	}
	return all
}
