package coldstore_test

import (
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// threeYears is 470 runs of three dishes: a million packs, of which a fifth of the newest hundred runs is on hand, in four places.
func threeYears(t testing.TB) []record.Entry {
	t.Helper()
	var entries []record.Entry
	say := func(b record.Body) {
		n := len(entries)
		e, err := record.Say(record.ID{1, byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)}, record.Instant(1_700_000_000_000+600_000*n), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(n + 1)
		entries = append(entries, e)
	}
	places := []record.Place{"chest/basket", "chest/bottom", "upright", "walk-in"}
	const each = 710
	for run := range 470 {
		for dish := range 3 {
			name := fmt.Sprintf("dish-%d", dish)
			for k := range 8 {
				goods := record.Lot(fmt.Sprintf("R-%d-%d", dish*5+k, run/5))
				if run%5 == 0 && k >= 3*btoi(dish > 0) {
					say(record.Received{Lot: goods, Ingredient: fmt.Sprintf("ingredient-%d", dish*5+k), Supplier: "farm", Mass: 500 * kg, Paid: 90_000_000, Place: "walk-in"})
				}
				say(record.Used{Run: fmt.Sprint(run), Dish: name, Lot: goods, Mass: 10 * kg})
			}
			batch, pack := record.Lot(fmt.Sprintf("M-%d-%d", dish, run)), record.Lot(fmt.Sprintf("P-%d-%d", dish, run))
			say(record.Made{Run: fmt.Sprint(run), Dish: name, Output: name, Lot: batch, Mass: each * kg / 10, Place: "walk-in"})
			say(record.Packed{Run: fmt.Sprint(run), Pack: name, Lot: pack, Numbers: nos(t, fmt.Sprintf("1-%d", each)), Label: kg / 10, Mass: each * kg / 10, From: []record.Part{{Lot: batch, Mass: each * kg / 10}}, BestBefore: "2027-06-01", Place: places[run%4]})
			left := 0
			if run >= 370 {
				left = each / 5
			}
			for c := range 20 {
				first, last := 1+left+c*(each-left)/20, left+(c+1)*(each-left)/20
				say(record.HandedOver{Customer: fmt.Sprintf("customer-%d", c), Lot: pack, Numbers: nos(t, fmt.Sprintf("%d-%d", first, last))})
			}
		}
	}
	return entries
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Of three years, what is left is what was not handed over: 142 packs of each of the newest 300 lots.
func TestThreeYears(t *testing.T) {
	s, found := lots.Of(slices.Values(threeYears(t)))
	if len(found) > 0 {
		t.Fatalf("found %v", found[0])
	}
	packs := int64(0)
	for _, spot := range coldstore.Look(rooms(), s, "2026-12-01", nil).Spots {
		packs += spot.Packs
	}
	if packs != 300*142 {
		t.Errorf("%d packs on hand, want %d", packs, 300*142)
	}
}

func BenchmarkThreeYears(b *testing.B) {
	s, _ := lots.Of(slices.Values(threeYears(b)))
	b.Run("look", func(b *testing.B) {
		for b.Loop() {
			store := coldstore.Look(rooms(), s, "2026-12-01", nil)
			store.Findings(unit.Metric)
			store.OldestFirst()
		}
	})
	b.Run("put away", func(b *testing.B) {
		store := coldstore.Look(rooms(), s, "2026-12-01", nil)
		for b.Loop() {
			store.PutAway([]coldstore.Load{{What: "dish-1", Packs: 60, Each: kg / 10, Keep: coldstore.Frozen}})
		}
	})
	b.Run("take stock", func(b *testing.B) {
		tally := coldstore.Tally{Place: "upright"}
		for b.Loop() {
			tally.Against(s, nil)
		}
	})
}
