package app

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/record"
)

// What somebody looks for: a word, a slip of the pen, codes, a day, what is in nearly everything.
var lookedFor = []string{"cheddar", "chedar", "P-1201", "2026-11", "#17", "p", "lot from"}

func benchFind(b *testing.B, f *Finder) {
	for _, words := range lookedFor {
		b.Run(words, func(b *testing.B) {
			total := 0
			for b.Loop() {
				v, err := f.Find(b.Context(), FindAsk{Words: words})
				if err != nil {
					b.Fatal(err)
				}
				total = v.Total
			}
			b.ReportMetric(float64(total), "found")
		})
	}
}

func BenchmarkFindInTheDemo(b *testing.B) {
	house, err := New(demo.Book(), time.Now)
	if err != nil {
		b.Fatal(err)
	}
	benchFind(b, NewFinder(house, nil, nil))
}

// BenchmarkFindInYears looks through three invented years, once with nothing new, and once after an entry about a lot, which has the lots made
// ready anew.
func BenchmarkFindInYears(b *testing.B) {
	_, lines := years(b, history.ThreeYears)
	now := func() time.Time { return time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC) }
	r := openRecords(b, filepath.Join(b.TempDir(), "kitchen.records"), now)
	if _, err := r.Import(b.Context(), lines); err != nil {
		b.Fatal(err)
	}
	house, err := New(kitchentest.Without(demo.Book(), "safety.yaml"), now)
	if err != nil {
		b.Fatal(err)
	}
	house.Follow(r)
	f := NewFinder(house, r, NewBoards(r, house))
	if _, err := f.Find(b.Context(), FindAsk{Words: "first"}); err != nil {
		b.Fatal(err)
	}
	benchFind(b, f)
	b.Run("after an entry", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			body := record.Received{Lot: record.Lot(fmt.Sprintf("NEW-%d", i)), Ingredient: "salt", Supplier: "Hill", Mass: 1_000_000_000_000, Place: "dry-store"}
			if _, err := r.Enter(b.Context(), Said{Who: "nora", Device: "tablet", At: now().Add(time.Duration(i) * time.Second), Body: body}); err != nil {
				b.Fatal(err)
			}
			if v, err := f.Find(b.Context(), FindAsk{Words: string(body.Lot)}); err != nil || v.Total == 0 {
				b.Fatal(v.Total, err)
			}
		}
	})
}
