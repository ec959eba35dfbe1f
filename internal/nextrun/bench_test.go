package nextrun

import (
	"fmt"
	"testing"

	"kettlefrost/internal/kitchen"
)

// Three years of seven packs that sell by the score.
func BenchmarkThreeYears(b *testing.B) {
	book := bookOf(map[kitchen.PackID]kitchen.Pack{})
	var sold []Sale
	for p := range 7 {
		id := kitchen.PackID(fmt.Sprint("pack-", p))
		book.Packs[id] = kitchen.Pack{Keep: 10}
		for day := range 3 * 365 {
			sold = append(sold, Sale{id, kitchen.DaysBefore(today, day+1), int64((day*7+p*3)%23 + 1)})
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Plan(book, Ask{Today: today, Sold: sold}); err != nil {
			b.Fatal(err)
		}
	}
}
