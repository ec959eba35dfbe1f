package web

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// millionPacks is the demo kitchen after three years: 470 runs of three dishes and a million packs, of which those of the last hundred runs are
// on hand in part, in seven places.
func millionPacks(b *testing.B) http.Handler {
	b.Helper()
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), coldNoon)
	if err != nil {
		b.Fatal(err)
	}
	records := recordsOf(b)
	house.Follow(records)
	at := coldNoon().AddDate(-3, 0, 0)
	var said []app.Said
	say := func(body record.Body) {
		at = at.Add(30 * time.Minute)
		said = append(said, app.Said{Who: "Ada", Device: "tablet", At: at, Body: body})
		if len(said) < 1000 {
			return
		}
		if _, err := records.Enter(b.Context(), said...); err != nil {
			b.Fatal(err)
		}
		said = said[:0]
	}
	places := []record.Place{"chest-1/baskets", "chest-1/bottom", "chest-2/bottom", "upright/shelf-1", "upright/shelf-2", "upright/shelf-3", "upright/shelf-4"}
	const each = 710
	for run := range 470 {
		for dish, pack := range []string{"bean-pot-2lb", "ale-cheddar-lb", "meatballs-six"} {
			batch, lot := record.Lot(fmt.Sprintf("M-%d-%d", dish, run)), record.Lot(fmt.Sprintf("P-%d-%d", dish, run))
			say(record.Received{Lot: record.Lot(fmt.Sprintf("R-%d-%d", dish, run)), Ingredient: "carrot", Supplier: "hillside", Mass: 71 * unit.Kilogram})
			say(record.Used{Run: fmt.Sprint(run), Dish: pack, Lot: record.Lot(fmt.Sprintf("R-%d-%d", dish, run)), Mass: 71 * unit.Kilogram})
			say(record.Made{Run: fmt.Sprint(run), Dish: pack, Output: pack, Lot: batch, Mass: each * unit.Kilogram / 10})
			say(record.Packed{Run: fmt.Sprint(run), Pack: pack, Lot: lot, Numbers: numbersOf(b, fmt.Sprintf("1-%d", each)), Label: unit.Kilogram / 10, Mass: each * unit.Kilogram / 10, From: []record.Part{{Lot: batch, Mass: each * unit.Kilogram / 10}}, BestBefore: "2027-06-01", Place: places[run%len(places)]})
			last := each
			if run >= 370 {
				last = each * 4 / 5
			}
			for c := range 20 {
				say(record.HandedOver{Customer: fmt.Sprint("customer-", c), Lot: lot, Numbers: numbersOf(b, fmt.Sprintf("%d-%d", 1+c*last/20, (c+1)*last/20))})
			}
		}
	}
	if _, err := records.Enter(b.Context(), said...); err != nil {
		b.Fatal(err)
	}
	return New(house, Options{Records: records})
}

func BenchmarkStockOfThreeYears(b *testing.B) {
	h := millionPacks(b)
	for _, target := range []string{"/stock", "/stock/place?place=upright", "/stock/count?place=upright/shelf-1", "/stock/map/places.svg", "/stock.json"} {
		size := get(h, target).Body.Len() // the first folds the records
		b.Run(strings.Trim(target, "/"), func(b *testing.B) {
			for b.Loop() {
				if w := get(h, target); w.Code != http.StatusOK {
					b.Fatal(w.Code)
				}
			}
			b.ReportMetric(float64(size)/1000, "kB")
		})
	}
}
